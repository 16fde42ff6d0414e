//! Bands of weights in words.

use super::{Entry, RegionSheet, Sheet};
use crate::engine::survey::{Asks, Stretch};
use crate::facts::{FactId, catalogue, format_day};
use crate::report::finding::{region_name, topic_name};
use crate::report::summary::capital;
use crate::report::units::{Units, told_in};

/// "less than 3,000 lb", "3,000 lb or more, but less than 6,500 lb", "more than 10,000 lb".
#[must_use]
pub(in crate::report) fn stretch_words(at: &Stretch, units: Option<Units>) -> String {
    let show = |(x, unit)| told_in(x, unit, units);
    match (at.from, at.to) {
        (Some(a), Some(b)) if a.0 == b.0 => format!("exactly {}", show(a)),
        (None, None) => "any weight".to_owned(),
        (None, Some(b)) if at.to_included => format!("{} or less", show(b)),
        (None, Some(b)) => format!("less than {}", show(b)),
        (Some(a), None) if at.from_included => format!("{} or more", show(a)),
        (Some(a), None) => format!("more than {}", show(a)),
        (Some(a), Some(b)) => {
            let from = if at.from_included {
                format!("{} or more", show(a))
            } else {
                format!("more than {}", show(a))
            };
            let to = if at.to_included {
                "not more than"
            } else {
                "less than"
            };
            format!("{from}, but {to} {}", show(b))
        }
    }
}

/// What a line of weights measures: "gross weight of the trailer: what the trailer weighs with its
/// load, as driven".
#[must_use]
pub(in crate::report) fn axis_words(axis: FactId) -> &'static str {
    catalogue().def(axis).label
}

/// What stands where no rule turns by weight.
pub(super) const NOTHING: &str = "No rule recorded here asks for more at this weight.";

/// "Nebraska: boat trailers, private use".
pub(super) fn title(sheet: &Sheet, region: &str) -> String {
    format!("{}: {}", capital(region_name(region)), kind_phrase(sheet))
}

/// The kind of rig in a few words: "boat trailers, private use, gross weight 0 lb to 10,000 lb".
pub(in crate::report) fn kind_phrase_of(kind: &[(FactId, String)]) -> String {
    let mut parts: Vec<String> = Vec::new();
    let name = |fact: &FactId| catalogue().def(*fact).name;
    let of = |wanted: &str| kind.iter().find(|(f, _)| name(f) == wanted).map(|(_, v)| v);
    parts.push(of("trailer.kind").map_or_else(
        || "trailers of any kind".to_owned(),
        |kind| format!("{} trailers", kind.replace('-', " ")),
    ));
    if let Some(used) = of("use") {
        parts.push(format!("{used} use"));
    }
    if let Some(gross) = of("trailer.gross_weight") {
        parts.push(format!("gross weight {gross}"));
    }
    for (fact, value) in kind {
        if !["trailer.kind", "use", "trailer.gross_weight"].contains(&name(fact)) {
            parts.push(format!("{} {value}", catalogue().def(*fact).label));
        }
    }
    parts.join(", ")
}

/// The kind of rig of a sheet in a few words.
pub(super) fn kind_phrase(sheet: &Sheet) -> String {
    kind_phrase_of(&sheet.kind)
}

/// What the sheet is made for, in a sentence.
pub(super) fn made_for(sheet: &Sheet) -> String {
    format!("Rules in force on {}.", format_day(sheet.on.day))
}

/// What is told and what is not.
pub(super) fn coverage(region: &RegionSheet) -> Vec<String> {
    let mut out = vec![format!(
        "{} rules may bind such a rig; {} others cannot and are left out.",
        region.entries.len(),
        region.left_out
    )];
    let topics: Vec<String> = region.not_covered.iter().map(|t| topic_name(*t)).collect();
    if let Some((last, rest)) = topics.split_last() {
        let list = if rest.is_empty() {
            last.clone()
        } else {
            format!("{} or {last}", rest.join(", "))
        };
        out.push(format!(
            "No rule of {}'s own on {list} is recorded; that does not mean that there is none.",
            region_name(&region.region)
        ));
    }
    out
}

/// "As in the band before: 3 and 4."
pub(super) fn as_above(again: &[&(usize, Asks)]) -> String {
    let numbers: Vec<String> = again.iter().map(|(at, _)| (at + 1).to_string()).collect();
    match numbers.split_last() {
        Some((last, [])) => format!("Number {last} above stays due."),
        Some((last, rest)) => format!("Numbers {} and {last} above stay due.", rest.join(", ")),
        None => String::new(),
    }
}

/// What stands before what a rule says.
pub(super) fn lead(entry: &Entry, asks: Asks) -> &'static str {
    match (entry.doubt, asks) {
        (true, _) => "In doubt: ",
        (_, Asks::Barred) => "Not allowed: ",
        _ => "",
    }
}

/// What decides whether it binds, where that is open.
pub(super) fn depends(entry: &Entry, asks: Asks) -> Option<String> {
    if asks != Asks::Perhaps || entry.depends_on.is_empty() {
        return None;
    }
    let labels: Vec<&str> = entry
        .depends_on
        .iter()
        .map(|f| catalogue().def(*f).label)
        .collect();
    Some(format!("Depends on: {}", labels.join("; ")))
}
