//! What speaks of a danger, as it was found.

use std::fmt;

use super::RecordSide;
use crate::{
    quantity::{Voltage, harmless},
    record::{Address, WireKind},
};

/// What speaks of a gate's subject.
#[derive(Debug, Clone, PartialEq)]
pub enum Sign {
    /// A wire of its kind is on a record.
    Wire {
        /// The number or circuit of the wire, where it has one.
        name: Option<String>,
        /// Where it is.
        at: Address,
        /// On which record.
        record: RecordSide,
        /// Its kind.
        kind: WireKind,
    },
    /// A shorting clip is on a record.
    Clip {
        /// What is written there.
        what: String,
        /// Where it is.
        at: Address,
    },
    /// A circuit is told by such a name.
    Circuit(String),
    /// A sleeve or cover is told to be of such a colour.
    Sleeve(String),
    /// The diagram shows so high a voltage.
    Voltage(Voltage),
}

/// A sentence: the questions before an answer say it as flags and refusals do.
impl fmt::Display for Sign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Wire { name, at, record, kind } => {
                match name {
                    Some(name) => write!(f, "{name} is ")?,
                    None => write!(f, "the wire in {at} is ")?,
                }
                let how = match record {
                    RecordSide::Found => "recorded",
                    RecordSide::Should => "drawn",
                };
                write!(f, "{how} as {} {}.", article(kind.words()), kind.words())
            }
            Self::Clip { what, at } => write!(f, "A {} is recorded or drawn in {at}.", harmless(what)),
            Self::Circuit(circuit) => write!(f, "The circuit is told as \"{}\".", harmless(circuit)),
            Self::Sleeve(sleeve) => write!(f, "A sleeve or cover is \"{}\".", harmless(sleeve)),
            Self::Voltage(voltage) => write!(f, "The diagram shows {voltage}."),
        }
    }
}

fn article(noun: &str) -> &'static str {
    if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}
