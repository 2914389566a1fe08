//! Where everything is to go. Found, should and the decisions give every lead its decided cavity
//! of the old side; the map takes decided cavities to the new side.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    catalogue::{Delivered, Sealing},
    record::{Address, CavityContent, Difference, Record},
    shop_rules::UnusedCavities,
};

use super::{
    Code, ItemId, JobSide, OtherKind, RecordSide,
    decided::Decided,
    state::{JobHousing, State, World},
};

/// What a cavity of a new housing is to hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Expected {
    /// These leads; more than one is a clash of the map.
    Leads(Vec<ItemId>),
    /// A plug: the one of this old cavity when there is one.
    Plug(Option<Address>),
    /// A spare terminal with a plug behind it, from stock.
    SpareAndPlug,
    /// This spare terminal, bridge or clip.
    Other(ItemId),
    /// A bridge or clip that is delivered in it.
    Delivered,
    /// Nothing.
    Nothing,
    /// Nothing can: it is moulded shut.
    Blocked,
    /// A wire that is found nowhere and that nobody makes yet.
    MissingWire,
    /// A spare terminal, bridge or clip that is found nowhere: a new one.
    MissingOther(OtherKind),
}

impl Expected {
    /// Whether a plug belongs there, alone or behind a spare terminal.
    pub fn takes_plug(&self) -> bool {
        matches!(self, Self::Plug(_) | Self::SpareAndPlug)
    }
}

/// Where a lead is to go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Destination {
    /// To this cavity of a new housing.
    To(Address),
    /// To this cavity, which is moulded shut.
    Blocked(Address),
    /// Nowhere, under a document.
    None,
    /// Nowhere, by the decision: it is taken out for good, or tied back.
    Out,
    /// Into the terminal of this lead, which both get new.
    JoinedTo(ItemId),
    /// Its cavity is not mapped.
    Unmapped(Address),
    /// It came in later and nobody said where it belongs.
    Unknown,
}

/// The plan of the whole job: where everything goes, and what is asked on the way. Reckoned once
/// for everything that is shown after an act.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Target {
    /// What each cavity of the new side is to hold.
    pub cavities: BTreeMap<Address, Expected>,
    /// Where each lead is to go.
    pub leads: BTreeMap<ItemId, Destination>,
    /// The decided old cavity of each lead.
    pub decided: BTreeMap<ItemId, Address>,
    /// The differences between found and should, decided ones included.
    pub differences: Vec<Difference>,
    /// What the decisions ask for.
    pub by_decision: Decided,
    /// Old cavities beside one that was open at intake.
    pub look_closely: Vec<Address>,
    /// The leads that look alike.
    pub look_alikes: BTreeSet<ItemId>,
    /// The leads whose colour is asked before they are taken out.
    pub colours_asked: BTreeSet<ItemId>,
    /// The new cavities that are re-read before the connector is closed, in reading order.
    pub rereads: Vec<Address>,
}

impl Target {
    /// What a new cavity is to hold.
    pub fn expected(&self, at: &Address) -> &Expected {
        self.cavities.get(at).unwrap_or(&Expected::Nothing)
    }

    /// The cavity a lead is to go to.
    pub fn of(&self, lead: &ItemId) -> Option<&Address> {
        match self.leads.get(lead) {
            Some(Destination::To(at)) => Some(at),
            Some(
                Destination::Blocked(_)
                | Destination::None
                | Destination::Out
                | Destination::JoinedTo(_)
                | Destination::Unmapped(_)
                | Destination::Unknown,
            )
            | None => None,
        }
    }
}

/// What an old cavity contributes besides leads.
enum Content {
    /// Nobody has said, or decided, yet.
    NotKnown,
    Plug,
    Other(ItemId),
    /// A spare terminal, bridge or clip that is drawn and not here.
    MissingOther(OtherKind),
    /// A wire that is drawn and not here.
    MissingWire,
    Unused,
}

