//! Checks of splices: where they lie, whether the lead reaches, and how they were made.

use super::Rules;
use crate::{
    job::{
        Behind, Lead, Splice, SplicePlan,
        objection::{ShortLead, SpliceNear},
        refusal::{ReachRule, SpliceRule},
        splices::{length_of, made_lead, made_splice, splices_on},
        state::State,
    },
    reckoning::SplicePlace,
    shop_rules::Solder,
};

impl State {
    /// What a splice that was made has to show.
    pub(super) fn check_splice(&self, lead: &Lead, splice: &Splice, rules: &mut Rules) {
        let call = lead.call();
        if let Some(before) =
            splices_on(lead).first().filter(|before| before.start_mm >= splice.place().end_mm)
        {
            let SplicePlace { start_mm, end_mm, .. } = *before;
            rules.add(SpliceRule::SecondInWire { lead: call.clone(), start_mm, end_mm });
        }
        let plans = self.splice_plans();
        if let Some(near) = self.splice_too_near(lead, splice, lead.damage_mm(), &plans) {
            rules.add(ReachRule::Near(call.clone(), near));
        }
        if !splice.sound {
            rules.add(SpliceRule::NotSound(call.clone()));
        }
        if splice.seal_behind {
            rules.add(SpliceRule::SealBehind(call.clone()));
        }
        if splice.solder.is_some() && self.world.rules.solder.value == Solder::Never {
            rules.add(SpliceRule::Soldered(call.clone()));
        }
        if let Some(short) = self.lead_too_short(lead, splice, &plans) {
            rules.add(ReachRule::TooShort(call.clone(), short));
        }
        let limit = self.world.rules.untwisted_mm.value;
        if let Some(untwisted) = splice.untwisted.as_ref().filter(|length| length.mm() > limit) {
            let over = untwisted.clone();
            rules.add(SpliceRule::Untwisted { lead: call, over, limit_mm: limit });
        }
    }

    /// What a splice comes too near to; none when it lies well.
    pub(in crate::job) fn splice_too_near(
        &self,
        lead: &Lead,
        splice: &Splice,
        damage_mm: f64,
        plans: &[SplicePlan],
    ) -> Option<SpliceNear> {
        let SplicePlace { start_mm: start, end_mm: end, .. } = splice.place();
        let plan = plans.iter().find(|plan| plan.of(&lead.id).is_some())?;
        let ask = &plan.ask;
        if start < ask.clearance_mm - 1e-9 {
            return Some(SpliceNear::Housing { start: splice.start.clone(), clearance_mm: ask.clearance_mm });
        }
        if damage_mm > 0.0 && start < damage_mm + ask.margin_mm - 1e-9 {
            let (start, margin_mm) = (splice.start.clone(), ask.margin_mm);
            return Some(SpliceNear::Damage { start, damage_mm, margin_mm });
        }
        let keep_out = ask.keep_out_mm.iter().find(|(from, to)| end > *from + 1e-9 && start < *to - 1e-9);
        if let Some((from_mm, to_mm)) = keep_out.copied() {
            return Some(SpliceNear::KeptFree { from_mm, to_mm });
        }
        let behind = self.housings.behind.get(&plan.housing);
        let last = self.last_for(lead, behind.unwrap_or(&Behind::default()));
        if end > last + 1e-9 {
            return Some(SpliceNear::Last { end_mm: end, last_mm: last });
        }
        let own = self.gap_of(lead);
        let others =
            self.items.leads.iter().filter(|other| other.id != lead.id && plan.of(&other.id).is_some());
        let made = others.filter(|other| made_splice(other).is_some()).flat_map(|other| {
            let gap = self.gap_of(other).max(own);
            splices_on(other).into_iter().map(move |place| (place.start_mm, place.end_mm, gap))
        });
        let before = self.splices_before(&plan.housing).into_iter().map(|(from, to)| (from, to, own));
        let is_near = |(from, to, gap): &(f64, f64, f64)| end + gap > from + 1e-9 && start < to + gap - 1e-9;
        let (from_mm, to_mm, gap_mm) = before.chain(made).find(is_near)?;
        Some(SpliceNear::Splice { gap_mm, from_mm, to_mm })
    }

    /// That the lead as it was asked for does not reach this splice; none where it does.
    pub(in crate::job) fn lead_too_short(
        &self,
        lead: &Lead,
        splice: &Splice,
        plans: &[SplicePlan],
    ) -> Option<ShortLead> {
        let order = lead.order_in_force()?;
        let (asked, length) = match made_lead(lead) {
            Some(made) => (made.length.asked_mm, made.length.planned),
            None => {
                let planned = plans.iter().find_map(|plan| plan.of(&lead.id))?;
                (self.asked_length_mm(&lead.id), planned.length)
            }
        };
        let asked_mm = asked.or(length.map(|length| length.order_mm))?;
        let needs = length_of(lead, order, splice.place())?;
        (needs.cut_mm > asked_mm + 1e-6).then(|| ShortLead {
            start: splice.start.clone(),
            cut_mm: needs.cut_mm,
            asked_mm,
        })
    }
}
