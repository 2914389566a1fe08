//! What flags say of housings, their locks, seals and halves.

use crate::{
    job::Code,
    record::{Address, HousingName},
};

/// What is with a housing.
#[derive(Debug, Clone, PartialEq)]
pub enum HousingCause {
    /// Its lock was pressed home with force.
    LockForced(HousingName),
    /// Its lock was opened so often that its fingers tire.
    LockWorn {
        /// The housing.
        housing: HousingName,
        /// How often.
        openings: u32,
    },
    /// A seal or a terminal stayed in a cavity.
    LeftBehind(Address),
    /// A sealed cavity was filled so often that its seal is worn.
    SealWorn {
        /// The cavity.
        at: Address,
        /// How often.
        fillings: u32,
    },
    /// The mating half is damaged: what was said of it.
    MatingHalfDamaged(String),
    /// Its position assurance was pushed in before the halves were mated.
    AssuranceForced(HousingName),
    /// At mating a wire was pushed back.
    WirePushedBack,
}

impl HousingCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::LockForced(_) => Code::LockForced,
            Self::LockWorn { .. } => Code::LockWorn,
            Self::LeftBehind(_) => Code::NotLookedOver,
            Self::SealWorn { .. } => Code::SealWorn,
            Self::MatingHalfDamaged(_) => Code::MatingHalf,
            Self::AssuranceForced(_) => Code::AssuranceOff,
            Self::WirePushedBack => Code::NotMated,
        }
    }
}
