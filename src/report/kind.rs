//! A kind of rig: what is known of every rig that a sheet or a comparison is made for.

use super::{CheckDay, facts_on};
use crate::facts::{FactId, FactSet, ItemId, Scope, Whence, catalogue, show_value};
use crate::rig::{RIG_FORMAT, Reader, Rig, read_facts, read_rig};
use crate::source::{Complaints, SourceText, parse};

/// A kind of rig. What is not stated of it is left open.
#[derive(Clone, Debug)]
pub struct Kind {
    /// What was stated, each fact by its name with its value as written.
    known: Vec<(String, String)>,
    rig: Rig,
}

impl Kind {
    /// Reads what is known of a kind of rig: facts by their dotted names, each with a value as a rig
    /// file writes it.
    ///
    /// # Errors
    /// Every complaint about a name or a value, as for a rig file.
    pub fn read<'t>(
        known: impl IntoIterator<Item = (&'t str, &'t str)>,
    ) -> Result<Kind, Complaints> {
        let one_line = |t: &str| t.replace(['\n', '\r'], " ");
        let known: Vec<(String, String)> = known
            .into_iter()
            .map(|(fact, value)| (one_line(fact), one_line(value)))
            .collect();
        let lines = known.iter().map(|(f, v)| format!("{f}: {v}\n"));
        let text: String = lines.collect();
        let nothing = format!("rig: {RIG_FORMAT}\n");
        let mut rig = read_rig(&SourceText::from_str("a rig", &nothing))?;
        if text.is_empty() {
            return Ok(Kind { known, rig });
        }
        rig.source = SourceText::from_str("what is asked for", &text);
        let root = parse(&rig.source)?;
        let mut reader = Reader::new(&rig.source);
        if let Some(map) = reader.map(&root, "facts of a rig") {
            rig.facts = read_facts(&mut reader, map, &mut |_, _, _| false);
        }
        if reader.complaints.is_empty() {
            Ok(Kind { known, rig })
        } else {
            Err(Complaints(reader.complaints))
        }
    }

    /// The kind of which more is known; what was stated before stands.
    ///
    /// # Errors
    /// As [`Kind::read`].
    pub fn with(&self, more: &[(&str, &str)]) -> Result<Kind, Complaints> {
        let own = self.known.iter().map(|(f, v)| (f.as_str(), v.as_str()));
        let stated = |fact: &str| self.known.iter().any(|(f, _)| f == fact);
        let new = more.iter().copied().filter(|(fact, _)| !stated(fact));
        Kind::read(own.chain(new))
    }

    /// What is known of it on a day, with all that follows.
    ///
    /// # Errors
    /// Every contradiction among what is known.
    pub fn facts(&self, on: CheckDay) -> Result<FactSet, Complaints> {
        facts_on(&self.rig, on)
    }

    /// What was stated, before anything follows from it.
    #[must_use]
    pub fn stated(&self) -> &FactSet {
        &self.rig.facts
    }

    /// What was stated of the rig as a whole: each fact with its value in words.
    #[must_use]
    pub fn told(&self) -> Vec<(FactId, String)> {
        let facts = catalogue().of_scope(Scope::Rig).iter();
        facts
            .filter_map(|fact| {
                let known = self.rig.facts.known(ItemId::RIG, *fact)?;
                let stated = matches!(known.whence, Whence::Stated { .. });
                let def = catalogue().def(*fact);
                stated.then(|| (*fact, show_value(&known.value, known.unit, def)))
            })
            .collect()
    }
}
