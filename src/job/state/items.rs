//! Everything that has a place: leads, plugs and other contents.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    job::{ItemId, Lead, OtherItem, Place, PlugItem, Tag},
    record::Address,
};

/// Everything that has a place: leads, plugs and other contents.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Items {
    /// The leads.
    pub leads: Vec<Lead>,
    /// The plugs.
    pub plugs: Vec<PlugItem>,
    /// Spare terminals, bridges and the like.
    pub others: Vec<OtherItem>,
    /// What stays in an old housing on purpose.
    pub left_in_old: BTreeMap<Address, String>,
    /// Moves made: things put into a new housing.
    pub moves: usize,
    /// Insertions per new cavity.
    pub insertions: BTreeMap<Address, u32>,
    /// New cavities in which something stayed, until somebody found them clear.
    pub left_behind: BTreeSet<Address>,
}

impl Items {
    /// Where the wires of a lead are: those of a joined one are where the lead is that it was joined with.
    pub(in crate::job) fn rests_at<'a>(&'a self, lead: &'a super::Lead) -> &'a Place {
        match &lead.place {
            Place::Joined(with) => self.lead(with).map_or(&lead.place, |with| &with.place),
            place => place,
        }
    }

    /// The lead that sits in a cavity.
    pub fn lead_at(&self, at: &Address) -> Option<&Lead> {
        self.leads.iter().find(|l| matches!(&l.place, Place::In(a) if a == at))
    }

    /// Where an item is.
    pub fn place_of(&self, id: &ItemId) -> Option<Place> {
        let lead = self.leads.iter().find(|l| l.id == *id).map(|l| &l.place);
        let plug = || self.plugs.iter().find(|p| p.id == *id).map(|p| &p.place);
        let other = || self.others.iter().find(|o| o.id == *id).map(|o| &o.place);
        lead.or_else(plug).or_else(other).cloned()
    }

    /// The lead, plug or other that an address speaks of: what sits there, else what was recorded there.
    pub(in crate::job) fn item_spoken_of(&self, at: &Address) -> Option<ItemId> {
        let id = ItemId::At(at.clone());
        let here = self.lead_at(at).map(|lead| lead.id.clone());
        here.or_else(|| self.lead(&id).map(|lead| lead.id.clone()))
    }

    /// What a lead is called, with the one it is to be joined with.
    pub fn call_joined(&self, lead: &Lead) -> String {
        match lead.joined_with.as_ref().and_then(|with| self.lead(with)) {
            Some(other) => format!("{} + {}", other.call(), lead.call()),
            None => lead.call(),
        }
    }

    /// The plug in a cavity, behind a spare terminal or by itself.
    pub fn plug_at(&self, at: &Address) -> Option<&super::PlugItem> {
        self.plugs.iter().find(|p| matches!(&p.place, super::Place::In(a) if a == at))
    }

    pub(in crate::job) fn lead_mut(&mut self, id: &ItemId) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| l.id == *id)
    }

    pub(in crate::job) fn lead_at_mut(&mut self, at: &Address) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| matches!(&l.place, Place::In(a) if a == at))
    }

    pub(in crate::job) fn plug_at_mut(&mut self, at: &Address) -> Option<&mut PlugItem> {
        self.plugs.iter_mut().find(|p| matches!(&p.place, Place::In(a) if a == at))
    }

    pub(in crate::job) fn hand_mut(&mut self) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| l.place == Place::Hand)
    }

    /// The lead known by this id.
    pub fn lead(&self, id: &ItemId) -> Option<&Lead> {
        self.leads.iter().find(|lead| lead.id == *id)
    }

    /// What is in the hand.
    pub fn in_hand(&self) -> Option<InHand<'_>> {
        let lead = self.leads.iter().find(|l| l.place == Place::Hand).map(InHand::Lead);
        let plug = || self.plugs.iter().find(|p| p.place == Place::Hand).map(InHand::Plug);
        let other = || self.others.iter().find(|o| o.place == Place::Hand).map(InHand::Other);
        lead.or_else(plug).or_else(other)
    }

    /// The lead in the hand.
    pub fn lead_in_hand(&self) -> Option<&Lead> {
        self.leads.iter().find(|l| l.place == Place::Hand)
    }

    /// What sits in a cavity: a lead or other content before the plug behind it.
    pub fn occupant(&self, at: &Address) -> Option<Occupant<'_>> {
        let sits = |place: &Place| matches!(place, Place::In(a) if a == at);
        let lead = self.leads.iter().find(|l| sits(&l.place)).map(Occupant::Lead);
        let other = || self.others.iter().find(|o| sits(&o.place)).map(Occupant::Other);
        let plug = || self.plugs.iter().find(|p| sits(&p.place)).map(Occupant::Plug);
        lead.or_else(other).or_else(plug)
    }

    /// What sits where, for everything at once.
    pub fn occupants(&self) -> BTreeMap<&Address, Occupant<'_>> {
        fn at(place: &Place) -> Option<&Address> {
            match place {
                Place::In(at) => Some(at),
                _ => None,
            }
        }
        let plugs = self.plugs.iter().filter_map(|p| Some((at(&p.place)?, Occupant::Plug(p))));
        let others = self.others.iter().filter_map(|o| Some((at(&o.place)?, Occupant::Other(o))));
        let leads = self.leads.iter().filter_map(|l| Some((at(&l.place)?, Occupant::Lead(l))));
        // Later ones win: a lead or other content stands before the plug behind it.
        plugs.chain(others).chain(leads).collect()
    }

    /// The leads, plugs and others that are parked under a tag, with the tag.
    pub fn parked(&self) -> impl Iterator<Item = (&Tag, &ItemId)> {
        fn tag(place: &Place) -> Option<&Tag> {
            match place {
                Place::Parked(tag) => Some(tag),
                _ => None,
            }
        }
        let leads = self.leads.iter().filter_map(|l| Some((tag(&l.place)?, &l.id)));
        leads.chain(self.others.iter().filter_map(|o| Some((tag(&o.place)?, &o.id))))
    }
}

/// What is in the hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InHand<'a> {
    /// A lead, with its terminal or cut free.
    Lead(&'a Lead),
    /// A blanking plug.
    Plug(&'a PlugItem),
    /// A spare terminal, bridge or clip.
    Other(&'a OtherItem),
}

/// What sits in a cavity now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Occupant<'a> {
    /// A lead, found or made.
    Lead(&'a Lead),
    /// A blanking plug by itself.
    Plug(&'a PlugItem),
    /// A spare terminal, bridge or clip; the plug behind it is not told here.
    Other(&'a OtherItem),
}
