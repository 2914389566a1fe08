//! Where the job cannot simply go on, accidents, the parts desk, and the other things, in words.

use crate::{
    job::{GATES, JobSide},
    procedure::{AccidentQuestion, DeskQuestion, HaltQuestion, JobView, OtherQuestion, handed_to, refusing},
    report::{act_told, flag_words, part_or_description},
};

pub(super) fn halt(view: &JobView<'_>, asked: &HaltQuestion) -> String {
    match asked {
        HaltQuestion::Stopped => {
            let why = view.state().course.stopped.as_deref().unwrap_or_default();
            format!("STOPPED: {why}. Start a new job from what was left; or was that a slip of the keys?")
        }
        HaltQuestion::NotStartable(_) => {
            let flag = refusing(view);
            let said = flag
                .map(flag_words)
                .map_or(String::new(), |words| format!(" {} {}", words.say, words.instead));
            format!("DO NOT START.{said}")
        }
        HaltQuestion::AnywayBy => "GO ON ANYWAY. Who answers for it? Key the name (Esc: no).".to_owned(),
        HaltQuestion::AnywayWhy => "Why?".to_owned(),
        HaltQuestion::NothingLeft => "Nothing is left to do.".to_owned(),
    }
}

pub(super) fn accident(asked: &AccidentQuestion) -> String {
    let said = match asked {
        AccidentQuestion::CutFreeFrom => "CUT FREE the lead of which old cavity?",
        AccidentQuestion::CutFreeWritten => {
            "Before the cut: what is written on the wire you are about to cut?"
        }
        AccidentQuestion::CutFreeDistance => "How far behind the housing? (50 mm)",
        AccidentQuestion::TerminalStayed => "Did the terminal stay in its cavity?",
        AccidentQuestion::LooseLeads => "LOOSE: which leads, each with its tag? (3=T1 4=T2)",
        AccidentQuestion::PlugGone => "The PLUG in the hand, else in the tray:",
        AccidentQuestion::ScrapWhy => "Why is it scrapped?",
        AccidentQuestion::LeftInOld => "LEAVE what is in which old cavity?",
        AccidentQuestion::LeftWhy => "Why?",
        AccidentQuestion::ReopenWhy => "OPEN the new lock again: why? (its fingers tire)",
    };
    said.to_owned()
}

pub(super) fn desk(view: &JobView<'_>, asked: &DeskQuestion) -> String {
    let said = match asked {
        DeskQuestion::AsBefore => "SEND the request anew, to the same place by the same day as before?",
        DeskQuestion::Bench => "SEND the request. Which bench asks? (- leaves it open)",
        DeskQuestion::DeliverTo => "Deliver to whom, where? (- leaves it open)",
        DeskQuestion::NeededBy => "Needed by which day? (2026-12-01; - leaves it open)",
        DeskQuestion::Urgency => "How urgent is it?",
        DeskQuestion::ArrivedLine => "ARRIVED: which line of the request?",
        DeskQuestion::ArrivedCount(_) => "How many came?",
        DeskQuestion::ArrivedWhat(line) => {
            let line = view.last_request.and_then(|request| request.line(*line));
            let part = line.map_or("what was asked for".to_owned(), part_or_description);
            return format!("HOLD it against the request: {part}. What came?");
        }
        DeskQuestion::ArrivedPart(_) => "Which part number is on it?",
    };
    said.to_owned()
}

pub(super) fn other(view: &JobView<'_>, asked: &OtherQuestion) -> String {
    let said = match asked {
        OtherQuestion::JumpTo => "JUMP to which cavity? Key its label, or a wire, circuit or colour.",
        OtherQuestion::WhichGate => {
            let list = GATES.iter().zip(1..).map(|(gate, n)| format!("{n} {}", gate.title()));
            return format!("ANSWER which safety question anew? {}", list.collect::<Vec<_>>().join(", "));
        }
        OtherQuestion::ShouldAt(JobSide::Old) => "BY THE DIAGRAM: what should be in which old cavity?",
        OtherQuestion::ShouldAt(JobSide::New) => "BY THE DIAGRAM: what should be in which new cavity?",
        OtherQuestion::WhoWorks => {
            let offer = handed_to(view).map_or(String::new(), |to| format!(" (= {to})"));
            return format!("HANDED OVER. Who works here now? Key your name{offer}");
        }
        OtherQuestion::TakeBack => return take_back(view),
        OtherQuestion::SeenWhat => {
            "SEEN: which lead or plug? (the old label it was recorded in, new:4, loose/1)"
        }
        OtherQuestion::SeenWhere => "Where do you see it? (hand, unseen, a new label, old:3, or tag T1)",
        OtherQuestion::SeenWhy => "What happened?",
        OtherQuestion::CorrectAt => "CORRECT the record of which old cavity?",
        OtherQuestion::CorrectWhy => "What do you see that differs?",
        OtherQuestion::NoteAbout => "NOTE about what? (a label, or - for the whole job)",
        OtherQuestion::NoteText => "The note?",
        OtherQuestion::AcceptWhich => "ACCEPT which flag? Key its number on the account page",
        OtherQuestion::AcceptBy { flag, only_until } => {
            let only = match only_until {
                false => "",
                true => " No name can accept it; as a temporary measure with its date it waits.",
            };
            return format!("ACCEPT: {}{only} Who answers for it?", flag_words(flag).say);
        }
        OtherQuestion::AcceptWhy => "Why?",
        OtherQuestion::AcceptUntil => "Until when, if it is a temporary measure? (2026-12-01, or -)",
        OtherQuestion::RemovedWhich => {
            "TAKE OUT for good: which wire? (old:11, or old:11/2 for one of several)"
        }
        OtherQuestion::RemovedDocument => "Under which document?",
        OtherQuestion::HandOverTo => "HAND OVER to whom?",
        OtherQuestion::StopWhy => "STOP the job for good: why? (Esc: no)",
    };
    said.to_owned()
}

/// The press that is taken back, with every entry it made.
fn take_back(view: &JobView<'_>) -> String {
    let Some((n, entry)) = view.job.last_in_force() else {
        return "There is nothing to take back.".to_owned();
    };
    let press: Vec<String> = view.job.last_press().map(|(_, entry)| act_told(&entry.act)).collect();
    match press.len() {
        0 | 1 => {
            format!("TAKE BACK entry {}, {}: it did not happen at the bench?", n + 1, act_told(&entry.act))
        }
        _ => format!("TAKE BACK the last key press, {}: it did not happen at the bench?", press.join("; ")),
    }
}
