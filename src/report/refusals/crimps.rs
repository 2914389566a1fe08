//! What is said against a crimp and against where a splice lies.

use crate::{
    job::refusal::{CrimpRule, ReachRule},
    report::{
        Words,
        objections::{crimp_faults, short_lead, splice_near, tool_used, weak_sample},
    },
};

pub(super) fn rule(rule: &CrimpRule) -> Words {
    match rule {
        CrimpRule::Faults(lead, faults) => Words::new(
            format!("The crimp on {lead}: {}.", crimp_faults(faults)),
            "Cut it off and crimp again.",
        ),
        CrimpRule::NotProved(tool, book) => Words::new(
            format!("{} is not proved for this terminal and wire: {book}.", tool_used(tool)),
            "Qualify it on samples first: three heights, five pulls judged by the lowest.",
        ),
        CrimpRule::WeakSample(sample) => {
            Words::new(weak_sample(sample), "Withdraw the position and prove it anew; cut this crimp off.")
        }
    }
}

pub(super) fn reach(rule: &ReachRule) -> Words {
    match rule {
        ReachRule::Near(lead, near) => {
            Words::new(splice_near(lead, near), "Cut the lead where the plan has it.")
        }
        ReachRule::TooShort(lead, short) => {
            Words::new(short_lead(lead, short), "Join it where the plan has it, or order the lead anew.")
        }
    }
}
