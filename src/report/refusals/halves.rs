//! What is said against what holds the connector together: the lock, the mated halves, the assurance.

use crate::{
    job::refusal::{HalvesBarrier, HalvesRule},
    quantity::{count_of, harmless},
    report::words::Words,
};

pub(super) fn barrier(barrier: &HalvesBarrier) -> Words {
    match barrier {
        HalvesBarrier::NoLock(part) => {
            Words::new(format!("{part} has no secondary lock."), "Nothing to set.")
        }
        HalvesBarrier::LockedSo(name, to) => {
            Words::new(format!("The lock of {name} is {} already.", to.words()), "Nothing to do.")
        }
        HalvesBarrier::ForcedSo(name, to) => Words::new(
            format!("The lock of {name} is {} already.", to.words()),
            "It was forced: open it, find the terminal that stands proud, close it with a finger.",
        ),
        HalvesBarrier::LockBroken(name) => Words::new(
            format!("The lock of {name} is broken: it holds nothing."),
            "Put a new one in, and say which as the reason.",
        ),
        HalvesBarrier::ReopenedWithoutReason(name) => Words::new(
            format!("The lock of {name} is opened again without a reason."),
            "Say why: its fingers tire.",
        ),
        HalvesBarrier::NoAssurance(part) => {
            Words::new(format!("{part} has no connector position assurance."), "Nothing to set.")
        }
        HalvesBarrier::MatingHalfAway => {
            Words::new("The mating half is not here.", "Take the connector to the machine first.")
        }
    }
}

pub(super) fn rule(rule: &HalvesRule) -> Words {
    match rule {
        HalvesRule::DidNotClick(lead, at) => {
            Words::new(format!("{lead} in {at} did not click."), "Seat it first; the lock is not a press.")
        }
        HalvesRule::NotTugged(lead, at) => {
            Words::new(format!("{lead} in {at} was not tugged."), "Tug it first.")
        }
        HalvesRule::LockForced(name) => Words::new(
            format!("The lock of {name} does not go home with a finger."),
            "Find the terminal that stands proud; do not press harder.",
        ),
        HalvesRule::NotMatedYet => Words::new(
            "The connector position assurance proves the latch, and the halves are not mated.",
            "Mate the halves first; never use it to force the latch.",
        ),
        HalvesRule::MatingHalfDamaged(what) => Words::new(
            format!("The mating half is not sound: {}.", harmless(what)),
            "Clean it or replace it first: a bad pin in one ruins the other.",
        ),
        HalvesRule::WireStoodBack => Words::new(
            "A wire stood back when the halves were mated, and nobody found it since.",
            "Part them, tug every wire, look at both faces, then mate again.",
        ),
        HalvesRule::LockNotSet(name) => Words::new(
            format!("The secondary lock of {name} is not full-set."),
            "Press it home with a finger first.",
        ),
        HalvesRule::StepsLeft(left) => Words::new(
            format!("{} left before the halves can be mated.", count_of(*left, "step")),
            "Finish the moves first.",
        ),
    }
}
