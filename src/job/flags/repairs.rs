//! Flags about repairs: crimps, splices, and what their plans would do to the bundle.

use super::{Flag, Flags};
use crate::{
    job::{
        Code, Crimp, JobSide, Lead, Place, RepairDone, RepairKind, SplicePlan, splices::splices_on,
        state::State, target::Target,
    },
    reckoning::MOST_LEADS,
};

impl State {
    pub(super) fn flag_repairs(&self, target: &Target, flags: &mut Flags) {
        let plans = self.splice_plans();
        for lead in &self.items.leads {
            if let Some(done) = lead.repairs.iter().rev().find(|r| r.stands() && bears_a_terminal(r)) {
                self.flag_crimp(lead, done, flags);
            }
            self.flag_parts(lead, target, flags);
            self.flag_splice(lead, &plans, flags);
            self.flag_order(lead, flags);
            self.flag_stale_order(lead, &plans, flags);
            self.flag_drop(lead, &plans, flags);
            self.flag_untwisted_as_found(lead, flags);
            self.flag_shared_hole(lead, target, flags);
        }
        for plan in &plans {
            self.flag_plan(plan, flags);
        }
    }

    /// Parts that are on the lead and do not belong there.
    fn flag_parts(&self, lead: &Lead, target: &Target, flags: &mut Flags) {
        let Some(to) = target.of(&lead.id) else { return };
        let last = |is: fn(RepairKind) -> bool| {
            lead.repairs.iter().rev().find(|done| done.stands() && is(done.kind))
        };
        // A new terminal brings a new seal: only the last of either is on it.
        let terminal = last(RepairKind::renews_terminal);
        let seal = last(|kind| kind == RepairKind::NewSeal || kind.renews_terminal());
        let seal = seal.filter(|done| done.kind == RepairKind::NewSeal);
        for done in terminal.into_iter().chain(seal) {
            let Some(part) = &done.part else { continue };
            for (code, say, instead) in self.part_objections(lead, done.kind, part, to) {
                flags.push(self.about_lead(Flag::job(code, say, instead), lead));
            }
        }
    }

    /// The crimp that goes into the machine.
    fn flag_crimp(&self, lead: &Lead, done: &RepairDone, flags: &mut Flags) {
        let call = lead.call();
        let mut add = |code, say: String, instead: &str| {
            flags.push(self.about_lead(Flag::job(code, say, instead), lead));
        };
        let Some(crimp) = &done.crimp else {
            // A lead delivered with its terminal was crimped and measured elsewhere.
            if done.kind == RepairKind::NewTerminal {
                let say = format!("The crimp on {call} has no record: height not verified.");
                add(Code::HeightNotVerified, say, "Measure it and make its record, or accept it by name.");
            }
            return;
        };
        match (&crimp.height, self.sheet_for(lead, done.part.as_ref(), crimp)) {
            (Some(height), Some(sheet)) if !sheet.takes(height.mm()) => add(
                Code::HeightOut,
                format!("The crimp on {call} measures {}; its sheet says {sheet}.", height.both()),
                "Cut it off and crimp again.",
            ),
            (Some(_), Some(_)) => {}
            (None, _) => add(
                Code::HeightNotVerified,
                format!("The crimp on {call} was not measured: height not verified."),
                "Measure the conductor crimp, blade one side, point the other, or accept it by name.",
            ),
            (_, None) => add(
                Code::HeightNotVerified,
                format!("No sheet gives a height for the terminal and wire of {call}: height not verified."),
                "Find the terminal's sheet, or accept it by name.",
            ),
        }
        if let Some(found) = self.look_faults(lead, done.part.as_ref(), crimp) {
            add(Code::CrimpLook, format!("The crimp on {call}: {found}."), "Cut it off and crimp again.");
        }
        if let Some(weak) = self.weak_sample(lead, crimp) {
            add(Code::ToolNotQualified, weak, "Withdraw the position and crimp again, or accept it by name.");
        }
        if let Some((code, say, instead)) = self.other_wire(lead, crimp) {
            add(code, say, instead);
        }
        let other = done.crimped_on.as_ref().zip(lead.wire_in(crimp));
        if let Some((then, now)) = other.filter(|(then, now)| !then.is_same_size(now)) {
            let say = format!(
                "The crimp on {call} was made for {}; the wire has {}: its position is proved for another wire.",
                then.both(),
                now.both()
            );
            add(Code::ToolNotQualified, say, "Crimp again for this wire, or accept it by name.");
        } else if !crimp.is_from_a_proved_position() {
            let told = crimp.book.as_ref().map_or("not looked up".to_owned(), ToString::to_string);
            let say = format!("The crimp on {call} was made with {}: {told}.", crimp.with());
            add(Code::ToolNotQualified, say, "Qualify the position and crimp again, or accept it by name.");
        }
    }

