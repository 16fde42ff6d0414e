//! Bounds on one fact that no number can keep together.

use super::lower::Lower;
use super::program::{Amount, AmountId, Node, Run};
use crate::facts::{FactId, catalogue};
use crate::source::Span;
use std::collections::HashMap;

impl Lower<'_, '_> {
    /// Complains of bounds on one fact that no number can keep together.
    pub(super) fn check_bounds(&mut self, run: Run, span: Span) {
        use crate::pack::Comparison as C;
        let mut bounds: HashMap<FactId, Vec<(C, crate::quantity::Exact)>> = HashMap::new();
        for kid in self.program.run(run) {
            if let Node::Compare { left, by, right } = self.program.node(*kid)
                && let Some((Amount::Fact(fact), _, _)) = self.program.amount(left)
                && let Some(value) = self.literal(right)
            {
                bounds.entry(*fact).or_default().push((by, value));
            }
        }
        for (fact, list) in bounds {
            let clash = list.iter().any(|(a, x)| {
                list.iter().any(|(b, y)| match (a, b) {
                    (C::AtLeast | C::Equals, C::AtMost | C::Equals) => x > y,
                    (C::AtLeast | C::Equals, C::LessThan)
                    | (C::MoreThan, C::AtMost | C::Equals | C::LessThan) => x >= y,
                    _ => false,
                })
            });
            if clash {
                let message = format!(
                    "no value of `{}` can keep these bounds together",
                    catalogue().def(fact).name
                );
                self.error(
                    "pack::impossible",
                    message,
                    span,
                    "never true",
                    Some("the lower bound lies above the upper".to_owned()),
                );
            }
        }
    }

    fn literal(&self, id: AmountId) -> Option<crate::quantity::Exact> {
        match self.program.amount(id)?.0 {
            Amount::Literal(m) => m.interval.is_exact(),
            Amount::Number(i) => i.is_exact(),
            _ => None,
        }
    }
}
