//! The edge: arguments in, exit status out.

use std::process::ExitCode;

fn main() -> ExitCode {
    pintle::cli::run(std::env::args_os())
}
