//! How acts stand in a journal. These are types of their own, so that the file form can stay while
//! the program changes: each mirrors a core type field by field, and the compiler holds the two
//! together. Core types do not know how they are written.

mod acts;
mod choices;
mod definition;
mod examples;
mod record;
mod repairs;
mod requested;
mod rules;
mod values;

pub use acts::RECORD_VERSION;
pub use examples::examples;
pub use rules::{RulesForm, read_rules, write_rules};

pub use crate::catalogue::ron_options;
