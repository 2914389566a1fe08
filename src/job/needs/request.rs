//! A request with what only the job knows of it.

use jiff::civil::Date;

use crate::{
    job::{Act, ItemId, RequestSaid, RequestedLine, Ticket},
    supply::{Change, Counts, Line, RequestHead, RequestNumber},
};

/// A line of a request, with what only the job knows of it.
#[derive(Debug, Clone, PartialEq)]
pub struct JobLine {
    /// What is asked for.
    pub asked: Line,
    /// The leads that wait for it.
    pub leads: Vec<ItemId>,
    /// How many are asked for, came, are fitted.
    pub counts: Counts,
    /// What is not as it was in the revision sent last.
    pub changes: Vec<Change>,
}

/// A request.
#[derive(Debug, Clone, PartialEq)]
pub struct JobRequest {
    /// Its number, readable aloud.
    pub number: RequestNumber,
    /// Its revision, from 1.
    pub revision: u32,
    /// Whether it differs from the revision sent last.
    pub changed: bool,
    /// The job.
    pub job: String,
    /// Machine, serial number, connector and reason, as on the ticket.
    pub ticket: Ticket,
    /// Why it is asked for.
    pub why: String,
    /// The day it was put together.
    pub day: Date,
    /// What the bench says.
    pub head: RequestHead,
    /// Numbers of photos.
    pub photos: Vec<String>,
    /// The lines.
    pub lines: Vec<JobLine>,
}

impl JobRequest {
    /// The act that keeps the sending of this request in the job.
    pub fn requested(&self) -> Act {
        let lines = self.lines.iter().map(|line| RequestedLine {
            line: line.asked.line,
            need: line.asked.amount.need,
            leads: line.leads.clone(),
            length_mm: line.asked.wanted.lead().and_then(|lead| lead.length_mm),
            asked: Some(Box::new(line.asked.clone())),
        });
        let said =
            RequestSaid { head: self.head.clone(), why: self.why.clone(), photos: self.photos.clone() };
        Act::Requested {
            number: self.number.to_string(),
            revision: self.revision,
            lines: lines.collect(),
            said: Some(Box::new(said)),
        }
    }

    /// The name of the file it is written to.
    pub fn file_name(&self) -> String {
        format!("{}-{}.request.ron", self.number, self.revision)
    }

    /// The lines of repair leads whose order does not state everything yet: with those a request is not
    /// sent.
    pub fn incomplete(&self) -> impl Iterator<Item = &Line> {
        let lines = self.lines.iter().map(|line| &line.asked).filter(|asked| !asked.is_gone());
        lines.filter(|asked| {
            let spec = asked.wanted.lead().and_then(|lead| lead.spec.as_deref());
            spec.is_some_and(|spec| !spec.missing.is_empty())
        })
    }
}
