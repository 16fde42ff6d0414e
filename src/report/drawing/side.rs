//! The side view.

use super::coupling::{chains, tongue};
use super::load::{item, lane, unplaced};
use super::scale::Scale;
use super::scene::{Scene, unit};
use crate::facts::FactSet;
use crate::quantity::{Exact, Interval, Unit};
use crate::report::Units;
use crate::report::markup::{hatches, px, shade};
use maud::{Markup, html};

pub(super) const WIDTH: f64 = 960.0;
const MARGIN: f64 = 26.0;
/// Room for a towing vehicle whose sizes are not stated.
const UNSCALED: f64 = 210.0;
/// How high a lane stands.
const LANE: f64 = 30.0;
/// How high an item is drawn whose height is not stated.
pub(super) const LOW: f64 = 44.0;
const WHEEL: f64 = 17.0;

/// Heights on the drawing, from the top.
pub(super) struct Levels {
    pub deck: f64,
    pub road: f64,
    pub ruler: f64,
}

/// Where things stand on the drawing.
pub(super) struct Frame {
    pub scale: Scale,
    pub levels: Levels,
    /// Whether the towing vehicle is to scale.
    pub vehicle: bool,
}

impl Frame {
    fn of(scene: &Scene) -> Frame {
        let vehicle = scene.front_axle.is_some();
        let (front, rear) = scene.ends();
        let rear = if scene.has_scale() { rear } else { 5.5 };
        let scale = if vehicle {
            Scale::fit(front, rear, MARGIN, WIDTH - MARGIN)
        } else {
            Scale::fit(front, rear, MARGIN + UNSCALED, WIDTH - MARGIN)
        };
        let tallest = scene
            .load
            .iter()
            .filter(|i| i.at.is_some())
            .map(|i| height(i.height, &scale))
            .fold(90.0, f64::max);
        let deck = 62.0 + tallest;
        Frame {
            scale,
            levels: Levels {
                deck,
                road: deck + 46.0,
                ruler: deck + 78.0,
            },
            vehicle,
        }
    }
}

/// How high an item is drawn.
pub(super) fn height(stated: Option<Interval>, scale: &Scale) -> f64 {
    stated
        .and_then(|h| h.hi)
        .map_or(LOW, |h| (h.to_f64() * scale.per_metre).clamp(8.0, 330.0))
}

/// Draws the rig from its left side, the towing vehicle to the left.
pub(in crate::report) fn side_view(scene: &Scene, facts: &FactSet, units: Option<Units>) -> Markup {
    let frame = Frame::of(scene);
    let lanes: Vec<usize> = (0..scene.load.len())
        .filter(|n| scene.load.get(*n).is_some_and(|i| i.lane.is_some()))
        .collect();
    let top_of_lanes = frame.levels.ruler + 34.0;
    #[allow(clippy::cast_precision_loss)] // a few lanes
    let height = top_of_lanes + LANE * lanes.len() as f64 + 4.0;
    let title = "Side view of the towing vehicle, the trailer and its load";
    html! {
        div.wide tabindex="0" role="group" aria-label=(title) {
            svg.rig viewBox={ "0 0 " (px(WIDTH)) " " (px(height)) } role="img" aria-labelledby="rig-title" aria-describedby="rig-legend" {
                title id="rig-title" {
                    (title) ". "
                    @if scene.has_scale() { "Lengths are to scale, heights of items where stated. " }
                    "Numbers stand for the items listed below."
                }
                (hatches("rig"))
                line x1="0" y1=(px(frame.levels.road)) x2=(px(WIDTH)) y2=(px(frame.levels.road)) stroke=(shade::QUIET) stroke-width="1.5" {}
                (vehicle(scene, &frame))
                (trailer(scene, &frame))
                @for (n, place) in scene.load.iter().enumerate() { (item(n, place, &frame)) }
                (unplaced(scene, &frame))
                (chains(facts, &frame))
                (tongue(facts, &frame, units))
                @if scene.has_scale() { (ruler(scene, &frame, unit(facts, units))) }
                @for (row, n) in lanes.iter().enumerate() {
                    @if let Some(place) = scene.load.get(*n) {
                        @let y = top_of_lanes + LANE * f64::from(u32::try_from(row).unwrap_or(0));
                        (lane(*n, place, &frame, y))
                    }
                }
            }
        }
    }
}

pub(super) fn metres(x: Exact) -> f64 {
    x.to_f64()
}

