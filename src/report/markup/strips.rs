//! Strips along a line of weights: one row for each topic or region, cut where what is asked turns.

use super::{hatches, px, shade};
use crate::engine::survey::{Asks, Stretch};
use crate::quantity::{Exact, Unit, format_exact};
use maud::{Markup, html};

/// A row of strips.
pub(in crate::report) struct Row {
    /// What the row is of.
    pub label: String,
    /// Its segments, from below.
    pub segments: Vec<Segment>,
}

/// A stretch of a row.
pub(in crate::report) struct Segment {
    /// The weights.
    pub at: Stretch,
    /// What is asked there.
    pub asks: Asks,
    /// What stands in it.
    pub mark: String,
}

const WIDTH: f64 = 760.0;
const LABELS: f64 = 172.0;
/// How many rows stand on one drawing; more would not fit a sheet of paper.
const ROWS: usize = 18;
const ROW: f64 = 36.0;
const BAR: f64 = 20.0;
const TOP: f64 = 6.0;
/// How wide a character of the small print is at most.
const CHAR: f64 = 6.6;

/// The scale: kilograms to pixels.
struct Scale {
    most: f64,
}

impl Scale {
    fn x(&self, kg: f64) -> f64 {
        LABELS + (kg / self.most).clamp(0.0, 1.0) * (WIDTH - LABELS - 14.0)
    }
}

/// Draws rows over one line of weights. `most` is the heaviest weight asked for, if one is; `unit`
/// is that of the line's marks.
pub(in crate::report) fn strips(
    id: &str,
    title: &str,
    rows: &[Row],
    most: Option<Exact>,
    unit: Unit,
) -> Markup {
    let ends = rows
        .iter()
        .flat_map(|r| &r.segments)
        .flat_map(|s| [s.at.from, s.at.to])
        .flatten();
    let highest = ends.map(|(x, _)| x.to_f64()).fold(0.0, f64::max);
    let factor = unit.factor().to_f64();
    let step = step(highest.max(1.0) * 1.2 / factor);
    let most = most
        .map(Exact::to_f64)
        .filter(|m| *m >= highest)
        .unwrap_or_else(|| ((highest * 1.1 / factor / step).floor() + 1.0) * step * factor);
    let scale = Scale { most };
    let marks = marks(most / factor, step);
    html! {
        @for (n, part) in rows.chunks(ROWS).enumerate() {
            @let id = format!("{id}-{}", n + 1);
            div.wide tabindex="0" role="group" aria-label=(title) {
                (sheet(&id, title, part, &scale, &marks, unit))
            }
        }
    }
}

/// One drawing.
fn sheet(id: &str, title: &str, rows: &[Row], scale: &Scale, marks: &[f64], unit: Unit) -> Markup {
    let factor = unit.factor().to_f64();
    #[allow(clippy::cast_precision_loss)] // a few dozen rows
    let foot = TOP + ROW * rows.len() as f64;
    html! {
        svg viewBox={ "0 0 " (px(WIDTH)) " " (px(foot + 18.0)) } role="img" aria-labelledby={ (id) "-title" } {
            title id={ (id) "-title" } { (title) ". " (in_words(rows)) }
            (hatches(id))
            @for mark in marks {
                @let x = scale.x(mark * factor);
                @let anchor = if x > WIDTH - 30.0 { "end" } else { "middle" };
                line x1=(px(x)) y1=(px(TOP)) x2=(px(x)) y2=(px(foot)) stroke=(shade::LINE) stroke-width=".5" stroke-dasharray="2 3" {}
                text x=(px(x)) y=(px(foot + 13.0)) font-size="10.5" text-anchor=(anchor) fill=(shade::QUIET) { (plain(*mark)) }
            }
            text x=(px(LABELS - 8.0)) y=(px(foot + 13.0)) font-size="10.5" text-anchor="end" fill=(shade::QUIET) { (unit.symbol()) }
            @for (n, row) in rows.iter().enumerate() { (draw(id, row, n, scale)) }
        }
    }
}

