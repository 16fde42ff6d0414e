//! `pintle strictest`: the one set of requirements that satisfies every region of a route.

use super::Status;
use super::args::{Format, StrictestArgs};
use super::inputs::{Gathered, prepare};
use super::terminal::Terminal;
use crate::engine::solve::strictest;
use crate::report::{Detail, print_json, strictest_json, strictest_text};
use crate::source::Complaints;

pub fn run(args: &StrictestArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let Some(ready) = prepare(&mut gathered, &args.rig, &args.place, &args.rules) else {
        return Err(gathered.into_complaints());
    };
    let rules = ready.ruleset(!args.no_practice)?;
    let looks = rules.looks(&ready.rig.seen);
    let found = strictest(&rules, &ready.facts, &looks, Some(ready.on.day));
    let detail = Detail::of(args.all);
    terminal.print(&match args.format {
        Format::Text => strictest_text(
            &found,
            &rules,
            &ready.facts,
            ready.on,
            detail,
            terminal.style(),
        ),
        Format::Json => print_json(&strictest_json(&found, &rules, &ready.facts)),
    })?;
    let impossible = found.demands.iter().any(|d| d.is_impossible());
    Ok(if impossible {
        Status::Broken
    } else {
        Status::Good
    })
}
