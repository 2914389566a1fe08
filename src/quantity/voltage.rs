//! Voltages, on the diagram and as measured at a connector before anything is touched.

use std::{fmt, str::FromStr};

use super::{
    QuantityProblem,
    kept::{plain_number, typed_and_value, with_value},
    number_and_unit,
};

/// A voltage as it was typed, with its value in volts.
#[derive(Debug, Clone, PartialEq)]
pub struct Voltage {
    typed: String,
    volts: f64,
    current: Option<Current>,
}

/// Direct or alternating.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Current {
    /// Direct.
    Dc,
    /// Alternating; its voltage is an rms value.
    Ac,
}

impl Voltage {
    /// As it stands in a journal.
    pub fn kept(&self) -> String {
        let current = match self.current {
            Some(Current::Ac) => " AC",
            Some(Current::Dc) => " DC",
            None => "",
        };
        let is_plain = Self::of_kept(&self.typed).as_ref() == Some(self);
        with_value(&self.typed, &format!("{} V{current}", self.volts), is_plain)
    }

    /// A voltage as it stands in a journal; none where a text is only what somebody typed.
    pub fn of_kept(kept: &str) -> Option<Self> {
        let (typed, value) = typed_and_value(kept);
        let (number, current) = match (value.strip_suffix(" AC"), value.strip_suffix(" DC")) {
            (Some(number), _) => (number, Some(Current::Ac)),
            (None, Some(number)) => (number, Some(Current::Dc)),
            (None, None) => (value, None),
        };
        Some(Self { typed: typed.to_owned(), volts: plain_number(number, &["V"])?, current })
    }

    /// The value in volts.
    pub fn volts(&self) -> f64 {
        self.volts
    }

    /// Whether it was said to be direct or alternating; none where nobody said.
    pub fn current(&self) -> Option<Current> {
        self.current
    }
}

impl FromStr for Voltage {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (value, unit) = number_and_unit(typed, "0, 12.6 V or 40 mV")?;
        let lower = unit.to_ascii_lowercase();
        let (unit_alone, current) = match (lower.strip_suffix("ac"), lower.strip_suffix("dc")) {
            (Some(rest), _) => (rest, Some(Current::Ac)),
            (None, Some(rest)) => (rest, Some(Current::Dc)),
            (None, None) => (lower.as_str(), None),
        };
        let volts = match unit_alone.trim() {
            "" | "v" => value,
            "mv" => value / 1000.0,
            "kv" => value * 1000.0,
            _ => {
                return Err(QuantityProblem::UnknownUnit {
                    typed: typed.to_owned(),
                    unit: unit.to_owned(),
                    allowed: "V, mV, kV, with DC or AC behind",
                });
            }
        };
        if !(volts.is_finite() && volts.abs() <= 100_000.0) {
            return Err(QuantityProblem::OutOfRange { typed: typed.to_owned(), range: "-100 to 100 kV" });
        }
        Ok(Self { typed: typed.trim().to_owned(), volts, current })
    }
}

/// What was typed.
impl fmt::Display for Voltage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn direct_or_alternating_is_what_was_said_and_never_guessed() {
        let read = |text: &str| text.parse::<Voltage>().map(|v| (v.volts(), v.current()));
        assert_eq!(read("24"), Ok((24.0, None)));
        assert_eq!(read("50V"), Ok((50.0, None)));
        assert_eq!(read("48 V DC"), Ok((48.0, Some(Current::Dc))));
        assert_eq!(read("230VAC"), Ok((230.0, Some(Current::Ac))));
        assert_eq!(read("0,04 kV ac"), Ok((40.0, Some(Current::Ac))));
        assert!(read("24 A").is_err());
    }
}
