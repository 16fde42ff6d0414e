//! `pintle check`: a rig against the rules of regions.

use super::Status;
use super::args::CheckArgs;
use super::documents::ReportFormat;
use super::inputs::{Gathered, rig, route, rules};
use super::sheet::units;
use super::terminal::Terminal;
use crate::engine::{Outcome, Ruleset};
use crate::facts::today;
use crate::report::{
    CheckDay, Detail, Report, facts_on, print_json, report_html, report_json, report_text,
};
use crate::source::Complaints;

pub fn run(args: &CheckArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let rig = gathered.keep(rig(&args.rig));
    let library = gathered.keep(rules(&args.rules));
    // Without the rig, only the regions of the command line can be looked at.
    let known = rig.is_some() || !args.place.regions.is_empty();
    let regions = library
        .as_ref()
        .filter(|_| known)
        .and_then(|l| gathered.keep(route(l, &args.place, rig.as_ref())));
    let on = rig.as_ref().and_then(|r| {
        gathered.keep(CheckDay::choose(args.place.on, Some(r), today()).map_err(Into::into))
    });
    // A contradiction in the rig is told together with what is wrong elsewhere.
    if let (Some(rig), Some(on), None) = (&rig, on, &regions) {
        let _ = gathered.keep(facts_on(rig, on));
    }
    let (Some(rig), Some(library), Some(regions), Some(on)) = (rig, library, regions, on) else {
        return Err(gathered.into_complaints());
    };
    let rules = Ruleset::new(&library, &regions, !args.no_practice)?;
    let detail = Detail::of(args.all || args.format == ReportFormat::Json);
    let report = Report::new(&rig, &rules, on, detail)?.with_margins(&rig, &rules)?;
    terminal.print(&match args.format {
        ReportFormat::Text => report_text(&report, terminal.style()),
        ReportFormat::Html => report_html(&report, &rig, &rules, units(args.units))?,
        ReportFormat::Json => print_json(&report_json(&report)),
    })?;
    Ok(status(report.gravest(), args.strict))
}

/// How a run ends whose gravest outcome is this.
pub fn status(gravest: Outcome, strict: bool) -> Status {
    match gravest {
        Outcome::NotMet => Status::Broken,
        Outcome::Unknown | Outcome::Confirm if strict => Status::Open,
        _ => Status::Good,
    }
}
