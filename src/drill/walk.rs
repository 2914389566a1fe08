//! A whole job by the questions alone: asked, answered, checked, applied, until nothing is left to do.

use jiff::{SignedDuration, Timestamp};

use crate::{
    job::{Act, Alarm, Entry, Job, Refusal, Verdict, day_of},
    procedure::{Barred, Done, JobView, Question, Reply, Stop, Topic, Wrong, ask, topic_now},
    reckoning::ToolBook,
};

use super::{Technician, Unanswered};

/// More questions than any job has.
const QUESTIONS_MOST: usize = 20_000;

/// Between two acts.
const STEP: SignedDuration = SignedDuration::from_secs(5);

/// A job that was walked to its end.
#[derive(Debug)]
pub struct Walked {
    /// The job.
    pub job: Job,
    /// How often something was asked.
    pub questions: usize,
    /// How many keys were pressed: one an answer of one key, and what is typed with its end.
    pub keys: usize,
    /// What was said loudly on the way: what did not agree, did not click, did not hold.
    pub loud: Vec<Alarm>,
    /// When the last act was done.
    pub now: Timestamp,
}

/// Why a job cannot be walked on.
#[derive(Debug, thiserror::Error)]
pub enum Stuck {
    /// A question has no answer.
    #[error(transparent)]
    Unanswered(#[from] Unanswered),
    /// An answer was not taken.
    #[error("{reply:?} does not answer {question:?}: {why}")]
    NotTaken {
        /// What was asked.
        question: Box<Question>,
        /// What was answered.
        reply: Option<Reply>,
        /// Why not.
        why: String,
    },
    /// The job refuses what was answered.
    #[error("{reply:?} does not answer {question:?}: {refusals:?}")]
    Unfit {
        /// What was asked.
        question: Option<Box<Question>>,
        /// What was answered.
        reply: Option<Reply>,
        /// What the job says to it.
        refusals: Vec<Refusal>,
    },
    /// An act was refused.
    #[error("{act:?}: {refusals:?}")]
    Refused {
        /// The act.
        act: Box<Act>,
        /// What the job says to it.
        refusals: Vec<Refusal>,
    },
    /// The procedure wants something that is no act.
    #[error("the procedure wants {0:?}, and nobody does that here")]
    NoAct(Box<Done>),
    /// It goes on and on.
    #[error("after {QUESTIONS_MOST} questions the job is not done")]
    Endless,
}

/// Walks a job until nothing is left to do, or nothing goes on.
pub fn walk(
    mut job: Job,
    tools: &ToolBook,
    by: &str,
    start: Timestamp,
    technician: &mut Technician,
) -> Result<Walked, Stuck> {
    let (mut now, mut questions, mut keys, mut loud) = (start, 0, 0, Vec::new());
    while questions < QUESTIONS_MOST {
        let assessment = job.assess(now, Some(by));
        let view = JobView {
            id: "walk",
            job: &job,
            assessment: &assessment,
            last_request: None,
            tools,
            by,
            read_only: None,
        };
        let topic = topic_now(&view);
        if topic == Topic::Nothing {
            return Ok(Walked { job, questions, keys, loud, now });
        }
        let replies = answer(&view, &topic, technician)?;
        questions += replies.given.len();
        keys += replies.given.iter().map(keys_of).sum::<usize>();
        loud.extend(enter(&mut job, replies.acts, tools, by, now)?);
        now = now.checked_add(STEP).unwrap_or(now);
    }
    Err(Stuck::Endless)
}

/// The replies to one topic, and the acts they come to.
struct Answered {
    given: Vec<Reply>,
    acts: Vec<Act>,
}

fn answer(view: &JobView<'_>, topic: &Topic, technician: &mut Technician) -> Result<Answered, Stuck> {
    let mut given: Vec<Reply> = Vec::new();
    let mut asked = None;
    loop {
        match ask(view, topic, &given) {
            Ok(Done::Acts(acts)) => return Ok(Answered { given, acts }),
            Ok(done) => return Err(Stuck::NoAct(Box::new(done))),
            Err(Stop::Ask(ask)) => {
                given.push(technician.reply(view, &ask)?);
                asked = Some(ask.question);
            }
            Err(Stop::Wrong(Wrong::NoAnswer(why))) => return Err(not_taken(asked, given, why, topic)),
            Err(Stop::Wrong(Wrong::Refused(refusals))) => {
                return Err(Stuck::Unfit { question: asked.map(Box::new), reply: given.pop(), refusals });
            }
            Err(Stop::Barred(barred)) => {
                let Barred { act, refusals, .. } = *barred;
                return Err(Stuck::Refused { act: Box::new(act), refusals });
            }
        }
    }
}

fn not_taken(asked: Option<Question>, mut given: Vec<Reply>, why: String, topic: &Topic) -> Stuck {
    match asked {
        Some(question) => Stuck::NotTaken { question: Box::new(question), reply: given.pop(), why },
        None => Stuck::Unanswered(Unanswered::of_topic(topic, why)),
    }
}

/// Every act of an answer by the one road: checked, then applied. Gives what is said loudly of them.
fn enter(
    job: &mut Job,
    acts: Vec<Act>,
    tools: &ToolBook,
    by: &str,
    now: Timestamp,
) -> Result<Vec<Alarm>, Stuck> {
    let first = job.entries().len() + 1;
    let mut loud = Vec::new();
    for (nth, act) in acts.into_iter().enumerate() {
        let mut entry = Entry::new(now, by.to_owned(), act);
        entry.with = (nth > 0).then_some(first);
        job.state().book_crimp(&mut entry.act, |key| tools.standing(key, day_of(now)));
        let verdict = job.check(&entry);
        if verdict != Verdict::Allowed {
            let refusals = verdict.refusals().to_vec();
            return Err(Stuck::Refused { act: Box::new(entry.act), refusals });
        }
        let act = entry.act.clone();
        job.apply(entry);
        loud.extend(job.state().alarm(&act));
    }
    Ok(loud)
}

fn keys_of(reply: &Reply) -> usize {
    match reply {
        Reply::Choice(_) => 1,
        Reply::Text(text) => text.chars().count() + 1,
    }
}
