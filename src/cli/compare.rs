//! `pintle compare`: what regions ask on one topic.

use super::Status;
use super::documents::{CompareArgs, DocumentFormat};
use super::inputs::{Gathered, rules};
use super::sheet::{day, kind, units};
use super::terminal::Terminal;
use crate::engine::Ruleset;
use crate::pack::Asked;
use crate::report::{
    comparison, comparison_html, comparison_json, comparison_markdown, comparison_text, print_json,
};
use crate::source::Complaints;

pub fn run(args: &CompareArgs, terminal: &Terminal) -> Result<Status, Complaints> {
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
    let rules = Ruleset::new(&library, &regions, false)?;
    let (on, units) = (day(&args.kind), units(args.kind.units));
    let comparison = comparison(&rules, &kind, args.topic, on, units)?;
    terminal.print(&match args.format {
        DocumentFormat::Text => comparison_text(&comparison, terminal.style()),
        DocumentFormat::Html => comparison_html(&comparison),
        DocumentFormat::Markdown => comparison_markdown(&comparison),
        DocumentFormat::Json => print_json(&comparison_json(&comparison)),
    })?;
    Ok(Status::Good)
}
