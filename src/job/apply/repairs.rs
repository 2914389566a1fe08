//! Taking in what is planned and done to leads.

use crate::{
    catalogue::Sealing,
    job::{
        Act, Code, ItemId, Items, JobSide, Lead, LeadOrder, LeadOrigin, MadeLead, Place, RepairDone,
        RepairKind, Seat, state::State,
    },
    reckoning::Finding,
    record::{Known, LeadSeen, Seal, Wire},
};

use super::new_lead;

/// What was accepted of the work before is not accepted of the work after.
const WORK: [Code; 9] = [
    Code::HeightNotVerified,
    Code::ToolNotQualified,
    Code::CrimpSuspect,
    Code::ForcedOut,
    Code::SealMissing,
    Code::Soldered,
    Code::SpliceSecond,
    Code::UnknownValue,
    Code::SealRange,
];

impl State {
    pub(super) fn apply_planned(&mut self, id: &ItemId, act: &Act) {
        let Act::Planned { how, part, reason, order, with, wires, .. } = act else { return };
        if let Some(wires) = wires.as_ref().filter(|wires| !wires.is_empty()) {
            self.expect_new_lead(id, wires);
        }
        if let Some(lead) = self.items.lead_mut(id) {
            lead.planned = Some(*how);
            lead.planned_part.clone_from(part);
            lead.planned_why = Some(reason.clone());
            lead.joined_with = with.clone().filter(|_| *how == RepairKind::Join);
            if order.is_some() {
                lead.order.clone_from(order);
            }
        }
    }

    pub(super) fn apply_repair(&mut self, n: usize, lead: &ItemId, act: &Act) {
        if let Some(done) = self.repair_done(n, act) {
            self.accepted_lapses(lead, &WORK);
            let sealed = self.housings.side(JobSide::New).any(|h| h.housing().sealing == Sealing::Individual);
            if done.kind == RepairKind::Join {
                self.items.join(lead, done, sealed);
            } else if let Some(lead) = self.items.lead_mut(lead) {
                repaired(lead, done, sealed);
            }
        }
    }

    /// A lead that is to be made for a wire that is drawn and found nowhere.
    fn expect_new_lead(&mut self, id: &ItemId, wires: &[Wire]) {
        let ItemId::At(at) = id else { return };
        // What was taken out there for good is known by another name from now on.
        if self.items.lead(id).is_some() {
            self.rename(id, &ItemId::Loose(self.items.next_loose()));
        }
        let seen = LeadSeen { wires: wires.to_vec(), terminal: None, seal: None, condition: None };
        let lead = new_lead(id.clone(), seen, Place::NotMade, self.housings.default_seal(at));
        self.items.leads.push(Lead { origin: LeadOrigin::Made, ..lead });
        self.items.leads.sort_by(|a, b| a.id.cmp(&b.id));
    }

    /// A lead is known by another name: what was passed and accepted of it goes along.
    fn rename(&mut self, from: &ItemId, to: &ItemId) {
        let leads = self.items.leads.iter_mut().map(|lead| &mut lead.id);
        let deviation = self.course.deviations.iter_mut().filter_map(|deviation| deviation.lead.as_mut());
        let accepted = self.course.accepted.iter_mut().filter_map(|accepted| accepted.item.as_mut());
        for id in leads.chain(deviation).chain(accepted).filter(|id| *id == from) {
            id.clone_from(to);
        }
    }

    /// What a repair amounts to, as everything stands when it is done.
    fn repair_done(&self, n: usize, act: &Act) -> Option<RepairDone> {
        let Act::Repair { lead: id, how, part, crimp, splice, made, anyway, .. } = act else { return None };
        let lead = self.items.lead(id)?;
        let made = how.is_new_lead().then(|| MadeLead {
            order: lead.order.as_deref().cloned().unwrap_or_default(),
            length: made.unwrap_or_default(),
        });
        let with = lead.joined_with.as_ref().filter(|_| *how == RepairKind::Join);
        let with = with.and_then(|id| self.items.lead(id));
        let crimped_on = crimp.as_ref().and_then(|crimp| lead.wire_in(crimp).cloned());
        Some(RepairDone {
            n,
            damage_mm: lead.damage_mm(),
            crimped_on,
            wires: self.items.wires_in_terminal(lead)
                + with.map_or(0, |other| self.items.wires_in_terminal(other)),
            deviation_by: anyway.as_ref().map(|anyway| anyway.by.clone()),
            kind: *how,
            part: part.clone(),
            crimp: crimp.as_deref().cloned(),
            splice: splice.as_deref().cloned(),
            made,
        })
    }
}

