//! `pintle sheet`: what regions ask of a kind of rig.

use super::Status;
use super::documents::{DocumentFormat, KindArgs, SheetArgs, UnitsAsked};
use super::inputs::{Gathered, rules};
use super::terminal::Terminal;
use crate::engine::Ruleset;
use crate::facts::today;
use crate::pack::Asked;
use crate::report::{
    CheckDay, Kind, Units, print_json, sheet, sheet_html, sheet_json, sheet_markdown, sheet_text,
};
use crate::source::Complaints;

pub fn run(args: &SheetArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let kind = gathered.keep(kind(&args.kind));
    let library = gathered.keep(rules(&args.rules));
    let asked: Vec<Asked<'_>> = args.regions.iter().map(|r| Asked::plain(r)).collect();
    let regions = library
        .as_ref()
        .and_then(|l| gathered.keep(l.route(&asked)));
    let (Some(kind), Some(library), Some(regions)) = (kind, library, regions) else {
        return Err(gathered.into_complaints());
    };
    let rules = Ruleset::new(&library, &regions, args.practice)?;
    let on = day(&args.kind);
    let sheet = sheet(&rules, &kind, &args.topics, on, units(args.kind.units))?;
    terminal.print(&match args.format {
        DocumentFormat::Text => sheet_text(&sheet, terminal.style()),
        DocumentFormat::Html => sheet_html(&sheet),
        DocumentFormat::Markdown => sheet_markdown(&sheet),
        DocumentFormat::Json => print_json(&sheet_json(&sheet)),
    })?;
    Ok(Status::Good)
}

/// What is known of the kind of rig asked for.
pub fn kind(args: &KindArgs) -> Result<Kind, Complaints> {
    let named = [
        ("trailer.kind", &args.kind),
        ("use", &args.used_for),
        ("trailer.gross_weight", &args.gross),
    ];
    let named = named
        .into_iter()
        .filter_map(|(fact, value)| Some((fact, value.as_deref()?)));
    let given = args.given.iter().map(|(f, v)| (f.as_str(), v.as_str()));
    Kind::read(named.chain(given))
}

/// The day asked for, or today.
pub fn day(args: &KindArgs) -> CheckDay {
    match args.on {
        Some(day) => CheckDay::asked(day),
        None => CheckDay {
            day: today(),
            from: crate::report::DayFrom::Today,
        },
    }
}

/// The units asked for.
pub fn units(asked: Option<UnitsAsked>) -> Option<Units> {
    asked.map(|u| match u {
        UnitsAsked::Us => Units::Us,
        UnitsAsked::Metric => Units::Metric,
    })
}
