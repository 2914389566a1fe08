//! Journals and folders on disk: the only module that writes files. Above it nothing does.

mod act_file;
mod folder;
pub mod form;
mod journal;
mod library;
mod lock;
mod names;
mod open;
mod outbox;
mod tools;

pub use act_file::{ActLine, ActProblem, read_acts};
pub use folder::{Listed, Store, StoreProblem};
pub use journal::{Condition, Journal, line_of, read_journal};
pub use library::write_family;
pub use lock::{Held, Lock};
pub use names::{JobId, JobIdProblem};
pub use open::{EnterProblem, Entered, OpenJob, OpenProblem};
pub use outbox::{IncompleteOrder, last_request, request_of, send_request};
pub use tools::{read_book, write_position};
