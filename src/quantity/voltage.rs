//! Voltages measured at a connector before anything is touched.

use std::{fmt, str::FromStr};

use super::{QuantityProblem, number_and_unit};

/// A voltage as it was typed, with its value in volts.
#[derive(Debug, Clone, PartialEq)]
pub struct Voltage {
    typed: String,
    volts: f64,
}

impl Voltage {
    /// The value in volts.
    pub fn volts(&self) -> f64 {
        self.volts
    }
}

impl FromStr for Voltage {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (value, unit) = number_and_unit(typed, "0, 12.6 V or 40 mV")?;
        let volts = match unit {
            "" | "V" | "v" => value,
            "mV" | "mv" => value / 1000.0,
            "kV" | "kv" => value * 1000.0,
            _ => {
                return Err(QuantityProblem::UnknownUnit {
                    typed: typed.to_owned(),
                    unit: unit.to_owned(),
                    allowed: "V, mV, kV",
                });
            }
        };
        if !(volts.is_finite() && volts.abs() <= 100_000.0) {
            return Err(QuantityProblem::OutOfRange { typed: typed.to_owned(), range: "-100 to 100 kV" });
        }
        Ok(Self { typed: typed.trim().to_owned(), volts })
    }
}

/// What was typed.
impl fmt::Display for Voltage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed)
    }
}
