//! The port of the store: streams of entries that are appended to, read, listed and watched. What
//! lies behind it (a folder, memory) is nobody's business above this module.

use std::{collections::BTreeMap, fmt};

use jiff::Timestamp;

use super::{
    files::ReadProblem,
    folder::Stamp,
    job_id::{FileName, JobId},
    journal::{Condition, line_of},
};
use crate::{
    job::Entry,
    reckoning::{ToolBook, ToolPosition},
};

/// A stream: entries in one order, with one writer.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StreamId {
    /// The journal of a job.
    Job(JobId),
}

impl StreamId {
    /// Of which kind it is.
    pub fn kind(&self) -> StreamKind {
        match self {
            Self::Job(_) => StreamKind::Job,
        }
    }

    /// Its name among those of its kind.
    pub fn name(&self) -> &str {
        match self {
            Self::Job(id) => id.as_str(),
        }
    }
}

impl fmt::Display for StreamId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Job(id) => write!(f, "job/{id}"),
        }
    }
}

/// The kinds of streams.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StreamKind {
    /// Journals of jobs.
    Job,
}

/// How many entries a stream holds: the number of its last one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct EntryCount(pub usize);

/// The check sum of an entry, which covers all entries before it; none where there are none.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Sum(String);

impl Sum {
    /// As a journal writes it.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<String> for Sum {
    fn from(sum: String) -> Self {
        Self(sum)
    }
}

/// How far a stream goes. Two streams of one head hold the same entries.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Head {
    /// How many entries.
    pub n: EntryCount,
    /// The check sum of the last.
    pub sum: Sum,
}

impl Head {
    /// The head after one more entry, and the line of that entry.
    pub(super) fn after(&self, entry: &Entry) -> Result<(Self, String), ron::Error> {
        let n = self.n.0 + 1;
        let (line, sum) = line_of(n, entry, self.sum.as_str())?;
        Ok((Self { n: EntryCount(n), sum: Sum(sum) }, line))
    }
}

/// What was read of a stream.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// The entries from the place on that was asked for.
    pub entries: Vec<Entry>,
    /// How far the entries go that can be trusted.
    pub head: Head,
    /// Whether that is all there is.
    pub condition: Condition,
    /// What is wrong, in one sentence that names the place, when something is.
    pub trouble: Option<String>,
}

/// The right to write a stream, or who has it.
#[derive(Debug)]
pub enum Claim {
    /// It is ours, until the writer is dropped.
    Ours(Box<dyn StreamWriter>),
    /// Somebody else has it: who.
    Theirs(String),
    /// What lies there is not to be written into: what it is, and what to do.
    Odd(String),
}

/// The one who may write a stream.
pub trait StreamWriter: fmt::Debug {
    /// The stream from its start, as it is written on.
    fn read(&mut self) -> Result<Stretch, ReadProblem>;

    /// Adds entries, all or none, and gives the head they end in. `expected` is the head they follow; where
    /// it is none, the stream is started. On disk when this returns.
    fn append(&mut self, expected: &Head, entries: &[Entry]) -> Result<Head, AppendProblem>;
}

/// Why entries were not added.
#[derive(Debug, thiserror::Error)]
pub enum AppendProblem {
    /// The stream does not end where the entries were to follow.
    #[error("{place} {how} since it was read: nothing is written into it; open it again")]
    Conflict {
        /// The stream.
        place: String,
        /// What became of it.
        how: Change,
        /// Where it ends now.
        head: Head,
    },
    /// It cannot take more.
    #[error("{place} would be larger than {most_mb} MB: start a new job")]
    Full {
        /// The stream.
        place: String,
        /// The bound.
        most_mb: u64,
    },
    /// The disk failed, and the stream is what it was.
    #[error("{place}: {why}")]
    Disk {
        /// The stream.
        place: String,
        /// What the system says.
        why: String,
    },
    /// The disk failed, and what it took of the entries could not be taken away again.
    #[error("{place}: {why}")]
    InDoubt {
        /// The stream.
        place: String,
        /// What the system says.
        why: String,
    },
}

/// What became of a stream behind the writer's back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Change {
    /// Another of the same name lies there.
    #[error("was replaced by another file")]
    Replaced,
    /// It holds something else.
    #[error("was changed by another program")]
    Written,
}

/// Text about a stream, reckoned from its entries and kept beside it. May be thrown away at any time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary(pub String);

/// A stream as it is listed.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// Which it is.
    pub stream: StreamId,
    /// When it was last changed.
    pub touched: Timestamp,
    /// How far it goes and the summary that was kept of that; none where none was kept, or where the
    /// stream may have changed since.
    pub summary: Option<(Head, Summary)>,
}

