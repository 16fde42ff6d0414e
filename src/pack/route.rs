//! The regions of a route: names and codes as people write them, to regions that packs cover.

use super::library::Library;
use super::regions::{REGIONS, Region};
use crate::source::{Complaint, Complaints, SourceText, Span, quote, suggest};

/// A region as it was asked for.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The code or the name, case ignored; a country stands for all its parts that a pack covers.
    pub text: &'a str,
    /// Where it stands, when it was read from a file.
    pub place: Option<(&'a SourceText, Span)>,
}

impl<'a> Asked<'a> {
    /// A region asked for on a command line.
    #[must_use]
    pub fn plain(text: &'a str) -> Asked<'a> {
        Asked { text, place: None }
    }

    fn complain(
        &self,
        code: &'static str,
        message: String,
        label: &str,
        help: String,
    ) -> Complaint {
        let complaint = Complaint::error(code, message).help(help);
        match self.place {
            Some((source, span)) => complaint.at(source, span, label),
            None => complaint,
        }
    }
}

impl Library {
    /// The regions asked for, in that order and each once. A country stands for those of its parts
    /// that some pack covers, or for itself where no part has a pack.
    ///
    /// # Errors
    /// One complaint for each name that is no region, with the nearest that is, and for each
    /// region that no pack covers; and complaints about packs that cannot be read.
    pub fn route(&self, asked: &[Asked<'_>]) -> Result<Vec<&'static Region>, Complaints> {
        let mut route: Vec<&'static Region> = Vec::new();
        let mut complaints = Complaints::new();
        for a in asked {
            match self.covered(a) {
                Ok(regions) => {
                    for region in regions {
                        if !route.iter().any(|r| r.code == region.code) {
                            route.push(region);
                        }
                    }
                }
                Err(more) => complaints.extend(more),
            }
        }
        if complaints.is_empty() {
            Ok(route)
        } else {
            Err(complaints)
        }
    }

    fn covered(&self, asked: &Asked<'_>) -> Result<Vec<&'static Region>, Complaints> {
        let region = Region::asked(asked)?;
        if region.is_country() {
            let parts = REGIONS
                .iter()
                .filter(|r| !r.is_country() && region.contains(r));
            let parts: Vec<&Region> = parts.filter(|r| self.has_region(r.code)).collect();
            if !parts.is_empty() {
                return Ok(parts);
            }
        }
        if self.of_region(region.code)?.is_empty() {
            let message = format!("no pack covers {} ({})", region.name, region.code);
            let help = "no rule is recorded for it, so nothing can be said of it; `pintle packs list` names the regions that are covered, and `--rules DIR` reads further packs";
            return Err(asked
                .complain("pack::no-region", message, "not covered", help.to_owned())
                .into());
        }
        Ok(vec![region])
    }
}

impl Region {
    /// The region of a code or a name as somebody wrote it.
    ///
    /// # Errors
    /// That there is none, with the nearest that is.
    pub fn asked(asked: &Asked<'_>) -> Result<&'static Region, Complaints> {
        Region::find(asked.text).ok_or_else(|| unknown(asked).into())
    }
}

fn unknown(asked: &Asked<'_>) -> Complaint {
    // Two letters are taken for the second part of a code.
    let part = |r: &&Region| {
        r.code
            .split_once('-')
            .is_some_and(|(_, p)| p.eq_ignore_ascii_case(asked.text.trim()))
    };
    let names = REGIONS.iter().flat_map(|r| [r.name, r.code]);
    let nearest = || suggest::nearest(asked.text, names).and_then(Region::find);
    let help = match REGIONS.iter().find(part).or_else(nearest) {
        Some(near) => format!("did you mean `{}` ({})?", near.name, near.code),
        None => "give a state, province or territory of the United States or Canada by its name or its ISO 3166-2 code, such as US-NE, or `US` or `CA` for all of a country".to_owned(),
    };
    asked.complain(
        "pack::unknown-region",
        format!("there is no region {}", quote(asked.text)),
        "not known",
        help,
    )
}
