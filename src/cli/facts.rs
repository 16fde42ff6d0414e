//! `pintle facts`: the vocabulary.

use super::Status;
use super::args::{FactsArgs, Format};
use super::terminal::Terminal;
use crate::facts::catalogue;
use crate::report::{find_facts, print_json, vocabulary_json, vocabulary_text};
use crate::source::{Complaint, Complaints, quote, suggest};

pub fn run(args: &FactsArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let facts = find_facts(&args.words);
    if facts.is_empty() {
        let asked = args.words.join(" ");
        let names = catalogue()
            .all()
            .flat_map(|(_, d)| [d.name, d.label, d.name.rsplit('.').next().unwrap_or(d.name)]);
        let help = suggest::phrase(&asked, names);
        return Err(Complaint::error(
            "cli::no-fact",
            format!("no fact speaks of {}", quote(&asked)),
        )
        .maybe_help(help)
        .into());
    }
    terminal.print(&match args.format {
        Format::Text => vocabulary_text(&facts, terminal.style()),
        Format::Json => print_json(&vocabulary_json(&facts)),
    })?;
    Ok(Status::Good)
}
