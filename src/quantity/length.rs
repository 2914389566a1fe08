//! Lengths: keyed in millimetres or inches, reckoned in millimetres, shown in both.

use std::{fmt, str::FromStr};

use super::{
    QuantityProblem,
    kept::{plain_number, typed_and_value, with_value},
    number_and_unit,
};

const MM_PER_INCH: f64 = 25.4;

/// A length as it was typed, with its value in millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct Length {
    typed: String,
    mm: f64,
}

impl Length {
    /// A length reckoned by the program rather than typed.
    pub fn from_mm(mm: f64) -> Self {
        Self { typed: format!("{mm} mm"), mm }
    }

    /// The value in millimetres.
    pub fn mm(&self) -> f64 {
        self.mm
    }

    /// As it stands in a journal.
    pub fn kept(&self) -> String {
        let is_plain = Self::of_kept(&self.typed).as_ref() == Some(self);
        with_value(&self.typed, &format!("{} mm", self.mm), is_plain)
    }

    /// A length as it stands in a journal; none where a text is only what somebody typed.
    pub fn of_kept(kept: &str) -> Option<Self> {
        let (typed, value) = typed_and_value(kept);
        let mm = plain_number(value, &["mm"]).filter(|mm| *mm >= 0.0)?;
        Some(Self { typed: typed.to_owned(), mm })
    }

    /// Both unit systems, for show: `1.9 mm (0.075 in)`.
    pub fn both(&self) -> String {
        format!("{} mm ({:.3} in)", trimmed(self.mm, 2), self.mm / MM_PER_INCH)
    }
}

/// A number with at most `places` decimals and no trailing zeros.
fn trimmed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

impl FromStr for Length {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let (value, unit) = number_and_unit(typed, "1.9, 1,9 mm or 0.075 in")?;
        let mm = match unit.to_ascii_lowercase().as_str() {
            "" | "mm" => value,
            "in" | "inch" | "\"" => value * MM_PER_INCH,
            _ => {
                return Err(QuantityProblem::UnknownUnit {
                    typed: typed.to_owned(),
                    unit: unit.to_owned(),
                    allowed: "mm, in",
                });
            }
        };
        if !(mm.is_finite() && (0.0..=100_000.0).contains(&mm)) {
            return Err(QuantityProblem::OutOfRange { typed: typed.to_owned(), range: "0 to 100 m" });
        }
        Ok(Self { typed: typed.trim().to_owned(), mm })
    }
}

/// What was typed.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn a_reckoned_length_is_read_back_as_itself(mm in 0.0..99_999.0_f64) {
            let length = Length::from_mm(mm);
            prop_assert_eq!(length.to_string().parse::<Length>().unwrap(), length);
        }
    }

    #[test]
    fn a_comma_that_may_part_thousands_is_not_guessed_at() {
        let problem = "1,250 mm".parse::<Length>().unwrap_err();
        assert_eq!(problem.to_string(), "\"1,250 mm\" can be read in two ways: type 1.250 or 1250");
        assert_eq!("0,750".parse::<Length>().unwrap().mm(), 0.75);
        assert_eq!("1250,5".parse::<Length>().unwrap().mm(), 1250.5);
    }

    #[test]
    fn a_decimal_comma_and_inches_are_understood_and_kept_as_typed() {
        let comma: Length = "1,9 mm".parse().unwrap();
        assert_eq!((comma.mm(), comma.to_string()), (1.9, "1,9 mm".to_owned()));
        let inch: Length = "6 in".parse().unwrap();
        assert!((inch.mm() - 152.4).abs() < 1e-9);
        assert_eq!(inch.both(), "152.4 mm (6.000 in)");
    }

    #[test]
    fn nonsense_is_refused_with_an_example() {
        for typed in ["", "mm", "1.2.3", "-4", "1e400", "7 ft", "1,000,000"] {
            assert!(typed.parse::<Length>().is_err(), "{typed:?} was accepted");
        }
    }
}
