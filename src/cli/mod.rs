//! The command line: one file per subcommand. A command gives a reply or an error; this file
//! prints either and turns it into an exit code.

mod exit;
mod housing;
mod library;

use std::{ffi::OsString, io::Write, path::PathBuf};

use clap::{Args, Parser, Subcommand};

pub use exit::{Exit, Reply};

/// Moves every wire and every blanking plug from a damaged connector housing to its replacement.
#[derive(Debug, Parser)]
#[command(name = "repin", version, disable_help_subcommand = true)]
struct Cli {
    #[command(flatten)]
    everywhere: Everywhere,
    #[command(subcommand)]
    command: Command,
}

/// Options that stand with every command.
#[derive(Debug, Args)]
pub(crate) struct Everywhere {
    /// A folder of connector families beside the built-in ones
    #[arg(long, global = true, value_name = "DIR")]
    library: Option<PathBuf>,
    /// Draw with ASCII characters only
    #[arg(long, global = true)]
    ascii: bool,
    /// Print one JSON document
    #[arg(long, global = true)]
    json: bool,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Housings: list, find, show, check
    #[command(subcommand)]
    Housing(housing::HousingCommand),
}

/// Runs the program with its arguments, the first of which is its name.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Exit {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(usage) if usage.use_stderr() => {
            complain(&usage.to_string());
            return Exit::NotDone;
        }
        Err(help) => return say(&help.to_string(), Exit::Fine),
    };
    let answered = match cli.command {
        Command::Housing(command) => housing::run(command, &cli.everywhere),
    };
    match answered {
        Ok(reply) => say(&reply.text, reply.exit),
        Err(error) => {
            complain(&format!("{error:#}\n"));
            Exit::NotDone
        }
    }
}

/// Prints a reply. A reader that has gone away ends the program quietly.
fn say(text: &str, exit: Exit) -> Exit {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => exit,
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => exit,
        Err(error) => {
            complain(&format!("the answer could not be written: {error}\n"));
            Exit::NotDone
        }
    }
}

/// Prints an error. When even that cannot be written, the exit code has to do.
fn complain(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}
