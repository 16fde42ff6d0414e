//! The comparison as a page.

use super::map::map;
use super::{Comparison, LackTold};
use crate::engine::PRACTICE;
use crate::engine::survey::{Asks, Lack, Lacking};
use crate::facts::{FactId, ItemId, catalogue, format_day};
use crate::quantity::{Exact, Unit};
use crate::report::finding::{region_name, topic_name};
use crate::report::markup::{Row, Segment, closing, document, source_list, strips};
use crate::report::sheet::{axis_words, kind_phrase_of, ladder_row, topic_part};
use crate::report::summary::capital;
use crate::report::units::unit_of_axis;
use maud::{Markup, html};

const STYLE: &str = concat!(
    include_str!("../sheet/sheet.css"),
    include_str!("compare.css")
);

/// The comparison as one page of HTML that needs no script and fetches nothing.
#[must_use]
pub fn comparison_html(c: &Comparison) -> String {
    let topic = capital(&topic_name(c.topic));
    let phrase = kind_phrase_of(&c.sheet.kind);
    let title = format!("{topic}, region by region: {phrase}");
    let authorities: Vec<_> = c
        .regions()
        .iter()
        .filter_map(|r| Some((r.region.clone(), r.authority.clone()?)))
        .collect();
    let foot = format!("{title}, {}", format_day(c.sheet.on.day));
    let body = html! {
        div.part id="comparison" {
            header {
                h1 { (title) }
                p.quiet { "Rules in force on " (format_day(c.sheet.on.day)) ". What is not stated of the rig is left open." }
            }
            main {
                @if let Some(lack) = &c.lack { (lack_part(c, lack)) }
                (axes_part(c))
                (side_by_side(c))
            }
            footer { (closing(&authorities, &c.sheet.packs, c.sheet.on)) }
        }
    };
    document(&title, STYLE, &[("comparison".to_owned(), foot)], &body)
}

/// The weight from which the lack of something breaks a rule: strips, map and table.
fn lack_part(c: &Comparison, lack: &LackTold) -> Markup {
    let rows: Vec<Row> = lack
        .regions
        .iter()
        .filter(|(r, _)| r != PRACTICE)
        .map(|(r, stretches)| Row {
            label: capital(region_name(r)),
            segments: segments(c, r, stretches),
        })
        .collect();
    let title = format!("Without {}, by gross weight of the trailer", lack.what);
    html! {
        section {
            h2 { "From which weight: without " (lack.what) }
            p {
                "The gross weight of the trailer from which a rig without " (lack.what) " breaks a rule. "
                "Where it is not stated otherwise, the rig is taken to have " (lack.taken) "."
            }
            figure.map {
                (map(c))
            }
            figure {
                (strips("lack", &title, &rows, most_asked(c), unit_of(c, &rows)))
                figcaption { "Filled: needed, a rule is broken without; hatched: it depends on more, or the law is in doubt; empty: nothing recorded." }
            }
            table.plain {
                caption { "The same in a table" }
                thead { tr { th scope="col" { "Region" } th scope="col" { "Needed" } th scope="col" { "Rules" } } }
                tbody {
                    @for (region, stretches) in lack.regions.iter().filter(|(r, _)| r != PRACTICE) {
                        tr {
                            th scope="row" { (capital(region_name(region))) }
                            td { @if let Some(t) = c.threshold(region) { (capital(&c.told(region, &t))) } }
                            td.rule-ids { (rule_ids(c, stretches)) }
                        }
                    }
                }
            }
        }
    }
}

fn rule_ids(c: &Comparison, stretches: &[Lacking]) -> String {
    c.ids_of(stretches).join(", ")
}

/// The stretches of a region, those joined that stand alike. Where nothing is recorded on the topic,
/// that is said.
fn segments(c: &Comparison, region: &str, stretches: &[Lacking]) -> Vec<Segment> {
    let mut out: Vec<Segment> = Vec::new();
    for next in stretches.iter().map(segment) {
        match out.last_mut() {
            Some(last) if last.asks == next.asks => last.at = last.at.joined(next.at),
            _ => out.push(next),
        }
    }
    if let [one] = out.as_mut_slice()
        && c.is_gap(region)
        && one.asks == Asks::Nothing
    {
        one.mark = "no rule on this is recorded".to_owned();
    }
    out
}

fn segment(l: &Lacking) -> Segment {
    Segment {
        at: l.at,
        asks: match l.lack {
            Lack::Fine => Asks::Nothing,
            Lack::Open => Asks::Perhaps,
            Lack::Broken => Asks::Surely,
        },
        mark: match l.lack {
            Lack::Fine => "",
            Lack::Open => "open",
            Lack::Broken => "needed",
        }
        .to_owned(),
    }
}

fn most_asked(c: &Comparison) -> Option<Exact> {
    let gross = catalogue().find("trailer.gross_weight")?;
    c.sheet.facts.value(ItemId::RIG, gross).interval().hi
}

fn unit_of(c: &Comparison, rows: &[Row]) -> Unit {
    let seen = rows
        .iter()
        .flat_map(|r| &r.segments)
        .find_map(|s| s.at.from.map(|(_, unit)| unit));
    unit_of_axis(c.sheet.units, seen)
}

/// What is asked by weight: for each line of weights a strip for every region that has rules by it.
fn axes_part(c: &Comparison) -> Markup {
    let mut axes: Vec<FactId> = Vec::new();
    for ladder in c
        .regions()
        .iter()
        .flat_map(|r| &r.topics)
        .flat_map(|t| &t.ladders)
    {
        if !axes.contains(&ladder.axis) {
            axes.push(ladder.axis);
        }
    }
    axes.sort();
    html! {
        section {
            h2 { "What is asked, by weight" }
            @if axes.is_empty() { p { "No rule recorded here turns by a weight." } }
            @for (n, axis) in axes.iter().enumerate() {
                @let rows = rows_on(c, *axis);
                h3 { "By " (axis_words(*axis)) }
                figure {
                    (strips(&format!("axis-{}", n + 1), &format!("By {}", axis_words(*axis)), &rows, None, unit_of(c, &rows)))
                    figcaption { "Filled: asked; hatched: asked, depending on more; empty: nothing recorded. The numbers are those of each region’s rules below." }
                }
            }
        }
    }
}

fn rows_on(c: &Comparison, axis: FactId) -> Vec<Row> {
    let mut rows = Vec::new();
    for region in c.regions() {
        for ladder in region.topics.iter().flat_map(|t| &t.ladders) {
            if ladder.axis == axis {
                rows.push(ladder_row(capital(region_name(&region.region)), ladder));
            }
        }
    }
    rows
}

fn side_by_side(c: &Comparison) -> Markup {
    html! {
        section {
            h2 { "Side by side" }
            div.columns {
                @for region in c.regions() {
                    @let id = format!("part-{}", region.region.to_lowercase());
                    section.region id=(id) {
                        h3.name { (capital(region_name(&region.region))) }
                        @if region.topics.is_empty() { p.quiet { "No rule recorded here binds such a rig." } }
                        @for topic in &region.topics { (topic_part(&c.sheet, region, topic, &id, true)) }
                        (source_list(&id, &region.sources))
                    }
                }
            }
        }
    }
}
