//! Checks of locks, readings, requests, people and the end of a job.

use crate::{
    catalogue::{LockState, PartNumber},
    face::Face,
    house::TestKind,
    quantity::{Instrument, harmless, is_day, says_something},
    record::HousingName,
};

use super::{Checked, Rules, impossible};
use crate::swap::{
    Accepted, Act, ArrivedVerdict, Code, FaceFault, JobSide, MatingVerdict, Place, Refusal, Seat,
    state::State, step::Status, target::Target,
};

impl State {
    pub(super) fn check_closing(&self, act: &Act, target: &Target) -> Checked {
        match act {
            Act::Lock { housing, to, finger, why, .. } => {
                self.check_lock(housing, *to, *finger, why.as_deref())
            }
            Act::Assurance { housing, on, .. } => self.check_assurance(housing, *on),
            Act::ReRead { at, .. } => match self.check_cavity(at)? {
                JobSide::New => Ok(Rules::default()),
                JobSide::Old => {
                    impossible(format!("{at} is on the old side."), "Holes of the new housing are re-read.")
                }
            },
            Act::RowCounted { housing, row, .. } => match self.count_row(housing, *row) {
                Some(_) => Ok(Rules::default()),
                None => impossible(
                    format!("{housing} has no row {row}."),
                    "Count rows from the top of the drawing.",
                ),
            },
            Act::LookedOver { housing, face, cavities, sound, found } => {
                check_faults(*face, *sound, found)?;
                for label in cavities {
                    self.check_cavity(&crate::record::Address::new(housing.clone(), label.clone()))?;
                }
                match self.housing(housing) {
                    Some(_) => Ok(Rules::default()),
                    None => {
                        impossible(format!("This job has no housing {housing}."), "Name one of its housings.")
                    }
                }
            }
            Act::Mate { .. } => self.check_mate(target),
            Act::Measure { value, .. } if value.trim().is_empty() => {
                impossible("A test needs its value.", "Key what the instrument showed.")
            }
            Act::Measure { test, value, limit: Some(limit), passed: true, .. } => {
                check_against_limit(*test, value, limit)
            }
            Act::Requested { revision, number, .. } => self.check_requested(number, *revision),
            Act::Arrived { line, count, part, verdict } => {
                self.check_arrived(*line, *count, part.as_ref(), *verdict)
            }
            Act::Accept { by: Some(by), .. } if !says_something(by) => impossible(
                format!("\"{}\" is no name of the person who accepts it.", harmless(by)),
                "Key the name of the person who answers for it.",
            ),
            Act::Accept { flag, at, due, .. } => {
                self.check_accept(*flag, at.as_ref(), due.as_deref(), target)
            }
            Act::Resume { power_off, tags_read } => self.check_resumed(*power_off, *tags_read),
            Act::Sign { serial_end, name } => self.check_sign(name, serial_end, target),
            _ => Ok(Rules::default()),
        }
    }

