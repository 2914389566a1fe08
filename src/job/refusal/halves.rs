//! What is said against what holds the connector together: the lock, the mated halves, the assurance.

use crate::{
    catalogue::{LockState, PartNumber},
    job::Code,
    record::{Address, HousingName},
};

/// Why a lock, an assurance or the halves are not set so.
#[derive(Debug, Clone, PartialEq)]
pub enum HalvesBarrier {
    /// The housing has no secondary lock.
    NoLock(PartNumber),
    /// The lock is set so already.
    LockedSo(HousingName, LockState),
    /// The lock is set so already, and was forced.
    ForcedSo(HousingName, LockState),
    /// The lock is broken.
    LockBroken(HousingName),
    /// The lock is opened again, and nobody said why.
    ReopenedWithoutReason(HousingName),
    /// The housing has no connector position assurance.
    NoAssurance(PartNumber),
    /// The mating half is not here.
    MatingHalfAway,
}

/// A rule against setting a lock or an assurance, or mating the halves.
#[derive(Debug, Clone, PartialEq)]
pub enum HalvesRule {
    /// A lead, by what it is called, did not click in its cavity.
    DidNotClick(String, Address),
    /// A lead, by what it is called, was not tugged in its cavity.
    NotTugged(String, Address),
    /// The lock does not go home with a finger.
    LockForced(HousingName),
    /// The assurance proves the latch, and the halves are not mated.
    NotMatedYet,
    /// The mating half is not sound: what is wrong with it.
    MatingHalfDamaged(String),
    /// A wire stood back when the halves were mated.
    WireStoodBack,
    /// The secondary lock of the housing is not full-set.
    LockNotSet(HousingName),
    /// So many steps are left before.
    StepsLeft(usize),
}

impl HalvesRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::DidNotClick(..) | Self::WireStoodBack => Code::NotSeated,
            Self::NotTugged(..) => Code::NotTugged,
            Self::LockForced(_) => Code::LockForced,
            Self::NotMatedYet => Code::AssuranceOff,
            Self::MatingHalfDamaged(_) => Code::MatingHalf,
            Self::LockNotSet(_) => Code::LockNotSet,
            Self::StepsLeft(_) => Code::NotMated,
        }
    }
}
