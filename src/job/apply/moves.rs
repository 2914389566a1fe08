//! Taking in what is done to leads, plugs and other contents.

use crate::{
    job::{
        Act, Anyway, Code, InHand, Inspected, ItemId, Items, JobSide, OtherItem, OtherKind, Place, PlugItem,
        PlugOrigin, PlugSource, RepairKind, Seat, Tag, state::State,
    },
    record::{Address, CavityContent, Seal},
};

impl State {
    pub(super) fn apply_extract(
        &mut self,
        from: &Address,
        freely: bool,
        seal: Seal,
        anyway: Option<&Anyway>,
    ) {
        // Past a lock that was not released a terminal does not come freely.
        let is_torn = |anyway: &Anyway| anyway.codes.contains(&Code::LockNotReleased);
        let freely = freely && !anyway.is_some_and(is_torn);
        let (seal, from) = (seal, from.clone());
        self.unsettle(&from);
        if seal == Seal::Missing && self.items.lead_at(&from).is_some_and(|lead| lead.seal != seal) {
            self.stays_behind(&from);
        }
        if let Some(lead) = self.items.lead_at_mut(&from) {
            lead.place = Place::Hand;
            lead.came_from = Some(from);
            lead.seat = Seat::Away;
            lead.seal = seal;
            lead.forced |= !freely;
            lead.inspected = None;
            let id = lead.id.clone();
            if !freely {
                self.accepted_lapses(&id, &[Code::ForcedOut, Code::CrimpSuspect]);
            }
            if seal == Seal::Missing {
                self.accepted_lapses(&id, &[Code::SealMissing]);
            }
        }
    }

    pub(super) fn apply_cut_free(&mut self, from: &Address, terminal_stayed: bool) {
        let from = from.clone();
        self.unsettle(&from);
        if terminal_stayed {
            self.stays_behind(&from);
        }
        if let Some(lead) = self.items.lead_at_mut(&from) {
            lead.place = Place::Hand;
            lead.came_from = Some(from);
            lead.seat = Seat::Away;
            lead.cut = true;
            lead.inspected = Some(Some(RepairKind::RepairLead));
        }
    }

    pub(super) fn apply_loose(&mut self, leads: &[(Address, Tag)]) {
        for (from, tag) in leads {
            self.unsettle(from);
            if let Some(lead) = self.items.lead_at_mut(from) {
                lead.place = Place::Parked(tag.clone());
                lead.came_from = Some(from.clone());
                lead.seat = Seat::Away;
                lead.tag = Some(tag.clone());
                lead.inspected = None;
            }
        }
    }

    pub(super) fn apply_pushed_again(&mut self, into: &Address, click: bool) {
        self.unsettle(into);
        if let Some(lead) = self.items.lead_at_mut(into) {
            lead.seat = if click { Seat::Clicked } else { Seat::NoClick };
        }
    }

    pub(super) fn apply_insert(&mut self, into: &Address, click: bool) {
        let (into, click) = (into.clone(), click);
        if let Some(lead) = self.items.hand_mut() {
            lead.place = Place::In(into.clone());
            lead.seat = if click { Seat::Clicked } else { Seat::NoClick };
            self.settle(&into);
        }
    }

    pub(super) fn apply_tug(&mut self, at: &Address, held: bool) {
        if !held {
            self.unsettle(at);
        }
        if let Some(lead) = self.items.lead_at_mut(at) {
            if held {
                lead.seat = Seat::Held;
            } else {
                lead.place = Place::Hand;
                lead.came_from = Some(at.clone());
                lead.seat = Seat::Away;
                lead.inspected = None;
            }
        }
    }

    /// A seal or a terminal stayed in a hole: a new one is looked into before it is filled again.
    fn stays_behind(&mut self, at: &Address) {
        if self.housings.side_of(at) == Some(JobSide::New) {
            self.items.left_behind.insert(at.clone());
        }
    }

    /// Back into the hole it came from: into a new one it is a filling like any other.
    pub(super) fn apply_put_back(&mut self) {
        let from = match self.items.in_hand() {
            Some(InHand::Lead(lead)) => lead.came_from.clone(),
            Some(InHand::Plug(plug)) => plug.came_from.clone(),
            Some(InHand::Other(_)) | None => None,
        };
        let Some(from) = from else { return };
        let is_new = self.housings.side_of(&from) == Some(JobSide::New);
        if let Some(lead) = self.items.hand_mut() {
            lead.place = Place::In(from.clone());
            lead.seat = if is_new { Seat::Clicked } else { Seat::Away };
        } else if let Some(plug) = self.items.plugs.iter_mut().find(|plug| plug.place == Place::Hand) {
            plug.place = Place::In(from.clone());
        }
        if is_new {
            *self.items.insertions.entry(from.clone()).or_default() += 1;
            self.unsettle(&from);
        }
    }

    pub(super) fn apply_take_plug(&mut self, from: &Address) {
        self.unsettle(from);
        if let Some(plug) = self.items.plug_at_mut(from) {
            plug.place = Place::Hand;
            plug.came_from = Some(from.clone());
        }
    }

