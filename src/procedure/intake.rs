//! What is kept before the first move: photos of the connector as found, and what broke the housing.

use crate::{
    job::{Act, Code},
    reckoning::DamageCause,
};

use super::{Asked, Reply, field, texts};

/// The photo that is the way back, or the name of the person who goes without.
pub(super) fn photo(answers: &[Reply]) -> Asked {
    match texts(answers).as_slice() {
        [] => field("PHOTOGRAPH both faces as found. Number of the photo? (- none can be made)"),
        ["-", rest @ ..] => without(Code::PhotoMissing, rest),
        [_] => field("What does it show?"),
        [number, shows, ..] => {
            Asked::Ready(vec![Act::Photo { number: (*number).to_owned(), shows: (*shows).to_owned() }])
        }
    }
}

/// The cause as a step, or the name of the person who goes on without.
pub(super) fn cause_step(answers: &[Reply]) -> Asked {
    match texts(answers).as_slice() {
        ["-", rest @ ..] => without(Code::CauseUnknown, rest),
        typed => cause(typed, " (- not known)"),
    }
}

/// The cause, from the list, and what is known of it.
pub(super) fn cause(typed: &[&str], or_else: &str) -> Asked {
    let listed =
        |n: &str| n.parse::<usize>().ok().and_then(|n| DamageCause::ALL.get(n.checked_sub(1)?).copied());
    match typed {
        [] => {
            let list = DamageCause::ALL.iter().zip(1..).map(|(cause, n)| format!("{n} {}", cause.words()));
            let list: Vec<String> = list.collect();
            field(format!("CAUSE of the damage? Key its number, 0 for another{or_else}: {}", list.join(", ")))
        }
        [number] if listed(number).is_none() && number.trim() != "0" => Asked::Wrong(format!(
            "\"{number}\" is not on the list: key a number from 0 to {}.",
            DamageCause::ALL.len()
        )),
        [number] => match listed(number) {
            Some(cause) => {
                field(format!("LOOK ALSO AT: {}. What do you know of the cause?", cause.look_also()))
            }
            None => field("What do you know of the cause?"),
        },
        [number, text, ..] => {
            Asked::Ready(vec![Act::Cause { text: (*text).to_owned(), kind: listed(number) }])
        }
    }
}

/// A named person goes on without it.
fn without(flag: Code, typed: &[&str]) -> Asked {
    match typed {
        [] => field("Who answers for going on without it?"),
        [_] => field("Why?"),
        [by, reason, ..] => Asked::Ready(vec![Act::Accept {
            flag,
            at: None,
            by: Some((*by).to_owned()),
            reason: (*reason).to_owned(),
            due: None,
            line: None,
        }]),
    }
}