/// A wheel at a place that is known, or a range of places.
fn wheel(at: Interval, frame: &Frame, class: &str, sure: bool) -> Markup {
    let (Some(lo), Some(hi)) = (at.lo.map(metres), at.hi.map(metres)) else {
        return html! {};
    };
    let y = frame.levels.road - WHEEL;
    let middle = f64::midpoint(lo, hi);
    let (x1, x2) = (frame.scale.x(lo), frame.scale.x(hi));
    html! {
        @if x2 - x1 > 1.0 {
            rect x=(px(x1 - WHEEL)) y=(px(y - WHEEL)) width=(px(x2 - x1 + 2.0 * WHEEL)) height=(px(2.0 * WHEEL)) rx=(px(WHEEL)) fill="url(#rig-open)" stroke=(shade::INK) {}
        }
        circle class=(class) data-metres=(format!("{middle:.6}")) cx=(px(frame.scale.x(middle))) cy=(px(y)) r=(px(WHEEL))
            fill=(if sure { shade::INK } else { shade::PAPER }) stroke=(shade::INK) stroke-width="1.5" stroke-dasharray=[(!sure).then_some("4 3")] {}
        circle cx=(px(frame.scale.x(middle))) cy=(px(y)) r="6" fill=(shade::PAPER) stroke=(shade::INK) {}
    }
}

fn vehicle(scene: &Scene, frame: &Frame) -> Markup {
    let road = frame.levels.road;
    let (left, right, words) = match (scene.front_axle, scene.rear_axle) {
        (Some(front), Some(_)) => {
            let front = front.lo.map_or(0.0, metres);
            (
                (frame.scale.x(front) - 44.0).max(4.0),
                frame.scale.coupler - 12.0,
                "towing vehicle: axles to scale, outline not stated",
            )
        }
        _ => (
            MARGIN,
            MARGIN + UNSCALED - 36.0,
            "towing vehicle: sizes not stated, not to scale",
        ),
    };
    let (roof, bonnet, sill) = (road - 104.0, road - 64.0, road - 22.0);
    let wide = right - left;
    let cab = left + wide * 0.28;
    let back = left + wide * 0.62;
    html! {
        path d={
                "M" (px(left)) " " (px(sill)) " V" (px(bonnet)) " H" (px(cab)) " L" (px(cab + wide * 0.08)) " " (px(roof))
                " H" (px(back)) " L" (px(back + 6.0)) " " (px(bonnet)) " H" (px(right)) " V" (px(sill)) " Z"
            } fill=(shade::PAPER) stroke=(shade::QUIET) stroke-width="1.5" stroke-dasharray="6 4" {}
        text x=(px(left)) y=(px(roof - 8.0)) font-size="11.5" fill=(shade::QUIET) { (words) }
        @match (scene.front_axle, scene.rear_axle) {
            (Some(front), Some(rear)) => {
                (wheel(front, frame, "vehicle-axle", true))
                (wheel(rear, frame, "vehicle-axle", true))
            }
            _ => {
                (loose_wheel(left + wide * 0.2, road))
                (loose_wheel(left + wide * 0.8, road))
            }
        }
    }
}

/// A wheel whose place is not known.
fn loose_wheel(x: f64, road: f64) -> Markup {
    html! {
        circle.unknown cx=(px(x)) cy=(px(road - WHEEL)) r=(px(WHEEL)) fill=(shade::PAPER) stroke=(shade::QUIET) stroke-width="1.5" stroke-dasharray="4 3" {}
    }
}

fn trailer(scene: &Scene, frame: &Frame) -> Markup {
    let (deck_y, scale) = (frame.levels.deck, &frame.scale);
    let coupler = scale.coupler;
    let known = scene.deck.and_then(|d| {
        let ends = [d.front.lo?, d.front.hi?, d.rear.lo?, d.rear.hi?];
        Some(ends.map(metres))
    });
    let far = WIDTH - MARGIN;
    html! {
        @if let Some([front, front_hi, rear_lo, rear]) = known {
            @let (x1, x2) = (scale.x(front), scale.x(rear));
            line x1=(px(coupler)) y1=(px(deck_y + 14.0)) x2=(px(x1.max(coupler))) y2=(px(deck_y + 6.0)) stroke=(shade::INK) stroke-width="5" {}
            rect.deck data-front=(format!("{front_hi:.6}")) data-rear=(format!("{rear_lo:.6}")) x=(px(scale.x(front_hi))) y=(px(deck_y)) width=(px(scale.x(rear_lo) - scale.x(front_hi))) height="9" fill=(shade::INK) {}
            @if front_hi > front || rear > rear_lo {
                rect x=(px(x1)) y=(px(deck_y)) width=(px(x2 - x1)) height="9" fill="url(#rig-open)" stroke=(shade::INK) stroke-dasharray="4 3" {}
                rect x=(px(scale.x(front_hi))) y=(px(deck_y)) width=(px((scale.x(rear_lo) - scale.x(front_hi)).max(0.0))) height="9" fill=(shade::INK) {}
            }
        } @else {
            line x1=(px(coupler)) y1=(px(deck_y + 14.0)) x2=(px(coupler + 60.0)) y2=(px(deck_y + 6.0)) stroke=(shade::QUIET) stroke-width="2" stroke-dasharray="6 4" {}
            rect.unknown x=(px(coupler + 60.0)) y=(px(deck_y)) width=(px((far - coupler - 60.0).max(10.0))) height="9" fill=(shade::PAPER) stroke=(shade::QUIET) stroke-width="1.5" stroke-dasharray="6 4" {}
            text x=(px(coupler + 64.0)) y=(px(deck_y + 24.0)) font-size="11.5" fill=(shade::QUIET) { "deck: place or length not stated" }
        }
        circle.coupler cx=(px(coupler)) cy=(px(deck_y + 14.0)) r="6" fill=(shade::PAPER) stroke=(shade::INK) stroke-width="2.5" {}
        (axles(scene, frame, far))
    }
}

