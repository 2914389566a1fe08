//! What the job says to an act before it is kept.

use super::Code;

/// The answer to an act.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// It can be.
    Allowed,
    /// It cannot be: the lead is not where the act takes it from, the hand is full, the hole is
    /// taken. Always refused.
    Impossible(Refusal),
    /// It can be and a rule says no. Refused on the job unless a named person goes on anyway;
    /// gates take no anyway.
    Against(Vec<Refusal>),
}

impl Verdict {
    /// Everything said against the act.
    pub fn refusals(&self) -> &[Refusal] {
        match self {
            Self::Allowed => &[],
            Self::Impossible(refusal) => std::slice::from_ref(refusal),
            Self::Against(refusals) => refusals,
        }
    }
}

/// One sentence that says what is wrong, and one that says what to do instead.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// The rule, when it is one.
    pub code: Option<Code>,
    /// What is wrong.
    pub say: String,
    /// What to do instead.
    pub instead: String,
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {}", self.say, self.instead)
    }
}
