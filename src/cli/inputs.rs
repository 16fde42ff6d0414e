//! What several commands read: rigs, libraries, regions. All that is wrong is gathered, so that it is
//! told in one run.

use super::args::{PlaceArgs, RulesArgs};
use crate::pack::{Asked, Library, Region};
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
    let mut library = if args.only_rules {
        Library::empty()
    } else {
        Library::built_in()
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
