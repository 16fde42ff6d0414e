//! Gathers what binds a kind of rig, region by region.

use super::{Entry, Ladder, LadderBand, RegionSheet, Sheet, TopicSheet};
use crate::engine::survey::{Asks, Band, asks, axis_of, bands, residue};
use crate::engine::{Binding, Program, RuleCode, Ruleset};
use crate::facts::{FactId, FactSet};
use crate::pack::{Source, Topic};
use crate::report::{CheckDay, Kind, Units, packs_used};
use crate::source::Complaints;

/// What the regions of a route ask of a kind of rig; only on some topics, where any are named.
///
/// # Errors
/// Every contradiction among what is known of the kind.
pub fn sheet(
    rules: &Ruleset<'_>,
    kind: &Kind,
    topics: &[Topic],
    on: CheckDay,
    units: Option<Units>,
) -> Result<Sheet, Complaints> {
    let facts = kind.facts(on)?;
    let authorities = rules.authorities();
    let not_covered = rules.not_covered();
    let wanted = |t: Topic| topics.is_empty() || topics.contains(&t);
    let regions = rules.bindings().iter().map(|binding| {
        let mut b = Builder {
            rules,
            facts: &facts,
            on,
            scratch: rules.program().clone(),
            sheet: RegionSheet {
                region: binding.region.clone(),
                authority: authorities
                    .iter()
                    .find(|(r, _)| *r == binding.region)
                    .map(|(_, a)| a.clone()),
                entries: Vec::new(),
                topics: Vec::new(),
                sources: Vec::new(),
                not_covered: not_covered
                    .iter()
                    .filter(|(r, t)| *r == binding.region && wanted(*t))
                    .map(|(_, t)| *t)
                    .collect(),
                left_out: 0,
            },
        };
        for topic in Topic::ALL.into_iter().filter(|t| wanted(*t)) {
            b.topic(binding, topic);
        }
        b.sheet
    });
    let regions: Vec<RegionSheet> = regions.collect();
    Ok(Sheet {
        on,
        units,
        kind: kind.told(),
        facts,
        regions,
        packs: packs_used(rules),
    })
}

struct Builder<'a, 'l> {
    rules: &'a Ruleset<'l>,
    facts: &'a FactSet,
    on: CheckDay,
    scratch: Program,
    sheet: RegionSheet,
}

/// Rules that say the same and are told by the same weight.
struct Group {
    rules: Vec<usize>,
    axis: Option<FactId>,
    says: String,
}

impl Builder<'_, '_> {
    fn topic(&mut self, binding: &Binding, topic: Topic) {
        let groups = self.groups(binding, topic);
        let mut told = TopicSheet {
            topic,
            always: Vec::new(),
            ladders: Vec::new(),
        };
        for group in groups.iter().filter(|g| g.axis.is_none()) {
            told.always.push(self.entry(group));
        }
        let mut axes: Vec<FactId> = Vec::new();
        for axis in groups.iter().filter_map(|g| g.axis) {
            if !axes.contains(&axis) {
                axes.push(axis);
            }
        }
        axes.sort();
        for axis in axes {
            let here: Vec<&Group> = groups.iter().filter(|g| g.axis == Some(axis)).collect();
            told.ladders.push(self.ladder(axis, &here));
        }
        if !told.always.is_empty() || !told.ladders.is_empty() {
            self.sheet.topics.push(told);
        }
    }

    /// The rules of a topic that may bind, those together that say the same.
    fn groups(&mut self, binding: &Binding, topic: Topic) -> Vec<Group> {
        let p = self.rules.program();
        let mut groups: Vec<Group> = Vec::new();
        for index in &binding.rules {
            let Some(rule) = p.rules.get(*index).filter(|r| r.topic == topic) else {
                continue;
            };
            if asks(p, rule, self.facts, Some(self.on.day)) == Asks::Nothing {
                self.sheet.left_out += 1;
                continue;
            }
            let axis = self.axis(*index, rule);
            let says = self.says(rule);
            match groups.iter_mut().find(|g| g.says == says && g.axis == axis) {
                Some(group) => group.rules.push(*index),
                None => groups.push(Group {
                    rules: vec![*index],
                    axis,
                    says,
                }),
            }
        }
        groups
    }

