//! The command line: one file per subcommand. Results go to stdout, one clear error to stderr,
//! and the exit code says whether there is something to say.

mod calc;
mod check;
mod common;
mod demo;
mod enter;
mod housing;
mod library;
mod new;
mod open;
mod print;
mod records;
mod request;
mod steps;
mod wiring;

use std::process::ExitCode;

use anyhow::Result;
use clap::{Parser, Subcommand};

pub use common::{Common, Exit};

/// Moves every wire and every blanking plug from a damaged connector housing to its replacement,
/// one at a time, and proves it.
#[derive(Debug, Parser)]
#[command(name = "repin", version, disable_help_subcommand = true)]
struct Cli {
    #[command(flatten)]
    common: Common,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Put the demo jobs in a folder and open the board on them
    Demo(demo::DemoArgs),
    /// Open one job where it stands
    Open(open::OpenArgs),
    /// Start a job
    New(new::NewArgs),
    /// Enter acts from a file, one a line
    Enter(enter::EnterArgs),
    /// Print every step: done, next, left
    Steps(steps::StepsArgs),
    /// Print the account of jobs and their flags
    Check(check::CheckArgs),
    /// Print what the job needs now, or send it to the desk
    Request(request::RequestArgs),
    /// Reckon bundles, splices, leads, crimps and drops from JSON on stdin
    #[command(subcommand)]
    Calc(calc::CalcCommand),
    /// List, find, show and check housings
    #[command(subcommand)]
    Housing(housing::HousingCommand),
    /// Read wiring lists
    #[command(subcommand)]
    Wiring(wiring::WiringCommand),
}

/// Parses the arguments, runs the command, and says how it ended.
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            let code = if error.use_stderr() { Exit::NotDone } else { Exit::Fine };
            match code {
                // What was typed stands in it as it was typed.
                Exit::NotDone => {
                    let ascii = std::env::args_os().any(|argument| argument == "--ascii");
                    let say = error.render().to_string();
                    print::to_stderr(say.trim_start_matches("error: ").trim_end(), ascii);
                }
                // Nobody reads a closed pipe.
                _ => drop(error.print()),
            }
            return code.into();
        }
    };
    match run(&cli) {
        Ok(exit) => exit.into(),
        Err(error) if is_closed_pipe(&error) => Exit::Fine.into(),
        Err(error) => {
            print::to_stderr(&format!("{error:#}"), cli.common.ascii);
            Exit::NotDone.into()
        }
    }
}

fn is_closed_pipe(error: &anyhow::Error) -> bool {
    let io = error.chain().find_map(|cause| cause.downcast_ref::<std::io::Error>());
    io.is_some_and(|io| io.kind() == std::io::ErrorKind::BrokenPipe)
}

fn run(cli: &Cli) -> Result<Exit> {
    let common = &cli.common;
    match &cli.command {
        None => open::board(common),
        Some(Command::Demo(args)) => demo::run(common, args),
        Some(Command::Open(args)) => open::run(common, args),
        Some(Command::New(args)) => new::run(common, args),
        Some(Command::Enter(args)) => enter::run(common, args),
        Some(Command::Steps(args)) => steps::run(common, args),
        Some(Command::Check(args)) => check::run(common, args),
        Some(Command::Request(args)) => request::run(common, args),
        Some(Command::Calc(command)) => calc::run(common, *command),
        Some(Command::Housing(command)) => housing::run(common, command),
        Some(Command::Wiring(command)) => wiring::run(common, command),
    }
}
