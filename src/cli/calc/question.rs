//! What is asked on stdin, and the answer with what always has to be borne in mind.

use anyhow::{Context, Result, bail};
use serde::de::DeserializeOwned;

use crate::{
    cli::{common::Common, print},
    job::{Occasion, caution},
    quantity::brief,
    store::{TEXT_MOST, read_stdin},
};

/// The question on stdin; an error names the line and the field.
pub(super) fn question<T: DeserializeOwned>() -> Result<T> {
    let text = read_stdin(TEXT_MOST)?;
    let mut reader = serde_json::Deserializer::from_str(&text);
    let asked = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let path = error.path().to_string();
        let place = if path == "." { String::new() } else { format!(" at {path}") };
        anyhow::anyhow!("stdin{place}: {}", brief(&error.into_inner().to_string()))
    })?;
    reader.end().context("stdin: more than one question")?;
    Ok(asked)
}

/// The answer as text, with what always has to be borne in mind.
pub(super) fn say(common: &Common, text: &str) -> Result<()> {
    print::text(common, &format!("{}\n{}\n", text.trim_end(), caution(Occasion::Always)))
}

/// A length or another size: not below `least`, and a number.
pub(super) fn checked(name: &str, value: f64, least: f64) -> Result<f64> {
    if !value.is_finite() || value < least || value > 1e6 {
        bail!("stdin at {name}: {value} is not a size from {least} to 1000000");
    }
    Ok(value)
}

/// A size that is more than nothing.
pub(super) fn more_than_nothing(name: &str, value: f64) -> Result<f64> {
    if value <= 0.0 {
        bail!("stdin at {name}: {value} is not more than 0");
    }
    checked(name, value, 0.0)
}
