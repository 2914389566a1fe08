//! Refusals in words: of each one sentence that says what is wrong, and one that says what to do instead.

use std::borrow::Cow;

use crate::job::{
    Refusal,
    refusal::{Barrier, Rule},
};

/// A refusal in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// What is wrong.
    pub say: String,
    /// What to do instead.
    pub instead: Cow<'static, str>,
}

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
        Barrier::Told(say, instead) => told(say.clone(), instead.clone()),
    }
}

fn of_rule(rule: &Rule) -> Words {
    match rule {
        Rule::Told(_, say, instead) => told(say.clone(), instead.clone()),
    }
}

fn told(say: impl Into<String>, instead: impl Into<Cow<'static, str>>) -> Words {
    Words { say: say.into(), instead: instead.into() }
}
