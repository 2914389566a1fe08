//! What the program's exit codes mean.

use std::process::ExitCode;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Exit {
    /// Nothing to say.
    Fine,
    /// Understood, and the answer is no, not yet, or with problems.
    Problems,
    /// Not done: usage, or something that cannot be read.
    NotDone,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        match exit {
            Exit::Fine => Self::SUCCESS,
            Exit::Problems => Self::from(1),
            Exit::NotDone => Self::from(2),
        }
    }
}

/// What a command has to say on standard output, and how it ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reply {
    /// The text, with its line ends.
    pub text: String,
    /// How it ended.
    pub exit: Exit,
}

impl Reply {
    /// A reply with nothing wrong.
    pub fn fine(text: impl Into<String>) -> Self {
        Self { text: text.into(), exit: Exit::Fine }
    }
}
