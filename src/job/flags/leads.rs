//! Flags on leads: where they are, how they sit, what was seen of them.

use crate::{
    job::{Code, JobSide, Lead, Place, RepairDone, RepairKind, Seat, state::State, target::Target},
    quantity::Length,
    record::Seal,
};

use super::{Flag, Flags};

/// Re-forming a tang is done once; the second time the terminal is replaced.
const REFORMS_TOO_MANY: usize = 2;

impl State {
    pub(super) fn flag_leads(&self, target: &Target, flags: &mut Flags) {
        for lead in &self.items.leads {
            let call = lead.call();
            let mut add = |code, say: String, instead: &str| {
                flags.push(self.about_lead(Flag::job(code, say, instead), lead));
            };
            match &lead.place {
                Place::Hand => add(
                    Code::InHand,
                    format!("{call} is in the hand."),
                    "Put it in, put it back, or tag and park it.",
                ),
                Place::Parked(tag) => add(
                    Code::Parked,
                    format!("{call} is parked, tag {tag}."),
                    "Take it up by its tag when it can go on.",
                ),
                Place::Unseen => add(
                    Code::WireMissing,
                    format!("Nobody sees {call}."),
                    "Find it, and say where it is seen.",
                ),
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => {
                    if target.of(&lead.id) != Some(at) {
                        let goes = target.of(&lead.id).map_or("elsewhere".to_owned(), ToString::to_string);
                        add(
                            Code::WrongCavity,
                            format!("{call} is in {at} and belongs in {goes}."),
                            "Take it out and put it where it belongs.",
                        );
                    }
                    match lead.seat {
                        Seat::NoClick => add(
                            Code::NotSeated,
                            format!("{call} in {at} did not click."),
                            "Take it out, look at its tang, put it in again.",
                        ),
                        Seat::Clicked => add(
                            Code::NotTugged,
                            format!("{call} in {at} was not tugged."),
                            "Tug it straight and gently.",
                        ),
                        Seat::Away | Seat::Held => {}
                    }
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
            self.flag_condition(lead, &call, flags);
        }
        for (at, reread) in self.readings.rereads.iter().filter(|(_, r)| !r.agrees) {
            let say =
                format!("At a re-read {at} did not show what is recorded there (read by {}).", reread.by);
            let instead = "Look at both faces, put it right, and read it again.";
            flags.push(Flag::job(Code::WrongCavity, say, instead).at(self, at));
        }
        for ((housing, row), _) in self.readings.row_counts.iter().filter(|(_, agrees)| !**agrees) {
            let holes = self.housings.row_ends(housing, *row);
            let say = format!("The count of row {row} of {housing} ({holes}) did not agree.");
            let mut flag =
                Flag::job(Code::RowCount, say, "Find the hole that differs, put it right, count again.");
            flag.housing = Some(housing.clone());
            flag.side = self.housings.housing(housing).map(|h| h.side);
            flags.push(flag);
        }
    }

    fn flag_condition(&self, lead: &Lead, call: &str, flags: &mut Flags) {
        let mut add = |code, say: String, instead: &str| {
            flags.push(self.about_lead(Flag::job(code, say, instead), lead));
        };
        if lead.reforms() >= REFORMS_TOO_MANY {
            add(
                Code::ReformedTwice,
                format!("The tang of {call} was re-formed twice."),
                "Replace the terminal.",
            );
        }
        // Called good although something stands against it, or in its new hole as if it were; until then
        // it is only said what does.
        let is_in_new =
            matches!(&lead.place, Place::In(at) if self.housings.side_of(at) == Some(JobSide::New));
        if is_in_new && lead.inspected != Some(None) {
            let say = format!("Nobody called {call} good since it was last out, and it sits in a new hole.");
            add(Code::CrimpSuspect, say, "Take it out and look at terminal and seal, or accept it by name.");
        }
        if lead.inspected == Some(None) || is_in_new {
            for (code, say, instead) in self.against_good(lead) {
                add(code, say, instead);
            }
        } else if lead.forced {
            add(Code::ForcedOut, format!("{call} came out with force."), "Look at crimp and tang closely.");
        }
        let is_gone = matches!(lead.place, Place::Removed | Place::Joined(_) | Place::NotMade);
        if lead.inspected != Some(None) && !is_in_new && !is_gone {
            if lead.seal == Seal::Missing && self.housings.seals_each_wire() {
                let instead = "Look in the old cavity, and put a new seal on.";
                add(Code::SealMissing, format!("The seal of {call} is missing."), instead);
            }
            if let Some((code, say, instead)) = self.items.parted(lead) {
                add(code, say, instead);
            }
        }
        if let Some(left) = self.slack_left(lead)
            && left.0 < left.1
        {
            let say = format!("{call} has {} mm of slack left: less than one more terminal takes.", left.0);
            add(Code::LastTime, say, "Next time it needs a repair lead.");
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