    fn check_lock(&self, name: &HousingName, to: LockState, finger: bool, why: Option<&str>) -> Checked {
        let Some(housing) = self.housing(name) else {
            return impossible(format!("This job has no housing {name}."), "Name one of its housings.");
        };
        if housing.housing().lock.is_none() {
            return impossible(
                format!("{} has no secondary lock.", housing.housing().part),
                "Nothing to set.",
            );
        }
        // A lock that was forced is pressed home again with a finger: that is a new fact.
        if housing.lock == Some(to) && !(housing.lock_forced && finger) {
            return impossible(format!("The lock of {name} is {} already.", to.words()), "Nothing to do.");
        }
        let mut rules = Rules::default();
        if housing.side == JobSide::New && to == LockState::FullSet {
            for lead in &self.leads {
                let Place::In(at) = &lead.place else { continue };
                if at.housing != *name {
                    continue;
                }
                match lead.seat {
                    Seat::NoClick => rules.add(
                        Code::NotSeated,
                        format!("{} in {at} did not click.", self.call(lead)),
                        "Seat it first; the lock is not a press.",
                    ),
                    Seat::Clicked => rules.add(
                        Code::NotTugged,
                        format!("{} in {at} was not tugged.", self.call(lead)),
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

    fn check_assurance(&self, name: &HousingName, on: bool) -> Checked {
        let Some(housing) = self.housing(name) else {
            return impossible(format!("This job has no housing {name}."), "Name one of its housings.");
        };
        if housing.housing().assurance.is_none() {
            return impossible(
                format!("{} has no connector position assurance.", housing.housing().part),
                "Nothing to set.",
            );
        }
        let mut rules = Rules::default();
        if on && housing.side == JobSide::New && self.mated != Some(true) {
            let say = "The connector position assurance proves the latch, and the halves are not mated.";
            rules.add(Code::AssuranceOff, say, "Mate the halves first; never use it to force the latch.");
        }
        Ok(rules)
    }

    fn check_mate(&self, target: &Target) -> Checked {
        self.check_empty_hand()?;
        let mut rules = Rules::default();
        match &self.mating_half {
            Some(MatingVerdict::NotHere) => {
                return impossible(
                    "The mating half is not here.",
                    "Take the connector to the machine first.",
                );
            }
            Some(MatingVerdict::Damaged(what)) => {
                return super::barred(
                    Code::MatingHalf,
                    format!("The mating half is not sound: {}.", harmless(what)),
                    "Clean it or replace it first: a bad pin in one ruins the other.",
                );
            }
            // Who mates without a look is asked for it at the signature.
            Some(MatingVerdict::Good | MatingVerdict::Cleaned | MatingVerdict::Replaced) | None => {}
        }
        for new in self.side(JobSide::New) {
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

    fn check_requested(&self, number: &str, revision: u32) -> Checked {
        let next = self.requested.as_ref().map_or(1, |r| r.revision + 1);
        if revision != next {
            return impossible(
                format!("The next revision of this job's request is {next}."),
                "Send it with that revision.",
            );
        }
        if !crate::supply::is_number(number) {
            return impossible(
                format!("\"{}\" is not the number of a request.", harmless(number)),
                "It has eight characters of ACDEFGHJKLMNPQRTUVWXYZ234679: `repin request` shows it.",
            );
        }
        match self.requested.as_ref().filter(|r| r.number != number) {
            Some(request) => impossible(
                format!("This job's request is {}.", request.number),
                "Keep one number for every later enquiry.",
            ),
            None => Ok(Rules::default()),
        }
    }

    /// What came is held against what was asked; what is more than that is a question, never a stock.
    fn check_arrived(
        &self,
        line: u32,
        count: u32,
        part: Option<&PartNumber>,
        verdict: ArrivedVerdict,
    ) -> Checked {
        let Some(request) = &self.requested else {
            return impossible("No request was sent.", "Send the request first.");
        };
        let Some(asked) = request.lines.iter().find(|asked| asked.line == line) else {
            return impossible(
                format!("Request {} has no line {line}.", request.number),
                "Read the line number on the request.",
            );
        };
        if count == 0 {
            return impossible("Nothing came.", "Key how many came.");
        }
        if matches!(verdict, ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute) && part.is_none() {
            return impossible("Which part came instead?", "Key the number that is on it.");
        }
        let own = asked.asked.as_ref().and_then(|asked| asked.part.as_deref());
        if let (ArrivedVerdict::AsAsked, Some(part), Some(own)) = (verdict, part, own)
            && !part.to_string().eq_ignore_ascii_case(own)
        {
            return impossible(
                format!("{part} came, and line {line} asked for {own}."),
                "Say that it is the wrong part, or a substitute.",
            );
        }
        let spare = asked.asked.as_ref().map_or(0, |asked| {
            asked
                .packs()
                .map_or(asked.spare, |packs| (packs * asked.pack.unwrap_or(1)).saturating_sub(asked.need))
        });
        let most = asked.need + spare;
        let is_of_use = matches!(verdict, ArrivedVerdict::AsAsked | ArrivedVerdict::Substitute);
        // A journal of version 1 does not say how many spares were asked for.
        let is_known = asked.asked.is_some();
        let came = self.came(line);
        if is_known && is_of_use && came + count > most {
            return impossible(
                format!("Line {line} asked for {most} in all; {came} came before and {count} now."),
                "Count again. Key those that were asked for; ask the desk about the rest, and note what it says.",
            );
        }
        Ok(Rules::default())
    }

    fn check_accept(
        &self,
        flag: Code,
        at: Option<&crate::record::Address>,
        due: Option<&str>,
        target: &Target,
    ) -> Checked {
        let due = due.filter(|due| !due.trim().is_empty());
        if let Some(due) = due.filter(|due| !is_day(due)) {
            return impossible(
                format!("\"{}\" is no day.", harmless(due)),
                "Key the day by which it is put right, as 2026-12-01.",
            );
        }
        let has_due = due.is_some();
        let by_name = self.may_be_accepted(flag, at);
        let steps = self.steps(target);
        let flags = self.flags(target, &steps);
        if !by_name && !has_due && flags.iter().any(|raised| raised.code == flag) {
            return impossible(
                format!("{flag} is not one that a name can accept."),
                "Put it right, or set a temporary measure with the date by which it will be.",
            );
        }
        let accepted = Accepted {
            flag,
            at: at.cloned(),
            item: at.and_then(|at| self.item_spoken_of(at)),
            by: String::new(),
            reason: String::new(),
            due: None,
        };
        let raised = || flags.iter().filter(|raised| raised.code == flag);
        let is_only = at.is_none() && raised().count() == 1;
        if !is_only && !flags.iter().any(|raised| accepted.is_about(raised)) {
            let elsewhere: Vec<&crate::record::Address> = flags
                .iter()
                .filter(|raised| raised.code == flag)
                .filter_map(|raised| raised.at.as_ref())
                .collect();
            let where_ = match elsewhere.as_slice() {
                [] => "`repin check` lists the open flags.".to_owned(),
                at => format!("Name the cavity: {}.", crate::quantity::list_of(at)),
            };
            return impossible(format!("There is no open flag {flag} there."), where_);
        }
        Ok(Rules::default())
    }

    fn check_resumed(&self, power_off: bool, tags_read: bool) -> Checked {
        let Some(need) = &self.resume else {
            return impossible("No resume check is due.", "Go on with the next step.");
        };
        if !power_off || !tags_read {
            return impossible(
                "The machine must be off, and every tag read against the record.",
                "Do both, then resume.",
            );
        }
        if let Some(gate) = self.next_gate() {
            return impossible(format!("The gate on {} is open.", gate.title()), "Answer the gates first.");
        }
        if let Some(housing) = self.housings.iter().find(|h| !need.views.contains(&h.name)) {
            return impossible(format!("Nobody said again how {} is held.", housing.name), "Say its view.");
        }
        if let Some(at) = self.resume_rereads().into_iter().find(|at| !need.reread.contains(at)) {
            return impossible(
                format!("The hole {at} was not re-read, or not as recorded."),
                "Read it back; say what you see where it differs.",
            );
        }
        let rows = self.housings.iter().flat_map(|h| (1..=h.rows().len()).map(|row| (h.name.clone(), row)));
        if let Some((housing, row)) = rows.into_iter().find(|key| !need.rows.contains(key)) {
            return impossible(
                format!("Row {row} of {housing} was not counted, or not as recorded."),
                "Count it; say what you see where it differs.",
            );
        }
        Ok(Rules::default())
    }

    fn check_sign(&self, name: &str, serial_end: &str, target: &Target) -> Checked {
        if !is_end_of(&self.ticket.serial, serial_end) {
            return impossible(
                format!("\"{}\" is not the end of this machine's serial number.", harmless(serial_end)),
                "Read its last two characters or more on the machine: this may be another job.",
            );
        }
        if !says_something(name) {
            return impossible("A signature needs a name.", "Key it.");
        }
        let steps = self.steps(target);
        let flags = self.flags(target, &steps);
        let open: Vec<&crate::swap::Flag> =
            flags.iter().filter(|f| f.accepted.is_none() && f.code != Code::Unsigned).collect();
        match open.first() {
            None => Ok(Rules::default()),
            Some(first) => impossible(
                format!("{} open; the first: {}", crate::quantity::count_of(open.len(), "flag"), first.say),
                first.instead.clone(),
            ),
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
        return impossible(
            format!("\"{}\" is not seen on the {face} face.", fault.words()),
            "Turn it over, and say which face you look at.",
        );
    }
    match found.first() {
        Some(fault) if sound => impossible(
            format!("The face is said to be sound, and {}.", fault.words()),
            "Say that it is not sound.",
        ),
        _ => Ok(()),
    }
}

/// A value that is past its limit did not pass, whoever says so.
fn check_against_limit(test: TestKind, value: &str, limit: &str) -> Checked {
    let (Ok(shown), Ok(least_or_most)) = (value.parse::<Instrument>(), limit.parse::<Instrument>()) else {
        return Ok(Rules::default());
    };
    let is_past = match test {
        TestKind::Continuity | TestKind::Drop | TestKind::Pair => shown.is_more_than(&least_or_most),
        TestKind::Neighbours | TestKind::Insulation => least_or_most.is_more_than(&shown),
        TestKind::Function => None,
    };
    match is_past {
        Some(true) => impossible(
            format!("{test}: {value} is past its limit of {limit}: it did not pass."),
            "Record it as failed, find the fault and test again.",
        ),
        _ => Ok(Rules::default()),
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
