//! Flags on what is left once everything has moved.

use crate::{
    catalogue::LockState,
    face::Face,
    job::{JobHousing, JobSide, Readings, state::State, target::Target},
};

use super::{
    Flag, Flags,
    cause::{ClosingCause, FlagCause},
    readings::not_sound,
};

impl State {
    /// What stands between a connector with everything in it and its signature.
    pub(super) fn flag_closing(&self, target: &Target, flags: &mut Flags) {
        for new in self.housings.side(JobSide::New) {
            flag_faces(new, &self.readings, flags);
            flag_locks(new, flags);
        }
        let rereads = target.rereads.iter().filter(|at| !self.readings.rereads.contains_key(*at));
        flags.extend(rereads.map(|at| closing(ClosingCause::NotReRead).at(self, at)));
        if self.housings.waits_for_machine() {
            flags.push(closing(ClosingCause::MatingHalfNotHere));
        }
        if self.housings.mating_half.is_none() {
            flags.push(closing(ClosingCause::MatingHalfNotLookedAt));
        }
        if self.housings.mated.is_none() {
            flags.push(closing(ClosingCause::NotMated));
        }
        for test in self.tests_left() {
            // A test that failed has a flag of its own.
            if self.readings.failed_test().is_none_or(|failed| failed.test != test) {
                flags.push(closing(match self.readings.tests.iter().any(|t| t.test == test) {
                    true => ClosingCause::TestBeforeMove(test),
                    false => ClosingCause::TestNotMade(test),
                }));
            }
        }
        if self.course.signed.is_none() {
            flags.push(closing(ClosingCause::Unsigned));
        }
    }
}

/// The small parts of a new housing, its faces and its rows.
fn flag_faces(new: &JobHousing, readings: &Readings, flags: &mut Flags) {
    let name = &new.name;
    for part in new.housing().small_parts.iter().filter(|p| !new.parts_on.contains(&p.name)) {
        let (part, housing) = (part.name.clone(), name.clone());
        flags.push(closing(ClosingCause::SmallPartOff { part, housing }).of(new));
    }
    for face in [Face::Wire, Face::Mating] {
        match readings.looked_over.get(&(name.clone(), face)) {
            Some(look) if look.sound => continue,
            Some(look) => flags.push(not_sound(new, face, look)),
            None => {
                let cause = ClosingCause::NotLookedOver { housing: name.clone(), face };
                flags.push(closing(cause).of(new));
            }
        }
    }
    for row in 1..=new.rows().len() {
        if !readings.row_counts.contains_key(&(name.clone(), row)) {
            flags.push(closing(ClosingCause::NotCounted { housing: name.clone(), row }).of(new));
        }
    }
}

/// The lock of a new housing and its position assurance.
fn flag_locks(new: &JobHousing, flags: &mut Flags) {
    if new.housing().lock.is_some() && new.lock != Some(LockState::FullSet) {
        flags.push(closing(ClosingCause::LockNotSet(new.name.clone())).of(new));
    }
    if new.assurance == Some(false) {
        flags.push(closing(ClosingCause::AssuranceOff(new.name.clone())).of(new));
    }
}

fn closing(cause: ClosingCause) -> Flag {
    Flag::job(FlagCause::Closing(cause))
}
