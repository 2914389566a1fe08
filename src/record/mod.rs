//! What is in a connector: what each cavity holds, and how two records of it differ.

mod address;
mod compare;
mod content;
mod difference;
mod lookalike;
mod shift;

pub use address::{Address, AddressProblem, HousingName};
pub use compare::{compare, drawn_wires};
pub use content::{CavityContent, InsulationClass, Known, LeadSeen, Seal, SpareSeen, Wire, WireKind};

pub use difference::{Aspect, Difference, DifferenceKind};
pub use lookalike::{LookAlike, look_alikes};
pub use shift::join_shifts;

use std::collections::BTreeMap;

/// What each cavity of the old side holds, by address.
pub type Record = BTreeMap<Address, CavityContent>;
