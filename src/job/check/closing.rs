//! Checks of locks, readings, requests, people and the end of a job.

use jiff::civil::Date;

use crate::{
    face::{Face, Label},
    job::{
        Code, FaceFault, JobSide, Refusal,
        refusal::{AcceptBarrier, PlaceBarrier, ReadingBarrier, ResumeBarrier, SignBarrier},
        state::State,
        target::Target,
    },
    quantity::says_something,
    record::{Address, HousingName},
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_accepted(
        &self,
        by: Option<&str>,
        flag: Code,
        at: Option<&Address>,
        due: Option<Date>,
        line: Option<u32>,
        target: &Target,
    ) -> Checked {
        if let Some(by) = by.filter(|by| !says_something(by)) {
            return impossible(AcceptBarrier::Unnamed(by.to_owned()));
        }
        self.check_accept(flag, at, due, line, target)
    }

    pub(super) fn check_reread(&self, at: &Address) -> Checked {
        match self.housings.check_cavity(at)? {
            JobSide::New => Ok(Rules::default()),
            JobSide::Old => impossible(ReadingBarrier::ReReadInOld(at.clone())),
        }
    }

    pub(super) fn check_row_counted(&self, housing: &HousingName, row: usize) -> Checked {
        match self.count_row(housing, row) {
            Some(_) => Ok(Rules::default()),
            None => impossible(ReadingBarrier::NoRow(housing.clone(), row)),
        }
    }

    pub(super) fn check_looked_over(
        &self,
        housing: &HousingName,
        face: Face,
        cavities: &[Label],
        sound: bool,
        found: &[FaceFault],
    ) -> Checked {
        check_faults(face, sound, found)?;
        for label in cavities {
            self.housings.check_cavity(&crate::record::Address::new(housing.clone(), label.clone()))?;
        }
        match self.housings.housing(housing) {
            Some(_) => Ok(Rules::default()),
            None => impossible(PlaceBarrier::NoSuchHousing(housing.clone())),
        }
    }

    pub(super) fn check_resumed(&self, power_off: bool, tags_read: bool) -> Checked {
        let Some(need) = &self.course.resume else {
            return impossible(ResumeBarrier::NotDue);
        };
        if !power_off || !tags_read {
            return impossible(ResumeBarrier::OffAndTags);
        }
        if let Some(gate) = self.next_gate() {
            return impossible(ResumeBarrier::GateOpen(gate));
        }
        if let Some(housing) = self.housings.all.iter().find(|h| !need.views.contains(&h.name)) {
            return impossible(ResumeBarrier::ViewUnset(housing.name.clone()));
        }
        if let Some(at) = self.resume_rereads().into_iter().find(|at| !need.reread.contains(at)) {
            return impossible(ResumeBarrier::NotReRead(at));
        }
        let rows =
            self.housings.all.iter().flat_map(|h| (1..=h.rows().len()).map(|row| (h.name.clone(), row)));
        if let Some((housing, row)) = rows.into_iter().find(|key| !need.rows.contains(key)) {
            return impossible(ResumeBarrier::NotCounted(row, housing));
        }
        Ok(Rules::default())
    }

    pub(super) fn check_sign(&self, name: &str, serial_end: &str, target: &Target) -> Checked {
        if !is_end_of(&self.world.ticket.serial, serial_end) {
            return impossible(SignBarrier::OtherMachine(serial_end.to_owned()));
        }
        if !says_something(name) {
            return impossible(SignBarrier::NoName);
        }
        let steps = self.steps(target);
        let flags = self.flags(target, &steps);
        let open: Vec<&crate::job::Flag> =
            flags.iter().filter(|f| f.accepted.is_none() && f.code() != Code::Unsigned).collect();
        match open.first() {
            None => Ok(Rules::default()),
            Some(first) => impossible(SignBarrier::FlagsOpen(open.len(), Box::new((*first).clone()))),
        }
    }
}

/// Whether what was read ends the serial number: two characters at least, or all of a shorter one.
fn is_end_of(serial: &str, read: &str) -> bool {
    let (serial, read) = (serial.trim().to_lowercase(), read.trim().to_lowercase());
    serial.ends_with(&read) && read.chars().count() >= serial.chars().count().min(2)
}

/// What is said of a face has to be one thing, and one that shows there.
fn check_faults(face: Face, sound: bool, found: &[FaceFault]) -> Result<(), Refusal> {
    if let Some(fault) = found.iter().find(|fault| !fault.shows_on(face)) {
        return impossible(ReadingBarrier::NotOnFace(*fault, face));
    }
    match found.first() {
        Some(fault) if sound => impossible(ReadingBarrier::SoundAndFaulty(*fault)),
        Some(_) | None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::is_end_of;

    #[test]
    fn the_end_of_a_serial_number_is_two_characters_or_more() {
        assert!(is_end_of("FW8-20731", "31") && is_end_of("FW8-20731", "20731 ") && is_end_of("7", "7"));
        assert!(is_end_of("", ""));
        assert!(!is_end_of("FW8-20731", "1") && !is_end_of("FW8-20731", "13") && !is_end_of("FW8", ""));
    }
}
