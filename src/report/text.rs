//! The report for people, for reading at a counter.

use super::finding::{fact_name, heading, seen_hint, set, set_look, set_short, tone};
use super::grouped::{Told, grouped};
use super::page::{Page, Style, Tone};
use super::working::Workings;
use super::{Detail, Report, closing, margin_told, summary};
use crate::engine::Outcome;
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
    summary::set(&mut page, report);
    let mut workings = Workings::new(report);
    for outcome in [
        Outcome::NotMet,
        Outcome::Unknown,
        Outcome::Confirm,
        Outcome::Met,
    ] {
        section(&mut page, report, outcome, &mut workings);
    }
    not_applying(&mut page, report, &mut workings);
    worked_out(&mut page, report);
    margin_told::set(&mut page, report);
    closing::set(&mut page, report);
    page.finish()
}

fn section(page: &mut Page, report: &Report, outcome: Outcome, workings: &mut Workings<'_>) {
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
    let mut looks = told.iter().filter_map(Told::first).flat_map(|f| &f.looks);
    if outcome == Outcome::Confirm
        && let Some(look) = looks.next()
    {
        page.para(0, Tone::Plain, &seen_hint(&look.key));
        if report.detail == Detail::Applying {
            page.para(0, Tone::Plain, "`--all` adds reasons and addresses.");
        }
    }
    // What is met needs less telling.
    if outcome == Outcome::Met && report.detail == Detail::Applying {
        page.para(0, Tone::Plain, "`--all` adds reasons, notes and addresses.");
        for one in &told {
            set_short(page, one, None);
        }
        return;
    }
    for (n, one) in told.iter().enumerate() {
        page.gap();
        if outcome == Outcome::Confirm && report.detail == Detail::Applying {
            set_look(page, n + 1, one);
        } else {
            set(page, n + 1, one, workings);
        }
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

fn not_applying(page: &mut Page, report: &Report, workings: &mut Workings<'_>) {
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
        set_short(page, &told, Some(workings));
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
