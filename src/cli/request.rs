//! `repin request`
use anyhow::Result;
use clap::Args;
use super::{Common, Exit};
/// x
#[derive(Debug, Args)]
pub(super) struct RequestArgs {}
pub(super) fn run(_c: &Common, _a: &RequestArgs) -> Result<Exit> { Ok(Exit::Fine) }
