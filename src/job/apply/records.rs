//! Taking in records, corrections, flips and decisions.

use crate::{
    catalogue::Sealing,
    face::Label,
    job::{
        Decision, Flip, Housings, ItemId, Lead, OtherItem, OtherKind, Place, PlugItem, PlugOrigin,
        RecordSide, state::State,
    },
    record::{Address, CavityContent, HousingName, LeadSeen, Seal},
};
use std::collections::BTreeMap;

use super::{new_lead, repairs::is_new_wire};

impl State {
    pub(super) fn apply_recorded(
        &mut self,
        side: RecordSide,
        at: &Address,
        holds: &CavityContent,
        is_from_a_list: bool,
    ) {
        match side {
            RecordSide::Found => {
                if is_from_a_list {
                    self.records.listed.insert(at.housing.clone());
                }
                self.set_found(at, holds);
            }
            RecordSide::Should => {
                self.records.should.insert(at.clone(), holds.clone());
            }
        }
    }

    pub(super) fn apply_finished(&mut self, side: RecordSide) {
        self.records.finished.insert(side);
    }

    pub(super) fn apply_flipped(&mut self, named: Option<&HousingName>, how: Flip) {
        if let Some(name) = self.housings.flipped_housing(named) {
            self.flip_record(&name, how);
        }
    }

    pub(super) fn apply_corrected(&mut self, at: &Address, holds: &CavityContent) {
        self.set_found(at, holds);
        // What was seen at the anchors stands; the record it is held against changed.
        let judged = self.housings.housing(&at.housing).map(|housing| self.judged_again(housing));
        if let (Some(judged), Some(housing)) = (judged, self.housings.housing_mut(&at.housing)) {
            housing.anchors = judged;
        }
        self.judge_rereads_again();
        // What was accepted was what stood there.
        let item = ItemId::At(at.clone());
        self.course.accepted.retain(|told| told.item.as_ref() != Some(&item) && told.at.as_ref() != Some(at));
    }

    pub(super) fn apply_decided(&mut self, at: &Address, wins: RecordSide, reason: &str) {
        let here = self.differences().into_iter().filter(|difference| difference.at == *at);
        let about = here.map(|difference| difference.kind).collect();
        self.records.decisions.insert(at.clone(), Decision { wins, reason: reason.to_owned(), about });
    }

    /// A re-read that agreed with the record that was corrected may not agree any more.
    fn judge_rereads_again(&mut self) {
        let agreed = self.readings.rereads.iter().filter(|(_, read)| read.agrees);
        let wrong: Vec<Address> = agreed
            .filter(|(hole, read)| !self.agrees_with(hole, &read.saw))
            .map(|(hole, _)| hole.clone())
            .collect();
        for hole in wrong {
            if let Some(read) = self.readings.rereads.get_mut(&hole) {
                read.agrees = false;
            }
            self.readings.misread.insert(hole);
        }
    }

    /// Puts what an old cavity holds on record, and its items in place.
    fn set_found(&mut self, at: &Address, holds: &CavityContent) {
        let id = ItemId::At(at.clone());
        let behind = ItemId::PlugBehind(at.clone());
        let former = self.items.leads.iter().find(|l| l.id == id).cloned();
        let before = self.records.found.get(at).and_then(CavityContent::lead).cloned();
        self.items.leads.retain(|l| l.id != id);
        self.items.plugs.retain(|p| p.id != id && p.id != behind);
        self.items.others.retain(|o| o.id != id);
        let size = self.housings.cavity_size(at);
        let plug = |id: ItemId| PlugItem {
            id,
            origin: PlugOrigin::Found,
            size: size.clone(),
            place: Place::In(at.clone()),
            came_from: None,
        };
        match holds {
            CavityContent::Wired(seen) => {
                let fresh = new_lead(id, seen.clone(), Place::In(at.clone()), self.housings.default_seal(at));
                self.items.leads.push(match former {
                    Some(former) => described_anew(former, fresh, before.as_ref()),
                    None => fresh,
                });
                self.items.leads.sort_by(|a, b| a.id.cmp(&b.id));
            }
            CavityContent::Plugged => self.items.plugs.push(plug(id)),
            CavityContent::Spare(spare) => {
                if spare.plug_behind {
                    self.items.plugs.push(plug(behind));
                }
                self.items.others.push(OtherItem {
                    id,
                    kind: OtherKind::Spare,
                    place: Place::In(at.clone()),
                });
            }
            CavityContent::Bridge(what) => {
                let kind = OtherKind::Bridge(what.clone());
                self.items.others.push(OtherItem { id, kind, place: Place::In(at.clone()) });
            }
            CavityContent::Open | CavityContent::Empty | CavityContent::Blocked => {}
        }
        let is_counted_otherwise =
            self.records.found.get(at).is_none_or(|before| before.word() != holds.word());
        if let Some(row) = self.housings.row_of(at).filter(|_| is_counted_otherwise) {
            self.records.counted.remove(&(at.housing.clone(), row));
        }
        self.records.found.insert(at.clone(), holds.clone());
    }

