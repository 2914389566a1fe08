//! An entry of the journal: an act, when it was entered and by whom.

use jiff::{Timestamp, civil::Date, tz::Offset};

use super::Act;

/// An act with its time and person.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// When it was entered, by the clock of the machine. Order is kept by place in the journal,
    /// never by this clock.
    pub at: Timestamp,
    /// Who entered it.
    pub by: String,
    /// The number, from 1, of the first entry of the key press it belongs to; none for that first
    /// entry itself. What one key press entered is taken back together.
    pub with: Option<usize>,
    /// What was entered.
    pub act: Act,
}

impl Entry {
    /// An entry that is a key press of its own.
    pub fn new(at: Timestamp, by: impl Into<String>, act: Act) -> Self {
        Self { at, by: by.into(), with: None, act }
    }
}

/// The day of a moment, in world time.
pub fn day_of(at: Timestamp) -> Date {
    Offset::UTC.to_datetime(at).date()
}
