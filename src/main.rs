//! repin: arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    repin::cli::main()
}
