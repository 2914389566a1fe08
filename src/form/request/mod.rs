//! The request as a document: JSON, and the RON file that `--send` writes.

mod lead;
mod line;
mod what;

use serde::{Deserialize, Serialize};

use super::{
    mirror::read_field,
    problem::Problem,
    reader::{Source, ron_options},
};
use crate::{
    catalogue::FieldFinding,
    job::{Ticket, needs::JobRequest},
    supply::{Request, RequestHead},
};

pub(crate) use line::LineForm;

/// A request from the text of its file.
pub fn read_request(file: &str, text: &str) -> Result<Request, Box<Problem>> {
    Source::file(file, text).read_with(RequestForm::read)
}

/// A request as the text of its file.
pub fn write_request(form: &RequestForm) -> Result<String, ron::Error> {
    ron_options().to_string_pretty(form, ron::ser::PrettyConfig::new().depth_limit(2))
}

/// A request in a file or a JSON document. Absent values are null.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RequestForm {
    request: String,
    revision: u32,
    changed: bool,
    job: String,
    asset: Option<String>,
    serial: Option<String>,
    connector: Option<String>,
    asked_by: String,
    bench: Option<String>,
    deliver_to: Option<String>,
    needed_by: Option<String>,
    urgency: Option<String>,
    why: Option<String>,
    photos: Vec<String>,
    lines: Vec<LineForm>,
}

impl From<&JobRequest> for RequestForm {
    fn from(request: &JobRequest) -> Self {
        let RequestHead { asked_by, bench, deliver_to, needed_by, urgency } = request.head.clone();
        Self {
            request: request.number.to_string(),
            revision: request.revision,
            changed: request.changed,
            job: request.job.clone(),
            asset: said(&request.ticket.asset),
            serial: said(&request.ticket.serial),
            connector: said(&request.ticket.connector),
            asked_by,
            bench,
            deliver_to,
            needed_by: needed_by.map(|day| day.to_string()),
            urgency: urgency.map(|urgency| urgency.to_string()),
            why: said(&request.why),
            photos: request.photos.clone(),
            lines: request.lines.iter().map(Into::into).collect(),
        }
    }
}

fn said(text: &str) -> Option<String> {
    (!text.trim().is_empty()).then(|| text.to_owned())
}

impl RequestForm {
    /// The request that was sent last, with what has come for each line: still the change that was sent.
    pub fn sent(job: &str, ticket: &Ticket, sent: &Request, came: impl Fn(u32) -> u32) -> Self {
        let RequestHead { asked_by, bench, deliver_to, needed_by, urgency } = sent.head.clone();
        let lines = sent.lines.iter().map(|line| LineForm::sent(line, came(line.line)));
        Self {
            request: sent.number.to_string(),
            revision: sent.revision,
            changed: true,
            job: job.to_owned(),
            asset: said(&ticket.asset),
            serial: said(&ticket.serial),
            connector: said(&ticket.connector),
            asked_by,
            bench,
            deliver_to,
            needed_by: needed_by.map(|day| day.to_string()),
            urgency: urgency.map(|urgency| urgency.to_string()),
            why: said(&sent.why),
            photos: sent.photos.clone(),
            lines: lines.collect(),
        }
    }

    /// The request as its file holds it: written again, it is still the change that was sent.
    pub fn as_sent(self) -> Self {
        Self { changed: true, ..self }
    }

    /// The request that a file holds.
    fn read(self) -> Result<Request, FieldFinding> {
        Ok(Request {
            number: read_field("request", self.request)?,
            revision: self.revision,
            head: RequestHead {
                asked_by: self.asked_by,
                bench: self.bench,
                deliver_to: self.deliver_to,
                needed_by: read_field("needed_by", self.needed_by)?,
                urgency: read_field("urgency", self.urgency)?,
            },
            why: self.why.unwrap_or_default(),
            photos: self.photos,
            lines: read_field("lines", self.lines)?,
        })
    }
}
