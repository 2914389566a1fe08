//! Flags on what is left: moves, and what stands between a connector with everything in it and its
//! signature.

use crate::{
    job::{ClosingCause, LeftToDo},
    quantity::count_of,
    report::Words,
};

pub(super) fn closing(cause: &ClosingCause) -> Words {
    match cause {
        ClosingCause::SmallPartOff { part, housing } => {
            Words::new(format!("The {part} is not on {housing}."), "Fit it.")
        }
        ClosingCause::NotLookedOver { housing, face } => Words::new(
            format!("The {face} face of {housing} was not looked over."),
            "Lips even, wires straight, terminals level, holes clean?",
        ),
        ClosingCause::NotCounted { housing, row } => Words::new(
            format!("Row {row} of {housing} was not counted."),
            "Count its wires, plugs and open holes.",
        ),
        ClosingCause::LockNotSet(housing) => Words::new(
            format!("The secondary lock of {housing} is not full-set."),
            "Press it home with a finger.",
        ),
        ClosingCause::AssuranceOff(housing) => Words::new(
            format!("The connector position assurance of {housing} is off."),
            "Push it in: it goes in only when the halves are latched.",
        ),
        ClosingCause::NotReRead => Words::new(
            "A hole of the new housing was not re-read.",
            "Read the hole asked for, from the mating face.",
        ),
        ClosingCause::MatingHalfNotHere => Words::new(
            "The mating half is not here: mating and the tests there wait for the machine.",
            "Take the connector to it, look at the mating half, and go on.",
        ),
        ClosingCause::MatingHalfNotLookedAt => {
            Words::new("The mating half was not looked at.", "Look at its pins, seal and plastic.")
        }
        ClosingCause::NotMated => {
            Words::new("The halves are not mated.", "Mate them, tug them, look at the wires at the rear.")
        }
        ClosingCause::TestBeforeMove(test) => {
            Words::new(format!("A test was made before the last move: {test}."), "Make it and key the value.")
        }
        ClosingCause::TestNotMade(test) => {
            Words::new(format!("A test was not made: {test}."), "Make it and key the value.")
        }
        ClosingCause::Unsigned => Words::new("Nobody signed.", "Sign when no other flag is open."),
    }
}

pub(super) fn not_finished(left: LeftToDo) -> Words {
    let say = match left {
        LeftToDo::Records(records) => format!("{} still to record.", count_of(records, "cavity")),
        LeftToDo::Moves { wires, plugs, others: 0 } => {
            format!("{} and {} still to move.", count_of(wires, "wire"), count_of(plugs, "plug"))
        }
        LeftToDo::Moves { wires, plugs, others } => {
            let others = count_of(others, "other part");
            format!("{}, {} and {others} still to move.", count_of(wires, "wire"), count_of(plugs, "plug"))
        }
        LeftToDo::Steps => "Steps are left before the connector can be closed.".to_owned(),
    };
    Words::new(say, "Go on with the next step.")
}
