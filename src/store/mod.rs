//! Journals and folders on disk: the only module that writes files. Above it nothing does.

mod files;
mod folder;
mod job_file;
mod job_id;
mod journal;
mod library;
mod lock;
mod open;
mod outbox;
mod tool_book_file;

pub use files::{
    JOB_MOST, LIST_MOST, Links, ReadProblem, TEXT_MOST, private_folder, read_bytes, read_stdin, read_text,
};
pub use folder::{Listed, Store, StoreProblem};
pub use job_id::{FileName, FileNameProblem, JobId, JobIdProblem};
pub use journal::{Condition, Journal, line_of, read_journal};
pub use library::write_family;
pub use lock::{Held, Lock};
pub use open::{EnterProblem, Entered, OpenJob, OpenProblem};
pub use outbox::{
    IncompleteOrder, LostRequest, export_request, last_request, lost_request, request_of, send_request,
};
pub use tool_book_file::{read_book, write_position};
