//! Addresses: which cavity of which housing of the job.

use std::{fmt, str::FromStr, sync::Arc};

use crate::{
    face::Label,
    quantity::{TextProblem, plain_text},
};

/// The short name of a housing in a job, unique over both sides: `old`, `new`, `12n`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HousingName(Arc<str>);

impl HousingName {
    /// The name as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for HousingName {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let name = plain_text("housing name", text, 20)?;
        if name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.')) {
            Ok(Self(name.into()))
        } else {
            Err(TextProblem::NotAllowed {
                what: "housing name",
                shown: name,
                allowed: "letters, digits, - _ and .",
            })
        }
    }
}

impl fmt::Display for HousingName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// A cavity of a housing of the job: `old:11`, split at the first colon.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Address {
    /// The housing.
    pub housing: HousingName,
    /// The cavity.
    pub label: Label,
}

/// Why a text is not an address.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AddressProblem {
    /// No colon.
    #[error(
        "\"{typed}\" is not a full address: write the housing's name, a colon and the label, as in old:11"
    )]
    NoColon {
        /// What was typed.
        typed: String,
    },
    /// A part that cannot be.
    #[error("\"{typed}\": {why}")]
    Part {
        /// What was typed.
        typed: String,
        /// What is wrong with it.
        why: TextProblem,
    },
}

impl Address {
    /// The cavity `label` of `housing`.
    pub fn new(housing: HousingName, label: Label) -> Self {
        Self { housing, label }
    }
}

impl FromStr for Address {
    type Err = AddressProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (housing, label) = typed
            .split_once(':')
            .ok_or_else(|| AddressProblem::NoColon { typed: crate::quantity::quoted(typed) })?;
        let part = |why| AddressProblem::Part { typed: crate::quantity::quoted(typed), why };
        Ok(Self { housing: housing.parse().map_err(part)?, label: label.parse().map_err(part)? })
    }
}

impl fmt::Display for Address {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.housing, self.label)
    }
}
