//! Items: everything that belongs to a job and can be somewhere. Each has one place, always.

use crate::{
    catalogue::{PartNumber, SizeName},
    job::{Crimp, ItemId, Tag},
    quantity::{Gauge, Length, plain_words},
    reckoning::Finding,
    record::{Address, LeadSeen, Seal},
};

use super::{
    repairs::{LeadOrder, MadeLead, RepairDone},
    term::RepairKind,
};

/// Where an item is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// In a cavity of an old or a new housing.
    In(Address),
    /// In the hand: at most one item of the whole job.
    Hand,
    /// Tagged and set aside.
    Parked(Tag),
    /// A plug in the tray.
    Tray,
    /// A wire taken out for good, under a document.
    Removed,
    /// Joined with this lead: one terminal for both.
    Joined(ItemId),
    /// Planned, and not made yet.
    NotMade,
    /// A plug or other part thrown away.
    Scrapped,
    /// A plug or other part nobody can find.
    Lost,
    /// A plug or other part given back.
    Returned,
    /// Said to be somewhere, and not seen there.
    Unseen,
}

/// How a lead sits in its cavity of a new housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Seat {
    /// Not in a new housing.
    Away,
    /// Put in without a click.
    NoClick,
    /// Clicked, not tugged.
    Clicked,
    /// Clicked, and held the tug.
    Held,
}

/// How a lead came into the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeadOrigin {
    /// Recorded, or met later.
    Found,
    /// Made new, for a wire that is drawn and found nowhere.
    Made,
}

/// A lead on its way.
#[derive(Debug, Clone, PartialEq)]
pub struct Lead {
    /// What it is known by.
    pub id: ItemId,
    /// How it came into the job.
    pub origin: LeadOrigin,
    /// What was recorded of it.
    pub seen: LeadSeen,
    /// Where it is.
    pub place: Place,
    /// The cavity it was last taken out of; where `PutBack` puts it.
    pub came_from: Option<Address>,
    /// How it sits.
    pub seat: Seat,
    /// Its seal now.
    pub seal: Seal,
    /// Its tag, when it carries one.
    pub tag: Option<Tag>,
    /// Came out with force, or past a lock that was not released, and its terminal was not renewed since.
    pub forced: bool,
    /// Its record says that something is wrong with it, and no repair has mended that.
    pub suspect: bool,
    /// When it was last called good in the hand, as a place in the journal.
    pub called_good: Option<usize>,
    /// Inspected since it was taken out: what it needs, when it needs something.
    pub inspected: Option<Option<RepairKind>>,
    /// Cut free: it has no terminal until one is put on.
    pub cut: bool,
    /// The wires in it that were taken out for good (places from 1).
    pub removed_wires: Vec<usize>,
    /// The repair planned and not yet done.
    pub planned: Option<RepairKind>,
    /// The part named for it.
    pub planned_part: Option<PartNumber>,
    /// Why it is planned.
    pub planned_why: Option<String>,
    /// The lead it is to be, or is, joined with: one terminal for both.
    pub joined_with: Option<ItemId>,
    /// What its repair lead has to be, when one was ordered.
    pub order: Option<Box<LeadOrder>>,
    /// What was found on it in the hand.
    pub finding: Option<Finding>,
    /// How far behind the housing damage was found to reach, in the hand.
    pub damage_found: Option<Length>,
    /// The pin its female was last tried with, since it has this terminal.
    pub tried_with: Option<PartNumber>,
    /// Repairs done.
    pub repairs: Vec<RepairDone>,
}

impl Lead {
    /// Takes in what a look in the hand shows. What was found before stays found until it is mended.
    pub(super) fn is_looked_at(
        &mut self,
        found: Option<Finding>,
        damage: Option<&Length>,
        test_pin: Option<&PartNumber>,
    ) {
        self.finding = found.or(self.finding);
        self.damage_found = damage.cloned().or(self.damage_found.take());
        self.tried_with = test_pin.cloned().or(self.tried_with.take());
    }

    /// What a lead is called at the bench: the wire number or circuit and where it was recorded.
    pub fn call(&self) -> String {
        let names: Vec<&str> = self.seen.wires.iter().filter_map(|w| w.name()).collect();
        match (names.is_empty(), &self.id) {
            (false, _) => names.join(" + "),
            (true, ItemId::At(at)) => format!("the lead from {at}"),
            (true, id) => format!("the lead {id}"),
        }
    }

    /// The terminal part for a lead, when the record or a repair names it.
    pub fn terminal(&self) -> Option<&PartNumber> {
        let bears_it = |repair: &&RepairDone| repair.kind != RepairKind::NewSeal;
        let renewed = self.repairs.iter().rev().filter(bears_it).find_map(|repair| repair.part.as_ref());
        renewed.or(self.seen.terminal.as_ref())
    }

    /// What one wire of a lead is called.
    pub(super) fn call_wire(&self, slot: usize) -> String {
        let wire = slot.checked_sub(1).and_then(|n| self.seen.wires.get(n));
        let named = wire.and_then(|wire| wire.name()).map(ToOwned::to_owned);
        named.unwrap_or_else(|| format!("wire {slot} of {}", self.id))
    }

