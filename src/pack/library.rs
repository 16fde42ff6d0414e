//! The library: the packs built into the program, and those of folders.

use super::cases_aside::read_without_cases;
use super::model::{Pack, Standing};
use super::read::{read_pack, read_pack_fully};
use super::regions::{REGIONS, Region};
use crate::source::{Complaint, Complaints, SourceText, read_path, suggest};
use rayon::prelude::*;
use std::path::Path;
use std::sync::OnceLock;

static BUILT_IN: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/packs.rs"));

/// The text of a pack and the id that its place gives it.
#[derive(Clone, Debug)]
pub struct PackText {
    /// The id: `us-ne` for `rules/us/ne.yaml`.
    pub id: String,
    /// The text.
    pub source: SourceText,
}

/// Packs, read when they are first asked for.
#[derive(Debug, Default)]
pub struct Library {
    shelves: Vec<Shelf>,
}

#[derive(Debug)]
struct Shelf {
    id: String,
    source: SourceText,
    /// Whether it is read without its cases.
    bare: bool,
    label: OnceLock<Label>,
    pack: OnceLock<Result<Pack, Complaints>>,
}

/// What the text of a pack tells without being read: reading every pack only to learn its region or
/// its standing would be waste.
#[derive(Debug)]
struct Label {
    regions: Vec<String>,
    practice: bool,
}

impl Shelf {
    fn new(id: String, source: SourceText) -> Shelf {
        Shelf {
            id,
            source,
            bare: false,
            label: OnceLock::new(),
            pack: OnceLock::new(),
        }
    }

    fn label(&self) -> &Label {
        self.label.get_or_init(|| {
            let lines = self.source.text().lines();
            let regions = lines.filter_map(|l| l.strip_prefix("region:"));
            Label {
                regions: regions.map(|r| r.trim().to_owned()).collect(),
                practice: self.source.text().contains("standing: practice"),
            }
        })
    }

    /// Whether the pack states this region.
    fn states(&self, code: &str) -> bool {
        match self.pack.get() {
            Some(Ok(pack)) => pack.region.as_ref().is_some_and(|r| r.value == code),
            Some(Err(_)) => false,
            None => self.label().regions.iter().any(|r| r == code),
        }
    }

    fn may_be_practice(&self) -> bool {
        match self.pack.get() {
            Some(Ok(pack)) => pack.standing == Standing::Practice,
            Some(Err(_)) => false,
            None => self.label().practice,
        }
    }

    fn read(&self) -> &Result<Pack, Complaints> {
        self.pack.get_or_init(|| match self.bare {
            true => read_without_cases(&self.source),
            false => read_pack(&self.source),
        })
    }
}

impl Library {
    /// An empty library.
    #[must_use]
    pub fn empty() -> Library {
        Library::default()
    }

    /// The packs built into the program.
    #[must_use]
    pub fn built_in() -> Library {
        let mut library = Library::empty();
        for (path, text) in BUILT_IN {
            library.add(PackText {
                id: id_of_path(path.trim_start_matches("rules/")),
                source: SourceText::from_str(path, text),
            });
        }
        library
    }

    /// The packs built into the program without their cases, which takes half the time to read: for
    /// checking rigs, not for proving packs.
    #[must_use]
    pub fn built_in_rules() -> Library {
        let mut library = Library::built_in();
        for shelf in &mut library.shelves {
            shelf.bare = true;
        }
        library
    }

    /// Adds a pack; one of the same id gives way to it.
    pub fn add(&mut self, text: PackText) {
        self.shelves.retain(|s| s.id != text.id);
        self.shelves.push(Shelf::new(text.id, text.source));
    }

    /// Adds every `.yaml` file of a folder, or one file, by the id that it states.
    ///
    /// # Errors
    /// What cannot be read, and every complaint about each of the packs.
    pub fn add_path(&mut self, path: &Path) -> Result<(), Complaints> {
        let mut texts = Vec::new();
        pack_files(path, &mut texts)?;
        if texts.is_empty() {
            let message = format!("no pack in {}", path.display());
            let help = "a pack is a `.yaml` file";
            return Err(Complaints(vec![
                Complaint::error("pack::no-pack", message).help(help),
            ]));
        }
        let mut complaints = Complaints::new();
        for source in texts {
            match read_pack_fully(&source) {
                Ok(pack) => self.add_read(pack),
                Err(more) => complaints.extend(more),
            }
        }
        if complaints.is_empty() {
            Ok(())
        } else {
            Err(complaints)
        }
    }

    /// Adds a pack that has been read; one of the same id gives way to it.
    pub fn add_read(&mut self, pack: Pack) {
        self.shelves.retain(|s| s.id != pack.id.value);
        let shelf = Shelf::new(pack.id.value.clone(), pack.source.clone());
        self.shelves.push(Shelf {
            pack: OnceLock::from(Ok(pack)),
            ..shelf
        });
    }

    /// The ids, in order.
    #[must_use]
    pub fn ids(&self) -> Vec<&str> {
        let mut ids: Vec<&str> = self.shelves.iter().map(|s| s.id.as_str()).collect();
        ids.sort_unstable();
        ids
    }

    /// The text of a pack.
    #[must_use]
    pub fn source(&self, id: &str) -> Option<&SourceText> {
        self.shelves.iter().find(|s| s.id == id).map(|s| &s.source)
    }

