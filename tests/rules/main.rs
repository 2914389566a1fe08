//! The rules of a job, without screen or disk unless a theme is about them. What is said wrong must not
//! pass: one table a theme, so that a new row is one line. What the trade forbids stands in its own list
//! of eighty failures (common practice, no source) unless a row names something else.

#[path = "../support/mod.rs"]
mod support;

use support::{cli, desk, four};

mod bad_answers;
mod bad_replies;
mod board;
mod closing;
mod committed;
mod consequences;
mod corrections;
mod decisions;
mod every_cause;
mod every_refusal;
mod facts;
mod failures;
mod failures_fit;
mod failures_repairs;
mod failures_splices;
mod first_move;
mod flips;
mod gates;
mod insertion;
mod joining;
mod law;
mod listed;
mod maps;
mod parts;
mod passed;
mod readings;
mod repairs;
mod resume;
mod roads;
mod screens;
mod store_port;
mod stores;
mod undo;
mod use_cases;
mod walks;
