//! The summary that opens a report for people: how the rules of each region came out, and the topics
//! on which nothing is recorded.

use super::finding::{region_name, tone, topic_name};
use super::page::{Page, Tone};
use super::{Report, Tally};
use crate::engine::{Outcome, PRACTICE};

/// The columns of the summary, the gravest first.
const COLUMNS: [(Outcome, &str); 5] = [
    (Outcome::NotMet, "broken"),
    (Outcome::Unknown, "unknown"),
    (Outcome::Confirm, "to look at"),
    (Outcome::Met, "met"),
    (Outcome::DoesNotApply, "not applying"),
];

/// Sets the summary.
pub(super) fn set(page: &mut Page, report: &Report) {
    let names = report.tallies.iter().map(|t| region_name(&t.region));
    let widest = names.map(|n| n.chars().count()).max().unwrap_or(0);
    let columns: usize = COLUMNS.iter().map(|(_, word)| word.len() + 2).sum();
    if page.fits(widest + columns) {
        table(page, report, widest);
    } else {
        for tally in &report.tallies {
            sentence(page, tally);
        }
    }
    page.gap();
    for tally in report.tallies.iter().filter(|t| t.region != PRACTICE) {
        gaps(page, report, tally);
    }
}

fn table(page: &mut Page, report: &Report, widest: usize) {
    let mut head = vec![(" ".repeat(widest), Tone::Plain)];
    for (_, word) in COLUMNS {
        head.push((format!("  {word}"), Tone::Aside));
    }
    page.row(&head);
    for tally in &report.tallies {
        let name = capital(region_name(&tally.region));
        let mut row = vec![(format!("{name:<widest$}"), Tone::Strong)];
        for (outcome, word) in COLUMNS {
            let width = word.len() + 2;
            let cell = format!("{:>width$}", tally.count(outcome));
            row.push((cell, shade(tally, outcome)));
        }
        page.row(&row);
    }
}

fn shade(tally: &Tally, outcome: Outcome) -> Tone {
    match tally.count(outcome) {
        0 => Tone::Aside,
        _ => tone(outcome),
    }
}

/// One region's counts where the lines are too short for a table.
fn sentence(page: &mut Page, tally: &Tally) {
    let counts = COLUMNS.map(|(outcome, word)| format!("{} {word}", tally.count(outcome)));
    let name = capital(region_name(&tally.region));
    page.item(0, &format!("{name}: "), &counts.join(", "));
}

/// The topics on which no rule of a region is recorded.
fn gaps(page: &mut Page, report: &Report, tally: &Tally) {
    let of_region = report.not_covered.iter().filter(|g| g.0 == tally.region);
    let topics: Vec<String> = of_region.map(|(_, topic)| topic_name(*topic)).collect();
    let list = match topics.split_last() {
        None => return,
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    };
    let region = region_name(&tally.region);
    let told = format!("No rule on {list} is recorded for {region}.");
    page.para(0, Tone::Plain, &told);
}

pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    let first = chars.next().into_iter().flat_map(char::to_uppercase);
    first.chain(chars).collect()
}
