//! Where text goes: width, colours, closed pipes.

use super::args::ColorWhen;
use crate::report::Style;
use crate::source::{Complaint, Complaints, RenderOptions, render};
use std::io::{ErrorKind, IsTerminal, Write, stderr, stdout};
use terminal_size::{Width, terminal_size_of};

/// The width where there is no terminal to ask.
const WIDTH: usize = 80;
/// Longer lines are hard to read, however wide the terminal.
const WIDEST: usize = 100;

/// Standard output and standard error, as this run is to use them.
pub struct Terminal {
    color: ColorWhen,
}

impl Terminal {
    /// With colours as asked for.
    pub fn new(color: ColorWhen) -> Terminal {
        Terminal { color }
    }

    /// How pages for standard output are set.
    pub fn style(&self) -> Style {
        let out = stdout();
        let is_terminal = out.is_terminal();
        Style {
            width: if is_terminal {
                width(terminal_size_of(&out).map(|s| s.0))
            } else {
                WIDTH
            },
            color: self.use_color(is_terminal),
        }
    }

    /// Writes to standard output. That nobody reads on is no error.
    ///
    /// # Errors
    /// One complaint, when the text cannot be written.
    pub fn print(&self, text: &str) -> Result<(), Complaints> {
        let mut out = stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Err(e) if e.kind() != ErrorKind::BrokenPipe => Err(Complaint::error(
                "cli::write",
                format!("the output cannot be written: {e}"),
            )
            .into()),
            _ => Ok(()),
        }
    }

    /// Shows complaints on standard error.
    pub fn complain(&self, complaints: &Complaints) {
        let mut err = stderr();
        let is_terminal = err.is_terminal();
        let options = RenderOptions {
            color: self.use_color(is_terminal),
            width: if is_terminal {
                width(terminal_size_of(&err).map(|s| s.0))
            } else {
                WIDTH
            },
            unicode: true,
        };
        // There is nowhere left to say that standard error is closed.
        let _ = err.write_all(render(complaints, options).as_bytes());
    }

    fn use_color(&self, is_terminal: bool) -> bool {
        let set = |name: &str| std::env::var_os(name).is_some_and(|v| !v.is_empty());
        let dumb = || std::env::var_os("TERM").is_some_and(|t| t == "dumb");
        match self.color {
            ColorWhen::Always => true,
            ColorWhen::Never => false,
            ColorWhen::Auto => is_terminal && !set("NO_COLOR") && !dumb(),
        }
    }
}

fn width(found: Option<Width>) -> usize {
    found.map_or(WIDTH, |w| usize::from(w.0)).min(WIDEST)
}
