//! Flags on repairs: the parts that are on a lead, its crimp, its splice, and what is ordered for it.

use super::{
    Flag, Flags,
    cause::{CrimpCause, FlagCause},
};
use crate::job::{Crimp, Lead, RepairDone, RepairKind, state::State, target::Target};

impl State {
    pub(super) fn flag_repairs(&self, target: &Target, flags: &mut Flags) {
        let plans = self.splice_plans();
        for lead in &self.items.leads {
            if let Some(done) = lead.repairs.iter().rev().find(|r| r.stands() && bears_a_terminal(r)) {
                self.flag_crimp(lead, done, flags);
            }
            self.flag_parts(lead, target, flags);
            self.flag_splice(lead, &plans, flags);
            self.flag_orders(lead, target, &plans, flags);
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
            self.flag_objections(self.part_objections(lead, done.kind, part, to), lead, flags);
        }
    }

    /// The crimp that goes into the machine.
    fn flag_crimp(&self, lead: &Lead, done: &RepairDone, flags: &mut Flags) {
        let mut add = |what| {
            let cause = FlagCause::Crimp { lead: lead.call(), what };
            flags.push(self.about_lead(Flag::job(cause), lead));
        };
        let Some(crimp) = &done.crimp else {
            // A lead delivered with its terminal was crimped and measured elsewhere.
            if done.kind == RepairKind::NewTerminal {
                add(CrimpCause::NoRecord);
            }
            return;
        };
        match (&crimp.height, self.sheet_for(lead, done.part.as_ref(), crimp)) {
            (Some(height), Some(sheet)) if !sheet.takes(height.mm()) => {
                add(CrimpCause::HeightOut { height: height.clone(), sheet });
            }
            (Some(_), Some(_)) => {}
            (None, _) => add(CrimpCause::NotMeasured),
            (_, None) => add(CrimpCause::NoSheet),
        }
        if let Some(found) = self.look_faults(lead, done.part.as_ref(), crimp) {
            add(CrimpCause::Faults(found));
        }
        if let Some(weak) = self.weak_sample(lead, crimp) {
            add(CrimpCause::WeakSample(weak));
        }
        self.flag_objections(self.other_wire(lead, crimp), lead, flags);
        if let Some(what) = position_fault(lead, done, crimp) {
            let cause = FlagCause::Crimp { lead: lead.call(), what };
            flags.push(self.about_lead(Flag::job(cause), lead));
        }
    }
}

/// What is wrong with the position a crimp was made in.
fn position_fault(lead: &Lead, done: &RepairDone, crimp: &Crimp) -> Option<CrimpCause> {
    let other = done.crimped_on.as_ref().zip(lead.wire_in(crimp));
    if let Some((then, now)) = other.filter(|(then, now)| !then.is_same_size(now)) {
        return Some(CrimpCause::OtherSize { made_for: then.clone(), now: now.clone() });
    }
    let not_proved = || CrimpCause::NotProved { tool: crimp.tool_used(), book: crimp.book.clone() };
    (!crimp.is_from_a_proved_position()).then(not_proved)
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
