//! Flags on leads: where they are, how they sit, what was seen of them.

use crate::{
    job::{
        JobSide, Lead, Objection, Place, RepairDone, RepairKind, Seat, Unsound, state::State, target::Target,
    },
    quantity::Length,
    record::{Address, Seal},
};

use super::{
    Flag, Flags,
    cause::{FlagCause, LeadCause},
};

/// Re-forming a tang is done once; the second time the terminal is replaced.
const REFORMS_TOO_MANY: usize = 2;

impl State {
    pub(super) fn flag_leads(&self, target: &Target, flags: &mut Flags) {
        for lead in &self.items.leads {
            let mut add = |what| self.flag_lead(what, lead, flags);
            match &lead.place {
                Place::Hand => add(LeadCause::InHand),
                Place::Parked(tag) => add(LeadCause::Parked(tag.clone())),
                Place::Unseen => add(LeadCause::Unseen),
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => {
                    seated_wrong(lead, at, target).into_iter().for_each(add);
                }
                Place::In(_)
                | Place::Tray
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Lost
                | Place::Returned => {}
            }
            self.flag_condition(lead, flags);
        }
    }

    fn flag_lead(&self, what: LeadCause, lead: &Lead, flags: &mut Flags) {
        let cause = FlagCause::Lead { lead: lead.call(), what };
        flags.push(self.about_lead(Flag::job(cause), lead));
    }

    /// What stands against a lead, a flag each.
    pub(super) fn flag_objections(
        &self,
        objections: impl IntoIterator<Item = Objection>,
        lead: &Lead,
        flags: &mut Flags,
    ) {
        let about = |objection| self.about_lead(Flag::job(FlagCause::Objection(objection)), lead);
        flags.extend(objections.into_iter().map(about));
    }

    fn flag_condition(&self, lead: &Lead, flags: &mut Flags) {
        if lead.reforms() >= REFORMS_TOO_MANY {
            self.flag_lead(LeadCause::ReformedTwice, lead, flags);
        }
        // Called good although something stands against it, or in its new hole as if it were; until then
        // it is only said what does.
        let is_in_new =
            matches!(&lead.place, Place::In(at) if self.housings.side_of(at) == Some(JobSide::New));
        if is_in_new && lead.inspected != Some(None) {
            self.flag_lead(LeadCause::NotCalledGood, lead, flags);
        }
        if lead.inspected == Some(None) || is_in_new {
            self.flag_objections(self.against_good(lead), lead, flags);
        } else if lead.forced {
            self.flag_lead(LeadCause::ForcedOut, lead, flags);
        }
        let is_gone = matches!(lead.place, Place::Removed | Place::Joined(_) | Place::NotMade);
        if lead.inspected != Some(None) && !is_in_new && !is_gone {
            let is_bare = lead.seal == Seal::Missing && self.housings.seals_each_wire();
            let bare = || Objection::Unsound { lead: lead.call(), how: Unsound::SealMissing };
            let objections = is_bare.then(bare).into_iter().chain(self.items.parted(lead));
            self.flag_objections(objections, lead, flags);
        }
        if let Some((left, _)) = self.slack_left(lead).filter(|(left, takes)| left < takes) {
            self.flag_lead(LeadCause::LastTime(left), lead, flags);
        }
    }

    /// Slack left after the terminals already renewed, and what one more takes, in mm.
    pub fn slack_left(&self, lead: &Lead) -> Option<(f64, f64)> {
        let slack = lead.first_wire()?.slack.as_ref()?.mm();
        let used = self.terminal_for(lead)?.used_mm?;
        // A repair lead brings its own slack; a crimp cut off again uses up as much as one that stays.
        let since = lead.repairs.iter().rev().take_while(|done| !done.kind.is_new_lead());
        let renewed = since.filter(|done| done.kind == RepairKind::NewTerminal);
        let cut_back = |done: &RepairDone| done.crimp.as_ref()?.cut_back.as_ref().map(Length::mm);
        let gone: f64 = renewed.map(|done| used + cut_back(done).unwrap_or(0.0)).sum();
        Some((slack - gone, used))
    }
}

/// What is wrong with how a lead sits in a new cavity.
fn seated_wrong(lead: &Lead, at: &Address, target: &Target) -> Vec<LeadCause> {
    let mut wrong = Vec::new();
    if target.of(&lead.id) != Some(at) {
        wrong.push(LeadCause::WrongCavity { at: at.clone(), goes: target.of(&lead.id).cloned() });
    }
    match lead.seat {
        Seat::NoClick => wrong.push(LeadCause::NoClick(at.clone())),
        Seat::Clicked => wrong.push(LeadCause::NotTugged(at.clone())),
        Seat::Away | Seat::Held => {}
    }
    wrong
}
