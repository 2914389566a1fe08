//! What is said against readings, against going on after an interruption, and against the signature.

use crate::{
    face::Face,
    job::{FaceFault, Flag, GateKind},
    record::{Address, HousingName},
};

/// Why something was not looked at, counted or read so.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadingBarrier {
    /// The cavity is on the old side.
    ReReadInOld(Address),
    /// The housing has no such row.
    NoRow(HousingName, usize),
    /// This is not seen on that face.
    NotOnFace(FaceFault, Face),
    /// The face is said to be sound, and this of it.
    SoundAndFaulty(FaceFault),
}

/// Why the work does not go on after an interruption.
#[derive(Debug, Clone, PartialEq)]
pub enum ResumeBarrier {
    /// No resume check is due.
    NotDue,
    /// The machine is not off, or a tag was not read.
    OffAndTags,
    /// A gate is open.
    GateOpen(GateKind),
    /// Nobody said again how the housing is held.
    ViewUnset(HousingName),
    /// The cavity was not re-read, or not as recorded.
    NotReRead(Address),
    /// The row of the housing was not counted, or not as recorded.
    NotCounted(usize, HousingName),
}

/// Why the job is not signed.
#[derive(Debug, Clone, PartialEq)]
pub enum SignBarrier {
    /// This is not the end of the machine's serial number.
    OtherMachine(String),
    /// There is no name.
    NoName,
    /// So many flags are open; the first of them.
    FlagsOpen(usize, Box<Flag>),
}
