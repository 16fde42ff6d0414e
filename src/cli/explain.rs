//! `pintle explain`: a rule in full, alone or for a rig.

use super::Status;
use super::args::ExplainArgs;
use super::check::status;
use super::inputs::{Gathered, library, rig, route};
use super::terminal::Terminal;
use crate::engine::Outcome;
use crate::facts::today;
use crate::report::{CheckDay, ForRig, facts_on, find_rules, stories, story_text};
use crate::source::Complaints;

pub fn run(args: &ExplainArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let rig = args.rig.as_ref().map(|path| gathered.keep(rig(path)));
    let library = gathered.keep(library(&args.rules));
    let regions = library
        .as_ref()
        .and_then(|l| gathered.keep(route(l, &args.place, None)));
    let (Some(library), Some(regions)) = (library, regions) else {
        return Err(gathered.into_complaints());
    };
    let found = gathered.keep(find_rules(&library, &args.rule, &regions));
    let on = gathered.keep(
        CheckDay::choose(
            args.place.on,
            rig.as_ref().and_then(Option::as_ref),
            today(),
        )
        .map_err(Into::into),
    );
    let (Some((rules, ids)), Some(on), false) = (found, on, matches!(rig, Some(None))) else {
        return Err(gathered.into_complaints());
    };
    let rig = rig.flatten();
    let facts = rig.as_ref().map(|r| facts_on(r, on)).transpose()?;
    let for_rig = rig.as_ref().zip(facts.as_ref()).map(|(rig, facts)| ForRig {
        facts,
        seen: &rig.seen,
        on: on.day,
    });
    let told = stories(&rules, &ids, for_rig);
    terminal.print(&story_text(&told, terminal.style()))?;
    let gravest = told
        .iter()
        .filter_map(|s| s.finding.as_ref())
        .map(|f| f.outcome)
        .max();
    Ok(status(gravest.unwrap_or(Outcome::Met), false))
}
