//! The sheet as Markdown.

use super::words::{NOTHING, as_above, coverage, depends, lead, made_for, title};
use super::{Entry, LadderBand, RegionSheet, Sheet, axis_words, stretch_words};
use crate::engine::survey::Asks;
use crate::report::Units;
use crate::report::figures::{Piece, pieces};
use crate::report::finding::{citation, region_name, topic_name};
use crate::report::markdown::{escape, link};
use crate::report::notice::{CAUTIONS, NOTICE};
use crate::report::summary::capital;
use std::fmt::Write as _;

/// The sheet as Markdown: headings, task lists, numbered sources.
#[must_use]
pub fn sheet_markdown(sheet: &Sheet) -> String {
    let mut out = String::new();
    for region in &sheet.regions {
        part(&mut out, sheet, region);
    }
    out.push_str("# Before you drive\n\n");
    for caution in CAUTIONS {
        line(&mut out, &format!("- {}", escape(caution)));
    }
    line(&mut out, &format!("\n**{}**\n", escape(NOTICE)));
    let packs: Vec<String> = sheet
        .packs
        .iter()
        .map(|p| escape(&format!("{} {}", p.id, p.version)))
        .collect();
    line(&mut out, &format!("Packs: {}", packs.join(", ")));
    out
}

fn line(out: &mut String, text: &str) {
    // Writing to a String cannot fail.
    let _ = writeln!(out, "{text}");
}

fn part(out: &mut String, sheet: &Sheet, region: &RegionSheet) {
    line(
        out,
        &format!("# {}\n", escape(&title(sheet, &region.region))),
    );
    line(out, &format!("{}\n", escape(&made_for(sheet))));
    for told in coverage(region) {
        line(out, &format!("{}\n", escape(&told)));
    }
    for topic in &region.topics {
        line(
            out,
            &format!("## {}\n", escape(&capital(&topic_name(topic.topic)))),
        );
        for at in &topic.always {
            entry(out, sheet.units, region, *at, None);
        }
        if !topic.always.is_empty() {
            out.push('\n');
        }
        for ladder in &topic.ladders {
            line(out, &format!("By {}:\n", escape(axis_words(ladder.axis))));
            let mut told: Vec<usize> = Vec::new();
            for band in &ladder.bands {
                let words = capital(&stretch_words(&band.at, sheet.units));
                line(out, &format!("### {}\n", escape(&words)));
                set_band(out, sheet, region, band, &mut told);
                out.push('\n');
            }
        }
    }
    line(out, "## Sources\n");
    for (n, source) in region.sources.iter().enumerate() {
        let at = source
            .at
            .as_deref()
            .map_or(String::new(), |a| format!(" {}", link(a)));
        line(
            out,
            &format!("{}. {}{at}", n + 1, escape(&citation(source))),
        );
    }
    if let Some(authority) = &region.authority {
        let web = authority
            .web
            .as_deref()
            .map_or(String::new(), |w| format!(" {}", link(w)));
        line(
            out,
            &format!(
                "\nVerify with, for {}: {}{web}\n",
                escape(region_name(&region.region)),
                escape(&authority.name)
            ),
        );
    }
}

fn set_band(
    out: &mut String,
    sheet: &Sheet,
    region: &RegionSheet,
    band: &LadderBand,
    told: &mut Vec<usize>,
) {
    let (again, new): (Vec<_>, Vec<_>) = band.entries.iter().partition(|(at, _)| told.contains(at));
    if band.entries.is_empty() {
        line(out, NOTHING);
    }
    if !again.is_empty() {
        line(out, &format!("{}\n", as_above(&again)));
    }
    for (at, asks) in new {
        told.push(*at);
        entry(out, sheet.units, region, *at, Some(*asks));
    }
}

fn entry(
    out: &mut String,
    units: Option<Units>,
    region: &RegionSheet,
    at: usize,
    asks: Option<Asks>,
) {
    let Some(entry) = region.entries.get(at) else {
        return;
    };
    let asks = asks.unwrap_or(entry.asks);
    let lead = lead(entry, asks);
    line(
        out,
        &format!(
            "- [ ] **{}.** {lead}{} {}",
            at + 1,
            says(&entry.says, units),
            refs(entry)
        ),
    );
    if let Some(open) = depends(entry, asks) {
        line(out, &format!("  - *{}*", escape(&open)));
    }
    for look in &entry.looks {
        line(out, &format!("  - [ ] Look: {}", escape(look)));
    }
    for note in &entry.notes {
        line(out, &format!("  - Note: {}", escape(note)));
    }
}

fn says(text: &str, units: Option<Units>) -> String {
    let mut out = String::new();
    for piece in pieces(text, units) {
        match piece {
            Piece::Words(words) => out.push_str(&escape(words)),
            Piece::Figure(figure, other) => {
                out.push_str(&format!("**{}**", escape(figure)));
                if let Some(other) = other {
                    out.push_str(&format!(" ({})", escape(&other)));
                }
            }
        }
    }
    out
}

fn refs(entry: &Entry) -> String {
    let refs: Vec<String> = entry.sources.iter().map(|s| (s + 1).to_string()).collect();
    format!("(source {})", refs.join(", "))
}
