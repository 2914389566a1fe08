//! Flags on plugs: those to move, lost, left, or of the wrong size.

use std::collections::BTreeMap;

use crate::{
    job::{
        ItemId, JobSide, Place, PlugItem, PlugOrigin, PrefittedWay,
        state::{Occupant, State},
        target::{Expected, Target},
    },
    record::Address,
};

use super::{
    Flag, Flags,
    cause::{FlagCause, PlugCause},
};

impl State {
    pub(super) fn flag_plugs(&self, target: &Target, flags: &mut Flags) {
        let occupants = self.items.occupants();
        let prefitted: BTreeMap<Address, PrefittedWay> =
            self.prefitted_plugs(target, &occupants).into_iter().collect();
        for plug in &self.items.plugs {
            match &plug.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => {
                    self.flag_plug_in(at, plug, target, &occupants, prefitted.get(at), flags);
                }
                Place::Hand => flags.push(flag(PlugCause::InHand)),
                Place::Tray => flags.push(flag(PlugCause::InTray)),
                Place::Lost => self.flag_lost_plug(plug, target, &occupants, flags),
                Place::In(_)
                | Place::Parked(_)
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Returned
                | Place::Unseen => {}
            }
        }
    }

    /// A plug that sits in a new cavity.
    fn flag_plug_in(
        &self,
        at: &Address,
        plug: &PlugItem,
        target: &Target,
        occupants: &BTreeMap<&Address, Occupant<'_>>,
        way: Option<&PrefittedWay>,
        flags: &mut Flags,
    ) {
        let expected = target.expected(at);
        // Behind a spare terminal the plug belongs to the spare.
        let behind = !matches!(occupants.get(at), Some(Occupant::Plug(_)));
        let wrong = !behind && !expected.takes_plug();
        if wrong && plug.origin == PlugOrigin::Prefitted && plug.came_from.is_none() {
            flags.push(flag(PlugCause::Prefitted { at: at.clone(), of_use_in: use_of(way) }).at(self, at));
        } else if wrong {
            flags.push(flag(PlugCause::WrongCavity(at.clone())).at(self, at));
        }
        if let (Some(size), Some(cavity)) = (&plug.size, self.housings.cavity_size(at))
            && *size != cavity
        {
            let cause = PlugCause::Size { at: at.clone(), plug: size.clone(), cavity };
            flags.push(flag(cause).at(self, at));
        }
    }

    /// A lost plug is a fault of its own until its cavity is filled: it may rattle in the
    /// connector.
    fn flag_lost_plug(
        &self,
        plug: &PlugItem,
        target: &Target,
        occupants: &BTreeMap<&Address, Occupant<'_>>,
        flags: &mut Flags,
    ) {
        let ItemId::At(home) = &plug.id else { return };
        let Some(to) = self.mapping.mapped(home) else { return };
        if !occupants.contains_key(to) && matches!(target.expected(to), Expected::Plug(_)) {
            flags.push(flag(PlugCause::Lost(home.label.clone())).at(self, to));
        }
    }
}

fn flag(cause: PlugCause) -> Flag {
    Flag::job(FlagCause::Plug(cause))
}

/// Where a plug that is in the way is of use.
fn use_of(way: Option<&PrefittedWay>) -> Option<Address> {
    match way {
        Some(PrefittedWay::Goes(to)) => Some(to.clone()),
        Some(PrefittedWay::Stays | PrefittedWay::Went(_) | PrefittedWay::Out) | None => None,
    }
}
