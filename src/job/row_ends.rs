//! A row of a face by the holes at its ends: however the housing is held, they are the same.

use std::fmt;

use crate::face::Label;

/// The holes at the ends of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowEnds {
    /// The first and the last.
    Both(Label, Label),
    /// There is only one.
    Only(Label),
    /// There is no such row.
    NoRow,
}

/// `1 to 6`.
impl fmt::Display for RowEnds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Both(first, last) => write!(f, "{first} to {last}"),
            Self::Only(label) => label.fmt(f),
            Self::NoRow => f.write_str("?"),
        }
    }
}