impl RepairKind {
    /// Whether a repair puts right what was found.
    fn mends(self, finding: Finding) -> bool {
        match finding {
            Finding::TangFlat => self == Self::Reform || self.renews_terminal(),
            Finding::SealBad => self == Self::NewSeal || self.renews_terminal(),
            Finding::InsulationOutside | Finding::DrainBare => self == Self::Other || self.renews_terminal(),
            Finding::FemaleLoose
            | Finding::MaleBent
            | Finding::Corroded
            | Finding::Burnt
            | Finding::CrimpBad
            | Finding::GripBad
            | Finding::InsulationUnderSeal
            | Finding::TooShort
            | Finding::Doubled => self.renews_terminal(),
        }
    }
}

fn repaired(lead: &mut Lead, done: RepairDone, sealed: bool) {
    let (kind, stands) = (done.kind, done.stands());
    if let Some(made) = done.made.as_ref().filter(|_| stands) {
        is_new_wire(lead, &made.order);
        lead.seen.wires.iter_mut().for_each(|wire| wire.damage = None);
        lead.damage_found = None;
    }
    let seal_behind = done.splice.as_ref().is_some_and(|splice| splice.seal_behind);
    lead.repairs.push(done);
    if lead.place == Place::NotMade {
        lead.place = Place::Hand;
    }
    if !stands {
        // Cut off again: there is no terminal on it.
        lead.cut = true;
        return;
    }
    lead.inspected = None;
    if lead.planned == Some(kind) {
        lead.planned = None;
        lead.planned_part = None;
    }
    if kind.renews_terminal() {
        lead.cut = false;
        lead.forced = false;
        lead.tried_with = None;
    }
    lead.finding = lead.finding.filter(|finding| !kind.mends(*finding));
    if kind.renews_terminal() || kind == RepairKind::Other {
        lead.suspect = false;
    }
    let renews = !matches!(kind, RepairKind::Reform | RepairKind::Other);
    if renews && sealed {
        lead.seal = if seal_behind { Seal::Missing } else { Seal::Renewed };
    }
}

/// At the terminal the lead is now what was ordered.
pub(super) fn is_new_wire(lead: &mut Lead, order: &LeadOrder) {
    for wire in &mut lead.seen.wires {
        if let Some(colour) = &order.colour {
            wire.colour = Known::Is(colour.clone());
        }
        if let Some(diameter) = &order.outside_diameter {
            wire.outside_diameter = Some(Known::Is(diameter.clone()));
        }
        if order.insulation_class.is_some() {
            wire.insulation_class = order.insulation_class;
        }
        wire.slack.clone_from(&order.slack);
    }
}

impl Items {
    fn next_loose(&self) -> u32 {
        let numbers = self.leads.iter().filter_map(|lead| match lead.id {
            ItemId::Loose(n) => Some(n),
            ItemId::At(_) | ItemId::PlugBehind(_) | ItemId::Stock(_) => None,
        });
        numbers.max().unwrap_or(0).saturating_add(1)
    }

    /// Two leads are one: the terminal of the one they are joined with is in the hand now.
    fn join(&mut self, id: &ItemId, done: RepairDone, sealed: bool) {
        let Some(with) = self.lead(id).and_then(|lead| lead.joined_with.clone()) else { return };
        if let Some(lead) = self.lead_mut(id) {
            lead.place = Place::Joined(with.clone());
            lead.seat = Seat::Away;
            lead.planned = None;
            lead.planned_part = None;
        }
        if let Some(lead) = self.lead_mut(&with) {
            lead.place = Place::Hand;
            lead.planned = None;
            repaired(lead, done, sealed);
        }
    }
}
