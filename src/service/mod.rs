//! The use cases: start a job, open or look at it, enter, send, list. The only caller of the store;
//! which store it is, and what time it is, come in.

mod board;
mod enter;
mod open;
mod request;
mod shop;

pub use board::{BoardJob, Stands, board};
pub use enter::{EnterProblem, Entered};
pub use open::{JobAt, OpenJob, OpenProblem};
pub use request::{
    ExportProblem, IncompleteOrder, LostRequest, SendProblem, export_request, last_request, lost_request,
    request_of, send_request,
};
pub use shop::{Shop, describe_family};

pub use crate::store::StoreProblem;