    /// What may not be planned on a lead, and stands there since its record was corrected.
    fn flag_order(&self, lead: &Lead, flags: &mut Flags) {
        // What is out for good needs nothing.
        if lead.place == Place::Removed {
            return;
        }
        let planned = lead.planned.or_else(|| lead.has_repair_lead().then_some(RepairKind::RepairLead));
        let refusal = planned.and_then(|how| self.check_planned(lead, how, lead.order_in_force()).err());
        if let Some(refusal) = refusal {
            let code = refusal.code().unwrap_or(Code::UnknownValue);
            let (say, instead) = refusal.told();
            flags.push(self.about_lead(Flag::job(code, say, instead), lead));
        }
    }

    /// A pair that was found untwisted too far: errors under load.
    fn flag_untwisted_as_found(&self, lead: &Lead, flags: &mut Flags) {
        let limit = &self.world.rules.untwisted_mm;
        let mut lengths = lead.seen.wires.iter().filter_map(|wire| wire.untwisted.as_ref());
        if let Some(length) = lengths.find(|length| length.mm() > limit.value) {
            let say = format!(
                "{} is untwisted over {}; {} mm are let pass ({}).",
                lead.call(),
                length.both(),
                limit.value,
                limit.source
            );
            let instead = "Twist the pair again up to its terminals and correct the record.";
            flags.push(self.about_lead(Flag::job(Code::Untwisted, say, instead), lead));
        }
    }

    fn flag_splice(&self, lead: &Lead, plans: &[SplicePlan], flags: &mut Flags) {
        let call = lead.call();
        self.flag_terminal_of_order(lead, &call, flags);
        let mut add = |code, say: String, instead: &str| {
            flags.push(self.about_lead(Flag::job(code, say, instead), lead));
        };
        if lead.order_in_force().is_some_and(|order| order.spliced_before) {
            let say = format!("{call} is spliced already between here and the next branch.");
            add(Code::SpliceSecond, say, "Replace from the old splice on, or accept it by name.");
        }
        if splices_on(lead).len() > 1 {
            let say = format!("{call} has two splices: the new lead left the one made before in the wire.");
            add(Code::SpliceSecond, say, "Replace the wire from the old splice on, or accept it by name.");
        }
        let Some(done) = lead.repair_lead() else { return };
        let Some(splice) = &done.splice else {
            let say = format!("Nobody recorded where the splice of {call} sits and whether it is sound.");
            add(Code::UnknownValue, say, "Look at it, and accept it by name with what was seen.");
            return;
        };
        if let Some(near) = self.splice_too_near(lead, splice, done.damage_mm.max(lead.damage_mm()), plans) {
            add(Code::SpliceTooNear, near, "Make the lead anew, cut where the plan has its splice.");
        }
        if let Some(short) = self.lead_too_short(lead, splice, plans) {
            add(Code::WireMisfit, short, "Was another lead used? Say so by name, or make it anew.");
        }
        if !splice.sound {
            let say = format!("The splice of {call} was not found sound.");
            add(Code::CrimpLook, say, "Make it again: window, adhesive, tug.");
        }
        if let Some(why) = &splice.solder {
            let say = format!("The splice of {call} is soldered: {why}.");
            add(Code::Soldered, say, "Hold the wire within 50 mm of it; accept it by name, or crimp it.");
        }
        match &splice.untwisted {
            Some(untwisted) if untwisted.mm() > self.world.rules.untwisted_mm.value => {
                let say = format!("{call} is untwisted over {} at its splice.", untwisted.both());
                add(Code::Untwisted, say, "Twist the pair again over its splices.");
            }
            None if lead.is_twisted_or_shielded() => {
                let say = format!("Nobody measured how far {call} is untwisted at its splice.");
                add(
                    Code::UnknownValue,
                    say,
                    "Twist it again, measure, and accept it by name with the length.",
                );
            }
            _ => {}
        }
    }

    /// The lead that was asked for is too short since the plan moved.
    fn flag_stale_order(&self, lead: &Lead, plans: &[SplicePlan], flags: &mut Flags) {
        if !lead.planned.is_some_and(RepairKind::is_new_lead) {
            return;
        }
        let asked = self.asked_length_mm(&lead.id);
        let length = plans.iter().find_map(|plan| plan.of(&lead.id)).and_then(|ordered| ordered.length);
        if let Some((asked, length)) =
            asked.zip(length).filter(|(asked, length)| *asked < length.cut_mm - 1e-6)
        {
            let say = format!(
                "The lead for {} was asked for with {asked} mm; its splice has moved, and it needs {:.0} mm now.",
                lead.call(),
                length.order_mm
            );
            let instead = "Send the request again, and tell the desk that the first one is too short.";
            flags.push(self.about_lead(Flag::job(Code::WireMisfit, say, instead), lead));
        }
    }

