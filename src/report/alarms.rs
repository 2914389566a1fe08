//! What is said loudly of an act that was just taken in, in words.

use crate::{
    job::{Alarm, OutFault},
    quantity::{harmless, list_of},
};

/// What is to be said loudly.
pub fn alarm_words(alarm: &Alarm) -> String {
    match alarm {
        Alarm::ReadElse { at, saw } => {
            format!("DOES NOT AGREE: {at} shows {saw}. Nothing more is taken out until it is settled.")
        }
        Alarm::RowDiffers { housing, row, ends } => {
            format!("DOES NOT AGREE: row {row} of {housing} ({ends}). Find the hole that differs.")
        }
        Alarm::FaceNotSound { housing, face } => {
            format!("NOT SOUND: the {face} face of {housing}. Put it right, then look again.")
        }
        Alarm::CavitiesNotSound { housing, cavities } => {
            format!("NOT SOUND: {} of {housing}. It is not good until it is mended.", list_of(cavities))
        }
        Alarm::CameOut { from, faults } => {
            let faults: Vec<&str> = faults.iter().copied().map(out_fault).collect();
            format!("The lead of {from} is out: {}.", list_of(&faults))
        }
        Alarm::LockBroken(housing) => {
            format!("BROKEN: the lock of {housing}. It holds nothing; a new one is needed.")
        }
        Alarm::LockForced(housing) => {
            format!("FORCED: the lock of {housing}. Open it, find the terminal that stands out.")
        }
        Alarm::TestFailed(test) => format!("FAILED: {test}. Find the fault and test again."),
        Alarm::AnchorFailed { housing, place, colour, mark } => {
            let colour = colour.as_ref().map_or(String::new(), |colour| format!("{colour}, "));
            format!(
                "DOES NOT AGREE: {housing}, {place}: {colour}mark \"{}\". Colour or mark is not that of the record.",
                harmless(mark)
            )
        }
        Alarm::DidNotHold(at) => format!("DID NOT HOLD: the lead of {at} is in your hand."),
        Alarm::NoClick(into) => format!("NO CLICK in {into}."),
        Alarm::WirePushedBack => "A WIRE WAS PUSHED BACK: part the halves and find the terminal.".to_owned(),
        Alarm::MatingHalfDamaged(what) => {
            format!("The mating half is NOT SOUND ({what}): nothing is mated until that is settled.")
        }
        Alarm::OfNoUse(line) => format!("Line {line} goes on waiting: what came cannot be used."),
        Alarm::Substitute(line) => {
            format!("Line {line} goes on waiting until a named person accepts the substitute (! a).")
        }
    }
}

fn out_fault(fault: OutFault) -> &'static str {
    match fault {
        OutFault::WithForce => "it came WITH FORCE: its crimp is suspect",
        OutFault::SealMissing => "its SEAL IS MISSING: look in the hole",
    }
}
