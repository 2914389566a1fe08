//! What a job must ask for now, as lines of supply, so that nobody at the desk phones back. Need and
//! spare are kept apart, parts without a number are described rather than dropped, and forgotten
//! companions are added and said.

mod housings;
mod leads;
mod looks;
mod need;
mod others;
mod plugs;
mod repairs;
mod request;

pub use request::{JobLine, JobRequest};

use housings::housing_lines;
use need::Need;
use others::other_lines;
use plugs::plug_lines;
use repairs::{Proved, repair_lines};

use super::{Assessment, ItemId, Job, JobSide, State, day_of};
use crate::{
    reckoning::ToolBook,
    supply::{Change, Line, Request, RequestHead, RequestNumber, revise},
};

/// The request of a job as it stands, numbered on from the one sent before.
pub fn build(
    job: &Job,
    assessment: &Assessment,
    id: &str,
    head: RequestHead,
    previous: Option<&Request>,
    book: &ToolBook,
) -> JobRequest {
    let state = job.state();
    let today = day_of(assessment.now);
    let needs = needs(state, assessment, &Proved { book, today, previous });
    let mut head = match previous {
        Some(previous) => head.after(&previous.head),
        None => head,
    };
    let (lines, is_revised) = number_lines(needs, previous, state);
    let changed = is_revised || previous.is_some_and(|previous| !previous.head.delivers_as(&head));
    if let Some(previous) = previous.filter(|_| !changed) {
        // Whoever prints it: it was asked by who sent it.
        head.asked_by.clone_from(&previous.head.asked_by);
    }
    let sent = state.supply.requested.as_ref().map_or(0, |r| r.revision);
    JobRequest {
        number: request_number(state, id),
        revision: if changed { sent + 1 } else { sent.max(1) },
        changed,
        job: id.to_owned(),
        ticket: state.world.ticket.clone(),
        why: why(state),
        day: today,
        head,
        photos: state.course.photos.iter().map(|(number, _)| number.clone()).collect(),
        lines,
    }
}

/// One number for every later enquiry: the one that went out, else the one of the ticket's id. A
/// ticket of version 1 has none: there the file's name stands for it, as it did then. What an old
/// journal calls a number and is none never went out.
fn request_number(state: &State, name: &str) -> RequestNumber {
    match &state.world.ticket.id {
        Some(id) => {
            let sent = state.supply.requested.as_ref().and_then(|sent| sent.number.parse().ok());
            sent.unwrap_or_else(|| RequestNumber::of_job(id.as_str()))
        }
        None => RequestNumber::of_job(name),
    }
}

/// Why it is asked for: the reason on the ticket, and the cause once it is known.
fn why(state: &State) -> String {
    let kind = state.records.cause_kind.map(|kind| kind.words().to_owned());
    let cause = kind.into_iter().chain(state.records.cause.clone()).collect::<Vec<_>>().join(", ");
    let said = [state.world.ticket.reason.clone(), cause];
    said.into_iter().filter(|text| !text.trim().is_empty()).collect::<Vec<_>>().join("; cause: ")
}

/// Everything the job needs, housing by housing, then what its repairs need.
fn needs(state: &State, assessment: &Assessment, proved: &Proved<'_>) -> Vec<Need> {
    let mut needs = Vec::new();
    for new in state.housings.side(JobSide::New) {
        housing_lines(state, assessment, new, &mut needs);
        plug_lines(state, assessment, new, &mut needs);
        other_lines(state, assessment, new, &mut needs);
    }
    repair_lines(state, assessment, proved, &mut needs);
    needs
}

/// Gives every line its number: the one it had, else a new one. Lines that are gone stay with need 0.
/// Says whether anything changed.
fn number_lines(needs: Vec<Need>, previous: Option<&Request>, state: &State) -> (Vec<JobLine>, bool) {
    let job_line = |asked: Line, leads: Vec<ItemId>, fitted: u32, changes: Vec<Change>| {
        let mut counts = state.supply.counts_of(asked.line, asked.amount);
        counts.fit(fitted);
        JobLine { asked, leads, counts, changes }
    };
    let Some(previous) = previous else {
        // What was sent before cannot be read: its line numbers are known and not given again.
        let sent = state.supply.requested.iter().flat_map(|sent| &sent.lines);
        let next = sent.map(|line| line.line).max().unwrap_or(0).saturating_add(1);
        let numbered = (next..)
            .zip(needs)
            .map(|(line, need)| job_line(Line { line, ..need.asked }, need.leads, need.fitted, Vec::new()));
        return (numbered.collect(), true);
    };
    let now: Vec<Line> = needs.iter().map(|need| need.asked.clone()).collect();
    let revision = revise(&previous.lines, now);
    let lines = needs.into_iter().zip(revision.lines);
    let lines = lines.map(|(need, now)| job_line(now.line, need.leads, need.fitted, now.changes));
    let gone = revision.gone.into_iter().map(|gone| job_line(gone.line, Vec::new(), 0, gone.changes));
    let mut lines: Vec<JobLine> = lines.chain(gone).collect();
    lines.sort_by_key(|line| line.asked.line);
    (lines, revision.changed)
}
