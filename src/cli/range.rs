//! `pintle range`: the values of one fact for which no rule is broken.

use super::Status;
use super::args::{Format, RangeArgs};
use super::inputs::{Gathered, prepare};
use super::terminal::Terminal;
use crate::engine::solve::{Standing, find_subject, range};
use crate::report::{Detail, print_json, range_json, range_text};
use crate::source::{Complaint, Complaints};

pub fn run(args: &RangeArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let Some(ready) = prepare(&mut gathered, &args.rig, &args.place, &args.rules) else {
        return Err(gathered.into_complaints());
    };
    let subject = find_subject(&ready.stated, &args.fact, Some(ready.on.day))
        .map_err(|message| Complaint::error("cli::no-such-fact", message))?;
    if let Some(fault) = subject.fault() {
        return Err(Complaint::error("cli::no-range", fault).into());
    }
    let rules = ready.ruleset(!args.no_practice)?;
    let looks = rules.looks(&ready.rig.seen);
    let found = range(&rules, &ready.stated, &looks, &subject);
    let detail = Detail::of(args.all);
    terminal.print(&match args.format {
        Format::Text => range_text(
            &found,
            &rules,
            &ready.facts,
            ready.on,
            detail,
            terminal.style(),
        ),
        Format::Json => print_json(&range_json(&found, &rules, &ready.facts)),
    })?;
    let works = found.bands.iter().any(|b| b.standing != Standing::Broken);
    Ok(if works { Status::Good } else { Status::Broken })
}
