//! The parts request as a document: JSON, the file the desk gets, and what an entry of the job keeps.

mod form;
mod form_back;
mod what;

pub(crate) use form::LineForm;
pub use form::{RequestForm, read_request};
pub use form_back::RequestProblem;
pub(crate) use form_back::day;
