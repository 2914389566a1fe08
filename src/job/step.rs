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
pub enum Task {
    /// Key what a cavity holds; or, with none left, say that the record is finished.
    Record {
        /// The old cavity; none for saying that the whole record is finished.
        at: Option<Address>,
    },
    /// Answer a safety question.
    Gate {
        /// Which one.
        gate: GateKind,
    },
    /// Say how a housing is held: the face towards the eye and what is up.
    View {
        /// The housing in the hand, old or new.
        housing: HousingName,
    },
    /// Prove that view by what is seen at one of its places: a colour, a moulded mark.
    Anchor {
        /// The housing in the hand, old or new.
        housing: HousingName,
        /// The place in the pose of the view, never a label.
        place: PosePlace,
    },
    /// A question with the mating half in the hand.
    Compare {
        /// What is compared.
        question: Question,
    },
    /// A difference between found and should.
    Decide {
        /// The old cavity they differ at.
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
        /// Old ones beside an open one; or new ones in which a seal or a terminal stayed.
        cavities: Vec<Address>,
    },
    /// A look-alike is tagged.
    Tag {
        /// The lead the tag goes on.
        lead: ItemId,
    },
    /// Pull the clip that proves the latch.
    AssuranceOff {
        /// The old housing.
        housing: HousingName,
    },
    /// Release the secondary lock.
    Unlock {
        /// The old housing, or a new one that is delivered locked.
        housing: HousingName,
        /// The state in which its terminals can move.
        to: LockState,
    },
    /// Take a seal, cover or other small part off.
    SmallPartOff {
        /// The old housing.
        housing: HousingName,
        /// Its name in the housing's definition.
        part: String,
    },
    /// A plug delivered where a wire goes, or a plug in the wrong hole, comes out.
    TakePlug {
        /// The cavity the plug is in, old or new.
        at: Address,
    },
    /// Take a lead out, look at it, put it in and tug it.
    MoveWire {
        /// The lead, known by the old cavity it was recorded in or as met later.
        lead: ItemId,
        /// The new cavity; none while it has no place on the new side.
        to: Option<Address>,
    },
    /// Take a plug out and fit it elsewhere.
    MovePlug {
        /// The cavity it was recorded or delivered in.
        from: Address,
        /// The new cavity it is meant for.
        to: Option<Address>,
    },
    /// Fit a plug that does not come straight from its old cavity: from the tray or from stock.
    FitPlug {
        /// The new cavity it goes into.
        at: Address,
    },
    /// Move a spare terminal, bridge or clip; or fit a new one where the old one is missing.
    MoveOther {
        /// The old cavity it is recorded or drawn in.
        from: Address,
        /// The new cavity; none when it has no place on the new side.
        to: Option<Address>,
    },
    /// Do what is planned on a lead.
    Repair {
        /// The lead.
        lead: ItemId,
        /// What is planned.
        how: RepairKind,
    },
    /// Put a seal, cover or other small part on.
    SmallPartOn {
        /// The new housing.
        housing: HousingName,
        /// Its name in the housing's definition.
        part: String,
    },
    /// Look over a whole face: lips, wires, holes, terminals.
    Look {
        /// The new housing.
        housing: HousingName,
        /// The face looked at.
        face: Face,
    },
    /// Look at the other half of the connector: pins, seal, plastic.
    LookMatingHalf,
    /// Count wires, plugs and open holes of a row by eye.
    CountRow {
        /// A new housing, or an old one whose record was read from a list.
        housing: HousingName,
        /// The row, from 1 at the top of the drawing.
        row: usize,
    },
    /// Read back what a hole of the new housing holds, asked by its place.
    ReRead {
        /// The new cavity.
        at: Address,
    },
    /// Set the secondary lock with a finger.
    Lock {
        /// The new housing.
        housing: HousingName,
    },
    /// Put the halves together and see that no wire is pushed back.
    Mate,
    /// Push the clip in: it goes in only when the halves are latched.
    AssuranceOn {
        /// The new housing.
        housing: HousingName,
    },
    /// Make a test and key what the instrument shows.
    Test {
        /// Which one, as the house rules ask.
        test: TestKind,
    },
    /// Sign for the whole job.
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
pub enum Status {
    /// Nothing is left of it.
    Done,
    /// It is the one asked now; at most one step is.
    Next,
    /// Still to do, and not next.
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
