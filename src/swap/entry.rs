//! An entry of the journal: an act, when it was entered and by whom.

use jiff::Timestamp;

use super::Act;

/// An act with its time and person.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// When it was entered, by the clock of the machine. Order is kept by place in the journal,
    /// never by this clock.
    pub at: Timestamp,
    /// Who entered it.
    pub by: String,
    /// What was entered.
    pub act: Act,
}

/// The day of a moment in world time, as YYYY-MM-DD: days compare as texts.
pub fn day_of(at: Timestamp) -> String {
    at.to_string().get(..10).unwrap_or_default().to_owned()
}
