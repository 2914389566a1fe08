//! `repin demo`
use super::{Common, Exit};
use anyhow::Result;
use clap::Args;
/// x
#[derive(Debug, Args)]
pub(super) struct DemoArgs {}
pub(super) fn run(_c: &Common, _a: &DemoArgs) -> Result<Exit> {
    Ok(Exit::Fine)
}
