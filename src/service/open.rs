//! A job that is open: to be worked on, with the right to write it, or only to be looked at. What it
//! holds is what the store holds.

use std::{path::Path, rc::Rc};

use jiff::Timestamp;

use super::enter::EnterProblem;
use crate::{
    job::{Entry, Job},
    reckoning::{ToolBook, ToolPosition},
    store::{
        AppendProblem, Claim, EntryCount, FolderStore, Head, ReadProblem, Store, StoreProblem, StreamId,
        StreamWriter, Stretch,
    },
};

/// Why a job could not be opened at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenProblem {
    /// It cannot be read.
    #[error(transparent)]
    Unreadable(#[from] ReadProblem),
    /// It holds no whole entry.
    #[error("{0}")]
    NotAJob(String),
}

/// Where a job is, or would be.
#[derive(Debug, Clone)]
pub struct JobAt {
    pub(super) store: Rc<dyn Store>,
    pub(super) stream: StreamId,
}

impl JobAt {
    /// The job of this stream in a store.
    pub fn new(store: Rc<dyn Store>, stream: StreamId) -> Self {
        Self { store, stream }
    }

    /// The job in a file that a person named by its path.
    pub fn file(path: &Path) -> Self {
        let (store, stream) = FolderStore::of_file(path);
        Self { store: Rc::new(store), stream }
    }

    /// What it is called.
    pub fn id(&self) -> &str {
        self.stream.name()
    }

    /// Where it is, as sentences name it.
    pub fn place(&self) -> String {
        self.store.place(&self.stream)
    }

    /// Whether there is something already.
    pub fn is_there(&self) -> bool {
        self.store.holds(&self.stream)
    }
}

/// An open job.
#[derive(Debug)]
pub struct OpenJob {
    pub(super) at: JobAt,
    pub(super) job: Job,
    pub(super) head: Head,
    is_cut_short: bool,
    trouble: Option<String>,
    pub(super) writer: Writer,
}

/// Who may write it.
#[derive(Debug)]
pub(super) enum Writer {
    /// Entries may be added.
    Ours(Box<dyn StreamWriter>),
    /// They may not: why.
    ReadOnly(String),
}

impl OpenJob {
    /// Opens a job to be worked on; where another has it, or its journal is damaged or newer, it is
    /// opened read-only and says so.
    pub fn open(at: &JobAt, by: &str, now: Timestamp) -> Result<Self, OpenProblem> {
        let read = || at.store.read(&at.stream, EntryCount::default());
        if !at.is_there() {
            let writer = Writer::ReadOnly("opened to be looked at".to_owned());
            return Self::from_stretch(at, read()?, writer);
        }
        // The claim first: nobody appends between reading and claiming.
        match at.store.claim(&at.stream, by, now) {
            Claim::Ours(mut writer) => {
                let found = writer.read()?;
                let writer = match found.condition.may_be_written() {
                    true => Writer::Ours(writer),
                    false => Writer::ReadOnly(found.trouble.clone().unwrap_or_default()),
                };
                Self::from_stretch(at, found, writer)
            }
            Claim::Theirs(who) => {
                let say = format!("{} is open at another bench: {who}", at.place());
                Self::read_only_for(at, read()?, say)
            }
            Claim::Odd(say) => Self::read_only_for(at, read()?, say),
        }
    }

    /// Reads a job without touching anything.
    pub fn look(at: &JobAt) -> Result<Self, OpenProblem> {
        let found = at.store.read(&at.stream, EntryCount::default())?;
        Self::from_stretch(at, found, Writer::ReadOnly("opened to be looked at".to_owned()))
    }

    /// What is wrong with the journal comes before who has it.
    fn read_only_for(at: &JobAt, found: Stretch, say: String) -> Result<Self, OpenProblem> {
        let say = match found.condition.may_be_written() {
            true => say,
            false => found.trouble.clone().unwrap_or(say),
        };
        Self::from_stretch(at, found, Writer::ReadOnly(say))
    }

    fn from_stretch(at: &JobAt, found: Stretch, writer: Writer) -> Result<Self, OpenProblem> {
        if found.entries.is_empty() {
            let empty = || format!("{}: the file is empty; it is not a job", at.place());
            return Err(OpenProblem::NotAJob(found.trouble.unwrap_or_else(empty)));
        }
        Ok(Self {
            at: at.clone(),
            job: Job::replay(found.entries),
            head: found.head,
            is_cut_short: !found.condition.may_be_written(),
            trouble: found.trouble,
            writer,
        })
    }

    /// Starts a job: there must be none of its name, and all these entries go in or none.
    pub fn start(at: &JobAt, entries: Vec<Entry>, by: &str, now: Timestamp) -> Result<Self, EnterProblem> {
        let mut job = Job::default();
        for (n, entry) in entries.iter().enumerate() {
            super::enter::refuse(job.check(entry), entry, n)?;
            job.apply(entry.clone());
        }
        at.store.prepare().map_err(EnterProblem::NoRoom)?;
        let mut writer = match at.store.claim(&at.stream, by, now) {
            Claim::Ours(writer) => writer,
            Claim::Theirs(who) => {
                let say = format!("{} is being started at another bench: {who}", at.place());
                return Err(EnterProblem::ReadOnly(say));
            }
            Claim::Odd(say) => return Err(EnterProblem::ReadOnly(say)),
        };
        let head = writer.append(&Head::default(), &entries).map_err(|problem| match problem {
            AppendProblem::Conflict { place, .. } => EnterProblem::AlreadyThere(place),
            other => other.into(),
        })?;
        let writer = Writer::Ours(writer);
        Ok(Self { at: at.clone(), job, head, is_cut_short: false, trouble: None, writer })
    }

    /// The job as the store holds it.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// What the job is called.
    pub fn id(&self) -> String {
        self.at.id().to_owned()
    }

    /// Where it is, as sentences name it.
    pub fn place(&self) -> String {
        self.at.place()
    }

    /// Why nothing can be entered, when that is so.
    pub fn read_only(&self) -> Option<&str> {
        match &self.writer {
            Writer::Ours(_) => None,
            Writer::ReadOnly(why) => Some(why),
        }
    }

    /// What was wrong with the journal when it was read, when something was.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// Whether the journal is damaged or newer, so that this is not the whole job.
    pub fn is_cut_short(&self) -> bool {
        self.is_cut_short
    }

    /// The number and the check sum of the last entry, as the printed sheet carries them.
    pub fn last(&self) -> (usize, &str) {
        (self.head.n.0, self.head.sum.as_str())
    }

    /// The tool books of the shop this job lies in.
    pub fn tool_book(&self) -> Result<ToolBook, StoreProblem> {
        self.at.store.tool_book()
    }

    /// Writes a position into a bench's own tool book; gives the book's name.
    pub fn write_position(&self, bench: &str, position: &ToolPosition) -> Result<String, StoreProblem> {
        self.at.store.write_position(bench, position)
    }
}
