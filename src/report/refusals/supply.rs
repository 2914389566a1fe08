//! What is said against requests, against what came for them, and against accepting a flag.

use crate::{
    job::refusal::{AcceptBarrier, ArrivalBarrier, RequestBarrier},
    quantity::{list_of, quoted},
    report::words::Words,
};

pub(super) fn request(barrier: &RequestBarrier) -> Words {
    match barrier {
        RequestBarrier::NextRevision(next) => Words::new(
            format!("The next revision of this job's request is {next}."),
            "Send it with that revision.",
        ),
        RequestBarrier::NoNumber(problem) => Words::new(
            format!("{problem}."),
            "It has eight characters of ACDEFGHJKLMNPQRTUVWXYZ234679: `repin request` shows it.",
        ),
        RequestBarrier::OtherNumber(number) => {
            Words::new(format!("This job's request is {number}."), "Keep one number for every later enquiry.")
        }
    }
}

pub(super) fn arrival(barrier: &ArrivalBarrier) -> Words {
    match barrier {
        ArrivalBarrier::NoRequest => Words::new("No request was sent.", "Send the request first."),
        ArrivalBarrier::NoLine { request, line } => Words::new(
            format!("Request {request} has no line {line}."),
            "Read the line number on the request.",
        ),
        ArrivalBarrier::NothingCame => Words::new("Nothing came.", "Key how many came."),
        ArrivalBarrier::WhichPart => Words::new("Which part came instead?", "Key the number that is on it."),
        ArrivalBarrier::SamePart(part, line) => Words::new(
            format!("{part} is the number line {line} asked for."),
            "Say that it is as asked, or damaged; or key the number that is on it.",
        ),
        ArrivalBarrier::OtherPart { part, line, asked } => Words::new(
            format!("{part} came, and line {line} asked for {asked}."),
            "Say that it is the wrong part, or a substitute.",
        ),
        ArrivalBarrier::TooMany { line, most, came, now } => Words::new(
            format!("Line {line} asked for {most} in all; {came} came before and {now} now."),
            "Count again. Key those that were asked for; ask the desk about the rest, and note what it says.",
        ),
    }
}

pub(super) fn accept(barrier: &AcceptBarrier) -> Words {
    match barrier {
        AcceptBarrier::Unnamed(by) => Words::new(
            format!("\"{}\" is no name of the person who accepts it.", quoted(by)),
            "Key the name of the person who answers for it.",
        ),
        AcceptBarrier::NotByName(flag) => Words::new(
            format!("{flag} is not one that a name can accept."),
            "Put it right, or set a temporary measure with the date by which it will be.",
        ),
        AcceptBarrier::NotOpenThere(flag, elsewhere) => {
            let say = format!("There is no open flag {flag} there.");
            match elsewhere.as_slice() {
                [] => Words::new(say, "`repin check` lists the open flags."),
                at => Words::new(say, format!("Name the cavity: {}.", list_of(at))),
            }
        }
        AcceptBarrier::SeveralLines(flag, lines) => Words::new(
            format!("{flag} stands there more than once."),
            format!("Name the line of the request: {}.", list_of(lines)),
        ),
    }
}
