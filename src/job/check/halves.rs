//! Checks of what holds the connector together: the secondary lock, the mated halves, the position
//! assurance.

use crate::{
    catalogue::LockState,
    face::Face,
    job::{Code, JobSide, MatingVerdict, Place, Seat, state::State, step::Status, target::Target},
    quantity::{harmless, says_something},
    record::HousingName,
};

use super::rules::{Checked, Rules, barred, impossible};

impl State {
    pub(super) fn check_lock(
        &self,
        name: &HousingName,
        to: LockState,
        finger: bool,
        why: Option<&str>,
    ) -> Checked {
        let Some(housing) = self.housings.housing(name) else {
            return impossible(format!("This job has no housing {name}."), "Name one of its housings.");
        };
        if housing.housing().lock.is_none() {
            return impossible(
                format!("{} has no secondary lock.", housing.housing().part),
                "Nothing to set.",
            );
        }
        if housing.lock == Some(to) {
            let instead = match housing.lock_forced {
                true => {
                    "It was forced: open it, find the terminal that stands proud, close it with a finger."
                }
                false => "Nothing to do.",
            };
            return impossible(format!("The lock of {name} is {} already.", to.words()), instead);
        }
        let is_mended = why.is_some_and(says_something) || to == LockState::Out;
        if housing.side == JobSide::New && housing.lock == Some(LockState::Broken) && !is_mended {
            return impossible(
                format!("The lock of {name} is broken: it holds nothing."),
                "Put a new one in, and say which as the reason.",
            );
        }
        let mut rules = Rules::default();
        if housing.side == JobSide::New && to == LockState::FullSet {
            self.check_readings(&mut rules);
        }
        if housing.side == JobSide::New && to == LockState::FullSet {
            for lead in &self.items.leads {
                let Place::In(at) = &lead.place else { continue };
                if at.housing != *name {
                    continue;
                }
                match lead.seat {
                    Seat::NoClick => rules.add(
                        Code::NotSeated,
                        format!("{} in {at} did not click.", lead.call()),
                        "Seat it first; the lock is not a press.",
                    ),
                    Seat::Clicked => rules.add(
                        Code::NotTugged,
                        format!("{} in {at} was not tugged.", lead.call()),
                        "Tug it first.",
                    ),
                    Seat::Away | Seat::Held => {}
                }
            }
            if !finger {
                rules.add(
                    Code::LockForced,
                    format!("The lock of {name} does not go home with a finger."),
                    "Find the terminal that stands proud; do not press harder.",
                );
            }
        }
        let reopened = housing.side == JobSide::New
            && housing.lock == Some(LockState::FullSet)
            && to != LockState::FullSet;
        if reopened && self.has_moved() && why.is_none_or(|w| w.trim().is_empty()) {
            return impossible(
                format!("The lock of {name} is opened again without a reason."),
                "Say why: its fingers tire.",
            );
        }
        Ok(rules)
    }

    pub(super) fn check_assurance(&self, name: &HousingName, on: bool) -> Checked {
        let Some(housing) = self.housings.housing(name) else {
            return impossible(format!("This job has no housing {name}."), "Name one of its housings.");
        };
        if housing.housing().assurance.is_none() {
            return impossible(
                format!("{} has no connector position assurance.", housing.housing().part),
                "Nothing to set.",
            );
        }
        let mut rules = Rules::default();
        if on && housing.side == JobSide::New && self.housings.mated != Some(true) {
            let say = "The connector position assurance proves the latch, and the halves are not mated.";
            rules.add(Code::AssuranceOff, say, "Mate the halves first; never use it to force the latch.");
        }
        Ok(rules)
    }

    pub(super) fn check_mate(&self, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let mut rules = Rules::default();
        match &self.housings.mating_half {
            Some(MatingVerdict::NotHere) => {
                return impossible(
                    "The mating half is not here.",
                    "Take the connector to the machine first.",
                );
            }
            Some(MatingVerdict::Damaged(what)) => {
                return barred(
                    Code::MatingHalf,
                    format!("The mating half is not sound: {}.", harmless(what)),
                    "Clean it or replace it first: a bad pin in one ruins the other.",
                );
            }
            // Who mates without a look is asked for it at the signature.
            Some(MatingVerdict::Good | MatingVerdict::Cleaned | MatingVerdict::Replaced) | None => {}
        }
        self.check_readings(&mut rules);
        for new in self.housings.side(JobSide::New) {
            if self.housings.mated == Some(false) && !self.readings.is_found_sound(&new.name, Face::Wire) {
                let say = "A wire stood back when the halves were mated, and nobody found it since.";
                rules.add(
                    Code::NotSeated,
                    say,
                    "Part them, tug every wire, look at both faces, then mate again.",
                );
            }
            if new.housing().lock.is_some() && new.lock != Some(LockState::FullSet) {
                let say = format!("The secondary lock of {} is not full-set.", new.name);
                rules.add(Code::LockNotSet, say, "Press it home with a finger first.");
            }
        }
        let left =
            self.steps(target).iter().filter(|s| s.status != Status::Done && !s.what.is_closing()).count();
        if left > 0 {
            let say =
                format!("{} left before the halves can be mated.", crate::quantity::count_of(left, "step"));
            rules.add(Code::NotMated, say, "Finish the moves first.");
        }
        Ok(rules)
    }
}
