//! What flags say of what is left: moves, and what stands between a connector with everything in it and
//! its signature.

use crate::{face::Face, job::Code, record::HousingName, shop_rules::TestKind};

/// What is left once everything has moved.
#[derive(Debug, Clone, PartialEq)]
pub enum ClosingCause {
    /// A small part is not on a housing.
    SmallPartOff {
        /// The part.
        part: String,
        /// The housing.
        housing: HousingName,
    },
    /// Nobody looked over a face.
    NotLookedOver {
        /// The housing.
        housing: HousingName,
        /// The face.
        face: Face,
    },
    /// Nobody counted a row.
    NotCounted {
        /// The housing.
        housing: HousingName,
        /// The row, from 1.
        row: usize,
    },
    /// The lock of a housing is not full-set.
    LockNotSet(HousingName),
    /// The position assurance of a housing is off.
    AssuranceOff(HousingName),
    /// Nobody re-read a hole that is asked for.
    NotReRead,
    /// The mating half is elsewhere.
    MatingHalfNotHere,
    /// Nobody looked at the mating half.
    MatingHalfNotLookedAt,
    /// The halves are not mated.
    NotMated,
    /// A test was made, and something moved after it.
    TestBeforeMove(TestKind),
    /// A test was not made.
    TestNotMade(TestKind),
    /// Nobody signed.
    Unsigned,
}

impl ClosingCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::SmallPartOff { .. } => Code::SmallPart,
            Self::NotLookedOver { .. } => Code::NotLookedOver,
            Self::NotCounted { .. } => Code::RowCount,
            Self::LockNotSet(_) => Code::LockNotSet,
            Self::AssuranceOff(_) => Code::AssuranceOff,
            Self::NotReRead => Code::NotReRead,
            Self::MatingHalfNotHere | Self::MatingHalfNotLookedAt => Code::MatingHalf,
            Self::NotMated => Code::NotMated,
            Self::TestBeforeMove(_) | Self::TestNotMade(_) => Code::TestMissing,
            Self::Unsigned => Code::Unsigned,
        }
    }
}

/// What ordinary steps will still do: what comes first of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftToDo {
    /// So many cavities are to be recorded.
    Records(usize),
    /// So much is to be moved.
    Moves {
        /// Wires.
        wires: usize,
        /// Plugs.
        plugs: usize,
        /// Spare terminals, bridges, shunts, diodes and clips.
        others: usize,
    },
    /// Other steps.
    Steps,
}
