//! What is said against an answer to a gate.

use crate::{
    job::{EnergyKind, GateKind, Sign},
    quantity::Voltage,
};

/// A rule against an answer to a gate. What was keyed is given as it was keyed.
#[derive(Debug, Clone, PartialEq)]
pub enum GateRule {
    /// A harness off the machine can still carry this.
    OffMachineCarries(GateKind),
    /// The halves are mated: the harness is connected.
    HalvesMated,
    /// Nobody says that the harness is connected to nothing.
    WhoSaysOff,
    /// A machine is never without it.
    NeverAbsent(GateKind),
    /// The name or the document is missing.
    NameAndDocument(GateKind),
    /// This names no colour of a sleeve or cover.
    NoSleeveColour(String),
    /// The voltage is high if it alternates, and nobody said.
    DirectOrAlternating(Voltage),
    /// Something speaks of it, so that it cannot be answered as absent.
    Speaks(GateKind, Sign),
}

/// A rule against passing a gate by what was measured or done. What was keyed is given as it was keyed.
#[derive(Debug, Clone, PartialEq)]
pub enum ReleaseRule {
    /// This is no state of the stored energy.
    NoState(String),
    /// Zero volts must be measured: for the gate itself, or for this energy.
    ZeroVolts(GateKind, Option<EnergyKind>),
    /// It is passed by what was measured or done: any of it, or this energy.
    WordAlone(GateKind, Option<EnergyKind>),
    /// It is not dead.
    NotDead {
        /// The gate.
        gate: GateKind,
        /// What was measured.
        volts: Voltage,
        /// Between these points.
        between: String,
    },
    /// These are not two points.
    NotTwoPoints(String),
    /// The tester was not proved before and after.
    TesterNotProved(GateKind),
}