    /// The circuit loses more with its repair lead than the house lets pass.
    fn flag_drop(&self, lead: &Lead, plans: &[SplicePlan], flags: &mut Flags) {
        let length = plans.iter().find_map(|plan| plan.of(&lead.id)).and_then(|ordered| ordered.length);
        let drop = self.circuit_drop(lead, length).filter(|drop| lead.has_repair_lead() && drop.is_over());
        if let Some(drop) = drop {
            let say = format!(
                "The circuit of {} loses {:.2} V ({:.1} %) with its lead in it; {} % are let pass ({}).",
                lead.call(),
                drop.drop_v,
                drop.percent,
                drop.limit.value,
                drop.limit.source
            );
            let instead =
                "Order a larger lead, or hold it against the machine's manual and accept it by name.";
            flags.push(self.about_lead(Flag::job(Code::WireMisfit, say, instead), lead));
        }
    }

    /// A wire larger than the old one passes by its area; the terminal and the seal have to take it.
    fn flag_terminal_of_order(&self, lead: &Lead, call: &str, flags: &mut Flags) {
        let Some(ordered) = lead.order_in_force() else { return };
        let (Some(gauge), Some(terminal)) = (ordered.gauge_for(lead), self.terminal_for(lead)) else {
            return;
        };
        let (least, most) = terminal.wire_mm2;
        let area = gauge.area_mm2();
        if area < least - 1e-9 || area > most + 1e-9 {
            let say = format!(
                "Does terminal {} take {}, ordered for {call}? Its sheet says {least} to {most} mm².",
                terminal.part,
                gauge.both()
            );
            let instead = "Order a size it takes, or name a terminal that takes it.";
            flags.push(self.about_lead(Flag::job(Code::WireMisfit, say, instead), lead));
        }
    }

    /// Two wires through one sealed hole leak between them, until one lead goes in their place.
    fn flag_shared_hole(&self, lead: &Lead, target: &Target, flags: &mut Flags) {
        let sealed = target.of(&lead.id).and_then(|to| self.housings.housing(&to.housing));
        let sealed = sealed.is_some_and(|h| h.side == JobSide::New && h.housing().sealing.is_sealed());
        if lead.wires_left() > 1 && sealed && !lead.has_repair_lead() {
            let say =
                format!("The wires of {} share one sealed hole: water runs in between them.", lead.call());
            let instead = "Join them behind the seal and run one lead, or accept it by name.";
            flags.push(self.about_lead(Flag::job(Code::TwoInOneHole, say, instead), lead));
        }
    }

    fn flag_plan(&self, plan: &SplicePlan, flags: &mut Flags) {
        let Some(housing) = self.housings.housing(&plan.housing) else { return };
        if !plan.cannot.is_empty() {
            let say = self.why_no_plan(plan);
            let instead = match plan.room_needed_mm() {
                _ if plan.is_too_many() => "Replace the branch.".to_owned(),
                Some(more) => format!(
                    "With {more} mm more all would fit: go beyond the branch (with the reason), shorter sleeves, or replace the branch."
                ),
                None => "Shorter sleeves, other stretches kept free, or replace the branch.".to_owned(),
            };
            flags.push(Flag::job(Code::SpliceTooNear, say, instead).of(housing));
        }
        let (count, most) = (self.splices_in(plan), self.world.rules.most_splices.value as usize);
        if count > most {
            let say = format!("{count} wires of the bundle of {} are spliced; {most} may be.", plan.housing);
            flags.push(Flag::job(Code::SpliceTooMany, say, "Replace the branch.").of(housing));
        }
        let wires: usize = self.leads_of(&plan.housing).map(Lead::wires_left).sum();
        if plan.leads.len() * self.world.rules.leads_one_in.value as usize > wires {
            let say = format!(
                "{} of {wires} wires get a repair lead: more than one in {}.",
                plan.leads.len(),
                self.world.rules.leads_one_in.value
            );
            let instead = "Replacing the branch may be cheaper and safer; accept it by name if not.";
            flags.push(Flag::job(Code::LeadsMany, say, instead).of(housing));
        }
    }

    /// Which leads have no place together, in a sentence.
    pub fn why_no_plan(&self, plan: &SplicePlan) -> String {
        let calls: Vec<String> =
            plan.cannot.iter().filter_map(|id| self.items.lead(id)).map(|lead| lead.call()).collect();
        match calls.as_slice() {
            several if plan.is_too_many() => format!(
                "{} splices behind {} are more than one plan takes ({MOST_LEADS}).",
                several.len(),
                plan.housing
            ),
            [one] => format!("The splice of {one} has no place behind {}.", plan.housing),
            several => format!(
                "{} cannot all be spliced behind {}.",
                crate::quantity::list_of(several),
                plan.housing
            ),
        }
    }
}

fn bears_a_terminal(done: &RepairDone) -> bool {
    done.kind.renews_terminal()
}

impl Crimp {
    /// Whether the book proves its position; a crimp whose tool nobody named has none.
    pub(in crate::job) fn is_from_a_proved_position(&self) -> bool {
        let is_named = self.tool.is_some() && self.position.is_some();
        is_named && self.book.as_ref().is_some_and(crate::reckoning::Standing::is_qualified)
    }
}
