//! Flags on splices, on what is ordered for a lead, and on what the plans would do to the bundle.

use super::{
    Flag, Flags,
    cause::{BundleCause, FlagCause, NoPlan, OrderCause, SpliceCause},
};
use crate::job::{
    JobSide, Lead, Place, RepairDone, RepairKind, Splice, SplicePlan, splices::splices_on, state::State,
    target::Target,
};

impl State {
    pub(super) fn flag_splice(&self, lead: &Lead, plans: &[SplicePlan], flags: &mut Flags) {
        let terminal = self.terminal_of_order(lead);
        flags.extend(terminal.map(|what| self.order_flag(what, lead)));
        let mut add = |what| {
            let cause = FlagCause::Splice { lead: lead.call(), what };
            flags.push(self.about_lead(Flag::job(cause), lead));
        };
        if lead.order_in_force().is_some_and(|order| order.spliced_before) {
            add(SpliceCause::SplicedBefore);
        }
        if splices_on(lead).len() > 1 {
            add(SpliceCause::Two);
        }
        let Some(done) = lead.repair_lead() else { return };
        match &done.splice {
            Some(splice) => self.splice_faults(lead, done, splice, plans).into_iter().for_each(add),
            None => add(SpliceCause::NotRecorded),
        }
    }

    /// What is wrong with a splice as it was made.
    fn splice_faults(
        &self,
        lead: &Lead,
        done: &RepairDone,
        splice: &Splice,
        plans: &[SplicePlan],
    ) -> Vec<SpliceCause> {
        let damage_mm = done.damage_mm.max(lead.damage_mm());
        let near = self.splice_too_near(lead, splice, damage_mm, plans).map(SpliceCause::Near);
        let short = self.lead_too_short(lead, splice, plans).map(SpliceCause::TooShort);
        let unsound = (!splice.sound).then_some(SpliceCause::NotSound);
        let soldered = splice.solder.clone().map(SpliceCause::Soldered);
        let untwisted = match &splice.untwisted {
            Some(untwisted) if untwisted.mm() > self.world.rules.untwisted_mm.value => {
                Some(SpliceCause::Untwisted(untwisted.clone()))
            }
            None if lead.is_twisted_or_shielded() => Some(SpliceCause::UntwistedNotMeasured),
            _ => None,
        };
        [near, short, unsound, soldered, untwisted].into_iter().flatten().collect()
    }

    /// What is planned or ordered for a lead, by what is known now.
    pub(super) fn flag_orders(&self, lead: &Lead, target: &Target, plans: &[SplicePlan], flags: &mut Flags) {
        let causes = [
            self.plan_not_allowed(lead),
            self.stale_order(lead, plans),
            self.drop_in_circuit(lead, plans),
            self.untwisted_as_found(lead),
            self.shared_hole(lead, target),
        ];
        flags.extend(causes.into_iter().flatten().map(|what| self.order_flag(what, lead)));
    }

    fn order_flag(&self, what: OrderCause, lead: &Lead) -> Flag {
        self.about_lead(Flag::job(FlagCause::Order { lead: lead.call(), what }), lead)
    }

    /// What may not be planned on a lead, and stands there since its record was corrected.
    fn plan_not_allowed(&self, lead: &Lead) -> Option<OrderCause> {
        // What is out for good needs nothing.
        if lead.place == Place::Removed {
            return None;
        }
        let planned = lead.planned.or_else(|| lead.has_repair_lead().then_some(RepairKind::RepairLead));
        self.check_planned(lead, planned?, lead.order_in_force()).err().map(OrderCause::NotAllowed)
    }

    /// A pair that was found untwisted too far: errors under load.
    fn untwisted_as_found(&self, lead: &Lead) -> Option<OrderCause> {
        let limit = &self.world.rules.untwisted_mm;
        let mut lengths = lead.seen.wires.iter().filter_map(|wire| wire.untwisted.as_ref());
        let length = lengths.find(|length| length.mm() > limit.value)?.clone();
        Some(OrderCause::UntwistedAsFound { length, limit_mm: limit.value, source: limit.source.clone() })
    }

