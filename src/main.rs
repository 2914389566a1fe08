//! The program `repin`: arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    repin::cli::run(std::env::args_os()).into()
}
