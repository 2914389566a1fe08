//! Requests on disk. What was asked for stands in the job; the file beside it is an export for the
//! desk, which can be written again.

use std::path::Path;

use jiff::Timestamp;

use super::{open::OpenJob, refused::EnterProblem};
use crate::{
    form::{RequestForm, read_request, write_request},
    job::{
        Entry,
        needs::{JobRequest, build},
    },
    report::missing_in_words,
    store::{FileName, FolderStore, Store, StoreProblem},
    supply::{Amount, Request, RequestHead, RequestNumber},
};

/// A request that would make the desk phone back.
#[derive(Debug, thiserror::Error)]
#[error("not sent: {}. Complete the order first", .0.join(". "))]
pub struct IncompleteOrder(Vec<String>);

/// Why a request was not sent.
#[derive(Debug, thiserror::Error)]
pub enum SendProblem {
    /// Something is missing in it.
    #[error(transparent)]
    Incomplete(#[from] IncompleteOrder),
    /// The job does not take it.
    #[error(transparent)]
    NotEntered(#[from] EnterProblem),
    /// The job has it, the desk has not.
    #[error(
        "the order IS recorded in the job, as request {number} revision {revision}, but the desk has no file of it. \
         Free the disk, then write the file again with `repin request {job} --export DIR`: {why}"
    )]
    NoFile {
        /// The request.
        number: RequestNumber,
        /// Its revision.
        revision: u32,
        /// The job.
        job: String,
        /// Why the file was not written.
        why: ExportProblem,
    },
}

/// Why a request was not written for the desk.
#[derive(Debug, thiserror::Error)]
pub enum ExportProblem {
    /// What was sent cannot be told.
    #[error(transparent)]
    Lost(#[from] LostRequest),
    /// It cannot be put in words.
    #[error("the request cannot be written: {0}")]
    NoText(String),
    /// The file cannot be written.
    #[error(transparent)]
    NotWritten(#[from] StoreProblem),
}

/// Why what was sent last cannot be told.
#[derive(Debug, thiserror::Error)]
#[error("what was asked for before cannot be compared: {why}")]
pub struct LostRequest {
    why: String,
    is_gone: bool,
}

impl LostRequest {
    fn of(why: &dyn std::fmt::Display) -> Self {
        Self { why: why.to_string(), is_gone: false }
    }

    /// Whether there is no file at all, rather than one that cannot be read: nothing to look at.
    pub fn is_gone(&self) -> bool {
        self.is_gone
    }
}

/// The request sent last, as its entry keeps it; of a version 1 job as its file holds it. A file that
/// cannot be read keeps nobody from the job: [`lost_request`] says so.
pub fn last_request(open: &OpenJob) -> Option<Request> {
    sent_last(open).unwrap_or_default()
}

/// Why the request sent last cannot be told, when that is so.
pub fn lost_request(open: &OpenJob) -> Option<LostRequest> {
    sent_last(open).err()
}

fn sent_last(open: &OpenJob) -> Result<Option<Request>, LostRequest> {
    let state = open.job().state();
    let Some(sent) = &state.supply.requested else { return Ok(None) };
    if let Some(kept) = sent.sent() {
        return Ok(Some(kept));
    }
    let lost = |why: String| LostRequest { why, is_gone: false };
    let number: RequestNumber = sent.number.parse().map_err(|why| LostRequest::of(&why))?;
    let name = FileName::of_request(&number, sent.revision);
    let file = || open.at.store.export_place(&name);
    match open.at.store.exported(&name) {
        Ok(Some(text)) => match read_request(&file(), &text) {
            Ok(request) => Ok(Some(request)),
            Err(why) => Err(lost(format!("this is not a request: {}", why.in_one_line()))),
        },
        Ok(None) => {
            let why = format!("{}: there is no such file", file());
            Err(LostRequest { why, is_gone: true })
        }
        Err(why) => Err(lost(why.to_string())),
    }
}

/// The request of a job as it stands.
pub fn request_of(open: &OpenJob, head: RequestHead, now: Timestamp) -> JobRequest {
    let assessment = open.job().assess(now, None);
    // Without the book no position counts as proved; parts can be asked for all the same.
    let book = open.tool_book().unwrap_or_default();
    build(open.job(), &assessment, &open.id(), head, last_request(open).as_ref(), &book)
}

/// Keeps the request in the job, then writes it for the desk. Sent again unchanged, it is the same
/// revision, nothing is kept twice, and the file is written again.
pub fn send_request(
    open: &mut OpenJob,
    head: RequestHead,
    now: Timestamp,
) -> Result<JobRequest, SendProblem> {
    let by = head.asked_by.clone();
    let request = request_of(open, head, now);
    let incomplete = missing_in_words(&request);
    if !incomplete.is_empty() {
        return Err(IncompleteOrder(incomplete).into());
    }
    if request.changed {
        let at = Timestamp::from_second(now.as_second()).unwrap_or(now);
        open.enter(Entry::new(at, by, request.requested()))?;
    }
    let name = FileName::of_request(&request.number, request.revision);
    write(&*open.at.store, &name, RequestForm::from(&request)).map_err(|why| SendProblem::NoFile {
        number: request.number.clone(),
        revision: request.revision,
        job: open.id(),
        why,
    })?;
    Ok(request)
}

/// Writes the request sent last into a folder, as its entry keeps it. Gives the file; none where nothing
/// was sent yet.
pub fn export_request(open: &OpenJob, folder: &Path) -> Result<Option<String>, ExportProblem> {
    let state = open.job().state();
    let Some(sent) = sent_last(open)? else { return Ok(None) };
    let name = FileName::of_request(&sent.number, sent.revision);
    let came = |line: u32| state.supply.counts_of(line, Amount::default()).arrived();
    let form = RequestForm::sent(&open.id(), &state.world.ticket, &sent, came);
    write(&FolderStore::at(folder.to_owned()), &name, form).map(Some)
}

fn write(store: &dyn Store, name: &FileName, form: RequestForm) -> Result<String, ExportProblem> {
    let text = write_request(&form.as_sent()).map_err(|why| ExportProblem::NoText(why.to_string()))?;
    Ok(store.export(name, &format!("{text}\n"))?)
}
