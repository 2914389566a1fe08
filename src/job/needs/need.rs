//! What a job needs, before it is a line of a request.

use crate::{job::ItemId, supply::Line};

/// What the job needs, before it has a line number.
pub(super) struct Need {
    /// What is asked for.
    pub asked: Line,
    /// The leads that wait for it.
    pub leads: Vec<ItemId>,
    /// How many of it are in the connector.
    pub fitted: u32,
}

impl Need {
    /// What no lead waits for.
    pub fn of(asked: Line) -> Self {
        Self { asked, leads: Vec::new(), fitted: 0 }
    }
}
