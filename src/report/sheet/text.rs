//! The sheet as plain text.

use super::{Entry, LadderBand, RegionSheet, Sheet, axis_words, stretch_words};
use crate::engine::survey::Asks;
use crate::facts::format_day;
use crate::report::figures::{Piece, pieces};
use crate::report::finding::{citation, region_name, topic_name};
use crate::report::notice::{CAUTIONS, NOTICE};
use crate::report::summary::capital;
use crate::report::{Page, Style, Tone, Units};

/// The sheet as text: by region and topic, with tick boxes, bands and numbered sources.
#[must_use]
pub fn sheet_text(sheet: &Sheet, style: Style) -> String {
    let mut page = Page::new(style);
    for region in &sheet.regions {
        page.heading(Tone::Strong, &super::words::title(sheet, &region.region));
        page.para(0, Tone::Plain, &super::words::made_for(sheet));
        for line in super::words::coverage(region) {
            page.para(0, Tone::Plain, &line);
        }
        body(&mut page, sheet, region);
    }
    page.heading(Tone::Strong, "BEFORE YOU DRIVE");
    for caution in CAUTIONS {
        page.item(0, "  - ", caution);
    }
    page.gap();
    page.para(0, Tone::Strong, NOTICE);
    let packs: Vec<String> = sheet
        .packs
        .iter()
        .map(|p| format!("{} {}", p.id, p.version))
        .collect();
    page.item(0, "Packs  ", &packs.join(", "));
    page.item(0, "Day    ", &format_day(sheet.on.day));
    page.finish()
}

fn body(page: &mut Page, sheet: &Sheet, region: &RegionSheet) {
    for topic in &region.topics {
        page.heading(
            Tone::Look,
            &capital(&topic_name(topic.topic)).to_uppercase(),
        );
        for at in &topic.always {
            entry(page, sheet.units, region, *at, None);
        }
        for ladder in &topic.ladders {
            page.gap();
            page.para(0, Tone::Strong, &format!("By {}", axis_words(ladder.axis)));
            let mut told: Vec<usize> = Vec::new();
            for band in &ladder.bands {
                page.para(
                    2,
                    Tone::Strong,
                    &capital(&stretch_words(&band.at, sheet.units)),
                );
                set_band(page, sheet, region, band, &mut told);
            }
        }
    }
    page.heading(Tone::Strong, "SOURCES");
    for (n, source) in region.sources.iter().enumerate() {
        page.item(
            0,
            &format!("{:>4} ", format!("[{}]", n + 1)),
            &citation(source),
        );
        if let Some(at) = &source.at {
            page.whole(5, at);
        }
    }
    if let Some(authority) = &region.authority {
        page.gap();
        page.item(
            0,
            &format!("Verify with, for {}: ", region_name(&region.region)),
            &authority.name,
        );
        if let Some(web) = &authority.web {
            page.whole(2, web);
        }
    }
}

fn set_band(
    page: &mut Page,
    sheet: &Sheet,
    region: &RegionSheet,
    band: &LadderBand,
    told: &mut Vec<usize>,
) {
    let (again, new): (Vec<_>, Vec<_>) = band.entries.iter().partition(|(at, _)| told.contains(at));
    if band.entries.is_empty() {
        page.para(4, Tone::Plain, super::words::NOTHING);
    }
    if !again.is_empty() {
        page.para(4, Tone::Plain, &super::words::as_above(&again));
    }
    for (at, asks) in new {
        told.push(*at);
        entry(page, sheet.units, region, *at, Some(*asks));
    }
}

fn entry(
    page: &mut Page,
    units: Option<Units>,
    region: &RegionSheet,
    at: usize,
    asks: Option<Asks>,
) {
    let Some(entry) = region.entries.get(at) else {
        return;
    };
    let asks = asks.unwrap_or(entry.asks);
    let indent = 2;
    page.item(
        indent,
        &format!("[ ] {}. ", at + 1),
        &format!(
            "{}{} {}",
            super::words::lead(entry, asks),
            with_units(&entry.says, units),
            refs(entry)
        ),
    );
    let hang = indent + 4;
    if let Some(open) = super::words::depends(entry, asks) {
        page.para(hang, Tone::Aside, &open);
    }
    for look in &entry.looks {
        page.item(hang, "[ ] look: ", look);
    }
    for note in &entry.notes {
        page.item(hang, "Note: ", note);
    }
}

/// A sentence with its figures told in the units asked for too.
pub(super) fn with_units(says: &str, units: Option<Units>) -> String {
    let mut out = String::new();
    for piece in pieces(says, units) {
        match piece {
            Piece::Words(words) => out.push_str(words),
            Piece::Figure(figure, None) => out.push_str(figure),
            Piece::Figure(figure, Some(other)) => {
                out.push_str(&format!("{figure} ({other})"));
            }
        }
    }
    out
}

fn refs(entry: &Entry) -> String {
    let refs: Vec<String> = entry.sources.iter().map(|s| (s + 1).to_string()).collect();
    format!("[{}]", refs.join(", "))
}
