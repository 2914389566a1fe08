//! What comes of a topic and its replies: the next question with what may answer it, or what is to be done.

use crate::{
    job::{Act, Refusal, Task},
    reckoning::ToolPosition,
    supply::RequestHead,
};

use super::{Choice, Covered, Question, Warning};

/// What the replies come to: what is to be done, or why that is not known yet.
pub type Asked = Result<Done, Stop>;

/// The acts of a dialogue that ends in acts alone.
pub(super) type Acts = Result<Vec<Act>, Stop>;

/// Everything is known: what is to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Done {
    /// These acts are entered, in order: all of them or none.
    Acts(Vec<Act>),
    /// Positions of a tool were proved or withdrawn: into the tool book with them.
    Book(Vec<ToolPosition>),
    /// The request can go out, with this said beside it.
    Send(RequestHead),
    /// Go to this step.
    Go(Task),
    /// This person works here from now on.
    Works(String),
}

/// Not everything is known, or it cannot be so.
#[derive(Debug, Clone, PartialEq)]
pub enum Stop {
    /// What is asked next.
    Ask(Box<Ask>),
    /// The last reply cannot be: why.
    Wrong(Wrong),
    /// What the last reply leads to would be refused: said before the hand does it.
    Barred(Box<Barred>),
}

/// Why a reply cannot be.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// It is no answer to what was asked: why.
    NoAnswer(String),
    /// What the job says to it.
    Refused(Vec<Refusal>),
}

/// An act that would be refused.
#[derive(Debug, Clone, PartialEq)]
pub struct Barred {
    /// The act.
    pub act: Act,
    /// Why not.
    pub refusals: Vec<Refusal>,
    /// Whether it is a rule a named person may go past.
    pub can_go_on: bool,
}

/// A question, with all that is to be known about it before it is put into words.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// What is asked.
    pub question: Question,
    /// What may answer it.
    pub takes: Takes,
    /// What is wrong, said before the question, one after another.
    pub warnings: Vec<Warning>,
    /// What must not be shown while it is asked.
    pub covers: Covered,
    /// Whether it opens the work: what is needed for it is laid out before.
    pub is_laid_out_first: bool,
}

/// What may answer a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Takes {
    /// A value of this kind, typed.
    Text(Kind),
    /// One of these.
    Choices(Vec<Choice>),
}

/// What kind of value is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A cavity, by its label or its address.
    Label,
    /// A lead, a plug or a wire, by where it was recorded.
    Item,
    /// What is moulded or stands out on a housing.
    Mark,
    /// The colour of a wire.
    Colour,
    /// What is in a hole: a colour, a plug, nothing.
    Content,
    /// The wires of one terminal on one line.
    Wires,
    /// What is on a tag.
    Tag,
    /// The name of a person.
    Name,
    /// A document.
    Document,
    /// Words of one's own.
    Words,
    /// A day.
    Day,
    /// A number of a list, or a count.
    Number,
    /// Several values on one line.
    Values,
    /// A length.
    Length,
    /// The size of a wire.
    Size,
    /// A voltage.
    Voltage,
    /// What an instrument showed, and its limit.
    Reading,
    /// The number of a part.
    Part,
    /// A tool and its position.
    Tool,
}

/// A question and what is wrong before it, on the way to be asked.
pub struct Prompt {
    pub(super) question: Question,
    pub(super) warnings: Vec<Warning>,
}

impl<Q: Into<Question>> From<Q> for Prompt {
    fn from(question: Q) -> Self {
        warned(question, [])
    }
}

/// A question with what is wrong, when something is.
pub(super) fn warned(question: impl Into<Question>, warnings: impl IntoIterator<Item = Warning>) -> Prompt {
    Prompt { question: question.into(), warnings: warnings.into_iter().collect() }
}

impl Stop {
    pub(super) fn wrong(why: impl Into<String>) -> Self {
        Self::Wrong(Wrong::NoAnswer(why.into()))
    }

    /// The question, with what it covers.
    pub(super) fn ask(prompt: Prompt, takes: Takes) -> Self {
        let Prompt { question, warnings } = prompt;
        let covers = question.covers();
        Self::Ask(Box::new(Ask { question, takes, warnings, covers, is_laid_out_first: false }))
    }

    /// The same question, with no less covered than this.
    pub(super) fn covering(mut self, covered: Covered) -> Self {
        if let Self::Ask(ask) = &mut self
            && covered.rank() > ask.covers.rank()
        {
            ask.covers = covered;
        }
        self
    }

    /// The same question, with what is to be laid out named first, where one of its answers is a key away.
    pub(super) fn laid_out_first(mut self) -> Self {
        if let Self::Ask(ask) = &mut self {
            ask.is_laid_out_first = matches!(ask.takes, Takes::Choices(_));
        }
        self
    }

    /// The same question, with this said before what else is wrong.
    pub(super) fn warned_first(mut self, warning: Option<Warning>) -> Self {
        if let Self::Ask(ask) = &mut self {
            ask.warnings.splice(0..0, warning);
        }
        self
    }
}

impl From<Vec<Act>> for Done {
    fn from(acts: Vec<Act>) -> Self {
        Self::Acts(acts)
    }
}
