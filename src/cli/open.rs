//! `repin` and `repin open`: the terminal.

use anyhow::Result;
use clap::Args;

use super::common::{Common, Exit};
use crate::screen::{Sitting, run_board, run_job};

/// Which job.
#[derive(Debug, Args)]
pub(super) struct OpenArgs {
    /// The job, by id or path
    #[arg(value_name = "JOB")]
    job: String,
}

/// Runs the job board.
pub(super) fn board(common: &Common) -> Result<Exit> {
    run_board(&Sitting::new(common.shop()?, common.by(), common.ascii))?;
    Ok(Exit::Fine)
}

/// Opens one job where it stands.
pub(super) fn run(common: &Common, args: &OpenArgs) -> Result<Exit> {
    let shop = common.shop()?;
    let at = shop.job(&args.job)?;
    run_job(&Sitting::new(shop, common.by(), common.ascii), &at)?;
    Ok(Exit::Fine)
}
