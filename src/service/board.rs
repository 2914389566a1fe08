//! The job board: where every job of a store stands, from summaries that are reckoned once and kept. What
//! of a job depends on the time is kept both ways, and chosen when it is shown.

use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

use super::open::{JobAt, OpenJob};
use crate::{
    job::{Assessment, Job, JobState, Status},
    report::flag_words,
    store::{Listed, Store, StoreProblem, StreamKind, Summarised, Summary},
};

/// A job as the board lists it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BoardJob {
    /// Its id.
    pub id: String,
    /// When it was last touched.
    pub touched: Timestamp,
    /// How it stands, or why it cannot be opened.
    pub stands: Result<Stands, String>,
}

/// How a job stands at a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stands {
    /// Machine.
    pub asset: String,
    /// Connector.
    pub connector: String,
    /// The word for where it stands.
    pub state: String,
    /// What it waits for, what is wrong with its file, or how far it is.
    pub about: String,
}

/// What is kept of a job: all that the board says of it, whatever the time.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct BoardForm {
    asset: String,
    connector: String,
    /// As the last entry left it.
    at_work: StandForm,
    /// As a pause leaves it.
    paused: StandForm,
    /// From when to when it is at work, in seconds; for ever where nothing says when.
    at_work_s: Option<(i64, i64)>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct StandForm {
    state: String,
    about: String,
}

/// Every job of a store as it stands now, the last touched first. Jobs without a summary that holds are
/// read one after the other; their summaries are kept for the next time.
pub fn board(store: &std::rc::Rc<dyn Store>, now: Timestamp) -> Result<Vec<BoardJob>, StoreProblem> {
    let mut new = Vec::new();
    let mut jobs = Vec::new();
    for listed in store.list(StreamKind::Job)? {
        let Listed { stream, touched, summary } = listed;
        let id = stream.name().to_owned();
        let kept = summary.and_then(|(_, summary)| BoardForm::read(&summary));
        let stands = match kept {
            Some(form) => Ok(form.at(now)),
            None => OpenJob::look(&JobAt::new(store.clone(), stream.clone()))
                .map_err(|why| why.to_string())
                .map(|open| {
                    let form = BoardForm::of(open.job());
                    if open.trouble().is_none()
                        && let Some(summary) = form.summary()
                    {
                        new.push(Summarised { stream, head: open.head.clone(), summary });
                    }
                    let about = open.trouble().map(ToOwned::to_owned);
                    let stands = form.at(now);
                    Stands { about: about.unwrap_or(stands.about), ..stands }
                }),
        };
        jobs.push(BoardJob { id, touched, stands });
    }
    if !new.is_empty() {
        store.keep(&new);
    }
    Ok(jobs)
}

impl BoardForm {
    fn of(job: &Job) -> Self {
        let state = job.state();
        let last = state.course.last_at;
        let pause = SignedDuration::from_hours(i64::from(state.world.rules.pause_h.value));
        let at_work_from = last.unwrap_or_default();
        let paused_from = at_work_from.checked_add(pause).unwrap_or(Timestamp::MAX);
        Self {
            asset: state.world.ticket.asset.clone(),
            connector: state.world.ticket.connector.clone(),
            at_work: StandForm::of(job, at_work_from),
            paused: StandForm::of(job, paused_from),
            at_work_s: last.map(|last| (last.as_second(), paused_from.as_second())),
        }
    }

    fn at(self, now: Timestamp) -> Stands {
        let is_at_work = self.at_work_s.is_none_or(|(from, until)| (from..until).contains(&now.as_second()));
        let StandForm { state, about } = if is_at_work { self.at_work } else { self.paused };
        Stands { asset: self.asset, connector: self.connector, state, about }
    }

    fn summary(&self) -> Option<Summary> {
        serde_json::to_string(self).ok().map(Summary)
    }

    fn read(summary: &Summary) -> Option<Self> {
        serde_json::from_str(&summary.0).ok()
    }
}

impl StandForm {
    fn of(job: &Job, now: Timestamp) -> Self {
        let assessment = job.assess(now, None);
        Self { state: assessment.account.state.as_str().to_owned(), about: about(job, &assessment) }
    }
}

/// What a job waits for, or how far it is.
fn about(job: &Job, assessment: &Assessment) -> String {
    let account = &assessment.account;
    let state = job.state();
    match account.state {
        JobState::Stopped => state.course.stopped.clone().unwrap_or_default(),
        JobState::Closed => format!("signed by {}", state.course.signed.clone().unwrap_or_default()),
        JobState::Waiting => {
            let waits: Vec<String> = state
                .items
                .leads
                .iter()
                .filter(|lead| state.supply.waits_for_part(lead))
                .map(|lead| lead.call())
                .collect();
            format!("waits for parts: {}", waits.join(", "))
        }
        JobState::NotStartable => {
            let gravest = account.open_flags().next();
            gravest.map_or(String::new(), |flag| flag_words(flag).say)
        }
        JobState::NotStarted | JobState::Moving | JobState::ReadyToClose => {
            let done = assessment.steps.iter().filter(|s| s.status == Status::Done).count();
            let out = match account.not_in_a_housing() {
                0 => String::new(),
                n => format!(", {n} in no housing"),
            };
            format!("{done} of {} steps done{out}", assessment.steps.len())
        }
    }
}
