//! What is said as long as something that was read back, counted, looked at or tested does not agree.

use crate::{
    face::Face,
    job::{Code, RowEnds},
    record::{Address, HousingName},
    shop_rules::TestKind,
};

/// A rule that holds work back until what does not agree is settled.
#[derive(Debug, Clone, PartialEq)]
pub enum DisagreementRule {
    /// A test failed, with this value.
    TestFailed(TestKind, String),
    /// What was read back in this cavity is not what the record has.
    ReadBack(Address),
    /// The count of a row did not agree.
    RowCount {
        /// The housing.
        housing: HousingName,
        /// The row.
        row: usize,
        /// The holes at its ends.
        ends: RowEnds,
    },
    /// A face of a housing was not found sound.
    NotSound(Face, HousingName),
}

impl DisagreementRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::TestFailed(..) => Code::TestFailed,
            Self::ReadBack(_) => Code::WrongCavity,
            Self::RowCount { .. } => Code::RowCount,
            Self::NotSound(..) => Code::NotLookedOver,
        }
    }
}