fn axles(scene: &Scene, frame: &Frame, far: f64) -> Markup {
    let placed: Vec<Interval> = scene.axles.iter().filter_map(|a| a.at).collect();
    let all = !placed.is_empty() && placed.len() == scene.axles.len();
    let road = frame.levels.road;
    let count = scene.axles.len().clamp(1, 6);
    html! {
        @if all {
            @for at in placed { (wheel(at, frame, "axle", true)) }
        } @else if let Some(group) = scene.group {
            @let middle = group.lo.zip(group.hi).map_or(0.0, |(a, b)| f64::midpoint(metres(a), metres(b)));
            @for n in 0..count {
                @let shift = (f64::from(u32::try_from(n).unwrap_or(0)) - f64::from(u32::try_from(count - 1).unwrap_or(0)) / 2.0) * 2.2 * WHEEL;
                (loose_wheel(frame.scale.x(middle) + shift, road))
            }
            path.group data-metres=(format!("{middle:.6}")) d={ "M" (px(frame.scale.x(middle))) " " (px(frame.levels.deck + 10.0)) " l-7 12 h14 z" } fill=(shade::INK) {}
            @if count > 1 {
                text x=(px(frame.scale.x(middle))) y=(px(road + 14.0)) font-size="11.5" text-anchor="middle" fill=(shade::QUIET) { "middle of the axle group; spacing not stated" }
            }
        } @else {
            @for n in 0..count {
                (loose_wheel(far - 150.0 - f64::from(u32::try_from(n).unwrap_or(0)) * 2.2 * WHEEL, road))
            }
            text x=(px(far)) y=(px(road + 14.0)) font-size="11.5" text-anchor="end" fill=(shade::QUIET) { "axles: place not stated" }
        }
    }
}

/// Marks behind the coupler, in feet or metres.
fn ruler(scene: &Scene, frame: &Frame, unit: Unit) -> Markup {
    let y = frame.levels.ruler;
    let per = unit.factor().to_f64();
    let (front, rear) = scene.ends();
    let front = if frame.vehicle { front } else { 0.0 };
    let step = step(frame.scale.per_metre * per);
    #[allow(clippy::cast_possible_truncation)] // a few dozen marks
    let (first, last) = (
        (front / per / step).ceil() as i32,
        (rear / per / step).floor() as i32,
    );
    html! {
        line x1=(px(frame.scale.x(front))) y1=(px(y)) x2=(px(frame.scale.x(rear))) y2=(px(y)) stroke=(shade::INK) {}
        @for n in first..=last.min(first.saturating_add(80)) {
            @let value = f64::from(n) * step;
            @let x = frame.scale.x(value * per);
            line.mark data-metres=(format!("{:.6}", value * per)) x1=(px(x)) y1=(px(y - 4.0)) x2=(px(x)) y2=(px(y + 4.0)) stroke=(shade::INK) {}
            text x=(px(x)) y=(px(y + 16.0)) font-size="11" text-anchor="middle" fill=(shade::QUIET) {
                (px(value)) @if n == 0 { " " (unit.symbol()) }
            }
        }
        line x1=(px(frame.scale.coupler)) y1=(px(frame.levels.deck + 20.0)) x2=(px(frame.scale.coupler)) y2=(px(y)) stroke=(shade::LINE) stroke-dasharray="2 3" {}
    }
}

/// A round step of which a mark is wide enough for its figure.
fn step(pixels: f64) -> f64 {
    let steps = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
    steps
        .into_iter()
        .find(|s| s * pixels >= 32.0)
        .unwrap_or(100.0)
}
