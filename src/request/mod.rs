//! The parts request as a document: JSON, the file the desk gets, and what an entry of the job keeps.

mod form;
mod form_back;
mod problem;
mod values;
mod what;

pub(crate) use form::LineForm;
pub use form::{RequestForm, read_request};
pub use problem::RequestProblem;
pub(crate) use values::day;
