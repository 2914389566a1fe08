//! A step of a job: what it asks to be done, and where it stands.

use crate::{
    catalogue::LockState,
    face::{Face, PosePlace},
    record::{Address, HousingName},
    shop_rules::TestKind,
};

use super::{GateKind, ItemId, Question, RepairKind};

/// What a step asks to be done.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Task {
    /// Key what a cavity holds; or, with none left, say that the record is finished.
    Record {
        at: Option<Address>,
    },
    Gate {
        gate: GateKind,
    },
    View {
        housing: HousingName,
    },
    Anchor {
        housing: HousingName,
        place: PosePlace,
    },
    /// A question with the mating half in the hand.
    Compare {
        question: Question,
    },
    /// A difference between found and should.
    Decide {
        at: Address,
    },
    /// Photos of the connector as found.
    Photo,
    /// What broke the housing.
    Cause,
    /// The map from old to new is confirmed.
    ConfirmMap,
    /// Look closely at old cavities beside an open one.
    LookAt {
        cavities: Vec<Address>,
    },
    /// A look-alike is tagged.
    Tag {
        lead: ItemId,
    },
    AssuranceOff {
        housing: HousingName,
    },
    Unlock {
        housing: HousingName,
        to: LockState,
    },
    SmallPartOff {
        housing: HousingName,
        part: String,
    },
    /// A plug delivered where a wire goes, or a plug in the wrong hole, comes out.
    TakePlug {
        at: Address,
    },
    MoveWire {
        lead: ItemId,
        to: Option<Address>,
    },
    MovePlug {
        from: Address,
        to: Option<Address>,
    },
    FitPlug {
        at: Address,
    },
    MoveOther {
        from: Address,
        to: Option<Address>,
    },
    Repair {
        lead: ItemId,
        how: RepairKind,
    },
    SmallPartOn {
        housing: HousingName,
        part: String,
    },
    Look {
        housing: HousingName,
        face: Face,
    },
    LookMatingHalf,
    CountRow {
        housing: HousingName,
        row: usize,
    },
    ReRead {
        at: Address,
    },
    Lock {
        housing: HousingName,
    },
    Mate,
    AssuranceOn {
        housing: HousingName,
    },
    Test {
        test: TestKind,
    },
    Sign,
}

impl Task {
    /// The word for the step in `steps`.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Record { .. } | Self::Photo | Self::Cause => "record",
            Self::Gate { .. } => "gate",
            Self::View { .. } => "view",
            Self::Anchor { .. } => "anchor",
            Self::Compare { .. } | Self::Decide { .. } | Self::ConfirmMap | Self::Tag { .. } => "compare",
            Self::AssuranceOff { .. } | Self::AssuranceOn { .. } => "assurance",
            Self::Unlock { .. } => "unlock",
            Self::SmallPartOff { .. } | Self::SmallPartOn { .. } => "small-part",
            Self::TakePlug { .. } => "take-plug",
            Self::MoveWire { .. } => "move-wire",
            Self::MovePlug { .. } | Self::MoveOther { .. } => "move-plug",
            Self::FitPlug { .. } => "fit-plug",
            Self::Repair { .. } => "repair",
            Self::Look { .. } | Self::LookAt { .. } | Self::LookMatingHalf => "look",
            Self::CountRow { .. } | Self::ReRead { .. } => "re-read",
            Self::Lock { .. } => "lock",
            Self::Mate => "mate",
            Self::Test { .. } => "test",
            Self::Sign => "sign",
        }
    }

    /// Whether something leaves a cavity or comes into one.
    pub fn is_move(&self) -> bool {
        matches!(
            self,
            Self::TakePlug { .. }
                | Self::MoveWire { .. }
                | Self::MovePlug { .. }
                | Self::MoveOther { .. }
                | Self::FitPlug { .. }
        )
    }

    /// Whether the step opens the old connector or moves something.
    pub fn opens_or_moves(&self) -> bool {
        let opens = matches!(
            self,
            Self::AssuranceOff { .. } | Self::SmallPartOff { .. } | Self::Unlock { .. } | Self::Repair { .. }
        );
        opens || self.is_move()
    }

    /// Whether it needs the mating half, or the machine it is on.
    pub fn needs_machine(&self) -> bool {
        match self {
            Self::Compare { .. }
            | Self::LookMatingHalf
            | Self::Mate
            | Self::AssuranceOn { .. }
            | Self::Sign => true,
            Self::Test { test } => matches!(test, TestKind::Drop | TestKind::Function),
            Self::Record { .. }
            | Self::Gate { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::Decide { .. }
            | Self::Photo
            | Self::Cause
            | Self::ConfirmMap
            | Self::LookAt { .. }
            | Self::Tag { .. }
            | Self::AssuranceOff { .. }
            | Self::Unlock { .. }
            | Self::SmallPartOff { .. }
            | Self::TakePlug { .. }
            | Self::MoveWire { .. }
            | Self::MovePlug { .. }
            | Self::FitPlug { .. }
            | Self::MoveOther { .. }
            | Self::Repair { .. }
            | Self::SmallPartOn { .. }
            | Self::Look { .. }
            | Self::CountRow { .. }
            | Self::ReRead { .. }
            | Self::Lock { .. } => false,
        }
    }

    /// Where a step begins and where it ends, as far as the step itself says: the place of a lead
    /// on its way is for the state to tell.
    pub fn ends(&self) -> (Option<&Address>, Option<&Address>) {
        match self {
            Self::MoveWire { lead: ItemId::At(from), to } => (Some(from), to.as_ref()),
            Self::MoveWire { to, .. } => (None, to.as_ref()),
            Self::MovePlug { from, to } | Self::MoveOther { from, to } => (Some(from), to.as_ref()),
            Self::FitPlug { at } | Self::ReRead { at } => (None, Some(at)),
            Self::TakePlug { at } | Self::Decide { at } => (Some(at), None),
            Self::Record { at } => (at.as_ref(), None),
            Self::Gate { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::Compare { .. }
            | Self::Photo
            | Self::Cause
            | Self::ConfirmMap
            | Self::LookAt { .. }
            | Self::Tag { .. }
            | Self::AssuranceOff { .. }
            | Self::Unlock { .. }
            | Self::SmallPartOff { .. }
            | Self::Repair { .. }
            | Self::SmallPartOn { .. }
            | Self::Look { .. }
            | Self::LookMatingHalf
            | Self::CountRow { .. }
            | Self::Lock { .. }
            | Self::Mate
            | Self::AssuranceOn { .. }
            | Self::Test { .. }
            | Self::Sign => (None, None),
        }
    }

    /// Whether only closing is left once nothing but such steps remain.
    pub fn is_closing(&self) -> bool {
        matches!(
            self,
            Self::SmallPartOn { .. }
                | Self::Photo
                | Self::Cause
                | Self::Look { .. }
                | Self::LookMatingHalf
                | Self::CountRow { .. }
                | Self::ReRead { .. }
                | Self::Lock { .. }
                | Self::Mate
                | Self::AssuranceOn { .. }
                | Self::Test { .. }
                | Self::Sign
        )
    }
}

/// Where a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Status {
    Done,
    Next,
    Left,
    /// It waits for a part, or for the machine.
    Waiting,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What is to be done.
    pub what: Task,
    /// Where it stands.
    pub status: Status,
}
