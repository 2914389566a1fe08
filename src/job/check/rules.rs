//! What a check comes to: an act that cannot be, or what rules say of it.

use crate::job::{
    Code, Refusal,
    refusal::{Barrier, Rule},
};

/// Collects what rules say.
#[derive(Default)]
pub(super) struct Rules(pub(super) Vec<Refusal>);

impl Rules {
    pub(super) fn add(&mut self, code: Code, say: impl Into<String>, instead: impl Into<String>) {
        self.0.push(Refusal::Rule(Rule::Told(code, say.into(), instead.into())));
    }

    pub(super) fn push(&mut self, rule: impl Into<Rule>) {
        self.0.push(Refusal::Rule(rule.into()));
    }
}

/// The outcome of one check: `Err` when the act cannot be, else what rules say of it.
pub(super) type Checked = Result<Rules, Refusal>;

/// An act that cannot be.
pub(super) fn impossible<T>(say: impl Into<String>, instead: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal::Barrier(Barrier::Told(say.into(), instead.into())))
}

/// An act that cannot be.
pub(super) fn cannot<T>(barrier: impl Into<Barrier>) -> Result<T, Refusal> {
    Err(Refusal::Barrier(barrier.into()))
}

/// An act a rule forbids that takes no `anyway`.
pub(super) fn barred<T>(
    code: Code,
    say: impl Into<String>,
    instead: impl Into<String>,
) -> Result<T, Refusal> {
    Err(Refusal::Rule(Rule::Told(code, say.into(), instead.into())))
}

/// An act a rule forbids that takes no `anyway`.
pub(super) fn forbidden<T>(rule: impl Into<Rule>) -> Result<T, Refusal> {
    Err(Refusal::Rule(rule.into()))
}
