//! The parts request: what the job needs now, so that nobody at the desk phones back. Need and
//! spare are kept apart, unidentified parts are described rather than dropped, and forgotten
//! companions are added and said.

mod build;
mod form;
mod form_back;
mod leads;
mod others;
mod paper;
mod repairs;
mod table;

pub use build::build;
pub(crate) use form::LineForm;
pub use form::RequestForm;
pub use paper::paper;
pub use table::table;

pub use crate::supply::RequestHead;

use crate::{
    job::{Act, ItemId, RequestSaid, RequestedLine},
    supply::{LeadSpec, Line, RequestNumber},
};

/// A line of a request, with what only the job knows of it.
#[derive(Debug, Clone, PartialEq)]
pub struct JobLine {
    /// What is asked for.
    pub asked: Line,
    /// The leads that wait for it.
    pub leads: Vec<ItemId>,
    /// How many of it have come.
    pub came: u32,
    /// What is not as it was in the revision sent last, in words.
    pub changes: Vec<String>,
}

impl JobLine {
    /// A line no lead waits for.
    fn of(asked: Line) -> Self {
        Self { asked, leads: Vec::new(), came: 0, changes: Vec::new() }
    }

    /// How many of the need have not come.
    pub fn wanted(&self) -> u32 {
        self.asked.need.saturating_sub(self.came)
    }
}

/// A request.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// Its number, readable aloud.
    pub number: RequestNumber,
    /// Its revision, from 1.
    pub revision: u32,
    /// Whether it differs from the revision sent last.
    pub changed: bool,
    /// The job.
    pub job: String,
    /// Machine, serial number, connector and reason, as on the ticket.
    pub ticket: crate::job::Ticket,
    /// Why it is asked for.
    pub why: String,
    /// The day it was put together, as YYYY-MM-DD.
    pub day: String,
    /// What the bench says.
    pub head: RequestHead,
    /// Numbers of photos.
    pub photos: Vec<String>,
    /// The lines.
    pub lines: Vec<JobLine>,
}

impl Request {
    /// The act that keeps the sending of this request in the job.
    pub fn requested(&self) -> Act {
        let lines = self
            .lines
            .iter()
            .map(|line| RequestedLine {
                line: line.asked.line,
                need: line.asked.need,
                leads: line.leads.clone(),
                length_mm: line.asked.lead.as_ref().and_then(|lead| lead.length_mm),
                asked: Some(Box::new(line.asked.clone())),
            })
            .collect();
        let said =
            RequestSaid { head: self.head.clone(), why: self.why.clone(), photos: self.photos.clone() };
        Act::Requested {
            number: self.number.to_string(),
            revision: self.revision,
            lines,
            said: Some(Box::new(said)),
        }
    }

    /// What lead orders do not state yet: such a request is not sent.
    pub fn incomplete(&self) -> Vec<String> {
        let specs = self
            .lines
            .iter()
            .map(|line| &line.asked)
            .filter(|asked| asked.need > 0)
            .filter_map(|asked| Some((asked, asked.lead.as_ref()?)));
        let told = |(line, spec): (&Line, &LeadSpec)| {
            (!spec.missing.is_empty()).then(|| {
                format!(
                    "line {}, the repair lead for {}, does not state: {}",
                    line.line,
                    spec.circuit,
                    spec.missing.join("; ")
                )
            })
        };
        specs.filter_map(told).collect()
    }

    /// The name of the file it is written to.
    pub fn file_name(&self) -> String {
        format!("{}-{}.request.ron", self.number, self.revision)
    }
}
