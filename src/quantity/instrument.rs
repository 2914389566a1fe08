//! What a meter shows, as far as it can be held against a limit: volts, ohms, per cent.

use super::{QuantityProblem, number_and_unit};

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measure {
    Volts,
    Ohms,
    Percent,
}

/// A value of an instrument, in volts, ohms or per cent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instrument {
    value: f64,
    measure: Measure,
}

impl Instrument {
    /// Whether this is more than the other; none where the two are not of one kind.
    pub fn is_more_than(&self, other: &Self) -> Option<bool> {
        (self.measure == other.measure).then_some(self.value > other.value)
    }
}

impl std::str::FromStr for Instrument {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (number, unit) = number_and_unit(typed, "0.2 ohm, 180 mV or 2 %")?;
        // A small m is a thousandth, a large M a million: the only letter whose case counts.
        let (factor, base) = match unit.strip_suffix(['V', 'v']) {
            Some(prefix) => (prefix, Measure::Volts),
            None => match unit.strip_suffix("ohm").or_else(|| unit.strip_suffix('Ω')) {
                Some(prefix) => (prefix, Measure::Ohms),
                None if unit == "%" => ("", Measure::Percent),
                None => ("?", Measure::Percent),
            },
        };
        let factor = match factor {
            "" => 1.0,
            "m" => 1e-3,
            "k" | "K" => 1e3,
            "M" => 1e6,
            _ => {
                return Err(QuantityProblem::UnknownUnit {
                    typed: typed.to_owned(),
                    unit: unit.to_owned(),
                    allowed: "V, mV, ohm, mohm, kohm, Mohm, %",
                });
            }
        };
        Ok(Self { value: number * factor, measure: base })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn more(value: &str, limit: &str) -> Option<bool> {
        value.parse::<Instrument>().unwrap().is_more_than(&limit.parse().unwrap())
    }

    #[test]
    fn values_are_compared_across_prefixes_and_never_across_kinds() {
        assert_eq!(more("0.6 V", "500 mV"), Some(true));
        assert_eq!(more("0,4 V", "0.5V"), Some(false));
        assert_eq!(more("0.2 ohm", "200 mΩ"), Some(false));
        assert_eq!(more("20 Mohm", "1 kohm"), Some(true));
        assert_eq!(more("2.9 %", "3 %"), Some(false));
        assert_eq!(more("0.2 ohm", "0.5 V"), None);
        for typed in ["open", "3", "3 x", "m", "0.2 mm", "3 m", ""] {
            assert!(typed.parse::<Instrument>().is_err(), "{typed}");
        }
    }
}
