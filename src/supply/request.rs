//! A request as it goes to the desk: its head and its lines.

use jiff::civil::Date;

use super::{Line, RequestNumber, Urgency};

/// What the bench says beside what the job knows.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RequestHead {
    /// Who asks.
    pub asked_by: String,
    /// Which bench.
    pub bench: Option<String>,
    /// Where to deliver.
    pub deliver_to: Option<String>,
    /// By when.
    pub needed_by: Option<Date>,
    /// How urgent.
    pub urgency: Option<Urgency>,
}

impl RequestHead {
    /// The head of the next revision: what the bench does not say anew stays as it was said.
    pub fn after(self, before: &Self) -> Self {
        Self {
            asked_by: self.asked_by,
            bench: self.bench.or_else(|| before.bench.clone()),
            deliver_to: self.deliver_to.or_else(|| before.deliver_to.clone()),
            needed_by: self.needed_by.or(before.needed_by),
            urgency: self.urgency.or_else(|| before.urgency.clone()),
        }
    }

    /// Whether the desk would deliver alike by both; who asks is no difference.
    pub fn delivers_as(&self, other: &Self) -> bool {
        let said = |head: &Self| Self { asked_by: String::new(), ..head.clone() };
        said(self) == said(other)
    }
}

/// A request that was sent.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Its number, readable aloud.
    pub number: RequestNumber,
    /// Its revision, from 1.
    pub revision: u32,
    /// What the bench said.
    pub head: RequestHead,
    /// Why it was asked for.
    pub why: String,
    /// Numbers of photos.
    pub photos: Vec<String>,
    /// The lines, gone ones among them.
    pub lines: Vec<Line>,
}

impl Request {
    /// A line by its number.
    pub fn line(&self, line: u32) -> Option<&Line> {
        self.lines.iter().find(|asked| asked.line == line)
    }
}
