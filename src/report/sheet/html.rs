//! The sheet as a page to read and to print.

use super::words::{NOTHING, as_above, coverage, depends, kind_phrase, lead};
use super::{Entry, Ladder, LadderBand, RegionSheet, Sheet, TopicSheet, axis_words, stretch_words};
use crate::engine::PRACTICE;
use crate::engine::survey::{Asks, WEIGHT_AXES};
use crate::facts::{FactId, ItemId, catalogue, format_day};
use crate::quantity::{Exact, Unit};
use crate::report::finding::{region_name, topic_name};
use crate::report::markup::{
    Row, Segment, closing, document, says, source_list, source_refs, strips, topic_id,
};
use crate::report::summary::capital;
use crate::report::units::unit_of_axis;
use maud::{Markup, html};

const STYLE: &str = include_str!("sheet.css");

/// The sheet as one page of HTML that needs no script and fetches nothing.
#[must_use]
pub fn sheet_html(sheet: &Sheet) -> String {
    let names: Vec<String> = sheet
        .regions
        .iter()
        .filter(|r| r.region != PRACTICE)
        .map(|r| region_name(&r.region).to_owned())
        .collect();
    let phrase = kind_phrase(sheet);
    let title = format!("What is asked of {phrase}: {}", names.join(", "));
    let foot = |name: &str| format!("{name}: {phrase}, {}", format_day(sheet.on.day));
    let running: Vec<(String, String)> = sheet
        .regions
        .iter()
        .map(|r| (part_id(r), foot(&capital(region_name(&r.region)))))
        .collect();
    // The title stands on the first region's page, the closing on the last one's.
    let last = sheet.regions.len().saturating_sub(1);
    let body = html! {
        main {
            @for (n, region) in sheet.regions.iter().enumerate() {
                div.part id=(part_id(region)) {
                    @if n == 0 { (heading(sheet, &phrase)) }
                    (part(sheet, region))
                    @if n == last { (foot_of(sheet)) }
                }
            }
        }
    };
    document(&title, STYLE, &running, &body)
}

fn heading(sheet: &Sheet, phrase: &str) -> Markup {
    html! {
        header {
            h1 { "What is asked of " (phrase) }
            p.quiet {
                "Rules in force on " (format_day(sheet.on.day)) ". Tick what is there or has been looked at. "
                "What is not stated of the rig is left open: “depends on” names what decides. "
                "Bands are cut where a rule’s own figures cut them."
            }
        }
    }
}

fn foot_of(sheet: &Sheet) -> Markup {
    let authorities: Vec<_> = sheet
        .regions
        .iter()
        .filter_map(|r| Some((r.region.clone(), r.authority.clone()?)))
        .collect();
    html! { footer { (closing(&authorities, &sheet.packs, sheet.on)) } }
}

fn part_id(region: &RegionSheet) -> String {
    format!("part-{}", region.region.to_lowercase())
}

fn part(sheet: &Sheet, region: &RegionSheet) -> Markup {
    let id = part_id(region);
    let name = capital(region_name(&region.region));
    html! {
        section.region {
            table.run role="presentation" {
                // Repeated at the head of each sheet of paper by every browser.
                thead { tr { td { (name) ": " (kind_phrase(sheet)) } } }
                tbody { tr { td {
                    h2 { (name) }
                    @for line in coverage(region) { p.quiet { (line) } }
                    (glance(sheet, region, &id))
                    div.topics { @for topic in &region.topics { (topic_part(sheet, region, topic, &id, false)) } }
                    section.source-part {
                        h3 { "Sources for " (name) }
                        (source_list(&id, &region.sources))
                    }
                } } }
            }
        }
    }
}

/// The bands of all topics along one line of weights: the first by which any is cut.
fn glance(sheet: &Sheet, region: &RegionSheet, id: &str) -> Markup {
    let used: Vec<FactId> = region
        .topics
        .iter()
        .flat_map(|t| &t.ladders)
        .map(|l| l.axis)
        .collect();
    let axes = WEIGHT_AXES.iter().filter_map(|name| catalogue().find(name));
    let Some(axis) = axes.into_iter().find(|axis| used.contains(axis)) else {
        return html! {};
    };
    let rows: Vec<Row> = region
        .topics
        .iter()
        .flat_map(|t| t.ladders.iter().map(move |l| (t, l)))
        .filter(|(_, l)| l.axis == axis)
        .map(|(t, l)| ladder_row(capital(&topic_name(t.topic)), l))
        .collect();
    let seen = rows
        .iter()
        .flat_map(|r| &r.segments)
        .find_map(|s| s.at.to.map(|(_, unit)| unit));
    let unit: Unit = unit_of_axis(sheet.units, seen);
    let title = format!("At a glance, by {}", axis_words(axis));
    html! {
        figure {
            (strips(&format!("{id}-glance"), &title, &rows, most_asked(sheet, axis), unit))
            figcaption {
                "By " (axis_words(axis)) ". Filled: asked; hatched: asked, depending on more; empty: nothing recorded. "
                "The numbers are those of the rules below."
            }
        }
    }
}

