//! The report for the customer: one page with a drawing of the rig.

mod findings;

use super::drawing::{Scene, bars, side_view, stated};
use super::finding::{region_name, topic_name};
use super::markup::{closing, document};
use super::summary::capital;
use super::worked_out::WorkedOut;
use super::{MarginTold, Report, Units, day, facts_on, margin_told};
use crate::engine::{Outcome, PRACTICE, Ruleset};
use crate::facts::{FactSet, format_day};
use crate::rig::Rig;
use crate::source::Complaints;
use findings::{section, summary};
use maud::{Markup, html};

const STYLE: &str = include_str!("customer.css");

/// The report as one page of HTML that needs no script and fetches nothing, with a drawing of the
/// rig made from its facts.
///
/// # Errors
/// Every contradiction among the rig's facts.
pub fn report_html(
    report: &Report,
    rig: &Rig,
    rules: &Ruleset<'_>,
    units: Option<Units>,
) -> Result<String, Complaints> {
    let facts = facts_on(rig, report.on)?;
    let mut given = rig.facts.clone();
    day::set_day(&mut given, report.on.day);
    let looks = rules.looks(&rig.seen);
    let scene = Scene::read(&facts, units).with_lanes(
        rules,
        &given,
        &facts,
        &looks,
        Some(report.on.day),
        units,
    );
    let name = if report.rig.is_empty() {
        "A rig without a name"
    } else {
        report.rig.as_str()
    };
    let regions: Vec<&str> = report.regions.iter().map(|r| region_name(r)).collect();
    let foot = format!(
        "{name}: {}, {}",
        regions.join(", "),
        format_day(report.on.day)
    );
    let body = html! {
        div.part id="report" {
            header {
                h1 { (name) }
                p { "Checked for " (format_day(report.on.day)) " (" (report.on.origin()) ") in " (regions.join(", ")) "." }
            }
            main {
                (summary(report))
                (gaps(report))
                (drawing(&scene, &facts, units))
                @for outcome in [Outcome::NotMet, Outcome::Unknown, Outcome::Confirm, Outcome::Met] {
                    (section(report, outcome, units))
                }
                (left_over(report))
                (worked(&report.worked_out))
            }
            footer { (closing(&report.authorities, &report.packs, report.on)) }
        }
    };
    Ok(document(
        &format!("{name}: rules and weights"),
        STYLE,
        &[("report".to_owned(), foot)],
        &body,
    ))
}

/// The topics on which a region has no rule of its own recorded.
fn gaps(report: &Report) -> Markup {
    html! {
        @for region in report.regions.iter().filter(|r| *r != PRACTICE) {
            @let topics: Vec<String> = report.not_covered.iter().filter(|(r, _)| r == region).map(|(_, t)| topic_name(*t)).collect();
            @if !topics.is_empty() {
                p.quiet { "No rule of its own is recorded for " (region_name(region)) " on: " (topics.join(", ")) "." }
            }
        }
    }
}

fn drawing(scene: &Scene, facts: &FactSet, units: Option<Units>) -> Markup {
    html! {
        section.drawing {
            h2 { "The rig" }
            figure {
                (side_view(scene, facts, units))
                figcaption id="rig-legend" {
                    @if scene.has_scale() { "Lengths to scale, measured from the coupler. " } @else { "Not to scale. " }
                    "Broken lines: not stated. Hatched: may reach so far. "
                    @if scene.load.iter().any(|i| i.lane.is_some()) {
                        "The strips show where the centre of an item may lie, all else as it is: dotted, no rule is broken; hatched, open; crossed, a rule is broken. "
                    }
                    @if !scene.missing.is_empty() { "Not stated, and so not drawn in place: " (scene.missing.join("; ")) "." }
                }
            }
            @if !scene.load.is_empty() {
                ol.load {
                    @for item in &scene.load {
                        li {
                            strong { (item.name) } ": " (item.words) "."
                            @if let Some(lane) = &item.lane { " Its place: " (lane.words) "." }
                        }
                    }
                }
            }
            dl.stated {
                @for (label, value) in stated(facts, units) {
                    div { dt { (capital(&label)) } dd { (value) } }
                }
            }
            h2 { "Weights against ratings" }
            figure {
                (bars(facts, units))
                figcaption { "The upright line is the rating. Filled: surely carried; hatched: perhaps." }
            }
        }
    }
}

/// How far the rig is from the nearest values at which rules turn.
fn left_over(report: &Report) -> Markup {
    let (shown, _) = margin_told::shown(report);
    html! {
        @if !shown.is_empty() {
            section {
                h2 { "Margins" }
                p.quiet { "For each figure the next value at which a rule turns; what mends a rule first, then the nearest." }
                table.plain {
                    thead { tr { th scope="col" { "What" } th scope="col" { "Left" } th scope="col" { "Then" } } }
                    tbody {
                        @for m in shown {
                            tr { th scope="row" { (capital(&m.label)) } td { (margin_told::left(m)) } td { (then(m)) } }
                        }
                    }
                }
            }
        }
    }
}

fn then(m: &MarginTold) -> Markup {
    html! {
        @for (word, rules) in [("Broken: ", &m.breaks), ("Unknown: ", &m.opens), ("No longer broken: ", &m.mends)] {
            @if let Some(first) = rules.first() {
                div {
                    (word) (first.says) " (" (first.regions.iter().map(|r| region_name(r)).collect::<Vec<_>>().join(", "))
                    @if let Some(source) = first.sources.first() { "; " (source.cite) } ")"
                    @if rules.len() > 1 { " and " (rules.len() - 1) " more" }
                }
            }
        }
    }
}

fn worked(facts: &[WorkedOut]) -> Markup {
    let shown: Vec<&WorkedOut> = facts
        .iter()
        .filter(|w| w.of.is_some_and(|d| d != crate::quantity::Dimension::Count))
        .collect();
    html! {
        @if !shown.is_empty() {
            section {
                h2 { "Worked out" }
                table.plain {
                    thead { tr { th scope="col" { "What" } th scope="col" { "Value" } th scope="col" { "Working" } } }
                    tbody {
                        @for w in shown {
                            tr { th scope="row" { (w.label) } td { (w.value) } td.quiet { (w.working) } }
                        }
                    }
                }
            }
        }
    }
}
