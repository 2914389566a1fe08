//! What is true of each act, in one table: what it touches, whose work it is, whether it can be taken back,
//! whether it waits for the resume check. An act that is forgotten here does not compile.

use super::{Act, Anyway};
use crate::record::Address;

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

/// Whose work an act is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Work {
    /// Of the person at the bench: another who does it takes the job over.
    Bench,
    /// Of anyone: reading back, looking, noting and accepting is what a second person is for.
    Anyone,
}

/// Whether an act can be taken back as a slip of the keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Back {
    /// It can.
    Slip,
    /// Somebody else may have acted on it: it cannot.
    ReliedOn,
}

/// What becomes of an act after an interruption.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum AfterPause {
    /// It goes: it is part of the resume check, or says what is seen.
    Goes,
    /// It waits until the work is resumed.
    Waits,
}

/// What is true of one act.
struct Row {
    touches: Touches,
    work: Work,
    back: Back,
    after_pause: AfterPause,
}

fn row(touches: Touches, work: Work, back: Back, after_pause: AfterPause) -> Row {
    Row { touches, work, back, after_pause }
}

/// The acts a named person may insist on against a rule, with the place for it; the others take none.
macro_rules! anyway_of {
    ($act:ident, $anyway:ident => $place:expr) => {
        match $act {
            Self::Lock { $anyway, .. }
            | Self::Assurance { $anyway, .. }
            | Self::Extract { $anyway, .. }
            | Self::CutFree { $anyway, .. }
            | Self::Inspect { $anyway, .. }
            | Self::Insert { $anyway, .. }
            | Self::TakePlug { $anyway, .. }
            | Self::FitPlug { $anyway, .. }
            | Self::MoveOther { $anyway, .. }
            | Self::Repair { $anyway, .. }
            | Self::Mate { $anyway, .. } => $place,
            Self::Ticket { .. }
            | Self::Housed { .. }
            | Self::Rules { .. }
            | Self::Recorded { .. }
            | Self::RecordFinished { .. }
            | Self::RecordCorrected { .. }
            | Self::RecordFlipped { .. }
            | Self::Decided { .. }
            | Self::Compared { .. }
            | Self::Mapped { .. }
            | Self::MapConfirmed { .. }
            | Self::Cause { .. }
            | Self::Photo { .. }
            | Self::Gate { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::SmallPart { .. }
            | Self::MatingHalf { .. }
            | Self::Tagged { .. }
            | Self::Loose { .. }
            | Self::Tug { .. }
            | Self::PutBack
            | Self::Park { .. }
            | Self::TakeUp { .. }
            | Self::LosePlug
            | Self::ScrapPlug { .. }
            | Self::ReturnPlug
            | Self::LeftInOld { .. }
            | Self::Behind { .. }
            | Self::Planned { .. }
            | Self::Removed { .. }
            | Self::Seen { .. }
            | Self::WrongKey
            | Self::ReRead { .. }
            | Self::RowCounted { .. }
            | Self::LookedOver { .. }
            | Self::Measure { .. }
            | Self::Requested { .. }
            | Self::Arrived { .. }
            | Self::Accept { .. }
            | Self::Note { .. }
            | Self::HandOver { .. }
            | Self::Resume { .. }
            | Self::Sign { .. }
            | Self::Stop { .. } => None,
        }
    };
}

impl Act {
    fn row(&self) -> Row {
        use AfterPause::{Goes, Waits};
        use Back::{ReliedOn, Slip};
        use Touches::{Circuit, Connector, Nothing, Place, Record};
        use Work::{Anyone, Bench};
        match self {
            Self::Ticket { .. } => row(Nothing, Anyone, ReliedOn, Waits),
            Self::Housed { .. } => row(Nothing, Anyone, ReliedOn, Waits),
            Self::Rules { .. } => row(Nothing, Anyone, ReliedOn, Waits),
            Self::Recorded { .. } => row(Record, Anyone, Slip, Waits),
            Self::RecordFinished { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::RecordCorrected { .. } => row(Record, Anyone, Slip, Waits),
            Self::RecordFlipped { .. } => row(Record, Anyone, Slip, Waits),
            Self::Decided { .. } => row(Record, Anyone, Slip, Waits),
            Self::Compared { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Mapped { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::MapConfirmed { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Cause { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Photo { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::Gate { .. } => row(Nothing, Bench, ReliedOn, Goes),
            Self::View { .. } => row(Nothing, Bench, Slip, Goes),
            Self::Anchor { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::Lock { .. } => row(Connector, Bench, Slip, Waits),
            Self::Assurance { .. } => row(Connector, Bench, Slip, Waits),
            Self::SmallPart { .. } => row(Connector, Bench, Slip, Waits),
            Self::MatingHalf { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Tagged { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Extract { .. } => row(Connector, Bench, Slip, Waits),
            Self::CutFree { .. } => row(Connector, Bench, Slip, Waits),
            Self::Loose { .. } => row(Place, Bench, Slip, Waits),
            Self::Inspect { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Insert { .. } => row(Connector, Bench, Slip, Waits),
            Self::Tug { .. } => row(Connector, Bench, Slip, Waits),
            Self::PutBack => row(Place, Bench, Slip, Waits),
            Self::Park { .. } => row(Place, Bench, Slip, Waits),
            Self::TakeUp { .. } => row(Place, Bench, Slip, Waits),
            Self::TakePlug { .. } => row(Connector, Bench, Slip, Waits),
            Self::FitPlug { .. } => row(Connector, Bench, Slip, Waits),
            Self::LosePlug => row(Place, Bench, Slip, Waits),
            Self::ScrapPlug { .. } => row(Place, Bench, Slip, Waits),
            Self::ReturnPlug => row(Place, Bench, Slip, Waits),
            Self::LeftInOld { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::MoveOther { .. } => row(Connector, Bench, Slip, Waits),
            Self::Behind { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Planned { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Repair { .. } => row(Connector, Bench, Slip, Waits),
            Self::Removed { .. } => row(Place, Bench, Slip, Waits),
            Self::Seen { .. } => row(Place, Bench, Slip, Goes),
            Self::WrongKey => row(Nothing, Anyone, Slip, Goes),
            Self::ReRead { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::RowCounted { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::LookedOver { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Measure { .. } => row(Circuit, Anyone, Slip, Waits),
            Self::Requested { .. } => row(Nothing, Anyone, ReliedOn, Goes),
            Self::Arrived { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::Accept { .. } => row(Nothing, Anyone, Slip, Waits),
            Self::Note { .. } => row(Nothing, Anyone, Slip, Goes),
            Self::HandOver { .. } => row(Nothing, Anyone, ReliedOn, Goes),
            Self::Resume { .. } => row(Nothing, Bench, ReliedOn, Goes),
            Self::Mate { .. } => row(Connector, Bench, Slip, Waits),
            Self::Sign { .. } => row(Nothing, Anyone, ReliedOn, Waits),
            Self::Stop { .. } => row(Nothing, Anyone, Slip, Goes),
        }
    }

    /// What it touches.
    pub fn touches(&self) -> Touches {
        self.row().touches
    }

    /// Whether it changes anything at the bench.
    pub fn is_physical(&self) -> bool {
        matches!(self.touches(), Touches::Connector | Touches::Place)
    }

    /// Whether it is work at the bench, so that another person doing it takes the job over.
    pub(in crate::job) fn is_bench_work(&self) -> bool {
        self.row().work == Work::Bench
    }

    /// Whether somebody else may have acted on it, so that it is never taken back as a slip of the keys.
    pub(in crate::job) fn others_rely_on_it(&self) -> bool {
        self.row().back == Back::ReliedOn
    }

    /// Whether it may be entered while the resume check is due.
    pub(in crate::job) fn is_part_of_resume(&self) -> bool {
        self.row().after_pause == AfterPause::Goes
    }

    /// Who goes on anyway, when the act says so.
    pub fn anyway(&self) -> Option<&Anyway> {
        anyway_of!(self, anyway => anyway.as_ref())
    }

    /// The place for `anyway`, on the acts a named person may insist on.
    pub fn anyway_mut(&mut self) -> Option<&mut Option<Anyway>> {
        anyway_of!(self, anyway => Some(anyway))
    }

    /// Whether a named person may insist on it against a rule.
    pub fn takes_anyway(&self) -> bool {
        anyway_of!(self, anyway => Some(anyway)).is_some()
    }

    /// The cavity the act is about, when it is about one.
    pub fn address(&self) -> Option<&Address> {
        match self {
            Self::Recorded { at, .. }
            | Self::RecordCorrected { at, .. }
            | Self::Decided { at, .. }
            | Self::Tug { at, .. }
            | Self::LeftInOld { at, .. }
            | Self::ReRead { at, .. } => Some(at),
            Self::Extract { from, .. }
            | Self::CutFree { from, .. }
            | Self::TakePlug { from, .. }
            | Self::MoveOther { from, .. }
            | Self::Mapped { from, .. } => Some(from),
            Self::Insert { into, .. } | Self::FitPlug { into, .. } => Some(into),
            Self::Ticket { .. }
            | Self::Housed { .. }
            | Self::Rules { .. }
            | Self::RecordFinished { .. }
            | Self::RecordFlipped { .. }
            | Self::Compared { .. }
            | Self::MapConfirmed { .. }
            | Self::Cause { .. }
            | Self::Photo { .. }
            | Self::Gate { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::Lock { .. }
            | Self::Assurance { .. }
            | Self::SmallPart { .. }
            | Self::MatingHalf { .. }
            | Self::Tagged { .. }
            | Self::Loose { .. }
            | Self::Inspect { .. }
            | Self::PutBack
            | Self::Park { .. }
            | Self::TakeUp { .. }
            | Self::LosePlug
            | Self::ScrapPlug { .. }
            | Self::ReturnPlug
            | Self::Behind { .. }
            | Self::Planned { .. }
            | Self::Repair { .. }
            | Self::Removed { .. }
            | Self::Seen { .. }
            | Self::WrongKey
            | Self::RowCounted { .. }
            | Self::LookedOver { .. }
            | Self::Measure { .. }
            | Self::Requested { .. }
            | Self::Arrived { .. }
            | Self::Accept { .. }
            | Self::Note { .. }
            | Self::HandOver { .. }
            | Self::Resume { .. }
            | Self::Mate { .. }
            | Self::Sign { .. }
            | Self::Stop { .. } => None,
        }
    }
}
