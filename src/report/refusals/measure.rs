//! What is said against readings of an instrument.

use crate::{
    job::refusal::{MeasureBarrier, ReadingKind},
    quantity::quoted,
    report::words::Words,
};

pub(super) fn barrier(barrier: &MeasureBarrier) -> Words {
    const FAILED: &str = "Record it as failed, find the fault and test again.";
    match barrier {
        MeasureBarrier::NoValue => Words::new("A test needs its value.", "Key what the instrument showed."),
        MeasureBarrier::NoCircuit(circuit) => Words::new(
            format!("No wire of this job is \"{}\".", quoted(circuit)),
            "Key its wire number or circuit, as recorded.",
        ),
        MeasureBarrier::OtherKind { test, value, wanted } => Words::new(
            format!("{test}: {} is not a reading of this test.", quoted(value)),
            format!("Key what the instrument showed, with its unit: {}.", unit(*wanted)),
        ),
        MeasureBarrier::OpenCircuit(test, value) => {
            Words::new(format!("{test}: {} is an open circuit: it did not pass.", quoted(value)), FAILED)
        }
        MeasureBarrier::Short(test, value) => {
            Words::new(format!("{test}: {} is a short: it did not pass.", quoted(value)), FAILED)
        }
        MeasureBarrier::LimitOfOtherKind { test, value, limit } => Words::new(
            format!("{test}: {value} cannot be held against {limit}."),
            "Key value and limit in the same unit.",
        ),
        MeasureBarrier::PastLimit { test, value, limit } => {
            Words::new(format!("{test}: {value} is past its limit of {limit}: it did not pass."), FAILED)
        }
    }
}

fn unit(wanted: ReadingKind) -> &'static str {
    match wanted {
        ReadingKind::Resistance => "0.2 ohm",
        ReadingKind::Drop => "180 mV",
        ReadingKind::Insulation => "20 Mohm, or open",
    }
}
