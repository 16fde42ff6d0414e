//! The map: a tile for each region, shaded by the weight from which something is asked for, the
//! weight printed in it.

use super::tiles::{COLUMNS, TILES, Tile};
use super::{Comparison, Threshold};
use crate::pack::Region;
use crate::quantity::{Exact, Unit, format_exact};
use crate::report::markup::{hatches, px, shade};
use crate::report::units::{Units, turned};
use maud::{Markup, html};

const SIDE: f64 = 60.0;
const GAP: f64 = 4.0;

/// Draws the map with its key.
pub(super) fn map(c: &Comparison) -> Markup {
    let Some(lack) = &c.lack else {
        return html! {};
    };
    let steps = Steps::of(c);
    let rows = TILES.iter().map(|t| t.row).max().unwrap_or(0) + 1;
    let width = f64::from(COLUMNS) * (SIDE + GAP) + GAP;
    let height = f64::from(rows) * (SIDE + GAP) + GAP;
    let title = format!(
        "Map: gross weight of the trailer from which the lack of {} breaks a rule. The table below says the same.",
        lack.what
    );
    html! {
        div.wide tabindex="0" role="group" aria-label="Map of regions as tiles" {
            svg viewBox={ "0 0 " (px(width)) " " (px(height)) } role="img" aria-labelledby="map-title" {
                title id="map-title" { (title) }
                (hatches("map"))
                @for tile in &TILES { (draw(c, &steps, tile)) }
            }
        }
        (key(&steps, c.sheet.units))
    }
}

fn draw(c: &Comparison, steps: &Steps, tile: &Tile) -> Markup {
    let x = GAP + f64::from(tile.column) * (SIDE + GAP);
    let y = GAP + f64::from(tile.row) * (SIDE + GAP);
    let code = tile.region.get(3..).unwrap_or(tile.region);
    let face = Face::of(c, steps, tile.region);
    html! {
        g {
            title { (Region::name_of(tile.region)) ": " (face.words) }
            rect x=(px(x)) y=(px(y)) width=(px(SIDE)) height=(px(SIDE)) rx="3" fill=(face.fill)
                stroke=(if face.known { shade::INK } else { shade::LINE })
                stroke-width=(if face.known { "1.2" } else { ".8" })
                stroke-dasharray=[(!face.known).then_some("3 3")] {}
            @if face.plate {
                rect x=(px(x + 6.0)) y=(px(y + 8.0)) width=(px(SIDE - 12.0)) height=(px(SIDE - 16.0)) fill=(shade::PAPER) {}
            }
            text x=(px(x + SIDE / 2.0)) y=(px(y + 23.0)) font-size="13" font-weight="700" text-anchor="middle" fill=(face.ink) { (code) }
            @for (n, line) in face.lines.iter().enumerate() {
                text x=(px(x + SIDE / 2.0)) y=(px(y + 38.0 + if n == 0 { 0.0 } else { 11.0 })) font-size=(if n == 0 { "12" } else { "9" }) text-anchor="middle" fill=(face.ink) { (line) }
            }
        }
    }
}

/// How a tile looks.
struct Face {
    fill: String,
    ink: &'static str,
    plate: bool,
    known: bool,
    lines: Vec<String>,
    words: String,
}

impl Face {
    fn of(c: &Comparison, steps: &Steps, region: &str) -> Face {
        let Some(threshold) = c.threshold(region) else {
            return Face {
                fill: shade::PAPER.to_owned(),
                ink: shade::QUIET,
                plate: false,
                known: false,
                lines: vec!["–".to_owned()],
                words: "not compared".to_owned(),
            };
        };
        let words = c.told(region, &threshold);
        let plain = |lines: Vec<String>| Face {
            fill: shade::PAPER.to_owned(),
            ink: shade::INK,
            plate: false,
            known: true,
            lines,
            words: words.clone(),
        };
        match (threshold.surely, threshold.perhaps) {
            (None, None) if c.is_gap(region) => Face {
                known: false,
                ..plain(vec!["?".to_owned()])
            },
            (None, None) => plain(vec!["none".to_owned()]),
            (None, Some(_)) => Face {
                fill: "url(#map-open)".to_owned(),
                plate: true,
                ..plain(vec!["open".to_owned()])
            },
            (Some((from, included)), perhaps) => {
                let at = from.map_or(Exact::ZERO, |(x, _)| x);
                let step = steps.step(at);
                let mut lines = match from {
                    Some((x, unit)) => figure(x, unit, included, c.sheet.units),
                    None => vec!["any".to_owned()],
                };
                if perhaps.is_some()
                    && let Some(first) = lines.first_mut()
                {
                    first.push('*');
                }
                Face {
                    fill: shade::STEPS.get(step).unwrap_or(&shade::PAPER).to_string(),
                    ink: if step >= 3 { shade::PAPER } else { shade::INK },
                    ..plain(lines)
                }
            }
        }
    }
}

