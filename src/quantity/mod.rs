//! Quantities of the bench as types. A keyed quantity keeps the text and unit that were typed;
//! reckoning is `f64` in mm, mm², V; rounding happens once, when a value is shown.

mod gauge;
mod instrument;
mod kept;
mod length;
mod text;
mod voltage;
mod wrap;

pub use gauge::{Gauge, NOMINAL_PAIRS};
pub use instrument::Instrument;
pub use length::Length;
pub use text::{
    DayProblem, TextProblem, brief, count_of, day, harmless, is_harmful, list_of, plain_text, plain_words,
    quoted, says_something,
};
pub use voltage::{Current, Voltage};
pub use wrap::wrap;

/// Why a typed quantity was not understood.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum QuantityProblem {
    /// Nothing that reads as a number.
    #[error("\"{}\" is not a number: type it like {example}", quoted(.typed))]
    NotANumber {
        /// What was typed.
        typed: String,
        /// How it may be typed.
        example: &'static str,
    },
    /// A comma that may be a decimal comma or part thousands.
    #[error("\"{}\" can be read in two ways: type {decimal} or {whole}", quoted(.typed))]
    TwoReadings {
        /// What was typed.
        typed: String,
        /// The number, when the comma is a decimal comma.
        decimal: String,
        /// The number, when it parts thousands.
        whole: String,
    },
    /// A number with a unit this quantity does not have.
    #[error("\"{}\" has the unit \"{}\", which is not one of: {allowed}", quoted(.typed), quoted(.unit))]
    UnknownUnit {
        /// What was typed.
        typed: String,
        /// The unit as typed.
        unit: String,
        /// The units that are understood.
        allowed: &'static str,
    },
    /// A number outside what the quantity can be.
    #[error("\"{}\" is out of range: {range}", quoted(.typed))]
    OutOfRange {
        /// What was typed.
        typed: String,
        /// The range in words.
        range: &'static str,
    },
}

/// Splits "1,25 mm" into the number 1.25 and the unit "mm". A decimal comma reads as a point;
/// a comma that may as well part thousands, as in "1,250", is not guessed at.
fn number_and_unit<'a>(typed: &'a str, example: &'static str) -> Result<(f64, &'a str), QuantityProblem> {
    let trimmed = typed.trim();
    let not_a_number = || QuantityProblem::NotANumber { typed: typed.to_owned(), example };
    let end = trimmed
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')))
        .unwrap_or(trimmed.len());
    let (number, unit) = trimmed.split_at(end);
    if number.matches(['.', ',']).count() > 1 {
        return Err(not_a_number());
    }
    if let Some((before, after)) = number.split_once(',')
        && after.len() == 3
        && (1..=3).contains(&before.len())
        && !before.starts_with(['0', '-', '+'])
    {
        return Err(QuantityProblem::TwoReadings {
            typed: typed.to_owned(),
            decimal: format!("{before}.{after}"),
            whole: format!("{before}{after}"),
        });
    }
    let value: f64 = number.replace(',', ".").parse().map_err(|_| not_a_number())?;
    Ok((value, unit.trim()))
}
