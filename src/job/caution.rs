//! Cautions: one table, from which screens, step lines, README and printed pages draw. The
//! program does not know your machine; its manual and qualified people come first.

use super::{GateKind, Task};

/// When a caution is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Occasion {
    /// Always, at the start of a job.
    Always,
    /// Before a restraint circuit may be touched.
    Restraint,
    /// Before high voltage may be touched.
    HighVoltage,
    /// Before battery and thick feeds are touched.
    Battery,
    /// With heat, burnt plastic, melted housings.
    Heat,
    /// When terminals are released.
    ReleaseTools,
    /// When a sealed connector is tested for leaks.
    SealTest,
    /// With live checks and wiggle tests.
    LiveChecks,
    /// On lifting, steering, brake, fire, life-saving and patient systems.
    LifeSafety,
    /// After an interruption.
    Interrupted,
}

/// Every caution.
pub const CAUTIONS: [(Occasion, &str); 10] = [
    (
        Occasion::Always,
        "This program does not know your machine. Its service manual, local codes and a licensed or qualified person come first.",
    ),
    (
        Occasion::Restraint,
        "Restraint circuit: no meter, no lamp, no repair. Follow the machine's own manual and its waiting time.",
    ),
    (
        Occasion::HighVoltage,
        "High voltage: only a qualified person, released by name, measured dead with a tester proved before and after.",
    ),
    (
        Occasion::Battery,
        "Switch off and secure the battery; a tool across a thick feed welds itself on and burns.",
    ),
    (
        Occasion::Heat,
        "A melted housing has a cause. Find it: the next one burns. Do not breathe burnt plastic.",
    ),
    (Occasion::ReleaseTools, "Release tools are sharp and slip: eyes protected, never towards your hand."),
    (
        Occasion::SealTest,
        "Seal leak test: low pressure only, and only where the maker of the connector agrees.",
    ),
    (Occasion::LiveChecks, "Live checks: people clear, loads down; outputs may move when wires are wiggled."),
    (
        Occasion::LifeSafety,
        "Lifting, steering, brake, fire, life-saving or patient system: the person your rules name releases it.",
    ),
    (Occasion::Interrupted, "DO NOT POWER: wires are not in a housing."),
];

/// The caution for an occasion.
pub fn caution(occasion: Occasion) -> &'static str {
    CAUTIONS.iter().find(|(o, _)| *o == occasion).map_or("", |(_, text)| text)
}

impl Task {
    /// What has to be borne in mind before this step.
    pub fn occasion(&self) -> Option<Occasion> {
        match self {
            Self::Gate { gate: GateKind::Restraint } => Some(Occasion::Restraint),
            Self::Gate { gate: GateKind::HighVoltage } => Some(Occasion::HighVoltage),
            Self::Gate { gate: GateKind::Interlock } => Some(Occasion::LifeSafety),
            Self::Gate { gate: GateKind::Battery | GateKind::StoredEnergy } => Some(Occasion::Battery),
            Self::Unlock { .. } | Self::TakePlug { .. } => Some(Occasion::ReleaseTools),
            Self::Test { .. } => Some(Occasion::LiveChecks),
            Self::Record { .. }
            | Self::View { .. }
            | Self::Anchor { .. }
            | Self::Compare { .. }
            | Self::Decide { .. }
            | Self::Photo
            | Self::Cause
            | Self::ConfirmMap
            | Self::LookAt { .. }
            | Self::Tag { .. }
            | Self::AssuranceOff { .. }
            | Self::SmallPartOff { .. }
            | Self::MoveWire { .. }
            | Self::MovePlug { .. }
            | Self::FitPlug { .. }
            | Self::MoveOther { .. }
            | Self::Repair { .. }
            | Self::SmallPartOn { .. }
            | Self::Look { .. }
            | Self::LookMatingHalf
            | Self::CountRow { .. }
            | Self::ReRead { .. }
            | Self::Lock { .. }
            | Self::Mate
            | Self::AssuranceOn { .. }
            | Self::Sign => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::GATES;

    #[test]
    fn every_gate_has_its_caution_and_every_occasion_its_text() {
        assert!(GATES.iter().all(|gate| Task::Gate { gate: *gate }.occasion().is_some()));
        assert!(CAUTIONS.iter().all(|(occasion, text)| caution(*occasion) == *text));
    }
}
