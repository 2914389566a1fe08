//! Voltages measured at a connector before anything is touched.

use std::{fmt, str::FromStr};

use super::{QuantityProblem, number_and_unit};

/// A voltage as it was typed, with its value in volts.
#[derive(Debug, Clone, PartialEq)]
pub struct Voltage {
    typed: String,
    volts: f64,
    is_ac: bool,
}

impl Voltage {
    /// The value in volts.
    pub fn volts(&self) -> f64 {
        self.volts
    }

    /// Whether it was typed as alternating (rms); a voltage is direct unless it says so.
    pub fn is_ac(&self) -> bool {
        self.is_ac
    }
}

impl FromStr for Voltage {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (value, unit) = number_and_unit(typed, "0, 12.6 V or 40 mV")?;
        let lower = unit.to_ascii_lowercase();
        let (unit_alone, is_ac) = match (lower.strip_suffix("ac"), lower.strip_suffix("dc")) {
            (Some(rest), _) => (rest, true),
            (None, Some(rest)) => (rest, false),
            (None, None) => (lower.as_str(), false),
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
        Ok(Self { typed: typed.trim().to_owned(), volts, is_ac })
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
    fn a_voltage_is_direct_unless_it_says_otherwise() {
        let read = |text: &str| text.parse::<Voltage>().map(|v| (v.volts(), v.is_ac()));
        assert_eq!(read("24"), Ok((24.0, false)));
        assert_eq!(read("48 V DC"), Ok((48.0, false)));
        assert_eq!(read("230VAC"), Ok((230.0, true)));
        assert_eq!(read("0,04 kV ac"), Ok((40.0, true)));
        assert!(read("24 A").is_err());
    }
}
