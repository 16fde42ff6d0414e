//! `pintle packs`: what the packs hold, and what is wrong with them.

use super::Status;
use super::args::{Format, ListArgs, PacksCheckArgs, PacksCommand, ReviewFormat, StaleArgs};
use super::inputs::{Gathered, library};
use super::revise;
use super::terminal::Terminal;
use crate::facts::{day_before, today};
use crate::pack::{Library, pack_files};
use crate::proof::{Depth, check_library, check_packs};
use crate::report::{
    checks_json, checks_text, digests, digests_json, digests_text, junit, print_json, sarif, shelf,
    shelf_json, shelf_text, stale, stale_json, stale_text,
};
use crate::source::{Complaint, Complaints};

pub fn run(command: &PacksCommand, terminal: &Terminal) -> Result<Status, Complaints> {
    match command {
        PacksCommand::List(args) => list(args, terminal),
        PacksCommand::Check(args) => check(args, Depth::Cases, terminal),
        PacksCommand::Prove(args) => check(args, Depth::Proof, terminal),
        PacksCommand::Stale(args) => old(args, terminal),
        PacksCommand::New(args) => revise::new(args, terminal),
        PacksCommand::Diff(args) => revise::compare(args, terminal),
    }
}

fn list(args: &ListArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let library = library(&args.rules)?;
    let text = match (args.topic, args.format) {
        (Some(topic), Format::Text) => {
            digests_text(topic, &digests(&library, topic)?, terminal.style())
        }
        (Some(topic), Format::Json) => print_json(&digests_json(topic, &digests(&library, topic)?)),
        (None, Format::Text) => shelf_text(&shelf(&library, None)?, terminal.style()),
        (None, Format::Json) => print_json(&shelf_json(&shelf(&library, None)?)),
    };
    terminal.print(&text)?;
    Ok(Status::Good)
}

fn check(args: &PacksCheckArgs, depth: Depth, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let checks = if args.paths.is_empty() {
        check_library(Library::built_in(), depth)
    } else {
        let mut texts = Vec::new();
        for path in &args.paths {
            let before = texts.len();
            let read = gathered.keep(pack_files(path, &mut texts));
            if read.is_some() && texts.len() == before {
                let none = Complaint::error(
                    "pack::no-pack",
                    format!(
                        "no pack in {}",
                        crate::source::quote(&path.to_string_lossy())
                    ),
                )
                .help("a pack is a `.yaml` file");
                let _ = gathered.keep::<()>(Err(none.into()));
            }
        }
        check_packs(Library::built_in(), &texts, depth)
    };
    let mut complaints = gathered.into_complaints();
    complaints.extend(checks.iter().flat_map(|c| c.complaints.0.iter().cloned()));
    terminal.print(&match args.format {
        ReviewFormat::Text => checks_text(&checks, terminal.style()),
        ReviewFormat::Json => print_json(&checks_json(&checks)),
        ReviewFormat::Sarif => print_json(&sarif(&complaints)),
        ReviewFormat::Junit => junit(&checks),
    })?;
    if complaints.has_errors() {
        return Err(complaints);
    }
    if !complaints.is_empty() {
        terminal.complain(&complaints);
    }
    Ok(Status::Good)
}

fn old(args: &StaleArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let library = library(&args.rules)?;
    let Some(before) = day_before(args.on.unwrap_or_else(today), &args.older_than) else {
        return Err(Complaint::error(
            "cli::older-than",
            "the length of time leads beyond the calendar",
        )
        .into());
    };
    let rules = stale(&library, before)?;
    terminal.print(&match args.format {
        Format::Text => stale_text(before, &rules, terminal.style()),
        Format::Json => print_json(&stale_json(before, &rules)),
    })?;
    Ok(Status::Good)
}
