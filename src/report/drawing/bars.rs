//! Weights against their ratings, as bars: the rating is the whole of the line, a range is hatched.

use super::{range_of, told};
use crate::facts::{FactSet, ItemId, Scope};
use crate::quantity::{Interval, Unit, format_interval};
use crate::report::Units;
use crate::report::markup::{hatches, px, shade};
use maud::{Markup, html};

const WIDTH: f64 = 760.0;
const LABELS: f64 = 210.0;
const WORDS: f64 = 230.0;
const ROW: f64 = 26.0;
const TOP: f64 = 22.0;
/// The share of the rating at the bars' right end.
const MOST: f64 = 1.4;

/// One weight with its rating.
struct Bar {
    label: String,
    weight: Option<Interval>,
    rating: Option<Interval>,
    words: String,
}

/// The weights of the rig as a whole, each with the ratings that may stand against it; the first
/// rating that is known counts.
const OF_RIG: &[(&str, &str, &[&str])] = &[
    ("trailer, gross", "trailer.gross_weight", &["trailer.gvwr"]),
    (
        "trailer, all axles",
        "trailer.axle_weight",
        &["trailer.axle_ratings"],
    ),
    (
        "tongue",
        "trailer.tongue_weight",
        &[
            "coupling.weakest_tongue_rating",
            "tow_vehicle.hitch.tongue_rating",
        ],
    ),
    (
        "trailer on its coupling",
        "trailer.gross_weight",
        &[
            "coupling.weakest_rating",
            "tow_vehicle.hitch.trailer_rating",
        ],
    ),
    (
        "towing vehicle, hitched",
        "tow_vehicle.hitched_weight",
        &["tow_vehicle.gvwr"],
    ),
    (
        "payload",
        "tow_vehicle.payload_weight",
        &["tow_vehicle.payload"],
    ),
    (
        "combination",
        "combination.gross_weight",
        &["tow_vehicle.gcwr"],
    ),
];

fn all(facts: &FactSet, units: Option<Units>) -> Vec<Bar> {
    let mut out = Vec::new();
    for (label, weight, ratings) in OF_RIG {
        let rating = ratings
            .iter()
            .find(|r| range_of(facts, ItemId::RIG, r).is_some())
            .or(ratings.first());
        if let Some(rating) = rating {
            out.extend(bar(facts, ItemId::RIG, label, weight, rating, units));
        }
    }
    for (scope, weight, rating) in [
        (Scope::Axle, "axle.weight", "axle.rating"),
        (
            Scope::VehicleAxle,
            "vehicle_axle.hitched_weight",
            "vehicle_axle.rating",
        ),
    ] {
        for index in 0..facts.items(scope).len().min(8) {
            let id = ItemId { scope, index };
            let whose = if scope == Scope::Axle {
                "trailer"
            } else {
                "towing vehicle"
            };
            let label = format!("{whose}, axle {}", index + 1);
            out.extend(bar(facts, id, &label, weight, rating, units));
        }
    }
    out
}

/// A bar; nothing where neither weight nor rating is known.
fn bar(
    facts: &FactSet,
    item: ItemId,
    label: &str,
    weight: &str,
    rating: &str,
    units: Option<Units>,
) -> Option<Bar> {
    let of = |name: &str| range_of(facts, item, name);
    let (w, r) = (of(weight), of(rating));
    if w.is_none() && r.is_none() {
        return None;
    }
    let tell = |name: &str| told(facts, item, name, units);
    let share = w
        .zip(r)
        .map(|(w, r)| format_interval(w.div(r), Unit::Percent));
    let words = match (tell(weight), tell(rating), share) {
        (Some(w), Some(r), Some(share)) => format!("{w} of {r}: {share}"),
        (Some(w), _, _) => format!("{w}; rating not stated"),
        (None, Some(r), _) => format!("weight not known; rating {r}"),
        (None, None, _) => String::new(),
    };
    Some(Bar {
        label: label.to_owned(),
        weight: w,
        rating: r,
        words,
    })
}