    pub(super) fn apply_move_other(&mut self, from: &Address, to: &Address) {
        let (from, to) = (from.clone(), Place::In(to.clone()));
        let from_place = Place::In(from);
        for other in self.items.others.iter_mut().filter(|o| o.place == from_place) {
            other.place = to.clone();
        }
        for plug in self.items.plugs.iter_mut().filter(|p| p.place == from_place) {
            plug.place = to.clone();
        }
        if let Place::In(to) = to {
            self.settle(&to);
        }
    }

    /// A new spare terminal, bridge or clip, of the kind that is drawn in the old cavity.
    pub(super) fn apply_new_other(&mut self, from: &Address, to: &Address) {
        let kind = match self.should_in_old_labels().get(from) {
            Some(CavityContent::Spare(_)) => OtherKind::Spare,
            Some(CavityContent::Bridge(what)) => OtherKind::Bridge(what.clone()),
            Some(
                CavityContent::Wired(_)
                | CavityContent::Plugged
                | CavityContent::Open
                | CavityContent::Empty
                | CavityContent::Blocked,
            )
            | None => return,
        };
        let with_plug = matches!(self.should_in_old_labels().get(from), Some(CavityContent::Spare(spare)) if spare.plug_behind);
        let (id, place) = (ItemId::At(to.clone()), Place::In(to.clone()));
        self.items.others.push(OtherItem { id, kind, place });
        if with_plug {
            self.plug_from_stock(to);
        }
        self.settle(to);
    }

    pub(super) fn apply_fit_plug(&mut self, into: &Address, source: PlugSource, with_spare: bool) {
        let size = self.housings.cavity_size(into);
        if with_spare {
            let id = ItemId::At(into.clone());
            self.items.others.push(OtherItem { id, kind: OtherKind::Spare, place: Place::In(into.clone()) });
        }
        match source {
            PlugSource::Stock => self.plug_from_stock(into),
            PlugSource::Hand | PlugSource::Tray => {
                let from = if source == PlugSource::Hand { Place::Hand } else { Place::Tray };
                let fits = |p: &PlugItem| p.size.is_none() || p.size == size;
                let here = |p: &PlugItem| p.place == from;
                let index = self
                    .items
                    .plugs
                    .iter()
                    .position(|p| here(p) && fits(p))
                    .or_else(|| self.items.plugs.iter().position(here));
                if let Some(plug) = index.and_then(|i| self.items.plugs.get_mut(i)) {
                    plug.place = Place::In(into.clone());
                }
            }
        }
        self.settle(into);
    }

    fn plug_from_stock(&mut self, into: &Address) {
        let n = self.items.plugs.iter().filter(|p| p.origin == PlugOrigin::Stock).count();
        let size = self.housings.cavity_size(into);
        self.items.plugs.push(PlugItem {
            id: ItemId::Stock(u32::try_from(n).unwrap_or(u32::MAX).saturating_add(1)),
            origin: PlugOrigin::Stock,
            size,
            place: Place::In(into.clone()),
            came_from: None,
        });
    }
}

impl Items {
    pub(super) fn apply_tagged(&mut self, lead: &ItemId, tag: &Tag) {
        if let Some(lead) = self.lead_mut(lead) {
            lead.tag = Some(tag.clone());
        }
    }

    pub(super) fn apply_inspect(&mut self, n: usize, verdict: &Inspected, act: &Act) {
        let Act::Inspect { found, damage, test_pin, .. } = act else { return };
        let Some(lead) = self.hand_mut() else { return };
        lead.is_looked_at(*found, damage.as_ref(), test_pin.as_ref());
        lead.inspected = Some(match verdict {
            Inspected::Good => {
                lead.called_good = Some(n);
                lead.planned = None;
                lead.planned_part = None;
                None
            }
            Inspected::Needs(kind) => Some(*kind),
        });
    }

    pub(super) fn apply_left_in_old(&mut self, at: &Address, reason: &str) {
        self.left_in_old.insert(at.clone(), reason.to_owned());
    }

    pub(super) fn park(&mut self, tag: &Tag) {
        if let Some(lead) = self.hand_mut() {
            lead.place = Place::Parked(tag.clone());
            lead.tag = Some(tag.clone());
        }
        for plug in self.plugs.iter_mut().filter(|p| p.place == Place::Hand) {
            plug.place = Place::Tray;
        }
        for other in self.others.iter_mut().filter(|o| o.place == Place::Hand) {
            other.place = Place::Parked(tag.clone());
        }
    }

    pub(super) fn apply_take_up(&mut self, tag: &Tag) {
        let parked = Place::Parked(tag.clone());
        if let Some(lead) = self.leads.iter_mut().find(|l| l.place == parked) {
            lead.place = Place::Hand;
            return;
        }
        if let Some(other) = self.others.iter_mut().find(|o| o.place == parked) {
            other.place = Place::Hand;
        }
    }

    /// The plug in the hand, else the last one in the tray, leaves for good.
    pub(super) fn plug_out(&mut self, to: Place) {
        let in_hand = self.plugs.iter().position(|p| p.place == Place::Hand);
        let index = in_hand.or_else(|| self.plugs.iter().rposition(|p| p.place == Place::Tray));
        if let Some(plug) = index.and_then(|i| self.plugs.get_mut(i)) {
            plug.place = to;
        }
    }
}
