//! Requests on disk: the one sent last, and the sending of the next. They lie beside their job.

use anyhow::{Context, Result};
use jiff::Timestamp;

use super::{folder::Store, open::OpenJob, tools::read_book};
use crate::{
    request::{Request, RequestForm, RequestHead, build, read_request},
    swap::Entry,
};

/// A request that would make the desk phone back.
#[derive(Debug, thiserror::Error)]
#[error("not sent: {}. Complete the order first", .0.join(". "))]
pub struct IncompleteOrder(Vec<String>);

/// The request sent last, as its entry keeps it; of a version 1 job as its file holds it.
pub fn last_request(open: &OpenJob) -> Result<Option<RequestForm>> {
    let state = open.job().state();
    let Some(sent) = &state.requested else { return Ok(None) };
    if let Some(kept) = RequestForm::sent(&open.id(), &state.ticket, sent) {
        return Ok(Some(kept));
    }
    let name = format!("{}-{}.request.ron", sent.number, sent.revision);
    let text = folder_of(open).read(&name)?;
    text.map(|text| read_request(&text).with_context(|| format!("{name}: not a request"))).transpose()
}

/// The request of a job as it stands.
pub fn request_of(open: &OpenJob, head: RequestHead, now: Timestamp) -> Result<Request> {
    let survey = open.job().survey(now, None);
    let book = read_book(folder_of(open).folder())?;
    Ok(build(open.job(), &survey, &open.id(), head, last_request(open)?.as_ref(), &book))
}

/// Keeps the request in the job, then writes it for the desk. Sent again unchanged, it is the same
/// revision and nothing is kept twice.
pub fn send_request(open: &mut OpenJob, head: RequestHead, now: Timestamp) -> Result<Request> {
    let by = head.asked_by.clone();
    let request = request_of(open, head, now)?;
    let incomplete = request.incomplete();
    if !incomplete.is_empty() {
        return Err(IncompleteOrder(incomplete).into());
    }
    if request.changed {
        let at = Timestamp::from_second(now.as_second()).unwrap_or(now);
        open.enter(Entry::new(at, by, request.requested()))?;
    }
    let text = RequestForm::from(&request).to_ron().context("the request cannot be written")?;
    folder_of(open).write_whole(&request.file_name(), &format!("{text}\n"))?;
    Ok(request)
}

fn folder_of(open: &OpenJob) -> Store {
    let parent = open.path().parent().filter(|parent| !parent.as_os_str().is_empty());
    Store::at(parent.map_or_else(|| ".".into(), ToOwned::to_owned))
}
