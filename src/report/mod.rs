//! What is said of a job and of a request, as text and as tables: sentences are made here.

mod lead_words;
mod line_words;
mod request_csv;
mod request_text;

pub use line_words::{description, missing_in_words, part_or_description};
pub use request_csv::request_csv;
pub use request_text::request_text;
