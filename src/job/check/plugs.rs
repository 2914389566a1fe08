//! Checks of what is done to plugs, spare terminals, bridges and sightings.

use crate::{
    catalogue::PartNumber,
    job::{
        InHand, ItemId, JobSide, Occupant, OtherKind, Place, PlugSource, SeenAt,
        refusal::{AsideBarrier, OtherBarrier, PlugBarrier, PlugRule, SeenBarrier},
        state::State,
        target::{Expected, Target},
    },
    quantity::says_something,
    record::Address,
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_plug_out(&self) -> Checked {
        let there = self.items.plugs.iter().any(|p| matches!(p.place, Place::Hand | Place::Tray));
        match there {
            true => Ok(Rules::default()),
            false => impossible(PlugBarrier::NoPlugOut),
        }
    }

    pub(super) fn check_left_in_old(&self, at: &Address) -> Checked {
        if self.housings.check_cavity(at)? == JobSide::New {
            return impossible(PlugBarrier::LeftInNew(at.clone()));
        }
        match self.items.occupant(at) {
            Some(Occupant::Plug(_) | Occupant::Other(_)) => Ok(Rules::default()),
            Some(Occupant::Lead(lead)) => impossible(PlugBarrier::LeadLeft(lead.call())),
            None => impossible(PlugBarrier::NothingLeft(at.clone())),
        }
    }

    pub(super) fn check_take_plug(&self, from: &Address, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let side = self.housings.check_cavity(from)?;
        match self.items.occupant(from) {
            Some(Occupant::Plug(_)) => {}
            Some(Occupant::Lead(lead)) => {
                return impossible(PlugBarrier::HoldsLead(from.clone(), lead.call()));
            }
            Some(Occupant::Other(_)) => return impossible(PlugBarrier::BelongsToOther(from.clone())),
            None => return impossible(PlugBarrier::NoPlugIn(from.clone())),
        }
        let mut rules = if side == JobSide::Old { self.check_leaves(target)? } else { Rules::default() };
        self.check_lock_open(from, &mut rules);
        Ok(rules)
    }

    pub(super) fn check_fit(
        &self,
        into: &Address,
        source: PlugSource,
        with_spare: bool,
        target: &Target,
    ) -> Checked {
        if self.housings.check_cavity(into)? == JobSide::Old {
            return impossible(PlugBarrier::PlugIntoOld(into.clone()));
        }
        let place = match source {
            PlugSource::Hand => Some(Place::Hand),
            PlugSource::Tray => Some(Place::Tray),
            PlugSource::Stock => None,
        };
        if source != PlugSource::Hand {
            self.items.check_empty_hand()?;
        } else if !matches!(self.items.in_hand(), Some(InHand::Plug(_))) {
            return impossible(PlugBarrier::NoPlugInHand);
        }
        self.check_free(into)?;
        let size = self.housings.cavity_size(into);
        let mut rules = self.check_start(target)?;
        if let Some(place) = place {
            let mut here = self.items.plugs.iter().filter(|p| p.place == place).peekable();
            if here.peek().is_none() {
                return impossible(PlugBarrier::NoPlugInTray);
            }
            if !here.clone().any(|p| p.size.is_none() || p.size == size)
                && let (Some(plug), Some(size)) = (here.next(), &size)
            {
                let (plug, size) = (plug.size.clone(), size.clone());
                rules.add(PlugRule::OtherSize { plug, into: into.clone(), size });
            }
        }
        let expected = target.expected(into);
        if !expected.takes_plug() {
            rules.add(why_no_plug(expected, into));
        }
        if *expected == Expected::SpareAndPlug && !with_spare {
            rules.add(PlugRule::SpareFirst(into.clone()));
        }
        self.check_lock_open(into, &mut rules);
        self.items.check_clear(into, &mut rules);
        Ok(rules)
    }

    /// A new spare terminal, bridge or clip, where one is drawn and none was found.
    pub(super) fn check_new_other(&self, to: &Address, part: &PartNumber, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        if self.housings.check_cavity(to)? == JobSide::Old {
            return impossible(OtherBarrier::IntoOld(to.clone()));
        }
        self.check_free(to)?;
        let Expected::MissingOther(kind) = target.expected(to) else {
            return impossible(OtherBarrier::NotWanted(to.clone()));
        };
        if !says_something(&part.to_string()) {
            return impossible(OtherBarrier::NoPart(part.clone()));
        }
        let mut rules = self.check_start(target)?;
        if !self.is_part_for(kind, part, to) {
            let wanted = kind.clone();
            rules.add(PlugRule::NotThePart { part: part.clone(), wanted, to: to.clone() });
        }
        self.check_lock_open(to, &mut rules);
        self.items.check_clear(to, &mut rules);
        Ok(rules)
    }

    /// Whether a part can be what is drawn there: a spare terminal is one of the family, the cavity's size
    /// and the housing's gender; a bridge or clip is none of the family's other parts.
    fn is_part_for(&self, kind: &OtherKind, part: &PartNumber, to: &Address) -> bool {
        let Some(housing) = self.housings.housing(&to.housing) else { return false };
        let (family, size) = (housing.definition.family(), self.housings.cavity_size(to));
        match kind {
            OtherKind::Spare => family.terminals.iter().any(|terminal| {
                terminal.part == *part
                    && Some(&terminal.size) == size.as_ref()
                    && terminal.gender == housing.housing().gender
            }),
            OtherKind::Bridge(_) => {
                !family.terminals.iter().any(|terminal| terminal.part == *part)
                    && !family.wire_seals.iter().any(|seal| seal.part == *part)
                    && !family.plugs.iter().any(|plug| plug.part == *part)
            }
        }
    }

    pub(super) fn check_move_other(&self, from: &Address, to: &Address, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        self.housings.check_cavity(from)?;
        let Some(Occupant::Other(other)) = self.items.occupant(from) else {
            return impossible(OtherBarrier::NoneIn(from.clone()));
        };
        if self.housings.check_cavity(to)? == JobSide::Old {
            return impossible(OtherBarrier::IntoOld(to.clone()));
        }
        self.check_free(to)?;
        let mut rules = self.check_leaves(target)?;
        if *target.expected(to) != Expected::Other(other.id.clone()) {
            let (id, to) = (other.id.clone(), to.clone());
            rules.add(match other.kind {
                OtherKind::Spare => PlugRule::SpareElsewhere(id, to),
                OtherKind::Bridge(_) => PlugRule::BridgeElsewhere(id, to),
            });
        }
        self.check_lock_open(from, &mut rules);
        self.check_lock_open(to, &mut rules);
        self.items.check_clear(to, &mut rules);
        Ok(rules)
    }

    pub(super) fn check_seen(&self, item: &ItemId, at: &SeenAt) -> Checked {
        let place = self.items.place_of(item);
        if place.is_none() && !matches!(item, ItemId::Loose(_)) {
            return impossible(SeenBarrier::NoItem(item.clone()));
        }
        if let Some(Place::Joined(with)) = &place {
            let with = self.items.lead(with).map_or_else(|| with.to_string(), |lead| lead.call());
            return impossible(SeenBarrier::Joined(with));
        }
        let is_cut_slip = self.items.lead(item).is_some_and(|lead| !lead.removed_wires.is_empty());
        match at {
            // Said again it undoes a slip: a wire of it taken out for good.
            SeenAt::Hand if place == Some(Place::Hand) && is_cut_slip => Ok(Rules::default()),
            SeenAt::Hand if place == Some(Place::Hand) => impossible(SeenBarrier::InHandAlready),
            SeenAt::Hand => self.items.check_empty_hand().map(|()| Rules::default()),
            SeenAt::Parked(tag) => match self.items.parked().any(|(t, id)| t == tag && id != item) {
                true => impossible(AsideBarrier::TagUsed(tag.clone())),
                false => Ok(Rules::default()),
            },
            SeenAt::Unseen => Ok(Rules::default()),
            SeenAt::In(at) => {
                self.housings.check_cavity(at)?;
                match self.items.occupant(at) {
                    None => Ok(Rules::default()),
                    Some(_) if place == Some(Place::In(at.clone())) => {
                        // Said again it undoes a slip: left behind, or a wire of it taken out for good.
                        let is_slip = self.items.left_in_old.contains_key(at) || is_cut_slip;
                        match is_slip {
                            true => Ok(Rules::default()),
                            false => impossible(SeenBarrier::ThereAlready),
                        }
                    }
                    Some(_) => impossible(SeenBarrier::TakenOnRecord(at.clone())),
                }
            }
        }
    }
}

/// Why a cavity takes no plug.
fn why_no_plug(expected: &Expected, into: &Address) -> PlugRule {
    match expected {
        Expected::Leads(_) => PlugRule::TakesWire(into.clone()),
        Expected::Plug(_)
        | Expected::SpareAndPlug
        | Expected::Other(_)
        | Expected::Delivered
        | Expected::Nothing
        | Expected::Blocked
        | Expected::MissingWire
        | Expected::MissingOther(_) => PlugRule::TakesNoPlug(into.clone()),
    }
}
