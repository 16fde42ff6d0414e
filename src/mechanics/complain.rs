//! Contradictions as complaints that point at both places.

use super::bench::Conflict;
use crate::facts::catalogue;
use crate::source::{Complaint, SourceText, Span};

impl Conflict {
    /// The contradiction as a complaint about the text that the facts were read from. `fallback` is
    /// marked where the place of the stated value is not known.
    #[must_use]
    pub fn complaint(&self, source: &SourceText, fallback: Span) -> Complaint {
        let name = catalogue().def(self.fact).name;
        let at = self.at.map_or(fallback, |(start, end)| Span { start, end });
        let message = format!(
            "`{name}` is stated as {}, but {} comes out of the rest",
            self.stated, self.computed
        );
        let mut complaint =
            Complaint::error("rig::contradiction", message).at(source, at, self.stated.clone());
        if let Some((start, end)) = self.against {
            complaint = complaint.also(Span { start, end }, "does not agree with this");
        }
        complaint.help("correct one of them, or leave out the one that can be worked out")
    }
}