    /// How many of its wires are still in it.
    pub fn wires_left(&self) -> usize {
        self.seen.wires.len().saturating_sub(self.removed_wires.len())
    }

    /// The wires still in it.
    pub fn wires_in(&self) -> impl Iterator<Item = &crate::record::Wire> {
        let wires = self.seen.wires.iter().enumerate();
        wires.filter(|(n, _)| !self.removed_wires.contains(&(n + 1))).map(|(_, wire)| wire)
    }

    /// The last repair of a kind that stands.
    pub fn repaired(&self, kind: RepairKind) -> Option<&RepairDone> {
        self.repairs.iter().rev().find(|repair| repair.kind == kind && repair.stands())
    }

    /// How often the tang of the terminal on it was re-formed.
    pub fn reforms(&self) -> usize {
        let renews = |done: &&RepairDone| done.stands() && done.kind.renews_terminal();
        let since = self.repairs.iter().rev().take_while(|done| !renews(done));
        since.filter(|done| done.kind == RepairKind::Reform).count()
    }

    /// Whether a repair lead is on it or planned for it.
    pub fn has_repair_lead(&self) -> bool {
        self.planned.is_some_and(RepairKind::is_new_lead) || self.repair_lead().is_some()
    }

    /// The last repair that put a new length of wire on it.
    pub fn repair_lead(&self) -> Option<&RepairDone> {
        self.repairs.iter().rev().find(|repair| repair.kind.is_new_lead() && repair.stands())
    }

    /// The repair lead on it, as it was made.
    pub fn made(&self) -> Option<&MadeLead> {
        self.repair_lead()?.made.as_ref()
    }

    /// The wire a terminal is crimped on: that of its repair lead, else its only one. None for several
    /// in one terminal: no sheet and no tool book speaks of them.
    pub fn wire_to_crimp(&self) -> Option<&Gauge> {
        match self.made() {
            Some(made) => made.order.gauge_for(self),
            None => self.first_wire().filter(|_| self.wires_left() == 1)?.gauge.known(),
        }
    }

    /// The wire in a crimp on it: the one the crimp names, else its own.
    pub fn wire_in<'a>(&'a self, crimp: &'a Crimp) -> Option<&'a Gauge> {
        crimp.wire.as_ref().or_else(|| self.wire_to_crimp())
    }

    /// The copper a terminal is crimped on, as far as it is known.
    pub fn area_to_crimp_mm2(&self) -> Option<f64> {
        self.wire_to_crimp().map(Gauge::area_mm2).or_else(|| self.area_mm2())
    }

    /// What the repair lead that is planned for it has to be, else the one on it; none without either.
    pub fn order_in_force(&self) -> Option<&LeadOrder> {
        match self.planned {
            Some(planned) if planned.is_new_lead() => self.order.as_deref(),
            Some(_) | None => Some(&self.made()?.order),
        }
    }

    /// Whether a wire of it is twisted with another.
    pub fn is_in_a_pair(&self) -> bool {
        self.seen.wires.iter().any(|wire| wire.twisted_with.is_some())
    }

    /// Whether a wire of it runs in a pair or a shield.
    pub fn is_twisted_or_shielded(&self) -> bool {
        self.is_in_a_pair() || self.seen.wires.iter().any(|wire| wire.shielded)
    }

    /// The copper of all its wires together, as found; none where one is not known.
    pub fn area_mm2(&self) -> Option<f64> {
        self.wires_in().map(|wire| wire.gauge.known().map(Gauge::area_mm2)).sum()
    }

    /// The wire spoken of: the first still in it.
    pub fn first_wire(&self) -> Option<&crate::record::Wire> {
        self.wires_in().next()
    }
}

/// Where a plug came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlugOrigin {
    /// Found in an old housing.
    Found,
    /// Delivered in a new housing.
    Prefitted,
    /// Taken from stock.
    Stock,
}

/// A blanking plug.
#[derive(Debug, Clone, PartialEq)]
pub struct PlugItem {
    /// What it is known by.
    pub id: ItemId,
    /// Where it came from.
    pub origin: PlugOrigin,
    /// The cavity size it is made for, when known.
    pub size: Option<SizeName>,
    /// Where it is.
    pub place: Place,
    /// The cavity it was last taken out of.
    pub came_from: Option<Address>,
}

/// What another content is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OtherKind {
    /// A terminal without wire.
    Spare,
    /// A bridge, shunt, diode or clip, in words.
    Bridge(String),
}

impl OtherKind {
    /// Whether both are a spare terminal, or both the same bridge, shunt, diode or clip.
    pub fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Spare, Self::Spare) => true,
            (Self::Bridge(one), Self::Bridge(other)) => plain_words(one) == plain_words(other),
            (Self::Spare, Self::Bridge(_)) | (Self::Bridge(_), Self::Spare) => false,
        }
    }
}

/// A spare terminal, bridge, shunt, diode or clip.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherItem {
    /// What it is known by.
    pub id: ItemId,
    /// What it is.
    pub kind: OtherKind,
    /// Where it is.
    pub place: Place,
}
