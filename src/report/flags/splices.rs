//! Flags on splices, and on what their plans would do to the bundle.

use crate::{
    job::{BundleCause, NoPlan, SpliceCause},
    quantity::list_of,
    reckoning::MOST_LEADS,
    record::HousingName,
    report::{
        Words,
        objections::{short_lead, splice_near},
    },
};

pub(super) fn splice(lead: &str, what: &SpliceCause) -> Words {
    match what {
        SpliceCause::SplicedBefore => Words::new(
            format!("{lead} is spliced already between here and the next branch."),
            "Replace from the old splice on, or accept it by name.",
        ),
        SpliceCause::Two => Words::new(
            format!("{lead} has two splices: the new lead left the one made before in the wire."),
            "Replace the wire from the old splice on, or accept it by name.",
        ),
        SpliceCause::NotRecorded => Words::new(
            format!("Nobody recorded where the splice of {lead} sits and whether it is sound."),
            "Look at it, and accept it by name with what was seen.",
        ),
        SpliceCause::Near(near) => {
            Words::new(splice_near(lead, near), "Make the lead anew, cut where the plan has its splice.")
        }
        SpliceCause::TooShort(short) => {
            Words::new(short_lead(lead, short), "Was another lead used? Say so by name, or make it anew.")
        }
        SpliceCause::NotSound => Words::new(
            format!("The splice of {lead} was not found sound."),
            "Make it again: window, adhesive, tug.",
        ),
        SpliceCause::Soldered(why) => Words::new(
            format!("The splice of {lead} is soldered: {why}."),
            "Hold the wire within 50 mm of it; accept it by name, or crimp it.",
        ),
        SpliceCause::Untwisted(length) => Words::new(
            format!("{lead} is untwisted over {} at its splice.", length.both()),
            "Twist the pair again over its splices.",
        ),
        SpliceCause::UntwistedNotMeasured => Words::new(
            format!("Nobody measured how far {lead} is untwisted at its splice."),
            "Twist it again, measure, and accept it by name with the length.",
        ),
    }
}

pub(super) fn bundle(cause: &BundleCause) -> Words {
    match cause {
        BundleCause::NoPlan { why, housing, room_mm } => {
            let instead = match (why, room_mm) {
                (NoPlan::TooMany(_), _) => "Replace the branch.".to_owned(),
                (NoPlan::NoPlace(_), Some(more)) => format!(
                    "With {more} mm more all would fit: go beyond the branch (with the reason), shorter sleeves, or replace the branch."
                ),
                (NoPlan::NoPlace(_), None) => {
                    "Shorter sleeves, other stretches kept free, or replace the branch.".to_owned()
                }
            };
            Words::new(no_plan(why, housing), instead)
        }
        BundleCause::TooManySplices { count, most, housing } => Words::new(
            format!("{count} wires of the bundle of {housing} are spliced; {most} may be."),
            "Replace the branch.",
        ),
        BundleCause::ManyLeads { leads, wires, one_in } => Words::new(
            format!("{leads} of {wires} wires get a repair lead: more than one in {one_in}."),
            "Replacing the branch may be cheaper and safer; accept it by name if not.",
        ),
    }
}

/// Which leads have no place together.
pub fn no_plan(why: &NoPlan, housing: &HousingName) -> String {
    match why {
        NoPlan::TooMany(count) => {
            format!("{count} splices behind {housing} are more than one plan takes ({MOST_LEADS}).")
        }
        NoPlan::NoPlace(leads) => match leads.as_slice() {
            [one] => format!("The splice of {one} has no place behind {housing}."),
            several => format!("{} cannot all be spliced behind {housing}.", list_of(several)),
        },
    }
}