    /// The pack of that id, read now if it was not before.
    ///
    /// # Errors
    /// That there is none, or every complaint about its text.
    pub fn pack(&self, id: &str) -> Result<&Pack, Complaints> {
        let Some(shelf) = self.shelves.iter().find(|s| s.id == id) else {
            let mut c = Complaint::error("pack::no-pack", format!("there is no pack `{id}`"));
            if let Some(near) = suggest::nearest(id, self.shelves.iter().map(|s| s.id.as_str())) {
                c = c.help(format!("did you mean `{near}`?"));
            }
            return Err(Complaints(vec![c]));
        };
        shelf.read().as_ref().map_err(Clone::clone)
    }

    /// Every pack.
    ///
    /// # Errors
    /// The complaints about the first that cannot be read.
    pub fn all(&self) -> Result<Vec<&Pack>, Complaints> {
        self.ids().into_iter().map(|id| self.pack(id)).collect()
    }

    /// The packs of practice.
    ///
    /// # Errors
    /// As [`Library::pack`].
    pub fn practice(&self) -> Result<Vec<&Pack>, Complaints> {
        let shelves = self.shelves.iter().filter(|s| s.may_be_practice());
        let mut ids: Vec<&str> = shelves.map(|s| s.id.as_str()).collect();
        ids.sort_unstable();
        let packs: Result<Vec<&Pack>, Complaints> =
            ids.into_iter().map(|id| self.pack(id)).collect();
        Ok(packs?
            .into_iter()
            .filter(|p| p.standing == Standing::Practice)
            .collect())
    }

    /// Reads the packs of these regions and those of practice, shared out among the processors;
    /// complaints about them are kept until each is asked for.
    pub fn read_ahead(&self, regions: &[&Region]) {
        let wanted = |s: &&Shelf| s.may_be_practice() || regions.iter().any(|r| s.states(r.code));
        let shelves: Vec<&Shelf> = self.shelves.iter().filter(wanted).collect();
        shelves.par_iter().for_each(|shelf| {
            let _ = shelf.read();
        });
    }

    /// The packs that are the law of a region itself, without those that contain it.
    ///
    /// # Errors
    /// As [`Library::pack`].
    pub fn of_region(&self, code: &str) -> Result<Vec<&Pack>, Complaints> {
        let stating = self.shelves.iter().filter(|s| s.states(code));
        let mut ids: Vec<&str> = stating.map(|s| s.id.as_str()).collect();
        ids.sort_unstable();
        let packs: Result<Vec<&Pack>, Complaints> =
            ids.into_iter().map(|id| self.pack(id)).collect();
        let is_law = |p: &&Pack| {
            p.standing == Standing::Law && p.region.as_ref().is_some_and(|r| r.value == code)
        };
        Ok(packs?.into_iter().filter(is_law).collect())
    }

    /// Whether some pack states that it is the law of a region; no pack is read for it.
    #[must_use]
    pub fn has_region(&self, code: &str) -> bool {
        self.shelves.iter().any(|s| s.states(code))
    }

    /// The regions that some pack covers, in the order of the list of regions.
    #[must_use]
    pub fn regions(&self) -> Vec<&'static Region> {
        REGIONS
            .iter()
            .filter(|r| self.of_region(r.code).is_ok_and(|p| !p.is_empty()))
            .collect()
    }

    /// A pack and all packs that it lies within or adopts from, the pack itself first.
    ///
    /// # Errors
    /// As [`Library::pack`].
    pub fn with_references(&self, roots: &[&str]) -> Result<Vec<&Pack>, Complaints> {
        let mut out: Vec<&Pack> = Vec::new();
        let mut wanted: Vec<String> = roots.iter().rev().map(|s| (*s).to_owned()).collect();
        while let Some(id) = wanted.pop() {
            if out.iter().any(|p| p.id.value == id) {
                continue;
            }
            // A reference that leads nowhere is the compiler's to complain of, at its place.
            if self.source(&id).is_none() && !roots.contains(&id.as_str()) {
                continue;
            }
            let pack = self.pack(&id)?;
            out.push(pack);
            wanted.extend(pack.within.iter().map(|w| w.value.clone()));
            wanted.extend(pack.adopts.iter().map(|a| a.pack.value.clone()));
            wanted.extend(pack.terms_of_others());
        }
        Ok(out)
    }
}

/// The id that a path below `rules/` gives: `us/ne.yaml` is `us-ne`.
#[must_use]
pub fn id_of_path(path: &str) -> String {
    path.trim_end_matches(".yaml").replace(['/', '\\'], "-")
}

/// Reads the pack files at a path: the file itself, or those of a folder and its folders.
///
/// # Errors
/// What cannot be read.
pub fn pack_files(path: &Path, out: &mut Vec<SourceText>) -> Result<(), Complaints> {
    if !path.is_dir() {
        out.push(read_path(path)?);
        return Ok(());
    }
    let unreadable = |e: std::io::Error| {
        let message = format!("cannot read the folder {}: {e}", path.display());
        Complaints(vec![Complaint::error("pack::folder", message)])
    };
    let mut entries = Vec::new();
    for entry in std::fs::read_dir(path).map_err(unreadable)? {
        entries.push(entry.map_err(unreadable)?.path());
    }
    entries.sort();
    for entry in entries {
        let is_pack = entry.extension().is_some_and(|e| e == "yaml" || e == "yml");
        if is_pack || entry.is_dir() {
            pack_files(&entry, out)?;
        }
    }
    Ok(())
}
