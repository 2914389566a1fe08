//! What a person at the terminal sees and keys: pages and faces drawn without a terminal, keys that are
//! held, and whole jobs in a real pseudo-terminal.

#[path = "../support/mod.rs"]
mod support;

use support::{cli, desk};

mod faces;
mod held_keys;
mod housings;
mod repairs;
mod screens;
mod shown;
mod terminal;