/// Draws the bars, with the words of each beneath them in a table.
pub(in crate::report) fn bars(facts: &FactSet, units: Option<Units>) -> Markup {
    let bars = all(facts, units);
    if bars.is_empty() {
        return html! {};
    }
    #[allow(clippy::cast_precision_loss)] // a few dozen rows
    let height = TOP + ROW * bars.len() as f64 + 6.0;
    let full = x(1.0);
    html! {
        div.wide tabindex="0" role="group" aria-label="Weights against ratings" {
            svg viewBox={ "0 0 " (px(WIDTH)) " " (px(height)) } role="img" aria-labelledby="bars-title" {
                title id="bars-title" {
                    "Weights against ratings. "
                    @for bar in &bars { (bar.label) ": " (bar.words) ". " }
                }
                (hatches("bars"))
                text x=(px(full)) y="14" font-size="11.5" text-anchor="middle" fill=(shade::INK) { "rating" }
                @for (n, bar) in bars.iter().enumerate() {
                    @let y = TOP + ROW * f64::from(u32::try_from(n).unwrap_or(0));
                    (draw(bar, y))
                }
                line x1=(px(full)) y1="18" x2=(px(full)) y2=(px(height - 4.0)) stroke=(shade::INK) stroke-width="2.5" {}
            }
        }
        table.plain {
            caption { "The same in figures" }
            thead { tr { th scope="col" { "What" } th scope="col" { "Weight, rating and share" } } }
            tbody { @for bar in &bars { tr { th scope="row" { (bar.label) } td { (bar.words) } } } }
        }
    }
}

/// Where a share of the rating stands.
fn x(share: f64) -> f64 {
    LABELS + share.clamp(0.0, MOST) / MOST * (WIDTH - LABELS - WORDS)
}

fn draw(bar: &Bar, y: f64) -> Markup {
    let share = bar.weight.zip(bar.rating).and_then(|(w, r)| {
        let share = w.div(r);
        Some((share.lo?.to_f64(), share.hi?.to_f64()))
    });
    html! {
        text x=(px(LABELS - 8.0)) y=(px(y + 15.0)) font-size="12" text-anchor="end" fill=(shade::INK) { (bar.label) }
        @if let Some((lo, hi)) = share {
            @let over = lo > 1.0;
            rect.bar data-share=(format!("{lo:.6}")) x=(px(LABELS)) y=(px(y + 4.0)) width=(px(x(lo) - LABELS)) height="15" fill=(if over { shade::BRICK } else { shade::DEEP }) stroke=(shade::INK) stroke-width=".8" {}
            @if hi > lo {
                rect.spread data-share=(format!("{hi:.6}")) x=(px(x(lo))) y=(px(y + 4.0)) width=(px(x(hi) - x(lo))) height="15" fill="url(#bars-open)" stroke=(shade::INK) stroke-width=".8" {}
            }
            text x=(px(WIDTH - WORDS + 10.0)) y=(px(y + 15.0)) font-size="11.5" fill=(shade::INK) {
                @if over { tspan font-weight="700" { "OVER: " } } @else if hi > 1.0 { tspan font-weight="700" { "may be over: " } }
                (percent(lo, hi))
            }
        } @else {
            rect.unknown x=(px(LABELS)) y=(px(y + 4.0)) width=(px(x(1.0) - LABELS)) height="15" fill=(shade::PAPER) stroke=(shade::QUIET) stroke-width="1.2" stroke-dasharray="4 3" {}
            text x=(px(WIDTH - WORDS + 10.0)) y=(px(y + 15.0)) font-size="11.5" fill=(shade::QUIET) {
                @if bar.weight.is_none() { "weight not known" }
                @else if bar.rating.is_none() { "rating not stated" }
                @else { "rating known only in part" }
            }
        }
    }
}

fn percent(lo: f64, hi: f64) -> String {
    if hi - lo < 0.0005 {
        format!("{:.1}% of the rating", lo * 100.0)
    } else {
        format!("{:.1}% to {:.1}%", lo * 100.0, hi * 100.0)
    }
}
