//! Where each old cavity goes in the new housings.

use std::collections::BTreeMap;

use crate::{
    job::{CavityMap, MapSource},
    record::Address,
};

/// Where each old cavity goes in the new housings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mapping {
    /// What was mapped cavity by cavity.
    pub by_hand: CavityMap,
    /// The map from old cavities to new ones: what was mapped by hand, and what a source fills in:
    /// the one confirmed, else the first that the definitions give.
    pub map: CavityMap,
    /// Documents under which a cavity was mapped.
    pub documents: BTreeMap<Address, String>,
    /// Where the confirmed map came from.
    pub confirmed: Option<MapSource>,
}

impl Mapping {
    /// The new address an old one is mapped to.
    pub fn mapped(&self, from: &Address) -> Option<&Address> {
        self.map.get(from).and_then(Option::as_ref)
    }
}
