//! The program: reads the command line and says in one line what went wrong.

use std::process::ExitCode;

fn main() -> ExitCode {
    sowmark::cli::main()
}
