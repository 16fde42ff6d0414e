//! What several commands read: rigs, libraries, regions. All that is wrong is gathered, so that it is
//! told in one run.

use super::args::{PlaceArgs, RulesArgs};
use crate::engine::Ruleset;
use crate::facts::{FactSet, today};
use crate::pack::{Asked, Library, Region};
use crate::report::{CheckDay, facts_on, stated_on};
use crate::rig::{Rig, read_rig};
use crate::source::{Complaint, Complaints, read_path};
use std::path::Path;

/// Complaints gathered from inputs that do not depend on one another.
#[derive(Default)]
pub struct Gathered(Complaints);

impl Gathered {
    /// The value, or nothing, its complaints being kept.
    pub fn keep<T>(&mut self, read: Result<T, Complaints>) -> Option<T> {
        match read {
            Ok(value) => Some(value),
            Err(complaints) => {
                self.0.extend(complaints);
                None
            }
        }
    }

    /// What was gathered; an error even when it is empty, for where something is missing.
    pub fn into_complaints(self) -> Complaints {
        self.0
    }
}

/// Reads a rig file.
pub fn rig(path: &Path) -> Result<Rig, Complaints> {
    read_rig(&read_path(path)?)
}

/// The built-in packs, and those of the paths given, or only these.
pub fn library(args: &RulesArgs) -> Result<Library, Complaints> {
    added_to(Library::built_in(), args)
}

/// The same for a command that has no use for the cases of packs.
pub fn rules(args: &RulesArgs) -> Result<Library, Complaints> {
    added_to(Library::built_in_rules(), args)
}

fn added_to(built_in: Library, args: &RulesArgs) -> Result<Library, Complaints> {
    let mut library = if args.only_rules {
        Library::empty()
    } else {
        built_in
    };
    let mut gathered = Gathered::default();
    let mut good = true;
    for path in &args.paths {
        good &= gathered.keep(library.add_path(path)).is_some();
    }
    if good {
        Ok(library)
    } else {
        Err(gathered.into_complaints())
    }
}

/// The regions asked for, or else those of the rig's trip.
pub fn route(
    library: &Library,
    place: &PlaceArgs,
    rig: Option<&Rig>,
) -> Result<Vec<&'static Region>, Complaints> {
    if !place.regions.is_empty() {
        let asked: Vec<Asked<'_>> = place.regions.iter().map(|r| Asked::plain(r)).collect();
        return library.route(&asked);
    }
    let Some(rig) = rig else {
        return Ok(Vec::new());
    };
    let asked: Vec<Asked<'_>> = rig
        .regions
        .iter()
        .map(|(text, span)| Asked {
            text,
            place: Some((&rig.source, *span)),
        })
        .collect();
    if asked.is_empty() {
        let help = "say where with `--in Nebraska`, or in the rig with `trip: {regions: [US-NE]}`";
        return Err(
            Complaint::error("cli::no-region", "there is no region to check the rig for")
                .help(help)
                .into(),
        );
    }
    library.route(&asked)
}

/// A rig, its route and its day, ready for the solver.
pub struct Ready {
    /// The rig.
    pub rig: Rig,
    /// The day of the check.
    pub on: CheckDay,
    /// What the rig states, on that day.
    pub stated: FactSet,
    /// The same with all worked out.
    pub facts: FactSet,
    library: Library,
    regions: Vec<&'static Region>,
}

impl Ready {
    /// The rules that bind on the route.
    pub fn ruleset(&self, practice: bool) -> Result<Ruleset<'_>, Complaints> {
        Ruleset::new(&self.library, &self.regions, practice)
    }
}

/// Reads a rig, the packs, the route and the day. `None` when something is wrong, which is gathered.
pub fn prepare(
    gathered: &mut Gathered,
    path: &Path,
    place: &PlaceArgs,
    packs: &RulesArgs,
) -> Option<Ready> {
    let rig = gathered.keep(rig(path));
    let library = gathered.keep(rules(packs));
    let known = rig.is_some() || !place.regions.is_empty();
    let regions = library
        .as_ref()
        .filter(|_| known)
        .and_then(|l| gathered.keep(route(l, place, rig.as_ref())));
    let on = rig.as_ref().and_then(|r| {
        gathered.keep(CheckDay::choose(place.on, Some(r), today()).map_err(Into::into))
    });
    let facts = rig
        .as_ref()
        .zip(on)
        .and_then(|(r, on)| gathered.keep(facts_on(r, on)));
    let (rig, on, library) = (rig?, on?, library?);
    Some(Ready {
        stated: stated_on(&rig, on),
        facts: facts?,
        rig,
        on,
        library,
        regions: regions?,
    })
}
