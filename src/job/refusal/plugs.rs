//! What is said against what is done to plugs, spare terminals and bridges, and to where a thing is seen.

use crate::{
    catalogue::{PartNumber, SizeName},
    job::{Code, ItemId, OtherKind},
    record::Address,
};

/// Why nothing can be done with a plug.
#[derive(Debug, Clone, PartialEq)]
pub enum PlugBarrier {
    /// No plug is in the hand or in the tray.
    NoPlugOut,
    /// What is left in the old housing is named by a cavity of the new one.
    LeftInNew(Address),
    /// A lead, by what it is called, cannot be left in the old housing.
    LeadLeft(String),
    /// Nothing is in the cavity in which something is to be left.
    NothingLeft(Address),
    /// The cavity holds a lead, by what it is called, and no plug.
    HoldsLead(Address, String),
    /// The plug in the cavity belongs to what is before it.
    BelongsToOther(Address),
    /// No plug is in the cavity.
    NoPlugIn(Address),
    /// The cavity that takes the plug is on the old side.
    PlugIntoOld(Address),
    /// There is no plug in the hand.
    NoPlugInHand,
    /// There is no plug in the tray.
    NoPlugInTray,
}

/// Why a spare terminal, bridge or clip is not moved.
#[derive(Debug, Clone, PartialEq)]
pub enum OtherBarrier {
    /// The cavity it is to go to is on the old side.
    IntoOld(Address),
    /// No new part is wanted in the cavity.
    NotWanted(Address),
    /// This is no part number.
    NoPart(PartNumber),
    /// No spare terminal, bridge or clip is in the cavity.
    NoneIn(Address),
}

/// Why a thing is not seen there.
#[derive(Debug, Clone, PartialEq)]
pub enum SeenBarrier {
    /// There is no such thing in this job.
    NoItem(ItemId),
    /// It is joined with this lead, by what that is called.
    Joined(String),
    /// It is in the hand on record too.
    InHandAlready,
    /// It is there on record too.
    ThereAlready,
    /// On record something else is in the cavity.
    TakenOnRecord(Address),
}

/// A rule against what is done with a plug, a spare terminal, a bridge or a clip.
#[derive(Debug, Clone, PartialEq)]
pub enum PlugRule {
    /// The plug is of another size than the cavity.
    OtherSize {
        /// The size of the plug, where it is known.
        plug: Option<SizeName>,
        /// The cavity.
        into: Address,
        /// Its size.
        size: SizeName,
    },
    /// The cavity takes a wire.
    TakesWire(Address),
    /// The cavity takes no plug.
    TakesNoPlug(Address),
    /// The cavity takes a spare terminal first.
    SpareFirst(Address),
    /// The part is not what is drawn in the cavity.
    NotThePart {
        /// The part.
        part: PartNumber,
        /// What is drawn.
        wanted: OtherKind,
        /// The cavity.
        to: Address,
    },
    /// A spare terminal does not belong in the cavity.
    SpareElsewhere(ItemId, Address),
    /// A bridge or clip does not belong in the cavity.
    BridgeElsewhere(ItemId, Address),
}

impl PlugRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::OtherSize { .. } => Code::PlugSize,
            Self::TakesWire(_) | Self::TakesNoPlug(_) => Code::PlugWrongCavity,
            Self::SpareFirst(_) | Self::SpareElsewhere(..) => Code::SpareMissing,
            Self::NotThePart { .. } => Code::TerminalMisfit,
            Self::BridgeElsewhere(..) => Code::BridgeMissing,
        }
    }
}
