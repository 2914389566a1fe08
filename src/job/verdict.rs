//! What the job says to an act before it is kept.

use super::Refusal;

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
