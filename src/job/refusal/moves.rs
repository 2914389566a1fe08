//! What is said against what is done to leads.

use crate::{
    catalogue::LockState,
    colour::Colour,
    job::{Code, ItemId, Place, Relabelled, RepairKind, Tag},
    record::{Address, HousingName, WireKind},
};

/// Why a look or a tug proves nothing. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum LookBarrier {
    /// There is no lead in the hand.
    NoLeadInHand,
    /// The lead waits for a repair.
    WaitsForRepair {
        /// The lead.
        lead: String,
        /// The repair.
        how: RepairKind,
        /// Why it was planned, where somebody said so.
        why: Option<String>,
    },
    /// There is no lead in the cavity that was tugged at.
    NothingToTug(Address),
    /// The cavity that was tugged at is on the old side.
    TugInOld(Address),
    /// The lead did not click in this cavity.
    DidNotClick(String, Address),
    /// The lead that was pushed again did click in this cavity.
    DidClick(String, Address),
    /// There is no lead in the cavity that was pushed at.
    NothingToPush(Address),
}

/// Why a lead is not taken out.
#[derive(Debug, Clone, PartialEq)]
pub enum TakeOutBarrier {
    /// The cavity holds a plug.
    IsPlug(Address),
    /// The cavity holds something else than a wire.
    IsOther(Address),
    /// Nothing is in the cavity.
    Bare(Address),
    /// Nothing is in the cavity any more.
    LeftBare {
        /// The cavity.
        at: Address,
        /// What the lead that was in it is called.
        lead: String,
        /// Where that is now.
        place: Place,
    },
    /// The colour of the lead has to be keyed.
    ColourAsked(ItemId),
    /// The colour that is seen is not the one on record for the lead.
    OtherColour(ItemId, Colour),
    /// The terminal in the cavity is pull-to-seat.
    PullToSeat(Address),
    /// What was keyed before the cut is not what is written on the wire of the cavity.
    NotOnWire(Address, String),
    /// No lead is named that fell out.
    NoLeadNamed,
}

/// Why a lead does not go in. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum PutInBarrier {
    /// What is in the hand is not a wire.
    NotAWire,
    /// There is nothing in the hand.
    NothingInHand,
    /// The cavity is on the old side.
    IntoOld(Address),
    /// The lead goes elsewhere, and the cavity is taken.
    TakenElsewhere(Elsewhere),
    /// The lead has no terminal.
    NoTerminal(String),
    /// Nobody looked at the terminal of the lead.
    NotLookedAt(String),
    /// The lead needs a repair first.
    NeedsRepair(String),
}

/// Why something is not put back, parked, taken up or tagged.
#[derive(Debug, Clone, PartialEq)]
pub enum AsideBarrier {
    /// Nothing is in the hand that could be put back.
    NothingToPutBack,
    /// It was cut free.
    WasCut,
    /// Nobody knows the hole it came from.
    OriginUnknown,
    /// The hole it came from is taken.
    HoleTaken(Address),
    /// Nothing is in the hand that could be parked.
    NothingToPark,
    /// Nothing is parked under this tag.
    NothingParked(Tag),
    /// Nothing is written on the tag.
    NoTag(Tag),
    /// The tag is used already.
    TagUsed(Tag),
    /// The tag is used already, for one of several leads.
    TagUsedForLead(Tag),
    /// The tag is on another lead, by what that is called.
    TagOn(Tag, String),
}

/// That a lead goes elsewhere than it was put.
#[derive(Debug, Clone, PartialEq)]
pub struct Elsewhere {
    /// What the lead is called.
    pub lead: String,
    /// Where it goes.
    pub to: Address,
    /// Where it was put.
    pub into: Address,
    /// Why the label alone would mislead, where it would.
    pub why: Option<Relabelled>,
}

/// A rule against taking a lead out or putting it in. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum MoveRule {
    /// The lead looks like another one and has no tag.
    LooksAlike(String),
    /// The secondary lock is shut.
    LockShut {
        /// The housing.
        housing: HousingName,
        /// The kind of lock, where it is known.
        kind: Option<String>,
        /// How the lock is, where there is one.
        lock: Option<LockState>,
    },
    /// The lead is of a kind that is not cut and spliced.
    NotCut(String, WireKind),
    /// The lead goes elsewhere.
    Elsewhere(Elsewhere),
    /// By the decision the lead has no place in the new housing, and this cavity is in it.
    HasNoPlace(String, Address),
    /// Nobody said where the lead belongs, and it was put here.
    Unplaced(String, Address),
    /// The lead has no seal.
    NoSeal(String),
    /// Another lead waits to be joined with the one that goes in.
    ToBeJoined {
        /// The one that waits.
        other: String,
        /// The one that goes in.
        lead: String,
    },
    /// A seal or a terminal stayed in the cavity.
    LeftBehind(Address),
}

impl MoveRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::LooksAlike(_) => Code::LookAlike,
            Self::LockShut { .. } => Code::LockNotReleased,
            Self::NotCut(..) => Code::SpliceForbidden,
            Self::Elsewhere(_) | Self::HasNoPlace(..) | Self::Unplaced(..) => Code::WrongCavity,
            Self::NoSeal(_) => Code::SealMissing,
            Self::ToBeJoined { .. } => Code::MapClash,
            Self::LeftBehind(_) => Code::NotLookedOver,
        }
    }
}