impl State {
    /// The plan, from records, decisions and map.
    pub fn target(&self) -> Target {
        let differences = self.differences();
        let look_alikes = self.records.look_alike_leads();
        let mut target = Target {
            look_closely: self.neighbours_to_look_at(&differences),
            colours_asked: self.colours_asked_of(&look_alikes),
            by_decision: self.decided(&differences),
            differences,
            look_alikes,
            ..Target::default()
        };
        let mut leads_at = self.place_leads(&mut target);
        let should = self.should_in_old_labels();
        let waiting = self.records.waiting_for_wires(&target.differences);
        let sources: BTreeMap<&Address, &Address> =
            self.mapping.map.iter().filter_map(|(from, to)| to.as_ref().map(|to| (to, from))).collect();
        for new in self.housings.side(JobSide::New) {
            for cavity in &new.housing().cavities {
                let at = new.address(&cavity.label);
                let from = sources.get(&at).copied().or_else(|| self.drawn_in_new_labels(&target, &at));
                let content = || match from {
                    Some(from) => Some(self.content(from, &at, &should, &waiting, &target)),
                    None => self.drawn_there(&should, &at),
                };
                let expected = match (cavity.delivered, leads_at.remove(&at)) {
                    (Delivered::Blocked, _) => Expected::Blocked,
                    (_, Some(leads)) => Expected::Leads(leads),
                    (Delivered::Bridge, None) => Expected::Delivered,
                    (_, None) => match (content(), from) {
                        (Some(Content::Plug), from) => Expected::Plug(from.cloned()),
                        (Some(Content::Other(id)), _) => Expected::Other(id),
                        (Some(Content::MissingOther(kind)), _) => Expected::MissingOther(kind),
                        (Some(Content::MissingWire), Some(from)) => self.missing_wire(new, from, &at),
                        (Some(Content::Unused), from) => match self.world.unused(new) {
                            // The plug that was found there serves as well as one from stock.
                            Expected::Plug(None) => {
                                Expected::Plug(from.filter(|at| self.records.was_plugged(at)).cloned())
                            }
                            expected => expected,
                        },
                        // What nothing comes to is known once the map is.
                        (None, _) if self.mapping.confirmed.is_some() => self.world.unused(new),
                        (Some(Content::NotKnown | Content::MissingWire) | None, _) => Expected::Nothing,
                    },
                };
                target.cavities.insert(at, expected);
            }
        }
        target.rereads = self.rereads_asked(&target);
        target
    }

    /// Where each lead goes; gives the leads of each new cavity.
    fn place_leads(&self, target: &mut Target) -> BTreeMap<Address, Vec<ItemId>> {
        let mut leads_at: BTreeMap<Address, Vec<ItemId>> = BTreeMap::new();
        for lead in &self.items.leads {
            let ItemId::At(recorded) = &lead.id else {
                target.leads.insert(lead.id.clone(), Destination::Unknown);
                continue;
            };
            let decided = target.by_decision.moves.get(recorded).unwrap_or(recorded).clone();
            let destination = match &lead.joined_with {
                Some(with) => Destination::JoinedTo(with.clone()),
                None if target.by_decision.out.contains(&lead.id) => Destination::Out,
                None => self.destination(&decided),
            };
            target.decided.insert(lead.id.clone(), decided);
            if let (Destination::To(at), true) = (&destination, lead.wires_left() > 0) {
                leads_at.entry(at.clone()).or_default().push(lead.id.clone());
            }
            target.leads.insert(lead.id.clone(), destination);
        }
        leads_at
    }

