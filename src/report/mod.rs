//! What is said to people, in one place: sentences are made here from data and nowhere else.

mod acts;
mod alarms;
mod flags;
mod lead_words;
mod line_words;
mod map_words;
mod objections;
mod places;
pub mod questions;
pub mod refusals;
mod request_csv;
mod request_text;
pub mod steps;
mod words;

pub use acts::act_told;
pub use alarms::alarm_words;
pub use flags::{flag_words, no_plan};
pub use line_words::{description, missing_in_words, part_or_description};
pub use objections::tool_used;
pub use request_csv::request_csv;
pub use request_text::request_text;
pub use words::Words;
