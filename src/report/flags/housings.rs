//! Flags on housings, their locks, seals and small parts.

use crate::{job::HousingCause, report::Words};

pub(super) fn housing(cause: &HousingCause) -> Words {
    match cause {
        HousingCause::LockForced(housing) => Words::new(
            format!("The lock of {housing} was pressed home with force."),
            "Open it, find the terminal that stands proud, close it with a finger.",
        ),
        HousingCause::LockWorn { housing, openings } => Words::new(
            format!("The lock of {housing} was opened {openings} times."),
            "Its fingers tire: fit a new one, or accept it by name.",
        ),
        HousingCause::LeftBehind(at) => Words::new(
            format!("A seal or a terminal stayed in {at}."),
            "Take it out, look into the hole, and say that it is clear.",
        ),
        HousingCause::SealWorn { at, fillings } => Words::new(
            format!("{at} was filled {fillings} times: its seal is worn."),
            "Renew the seal or the housing, or accept it by name.",
        ),
        HousingCause::MatingHalfDamaged(what) => Words::new(
            format!("The mating half is not sound: {what}"),
            "Repair both halves: a bad pin in one ruins the other.",
        ),
        HousingCause::AssuranceForced(housing) => Words::new(
            format!(
                "The connector position assurance of {housing} was pushed in before the halves were mated."
            ),
            "Pull it, mate the halves, push it in again: it goes in only when they are latched.",
        ),
        HousingCause::WirePushedBack => Words::new(
            "After mating the wires were not level at the rear.",
            "Part the halves and find the terminal that was pushed out.",
        ),
    }
}
