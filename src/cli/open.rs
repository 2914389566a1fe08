//! `repin` and `repin open`: the terminal.

use anyhow::Result;
use clap::Args;

use super::{Common, Exit};
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
    run_board(&Sitting::new(common.store()?, common.by(), common.ascii))?;
    Ok(Exit::Fine)
}

/// Opens one job where it stands.
pub(super) fn run(common: &Common, args: &OpenArgs) -> Result<Exit> {
    let store = common.store()?;
    let path = store.path_of(&args.job)?;
    run_job(&Sitting::new(store, common.by(), common.ascii), &path)?;
    Ok(Exit::Fine)
}