    /// The lead that was asked for is too short since the plan moved.
    fn stale_order(&self, lead: &Lead, plans: &[SplicePlan]) -> Option<OrderCause> {
        lead.planned.filter(|kind| kind.is_new_lead())?;
        let asked_mm = self.asked_length_mm(&lead.id)?;
        let length = plans.iter().find_map(|plan| plan.of(&lead.id))?.length?;
        let is_short = asked_mm < length.cut_mm - 1e-6;
        is_short.then_some(OrderCause::Stale { asked_mm, needs_mm: length.order_mm })
    }

    /// The circuit loses more with its repair lead than the house lets pass.
    fn drop_in_circuit(&self, lead: &Lead, plans: &[SplicePlan]) -> Option<OrderCause> {
        let length = plans.iter().find_map(|plan| plan.of(&lead.id)).and_then(|ordered| ordered.length);
        let drop = self.circuit_drop(lead, length).filter(|drop| lead.has_repair_lead() && drop.is_over())?;
        Some(OrderCause::Drop {
            drop_v: drop.drop_v,
            percent: drop.percent,
            limit_percent: drop.limit.value,
            source: drop.limit.source,
        })
    }

    /// A wire larger than the old one passes by its area; the terminal and the seal have to take it.
    fn terminal_of_order(&self, lead: &Lead) -> Option<OrderCause> {
        let gauge = lead.order_in_force()?.gauge_for(lead)?;
        let terminal = self.terminal_for(lead)?;
        let (least, most) = terminal.wire_mm2;
        let area = gauge.area_mm2();
        let is_taken = area >= least - 1e-9 && area <= most + 1e-9;
        (!is_taken).then(|| OrderCause::TerminalTakes {
            terminal: terminal.part.clone(),
            gauge: gauge.clone(),
            wire_mm2: terminal.wire_mm2,
        })
    }

    /// Two wires through one sealed hole leak between them, until one lead goes in their place.
    fn shared_hole(&self, lead: &Lead, target: &Target) -> Option<OrderCause> {
        let sealed = target.of(&lead.id).and_then(|to| self.housings.housing(&to.housing));
        let sealed = sealed.is_some_and(|h| h.side == JobSide::New && h.housing().sealing.is_sealed());
        (lead.wires_left() > 1 && sealed && !lead.has_repair_lead()).then_some(OrderCause::SharedHole)
    }

    pub(super) fn flag_plan(&self, plan: &SplicePlan, flags: &mut Flags) {
        let Some(housing) = self.housings.housing(&plan.housing) else { return };
        let mut add = |cause| flags.push(Flag::job(FlagCause::Bundle(cause)).of(housing));
        let name = || plan.housing.clone();
        if !plan.cannot.is_empty() {
            let why = self.why_no_plan(plan);
            let room_mm = (!plan.is_too_many()).then(|| plan.room_needed_mm()).flatten();
            add(BundleCause::NoPlan { why, housing: name(), room_mm });
        }
        let (count, most) = (self.splices_in(plan), self.world.rules.most_splices.value);
        if count > most as usize {
            add(BundleCause::TooManySplices { count, most, housing: name() });
        }
        let wires: usize = self.leads_of(&plan.housing).map(Lead::wires_left).sum();
        let (leads, one_in) = (plan.leads.len(), self.world.rules.leads_one_in.value);
        if leads * one_in as usize > wires {
            add(BundleCause::ManyLeads { leads, wires, one_in });
        }
    }

    /// Why a plan has no place for all its splices.
    pub fn why_no_plan(&self, plan: &SplicePlan) -> NoPlan {
        let calls: Vec<String> =
            plan.cannot.iter().filter_map(|id| self.items.lead(id)).map(|lead| lead.call()).collect();
        match plan.is_too_many() {
            true => NoPlan::TooMany(calls.len()),
            false => NoPlan::NoPlace(calls),
        }
    }
}
