//! A housing with its family.
use super::{Family, Housing};

/// One housing and the family it belongs to, as a job carries it.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    family: Family,
    housing: Housing,
}

impl Definition {
    /// The family, with this one housing.
    pub fn family(&self) -> &Family {
        &self.family
    }

    /// The housing.
    pub fn housing(&self) -> &Housing {
        &self.housing
    }
}
