//! Held against the outside: published figures, drawings and numberings, each with its source, and searches
//! of another kind than the program's own.

#[path = "../support/mod.rs"]
mod support;

use support::{cli, walk};

mod colours;
mod faces;
mod gauges;
mod maps;
mod numbering;
mod repairs;
mod show;
mod splice_places;
