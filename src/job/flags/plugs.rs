//! Flags on plugs: those to move, lost, left, or of the wrong size.

use std::collections::BTreeMap;

use crate::{
    job::{
        Code, ItemId, JobSide, Place, PlugItem, PlugOrigin, PrefittedWay,
        state::{Occupant, State},
        target::{Expected, Target},
    },
    record::Address,
};

use super::{Flag, Flags};

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
                Place::Hand => {
                    flags.push(Flag::job(
                        Code::InHand,
                        "A plug is in the hand.",
                        "Fit it, put it back, or lay it in the tray.",
                    ));
                }
                Place::Tray => {
                    flags.push(Flag::job(
                        Code::Parked,
                        "A plug lies in the tray.",
                        "Fit it, scrap it or return it.",
                    ));
                }
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

    /// A lost plug is a fault of its own until its cavity is filled: it may rattle in the
    /// connector.
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
            let say = format!("{at} is delivered with a plug, and something else goes there.");
            flags.push(Flag::job(Code::PrefittedPlug, say, use_of_plug(way)).at(self, at));
        } else if wrong {
            let say = format!("The plug in {at} does not belong there.");
            flags.push(
                Flag::job(Code::PlugWrongCavity, say, "Take it out: something else goes there, or nothing.")
                    .at(self, at),
            );
        }
        if let (Some(size), Some(cavity)) = (&plug.size, self.housings.cavity_size(at))
            && *size != cavity
        {
            let say = format!("The plug in {at} is size {size}, and the cavity is size {cavity}.");
            flags.push(Flag::job(Code::PlugSize, say, "Fit a plug of the cavity's size.").at(self, at));
        }
    }

    fn flag_lost_plug(
        &self,
        plug: &crate::job::PlugItem,
        target: &Target,
        occupants: &std::collections::BTreeMap<&Address, Occupant<'_>>,
        flags: &mut Flags,
    ) {
        let ItemId::At(home) = &plug.id else { return };
        let Some(to) = self.mapping.mapped(home) else { return };
        if !occupants.contains_key(to) && matches!(target.expected(to), Expected::Plug(_)) {
            let say = format!("The plug of {} is lost.", home.label);
            let instead = "Search floor, tray, mating half and harness cover; then fit a new one.";
            flags.push(Flag::job(Code::PlugMissing, say, instead).at(self, to));
        }
    }
}

/// What is to be done with a plug that is in the way.
fn use_of_plug(way: Option<&PrefittedWay>) -> String {
    match way {
        Some(PrefittedWay::Goes(to)) => {
            format!("Take the plug out first; {to} needs one of its size: use it there, if it is undamaged.")
        }
        Some(PrefittedWay::Stays | PrefittedWay::Went(_) | PrefittedWay::Out) | None => {
            "Take the plug out first, and return it.".to_owned()
        }
    }
}
