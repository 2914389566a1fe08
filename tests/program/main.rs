//! The program by its commands and its files: what it reads, writes, prints and refuses, what faults and
//! old journals do to it, whole jobs from files of acts, and how its source is kept.

#[path = "../support/mod.rs"]
mod support;

use support::{cli, walk};

mod bad_input;
mod calc;
mod definitions;
mod faults;
mod harness_files;
mod journal;
mod journals;
mod request;
mod scenarios;
mod tidy;
mod tool_book;
mod wiring;
