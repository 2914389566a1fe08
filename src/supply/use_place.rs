//! What a part is used for: a cavity, or a lead that has none.

use std::{fmt, str::FromStr};

use crate::record::{Address, AddressProblem};

/// What a part is used for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum UsePlace {
    /// A cavity: `new:7`.
    Cavity(Address),
    /// A lead that was met later and has no cavity yet: `loose/1`.
    Loose(u32),
}

impl fmt::Display for UsePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cavity(at) => at.fmt(f),
            Self::Loose(n) => write!(f, "loose/{n}"),
        }
    }
}

impl FromStr for UsePlace {
    type Err = AddressProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.strip_prefix("loose/").and_then(|n| n.parse().ok()) {
            Some(n) => Ok(Self::Loose(n)),
            None => text.parse().map(Self::Cavity),
        }
    }
}
