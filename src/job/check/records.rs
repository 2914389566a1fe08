//! Checks of the world a job carries, of its records and of decisions on them.

use crate::{
    catalogue::Delivered,
    job::{
        Flip, Housings, ItemId, Items, JobSide, Occupant, Place, RecordSide, Refusal,
        refusal::{DecisionBarrier, RecordBarrier, Recorded, WorldBarrier},
        state::State,
    },
    record::{Address, CavityContent, HousingName},
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_ticket(&self) -> Checked {
        match self.housings.all.is_empty() {
            true => Ok(Rules::default()),
            false => impossible(WorldBarrier::TicketWritten),
        }
    }

    pub(super) fn check_housed(&self, name: &HousingName) -> Checked {
        match self.housings.housing(name) {
            Some(_) => impossible(WorldBarrier::NameTaken(name.clone())),
            None => self.check_nothing_moved(),
        }
    }

    /// The world of a job is given before anything moves.
    pub(super) fn check_nothing_moved(&self) -> Checked {
        match self.has_moved() {
            false => Ok(Rules::default()),
            true => impossible(WorldBarrier::Moved),
        }
    }

    pub(super) fn check_recorded(&self, side: RecordSide, at: &Address, holds: &CavityContent) -> Checked {
        match side {
            // What should be may be written in the labels of the new side.
            RecordSide::Should => {
                self.housings.check_cavity(at)?;
            }
            RecordSide::Found => {
                self.housings.check_old(at)?;
                if self.has_moved() || self.records.finished.contains(&side) {
                    return impossible(WorldBarrier::RecordFinished);
                }
            }
        }
        self.check_holds(at, holds)
    }

    pub(super) fn check_corrected(&self, at: &Address, holds: &CavityContent) -> Checked {
        self.housings.check_old(at)?;
        let moved = self.items.leads.iter().find(|l| l.id == ItemId::At(at.clone()));
        if let (Some(lead), true) = (moved, holds.lead().is_none())
            && !matches!(&lead.place, Place::In(now) if now == at)
        {
            return impossible(RecordBarrier::LeadElsewhere(lead.call()));
        }
        self.check_not_away(at)?;
        self.check_holds(at, holds)
    }

    pub(super) fn check_flipped(&self, housing: Option<&HousingName>, how: Flip) -> Checked {
        let named = self.housings.flipped_housing(housing);
        if let Some(what) = named.as_ref().and_then(|name| self.items.left_housing(name)) {
            return impossible(WorldBarrier::FlippedUnder(what));
        }
        let Some(housing) = named.and_then(|name| self.housings.housing(&name)) else {
            return impossible(WorldBarrier::NotOneOld);
        };
        match housing.housing().misread(housing.pose(), how.misreading()) {
            Some(taken_for) => {
                // What is in a hole was keyed at the one it was taken for.
                for (label, keyed) in &taken_for {
                    let there = housing.address(label);
                    let delivered = self.housings.cavity(&there).map(|cavity| cavity.delivered);
                    let is_bare = |holds: &CavityContent| {
                        matches!(holds, CavityContent::Open | CavityContent::Empty | CavityContent::Blocked)
                    };
                    if self.records.found.get(&housing.address(keyed)).is_some_and(|holds| !is_bare(holds)) {
                        self.check_not_shut(&there, delivered)?;
                    }
                }
                Ok(Rules::default())
            }
            None => impossible(WorldBarrier::NotFlipped(housing.name.clone(), how)),
        }
    }

    pub(super) fn check_decided(&self, at: &Address) -> Checked {
        let mut here = self.differences().into_iter().filter(|d| d.at == *at).peekable();
        let is_there = here.peek().is_some();
        // What shows up later is decided when it shows up.
        // A slip is decided anew while everything it is about is in its hole.
        let is_settled = here.all(|d| self.records.is_decided(&d));
        if is_settled && let Some(what) = self.left_hole_of(at) {
            return impossible(DecisionBarrier::HasLeft(what));
        }
        match is_there {
            true => Ok(Rules::default()),
            false => impossible(DecisionBarrier::NoDifference(at.clone())),
        }
    }

    /// What a difference at a cavity is about and is not in its hole any more.
    fn left_hole_of(&self, at: &Address) -> Option<Recorded> {
        let about = self.differences().into_iter().filter(|d| d.at == *at).flat_map(|d| d.cavities());
        let about: Vec<Address> = about.collect();
        self.items.first_that(|id, place| match id {
            ItemId::At(home) | ItemId::PlugBehind(home) => about.contains(home) && has_left(home, place),
            ItemId::Loose(_) | ItemId::Stock(_) => false,
        })
    }

    /// A record says what was found in a hole; what it had there and is elsewhere now is not found anew.
    fn check_not_away(&self, at: &Address) -> Result<(), Refusal> {
        let is_its = |id: &ItemId| *id == ItemId::At(at.clone()) || *id == ItemId::PlugBehind(at.clone());
        let is_away = |place: &Place| !matches!(place, Place::In(now) if now == at);
        let plug = self.items.plugs.iter().find(|plug| is_its(&plug.id) && is_away(&plug.place));
        let other = self.items.others.iter().find(|other| is_its(&other.id) && is_away(&other.place));
        let plug = plug.map(|plug| RecordBarrier::PlugElsewhere(at.clone(), plug.place.clone()));
        let other = other.map(|other| RecordBarrier::PartElsewhere(at.clone(), other.place.clone()));
        if let Some(gone) = plug.or(other) {
            return impossible(gone);
        }
        let here = match self.items.occupant(at) {
            Some(Occupant::Lead(lead)) => Some((&lead.id, Recorded::Lead(lead.call()))),
            Some(Occupant::Plug(plug)) => Some((&plug.id, Recorded::Plug(plug.id.clone()))),
            Some(Occupant::Other(other)) => Some((&other.id, Recorded::Other(other.id.clone()))),
            None => None,
        };
        match here.filter(|(id, _)| !is_its(id)) {
            Some((_, what)) => impossible(RecordBarrier::SitsThere(what, at.clone())),
            None => Ok(()),
        }
    }

    fn check_holds(&self, at: &Address, holds: &CavityContent) -> Checked {
        let delivered = self.housings.cavity(at).map(|c| c.delivered);
        match (holds, delivered) {
            (CavityContent::Wired(lead), _) if lead.wires.is_empty() => {
                impossible(RecordBarrier::NoWire(at.clone()))
            }
            (CavityContent::Wired(lead), _) => {
                for wire in &lead.wires {
                    if let Some(partner) = &wire.twisted_with {
                        let partner = Address::new(at.housing.clone(), partner.clone());
                        self.housings.check_cavity(&partner)?;
                        if partner == *at {
                            return impossible(RecordBarrier::TwistedWithItself(at.clone()));
                        }
                    }
                }
                self.check_not_shut(at, delivered)
            }
            (CavityContent::Plugged | CavityContent::Spare(_) | CavityContent::Bridge(_), _) => {
                self.check_not_shut(at, delivered)
            }
            (CavityContent::Open | CavityContent::Empty | CavityContent::Blocked, _) => Ok(Rules::default()),
        }
    }

    fn check_not_shut(&self, at: &Address, delivered: Option<Delivered>) -> Checked {
        match delivered {
            Some(Delivered::Blocked) => impossible(RecordBarrier::DefinedShut(at.clone())),
            Some(Delivered::Bare | Delivered::Plugged | Delivered::Bridge) | None => Ok(Rules::default()),
        }
    }

    pub(super) fn check_finished(&self, side: RecordSide) -> Checked {
        if side == RecordSide::Should {
            return Ok(Rules::default());
        }
        let left = self.unrecorded();
        match left.first() {
            None => Ok(Rules::default()),
            Some(first) => impossible(WorldBarrier::NotRecorded(left.len(), first.clone())),
        }
    }
}

