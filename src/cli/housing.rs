//! x
use anyhow::Result;
use clap::Subcommand;
use super::{Common, Exit};
/// x
#[derive(Debug, Subcommand)]
pub(super) enum HousingCommand { /// x
 List }
pub(super) fn run(_c: &Common, _a: &HousingCommand) -> Result<Exit> { Ok(Exit::Fine) }
