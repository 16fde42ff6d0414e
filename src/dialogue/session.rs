//! The dialogue itself: questions, answers, going back.

use super::place;
use crate::engine::solve::Subject;
use crate::engine::{Asked, Binding, LookAt, Outcome, Question, Ruleset, questions};
use crate::facts::{FactSet, ItemId, Scope, catalogue};
use crate::report::{CheckDay, Detail, Report, Units, facts_on, stated_on};
use crate::rig::{Rig, Step, Written, meant, read_rig, write_value};
use crate::source::{Complaint, Complaints, SourceText};
use std::collections::BTreeSet;

/// Why an answer was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// What is wrong with it.
    pub message: String,
    /// What was expected, or what to do.
    pub expected: String,
    /// An answer that may have been meant.
    pub instead: Option<String>,
}

impl From<&Complaint> for Refusal {
    fn from(c: &Complaint) -> Refusal {
        let label = c.labels.first().map(|l| l.text.clone());
        let told = c.help.clone().or(label).unwrap_or_default();
        let expected = told.strip_prefix("expected ").unwrap_or(&told);
        Refusal {
            message: c.message.clone(),
            expected: expected.to_owned(),
            instead: None,
        }
    }
}

/// A dialogue about one rig, on one route, for one day.
///
/// ```
/// use pintle::dialogue::Session;
/// use pintle::engine::Ruleset;
/// use pintle::facts::parse_day;
/// use pintle::pack::{Library, Region};
/// use pintle::report::CheckDay;
/// use pintle::source::SourceText;
///
/// let library = Library::built_in();
/// let rules = Ruleset::new(&library, &[Region::find("US-NE").unwrap()], false).unwrap();
/// let on = CheckDay::asked(parse_day("2026-12-01").unwrap());
/// let empty = SourceText::from_str("rig.yaml", "rig: 1\n");
/// let mut session = Session::new(&rules, &empty, on).unwrap();
/// let first = session.next().unwrap();
/// session.dont_know(first.asked);
/// assert_ne!(session.next().map(|q| q.asked), Some(first.asked));
/// assert!(session.back());
/// assert_eq!(session.next().unwrap().asked, first.asked);
/// ```
pub struct Session<'r, 'l> {
    rules: &'r Ruleset<'l>,
    on: CheckDay,
    rig: Rig,
    stated: FactSet,
    skip: BTreeSet<Asked>,
    history: Vec<(Rig, BTreeSet<Asked>)>,
}

impl<'r, 'l> Session<'r, 'l> {
    /// Begins with what a rig file says.
    ///
    /// # Errors
    /// Every complaint about the file, and every contradiction in it.
    pub fn new(
        rules: &'r Ruleset<'l>,
        text: &SourceText,
        on: CheckDay,
    ) -> Result<Session<'r, 'l>, Complaints> {
        let rig = read_rig(text)?;
        facts_on(&rig, on)?;
        Ok(Session {
            rules,
            on,
            stated: stated_on(&rig, on),
            rig,
            skip: BTreeSet::new(),
            history: Vec::new(),
        })
    }

    /// The rig as the answers so far make it.
    #[must_use]
    pub fn rig(&self) -> &Rig {
        &self.rig
    }

    /// The text of the rig file as the answers so far make it.
    #[must_use]
    pub fn text(&self) -> &str {
        self.rig.source.text()
    }

    /// The facts that the rig states.
    #[must_use]
    pub fn stated(&self) -> &FactSet {
        &self.stated
    }

    /// The rules of the route.
    #[must_use]
    pub fn rules(&self) -> &'r Ruleset<'l> {
        self.rules
    }

