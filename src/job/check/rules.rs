//! What a check comes to: an act that cannot be, or what rules say of it.

use crate::job::{
    Refusal,
    refusal::{Barrier, Rule},
};

/// Collects what rules say.
#[derive(Default)]
pub(super) struct Rules(pub(super) Vec<Refusal>);

impl Rules {
    pub(super) fn add(&mut self, rule: impl Into<Rule>) {
        self.0.push(Refusal::Rule(Box::new(rule.into())));
    }
}

/// The outcome of one check: `Err` when the act cannot be, else what rules say of it.
pub(super) type Checked = Result<Rules, Refusal>;

/// An act that cannot be.
pub(super) fn impossible<T>(barrier: impl Into<Barrier>) -> Result<T, Refusal> {
    Err(Refusal::Barrier(Box::new(barrier.into())))
}

/// An act a rule forbids that takes no `anyway`.
pub(super) fn barred<T>(rule: impl Into<Rule>) -> Result<T, Refusal> {
    Err(Refusal::Rule(Box::new(rule.into())))
}
