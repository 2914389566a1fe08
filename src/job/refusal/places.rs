//! What is said where an act names a housing, a cavity or a lead that is not there, or the hand is full.

use crate::{
    catalogue::PartNumber,
    face::Label,
    job::ItemId,
    record::{Address, HousingName},
};

/// Why an act cannot be where it is said to be.
#[derive(Debug, Clone, PartialEq)]
pub enum PlaceBarrier {
    /// The job has no housing of this name.
    NoHousing {
        /// The name.
        name: HousingName,
        /// Those it has.
        housings: Vec<HousingName>,
    },
    /// The job has no housing of this name, where one of its own is to be named.
    NoSuchHousing(HousingName),
    /// The housing has no cavity of this label.
    NoCavity {
        /// The housing.
        part: PartNumber,
        /// The label.
        label: Label,
    },
    /// There is no such lead.
    NoLead(ItemId),
    /// This is in the hand.
    HandFull(Held),
    /// The cavity is moulded shut.
    Shut(Address),
    /// A lead, by what it is called, is in the cavity.
    TakenByLead(Address, String),
    /// A plug is in the cavity.
    TakenByPlug(Address),
    /// Something else is in the cavity.
    Taken(Address),
}

/// What is in the hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Held {
    /// A lead, by what it is called.
    Lead(String),
    /// A plug.
    Plug(ItemId),
    /// Another part.
    Other(ItemId),
}
