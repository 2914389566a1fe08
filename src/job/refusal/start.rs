//! What is said before anything leaves an old housing or enters a new one.

use crate::{
    job::{Code, Question},
    record::{Address, Difference, HousingName},
};

/// Why nothing can be moved yet.
#[derive(Debug, Clone, PartialEq)]
pub enum StartBarrier {
    /// The record of what is found is not finished: so many cavities are left.
    RecordUnfinished(usize),
}

/// A rule against moving anything yet.
#[derive(Debug, Clone, PartialEq)]
pub enum StartRule {
    /// A lead, by what it is called, is to go where the new housing is moulded shut.
    NoPlace(String),
    /// The new housing comes without this clip of the old one.
    ClipMissing(String),
    /// Nobody said how the housing is held.
    ViewUnset(HousingName),
    /// The view of the housing is not proved.
    ViewNotProved(HousingName),
    /// Nobody decided this.
    Undecided(Box<Difference>),
    /// The map from old to new is not confirmed.
    MapNotConfirmed,
    /// The record was read in, and a row was not counted by eye.
    RowNotCounted {
        /// The housing.
        housing: HousingName,
        /// The row.
        row: usize,
    },
    /// Two leads are mapped to this cavity, and are not to be joined.
    TwoLeads(Address),
    /// This was not found to agree with the mating half.
    NotCompared(Question),
}

impl StartRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::NoPlace(_) => Code::BlockedUnderWire,
            Self::ClipMissing(_) => Code::BridgeMissing,
            Self::ViewUnset(_) => Code::ViewUnset,
            Self::ViewNotProved(_) => Code::AnchorFailed,
            Self::Undecided(_) => Code::FoundDiffers,
            Self::MapNotConfirmed | Self::TwoLeads(_) => Code::MapClash,
            Self::RowNotCounted { .. } => Code::RowCount,
            Self::NotCompared(_) => Code::PartMisfit,
        }
    }
}