/// A ladder as a row of strips, each band marked with the numbers of its rules.
pub(in crate::report) fn ladder_row(label: String, ladder: &Ladder) -> Row {
    let segment = |band: &LadderBand| {
        let numbers: Vec<String> = band
            .entries
            .iter()
            .map(|(at, _)| (at + 1).to_string())
            .collect();
        Segment {
            at: band.at,
            asks: band
                .entries
                .iter()
                .map(|(_, a)| *a)
                .max()
                .unwrap_or(Asks::Nothing),
            mark: numbers.join(", "),
        }
    };
    Row {
        label,
        segments: ladder.bands.iter().map(segment).collect(),
    }
}

/// The heaviest weight asked for on a line.
fn most_asked(sheet: &Sheet, axis: FactId) -> Option<Exact> {
    let asked = sheet.facts.value(ItemId::RIG, axis).interval();
    asked.hi
}

/// One topic of a region; `bare` where the topic is named above already.
pub(in crate::report) fn topic_part(
    sheet: &Sheet,
    region: &RegionSheet,
    topic: &TopicSheet,
    id: &str,
    bare: bool,
) -> Markup {
    html! {
        div.topic id=(topic_id(id, topic.topic)) {
            @if !bare { h3 { (capital(&topic_name(topic.topic))) } }
            @if !topic.always.is_empty() {
                ul.rules {
                    @for at in &topic.always { (entry(sheet, region, *at, None, id)) }
                }
            }
            @for ladder in &topic.ladders { (ladder_part(sheet, region, ladder, id)) }
        }
    }
}

fn ladder_part(sheet: &Sheet, region: &RegionSheet, ladder: &Ladder, id: &str) -> Markup {
    // What an axis is, is told where a region's first ladder stands on it.
    let ladders = region.topics.iter().flat_map(|t| &t.ladders);
    let first = ladders.into_iter().find(|l| l.axis == ladder.axis);
    let explained = first.is_none_or(|f| std::ptr::eq(f, ladder));
    let mut told: Vec<usize> = Vec::new();
    html! {
        div.ladder {
            p.axis {
                "By " (axis_words(ladder.axis))
                @if explained { " " span { "(" (catalogue().def(ladder.axis).meaning) ")" } }
            }
            @for band in &ladder.bands {
                @let (again, new): (Vec<_>, Vec<_>) = band.entries.iter().partition(|(at, _)| told.contains(at));
                div.band.asked[!band.entries.is_empty()].empty[band.entries.is_empty()] {
                    h4 { (capital(&stretch_words(&band.at, sheet.units))) }
                    div.what {
                        @if band.entries.is_empty() { p.quiet { (NOTHING) } }
                        @if !again.is_empty() { p.again { (as_above(&again)) } }
                        @if !new.is_empty() {
                            ul.rules {
                                @for (at, asks) in &new { (entry(sheet, region, *at, Some(*asks), id)) }
                            }
                        }
                    }
                }
                ({ told.extend(new.iter().map(|(at, _)| *at)); "" })
            }
        }
    }
}

fn entry(sheet: &Sheet, region: &RegionSheet, at: usize, asks: Option<Asks>, id: &str) -> Markup {
    let Some(entry) = region.entries.get(at) else {
        return html! {};
    };
    let asks = asks.unwrap_or(entry.asks);
    let of = format!("{id}-{}", at + 1);
    html! {
        li.rule id=(of) {
            div.tick {
                input type="checkbox" id={ (of) "-tick" };
                div {
                    label for={ (of) "-tick" } {
                        span.number { (at + 1) "." } " "
                        @let lead = lead(entry, asks);
                        @if !lead.is_empty() { strong.lead { (lead) } }
                        (says(&entry.says, sheet.units))
                    }
                    " " (source_refs(id, &entry.sources, &region.sources))
                }
            }
            (more(entry, asks, &of))
        }
    }
}

fn more(entry: &Entry, asks: Asks, of: &str) -> Markup {
    let open = depends(entry, asks);
    html! {
        @if open.is_some() || !entry.looks.is_empty() || !entry.notes.is_empty() {
            div.more {
                @for (n, look) in entry.looks.iter().enumerate() {
                    div.tick.look {
                        input type="checkbox" id={ (of) "-look-" (n + 1) };
                        div { label for={ (of) "-look-" (n + 1) } { "Look: " (look) } }
                    }
                }
                @if open.is_some() || !entry.notes.is_empty() {
                    p {
                        @if let Some(open) = open { span.depends { (open) "." } " " }
                        @for note in &entry.notes { span.note { "Note: " (note) } " " }
                    }
                }
            }
        }
    }
}
