//! What is asked before anything moves and after everything did: locks, looks, counts, tests, the signature.

use crate::{
    catalogue::LockState,
    face::Face,
    record::{Address, HousingName},
    shop_rules::TestKind,
};

/// What is asked before anything moves and after everything did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ClosingQuestion {
    /// Is the position assurance of this housing off?
    AssuranceOff(HousingName),
    /// Is it in again?
    AssuranceOn(HousingName),
    /// Is the secondary lock released, and did it move freely?
    Unlock(HousingName, LockState),
    /// Is this small part off?
    PartOff(HousingName, String),
    /// Is it on?
    PartOn(HousingName, String),
    /// Is this face sound?
    LookOver(HousingName, Face),
    /// What is not sound on it?
    LookFault(HousingName, Face),
    /// Is what stayed in this new hole out, and the hole clear?
    Cleared(Address),
    /// How is the mating half?
    MatingHalf,
    /// What is wrong with it?
    MatingHalfFault,
    /// Is it here now?
    AtMachine,
    /// What does this row hold?
    CountRow(HousingName, usize),
    /// What is in this hole, which is named by its place alone?
    ReRead(Address),
    /// Which part is the new lock?
    NewLock(HousingName),
    /// Does the lock go to full-set with a finger?
    CloseLock(HousingName),
    /// Are the halves mated and the wires level?
    Mated,
    /// Who signs?
    SignName,
    /// What does the serial number on the machine end with?
    SerialEnd,
    /// Is the power off, are tags read and halves capped?
    Resume,
}

/// What is asked about a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestQuestion {
    /// The test.
    pub test: TestKind,
    /// What of it.
    pub field: TestField,
}

/// What is asked of a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TestField {
    /// What the instrument showed.
    Value,
    /// Its limit, and whose that is.
    Limit {
        /// A number proves nothing without its limit.
        is_needed: bool,
    },
    /// Whether it passed.
    Passed,
    /// That it failed: nothing is connected.
    NoConnection,
}
