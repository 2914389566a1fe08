//! What is said against an answer to a gate.

use crate::{
    job::{
        EnergyKind,
        refusal::{GateRule, ReleaseRule},
    },
    quantity::quoted,
    report::words::Words,
};

pub(super) fn rule(rule: &GateRule) -> Words {
    match rule {
        GateRule::OffMachineCarries(gate) => Words::new(
            format!("A harness off the machine can still carry {}.", gate.title()),
            "Answer by the diagram: absent, released, or stop.",
        ),
        GateRule::HalvesMated => Words::new(
            "The halves are mated: the harness is connected.",
            "Answer for the machine: measured, or stop.",
        ),
        GateRule::WhoSaysOff => Words::new(
            "Who says that the harness is connected to nothing at any end?",
            "Key the name; without one, answer stop.",
        ),
        GateRule::NeverAbsent(gate) => Words::new(
            format!("The {} of a machine is never absent.", gate.title()),
            "Make it safe and key what was measured, say that the harness is off the machine, or stop.",
        ),
        GateRule::NameAndDocument(gate) => Words::new(
            format!(
                "The gate on {} needs the name of the person who answers and the document it rests on.",
                gate.title()
            ),
            "Key both in words; without them, answer stop.",
        ),
        GateRule::NoSleeveColour(sleeve) => Words::new(
            format!("\"{}\" names no colour of a sleeve or cover.", quoted(sleeve)),
            "Key its colours as codes or words, or none.",
        ),
        GateRule::DirectOrAlternating(voltage) => Words::new(
            format!("{voltage} is high if it alternates: the limits are 60 V DC and 30 V AC."),
            "Key it with DC or AC behind.",
        ),
        GateRule::Speaks(gate, sign) => Words::new(
            format!("{sign} So {} cannot be answered as absent.", gate.title()),
            "Answer stop, or have it released by a qualified person under a named document.",
        ),
    }
}

pub(super) fn release(rule: &ReleaseRule) -> Words {
    let of = |kind: &Option<EnergyKind>| kind.map_or(String::new(), |kind| format!(" ({})", kind.words()));
    match rule {
        ReleaseRule::NoState(state) => Words::new(
            format!("\"{}\" is no state of the stored energy.", quoted(state)),
            "Say what was done: gauge at zero, lowered on stands, relaxed.",
        ),
        ReleaseRule::ZeroVolts(gate, kind) => Words::new(
            format!("To pass the gate on {} zero volts must be measured{}.", gate.title(), of(kind)),
            "Prove the tester, measure, prove it again, and key the reading and the two points.",
        ),
        ReleaseRule::WordAlone(gate, kind) => Words::new(
            format!(
                "The gate on {} is passed by what was measured or done{}, never by a word alone.",
                gate.title(),
                of(kind)
            ),
            "Capacitors and batteries: volts. Pressure: gauge at zero or vented. Loads and springs: lowered, blocked or relaxed.",
        ),
        ReleaseRule::NotDead { gate, volts, between } => Words::new(
            format!(
                "{volts} between {} is not dead: the gate on {} stays shut.",
                quoted(between),
                gate.title()
            ),
            "Find the supply, make it safe and measure again.",
        ),
        ReleaseRule::NotTwoPoints(between) => {
            Words::new(format!("\"{}\" is not two points.", quoted(between)), "Name both: 1 and chassis.")
        }
        ReleaseRule::TesterNotProved(gate) => Words::new(
            format!("The zero for the gate on {} is not proved.", gate.title()),
            "Prove the tester on a known source before and after.",
        ),
    }
}
