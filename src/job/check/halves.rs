//! Checks of what holds the connector together: the secondary lock, the mated halves, the position
//! assurance.

use crate::{
    catalogue::LockState,
    face::Face,
    job::{
        JobSide, MatingVerdict, Place, Seat,
        refusal::{HalvesBarrier, HalvesRule, PlaceBarrier},
        state::State,
        step::Status,
        target::Target,
    },
    quantity::says_something,
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
            return impossible(PlaceBarrier::NoSuchHousing(name.clone()));
        };
        if housing.housing().lock.is_none() {
            return impossible(HalvesBarrier::NoLock(housing.housing().part.clone()));
        }
        if housing.lock == Some(to) {
            return match housing.lock_forced {
                true => impossible(HalvesBarrier::ForcedSo(name.clone(), to)),
                false => impossible(HalvesBarrier::LockedSo(name.clone(), to)),
            };
        }
        let is_mended = why.is_some_and(says_something) || to == LockState::Out;
        if housing.side == JobSide::New && housing.lock == Some(LockState::Broken) && !is_mended {
            return impossible(HalvesBarrier::LockBroken(name.clone()));
        }
        let mut rules = Rules::default();
        if housing.side == JobSide::New && to == LockState::FullSet {
            self.check_readings(&mut rules);
        }
        if housing.side == JobSide::New && to == LockState::FullSet {
            self.check_seats(name, &mut rules);
            if !finger {
                rules.add(HalvesRule::LockForced(name.clone()));
            }
        }
        let reopened = housing.side == JobSide::New
            && housing.lock == Some(LockState::FullSet)
            && to != LockState::FullSet;
        if reopened && self.has_moved() && why.is_none_or(|w| w.trim().is_empty()) {
            return impossible(HalvesBarrier::ReopenedWithoutReason(name.clone()));
        }
        Ok(rules)
    }

    /// Every lead in a housing that is locked clicked and held its tug.
    fn check_seats(&self, name: &HousingName, rules: &mut Rules) {
        for lead in &self.items.leads {
            let Place::In(at) = &lead.place else { continue };
            if at.housing != *name {
                continue;
            }
            match lead.seat {
                Seat::NoClick => rules.add(HalvesRule::DidNotClick(lead.call(), at.clone())),
                Seat::Clicked => rules.add(HalvesRule::NotTugged(lead.call(), at.clone())),
                Seat::Away | Seat::Held => {}
            }
        }
    }

    pub(super) fn check_assurance(&self, name: &HousingName, on: bool) -> Checked {
        let Some(housing) = self.housings.housing(name) else {
            return impossible(PlaceBarrier::NoSuchHousing(name.clone()));
        };
        if housing.housing().assurance.is_none() {
            return impossible(HalvesBarrier::NoAssurance(housing.housing().part.clone()));
        }
        let mut rules = Rules::default();
        if on && housing.side == JobSide::New && self.housings.mated != Some(true) {
            rules.add(HalvesRule::NotMatedYet);
        }
        Ok(rules)
    }

    pub(super) fn check_mate(&self, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let mut rules = Rules::default();
        match &self.housings.mating_half {
            Some(MatingVerdict::NotHere) => {
                return impossible(HalvesBarrier::MatingHalfAway);
            }
            Some(MatingVerdict::Damaged(what)) => {
                return barred(HalvesRule::MatingHalfDamaged(what.clone()));
            }
            // Who mates without a look is asked for it at the signature.
            Some(MatingVerdict::Good | MatingVerdict::Cleaned | MatingVerdict::Replaced) | None => {}
        }
        self.check_readings(&mut rules);
        for new in self.housings.side(JobSide::New) {
            if self.housings.mated == Some(false) && !self.readings.is_found_sound(&new.name, Face::Wire) {
                rules.add(HalvesRule::WireStoodBack);
            }
            if new.housing().lock.is_some() && new.lock != Some(LockState::FullSet) {
                rules.add(HalvesRule::LockNotSet(new.name.clone()));
            }
        }
        let left =
            self.steps(target).iter().filter(|s| s.status != Status::Done && !s.what.is_closing()).count();
        if left > 0 {
            rules.add(HalvesRule::StepsLeft(left));
        }
        Ok(rules)
    }
}
