//! Tests with an instrument: what it showed, the limit that is held against and whose that is.

use crate::{job::Act, quantity::Instrument, shop_rules::TestKind};

use super::{Acts, Choice, Kind, Replies, Stop, TestField, TestQuestion, Typed};

/// A test with its value, the limit it is held against and whose that is.
pub(super) fn test(test: TestKind, replies: &mut Replies<'_>) -> Acts {
    let ask = |field| TestQuestion { test, field };
    let value = replies.text(ask(TestField::Value), Kind::Reading)?;
    // The function of the machine, and what a pair shows, are told in words.
    let is_in_words = matches!(test, TestKind::Function | TestKind::Pair);
    if !is_in_words && !is_reading(value.as_str()) {
        let (as_in, _) = example(test);
        return Err(Stop::wrong(format!(
            "\"{}\" is no reading: key it as {as_in}, or open.",
            value.as_str()
        )));
    }
    let is_number = value.as_str().parse::<Instrument>().is_ok();
    let is_needed = !is_in_words && is_number;
    let limit = limit(replies.text(ask(TestField::Limit { is_needed }), Kind::Reading)?, is_needed)?;
    // No connection is a failure where one is asked for.
    let is_open = matches!(test, TestKind::Continuity | TestKind::Drop) && !is_number;
    let passed = match is_open {
        true => replies.one_of(ask(TestField::NoConnection), &[(Choice::Failed, false)])?,
        false => {
            replies.one_of(ask(TestField::Passed), &[(Choice::Passed, true), (Choice::Failed, false)])?
        }
    };
    let (limit, source) = limit.unzip();
    let value = value.words();
    Ok(vec![Act::Measure { circuit: None, test, value, limit, source, passed }])
}

/// A limit and whose it is, with a comma between.
fn limit(typed: Typed<'_>, is_needed: bool) -> Result<Option<(String, String)>, Stop> {
    let Some(typed) = typed.unless_dash() else {
        return match is_needed {
            true => Err(Stop::wrong(
                "A reading proves nothing without its limit: key it, a comma, and whose it is.",
            )),
            false => Ok(None),
        };
    };
    match typed.as_str().rsplit_once(", ") {
        Some((limit, source)) if is_reading(limit) => Ok(Some((limit.to_owned(), source.to_owned()))),
        Some((limit, _)) => Err(Stop::wrong(format!("\"{limit}\" is no limit: 0.5 ohm, service manual."))),
        None => Err(Stop::wrong("Whose limit is it? Key a comma and its source behind it.")),
    }
}

/// What an instrument shows: a value, or that there is no connection.
fn is_reading(text: &str) -> bool {
    let text = text.trim();
    let first = text.split([' ', ',']).next().unwrap_or_default();
    ["open", "ol", "none"].iter().any(|word| first.eq_ignore_ascii_case(word))
        || text.trim_start_matches(['<', '>', ' ']).parse::<Instrument>().is_ok()
}

/// A reading and a limit as they are keyed.
pub fn example(test: TestKind) -> (&'static str, &'static str) {
    match test {
        TestKind::Drop => ("0.2 V", "0.5 V"),
        TestKind::Neighbours | TestKind::Insulation => ("20 Mohm", "1 Mohm"),
        TestKind::Continuity | TestKind::Pair | TestKind::Function => ("0.2 ohm", "0.5 ohm"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_a_reading_and_its_source_and_only_words_go_without() {
        assert!(matches!(limit(Typed("0.5 ohm, service manual"), true), Ok(Some(_))));
        assert!(matches!(limit(Typed("-"), false), Ok(None)));
        for wrong in ["-", "0.5 ohm", "little, service manual"] {
            assert!(limit(Typed(wrong), true).is_err(), "{wrong}");
        }
        assert!(is_reading("OL") && is_reading("> 20 Mohm") && !is_reading("good"));
    }
}