fn draw(id: &str, row: &Row, n: usize, scale: &Scale) -> Markup {
    #[allow(clippy::cast_precision_loss)] // a few dozen rows
    let y = TOP + ROW * n as f64 + (ROW - BAR);
    let mut last_label = f64::NEG_INFINITY;
    html! {
        text x=(px(LABELS - 8.0)) y=(px(y + 14.0)) font-size="12" text-anchor="end" fill=(shade::INK) { (row.label) }
        @for segment in &row.segments {
            @let x1 = segment.at.from.map_or(LABELS, |(x, _)| scale.x(x.to_f64()));
            @let x2 = segment.at.to.map_or(WIDTH - 14.0, |(x, _)| scale.x(x.to_f64()));
            @let point = x2 - x1 < 1.0;
            @if !point {
                rect x=(px(x1)) y=(px(y)) width=(px(x2 - x1)) height=(px(BAR)) fill=(fill(id, segment.asks)) stroke=(shade::INK) stroke-width="1" {}
                (mark(segment, x1, x2, y))
            }
            @if let Some((at, unit)) = segment.at.from {
                @let text = format_exact(at, unit);
                @let left = x1 - half(&text);
                @if left > last_label + 4.0 && !point {
                    (label(&text, x1, y))
                    ({ last_label = x1 + half(&text); "" })
                }
            }
        }
        @if row.segments.last().is_some_and(|s| s.at.to.is_none()) {
            path d={ "M" (px(WIDTH - 14.0)) " " (px(y)) " l9 " (px(BAR / 2.0)) " l-9 " (px(BAR / 2.0)) "z" } fill=(shade::INK) {}
        }
    }
}

fn label(text: &str, x: f64, y: f64) -> Markup {
    html! {
        text x=(px(x)) y=(px(y - 4.0)) font-size="10.5" font-weight="700" text-anchor="middle" fill=(shade::INK) { (text) }
    }
}

#[allow(clippy::cast_precision_loss)] // a short text
fn half(text: &str) -> f64 {
    text.chars().count() as f64 * CHAR / 2.0
}

fn fill(id: &str, asks: Asks) -> String {
    match asks {
        Asks::Nothing => shade::PAPER.to_owned(),
        Asks::Perhaps => format!("url(#{id}-open)"),
        Asks::Surely => shade::DEEP.to_owned(),
        Asks::Barred => format!("url(#{id}-barred)"),
    }
}

/// What stands in a segment, where it has room.
fn mark(segment: &Segment, x1: f64, x2: f64, y: f64) -> Markup {
    let room = half(&segment.mark) * 2.0 + 8.0;
    let middle = f64::midpoint(x1, x2);
    let on_hatch = matches!(segment.asks, Asks::Perhaps | Asks::Barred);
    let ink = if segment.asks == Asks::Surely {
        shade::PAPER
    } else {
        shade::INK
    };
    html! {
        @if !segment.mark.is_empty() && room <= x2 - x1 {
            @if on_hatch {
                rect x=(px(middle - room / 2.0)) y=(px(y + 2.0)) width=(px(room)) height=(px(BAR - 4.0)) fill=(shade::PAPER) {}
            }
            text x=(px(middle)) y=(px(y + 14.0)) font-size="11" font-weight="700" text-anchor="middle" fill=(ink) { (segment.mark) }
        }
    }
}

/// The rows in words, for those who do not see them.
fn in_words(rows: &[Row]) -> String {
    let mut out = String::new();
    for row in rows {
        out.push_str(&format!("{}: ", row.label));
        let parts: Vec<String> = row
            .segments
            .iter()
            .map(|s| {
                let asks = asks_words(s.asks);
                let mark = if s.mark.is_empty() {
                    String::new()
                } else {
                    format!(" ({})", s.mark)
                };
                let at = crate::report::sheet::stretch_words(&s.at, None);
                format!("{at}, {asks}{mark}")
            })
            .collect();
        out.push_str(&parts.join("; "));
        out.push_str(". ");
    }
    out.trim_end().to_owned()
}

/// What is asked, in words.
pub(in crate::report) fn asks_words(asks: Asks) -> &'static str {
    match asks {
        Asks::Nothing => "nothing asked",
        Asks::Perhaps => "asked, depending on more",
        Asks::Surely => "asked",
        Asks::Barred => "not allowed",
    }
}

/// A round step that cuts a length into four to nine parts.
fn step(most: f64) -> f64 {
    let mut step = 10_f64.powf(most.max(1e-6).log10().floor());
    if most / step < 4.0 {
        step /= if most / step < 2.0 { 5.0 } else { 2.0 };
    }
    step
}

fn marks(most: f64, step: f64) -> Vec<f64> {
    let mut out = Vec::new();
    let mut n = 0_u32;
    while f64::from(n) * step <= most + 1e-9 && n < 60 {
        out.push(f64::from(n) * step);
        n += 1;
    }
    out
}

/// A whole number with commas.
fn plain(x: f64) -> String {
    let digits = format!("{x:.0}");
    let mut out = String::new();
    for (n, d) in digits.chars().enumerate() {
        if n > 0 && (digits.len() - n) % 3 == 0 {
            out.push(',');
        }
        out.push(d);
    }
    out
}
