//! The engine: compiles packs against the catalogue, evaluates rules in three-valued logic over
//! ranges, and explains what came out.
//!
//! Compiling and evaluating are apart: packs are compiled once, outcomes are computed without
//! allocating, and explanations are made only for findings that are shown.

mod bounds;
mod check;
mod compile;
mod eval;
mod explain;
mod lower;
mod matters;
mod program;
mod questions;
pub mod solve;
pub mod survey;
mod words;

pub use check::{Binding, Finding, PRACTICE, Ruleset};
pub use compile::{Compiled, compile};
pub use eval::{
    Outcome, Truth, World, amount, combine, compare, for_each_item, in_force, outcome,
    outcome_of_item, truth,
};
pub use explain::{Explanation, condition_lines, explain, value_with_working};
pub use program::{Amount, AmountId, LookAt, Node, NodeId, Program, RuleCode, RuleFrom, Run};
pub use questions::{Asked, Question, questions};
