//! A question for people and for programs.

use super::place::list_expected;
use super::session::Session;
use crate::engine::{Asked, Question};
use crate::facts::{Choice, FactSet, Kind, Scope, catalogue};
use crate::report::{CitedRule, cited};
use serde_json::{Value, json};

/// The version of the format of questions for programs.
pub const ASK_FORMAT: u32 = 1;

/// A question, put into words.
#[derive(Clone, Debug)]
pub struct Told {
    /// The dotted name of what is asked for.
    pub name: String,
    /// The question: "gross weight of the trailer".
    pub label: String,
    /// What is meant by it, or how it is measured.
    pub meaning: String,
    /// What kind of answer it wants: "mass", "choice", "list".
    pub kind: &'static str,
    /// How it is answered.
    pub expected: String,
    /// The words to choose from.
    pub choices: &'static [Choice],
    /// The rules that hang on it.
    pub rules: Vec<CitedRule>,
    /// How many rules it may settle by itself.
    pub settles: usize,
    /// How many rules hang on it.
    pub hang: usize,
}

impl Told {
    /// Puts a question into words.
    #[must_use]
    pub fn new(question: &Question, session: &Session<'_, '_>) -> Told {
        let facts = session.stated();
        let name = question.asked.name(facts);
        let rules = cited(session.rules(), question.rules.iter().copied());
        let (hang, settles) = (question.rules.len(), question.settles.len());
        match question.asked {
            Asked::List(scope, owner) => Told {
                name,
                label: list_label(facts, scope, owner),
                meaning: list_meaning(scope).to_owned(),
                kind: "list",
                expected: list_expected(scope).to_owned(),
                choices: &[],
                rules,
                settles,
                hang,
            },
            Asked::Fact(item, fact) => {
                let def = catalogue().def(fact);
                let of = facts.called(item);
                Told {
                    name,
                    label: if of.is_empty() {
                        def.label.to_owned()
                    } else {
                        format!("{of}: {}", def.label)
                    },
                    meaning: def.meaning.to_owned(),
                    kind: def.kind.name(),
                    expected: expected(&def.kind),
                    choices: def.kind.choices(),
                    rules,
                    settles,
                    hang,
                }
            }
        }
    }

    /// How many rules hang on it, in words.
    #[must_use]
    pub fn why(&self) -> String {
        let rules = |n: usize| match n {
            1 => "1 rule".to_owned(),
            n => format!("{n} rules"),
        };
        let hang = if self.hang == 1 { "hangs" } else { "hang" };
        let settle = match self.settles {
            0 => String::new(),
            n if n == self.hang => ", which it may settle".to_owned(),
            n => format!("; it may settle {} by itself", rules(n)),
        };
        format!("{} {hang} on it{settle}", rules(self.hang))
    }
}

fn list_label(facts: &FactSet, scope: Scope, owner: crate::facts::ItemId) -> String {
    match scope {
        Scope::Load => "what the trailer carries".to_owned(),
        Scope::TieDown => match facts.called(owner) {
            of if of.is_empty() => "tie-downs".to_owned(),
            of => format!("{of}: tie-downs"),
        },
        Scope::Axle => "axles of the trailer".to_owned(),
        Scope::VehicleAxle => "axles of the towing vehicle".to_owned(),
        Scope::Tyre => "tyres of the trailer".to_owned(),
        Scope::Rig => String::new(),
    }
}

fn list_meaning(scope: Scope) -> &'static str {
    match scope {
        Scope::Load => "the items of the load on the trailer, each under a name of its own",
        Scope::TieDown => "the straps, chains, ropes and binders that hold the item",
        Scope::Axle => "each axle of the trailer, from front to rear",
        Scope::VehicleAxle => "each axle of the towing vehicle, from front to rear",
        Scope::Tyre => "the tyres that the trailer stands on",
        Scope::Rig => "",
    }
}

fn expected(kind: &Kind) -> String {
    match kind {
        Kind::Measure(d) => format!("{}; or a range, such as X to Y", d.expected()),
        Kind::Year => "a year, such as 2019; or a range, such as 2015 to 2019".to_owned(),
        Kind::Date => "a day, such as 2026-12-01; or a month or a year".to_owned(),
        Kind::YesNo => "yes or no".to_owned(),
        Kind::Choice(_) => {
            "one of these, by word or number; several where it is one of them".to_owned()
        }
        Kind::Set(_) => {
            "all that are there, by word or number, with commas between; or none".to_owned()
        }
        Kind::Text => "a text".to_owned(),
    }
}

/// The next questions for programs, the most telling first, and how many are open.
#[must_use]
pub fn questions_json(session: &Session<'_, '_>, most: usize) -> Value {
    let open = session.questions();
    let one = |q: &Question| {
        let told = Told::new(q, session);
        let ids = |rules: &std::collections::BTreeSet<usize>| -> Vec<String> {
            let codes = rules
                .iter()
                .filter_map(|i| session.rules().program().rules.get(*i));
            codes.map(|r| r.id.clone()).collect()
        };
        let choices = told
            .choices
            .iter()
            .map(|c| json!({"name": c.name, "meaning": c.meaning}));
        json!({
            "fact": told.name,
            "label": told.label,
            "meaning": told.meaning,
            "kind": told.kind,
            "expected": told.expected,
            "choices": choices.collect::<Vec<_>>(),
            "rules": ids(&q.rules),
            "settles": ids(&q.settles),
        })
    };
    let looks = session.looks();
    json!({
        "ask": ASK_FORMAT,
        "open": open.len(),
        "questions": open.iter().take(most).map(one).collect::<Vec<_>>(),
        "to_look_at": looks.iter().map(|l| json!({"key": l.key, "text": l.text})).collect::<Vec<_>>(),
    })
}

/// The JSON Schema (2020-12) of the next questions, as `pintle ask --next` prints them.
#[must_use]
pub fn questions_schema() -> Value {
    let text = |what: &str| json!({"type": "string", "description": what});
    let ids =
        |what: &str| json!({"type": "array", "items": {"type": "string"}, "description": what});
    let choice = json!({
        "type": "object", "additionalProperties": false, "required": ["name", "meaning"],
        "properties": {"name": text("The word to answer with."), "meaning": text("What it means.")},
    });
    let question = json!({
        "type": "object", "additionalProperties": false,
        "required": ["fact", "label", "meaning", "kind", "expected", "choices", "rules", "settles"],
        "properties": {
            "fact": text("The dotted name of what is asked for."),
            "label": text("What it is called."),
            "meaning": text("What it means, how it is measured."),
            "kind": text("What kind of value it has."),
            "expected": text("How the answer is written."),
            "choices": {"type": "array", "items": choice, "description": "The answers to choose from, if it is a choice or a set."},
            "rules": ids("The rules that are open for want of it."),
            "settles": ids("Of these, the rules that it may settle by itself."),
        },
    });
    let look = json!({
        "type": "object", "additionalProperties": false, "required": ["key", "text"],
        "properties": {"key": text("The key by which a rig's `seen` answers it."), "text": text("What to look at.")},
    });
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "The next questions about a rig",
        "description": "What to find out next, the most telling first. No question is left when no answer could change an outcome.",
        "type": "object", "additionalProperties": false,
        "required": ["ask", "open", "questions", "to_look_at"],
        "properties": {
            "ask": {"const": ASK_FORMAT, "description": "The version of the format."},
            "open": {"type": "integer", "minimum": 0, "description": "How many questions are open in all."},
            "questions": {"type": "array", "items": question},
            "to_look_at": {"type": "array", "items": look, "description": "What somebody has to look at."},
        },
    })
}
