//! Wire sizes: mm² or AWG, compared as exact conductor area. An AWG number is turned into area by
//! the formula of ASTM B258, never by a nominal chart: some chart pairs go down in area.

use std::{fmt, str::FromStr};

use super::{
    QuantityProblem,
    kept::{plain_number, typed_and_value, with_value},
    number_and_unit,
};

/// The size of one conductor as it was typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    typed: String,
    size: WireSize,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum WireSize {
    MetricMm2(f64),
    /// 0 is 1/0, -1 is 2/0, and so on to -3.
    Awg(i32),
}

/// The pairs that charts print side by side (mm², AWG). They are names for the same drawer, not
/// the same copper: compare areas before one replaces the other.
pub const NOMINAL_PAIRS: [(f64, i32); 9] =
    [(0.35, 22), (0.5, 20), (0.8, 18), (1.0, 16), (1.5, 14), (2.5, 12), (4.0, 10), (6.0, 8), (35.0, 2)];

impl Gauge {
    /// The conductor area in mm². AWG by ASTM B258: d = 0.127 mm × 92^((36 − n) / 39).
    pub fn area_mm2(&self) -> f64 {
        match self.size {
            WireSize::MetricMm2(area) => area,
            WireSize::Awg(n) => {
                let diameter_mm = 0.127 * 92_f64.powf(f64::from(36 - n) / 39.0);
                std::f64::consts::PI * diameter_mm * diameter_mm / 4.0
            }
        }
    }

    /// As it stands in a journal.
    pub fn kept(&self) -> String {
        let value = match self.size {
            WireSize::MetricMm2(area) => format!("{area} mm²"),
            WireSize::Awg(n) => awg_name(n),
        };
        with_value(&self.typed, &value, Self::of_kept(&self.typed).as_ref() == Some(self))
    }

    /// A wire size as it stands in a journal; none where a text is only what somebody typed.
    pub fn of_kept(kept: &str) -> Option<Self> {
        let (typed, value) = typed_and_value(kept);
        let size = match value.strip_suffix(" AWG") {
            Some(number) => WireSize::Awg(awg_count(number)?),
            None => WireSize::MetricMm2(plain_number(value, &["mm²", "mm2"]).filter(|area| *area > 0.0)?),
        };
        Some(Self { typed: typed.to_owned(), size })
    }

    /// Both systems, for show: `0.75 mm²` stays itself, `18AWG` adds its area.
    pub fn both(&self) -> String {
        match self.size {
            WireSize::MetricMm2(area) => match NOMINAL_PAIRS.iter().find(|(mm2, _)| *mm2 == area) {
                Some((_, awg)) => format!("{area} mm² (charts: {awg} AWG)"),
                None => format!("{area} mm²"),
            },
            WireSize::Awg(n) => format!("{} ({:.3} mm²)", awg_name(n), self.area_mm2()),
        }
    }

    /// Whether both are the same wire: sizes nearer than half a per cent in area are.
    pub fn is_same_size(&self, other: &Gauge) -> bool {
        self.change_percent_from(other).abs() <= 0.5
    }

    /// How much larger (+) or smaller (−) than `other`, in per cent of `other`'s area.
    pub fn change_percent_from(&self, other: &Gauge) -> f64 {
        (self.area_mm2() / other.area_mm2() - 1.0) * 100.0
    }
}

fn awg_name(n: i32) -> String {
    if n > 0 { format!("{n} AWG") } else { format!("{}/0 AWG", 1 - n) }
}

/// The number beside the letters AWG (or `ga`), in lower case; none when they are not there.
fn awg_number(lower: &str) -> Option<&str> {
    let number = lower.strip_prefix("awg").or_else(|| lower.strip_suffix("awg"));
    number.or_else(|| lower.strip_suffix("ga")).map(str::trim)
}

