//! Proves a pack: makes every slip in turn, and asks whether some case notices.

use super::cases::{PreparedCase, prepare_cases};
use super::change::{apply, revert};
use super::slips::{Slip, SlipKind, slips};
use super::witness::{Verdict, find_witness};
use crate::engine::{Compiled, Program, outcome};
use crate::source::Complaint;
use std::collections::BTreeMap;

/// What proving a pack came to.
#[derive(Clone, Debug, Default)]
pub struct Proof {
    /// The pack.
    pub pack: String,
    /// How many rules it has, adopted ones not counted.
    pub rules: usize,
    /// How many cases were run.
    pub cases: usize,
    /// For each kind of slip: how many were made, and how many were noticed.
    pub made: BTreeMap<SlipKind, (usize, usize)>,
    /// Slips that change no outcome of any rig, shown by going through every distinguishable one.
    pub equivalent: usize,
    /// The slips that no case notices, as complaints at the words in question.
    pub survivors: Vec<Complaint>,
}

impl Proof {
    /// How many slips were made, equivalent ones left out.
    #[must_use]
    pub fn slips(&self) -> usize {
        self.made
            .values()
            .map(|m| m.0)
            .sum::<usize>()
            .saturating_sub(self.equivalent)
    }
}

/// Proves one of the compiled packs. Its cases must pass.
#[must_use]
pub fn prove(compiled: &Compiled<'_>, pack: usize) -> Proof {
    let (cases, _) = prepare_cases(compiled, pack);
    let mut proof = Proof {
        cases: cases.len(),
        ..Proof::default()
    };
    let Some(source) = compiled.packs.get(pack) else {
        return proof;
    };
    proof.pack.clone_from(&source.id.value);
    proof.rules = source.rules.len();
    let mut of_rule: BTreeMap<usize, Vec<&PreparedCase>> = BTreeMap::new();
    for case in &cases {
        of_rule.entry(case.rule).or_default().push(case);
    }
    let mut program = compiled.program.clone();
    for slip in slips(&compiled.program, pack) {
        let tally = proof.made.entry(slip.kind).or_default();
        tally.0 += 1;
        let undo = apply(&mut program, &slip.change);
        let noticed = slip
            .rules
            .iter()
            .any(|r| of_rule.get(r).is_some_and(|c| notices(&program, c)));
        if noticed {
            tally.1 += 1;
        } else {
            match find_witness(&compiled.program, &program, &slip, &of_rule) {
                Verdict::Equivalent => proof.equivalent += 1,
                verdict => proof
                    .survivors
                    .push(survivor(compiled, pack, &slip, &verdict)),
            }
        }
        revert(&mut program, undo);
    }
    proof.survivors.sort_by_key(|c| c.span().map(|s| s.start));
    proof
}

fn notices(p: &Program, cases: &[&PreparedCase]) -> bool {
    cases.iter().any(|c| {
        p.rules
            .get(c.rule)
            .is_some_and(|r| outcome(p, r, &c.facts, &c.looks, c.on) != c.expect)
    })
}

fn survivor(compiled: &Compiled<'_>, pack: usize, slip: &Slip, verdict: &Verdict) -> Complaint {
    let names: Vec<&str> = slip
        .rules
        .iter()
        .filter_map(|r| compiled.program.rules.get(*r).map(|c| c.id.as_str()))
        .take(3)
        .collect();
    let code = match slip.kind {
        SlipKind::Comparison => "proof::comparison",
        SlipKind::Number => "proof::number",
        SlipKind::Condition => "proof::condition",
        SlipKind::Member => "proof::member",
        SlipKind::WeightBasis => "proof::weight-basis",
        SlipKind::Date => "proof::date",
    };
    let message = format!(
        "{}: no case notices if this were {}",
        names.join(", "),
        slip.would_be
    );
    let help = match verdict {
        Verdict::Witness { given, on, rule } => {
            let id = compiled
                .program
                .rules
                .get(*rule)
                .map_or("", |r| r.id.as_str());
            let on = on.map_or_else(String::new, |d| {
                format!("on: {}, ", crate::facts::format_day(d))
            });
            format!(
                "add a case to {id}, with the outcome that the text of the law gives:\n- {{{on}given: {given}, expect: … }}"
            )
        }
        _ => "add a case, from the text of the law, whose outcome hangs on this".to_owned(),
    };
    let mut c = Complaint::error(code, message);
    if let Some(p) = compiled.packs.get(pack) {
        c = c.at(&p.source, slip.span, "nobody checked this");
    }
    c.help(help)
}
