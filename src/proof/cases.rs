//! Cases: small rigs, and the outcome that a rule must give for each.

use crate::engine::{Compiled, Outcome, World, explain, for_each_item, outcome};
use crate::facts::{Day, FactSet, parse_day};
use crate::mechanics::work_out;
use crate::pack::{Case, Pack};
use crate::rig::{Reader, Seen, read_facts, read_seen};
use crate::source::{Complaint, Map, Node, Span, Value};

/// A case, read and worked out.
#[derive(Clone, Debug)]
pub struct PreparedCase {
    /// The rule, by its place in the program.
    pub rule: usize,
    /// The facts.
    pub facts: FactSet,
    /// What was looked at, for each look of the program.
    pub looks: Vec<Option<bool>>,
    /// The day, if the case names one.
    pub on: Option<Day>,
    /// What the rule must say.
    pub expect: Outcome,
    /// Where the outcome stands in the pack.
    pub span: Span,
}

/// Reads the cases of one of the compiled packs. What cannot be read is complained of.
#[must_use]
pub fn prepare_cases(compiled: &Compiled<'_>, pack: usize) -> (Vec<PreparedCase>, Vec<Complaint>) {
    let Some(source) = compiled.packs.get(pack).copied() else {
        return (Vec::new(), Vec::new());
    };
    let mut p = Preparer {
        compiled,
        pack: source,
        out: Vec::new(),
        r: Reader::new(&source.source),
    };
    for rule in &source.rules {
        let id = format!("{}/{}", source.id.value, rule.id.value);
        for case in &rule.cases {
            p.case(case, &id, None);
        }
    }
    for adoption in &source.adopts {
        let stem = format!("{}/{}", source.id.value, adoption.pack.value);
        for case in &adoption.cases {
            p.case(case, "", Some(&stem));
        }
    }
    (p.out, p.r.complaints)
}

/// Runs the cases of one of the compiled packs and complains of those that come out otherwise.
#[must_use]
pub fn check_cases(compiled: &Compiled<'_>, pack: usize) -> (usize, Vec<Complaint>) {
    let (cases, mut complaints) = prepare_cases(compiled, pack);
    let Some(source) = compiled.packs.get(pack) else {
        return (0, complaints);
    };
    for case in &cases {
        let Some(rule) = compiled.program.rules.get(case.rule) else {
            continue;
        };
        let got = outcome(&compiled.program, rule, &case.facts, &case.looks, case.on);
        if got != case.expect {
            let why = reasons(compiled, case);
            complaints.push(
                Complaint::error(
                    "proof::case-fails",
                    format!(
                        "{}: the case expects `{}`, the rule gives `{}`",
                        rule.id,
                        case.expect.name(),
                        got.name()
                    ),
                )
                .at(&source.source, case.span, format!("gives `{}`", got.name()))
                .help(why),
            );
        }
    }
    (cases.len(), complaints)
}

fn reasons(compiled: &Compiled<'_>, case: &PreparedCase) -> String {
    let Some(rule) = compiled.program.rules.get(case.rule) else {
        return String::new();
    };
    let mut lines = Vec::new();
    for_each_item(rule.each, &case.facts, |item| {
        let w = World {
            facts: &case.facts,
            item,
            looks: &case.looks,
        };
        lines.extend(explain(&compiled.program, rule, w).because);
    });
    if lines.is_empty() {
        "no condition decided it".to_owned()
    } else {
        lines.join("; ")
    }
}

struct Preparer<'a, 'p> {
    compiled: &'a Compiled<'p>,
    pack: &'p Pack,
    out: Vec<PreparedCase>,
    r: Reader<'p>,
}