/// A summary, with the head it was reckoned for.
#[derive(Debug, Clone, PartialEq)]
pub struct Summarised {
    /// The stream.
    pub stream: StreamId,
    /// How far it went.
    pub head: Head,
    /// What is said of it.
    pub summary: Summary,
}

/// A place in the history of a store, to be asked what changed since. The default is before everything.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cursor(pub(super) Seen);

/// What a backend has to know to tell what changed.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) enum Seen {
    /// Nothing was looked at.
    #[default]
    Nothing,
    /// So many changes were seen.
    Changes(u64),
    /// Files as they were.
    Files(BTreeMap<StreamId, Stamp>),
}

/// Why something of the store cannot be done.
#[derive(Debug, thiserror::Error)]
pub enum StoreProblem {
    /// The system names no folder for a user's data.
    #[error("there is no home folder to keep jobs in: name one with --store DIR or REPIN_STORE")]
    NoHome,
    /// There is no folder and none can be made.
    #[error("{folder}: the folder for {what} cannot be made: {why}")]
    NoFolder {
        /// Which.
        folder: String,
        /// What it is for.
        what: &'static str,
        /// What the system says.
        why: std::io::Error,
    },
    /// A folder cannot be looked through.
    #[error("{folder}: not a folder that can be read: {why}")]
    NotListed {
        /// Which.
        folder: String,
        /// What the system says.
        why: std::io::Error,
    },
    /// A file cannot be written.
    #[error("{file}: cannot be written: {why}")]
    NotWritten {
        /// Which.
        file: String,
        /// What the system says.
        why: String,
    },
    /// A file must not be overwritten.
    #[error("{file}: there is a family of this name already: give the housing another part number")]
    FamilyThere {
        /// Which.
        file: String,
    },
    /// A file cannot be read.
    #[error(transparent)]
    Unreadable(#[from] ReadProblem),
    /// The house rules cannot be read.
    #[error("the house rules cannot be read: {0}")]
    NoRules(ReadProblem),
    /// What a file says is not understood: the sentence names the place.
    #[error("{0}")]
    NotUnderstood(String),
}

/// Where streams are kept.
pub trait Store: fmt::Debug {
    /// Claims the right to write a stream, there already or not, for who works there.
    fn claim(&self, stream: &StreamId, by: &str, now: Timestamp) -> Claim;

    /// The entries of a stream after the first `from`. Reading changes nothing.
    fn read(&self, stream: &StreamId, from: EntryCount) -> Result<Stretch, ReadProblem>;

    /// Whether something of a stream's name is there, whatever it is.
    fn holds(&self, stream: &StreamId) -> bool;

    /// Makes room for new streams, where there is none yet.
    fn prepare(&self) -> Result<(), StoreProblem>;

    /// Every stream of a kind, the last touched first.
    fn list(&self, kind: StreamKind) -> Result<Vec<Listed>, StoreProblem>;

    /// Keeps summaries for the next listing, as well as it can: they are no part of any stream, and a store
    /// that cannot keep them lists all the same.
    fn keep(&self, summaries: &[Summarised]);

    /// What changed since the cursor, and the cursor for the next look.
    fn watch(&self, since: &Cursor) -> Result<(Vec<StreamId>, Cursor), StoreProblem>;

    /// Where a stream is, as sentences name it.
    fn place(&self, stream: &StreamId) -> String;

    /// The tool books of all benches, as one.
    fn tool_book(&self) -> Result<ToolBook, StoreProblem>;

    /// Writes a position into a bench's own tool book; gives the book's name.
    fn write_position(&self, bench: &str, position: &ToolPosition) -> Result<String, StoreProblem>;

    /// Writes a text for people beside the streams, whole, in the place of one that is there; gives where.
    fn export(&self, name: &FileName, text: &str) -> Result<String, StoreProblem>;

    /// A text that was exported, when it is there.
    fn exported(&self, name: &FileName) -> Result<Option<String>, ReadProblem>;

    /// Where an exported text is or would be, as sentences name it.
    fn export_place(&self, name: &FileName) -> String;
}

/// One road for both backends: the lines of entries after a head, and the head they end in.
pub(super) fn lines_after(head: &Head, entries: &[Entry]) -> Result<(String, Head), ron::Error> {
    let (mut text, mut head) = (String::new(), head.clone());
    for entry in entries {
        let (after, line) = head.after(entry)?;
        text.push_str(&line);
        text.push('\n');
        head = after;
    }
    Ok((text, head))
}
