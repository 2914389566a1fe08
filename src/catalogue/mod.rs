//! Connector families: housings, terminals, seals and plugs made for each other. This module
//! reads, checks and finds definitions; it never opens a file itself, text comes in as a value.

mod check;
mod check_housing;
mod check_layout;
mod check_parts;
mod compare;
mod definition;
mod draft;
mod family;
mod finding;
mod held;
mod part;
mod position;
mod sketch;

pub use check::check_family;
pub use compare::{HousingDifference, HousingDifferenceKind, differences};
pub use definition::{Definition, DefinitionProblem};
pub use draft::{
    BridgeDraft, CrimpDraft, FamilyDraft, GroupDraft, HousingDraft, LayoutDraft, LockDraft, NumberingDraft,
    PlugDraft, RingNumberingDraft, SealingDraft, SmallPartDraft, TerminalDraft, WireSealDraft,
};
pub use family::{
    AccessFace, Bridge, Cavity, CrimpHeight, Delivered, Family, Feature, Gender, Housing, LockState, Plug,
    PrimaryLock, Sealing, Seating, SecondaryLock, SmallPart, Source, Supplied, Terminal, WireSeal,
};
pub use finding::{FieldFinding, FieldPath, PathStep};
pub use part::{FamilyId, HousingId, PartNumber, SizeName};
pub use position::{by_position, runs_other_way};
pub use sketch::{Counting, Sketch, SketchedLock, SketchedSeal};