impl Preparer<'_, '_> {
    fn case(&mut self, case: &Case, rule: &str, adopted: Option<&str>) {
        let Some(map) = self.r.map(&case.node, "a case") else {
            return;
        };
        let mut known = vec!["given", "expect", "on", "seen", "note"];
        known.extend(adopted.map(|_| "rule"));
        for e in &map.entries {
            if !known.contains(&e.key.text.as_str()) {
                let message = format!("`{}` is not a key of a case", e.key.text);
                self.r.unknown_name(
                    "pack::unknown-key",
                    message,
                    &e.key.text,
                    e.key.span,
                    known.iter().copied(),
                );
            }
        }
        let id = match adopted {
            Some(stem) => match map.get("rule").and_then(|n| self.r.text(n, "`rule`")) {
                Some(rule) => format!("{stem}/{rule}"),
                None => {
                    self.r.error(
                        "pack::missing-key",
                        "a case of an adoption names the `rule`",
                        case.node.span,
                        "expected `rule: …`",
                    );
                    return;
                }
            },
            None => rule.to_owned(),
        };
        let Some(index) = self.compiled.program.rules.iter().position(|c| c.id == id) else {
            self.r.error(
                "pack::dangling",
                format!("there is no rule `{id}`"),
                case.node.span,
                "leads nowhere",
            );
            return;
        };
        self.prepare(map, &case.node, index, &id);
    }

    fn prepare(&mut self, map: &Map, node: &Node, rule: usize, id: &str) {
        let before = self.r.complaints.len();
        let expect = self.expect(map, node);
        let on = map.get("on").and_then(|n| {
            let text = self.r.text(n, "`on`")?;
            let day = parse_day(&text);
            if day.is_none() {
                self.r.error(
                    "read::date",
                    format!("`{text}` is not a day"),
                    n.span,
                    "expected YYYY-MM-DD",
                );
            }
            day
        });
        let seen = map
            .get("seen")
            .map(|n| self.seen(n, id))
            .unwrap_or_default();
        let Some(given) = map.get("given") else {
            self.r.error(
                "pack::missing-key",
                "a case has no `given`",
                node.span,
                "expected `given: {…}`",
            );
            return;
        };
        let mut facts = match &given.value {
            // Nothing given is a case too: a rule that always applies and whose fact is missing.
            Value::Null => FactSet::new(),
            _ => match self.r.map(given, "`given`") {
                Some(m) => read_facts(&mut self.r, m, &mut |_, _, _| false),
                None => return,
            },
        };
        for conflict in work_out(&mut facts, on) {
            let c = conflict.complaint(&self.pack.source, given.span);
            self.r.complaints.push(c);
        }
        let (Some((expect, span)), true) = (expect, self.r.complaints.len() == before) else {
            return;
        };
        let looks = &self.compiled.program.looks;
        self.out.push(PreparedCase {
            rule,
            facts,
            looks: looks.iter().map(|l| seen.get(&l.key).copied()).collect(),
            on,
            expect,
            span,
        });
    }

    fn expect(&mut self, map: &Map, node: &Node) -> Option<(Outcome, Span)> {
        let Some(n) = map.get("expect") else {
            self.r.error(
                "pack::missing-key",
                "a case has no `expect`",
                node.span,
                "expected an outcome",
            );
            return None;
        };
        let text = self.r.text(n, "`expect`")?;
        let found = Outcome::find(&text);
        if found.is_none() {
            self.r.unknown_name(
                "pack::outcome",
                format!("`{text}` is no outcome"),
                &text,
                n.span,
                Outcome::ALL.map(Outcome::name),
            );
        }
        found.map(|o| (o, n.span))
    }

    /// `seen: yes` answers the rule's looks that have no key; a mapping answers them by key.
    fn seen(&mut self, node: &Node, id: &str) -> Seen {
        if let Value::Map(_) = node.value {
            let by_key = read_seen(&mut self.r, node);
            return by_key
                .into_iter()
                .map(|(k, v)| (format!("{id}/{k}"), v))
                .collect();
        }
        let mut seen = Seen::new();
        if let Some(b) = self.r.yes_no(node, "`seen`") {
            seen.insert(id.to_owned(), b);
        }
        seen
    }
}
