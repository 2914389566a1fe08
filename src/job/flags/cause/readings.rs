//! What flags say of what was looked at, counted, read back and tested, and did not agree.

use crate::{
    face::{Face, Label},
    job::{Code, FaceFault, RowEnds},
    record::{Address, HousingName},
    shop_rules::TestKind,
};

/// What did not agree, or was not looked at.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadingCause {
    /// A face was looked over and not found sound.
    FaceNotSound {
        /// The housing.
        housing: HousingName,
        /// The face.
        face: Face,
        /// What was seen, where that was said.
        found: Vec<FaceFault>,
    },
    /// The last test of its kind failed.
    TestFailed {
        /// The test.
        test: TestKind,
        /// The value, as keyed.
        value: String,
        /// The limit, and whose it is.
        limit: Option<(String, String)>,
    },
    /// A row was read in from a list, and nobody counted it by eye.
    RowReadIn {
        /// The housing.
        housing: HousingName,
        /// The row, from 1.
        row: usize,
    },
    /// Nobody looked at these, which are beside an open cavity.
    NeighboursNotLookedAt(Vec<Label>),
    /// A re-read did not show what is recorded.
    ReadElse {
        /// The cavity.
        at: Address,
        /// Who read it.
        by: String,
    },
    /// The count of a row did not agree.
    RowDiffers {
        /// The housing.
        housing: HousingName,
        /// The row, from 1.
        row: usize,
        /// The holes at its ends.
        ends: RowEnds,
    },
}

impl ReadingCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::FaceNotSound { .. } | Self::NeighboursNotLookedAt(_) => Code::NotLookedOver,
            Self::TestFailed { .. } => Code::TestFailed,
            Self::RowReadIn { .. } | Self::RowDiffers { .. } => Code::RowCount,
            Self::ReadElse { .. } => Code::WrongCavity,
        }
    }
}
