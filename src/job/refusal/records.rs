//! What is said against records, and against decisions on them.

use crate::{
    job::{Flip, ItemId, Place},
    record::{Address, HousingName},
};

/// Why the world of the job is not changed, or a whole record.
#[derive(Debug, Clone, PartialEq)]
pub enum WorldBarrier {
    /// The ticket is written.
    TicketWritten,
    /// There is a housing of this name.
    NameTaken(HousingName),
    /// Something has moved already.
    Moved,
    /// The record of what is found is finished.
    RecordFinished,
    /// So many cavities are not recorded yet; the first of them.
    NotRecorded(usize, Address),
    /// A whole record is flipped, and this is not in its hole any more.
    FlippedUnder(Recorded),
    /// Only the record of one old housing can be flipped.
    NotOneOld,
    /// The record cannot have been read so: the holes have no counterparts.
    NotFlipped(HousingName, Flip),
}

/// Why the record of a cavity cannot be so.
#[derive(Debug, Clone, PartialEq)]
pub enum RecordBarrier {
    /// The cavity is on the new side.
    OfNewSide(Address),
    /// A lead, by what it is called, was recorded there and is elsewhere now.
    LeadElsewhere(String),
    /// The plug that was recorded in the cavity is elsewhere now.
    PlugElsewhere(Address, Place),
    /// The part that was recorded in the cavity is elsewhere now.
    PartElsewhere(Address, Place),
    /// This sits in the cavity on record.
    SitsThere(Recorded, Address),
    /// The lead in the cavity has no wire.
    NoWire(Address),
    /// A wire in the cavity is said to be twisted with itself.
    TwistedWithItself(Address),
    /// By its definition the cavity is moulded shut.
    DefinedShut(Address),
}

/// Why nothing is decided at a cavity.
#[derive(Debug, Clone, PartialEq)]
pub enum DecisionBarrier {
    /// What it is about has left its hole already.
    HasLeft(Recorded),
    /// There is no difference at the cavity.
    NoDifference(Address),
}

/// A thing of a record.
#[derive(Debug, Clone, PartialEq)]
pub enum Recorded {
    /// A lead, by what it is called.
    Lead(String),
    /// A plug.
    Plug(ItemId),
    /// Another part.
    Other(ItemId),
}
