//! How a quantity stands in a journal: as it was typed where that is plain, else with its value behind,
//! `1,12 mm = 1.12 mm`. What is read back is the value, by rules that never change: the parser of what
//! people type may become stricter, and an entry of yesterday is still read as it was meant.

/// A number without sign tricks or exponent, with one of these units behind or with none.
pub(super) fn plain_number(text: &str, units: &[&str]) -> Option<f64> {
    let number = units.iter().find_map(|unit| text.strip_suffix(unit)).unwrap_or(text).trim_end();
    let digits = number.strip_prefix('-').unwrap_or(number);
    let is_plain = digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.');
    number.parse().ok().filter(|_| is_plain)
}

/// A typed text with its value behind, and the text alone where it is the value.
pub(super) fn with_value(typed: &str, value: &str, is_plain: bool) -> String {
    if is_plain { typed.to_owned() } else { format!("{typed}{BETWEEN}{value}") }
}

/// What was typed, and the value: the same text where it is plain.
pub(super) fn typed_and_value(kept: &str) -> (&str, &str) {
    kept.rsplit_once(BETWEEN).unwrap_or((kept, kept))
}

const BETWEEN: &str = " = ";

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use crate::quantity::{Gauge, Length, Voltage};

    #[test]
    fn what_is_plain_stands_as_it_was_typed_and_the_rest_with_its_value() {
        let length = |typed: &str| typed.parse::<Length>().unwrap().kept();
        assert_eq!((length("10 mm"), length("10")), ("10 mm".to_owned(), "10".to_owned()));
        assert_eq!(length("1,12 mm"), "1,12 mm = 1.12 mm");
        assert_eq!(length("6 in"), "6 in = 152.39999999999998 mm");
        let gauge = |typed: &str| typed.parse::<Gauge>().unwrap().kept();
        assert_eq!((gauge("0.5"), gauge("18 AWG")), ("0.5".to_owned(), "18 AWG".to_owned()));
        assert_eq!((gauge("0,5"), gauge("18ga")), ("0,5 = 0.5 mm²".to_owned(), "18ga = 18 AWG".to_owned()));
        let voltage = |typed: &str| typed.parse::<Voltage>().unwrap().kept();
        assert_eq!((voltage("0 V"), voltage("24")), ("0 V".to_owned(), "24".to_owned()));
        assert_eq!(voltage("40 mV"), "40 mV = 0.04 V");
        assert_eq!(voltage("400 VAC"), "400 VAC = 400 V AC");
    }

    #[test]
    fn the_value_counts_whatever_the_text_before_it_would_mean_today() {
        let length = Length::of_kept("1,250 mm = 1250 mm").unwrap();
        assert_eq!((length.mm(), length.to_string()), (1250.0, "1,250 mm".to_owned()));
        let gauge = Gauge::of_kept("no. 18 = 18 AWG").unwrap();
        assert!(gauge.is_same_size(&"18 AWG".parse().unwrap()));
    }

    #[test]
    fn what_is_not_plain_is_left_to_the_reader_of_what_people_type() {
        for text in ["1,250 mm", "6 in", "", "mm", "-", "1e3", "1.2.3", "+4", "inf", "1 = ", "= 1"] {
            assert_eq!(Length::of_kept(text), None, "{text}");
        }
        assert_eq!((Gauge::of_kept("18ga"), Voltage::of_kept("40 mV")), (None, None));
        assert_eq!(
            (Length::of_kept("-4 mm"), Gauge::of_kept("0"), Gauge::of_kept("-1 mm²")),
            (None, None, None)
        );
    }

    proptest! {
        #[test]
        fn a_quantity_is_read_back_as_itself(number in 0.001..99_999.0_f64, unit in 0_usize..6, comma: bool) {
            let unit = ["", " mm", "in", " V DC", "kV", " mm2"].get(unit).copied().unwrap_or_default();
            let number = if comma { number.to_string().replace('.', ",") } else { number.to_string() };
            let typed = format!("{number}{unit}");
            if let Ok(length) = typed.parse::<Length>() {
                prop_assert_eq!(Length::of_kept(&length.kept()), Some(length));
            }
            if let Ok(gauge) = typed.parse::<Gauge>() {
                prop_assert_eq!(Gauge::of_kept(&gauge.kept()), Some(gauge));
            }
            if let Ok(voltage) = typed.parse::<Voltage>() {
                prop_assert_eq!(Voltage::of_kept(&voltage.kept()), Some(voltage));
            }
        }
    }
}
