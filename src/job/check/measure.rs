//! Checks of tests: a reading is one of its test and of a circuit that is there, and what shows a fault
//! did not pass.

use crate::{
    job::{
        Refusal,
        refusal::{MeasureBarrier, ReadingKind},
        state::State,
    },
    quantity::{Instrument, plain_words, says_something},
    shop_rules::TestKind,
};

use super::rules::{Checked, Rules, impossible};

impl State {
    /// A reading is one of the test it is keyed for, of a circuit that is there; and what shows a fault
    /// did not pass.
    pub(super) fn check_measured(
        &self,
        circuit: Option<&str>,
        test: TestKind,
        value: &str,
        limit: Option<&str>,
        passed: bool,
    ) -> Checked {
        if !says_something(value) {
            return impossible(MeasureBarrier::NoValue);
        }
        let named = |wire: &crate::record::Wire, circuit: &str| {
            let is_it = |name: &Option<String>| {
                name.as_deref().is_some_and(|name| plain_words(name) == plain_words(circuit))
            };
            is_it(&wire.number) || is_it(&wire.circuit)
        };
        let records =
            self.records.found.values().chain(self.records.should.values()).filter_map(|holds| holds.lead());
        let mut wires = records.flat_map(|lead| &lead.wires);
        if let Some(circuit) = circuit.filter(|circuit| !wires.any(|wire| named(wire, circuit))) {
            return impossible(MeasureBarrier::NoCircuit(circuit.to_owned()));
        }
        if passed {
            check_reading(test, value)?;
            if let Some(limit) = limit {
                return check_against_limit(test, value, limit);
            }
        }
        Ok(Rules::default())
    }
}

/// Below this two neighbours are joined, or something is still connected between them (common practice,
/// no source).
const NEIGHBOURS_LEAST: &str = "100 ohm";

/// What an instrument shows of a fault did not pass; and a reading of another kind is none.
fn check_reading(test: TestKind, value: &str) -> Result<(), Refusal> {
    let plain = plain_words(value);
    let first = plain.split(' ').next().unwrap_or_default();
    let is_open = matches!(first, "open" | "ol" | "infinite" | "overload" | "o");
    let reading = value.parse::<Instrument>().ok();

    let of_another_kind =
        |wanted| impossible(MeasureBarrier::OtherKind { test, value: value.to_owned(), wanted });
    let is_kind = |like: &str| match (&reading, like.parse::<Instrument>()) {
        (Some(reading), Ok(like)) => reading.is_more_than(&like).is_some(),
        // Told in words: what shows a fault was looked at before.
        (None, _) | (Some(_), Err(_)) => true,
    };
    match test {
        TestKind::Continuity | TestKind::Drop | TestKind::Pair if is_open => {
            impossible(MeasureBarrier::OpenCircuit(test, value.to_owned()))
        }
        TestKind::Continuity if !is_kind("1 ohm") => of_another_kind(ReadingKind::Resistance),
        TestKind::Drop if !is_kind("1 V") && !is_kind("1 %") => of_another_kind(ReadingKind::Drop),
        TestKind::Neighbours | TestKind::Insulation if !is_kind("1 ohm") => {
            of_another_kind(ReadingKind::Insulation)
        }
        TestKind::Neighbours | TestKind::Insulation => {
            let least = NEIGHBOURS_LEAST.parse::<Instrument>().ok();
            let is_less = least.zip(reading).and_then(|(least, reading)| least.is_more_than(&reading));
            match is_less {
                Some(true) => impossible(MeasureBarrier::Short(test, value.to_owned())),
                Some(false) | None => Ok(()),
            }
        }
        TestKind::Continuity | TestKind::Drop | TestKind::Pair | TestKind::Function => Ok(()),
    }
}

/// A value that is past its limit did not pass, whoever says so; a limit of another kind is none.
fn check_against_limit(test: TestKind, value: &str, limit: &str) -> Checked {
    let (Ok(shown), Ok(least_or_most)) = (value.parse::<Instrument>(), limit.parse::<Instrument>()) else {
        return Ok(Rules::default());
    };
    if shown.is_more_than(&least_or_most).is_none() {
        return impossible(MeasureBarrier::LimitOfOtherKind {
            test,
            value: value.to_owned(),
            limit: limit.to_owned(),
        });
    }
    let is_past = match test {
        TestKind::Continuity | TestKind::Drop | TestKind::Pair => shown.is_more_than(&least_or_most),
        TestKind::Neighbours | TestKind::Insulation => least_or_most.is_more_than(&shown),
        TestKind::Function => None,
    };
    match is_past {
        Some(true) => {
            impossible(MeasureBarrier::PastLimit { test, value: value.to_owned(), limit: limit.to_owned() })
        }
        Some(false) | None => Ok(Rules::default()),
    }
}
