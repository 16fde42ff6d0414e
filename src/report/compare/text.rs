//! The comparison as plain text and as Markdown.

use super::Comparison;
use crate::engine::PRACTICE;
use crate::facts::format_day;
use crate::report::finding::{region_name, topic_name};
use crate::report::markdown::escape;
use crate::report::notice::NOTICE;
use crate::report::sheet::{axis_words, kind_phrase_of, stretch_words};
use crate::report::summary::capital;
use crate::report::{Page, RegionSheet, Style, Tone};

/// The comparison as text: the thresholds, and what each region asks, band by band.
#[must_use]
pub fn comparison_text(c: &Comparison, style: Style) -> String {
    let mut page = Page::new(style);
    page.heading(Tone::Strong, &title(c));
    page.para(0, Tone::Plain, &made_for(c));
    if let Some(lack) = &c.lack {
        page.heading(Tone::Strong, &lack_title(lack.what));
        page.para(
            0,
            Tone::Aside,
            &format!("Taken of the rig besides: {}.", lack.taken),
        );
        let rows = thresholds(c);
        let widest = rows
            .iter()
            .map(|(name, _)| name.chars().count())
            .max()
            .unwrap_or(0);
        for (name, words) in rows {
            page.item(2, &format!("{name:<widest$}  "), &words);
        }
    }
    for region in c.regions() {
        page.heading(
            Tone::Strong,
            &capital(region_name(&region.region)).to_uppercase(),
        );
        for line in lines(c, region) {
            page.item(2, "- ", &line);
        }
    }
    page.gap();
    page.para(0, Tone::Strong, NOTICE);
    page.finish()
}

/// The comparison as Markdown.
#[must_use]
pub fn comparison_markdown(c: &Comparison) -> String {
    let mut out = format!("# {}\n\n{}\n\n", escape(&title(c)), escape(&made_for(c)));
    if let Some(lack) = &c.lack {
        out.push_str(&format!(
            "## {}\n\nTaken of the rig besides: {}.\n\n| Region | Needed |\n|---|---|\n",
            escape(&lack_title(lack.what)),
            escape(&lack.taken)
        ));
        for (name, words) in thresholds(c) {
            out.push_str(&format!("| {} | {} |\n", escape(&name), escape(&words)));
        }
        out.push('\n');
    }
    for region in c.regions() {
        out.push_str(&format!(
            "## {}\n\n",
            escape(&capital(region_name(&region.region)))
        ));
        for line in lines(c, region) {
            out.push_str(&format!("- {}\n", escape(&line)));
        }
        out.push('\n');
    }
    out.push_str(&format!("**{}**\n", escape(NOTICE)));
    out
}

fn title(c: &Comparison) -> String {
    format!(
        "{}, region by region: {}",
        capital(&topic_name(c.topic)),
        kind_phrase_of(&c.sheet.kind)
    )
}

fn made_for(c: &Comparison) -> String {
    format!(
        "Rules in force on {}. What is not stated of the rig is left open.",
        format_day(c.sheet.on.day)
    )
}

fn lack_title(what: &str) -> String {
    format!("Gross weight of the trailer from which the lack of {what} breaks a rule")
}

fn thresholds(c: &Comparison) -> Vec<(String, String)> {
    let regions = c.regions().iter().filter(|r| r.region != PRACTICE);
    regions
        .filter_map(|r| {
            let words = c.told(&r.region, &c.threshold(&r.region)?);
            Some((capital(region_name(&r.region)), words))
        })
        .collect()
}

/// What a region asks: first whatever the weight, then band by band.
fn lines(c: &Comparison, region: &RegionSheet) -> Vec<String> {
    let says = |at: usize| region.entries.get(at).map_or("", |e| e.says.as_str());
    let mut out = Vec::new();
    for topic in &region.topics {
        for at in &topic.always {
            out.push(says(*at).to_owned());
        }
        for ladder in &topic.ladders {
            for band in &ladder.bands {
                let asked: Vec<&str> = band.entries.iter().map(|(at, _)| says(*at)).collect();
                let asked = if asked.is_empty() {
                    "nothing recorded".to_owned()
                } else {
                    asked.join(" ")
                };
                out.push(format!(
                    "{}, {}: {asked}",
                    capital(axis_words(ladder.axis)),
                    stretch_words(&band.at, c.sheet.units)
                ));
            }
        }
    }
    if out.is_empty() {
        out.push("No rule recorded here binds such a rig.".to_owned());
    }
    out
}
