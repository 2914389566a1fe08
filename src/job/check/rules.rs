//! What a check comes to: an act that cannot be, or what rules say of it.

use crate::job::{Code, Objection, Refusal};

/// Collects what rules say.
#[derive(Default)]
pub(super) struct Rules(pub(super) Vec<Refusal>);

impl Rules {
    pub(super) fn add(&mut self, code: Code, say: impl Into<String>, instead: impl Into<String>) {
        self.0.push(Refusal { code: Some(code), say: say.into(), instead: instead.into() });
    }

    pub(super) fn object(&mut self, objection: &Objection) {
        let words = crate::report::objection(objection);
        self.add(objection.code(), words.say, words.instead);
    }
}

/// The outcome of one check: `Err` when the act cannot be, else what rules say of it.
pub(super) type Checked = Result<Rules, Refusal>;

/// An act that cannot be.
pub(super) fn impossible<T>(say: impl Into<String>, instead: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal { code: None, say: say.into(), instead: instead.into() })
}

/// An act a rule forbids that takes no `anyway`.
pub(super) fn barred<T>(
    code: Code,
    say: impl Into<String>,
    instead: impl Into<String>,
) -> Result<T, Refusal> {
    Err(Refusal { code: Some(code), say: say.into(), instead: instead.into() })
}