/// 18 from `18`, 0 from `0` and `1/0`, -1 from `00` and `2/0`, and so on.
fn awg_count(number: &str) -> Option<i32> {
    let (digits, is_aught) = match number.strip_suffix("/0") {
        Some(zeros) => (zeros, true),
        None => (number, false),
    };
    if digits.is_empty() || !digits.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let count: i32 = digits.parse().ok()?;
    match (is_aught, count) {
        (true, 0) => None,
        (true, zeros) => Some(1 - zeros),
        // Written out, each zero counts: 00 is 2/0.
        (false, 0) => Some(1 - i32::try_from(digits.len()).ok()?),
        (false, count) => Some(count),
    }
}

impl FromStr for Gauge {
    type Err = QuantityProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let text = typed.trim();
        let lower = text.to_ascii_lowercase();
        let out_of_range = |range| QuantityProblem::OutOfRange { typed: typed.to_owned(), range };
        let size = if let Some(number) = awg_number(&lower) {
            let n = awg_count(number)
                .ok_or(QuantityProblem::NotANumber { typed: typed.to_owned(), example: "18AWG" })?;
            if !(-3..=40).contains(&n) {
                return Err(out_of_range("4/0 AWG to 40 AWG"));
            }
            WireSize::Awg(n)
        } else {
            let (area, unit) = number_and_unit(&lower, "0.75, 0,75 mm² or 18AWG")?;
            if !matches!(unit, "" | "mm2" | "mm²" | "mm^2" | "qmm") {
                return Err(QuantityProblem::UnknownUnit {
                    typed: typed.to_owned(),
                    unit: unit.to_owned(),
                    allowed: "mm², AWG",
                });
            }
            if !(area > 0.0 && area <= 1000.0) {
                return Err(out_of_range("above 0, up to 1000 mm²"));
            }
            WireSize::MetricMm2(area)
        };
        Ok(Self { typed: text.to_owned(), size })
    }
}

/// What was typed.
impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn gauge(typed: &str) -> Gauge {
        typed.parse().unwrap()
    }

    #[test]
    fn both_systems_and_a_decimal_comma_are_understood() {
        for (typed, area) in [("0,75", 0.75), ("0.75 mm²", 0.75), ("1.5mm2", 1.5)] {
            assert_eq!(gauge(typed).area_mm2(), area, "{typed}");
        }
        for typed in ["18AWG", "18 awg", "AWG 18", "18ga"] {
            assert!((gauge(typed).area_mm2() - 0.8230).abs() < 5e-5, "{typed}");
        }
        assert_eq!(gauge("2/0 AWG").both(), "2/0 AWG (67.431 mm²)");
    }

    #[test]
    fn zeros_written_out_are_the_sizes_above_one() {
        for (zeros, aught) in [("0", "1/0"), ("00", "2/0"), ("000", "3/0"), ("0000", "4/0")] {
            let [zeros, aught] = [zeros, aught].map(|n| gauge(&format!("{n} AWG")).area_mm2());
            assert_eq!(zeros, aught);
        }
    }

    proptest! {
        #[test]
        fn what_is_shown_reads_as_the_same_size(area in 0.01..999.0_f64, awg in 1..=40_i32) {
            for typed in [format!("{area}"), format!("{area} mm²"), format!("{area} MM2"), format!("{awg} AWG")] {
                let shown = gauge(&typed).to_string();
                prop_assert_eq!(gauge(&shown).area_mm2(), gauge(&typed).area_mm2());
            }
            let [this, thicker] = [awg, awg - 1].map(|n| gauge(&format!("{n}AWG")).area_mm2());
            prop_assert!(this < thicker);
        }

        #[test]
        fn no_text_whatever_makes_reading_a_size_fail_otherwise_than_in_words(typed in ".{0,12}") {
            if let Err(problem) = typed.parse::<Gauge>() {
                prop_assert!(!problem.to_string().chars().any(crate::quantity::is_harmful));
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for typed in
            ["", "thick", "0", "-1", "41AWG", "AWG", "-2 AWG", "0/0 AWG", "00000AWG", "0.5 inch", "1e9"]
        {
            assert!(typed.parse::<Gauge>().is_err(), "{typed:?} was accepted");
        }
    }
}