/// The figure of a tile on two lines: the number, and its unit.
fn figure(x: Exact, unit: Unit, included: bool, units: Option<Units>) -> Vec<String> {
    let shown = units
        .map(|u| u.unit_for(x, unit))
        .filter(|u| *u != unit)
        .unwrap_or(unit);
    let whole = crate::quantity::format_exact(x, shown);
    let (number, symbol) = whole.rsplit_once(' ').unwrap_or((&whole, ""));
    // A tile has no room for tenths; the table has them.
    let about = number.contains('.') && shown != unit;
    let number = if about {
        format!("≈{}", number.split('.').next().unwrap_or(number))
    } else {
        number.to_owned()
    };
    let more = if included { "" } else { ">" };
    vec![format!("{more}{number}"), symbol.to_owned()]
}

/// A threshold in words.
pub(super) fn threshold_words(t: &Threshold, units: Option<Units>) -> String {
    let show = |(from, included): (Option<(Exact, Unit)>, bool)| match from {
        None => "at any weight".to_owned(),
        Some((x, unit)) => {
            let figure = match turned(x, unit, units) {
                Some(other) => format!("{other} ({})", format_exact(x, unit)),
                None => format_exact(x, unit),
            };
            if included {
                format!("from {figure}")
            } else {
                format!("above {figure}")
            }
        }
    };
    match (t.surely, t.perhaps) {
        (None, None) => "none of the rules recorded asks for it".to_owned(),
        (Some(s), None) => show(s),
        (None, Some(p)) => format!("perhaps {}, depending on more", show(p)),
        (Some(s), Some(p)) => format!("{}; perhaps {}, depending on more", show(s), show(p)),
    }
}

/// The steps of the shades: the different weights, shared out evenly.
struct Steps {
    /// The greatest weight of each step, from the lightest trailer up.
    tops: Vec<(Exact, Unit)>,
}

impl Steps {
    fn of(c: &Comparison) -> Steps {
        let mut weights: Vec<(Exact, Unit)> = c
            .regions()
            .iter()
            .filter_map(|r| c.threshold(&r.region)?.surely)
            .map(|(from, _)| from.unwrap_or((Exact::ZERO, Unit::Pound)))
            .collect();
        weights.sort_by_key(|w| w.0);
        weights.dedup_by_key(|w| w.0);
        let total = weights.len();
        let mut tops: Vec<(Exact, Unit)> = Vec::new();
        for n in 1..=shade::STEPS.len() {
            let last = (total * n).div_ceil(shade::STEPS.len());
            if let Some(top) = last.checked_sub(1).and_then(|i| weights.get(i))
                && tops.last().is_none_or(|t| t.0 < top.0)
            {
                tops.push(*top);
            }
        }
        Steps { tops }
    }

    /// The shade of a weight; the lower the weight, the darker.
    fn step(&self, x: Exact) -> usize {
        let at = self.tops.iter().position(|t| x <= t.0).unwrap_or(0);
        (shade::STEPS.len() - 1).saturating_sub(at)
    }
}

fn key(steps: &Steps, units: Option<Units>) -> Markup {
    html! {
        ul.key {
            @for (n, (x, unit)) in steps.tops.iter().enumerate() {
                @let step = steps.step(*x);
                @let words = format_exact(*x, *unit);
                li {
                    (swatch(shade::STEPS.get(step).copied().unwrap_or(shade::PAPER)))
                    @if *x == Exact::ZERO { "needed at any weight" } @else {
                        @if n == 0 { "up to " } @else { "beyond that, up to " }
                        (words)
                        @if let Some(other) = turned(*x, *unit, units) { " (" (other) ")" }
                    }
                }
            }
            li { (swatch("url(#map-open)")) "open: it depends on more, or the law is in doubt" }
            li { (swatch(shade::PAPER)) "none: rules are recorded, and none asks for it; ?: no rule on this is recorded" }
            li { "* perhaps from a lower weight; > only above it; – not compared" }
        }
    }
}

fn swatch(fill: &str) -> Markup {
    html! {
        svg.swatch viewBox="0 0 20 14" width="20" height="14" aria-hidden="true" {
            rect x="1" y="1" width="18" height="12" fill=(fill) stroke=(shade::INK) {}
        }
    }
}
