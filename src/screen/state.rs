//! What a screen remembers between key presses: never anything about the job itself.

use crate::{
    job::{Act, Refusal},
    procedure::{OtherThing, Press, Reply, Topic, Wanted},
    reckoning::ToolPosition,
    supply::RequestHead,
};

use super::spent::Spent;

/// The pages of a job, in the order Tab goes through them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Page {
    /// The question of now and the faces of both sides.
    Bench,
    /// Where everything is, what the cavities hold, and the flags.
    Account,
    /// Found against should, and what was decided.
    Differences,
    /// Which old cavity goes to which new one.
    Map,
    /// Planned and done repairs, and the splices behind each housing.
    Repairs,
    /// The tools the job needs.
    LayOut,
    /// The parts request as it stands now, and what was sent of it.
    Request,
    /// Notes, photos and the cause, the newest first.
    Notes,
}

/// Every page with its title.
pub const PAGES: [(Page, &str); 8] = [
    (Page::Bench, "bench"),
    (Page::Account, "account"),
    (Page::Differences, "differences"),
    (Page::Map, "map"),
    (Page::Repairs, "repairs"),
    (Page::LayOut, "lay out"),
    (Page::Request, "parts request"),
    (Page::Notes, "notes"),
];

/// What stands over the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Overlay {
    /// Nothing.
    None,
    /// The help page.
    Help,
    /// The menu of other things; which entry is marked.
    Menu(usize),
}

/// A message under the question.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    /// Something went in.
    Done(String),
    /// Something was refused, and what to do instead.
    Refused(String),
    /// Something went in, and it shows that something is wrong.
    Failed(String),
    /// A disk or journal problem.
    Trouble(String),
}

/// What a job's screen remembers.
#[derive(Debug, Clone, PartialEq)]
pub struct Ui {
    /// The page shown.
    pub page: Page,
    /// What stands over it.
    pub overlay: Overlay,
    /// The topic somebody chose instead of the next step.
    pub chosen: Option<Topic>,
    /// The answers so far.
    pub answers: Vec<Reply>,
    /// What is typed.
    pub field: String,
    /// The message.
    pub message: Option<Message>,
    /// What a rule just refused and a named person may go on with.
    pub refused: Option<Press>,
    /// The faces are drawn from the other side.
    pub flipped: bool,
    /// The faces are drawn upside down.
    pub turned: bool,
    /// How many housings further on each side than the one spoken of is shown: old, new.
    pub further: [usize; 2],
    /// The key that answered last.
    pub spent: Spent,
    /// How far a list is scrolled.
    pub scroll: usize,
}

impl Default for Ui {
    fn default() -> Self {
        Self {
            page: Page::Bench,
            overlay: Overlay::None,
            chosen: None,
            answers: Vec::new(),
            field: String::new(),
            message: None,
            refused: None,
            flipped: false,
            turned: false,
            further: [0, 0],
            spent: Spent::default(),
            scroll: 0,
        }
    }
}

/// What the shell is to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Nothing but draw.
    None,
    /// Enter these acts of one key press, in order, by the one road: all of them or none.
    Enter(Vec<Act>),
    /// Send the parts request, with what the bench says beside it.
    SendRequest(RequestHead),
    /// Write these positions into the bench's tool book.
    Book(Vec<ToolPosition>),
    /// This person works here from now on.
    Works(String),
    /// Leave the job.
    Leave,
}

/// How the shell's work ended.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Everything went in; what to say.
    Entered(String),
    /// Everything went in, and what was read, counted or measured does not agree: what to say loudly.
    Disagrees(String),
    /// An act of the key press was refused, so none was entered; whether a named person may go on.
    Refused {
        /// The key press.
        press: Press,
        /// What rules or facts say.
        refusals: Vec<Refusal>,
        /// Whether it is a rule a named person may go past.
        can_go_on: bool,
    },
    /// It cannot be done so; nothing was changed. What to say.
    NotSo(String),
    /// The disk or the journal failed.
    Trouble(String),
}

impl Ui {
    /// Starts over with the next step.
    pub(super) fn forget_answers(&mut self) {
        self.answers.clear();
        self.field.clear();
        self.chosen = None;
        self.further = [0, 0];
    }

    /// Chooses another thing to do.
    pub(super) fn choose(&mut self, thing: OtherThing) {
        let here = match self.chosen.take() {
            Some(Topic::Step(step)) => Some(step),
            _ => None,
        };
        self.forget_answers();
        self.overlay = Overlay::None;
        self.page = Page::Bench;
        self.chosen = Some(match (thing, self.refused.take()) {
            (OtherThing::GoOn, Some(press)) => Topic::Anyway(press),
            (OtherThing::NextUndone, _) => Topic::Next(Wanted::Undone, here),
            (OtherThing::NextOpen, _) => Topic::Next(Wanted::Open, here),
            (thing, _) => Topic::Other(thing),
        });
    }
}
