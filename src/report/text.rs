//! The report for people, for reading at a counter.

use super::finding::{fact_name, heading, region_name, set, set_short, tone, topic_name};
use super::grouped::{Told, grouped};
use super::page::{Page, Style, Tone};
use super::{Detail, Report, closing};
use crate::engine::{Outcome, PRACTICE};
use crate::facts::format_day;
use crate::quantity::Dimension;

/// How many of the facts to find out are named above the unknown findings.
const FIRST_FACTS: usize = 12;

/// The report as text: a summary a region; what is broken, unknown, to be looked at and met; what
/// does not apply, if it is in the report; cautions, notice, authorities, packs and the day.
#[must_use]
pub fn report_text(report: &Report, style: Style) -> String {
    let mut page = Page::new(style);
    let name = if report.rig.is_empty() {
        "A rig without a name"
    } else {
        report.rig.as_str()
    };
    page.para(0, Tone::Strong, name);
    page.para(
        0,
        Tone::Plain,
        &format!(
            "Checked for {} ({}).",
            format_day(report.on.day),
            report.on.origin()
        ),
    );
    page.gap();
    summary(&mut page, report);
    for outcome in [
        Outcome::NotMet,
        Outcome::Unknown,
        Outcome::Confirm,
        Outcome::Met,
    ] {
        section(&mut page, report, outcome);
    }
    not_applying(&mut page, report);
    worked_out(&mut page, report);
    closing::set(&mut page, report);
    page.finish()
}

fn summary(page: &mut Page, report: &Report) {
    let names: Vec<&str> = report
        .tallies
        .iter()
        .map(|t| region_name(&t.region))
        .collect();
    let widest = names.iter().map(|n| n.chars().count()).max().unwrap_or(0);
    let most = Outcome::ALL
        .iter()
        .flat_map(|o| report.tallies.iter().map(|t| t.count(*o)))
        .max()
        .unwrap_or(0);
    let digits = most.to_string().len();
    for (tally, name) in report.tallies.iter().zip(names) {
        let mut cells = vec![(capital(name), widest + 2, Tone::Strong)];
        for (outcome, word) in [
            (Outcome::NotMet, "broken"),
            (Outcome::Unknown, "unknown"),
            (Outcome::Confirm, "to look at"),
            (Outcome::Met, "met"),
            (Outcome::DoesNotApply, "not applying"),
        ] {
            let n = tally.count(outcome);
            let tone = if n == 0 { Tone::Aside } else { tone(outcome) };
            cells.push((
                format!("{n:>digits$} {word}"),
                digits + word.len() + 3,
                tone,
            ));
        }
        page.row(&cells);
    }
    for tally in report.tallies.iter().filter(|t| t.region != PRACTICE) {
        let topics = report
            .not_covered
            .iter()
            .filter(|(region, _)| *region == tally.region);
        let topics: Vec<String> = topics.map(|(_, topic)| topic_name(*topic)).collect();
        if let Some((last, rest)) = topics.split_last() {
            let list = if rest.is_empty() {
                last.clone()
            } else {
                format!("{} or {last}", rest.join(", "))
            };
            page.para(
                0,
                Tone::Plain,
                &format!(
                    "No rule on {list} is recorded for {}.",
                    region_name(&tally.region)
                ),
            );
        }
    }
}

pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

fn section(page: &mut Page, report: &Report, outcome: Outcome) {
    let told = grouped(&report.findings, outcome);
    if told.is_empty() {
        return;
    }
    page.heading(
        tone(outcome),
        &format!("{} ({})", heading(outcome), told.len()),
    );
    if outcome == Outcome::Unknown {
        to_find_out(page, &told);
    }
    for (n, one) in told.iter().enumerate() {
        page.gap();
        set(page, n + 1, one);
    }
}

/// The facts that would settle most of what is unknown.
fn to_find_out(page: &mut Page, told: &[Told<'_>]) {
    let mut counts: Vec<(&str, usize)> = Vec::new();
    for fact in told.iter().filter_map(Told::first).flat_map(|f| &f.missing) {
        match counts.iter_mut().find(|(name, _)| name == fact) {
            Some((_, n)) => *n += 1,
            None => counts.push((fact, 1)),
        }
    }
    counts.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
    page.para(
        0,
        Tone::Plain,
        "Facts to find out, those first that bear on most rules:",
    );
    for (fact, n) in counts.iter().take(FIRST_FACTS) {
        let rules = if *n == 1 {
            "1 rule".to_owned()
        } else {
            format!("{n} rules")
        };
        page.item(0, "  - ", &format!("{}: {rules}", fact_name(fact)));
    }
    if counts.len() > FIRST_FACTS {
        page.item(
            0,
            "  - ",
            &format!(
                "and {} more, named with the rules below",
                counts.len() - FIRST_FACTS
            ),
        );
    }
}

fn not_applying(page: &mut Page, report: &Report) {
    let count = report.count(Outcome::DoesNotApply);
    if count == 0 {
        return;
    }
    page.heading(
        tone(Outcome::DoesNotApply),
        &format!("{} ({count})", heading(Outcome::DoesNotApply)),
    );
    if report.detail == Detail::Applying {
        page.para(0, Tone::Plain, "`--all` lists them with the reasons.");
        return;
    }
    for told in grouped(&report.findings, Outcome::DoesNotApply) {
        set_short(page, &told);
    }
}

/// The quantities that were worked out; with all detail, counts, days and answers too.
fn worked_out(page: &mut Page, report: &Report) {
    let quantity = |w: &&super::WorkedOut| w.of.is_some_and(|d| d != Dimension::Count);
    let shown: Vec<&super::WorkedOut> = report
        .worked_out
        .iter()
        .filter(|w| report.detail == Detail::All || quantity(w))
        .collect();
    if shown.is_empty() {
        return;
    }
    page.heading(Tone::Strong, "WORKED OUT");
    for fact in shown {
        page.item(0, "  - ", &format!("{}: {}", fact.label, sum(fact)));
    }
}

/// A value with its working, which may end in the value itself.
fn sum(fact: &super::WorkedOut) -> String {
    let told = format!("= {}", fact.value);
    match fact.working.as_str() {
        "" => fact.value.clone(),
        working if working == fact.value => fact.value.clone(),
        working if working.ends_with(&told) => working.to_owned(),
        working => format!("{} = {working}", fact.value),
    }
}
