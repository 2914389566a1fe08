//! A line of a request.

use super::{Amount, PartKind, Substitute, UsePlace, Wanted};
use crate::catalogue::PartNumber;

/// A line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its number, never used again for another part.
    pub line: u32,
    /// What is asked for.
    pub wanted: Wanted,
    /// How many.
    pub amount: Amount,
    /// For which cavities or leads.
    pub used_for: Vec<UsePlace>,
    /// Whether the job stops without it.
    pub essential: bool,
    /// What may be given instead.
    pub substitute: Substitute,
    /// The part it comes with, when it does.
    pub supplied_with: Option<PartNumber>,
}

impl Line {
    /// So many that the job stops without, not numbered yet.
    pub fn new(wanted: Wanted, need: u32) -> Self {
        Self {
            line: 0,
            wanted,
            amount: Amount::of(need),
            used_for: Vec::new(),
            essential: true,
            substitute: Substitute::None,
            supplied_with: None,
        }
    }

    /// What kind of part it asks for.
    pub fn kind(&self) -> PartKind {
        self.wanted.kind()
    }

    /// Whether nothing asks for it any more.
    pub fn is_gone(&self) -> bool {
        self.amount.need == 0
    }

    /// The same line once nothing asks for it any more.
    pub(super) fn gone(self) -> Self {
        Self {
            amount: Amount { need: 0, spare: 0, ..self.amount },
            wanted: self.wanted.gone(),
            used_for: Vec::new(),
            essential: false,
            substitute: Substitute::None,
            ..self
        }
    }
}
