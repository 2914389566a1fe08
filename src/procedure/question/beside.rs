//! What is asked beside the steps: where the job cannot go on, accidents, the desk, and all else.

use crate::job::{Code, Flag, JobSide};

/// What is asked where the job cannot simply go on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HaltQuestion {
    /// The job was stopped: was that a slip?
    Stopped,
    /// The replacement is refused for this: what is done about it?
    NotStartable(Code),
    /// Who goes on against a rule?
    AnywayBy,
    /// Why?
    AnywayWhy,
    /// Nothing is left to do.
    NothingLeft,
}

/// What is asked about an accident.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AccidentQuestion {
    /// The lead of which old cavity is cut free?
    CutFreeFrom,
    /// What is written on the wire that is about to be cut?
    CutFreeWritten,
    /// How far behind the housing is it cut?
    CutFreeDistance,
    /// Did the terminal stay in its cavity?
    TerminalStayed,
    /// Which leads came out together, each with its tag?
    LooseLeads,
    /// What became of the plug?
    PlugGone,
    /// Why is the plug scrapped?
    ScrapWhy,
    /// What is left in which old cavity?
    LeftInOld,
    /// Why is it left there?
    LeftWhy,
    /// Why is the new lock opened again?
    ReopenWhy,
}

/// What is asked about the parts request.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DeskQuestion {
    /// Does it go to the same place by the same day as before?
    AsBefore,
    /// Which bench asks?
    Bench,
    /// Where is it delivered to?
    DeliverTo,
    /// By which day is it needed?
    NeededBy,
    /// How urgent is it?
    Urgency,
    /// Which line arrived?
    ArrivedLine,
    /// How many came of it?
    ArrivedCount(u32),
    /// Is it what this line asked for?
    ArrivedWhat(u32),
    /// Which part number is on it?
    ArrivedPart(u32),
}

/// What is asked about the other things.
#[derive(Debug, Clone, PartialEq)]
pub enum OtherQuestion {
    /// Go to which cavity, wire, circuit or colour?
    JumpTo,
    /// Which gate is answered again?
    WhichGate,
    /// What should be in which cavity of this side?
    ShouldAt(JobSide),
    /// Who works here now?
    WhoWorks,
    /// Did the last press not happen at the bench?
    TakeBack,
    /// Which lead or plug is elsewhere?
    SeenWhat,
    /// Where is it?
    SeenWhere,
    /// What happened?
    SeenWhy,
    /// The record of which old cavity is corrected?
    CorrectAt,
    /// What is seen that differs?
    CorrectWhy,
    /// What is the note about?
    NoteAbout,
    /// What does it say?
    NoteText,
    /// Which flag is accepted?
    AcceptWhich,
    /// Who answers for this one?
    AcceptBy {
        /// The flag.
        flag: Box<Flag>,
        /// No name can accept it; as a temporary measure it waits.
        only_until: bool,
    },
    /// Why is it accepted?
    AcceptWhy,
    /// Until when, if it is a temporary measure?
    AcceptUntil,
    /// Which wire is taken out for good?
    RemovedWhich,
    /// Under which document?
    RemovedDocument,
    /// To whom is it handed over?
    HandOverTo,
    /// Why is the job stopped?
    StopWhy,
}
