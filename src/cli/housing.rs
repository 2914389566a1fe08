//! x
use super::{Common, Exit};
use anyhow::Result;
use clap::Subcommand;
/// x
#[derive(Debug, Subcommand)]
pub(super) enum HousingCommand {
    /// x
    List,
}
pub(super) fn run(_c: &Common, _a: &HousingCommand) -> Result<Exit> {
    Ok(Exit::Fine)
}
