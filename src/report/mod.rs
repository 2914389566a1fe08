//! What is said to people, in one place: sentences are made here from data and nowhere else.

pub mod questions;
pub mod steps;
