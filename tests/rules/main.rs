//! What is said wrong must not pass: one table a theme, so that a new row is one line. What the trade
//! forbids stands in its own list of eighty failures (common practice, no source) unless a row names
//! something else.

#[path = "../support/cli.rs"]
mod cli;
#[path = "../support/desk.rs"]
mod desk;
#[path = "../support/four.rs"]
mod four;
#[path = "../support/mod.rs"]
mod support;

mod bad_answers;
mod board;
mod closing;
mod committed;
mod consequences;
mod decisions;
mod first_move;
mod flips;
mod gates;
mod insertion;
mod joining;
mod listed;
mod parts;
mod passed;
mod repairs;
mod resume;
mod roads;
mod screens;
mod store_port;
mod stores;
mod undo;
mod use_cases;
