//! The two sentences that everything that is wrong is told with.

/// What is wrong, and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// What is wrong.
    pub say: String,
    /// What to do.
    pub instead: String,
}

impl Words {
    pub(super) fn new(say: impl Into<String>, instead: impl Into<String>) -> Self {
        Self { say: say.into(), instead: instead.into() }
    }
}
