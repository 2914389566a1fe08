//! What stands against calling a lead good: its record, the force it took, its seal, the wires in its
//! terminal. One list for the answer at the bench and for the flags after it.

use crate::{
    catalogue::Sealing,
    job::{Housings, Items},
    quantity::{Length, plain_words},
    record::{Address, Seal, WireKind, drawn_wires},
};

use super::{
    ItemId, JobSide, Lead, Place, RepairKind,
    objection::{Objection, Undone, Unsound},
    state::State,
    target::Target,
};

/// Words of a record that say that nothing is wrong.
const FINE: [&str; 18] = [
    "good",
    "ok",
    "okay",
    "sound",
    "fine",
    "clean",
    "new",
    "as new",
    "like new",
    "none",
    "nothing",
    "nothing wrong",
    "no fault",
    "no faults",
    "no damage",
    "no corrosion",
    "undamaged",
    "not damaged",
];

/// Whether what a record says of a lead's condition is that something is wrong with it.
pub(super) fn is_bad(condition: Option<&String>) -> bool {
    condition.is_some_and(|text| {
        let plain = plain_words(text);
        !plain.is_empty() && !FINE.contains(&plain.as_str())
    })
}

impl State {
    /// What stands against saying that a lead in the hand is good.
    pub(super) fn against_good(&self, lead: &Lead) -> Vec<Objection> {
        let mut unsound = Vec::new();
        if lead.forced {
            unsound.push(Unsound::Forced);
        }
        if lead.suspect {
            unsound.push(Unsound::Recorded(lead.seen.condition.clone()));
        }
        let sleeved = lead.repaired(RepairKind::Other).is_some();
        let damage = lead.damages().map(Length::mm).fold(0.0, f64::max);
        if damage > 0.0 && !sleeved {
            unsound.push(Unsound::Damaged(damage));
        }
        if lead.seal == Seal::Missing && self.housings.seals_each_wire() {
            unsound.push(Unsound::SealMissing);
        }
        if let Some(finding) = lead.finding {
            unsound.push(Unsound::Found(finding));
        }
        unsound.extend(self.nobody_else(lead));
        unsound.extend(self.spread(lead));
        let about = |how| Objection::Unsound { lead: lead.call(), how };
        let mut objections: Vec<Objection> = unsound.into_iter().map(about).collect();
        objections.extend(self.items.parted(lead));
        objections
    }

    /// Of some that were looked at together one was not sound, and all others were called good.
    fn nobody_else(&self, lead: &Lead) -> Option<Unsound> {
        let ItemId::At(home) = &lead.id else { return None };
        let is_cleared = |at: &Address| {
            let other = self.items.lead(&ItemId::At(at.clone()));
            other.is_none_or(|other| other.repairs.is_empty() && other.inspected == Some(None))
        };
        let group = self.readings.one_not_sound.iter().find(|group| {
            lead.repairs.is_empty()
                && group.contains(home)
                && group.iter().filter(|at| *at != home).all(is_cleared)
        })?;
        Some(Unsound::NobodyElse(group.clone()))
    }

    /// A female tried with a pin that is not made for it may be spread.
    fn spread(&self, lead: &Lead) -> Option<Unsound> {
        let pin = lead.tried_with.as_ref()?;
        let is_one = self.housings.test_pins_for(lead).iter().any(|known| known.part == *pin);
        (!is_one).then(|| Unsound::TriedWith(pin.clone()))
    }

    /// What the decision for the diagram asks of a lead and is not done yet.
    pub(super) fn undone_by_decision(&self, lead: &Lead, target: &Target) -> Vec<Objection> {
        let mut undone = Vec::new();
        if let Some(slots) = target.by_decision.parting.get(&lead.id) {
            undone.push(Undone::Parting(slots.iter().map(|slot| lead.call_wire(*slot)).collect()));
        }
        if let Some(meant) = target.by_decision.meant_mm2.get(&lead.id)
            && !self.is_as_thick_as(lead, *meant)
        {
            undone.push(Undone::Thicker(*meant));
        }
        undone.into_iter().map(|what| Objection::Undone { lead: lead.call(), what }).collect()
    }

    /// Whether one lead is planned to be joined with another and that is not done.
    pub fn waits_to_join(&self, lead: &Lead, with: &Lead) -> bool {
        lead.planned == Some(RepairKind::Join) && lead.joined_with.as_ref() == Some(&with.id)
    }

