//! Findings on the page for the customer.

use crate::engine::Outcome;
use crate::pack::Source;
use crate::report::finding::{citation, fact_name, region_name, topic_name};
use crate::report::grouped::{Told, grouped};
use crate::report::markup::says;
use crate::report::summary::capital;
use crate::report::working::Workings;
use crate::report::{Report, Tally, Units};
use maud::{Markup, html};

/// The outcomes in a table, region by region.
pub(super) fn summary(report: &Report) -> Markup {
    let columns = [
        (Outcome::NotMet, "broken"),
        (Outcome::Unknown, "unknown"),
        (Outcome::Confirm, "to look at"),
        (Outcome::Met, "met"),
        (Outcome::DoesNotApply, "not applying"),
    ];
    let cell = |tally: &Tally, outcome: Outcome| {
        let n = tally.count(outcome);
        html! { td class=(class(outcome)) { @if n > 0 { strong { (n) } } @else { "0" } } }
    };
    html! {
        table.plain.tally {
            caption { "How the rules came out" }
            thead { tr { th scope="col" { "Region" } @for (_, word) in columns { th scope="col" { (capital(word)) } } } }
            tbody {
                @for tally in &report.tallies {
                    tr {
                        th scope="row" { (capital(region_name(&tally.region))) }
                        @for (outcome, _) in columns { (cell(tally, outcome)) }
                    }
                }
            }
        }
    }
}

fn class(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::NotMet => "broken",
        Outcome::Unknown => "unknown",
        Outcome::Confirm => "look",
        Outcome::Met => "met",
        Outcome::DoesNotApply => "aside",
    }
}

fn heading(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::NotMet => "Broken",
        Outcome::Unknown => "Unknown: find out",
        Outcome::Confirm => "To look at",
        Outcome::Met => "Met",
        Outcome::DoesNotApply => "Does not apply",
    }
}

/// The findings of one outcome.
pub(super) fn section(report: &Report, outcome: Outcome, units: Option<Units>) -> Markup {
    let told = grouped(&report.findings, outcome);
    let short = matches!(outcome, Outcome::Confirm | Outcome::Met);
    let mut workings = Workings::new(report);
    html! {
        @if !told.is_empty() {
            section class={ "findings " (class(outcome)) } {
                h2 { (heading(outcome)) " (" (told.len()) ")" }
                @if outcome == Outcome::Unknown { (to_find_out(&told)) }
                @if short {
                    ol.short { @for (n, one) in told.iter().enumerate() { (brief(one, n, outcome, units)) } }
                } @else {
                    ol { @for one in &told { (finding(one, units, &mut workings)) } }
                }
            }
        }
    }
}

/// The facts that would settle most, those first that bear on most rules.
fn to_find_out(told: &[Told<'_>]) -> Markup {
    let mut counts: Vec<(&str, usize)> = Vec::new();
    for fact in told.iter().filter_map(Told::first).flat_map(|f| &f.missing) {
        match counts.iter_mut().find(|(name, _)| name == fact) {
            Some((_, n)) => *n += 1,
            None => counts.push((fact, 1)),
        }
    }
    counts.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
    html! {
        p { "These facts bear on most of them:" }
        ul.facts { @for (fact, n) in counts.iter().take(12) { li { (fact_name(fact)) ": " (n) @if *n == 1 { " rule" } @else { " rules" } } } }
    }
}

/// A finding in full: what is broken, or cannot be told yet.
fn finding(told: &Told<'_>, units: Option<Units>, workings: &mut Workings<'_>) -> Markup {
    let Some(first) = told.first() else {
        return html! {};
    };
    let missing: Vec<String> = first.missing.iter().map(|m| fact_name(m)).collect();
    let because: Vec<String> = first.because.iter().map(|b| workings.cut(b)).collect();
    let rows: [(&str, Markup); 5] = [
        ("Because", lines(because.iter())),
        ("Find out", lines(missing.iter())),
        ("Look", lines(told.looks().iter().map(|l| &l.text))),
        ("Note", lines(told.notes().iter())),
        ("Source", sources(&told.sources())),
    ];
    html! {
        li.finding {
            p.says { (says(&first.says, units)) }
            dl {
                div { dt { "In" } dd { (places(told)) " (" (topic_name(first.topic)) ")" } }
                @for (label, words) in rows {
                    @if !words.0.is_empty() { div { dt { (label) } dd { (words) } } }
                }
            }
        }
    }
}

/// A finding in brief: what is met, or has only to be looked at, with a box to tick.
fn brief(told: &Told<'_>, n: usize, outcome: Outcome, units: Option<Units>) -> Markup {
    let Some(first) = told.first() else {
        return html! {};
    };
    let look = outcome == Outcome::Confirm;
    let id = format!("look-{}", n + 1);
    let cites: Vec<String> = told.sources().iter().map(|s| citation(s)).collect();
    html! {
        li.finding {
            @if look {
                div.tick {
                    input type="checkbox" id=(id);
                    div {
                        label for=(id) { (says(&first.says, units)) }
                        @for text in told.looks().iter().map(|l| &l.text).filter(|t| !first.says.contains(t.as_str())) {
                            span.line { "Look: " (text) }
                        }
                    }
                }
            } @else {
                span { (says(&first.says, units)) }
            }
            span.line.quiet { (places(told)) ": " (cites.join("; ")) }
        }
    }
}

fn places(told: &Told<'_>) -> String {
    let regions: Vec<&str> = told.regions().into_iter().map(region_name).collect();
    regions.join(", ")
}

fn lines<T: AsRef<str>>(all: impl Iterator<Item = T>) -> Markup {
    html! { @for line in all { span.line { (line.as_ref()) } } }
}

fn sources(sources: &[&Source]) -> Markup {
    html! {
        @for source in sources {
            span.line {
                (citation(source))
                @if let Some(at) = &source.at { " " (crate::report::markup::address(at)) }
            }
        }
    }
}
