//! What is said against an act whatever it is about.

use crate::{
    job::refusal::{ActBarrier, ActRule, Saying, TakeBackBarrier},
    quantity::{harmless, quoted},
    report::words::Words,
};

pub(super) fn barrier(barrier: &ActBarrier) -> Words {
    match barrier {
        ActBarrier::Stopped(why) => {
            Words::new(format!("The job was stopped: {why}"), "Start a new job from what was left.")
        }
        ActBarrier::NoHousings => Words::new("The job has no housings yet.", "Start it with `repin new`."),
        ActBarrier::AnywayUnnamed(by) => Words::new(
            format!("\"{}\" is no name of the person who goes on anyway.", quoted(by)),
            "Key the name of the person who answers for it.",
        ),
        ActBarrier::AnywayWithoutReason => Words::new("Nobody goes on anyway without a reason.", "Say why."),
        ActBarrier::DayPast(due) => Words::new(format!("{due} is past."), "Key a day that is still to come."),
        ActBarrier::SaysNothing(what, text) => Words::new(
            format!("\"{}\" does not say {}.", quoted(text), to_say(*what)),
            "Key it in words: somebody reads it later.",
        ),
        ActBarrier::HandedOver { by, to } => Words::new(
            format!("{} handed the job over to {}.", harmless(by), harmless(to)),
            "Say who is at the bench now: the name stands in every entry.",
        ),
    }
}

fn to_say(what: Saying) -> &'static str {
    match what {
        Saying::WhyCorrected => "why the record is corrected",
        Saying::WhyFlipped => "why the record is flipped",
        Saying::Decision => "the reason of the decision",
        Saying::Finding => "what was found",
        Saying::Why => "why",
        Saying::WhyScrapped => "why the plug is scrapped",
        Saying::ParkedFor => "what it is parked for",
        Saying::WhyAccepted => "why it is accepted",
        Saying::Cause => "the cause",
        Saying::Photo => "the number of the photo",
        Saying::Successor => "who takes over",
        Saying::WhyStopped => "why the job is stopped",
        Saying::Damage => "what is wrong with it",
    }
}

pub(super) fn take_back(barrier: &TakeBackBarrier) -> Words {
    let say = match barrier {
        TakeBackBarrier::Nothing => "There is nothing to take back.".to_owned(),
        TakeBackBarrier::OthersRelyOnIt => {
            "The last entry is one that others rely on; it cannot be taken back.".to_owned()
        }
        TakeBackBarrier::EntryOf(by) => format!("The last entry is {by}'s, not yours."),
        TakeBackBarrier::BeforeThisSitting => {
            "The last entry was made before this sitting; it cannot be taken back.".to_owned()
        }
    };
    Words::new(say, "Say what you see instead: put it back, or key what is so.")
}

pub(super) fn rule(rule: &ActRule) -> Words {
    match rule {
        ActRule::Interrupted(why) => Words::new(
            format!("The work was interrupted: {why}. DO NOT POWER."),
            "Answer the gates, say the views, read three holes back, count the rows, read the tags; then resume.",
        ),
        ActRule::OnMachine(gate) => Words::new(
            format!("The harness is on the machine: the gate on {} is open.", gate.title()),
            "Make it safe and answer the gate before the next step.",
        ),
        ActRule::GateNotPassed(gate) => Words::new(
            format!("The gate on {} is not passed.", gate.title()),
            "Answer it with a name and a document, or stop the job.",
        ),
    }
}
