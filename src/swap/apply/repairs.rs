//! Taking in what is planned and done to leads.

use crate::{
    catalogue::Sealing,
    record::{Seal, Told},
    swap::{Act, JobSide, Lead, LeadOrder, MadeLead, RepairDone, RepairKind, state::State},
};

impl State {
    pub(super) fn take_repair(&mut self, act: &Act) {
        match act {
            Act::Inspect { damage: Some(damage), .. } => {
                if let Some(lead) = self.hand_mut() {
                    lead.damage_found = Some(damage.clone());
                }
            }
            Act::Planned { lead, how, part, reason, order } => {
                if let Some(lead) = self.lead_mut(lead) {
                    lead.planned = Some(*how);
                    lead.planned_part.clone_from(part);
                    lead.planned_why = Some(reason.clone());
                    if order.is_some() {
                        lead.order.clone_from(order);
                    }
                }
            }
            Act::Repair { lead, how, part, crimp, splice, anyway, .. } => {
                let sealed = self.side(JobSide::New).any(|h| h.housing().sealing == Sealing::Individual);
                let damage_mm = self.lead(lead).map_or(0.0, Lead::damage_mm);
                let made = (*how == RepairKind::RepairLead).then(|| MadeLead {
                    order: self
                        .lead(lead)
                        .and_then(|lead| lead.order.as_deref().cloned())
                        .unwrap_or_default(),
                    length: self.ordered(lead).and_then(|ordered| ordered.length),
                    asked_mm: self.asked_length_mm(lead),
                });
                let crimped_on = crimp.as_ref().and_then(|crimp| crimp.wire_of(self.lead(lead)?).cloned());
                let done = RepairDone {
                    damage_mm,
                    crimped_on,
                    deviation_by: anyway.as_ref().map(|anyway| anyway.by.clone()),
                    kind: *how,
                    part: part.clone(),
                    crimp: crimp.as_deref().cloned(),
                    splice: splice.as_deref().cloned(),
                    made,
                };
                if let Some(lead) = self.lead_mut(lead) {
                    repaired(lead, done, sealed);
                }
            }
            Act::Removed { wire, .. } => self.remove_wire(wire),
            _ => {}
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
    lead.repairs.push(done);
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
    if matches!(kind, RepairKind::NewTerminal | RepairKind::RepairLead) {
        lead.cut = false;
        lead.forced = false;
    }
    let renews = !matches!(kind, RepairKind::Reform | RepairKind::Other);
    if renews && sealed {
        lead.seal = Seal::Renewed;
    }
}

/// At the terminal the lead is now what was ordered.
pub(super) fn is_new_wire(lead: &mut Lead, order: &LeadOrder) {
    for wire in &mut lead.seen.wires {
        if let Some(colour) = &order.colour {
            wire.colour = Told::Is(colour.clone());
        }
        if let Some(diameter) = &order.outside_diameter {
            wire.outside_diameter = Some(Told::Is(diameter.clone()));
        }
        if order.insulation_class.is_some() {
            wire.insulation_class = order.insulation_class;
        }
        wire.slack.clone_from(&order.slack);
    }
}
