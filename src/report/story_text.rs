//! A rule told in full, for people.

use super::finding::{fact_name, heading, lines, looks, seen_hint, sources, tone, topic_name};
use super::notice::NOTICE;
use super::page::{Page, Style, Tone};
use super::story::Story;
use crate::facts::format_day;
use crate::pack::Period;

/// Rules told in full, one after the other, with the notice at the end.
#[must_use]
pub fn story_text(stories: &[Story], style: Style) -> String {
    let mut page = Page::new(style);
    for story in stories {
        page.gap();
        set(&mut page, story);
    }
    page.gap();
    page.para(0, Tone::Aside, NOTICE);
    page.finish()
}

fn set(page: &mut Page, story: &Story) {
    page.para(0, Tone::Strong, &story.rule);
    let from = story
        .adopted_from
        .as_ref()
        .map_or_else(String::new, |from| format!(", adopted from: {from}"));
    page.para(
        0,
        Tone::Plain,
        &format!("{}{from}. Topic: {}.", story.place, topic_name(story.topic)),
    );
    page.gap();
    page.para(2, Tone::Plain, &story.says);
    page.gap();
    if let Some(noun) = story.each {
        page.item(0, "For each  ", noun);
    }
    conditions(page, "When", &story.when, "always");
    if !story.unless.is_empty() {
        conditions(page, "Unless", &story.unless, "");
    }
    conditions(page, "Must", &story.must, "nothing");
    lines(page, 0, "Note    ", story.notes.iter().map(String::as_str));
    if let Some(doubt) = &story.doubt {
        page.item(
            0,
            "Doubt     ",
            &format!("{doubt} A breach is therefore for somebody to confirm."),
        );
    }
    sources(page, 0, story.sources.iter());
    history(page, story);
    let cases = match story.cases {
        0 => "none".to_owned(),
        1 => "1, kept beside the rule".to_owned(),
        n => format!("{n}, kept beside the rule"),
    };
    page.item(0, "Cases     ", &cases);
    verdict(page, story);
}

/// Sets the lines of a condition; each keeps the depth at which it stands.
fn conditions(page: &mut Page, label: &str, texts: &[String], none: &str) {
    if texts.is_empty() {
        page.item(0, &format!("{label:<10}"), none);
    }
    let mut lead = format!("{label:<10}");
    for text in texts {
        let body = text.trim_start();
        let depth = text.len() - body.len();
        page.item(0, &format!("{lead}{}", " ".repeat(depth)), body);
        lead = " ".repeat(10);
    }
}

fn history(page: &mut Page, story: &Story) {
    let periods: Vec<String> = story.periods.iter().map(|p| period(*p)).collect();
    let text = if periods.is_empty() {
        "no day recorded; taken to be in force on every day".to_owned()
    } else {
        periods.join(", and ")
    };
    page.item(0, "In force  ", &text);
    for version in &story.versions {
        page.item(
            10,
            "other version: ",
            &format!(
                "{} ({}): {}",
                version.rule,
                period(version.period),
                version.says
            ),
        );
    }
}

fn period(p: Period) -> String {
    match (p.from, p.until) {
        (Some(from), Some(until)) => format!("{} to {}", format_day(from), format_day(until)),
        (Some(from), None) => format!("from {}", format_day(from)),
        (None, Some(until)) => format!("until {}", format_day(until)),
        (None, None) => "on every day".to_owned(),
    }
}

fn verdict(page: &mut Page, story: &Story) {
    let Some(finding) = &story.finding else {
        return;
    };
    page.gap();
    page.toned_item(
        0,
        "This rig  ",
        tone(finding.outcome),
        heading(finding.outcome),
    );
    lines(
        page,
        0,
        "Because ",
        finding.because.iter().map(String::as_str),
    );
    let missing: Vec<String> = finding.missing.iter().map(|m| fact_name(m)).collect();
    lines(page, 0, "Find out", missing.iter().map(String::as_str));
    looks(page, 0, &finding.rule, finding.looks.iter());
    if let Some(look) = finding.looks.first() {
        page.para(10, Tone::Aside, &seen_hint(&look.key));
    }
}
