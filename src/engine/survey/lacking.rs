//! From which weight a rig breaks a rule that lacks something: brakes, chains, a licence.

use super::at_weight;
use super::axis::{Stretch, stretches};
use crate::engine::Ruleset;
use crate::engine::eval::{Truth, World, for_each_item, in_force, truth};
use crate::engine::program::{Program, RuleCode};
use crate::facts::{Day, FactId, FactSet};

/// How a rig stands that lacks something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Lack {
    /// No rule is broken.
    Fine,
    /// A rule may be broken: that hangs on more facts, or the law is in doubt.
    Open,
    /// A rule is broken.
    Broken,
}

/// A stretch of a line of weights on which a rig stands in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacking {
    /// The weights.
    pub at: Stretch,
    /// How the rig stands.
    pub lack: Lack,
    /// The rules that are broken, or may be, by their places in the program.
    pub rules: Vec<usize>,
}

/// How a rig stands with some rules along a line of weights. Only those rules count that look
/// otherwise upon `with`, which is the same rig with what it lacks.
#[must_use]
pub fn lacking(
    rules: &Ruleset<'_>,
    which: &[usize],
    without: &FactSet,
    with: &FactSet,
    axis: FactId,
    on: Option<Day>,
) -> Vec<Lacking> {
    let p = rules.program();
    let mut out: Vec<Lacking> = Vec::new();
    for at in stretches(p, which, without, axis) {
        let bare = at_weight(without, axis, at.inner(), on);
        let fitted = at_weight(with, axis, at.inner(), on);
        let mut lack = Lack::Fine;
        let mut of: Vec<usize> = Vec::new();
        for index in which {
            let Some(rule) = p.rules.get(*index) else {
                continue;
            };
            let seen = view(p, rule, &bare, on);
            // What looks alike with and without it does not hang on it.
            if seen == view(p, rule, &fitted, on) {
                continue;
            }
            let own = seen
                .iter()
                .map(|v| judge(*v, rule.doubt))
                .max()
                .unwrap_or(Lack::Fine);
            if own > lack {
                lack = own;
                of.clear();
            }
            if own == lack && own != Lack::Fine {
                of.push(*index);
            }
        }
        match out.last_mut() {
            Some(last) if last.lack == lack && last.rules == of => last.at = last.at.joined(at),
            _ => out.push(Lacking {
                at,
                lack,
                rules: of,
            }),
        }
    }
    out
}

/// Whether a rule binds and whether it is kept, for each item that it is run for.
fn view(p: &Program, rule: &RuleCode, facts: &FactSet, on: Option<Day>) -> Vec<(Truth, Truth)> {
    let mut out = Vec::new();
    if in_force(rule, on) {
        for_each_item(rule.each, facts, |item| {
            let w = World {
                facts,
                item,
                looks: &[],
            };
            out.push((truth(p, rule.applies, w), truth(p, rule.must, w)));
        });
    }
    out
}

fn judge(view: (Truth, Truth), doubt: bool) -> Lack {
    match view {
        (Truth::False, _) | (_, Truth::True) => Lack::Fine,
        (Truth::True, Truth::False) if !doubt => Lack::Broken,
        _ => Lack::Open,
    }
}
