//! Plugs a new housing is delivered with: out where a wire goes, into a hole of their size that
//! needs one, and the rest stay where they are.

use crate::{
    job::Records,
    record::{Address, CavityContent},
};
use std::collections::{BTreeMap, BTreeSet};

use super::{
    ItemId, Place, PlugItem, PlugOrigin,
    state::{Occupant, State},
    target::{Expected, Target},
};

/// What becomes of a plug the new housing came with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PrefittedWay {
    /// It stays where it was delivered.
    Stays,
    /// It was taken to this hole.
    Went(Address),
    /// It is meant for this hole.
    Goes(Address),
    /// It is in the way and no hole needs it.
    Out,
}

impl State {
    /// Every plug the new side came with and still has, by the cavity it was delivered in.
    pub fn prefitted_plugs(
        &self,
        target: &Target,
        occupants: &BTreeMap<&Address, Occupant<'_>>,
    ) -> Vec<(Address, PrefittedWay)> {
        let mut given = BTreeSet::new();
        let mut ways = Vec::new();
        for plug in self.items.plugs.iter().filter(|p| p.origin == PlugOrigin::Prefitted) {
            let ItemId::At(from) = &plug.id else { continue };
            let way = match &plug.place {
                Place::In(at) if target.expected(at).takes_plug() => match at == from {
                    true => PrefittedWay::Stays,
                    false => PrefittedWay::Went(at.clone()),
                },
                Place::In(_) | Place::Hand | Place::Tray => {
                    match self.hole_for(plug, target, occupants, &given) {
                        Some(at) => {
                            given.insert(at.clone());
                            PrefittedWay::Goes(at.clone())
                        }
                        None => PrefittedWay::Out,
                    }
                }
                Place::Parked(_)
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Lost
                | Place::Returned
                | Place::Unseen => continue,
            };
            ways.push((from.clone(), way));
        }
        ways
    }

    /// The hole of a plug's size that needs one, one without a plug of its own before the others.
    fn hole_for<'t>(
        &self,
        plug: &PlugItem,
        target: &'t Target,
        occupants: &BTreeMap<&Address, Occupant<'_>>,
        given: &BTreeSet<Address>,
    ) -> Option<&'t Address> {
        let needs = |at: &Address| {
            !occupants.contains_key(at) && !given.contains(at) && self.housings.cavity_size(at) == plug.size
        };
        let holes = target.cavities.iter().filter(|(at, expected)| expected.takes_plug() && needs(at));
        holes.map(|(at, expected)| (self.records.has_plug_of_its_own(expected), at)).min().map(|(_, at)| at)
    }
}

impl Records {
    fn has_plug_of_its_own(&self, expected: &Expected) -> bool {
        let Expected::Plug(Some(source)) = expected else { return false };
        self.found.get(source) == Some(&CavityContent::Plugged)
    }
}