/// Whether what was recorded in a hole is not in it any more.
fn has_left(home: &Address, place: &Place) -> bool {
    !matches!(place, Place::In(now) if now == home) && *place != Place::NotMade
}

impl Items {
    /// What of an old housing is not in the hole it was recorded in; none when all is.
    fn left_housing(&self, name: &HousingName) -> Option<Recorded> {
        self.first_that(|id, place| match id {
            ItemId::At(at) | ItemId::PlugBehind(at) if at.housing == *name => has_left(at, place),
            ItemId::At(_) | ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_) => {
                matches!(place, Place::In(at) if at.housing == *name)
            }
        })
    }

    /// The first lead, plug or other thing of which something is so.
    fn first_that(&self, is_so: impl Fn(&ItemId, &Place) -> bool) -> Option<Recorded> {
        let lead = self.leads.iter().find(|lead| is_so(&lead.id, &lead.place)).map(|lead| lead.call());
        let plug = || self.plugs.iter().find(|plug| is_so(&plug.id, &plug.place));
        let other = || self.others.iter().find(|other| is_so(&other.id, &other.place));
        lead.map(Recorded::Lead)
            .or_else(|| plug().map(|plug| Recorded::Plug(plug.id.clone())))
            .or_else(|| other().map(|other| Recorded::Other(other.id.clone())))
    }
}

impl Housings {
    fn check_old(&self, at: &Address) -> Result<(), Refusal> {
        match self.check_cavity(at)? {
            JobSide::Old => Ok(()),
            JobSide::New => impossible(RecordBarrier::OfNewSide(at.clone())),
        }
    }
}
