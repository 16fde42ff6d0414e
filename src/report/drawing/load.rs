//! The items of the load, and the places where they may lie.

use super::scene::{ItemPlace, Scene};
use super::side::{Frame, LOW, WIDTH, height, metres};
use crate::engine::solve::Standing;
use crate::report::markup::{px, shade};
use maud::{Markup, html};

/// One item on the deck: solid where it surely lies, hatched where it may reach, its number at its
/// centre of gravity.
pub(super) fn item(n: usize, place: &ItemPlace, frame: &Frame) -> Markup {
    let Some((lo, hi)) = place
        .at
        .and_then(|at| Some((metres(at.lo?), metres(at.hi?))))
    else {
        return html! {};
    };
    let scale = &frame.scale;
    let middle = f64::midpoint(lo, hi);
    let tall = height(place.height, scale);
    let top = frame.levels.deck - tall;
    let ends = place
        .length
        .and_then(|l| Some((metres(l.lo?), metres(l.hi?))));
    // Numbers that would fall upon one another stand at different heights.
    let mark = top - 16.0 - if n % 2 == 1 { 22.0 } else { 0.0 };
    html! {
        g.item data-item=(place.name) {
            title { (place.name) ": " (place.words) }
            @if let Some((least, most)) = ends {
                @let (outer1, outer2) = (scale.x(lo - most / 2.0), scale.x(hi + most / 2.0));
                @let (inner1, inner2) = (scale.x(hi - least / 2.0), scale.x(lo + least / 2.0));
                @if outer2 - outer1 > inner2 - inner1 + 1.0 {
                    rect x=(px(outer1)) y=(px(top)) width=(px(outer2 - outer1)) height=(px(tall)) fill="url(#rig-open)" stroke=(shade::INK) stroke-dasharray="4 3" {}
                }
                @if inner2 > inner1 {
                    rect.body x=(px(inner1)) y=(px(top)) width=(px(inner2 - inner1)) height=(px(tall)) fill=(shade::MIST) fill-opacity=".8" stroke=(shade::INK) stroke-width="1.5" {}
                }
                @if place.height.is_none() {
                    line x1=(px(outer1)) y1=(px(top)) x2=(px(outer2)) y2=(px(top)) stroke=(shade::PAPER) stroke-width="2.5" stroke-dasharray="5 4" {}
                }
            } @else {
                line x1=(px(scale.x(middle))) y1=(px(frame.levels.deck)) x2=(px(scale.x(middle))) y2=(px(frame.levels.deck - LOW)) stroke=(shade::INK) stroke-width="1.5" stroke-dasharray="4 3" {}
                text x=(px(scale.x(middle) + 6.0)) y=(px(frame.levels.deck - 8.0)) font-size="11" fill=(shade::QUIET) { "length not stated" }
            }
            line x1=(px(scale.x(middle))) y1=(px(mark)) x2=(px(scale.x(middle))) y2=(px(frame.levels.deck)) stroke=(shade::BRICK) stroke-width="1" stroke-dasharray="1 3" {}
            @if scale.x(hi) - scale.x(lo) > 1.0 {
                line x1=(px(scale.x(lo))) y1=(px(mark)) x2=(px(scale.x(hi))) y2=(px(mark)) stroke=(shade::INK) stroke-width="3" {}
            }
            circle.centre data-metres=(format!("{middle:.6}")) cx=(px(scale.x(middle))) cy=(px(mark)) r="10" fill=(shade::PAPER) stroke=(shade::INK) stroke-width="1.5" {}
            text x=(px(scale.x(middle))) y=(px(mark + 4.0)) font-size="12" font-weight="700" text-anchor="middle" fill=(shade::INK) { (n + 1) }
        }
    }
}

