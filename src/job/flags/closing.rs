//! Flags about the housings themselves, and what is left once everything has moved.

use crate::{
    catalogue::LockState,
    face::Face,
    job::{
        ArrivedVerdict, Code, JobSide, LookSeen, MatingVerdict, Question, Readings, state::State,
        target::Target,
    },
    record::HousingName,
};

use super::{Flag, Flags};

impl State {
    pub(super) fn flag_housings(&self, target: &Target, flags: &mut Flags) {
        for housing in &self.housings.all {
            if housing.lock_forced {
                let say = format!("The lock of {} was pressed home with force.", housing.name);
                flags.push(
                    Flag::job(
                        Code::LockForced,
                        say,
                        "Open it, find the terminal that stands proud, close it with a finger.",
                    )
                    .of(housing),
                );
            }
            if housing.lock_openings >= self.world.rules.lock_worn_at.value {
                let say = format!("The lock of {} was opened {} times.", housing.name, housing.lock_openings);
                flags.push(
                    Flag::job(Code::LockWorn, say, "Its fingers tire: fit a new one, or accept it by name.")
                        .of(housing),
                );
            }
        }
        for old in self.housings.side(JobSide::Old) {
            let looks =
                self.readings.looked_over.iter().filter(|((name, _), look)| *name == old.name && !look.sound);
            for ((name, face), look) in looks {
                let say = format!("The {face} face of {name} is not sound{}.", told(look));
                flags.push(Flag::job(Code::NotLookedOver, say, remedy(look)).of(old));
            }
        }
        for at in &self.items.left_behind {
            let say = format!("A seal or a terminal stayed in {at}.");
            let instead = "Take it out, look into the hole, and say that it is clear.";
            flags.push(Flag::job(Code::NotLookedOver, say, instead).at(self, at));
        }
        for (at, count) in &self.items.insertions {
            let sealed = self.housings.housing(&at.housing).is_some_and(|h| h.housing().sealing.is_sealed());
            if sealed && *count >= self.world.rules.seal_worn_at.value {
                let say = format!("{at} was filled {count} times: its seal is worn.");
                flags.push(
                    Flag::job(Code::SealWorn, say, "Renew the seal or the housing, or accept it by name.")
                        .at(self, at),
                );
            }
        }
        if let Some(MatingVerdict::Damaged(what)) = &self.housings.mating_half {
            let instead = "Repair both halves: a bad pin in one ruins the other.";
            flags.push(Flag::job(Code::MatingHalf, format!("The mating half is not sound: {what}"), instead));
        }
        for test in self.readings.tests.iter().filter(|t| !t.passed) {
            let later =
                self.readings.tests.iter().rev().find(|t| t.test == test.test && t.circuit == test.circuit);
            if later.is_some_and(|t| t.n == test.n) {
                let limit = test.limit.as_ref().map_or(String::new(), |(limit, source)| {
                    let source = if source.is_empty() { "source not named" } else { source };
                    format!("; limit {limit}, {source}")
                });
                let say = format!("The test failed: {} ({}{limit}).", test.test, test.value);
                flags.push(
                    Flag::job(Code::TestFailed, say, "Find the fault and test again.")
                        .circuit(test.circuit.as_deref()),
                );
            }
        }
        for housing in self.housings.side(JobSide::New).filter(|h| h.assurance_forced) {
            let say = format!(
                "The connector position assurance of {} was pushed in before the halves were mated.",
                housing.name
            );
            let instead =
                "Pull it, mate the halves, push it in again: it goes in only when they are latched.";
            flags.push(Flag::job(Code::AssuranceOff, say, instead).of(housing));
        }
        for (housing, row) in self.rows_to_count() {
            let say = format!("Row {row} of {housing} was read in and not counted by eye.");
            let mut flag = Flag::job(
                Code::RowCount,
                say,
                "Count its wires, plugs and open holes: the list is what somebody says.",
            );
            flag.side = Some(JobSide::Old);
            flag.housing = Some(housing);
            flags.push(flag);
        }
        if self.housings.mated == Some(false) {
            let instead = "Part the halves and find the terminal that was pushed out.";
            flags.push(Flag::job(
                Code::NotMated,
                "After mating the wires were not level at the rear.",
                instead,
            ));
        }
        let neighbours = &target.look_closely;
        if self.has_moved() && neighbours.iter().any(|at| !self.readings.looked_at.contains(at)) {
            let labels: Vec<&crate::face::Label> = neighbours.iter().map(|at| &at.label).collect();
            let say = format!(
                "{} were beside an open cavity and nobody looked at them.",
                crate::quantity::list_of(&labels)
            );
            flags.push(Flag::job(
                Code::NotLookedOver,
                say,
                "Look for corrosion on each terminal and up its wire.",
            ));
        }
    }