    /// A cavity that is drawn in labels of the new side, where no old one is mapped to it.
    fn drawn_in_new_labels<'t>(&self, target: &'t Target, at: &Address) -> Option<&'t Address> {
        target.by_decision.missing.keys().find(|drawn| *drawn == at)
    }

    /// A spare terminal, bridge or clip that is drawn in labels of the new side, where no old cavity is
    /// mapped to.
    fn drawn_there(&self, should: &Record, at: &Address) -> Option<Content> {
        match should.get(at)? {
            CavityContent::Spare(_) => Some(self.other_for(at, at, OtherKind::Spare)),
            CavityContent::Bridge(what) => Some(self.other_for(at, at, OtherKind::Bridge(what.clone()))),
            CavityContent::Wired(_)
            | CavityContent::Plugged
            | CavityContent::Open
            | CavityContent::Empty
            | CavityContent::Blocked => None,
        }
    }

    /// The hole of a missing wire: a plug stands in it only as a temporary measure, with its date.
    fn missing_wire(&self, new: &JobHousing, from: &Address, at: &Address) -> Expected {
        let is_temporary = self.course.accepted.iter().any(|accepted| {
            accepted.flag == Code::WireMissing
                && accepted.due.is_some()
                && accepted.at.as_ref().is_some_and(|there| there == from || there == at)
        });
        match is_temporary && new.housing().sealing.is_sealed() {
            true => Expected::Plug(None),
            false => Expected::MissingWire,
        }
    }

    fn destination(&self, decided: &Address) -> Destination {
        // By the record of what should be, some wires belong in a cavity no old one is mapped to.
        let itself = Some(decided.clone()).filter(|at| self.housings.side_of(at) == Some(JobSide::New));
        let new = itself.map(Some);
        let Some(mapped) = new.as_ref().or_else(|| self.mapping.map.get(decided)) else {
            return Destination::Unmapped(decided.clone());
        };
        let Some(to) = mapped else { return Destination::None };
        let delivered = self
            .housings
            .housing(&to.housing)
            .and_then(|h| h.housing().cavity(&to.label))
            .map(|c| c.delivered);
        match delivered {
            Some(Delivered::Blocked) => Destination::Blocked(to.clone()),
            Some(_) => Destination::To(to.clone()),
            None => Destination::Unmapped(decided.clone()),
        }
    }

    /// What belongs in an old cavity besides a lead, by the records and the decision on it.
    fn content(
        &self,
        at: &Address,
        to: &Address,
        should: &Record,
        waiting: &BTreeSet<Address>,
        target: &Target,
    ) -> Content {
        if target.by_decision.is_missing_at(at) {
            return Content::MissingWire;
        }
        if waiting.contains(at) || !self.records.found.contains_key(at) {
            return Content::NotKnown;
        }
        let mut here = target.differences.iter().filter(|difference| difference.at == *at);
        let by_should = match here.find_map(|difference| self.records.decided_for(difference)) {
            Some(wins) => wins == RecordSide::Should,
            // A wire found here that belongs elsewhere leaves what the should record says.
            None => self.records.found.get(at).is_some_and(|h| h.lead().is_some()),
        };
        let record = if by_should { should } else { &self.records.found };
        match record.get(at) {
            Some(CavityContent::Plugged) => Content::Plug,
            Some(CavityContent::Open) if self.housings.is_sealed(at) => Content::Plug,
            Some(CavityContent::Spare(_)) => self.other_for(at, to, OtherKind::Spare),
            Some(CavityContent::Bridge(what)) => self.other_for(at, to, OtherKind::Bridge(what.clone())),
            // An open cavity of an unsealed housing is open because its wire is elsewhere or gone.
            Some(
                CavityContent::Open | CavityContent::Wired(_) | CavityContent::Empty | CavityContent::Blocked,
            )
            | None => Content::Unused,
        }
    }

    /// The spare terminal, bridge or clip of this kind that was found in the cavity, or that was put new
    /// into the one it is mapped to; else that it is missing.
    fn other_for(&self, at: &Address, to: &Address, kind: OtherKind) -> Content {
        let known = [at, to].into_iter().find_map(|home| {
            let id = ItemId::At(home.clone());
            self.items.others.iter().find(|other| other.id == id && other.kind.is_like(&kind))
        });
        known.map_or(Content::MissingOther(kind), |other| Content::Other(other.id.clone()))
    }
}

impl World {
    fn unused(&self, new: &JobHousing) -> Expected {
        let rule = match new.housing().sealing {
            Sealing::Unsealed => &self.rules.unused_unsealed,
            Sealing::Individual | Sealing::Mat { .. } => &self.rules.unused_sealed,
        };
        match rule.value {
            UnusedCavities::Leave => Expected::Nothing,
            UnusedCavities::Plug => Expected::Plug(None),
            UnusedCavities::SpareAndPlug => Expected::SpareAndPlug,
        }
    }
}