    fn axis(&self, index: usize, rule: &RuleCode) -> Option<FactId> {
        axis_of(self.rules.program(), rule, |axis| {
            self.bands(&[index], axis).len() > 1
        })
    }

    fn bands(&self, which: &[usize], axis: FactId) -> Vec<Band> {
        bands(self.rules, which, self.facts, axis, Some(self.on.day))
    }

    fn says(&self, rule: &RuleCode) -> String {
        self.rules
            .rule_of(rule)
            .map_or_else(String::new, |r| r.says.clone())
    }

    fn ladder(&mut self, axis: FactId, groups: &[&Group]) -> Ladder {
        let mut which: Vec<usize> = Vec::new();
        let mut spans: Vec<(usize, usize, usize)> = Vec::new();
        for group in groups {
            let entry = self.entry(group);
            spans.push((entry, which.len(), which.len() + group.rules.len()));
            which.extend(&group.rules);
        }
        let mut out: Vec<LadderBand> = Vec::new();
        for band in self.bands(&which, axis) {
            let most = |(entry, from, to): &(usize, usize, usize)| {
                let asks = band.asks.get(*from..*to)?.iter().max()?;
                (*asks != Asks::Nothing).then_some((*entry, *asks))
            };
            let entries: Vec<(usize, Asks)> = spans.iter().filter_map(most).collect();
            match out.last_mut() {
                Some(last) if last.entries == entries => last.at = last.at.joined(band.at),
                _ => out.push(LadderBand {
                    at: band.at,
                    entries,
                }),
            }
        }
        Ladder { axis, bands: out }
    }

    fn entry(&mut self, group: &Group) -> usize {
        let p = self.rules.program();
        let mut entry = Entry {
            rules: Vec::new(),
            says: group.says.clone(),
            asks: Asks::Nothing,
            when: Vec::new(),
            depends_on: Vec::new(),
            looks: Vec::new(),
            notes: Vec::new(),
            doubt: true,
            sources: Vec::new(),
        };
        for rule in group.rules.iter().filter_map(|i| p.rules.get(*i)) {
            entry.rules.push(rule.id.clone());
            entry.asks = entry.asks.max(asks(p, rule, self.facts, Some(self.on.day)));
            entry.doubt &= rule.doubt;
            let open = residue(p, &mut self.scratch, rule, self.facts);
            if entry.when.is_empty() {
                entry.when = open.when;
            }
            keep_new(&mut entry.depends_on, open.facts);
            let looks = open.looks.iter().filter_map(|l| p.looks.get(*l as usize));
            let looks: Vec<String> = looks.map(|l| l.text.clone()).collect();
            keep_new(&mut entry.looks, looks);
            keep_new(&mut entry.notes, self.rules.notes_of(rule));
            for source in self.rules.sources_of(rule) {
                let place = self.source(source);
                keep_new(&mut entry.sources, [place]);
            }
        }
        // The weight of the ladder is told by the bands.
        entry.depends_on.retain(|f| Some(*f) != group.axis);
        let plain = |t: &str| t.trim_end_matches('.').to_lowercase();
        let says = plain(&entry.says);
        entry.looks.retain(|l| !says.contains(&plain(l)));
        self.sheet.entries.push(entry);
        self.sheet.entries.len() - 1
    }

    /// The place of a source in the region's list.
    fn source(&mut self, source: Source) -> usize {
        let list = &mut self.sheet.sources;
        match list.iter().position(|s| *s == source) {
            Some(at) => at,
            None => {
                list.push(source);
                list.len() - 1
            }
        }
    }
}

fn keep_new<T: PartialEq>(list: &mut Vec<T>, more: impl IntoIterator<Item = T>) {
    for one in more {
        if !list.contains(&one) {
            list.push(one);
        }
    }
}