    /// All open questions, the most telling first.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        let looks = self.rules.looks(&self.rig.seen);
        questions(
            self.rules,
            &self.stated,
            &looks,
            Some(self.on.day),
            &self.skip,
        )
    }

    /// The question to ask next; none when no answer could change an outcome.
    #[must_use]
    #[allow(clippy::should_implement_trait)] // Not an iterator: the answers change what comes next.
    pub fn next(&self) -> Option<Question> {
        self.questions().into_iter().next()
    }

    /// Takes an answer. When it is refused, all stays as it was.
    ///
    /// # Errors
    /// What is wrong with the answer, or what it contradicts.
    pub fn answer(&mut self, asked: Asked, answer: &str) -> Result<(), Refusal> {
        let value = place::value(asked, answer).map_err(|refusal| Refusal {
            instead: self.meant(asked, answer),
            ..refusal
        })?;
        let path = place::path(&self.stated, asked);
        self.write(&path, &value, Some(asked))
    }

    /// What may have been meant by an answer that cannot be read. A bare number is taken to be in the
    /// units of the rig, or else in those of the route.
    fn meant(&self, asked: Asked, answer: &str) -> Option<String> {
        let Asked::Fact(item, fact) = asked else {
            return None;
        };
        let unit = Subject::of(&self.stated, item, fact).unit(&self.stated);
        let canada = |b: &Binding| b.region.starts_with("CA");
        let metric = match unit {
            Some(unit) => Units::Metric.has(unit),
            None => self.rules.bindings().first().is_some_and(canada),
        };
        meant(catalogue().def(fact), answer, metric)
    }

    /// Notes that nobody knows; it is not asked for again.
    pub fn dont_know(&mut self, asked: Asked) {
        self.history.push((self.rig.clone(), self.skip.clone()));
        self.skip.insert(asked);
    }

    /// Takes the last answer back. Whether there was one.
    pub fn back(&mut self) -> bool {
        let Some((rig, skip)) = self.history.pop() else {
            return false;
        };
        self.stated = stated_on(&rig, self.on);
        self.rig = rig;
        self.skip = skip;
        true
    }

    /// Things to look at, of rules that hang on nothing else.
    #[must_use]
    pub fn looks(&self) -> Vec<LookAt> {
        let looks = self.rules.looks(&self.rig.seen);
        let Ok(facts) = facts_on(&self.rig, self.on) else {
            return Vec::new();
        };
        let outcomes = self.rules.outcomes(&facts, &looks, Some(self.on.day));
        let mut out: Vec<LookAt> = Vec::new();
        for binding in self.rules.bindings() {
            for index in &binding.rules {
                let rule = self.rules.program().rules.get(*index);
                let (Some(rule), Some(Outcome::Confirm)) = (rule, outcomes.get(*index)) else {
                    continue;
                };
                let finding = self.rules.finding(
                    &binding.region,
                    rule,
                    Outcome::Confirm,
                    &facts,
                    &looks,
                    self.on.day,
                );
                for look in finding.looks {
                    if !out.iter().any(|l| l.key == look.key) {
                        out.push(look);
                    }
                }
            }
        }
        out
    }

    /// Notes what was seen: as it should be, or not.
    ///
    /// # Errors
    /// That it cannot be written into the file.
    pub fn see(&mut self, look: &LookAt, good: bool) -> Result<(), Refusal> {
        let path = [Step::Key("seen".to_owned()), Step::Key(look.key.clone())];
        let word = if good { "yes" } else { "no" };
        self.write(&path, &Written::Scalar(word.to_owned()), None)
    }

    /// Notes the regions of the trip, by code, where the file names none.
    ///
    /// # Errors
    /// That they cannot be written into the file.
    pub fn name_regions(&mut self, codes: &[&str]) -> Result<(), Refusal> {
        if !self.rig.regions.is_empty() {
            return Ok(());
        }
        let path = ["trip", "regions"].map(|k| Step::Key(k.to_owned()));
        let codes = codes.iter().map(|c| Written::Scalar((*c).to_owned()));
        self.write(&path, &Written::List(codes.collect()), None)
    }

    fn write(
        &mut self,
        path: &[Step],
        value: &Written,
        asked: Option<Asked>,
    ) -> Result<(), Refusal> {
        let told = |c: &Complaints| {
            c.0.first().map_or_else(
                || Refusal {
                    message: "the answer cannot be taken".to_owned(),
                    expected: String::new(),
                    instead: None,
                },
                Refusal::from,
            )
        };
        let source = &self.rig.source;
        let text = write_value(source, path, value).map_err(|c| told(&c))?;
        let rig = read_rig(&SourceText::from_str(source.name(), &text)).map_err(|c| told(&c))?;
        facts_on(&rig, self.on).map_err(|c| told(&c))?;
        self.history.push((self.rig.clone(), self.skip.clone()));
        if let Some(Asked::List(Scope::TieDown, owner)) = asked {
            self.shift_tie_downs(owner, value);
        }
        self.skip.extend(asked);
        self.stated = stated_on(&rig, self.on);
        self.rig = rig;
        Ok(())
    }

    /// Tie-downs are counted through the whole load, so that those of later items move on when an
    /// earlier item's are listed.
    fn shift_tie_downs(&mut self, owner: ItemId, value: &Written) {
        let more = match value {
            Written::List(items) => items.len(),
            _ => 0,
        };
        let before = self.stated.items(Scope::TieDown).iter();
        let before = before.filter(|t| t.parent < Some(owner.index)).count();
        let shifted = |asked: &Asked| match *asked {
            Asked::Fact(item, fact) if item.scope == Scope::TieDown && item.index >= before => {
                let index = item.index.saturating_add(more);
                Asked::Fact(ItemId { index, ..item }, fact)
            }
            other => other,
        };
        self.skip = self.skip.iter().map(shifted).collect();
    }

    /// The report on the rig as the answers so far make it.
    ///
    /// # Errors
    /// Contradictions among its facts; no answer is taken that makes one.
    pub fn report(&self, detail: Detail) -> Result<Report, Complaints> {
        let report = Report::new(&self.rig, self.rules, self.on, detail)?;
        report.with_margins(&self.rig, self.rules)
    }
}