/// The items whose place is not known, in a row above the rear of the deck, with broken lines.
pub(super) fn unplaced(scene: &Scene, frame: &Frame) -> Markup {
    let lost = scene
        .load
        .iter()
        .enumerate()
        .filter(|(_, i)| i.at.is_none());
    let lost: Vec<(usize, &ItemPlace)> = lost.take(10).collect();
    let top = frame.levels.deck - LOW - 6.0;
    let first = WIDTH - 30.0 - 62.0 * f64::from(u32::try_from(lost.len()).unwrap_or(0));
    html! {
        @for (k, (n, place)) in lost.iter().enumerate() {
            @let x = first + 62.0 * f64::from(u32::try_from(k).unwrap_or(0));
            g.unknown {
                title { (place.name) ": " (place.words) "; its place is not known" }
                rect x=(px(x)) y=(px(top)) width="56" height=(px(LOW)) fill=(shade::PAPER) stroke=(shade::QUIET) stroke-width="1.5" stroke-dasharray="4 3" {}
                text x=(px(x + 28.0)) y=(px(top + 20.0)) font-size="12" font-weight="700" text-anchor="middle" fill=(shade::INK) { (n + 1) }
                text x=(px(x + 28.0)) y=(px(top + 35.0)) font-size="11" text-anchor="middle" fill=(shade::QUIET) { "place?" }
            }
        }
    }
}

/// Where an item's centre of gravity may lie, below the ruler.
pub(super) fn lane(n: usize, place: &ItemPlace, frame: &Frame, y: f64) -> Markup {
    let Some(lane) = &place.lane else {
        return html! {};
    };
    let scale = &frame.scale;
    let (first, last) = (scale.coupler, WIDTH - 26.0);
    html! {
        g.lane {
            title { "Where " (place.name) " may lie: " (lane.words) }
            text x=(px(first - 8.0)) y=(px(y + 14.0)) font-size="11.5" text-anchor="end" fill=(shade::INK) { "place of " (n + 1) }
            @for (from, to, standing) in &lane.bands {
                @let x1 = from.map_or(first, |m| scale.x(m)).clamp(first, last);
                @let x2 = to.map_or(last, |m| scale.x(m)).clamp(first, last);
                @if x2 - x1 > 0.4 {
                    rect class=(standing_class(*standing)) data-from=[from.map(|m| format!("{m:.6}"))] data-to=[to.map(|m| format!("{m:.6}"))]
                        x=(px(x1)) y=(px(y + 3.0)) width=(px(x2 - x1)) height="15" fill=(standing_fill(*standing)) stroke=(shade::INK) stroke-width=".8" {}
                    @if let Some(word) = standing_word(*standing).filter(|w| x2 - x1 > w.len() as f64 * 7.0 + 8.0) {
                        @let middle = f64::midpoint(x1, x2);
                        @let half = word.len() as f64 * 3.5 + 3.0;
                        rect x=(px(middle - half)) y=(px(y + 4.5)) width=(px(half * 2.0)) height="12" fill=(shade::PAPER) {}
                        text x=(px(middle)) y=(px(y + 14.5)) font-size="11" text-anchor="middle" fill=(shade::INK) { (word) }
                    }
                }
            }
            @if let Some((lo, hi)) = place.at.and_then(|at| Some((metres(at.lo?), metres(at.hi?)))) {
                @let x = scale.x(f64::midpoint(lo, hi));
                path d={ "M" (px(x)) " " (px(y + 3.0)) " l-5 -8 h10 z" } fill=(shade::INK) {}
            }
        }
    }
}

fn standing_class(standing: Standing) -> &'static str {
    match standing {
        Standing::Allowed => "allowed",
        Standing::Unknown => "open",
        Standing::Broken => "barred",
    }
}

fn standing_fill(standing: Standing) -> &'static str {
    match standing {
        Standing::Allowed => "url(#rig-allowed)",
        Standing::Unknown => "url(#rig-open)",
        Standing::Broken => "url(#rig-barred)",
    }
}

fn standing_word(standing: Standing) -> Option<&'static str> {
    match standing {
        Standing::Allowed => Some("allowed"),
        Standing::Unknown => Some("open"),
        Standing::Broken => Some("breaks a rule"),
    }
}
