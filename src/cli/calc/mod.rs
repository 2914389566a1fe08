//! `repin calc`: the reckoning by itself. JSON on stdin; text, or JSON with `--json`, on stdout.
//! All lengths in mm from the rear face of the housing along the wire.

mod electric;
mod question;
mod splices;

use anyhow::Result;
use clap::{Args, Subcommand};

use super::common::{Common, Exit};

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
