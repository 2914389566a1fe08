//! What flags say of plugs, spare terminals, bridges, shunts, diodes and clips.

use crate::{
    catalogue::SizeName,
    face::Label,
    job::{Code, ItemId, OtherKind},
    record::Address,
};

/// What is with a plug.
#[derive(Debug, Clone, PartialEq)]
pub enum PlugCause {
    /// One is in the hand.
    InHand,
    /// One lies in the tray.
    InTray,
    /// The one of this old cavity is lost.
    Lost(Label),
    /// A cavity is delivered with one, and something else goes there.
    Prefitted {
        /// The cavity.
        at: Address,
        /// A cavity that needs one of its size.
        of_use_in: Option<Address>,
    },
    /// One sits where none belongs.
    WrongCavity(Address),
    /// One is not of the size of its cavity.
    Size {
        /// The cavity.
        at: Address,
        /// The size of the plug.
        plug: SizeName,
        /// The size of the cavity.
        cavity: SizeName,
    },
}

impl PlugCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::InHand => Code::InHand,
            Self::InTray => Code::Parked,
            Self::Lost(_) => Code::PlugMissing,
            Self::Prefitted { .. } => Code::PrefittedPlug,
            Self::WrongCavity(_) => Code::PlugWrongCavity,
            Self::Size { .. } => Code::PlugSize,
        }
    }
}

/// What is with another content.
#[derive(Debug, Clone, PartialEq)]
pub enum OtherCause {
    /// It sits where it does not belong.
    OutOfPlace {
        /// What it is.
        kind: OtherKind,
        /// Where it sits.
        at: Address,
    },
    /// It is in the hand or parked.
    SetAside(OtherKind),
    /// It is wanted and in no housing.
    Gone {
        /// What it is.
        kind: OtherKind,
        /// What it is known by.
        id: ItemId,
    },
}

impl OtherCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::OutOfPlace { kind, .. } | Self::Gone { kind, .. } => kind.code_out_of_place(),
            Self::SetAside(_) => Code::Parked,
        }
    }
}

impl OtherKind {
    /// The code of a flag about one that is not where it belongs.
    pub(super) fn code_out_of_place(&self) -> Code {
        match self {
            Self::Spare => Code::SpareMissing,
            Self::Bridge(_) => Code::BridgeMissing,
        }
    }
}