    /// What stands between a connector with everything in it and its signature.
    pub(super) fn flag_closing(&self, target: &Target, flags: &mut Flags) {
        for new in self.housings.side(JobSide::New) {
            let name = &new.name;
            for part in new.housing().small_parts.iter().filter(|p| !new.parts_on.contains(&p.name)) {
                let say = format!("The {} is not on {name}.", part.name);
                flags.push(Flag::job(Code::SmallPart, say, "Fit it.").of(new));
            }
            for face in [Face::Wire, Face::Mating] {
                let look = self.readings.looked_over.get(&(name.clone(), face));
                let (say, instead) = match look {
                    Some(look) if look.sound => continue,
                    Some(look) => {
                        (format!("The {face} face of {name} is not sound{}.", told(look)), remedy(look))
                    }
                    None => (
                        format!("The {face} face of {name} was not looked over."),
                        "Lips even, wires straight, terminals level, holes clean?",
                    ),
                };
                flags.push(Flag::job(Code::NotLookedOver, say, instead).of(new));
            }
            for row in 1..=new.rows().len() {
                if !self.readings.row_counts.contains_key(&(name.clone(), row)) {
                    let say = format!("Row {row} of {name} was not counted.");
                    flags.push(
                        Flag::job(Code::RowCount, say, "Count its wires, plugs and open holes.").of(new),
                    );
                }
            }
            if new.housing().lock.is_some() && new.lock != Some(LockState::FullSet) {
                let say = format!("The secondary lock of {name} is not full-set.");
                flags.push(Flag::job(Code::LockNotSet, say, "Press it home with a finger.").of(new));
            }
            if new.assurance == Some(false) {
                let say = format!("The connector position assurance of {name} is off.");
                flags.push(
                    Flag::job(
                        Code::AssuranceOff,
                        say,
                        "Push it in: it goes in only when the halves are latched.",
                    )
                    .of(new),
                );
            }
        }
        for at in &target.rereads {
            if !self.readings.rereads.contains_key(at) {
                let say = "A hole of the new housing was not re-read.";
                flags.push(
                    Flag::job(Code::NotReRead, say, "Read the hole asked for, from the mating face.")
                        .at(self, at),
                );
            }
        }
        if self.housings.waits_for_machine() {
            flags.push(Flag::job(
                Code::MatingHalf,
                "The mating half is not here: mating and the tests there wait for the machine.",
                "Take the connector to it, look at the mating half, and go on.",
            ));
        }
        if self.housings.mating_half.is_none() {
            flags.push(Flag::job(
                Code::MatingHalf,
                "The mating half was not looked at.",
                "Look at its pins, seal and plastic.",
            ));
        }
        if self.housings.mated.is_none() {
            flags.push(Flag::job(
                Code::NotMated,
                "The halves are not mated.",
                "Mate them, tug them, look at the wires at the rear.",
            ));
        }
        for test in self.tests_left() {
            // A test that failed has a flag of its own.
            if self.readings.failed_test().is_none_or(|failed| failed.test != test) {
                let say = match self.readings.tests.iter().any(|t| t.test == test) {
                    true => format!("A test was made before the last move: {test}."),
                    false => format!("A test was not made: {test}."),
                };
                flags.push(Flag::job(Code::TestMissing, say, "Make it and key the value."));
            }
        }
        if self.course.signed.is_none() {
            flags.push(Flag::job(Code::Unsigned, "Nobody signed.", "Sign when no other flag is open."));
        }
    }
}

impl State {
    /// A part that came in place of the one asked for, until a named person accepts it.
    pub(super) fn flag_arrivals(&self, flags: &mut Flags) {
        for arrival in
            self.supply.arrivals.iter().filter(|arrival| arrival.verdict == ArrivedVerdict::Substitute)
        {
            let part = arrival.part.as_ref().map_or("another part".to_owned(), ToString::to_string);
            let say = format!("{part} came for line {} of the request.", arrival.line);
            let mut flag = Flag::job(
                Code::Substitute,
                say,
                "Hold it against the definition; accept it by name, or send it back.",
            );
            flag.line = Some(arrival.line);
            flags.push(match self.supply.waits_at(arrival.line) {
                Some(at) => flag.at(self, &at),
                None => flag,
            });
        }
    }
}

/// What a look found, after the word that it is not sound.
fn told(look: &LookSeen) -> String {
    let words: Vec<&str> = look.found.iter().map(|fault| fault.words()).collect();
    if words.is_empty() { String::new() } else { format!(": {}", crate::quantity::list_of(&words)) }
}

fn remedy(look: &LookSeen) -> &'static str {
    look.found.first().map_or("Put it right, and look again.", |fault| fault.remedy())
}

impl Question {
    /// What is compared, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Key => "key code",
            Self::Latch => "side of the latch",
            Self::Gender => "gender",
            Self::Clip => "shorting clip or bridge",
        }
    }
}

impl Readings {
    /// Whether a face was looked over and found sound.
    pub(in crate::job) fn is_found_sound(&self, name: &HousingName, face: Face) -> bool {
        self.looked_over.get(&(name.clone(), face)).is_some_and(|look| look.sound)
    }
}