    /// Whether a lead has, or is ordered with, as much copper as it is meant to have.
    fn is_as_thick_as(&self, lead: &Lead, meant_mm2: f64) -> bool {
        let gauge = lead.order_in_force().and_then(|order| order.gauge_for(lead));
        let area = gauge.map(crate::quantity::Gauge::area_mm2).or_else(|| lead.area_mm2());
        let change = area.zip(gauge).map(|(_, gauge)| self.size_change(lead, meant_mm2, gauge));
        match change {
            Some(change) => !matches!(change, crate::reckoning::SizeChange::Refused(_)),
            None => area.is_some_and(|area| {
                area >= meant_mm2 * (1.0 + self.world.rules.least_gauge_percent.value / 100.0) - 1e-9
            }),
        }
    }

    /// The kind of a lead that no repair lead may be spliced into, as recorded or as drawn.
    pub fn forbidden_kind(&self, lead: &Lead) -> Option<WireKind> {
        let recorded = lead.seen.wires.iter().map(|wire| wire.kind).find(|kind| kind.forbids_splice());
        recorded.or_else(|| self.drawn_kind(lead).filter(|kind| kind.forbids_splice()))
    }

    /// The kind the diagram has for a wire of a lead, where that is not an ordinary one.
    fn drawn_kind(&self, lead: &Lead) -> Option<WireKind> {
        let ItemId::At(at) = &lead.id else { return None };
        let is_special = |kind: WireKind| kind.forbids_splice();
        let mut drawn =
            self.records.should.values().filter_map(|holds| holds.lead()).flat_map(|lead| &lead.wires);
        // Nothing is matched where nothing special is drawn.
        drawn.find(|wire| is_special(wire.kind))?;
        let should = self.should_in_old_labels();
        let drawn = drawn_wires(&self.records.found, &should);
        let kinds = (1..=lead.seen.wires.len()).filter_map(|slot| drawn.get(&(at.clone(), slot)));
        kinds.map(|wire| wire.kind).find(|kind| is_special(*kind))
    }
}

impl Housings {
    /// The terminals that mate with the one on a lead: of its family and size, of the other gender.
    pub fn test_pins_for(&self, lead: &Lead) -> Vec<&crate::catalogue::Terminal> {
        let part = lead.terminal();
        let home = match (&lead.id, &lead.came_from) {
            (ItemId::At(at), _) | (_, Some(at)) => Some(at),
            (_, None) => None,
        };
        let size = home.and_then(|at| self.cavity_size(at));
        let gender = home.and_then(|at| self.housing(&at.housing)).map(|housing| housing.housing().gender);
        let own = part.and_then(|part| self.terminal_named(part));
        let size = own.map(|terminal| &terminal.size).or(size.as_ref());
        let gender = own.map(|terminal| terminal.gender).or(gender);
        let families = self.all.iter().map(|housing| housing.definition.family());
        let mut pins: Vec<&crate::catalogue::Terminal> = families
            .flat_map(|family| &family.terminals)
            .filter(|pin| Some(&pin.size) == size && gender.is_some_and(|gender| pin.gender != gender))
            .collect();
        pins.dedup_by_key(|pin| &pin.part);
        pins
    }

    /// Whether a new housing has a seal on every wire.
    pub(super) fn seals_each_wire(&self) -> bool {
        self.side(JobSide::New).any(|h| h.housing().sealing == Sealing::Individual)
    }
}

impl Items {
    /// The wires one terminal holds: its own, and those of the leads that were joined to it.
    pub(super) fn wires_in_terminal(&self, lead: &Lead) -> usize {
        let is_in_it = |other: &&Lead| other.place == Place::Joined(lead.id.clone());
        lead.wires_left() + self.leads.iter().filter(is_in_it).map(Lead::wires_left).sum::<usize>()
    }

    /// A wire was cut out of the terminal, and its crimp holds what is left of two.
    pub(super) fn parted(&self, lead: &Lead) -> Option<Objection> {
        let crimped = lead.repairs.iter().rev().find(|done| done.stands() && done.kind.renews_terminal());
        let wires = crimped.map_or(lead.seen.wires.len(), |done| done.wires);
        let left = self.wires_in_terminal(lead);
        let is_parted = left > 0 && left < wires;
        is_parted.then(|| Objection::Unsound { lead: lead.call(), how: Unsound::Parted })
    }
}
