//! Connector families: housings, terminals, seals and plugs made for each other. This module
//! reads, checks and finds definitions; it never opens a file itself, text comes in as a value.

mod definition;
mod family;
mod part;

pub use definition::Definition;
pub use family::{
    Cavity, Delivered, Family, Feature, From, Gender, Housing, LockState, Plug, PrimaryLock, Sealing,
    Seating, SecondaryLock, SmallPart, Source, Supplied, Terminal, WireSeal,
};
pub use part::{FamilyId, HousingId, PartNumber, SizeName};
