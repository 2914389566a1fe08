//! What is said against readings, against going on after an interruption, and against the signature.

use crate::{
    job::refusal::{ReadingBarrier, ResumeBarrier, SignBarrier},
    quantity::{count_of, quoted},
    report::{flags::flag_words, words::Words},
};

pub(super) fn reading(barrier: &ReadingBarrier) -> Words {
    match barrier {
        ReadingBarrier::ReReadInOld(at) => {
            Words::new(format!("{at} is on the old side."), "Holes of the new housing are re-read.")
        }
        ReadingBarrier::NoRow(housing, row) => {
            Words::new(format!("{housing} has no row {row}."), "Count rows from the top of the drawing.")
        }
        ReadingBarrier::NotOnFace(fault, face) => Words::new(
            format!("\"{}\" is not seen on the {face} face.", fault.words()),
            "Turn it over, and say which face you look at.",
        ),
        ReadingBarrier::SoundAndFaulty(fault) => Words::new(
            format!("The face is said to be sound, and {}.", fault.words()),
            "Say that it is not sound.",
        ),
    }
}

pub(super) fn resume(barrier: &ResumeBarrier) -> Words {
    match barrier {
        ResumeBarrier::NotDue => Words::new("No resume check is due.", "Go on with the next step."),
        ResumeBarrier::OffAndTags => Words::new(
            "The machine must be off, and every tag read against the record.",
            "Do both, then resume.",
        ),
        ResumeBarrier::GateOpen(gate) => {
            Words::new(format!("The gate on {} is open.", gate.title()), "Answer the gates first.")
        }
        ResumeBarrier::ViewUnset(housing) => {
            Words::new(format!("Nobody said again how {housing} is held."), "Say its view.")
        }
        ResumeBarrier::NotReRead(at) => Words::new(
            format!("The hole {at} was not re-read, or not as recorded."),
            "Read it back; say what you see where it differs.",
        ),
        ResumeBarrier::NotCounted(row, housing) => Words::new(
            format!("Row {row} of {housing} was not counted, or not as recorded."),
            "Count it; say what you see where it differs.",
        ),
    }
}

pub(super) fn sign(barrier: &SignBarrier) -> Words {
    match barrier {
        SignBarrier::OtherMachine(serial_end) => Words::new(
            format!("\"{}\" is not the end of this machine's serial number.", quoted(serial_end)),
            "Read its last two characters or more on the machine: this may be another job.",
        ),
        SignBarrier::NoName => Words::new("A signature needs a name.", "Key it."),
        SignBarrier::FlagsOpen(count, first) => {
            let Words { say, instead } = flag_words(first);
            Words::new(format!("{} open; the first: {say}", count_of(*count, "flag")), instead)
        }
    }
}
