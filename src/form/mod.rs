//! Every form on disk, from text to values and back. Forms are types of their own, so that a file can
//! stay while the program changes; core types do not know how they are written. RON is read in one
//! place, and whatever is wrong in a file is said in one shape: file, line, column, field, caret.

mod act_file;
mod acts;
mod catalogue;
mod choices;
mod entry;
mod examples;
mod family;
mod family_file;
mod layout;
mod locate;
mod mirror;
mod new_job;
mod pairs;
mod problem;
mod reader;
mod record;
mod repairs;
mod request;
mod requested;
mod rules;
mod tool_book;
mod values;
mod walk;
mod wording;

pub use act_file::{ActLine, read_acts};
pub use acts::RECORD_VERSION;
pub use catalogue::{Catalogue, FindProblem};
pub use entry::{EntryProblem, read_entry, write_entry};
pub use examples::examples;
pub use family_file::{FILE_BYTES_MOST, FamilyFile, read_family, text_of, write_family};
pub use new_job::{MapFile, read_map, read_record};
pub use problem::{Problem, TextPlace, problems_in_words};
pub use reader::ron_options;
pub use request::{RequestForm, read_request, write_request};
pub use rules::{read_rules, write_rules};
pub use tool_book::{read_positions, write_positions};
