//! Refusals in words: of each one sentence that says what is wrong, and one that says what to do instead.

mod crimps;
mod orders;

use super::{Words, flags::flag_words, objections::objection};
use crate::{
    job::{
        Refusal,
        refusal::{Barrier, Rule},
    },
    quantity::count_of,
};

pub(super) use orders::not_plannable;

/// A refusal, in words.
pub fn words(refusal: &Refusal) -> Words {
    match refusal {
        Refusal::Barrier(barrier) => of_barrier(barrier),
        Refusal::Rule(rule) => of_rule(rule),
    }
}

/// Refusals as they are said in one line, each with what to do instead.
pub fn in_one_line(refusals: &[Refusal]) -> String {
    refusals.iter().map(line).collect::<Vec<_>>().join(" ")
}

/// A refusal with what to do instead.
pub fn line(refusal: &Refusal) -> String {
    let Words { say, instead } = words(refusal);
    format!("{say} {instead}")
}

fn of_barrier(barrier: &Barrier) -> Words {
    match barrier {
        Barrier::Told(say, instead) => Words::new(say.clone(), instead.clone()),
        Barrier::Order(barrier) => orders::order(barrier),
        Barrier::Join(barrier) => orders::join(barrier),
        Barrier::FlagsOpen(count, first) => {
            let Words { say, instead } = flag_words(first);
            Words::new(format!("{} open; the first: {say}", count_of(*count, "flag")), instead)
        }
    }
}

fn of_rule(rule: &Rule) -> Words {
    match rule {
        Rule::Told(_, say, instead) => Words::new(say.clone(), instead.clone()),
        Rule::Lead(against) => objection(against),
        Rule::Crimp(rule) => crimps::rule(rule),
        Rule::Reach(rule) => crimps::reach(rule),
        Rule::Order(rule) => orders::rule(rule),
    }
}
