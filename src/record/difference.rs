//! One difference between what is found and what should be, and the sentence it makes.

use super::{Address, WireKind};
use crate::{colour::Colour, quantity::list_of};

/// One difference between the records, to be decided with a reason.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// The cavity it is decided at.
    pub at: Address,
    /// What differs.
    pub kind: DifferenceKind,
}

/// What differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DifferenceKind {
    /// The wire found here belongs in another cavity.
    Elsewhere {
        /// Its name or look.
        wire: String,
        /// Its place in the lead, from 1.
        slot: usize,
        /// Where it belongs.
        should_at: Address,
    },
    /// Wires of one row are all one hole off the same way.
    Shifted {
        /// From which cavity and place in its lead each belongs where, the first wrong cavity first.
        moves: Vec<(Address, usize, Address)>,
    },
    /// The wires of two cavities are in each other's place.
    Swapped {
        /// The other cavity.
        with: Address,
        /// Name or look of the wire here.
        wire: String,
        /// Name or look of the wire there.
        other: String,
        /// Their places in their leads, from 1.
        slots: (usize, usize),
    },
    /// A wire that belongs here is found nowhere.
    Missing {
        /// Its name or look.
        wire: String,
        /// Its place in the lead as it should be, from 1.
        slot: usize,
    },
    /// A wire is here that the should record does not have.
    Extra {
        /// Its name or look.
        wire: String,
        /// Its place in the lead, from 1.
        slot: usize,
    },
    /// The same wire, described otherwise.
    Described {
        /// Its name or look.
        wire: String,
        /// Its place in the lead, from 1.
        slot: usize,
        /// Everything that is described otherwise, at least one thing.
        aspects: Vec<Aspect>,
    },
    /// The cavity holds something else.
    Content {
        /// As found.
        found: String,
        /// As it should be.
        should: String,
    },
}

/// What is described otherwise of a wire: as found, then as it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Aspect {
    /// The colour.
    Colour(Colour, Colour),
    /// The conductor, in both systems; whether there is less copper than meant.
    Area {
        /// As found.
        found: String,
        /// As it should be.
        should: String,
        /// Whether the one found is thinner.
        is_thinner: bool,
    },
    /// The circuit.
    Circuit(String, String),
    /// The wire number, of a wire that was matched by its cavity and look.
    Number(String, String),
    /// What kind of wire it is.
    Kind(WireKind, WireKind),
}

impl Aspect {
    /// As found, then as it should be, in words.
    fn both(&self) -> (String, String) {
        match self {
            Self::Colour(found, should) => (found.to_string(), should.to_string()),
            Self::Area { found, should, .. } => (found.clone(), should.clone()),
            Self::Circuit(found, should) => (format!("circuit {found}"), format!("circuit {should}")),
            Self::Number(found, should) => (format!("number {found}"), format!("number {should}")),
            Self::Kind(found, should) => (found.words().to_owned(), should.words().to_owned()),
        }
    }
}

impl Difference {
    /// Every cavity it is about.
    pub fn cavities(&self) -> Vec<Address> {
        let more = match &self.kind {
            DifferenceKind::Elsewhere { should_at, .. } => vec![should_at.clone()],
            DifferenceKind::Swapped { with, .. } => vec![with.clone()],
            DifferenceKind::Shifted { moves } => {
                moves.iter().flat_map(|(at, _, there)| [at.clone(), there.clone()]).collect()
            }
            DifferenceKind::Missing { .. }
            | DifferenceKind::Extra { .. }
            | DifferenceKind::Described { .. }
            | DifferenceKind::Content { .. } => Vec::new(),
        };
        std::iter::once(self.at.clone()).chain(more).collect()
    }

    /// One sentence.
    pub fn sentence(&self) -> String {
        let label = &self.at.label;
        match &self.kind {
            DifferenceKind::Elsewhere { wire, should_at, .. } => {
                format!("{wire} is in {label} and belongs in {}.", should_at.label)
            }
            DifferenceKind::Shifted { moves } => match (moves.first(), moves.last()) {
                (Some((first, _, there)), Some((last, ..))) => format!(
                    "From {} to {} the wires are one hole off: what is in {} belongs in {}, and so on.",
                    first.label, last.label, first.label, there.label
                ),
                _ => format!("The row of {label} is one hole off."),
            },
            DifferenceKind::Swapped { with, wire, other, .. } => {
                format!(
                    "{label} and {} are swapped: {wire} is in {label}, {other} is in {}.",
                    with.label, with.label
                )
            }
            DifferenceKind::Missing { wire, .. } => {
                format!("{wire} belongs in {label} and is found nowhere.")
            }
            DifferenceKind::Extra { wire, .. } => format!("{wire} is in {label} and is not on the diagram."),
            DifferenceKind::Described { wire, aspects, .. } => {
                let (found, should): (Vec<String>, Vec<String>) = aspects.iter().map(Aspect::both).unzip();
                format!(
                    "{wire} in {label} is {} as found and {} as it should be.",
                    list_of(&found),
                    list_of(&should)
                )
            }
            DifferenceKind::Content { found, should } => {
                format!("{label} is {found} as found and {should} as it should be.")
            }
        }
    }
}
