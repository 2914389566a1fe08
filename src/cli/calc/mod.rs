//! `repin calc`: the reckoning by itself. JSON on stdin; text, or JSON with `--json`, on stdout.
//! All lengths in mm from the rear face of the housing along the wire.

mod electric;
mod splices;

use anyhow::{Context, Result, bail};
use clap::{Args, Subcommand};
use serde::de::DeserializeOwned;

use super::{Common, Exit, print};
use crate::{
    job::{Occasion, caution},
    quantity::brief,
    store::{TEXT_MOST, read_stdin},
};

/// What is reckoned.
#[derive(Debug, Clone, Copy, Subcommand)]
pub(super) enum CalcCommand {
    /// The smallest circle around wires, from their outside diameters
    Bundle(BundleArgs),
    /// Where the splices of a bundle sit, exactly
    Stagger,
    /// How long a repair lead is cut and ordered
    Lead,
    /// Crimp heights against the sheet, and the capability of a sample
    Crimp,
    /// Resistance and voltage drop of a wire
    Drop,
}

/// How a bundle is told.
#[derive(Debug, Clone, Copy, Args)]
pub(super) struct BundleArgs {
    /// Also say where each wire lies
    #[arg(long)]
    places: bool,
}

/// Runs the command.
pub(super) fn run(common: &Common, command: CalcCommand) -> Result<Exit> {
    match command {
        CalcCommand::Bundle(args) => splices::bundle(common, args.places),
        CalcCommand::Stagger => splices::plan(common),
        CalcCommand::Lead => splices::lead(common),
        CalcCommand::Crimp => electric::crimp(common),
        CalcCommand::Drop => electric::drop(common),
    }
}

/// The question on stdin; an error names the line and the field.
fn question<T: DeserializeOwned>() -> Result<T> {
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
fn say(common: &Common, text: &str) -> Result<()> {
    print::text(common, &format!("{}\n{}\n", text.trim_end(), caution(Occasion::Always)))
}

/// A length or another size: not below `least`, and a number.
fn checked(name: &str, value: f64, least: f64) -> Result<f64> {
    if !value.is_finite() || value < least || value > 1e6 {
        bail!("stdin at {name}: {value} is not a size from {least} to 1000000");
    }
    Ok(value)
}

/// A size that is more than nothing.
fn more_than_nothing(name: &str, value: f64) -> Result<f64> {
    if value <= 0.0 {
        bail!("stdin at {name}: {value} is not more than 0");
    }
    checked(name, value, 0.0)
}