    /// Puts every content of a record that was keyed from the wrong point of view at the label it
    /// was really seen at.
    fn flip_record(&mut self, name: &HousingName, how: Flip) {
        let Some(housing) = self.housings.housing(name) else { return };
        let Some(taken_for) = housing.housing().misread(housing.pose(), how.misreading()) else { return };
        // What is in a cavity was keyed at the one it was taken for.
        let keyed_as: BTreeMap<&Label, &Label> =
            taken_for.iter().map(|(label, keyed)| (keyed, label)).collect();
        let moved: Vec<(Address, CavityContent)> = keyed_as
            .iter()
            .filter_map(|(keyed, label)| {
                let mut holds = self.records.found.get(&housing.address(keyed))?.clone();
                if let CavityContent::Wired(lead) = &mut holds {
                    // A partner was named by the label it was keyed at, too.
                    for partner in lead.wires.iter_mut().filter_map(|w| w.twisted_with.as_mut()) {
                        *partner = keyed_as.get(partner).map_or(partner.clone(), |there| (*there).clone());
                    }
                }
                Some((housing.address(label), holds))
            })
            .collect();
        // What was tagged, found and planned belongs to the wire, not to the label it was keyed at.
        let formers: BTreeMap<ItemId, Lead> = keyed_as
            .iter()
            .filter_map(|(keyed, label)| {
                let former = self.items.lead(&ItemId::At(housing.address(keyed)))?.clone();
                Some((ItemId::At(housing.address(label)), former))
            })
            .collect();
        for (at, holds) in moved {
            self.set_found(&at, &holds);
        }
        for (id, former) in formers {
            if let Some(lead) = self.items.lead_mut(&id) {
                let Lead { seen, place, .. } = lead.clone();
                *lead = Lead { id, seen, place, ..former };
            }
        }
        if let Some(housing) = self.housings.all.iter_mut().find(|h| h.name == *name) {
            housing.anchors.clear();
        }
    }
}

/// A lead whose description is corrected keeps its seal, its tag, what was found and planned, and its
/// repairs: at the terminal it is still what it was made. Damage counts anew where it is not what was
/// recorded before.
fn described_anew(former: Lead, fresh: Lead, before: Option<&LeadSeen>) -> Lead {
    let damage = |seen: &LeadSeen| seen.wires.iter().map(|wire| wire.damage.clone()).collect::<Vec<_>>();
    let now = damage(&fresh.seen);
    let is_measured_again = now.iter().any(Option::is_some) && before.map(damage) != Some(now);
    let made = former.made().cloned();
    let is_told_anew = before.is_none_or(|before| before.condition != fresh.seen.condition);
    let wires = fresh.seen.wires.len();
    // What its seal is after it left its hole was seen in the hand.
    let is_at_home = former.place == fresh.place;
    let mut lead = Lead {
        seal: fresh.seen.seal.filter(|_| is_at_home).unwrap_or(former.seal),
        suspect: if is_told_anew { fresh.suspect } else { former.suspect },
        damage_found: former.damage_found.clone().filter(|_| !is_measured_again),
        removed_wires: former.removed_wires.iter().copied().filter(|place| *place <= wires).collect(),
        seen: fresh.seen,
        ..former
    };
    if let Some(made) = made {
        is_new_wire(&mut lead, &made.order);
        if !is_measured_again {
            lead.seen.wires.iter_mut().for_each(|wire| wire.damage = None);
        }
    }
    lead
}

impl Housings {
    pub(super) fn default_seal(&self, at: &Address) -> Seal {
        match self.housing(&at.housing).map(|h| &h.housing().sealing) {
            Some(Sealing::Individual) => Seal::Unknown,
            Some(Sealing::Mat { .. } | Sealing::Unsealed) | None => Seal::None,
        }
    }
}
