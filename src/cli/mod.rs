//! The command line: arguments in, text out. It holds no law and no arithmetic; whatever a command
//! does, the library can do.

mod args;
mod ask;
mod check;
mod codes;
mod compare;
mod documents;
mod example;
mod explain;
mod facts;
mod inputs;
mod packs;
mod range;
mod revise;
mod schema;
mod sheet;
mod strictest;
mod talk;
mod terminal;

pub use codes::CODES;

use crate::source::Complaints;
use args::{Args, Command};
use clap::{ColorChoice, CommandFactory, FromArgMatches};
use std::ffi::OsString;
use std::process::ExitCode;
use terminal::Terminal;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Nothing is broken: exit status 0.
    Good,
    /// A rule is not met: exit status 1.
    Broken,
    /// The command line or an input is wrong: exit status 2.
    BadInput,
    /// Asked to be strict, and something is unknown or to be looked at: exit status 3.
    Open,
}

impl Status {
    /// The exit status.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Status::Good => 0,
            Status::Broken => 1,
            Status::BadInput => 2,
            Status::Open => 3,
        }
    }
}

/// Runs the program with these arguments, the program's name first. What people are to read goes to
/// standard output, complaints to standard error.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let args: Vec<OsString> = args.into_iter().collect();
    let command = Args::command().color(color_of_help(&args));
    let parsed = command
        .try_get_matches_from(args)
        .and_then(|m| Args::from_arg_matches(&m));
    let args = match parsed {
        Ok(args) => args,
        Err(usage) => {
            // A closed pipe is no reason to fail; there is nobody left to tell.
            let _ = usage.print();
            return ExitCode::from(
                u8::try_from(usage.exit_code()).unwrap_or(Status::BadInput.code()),
            );
        }
    };
    let terminal = Terminal::new(args.color);
    let status = dispatch(&args.command, &terminal).unwrap_or_else(|complaints| {
        terminal.complain(&complaints);
        Status::BadInput
    });
    ExitCode::from(status.code())
}

fn dispatch(command: &Command, terminal: &Terminal) -> Result<Status, Complaints> {
    match command {
        Command::Check(args) => check::run(args, terminal),
        Command::Ask(args) => ask::run(args, terminal),
        Command::Range(args) => range::run(args, terminal),
        Command::Strictest(args) => strictest::run(args, terminal),
        Command::Explain(args) => explain::run(args, terminal),
        Command::Sheet(args) => sheet::run(args, terminal),
        Command::Compare(args) => compare::run(args, terminal),
        Command::Packs(args) => packs::run(args, terminal),
        Command::Facts(args) => facts::run(args, terminal),
        Command::Schema(args) => schema::run(args, terminal),
        Command::Example => example::run(terminal),
    }
}

/// Whether help and usage errors are coloured; they are printed before the arguments are known.
fn color_of_help(args: &[OsString]) -> ColorChoice {
    let pairs = args.iter().zip(args.iter().skip(1));
    let split = pairs
        .filter(|(flag, _)| *flag == "--color")
        .map(|(_, when)| when.to_string_lossy().into_owned());
    let joined = args
        .iter()
        .filter_map(|a| a.to_str()?.strip_prefix("--color=").map(str::to_owned));
    match split.chain(joined).last().as_deref() {
        Some("always") => ColorChoice::Always,
        Some("never") => ColorChoice::Never,
        _ => ColorChoice::Auto,
    }
}
