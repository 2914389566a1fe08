//! What an act touches, in one table: what takes a signature back, what waits for a gate, whose work it is.
//! An act that is forgotten here does not compile.

use super::Act;

/// What an act touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touches {
    /// The connector: work that waits for every gate.
    Connector,
    /// Where things are: what is so, and what lays a thing down safely. It waits for nothing.
    Place,
    /// The current through it: a test, which waits for every gate.
    Circuit,
    /// What is found, what should be, or which of them wins.
    Record,
    /// Nothing at the bench: what is set up, read, looked at, asked for or said.
    Nothing,
}

impl Act {
    /// What it touches.
    pub fn touches(&self) -> Touches {
        match self {
            Self::Lock { .. }
            | Self::Assurance { .. }
            | Self::SmallPart { .. }
            | Self::Extract { .. }
            | Self::CutFree { .. }
            | Self::Insert { .. }
            | Self::Tug { .. }
            | Self::TakePlug { .. }
            | Self::FitPlug { .. }
            | Self::MoveOther { .. }
            | Self::Repair { .. }
            | Self::Mate { .. } => Touches::Connector,
            Self::Loose { .. }
            | Self::PutBack
            | Self::Park { .. }
            | Self::TakeUp { .. }
            | Self::LosePlug
            | Self::ScrapPlug { .. }
            | Self::ReturnPlug
            | Self::Removed { .. }
            | Self::Seen { .. } => Touches::Place,
            Self::Measure { .. } => Touches::Circuit,
            Self::Recorded { .. }
            | Self::RecordCorrected { .. }
            | Self::RecordFlipped { .. }
            | Self::Decided { .. } => Touches::Record,
            Self::Ticket { .. }
            | Self::Rules { .. }
            | Self::Housed { .. }
            | Self::RecordFinished { .. }
            | Self::Compared { .. }
            | Self::Mapped { .. }
            | Self::MapConfirmed { .. }
            | Self::Behind { .. }
            | Self::Cause { .. }
            | Self::Photo { .. }
            | Self::Gate { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::MatingHalf { .. }
            | Self::Tagged { .. }
            | Self::Inspect { .. }
            | Self::LeftInOld { .. }
            | Self::Planned { .. }
            | Self::WrongKey
            | Self::ReRead { .. }
            | Self::RowCounted { .. }
            | Self::LookedOver { .. }
            | Self::Requested { .. }
            | Self::Arrived { .. }
            | Self::Accept { .. }
            | Self::Note { .. }
            | Self::HandOver { .. }
            | Self::Resume { .. }
            | Self::Sign { .. }
            | Self::Stop { .. } => Touches::Nothing,
        }
    }

    /// Whether it changes anything at the bench.
    pub fn is_physical(&self) -> bool {
        matches!(self.touches(), Touches::Connector | Touches::Place)
    }
}
