//! Journals and what lies beside them, behind one port with a backend in a folder and one in memory:
//! the only module that writes files. Above it nothing does.

mod act_file;
mod files;
mod folder;
pub mod form;
mod job_id;
mod journal;
mod library;
mod memory;
mod port;

pub use act_file::{ActLine, ActProblem, read_acts};
pub use files::{
    JOB_MOST, LIST_MOST, Links, ReadProblem, TEXT_MOST, private_folder, read_bytes, read_stdin, read_text,
};
pub use folder::{FolderStore, Stamp};
pub use job_id::{FileName, FileNameProblem, JobId, JobIdProblem};
pub use journal::{Condition, Journal, line_of, read_journal};
pub use library::write_family;
pub use memory::MemoryStore;
pub use port::{
    AppendProblem, Change, Claim, Cursor, EntryCount, Head, Listed, Store, StoreProblem, StreamId,
    StreamKind, StreamWriter, Stretch, Sum, Summarised, Summary,
};

#[cfg(test)]
pub(crate) use folder::failing;
