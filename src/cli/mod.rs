//! The command line.

use crate::engine::{Ruleset, compile};
use crate::facts::{catalogue, parse_day};
use crate::pack::{Library, Region};
use crate::proof::check_cases;
use crate::rig::read_rig;
use crate::source::{Complaints, RenderOptions, read_path, render};
use clap::{Parser, Subcommand};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

#[derive(Parser)]
#[command(name = "pintle", version, about)]
struct Args {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    Check {
        rig: PathBuf,
        #[arg(long = "in")]
        regions: Vec<String>,
        #[arg(long)]
        on: Option<String>,
        #[arg(long)]
        all: bool,
    },
    Facts {
        word: Option<String>,
    },
    #[command(subcommand)]
    Packs(Packs),
}

#[derive(Subcommand)]
enum Packs {
    Check { paths: Vec<PathBuf> },
    Prove { paths: Vec<PathBuf> },
}

/// Runs the program.
pub fn run(args: impl Iterator<Item = OsString>) -> ExitCode {
    let args = Args::parse_from(args);
    let result = match args.command {
        Command::Check {
            rig,
            regions,
            on,
            all,
        } => check(&rig, &regions, on, all),
        Command::Facts { word } => facts(word),
        Command::Packs(Packs::Check { paths }) => packs_check(&paths, false),
        Command::Packs(Packs::Prove { paths }) => packs_check(&paths, true),
    };
    match result {
        Ok(code) => code,
        Err(c) => {
            eprintln!("{}", render(&c, RenderOptions::default()));
            ExitCode::from(2)
        }
    }
}

fn check(
    path: &Path,
    regions: &[String],
    on: Option<String>,
    all: bool,
) -> Result<ExitCode, Complaints> {
    let mut rig = read_rig(&read_path(path)?)?;
    let on = on.and_then(|d| parse_day(&d)).unwrap_or(20782);
    for c in crate::mechanics::work_out(&mut rig.facts, Some(on)) {
        println!("conflict: {c:?}");
    }
    let library = Library::built_in();
    let regions: Vec<&Region> = regions.iter().filter_map(|r| Region::find(r)).collect();
    let rules = Ruleset::new(&library, &regions, true)?;
    for f in rules.check(&rig.facts, &rig.seen, on) {
        if f.outcome != crate::engine::Outcome::DoesNotApply || all {
            println!(
                "{} {} {}\n    {}",
                f.region,
                f.outcome.name(),
                f.rule,
                f.says
            );
            for b in &f.because {
                println!("    because {b}");
            }
            if !f.missing.is_empty() {
                println!("    missing {}", f.missing.join(", "));
            }
            for l in &f.looks {
                println!("    look: {}", l.text);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn facts(word: Option<String>) -> Result<ExitCode, Complaints> {
    for (_, d) in catalogue().all() {
        let choices: Vec<&str> = d.kind.choices().iter().map(|c| c.name).collect();
        let line = format!(
            "{} ({}, {}) {} {}",
            d.name,
            d.kind.name(),
            d.origin.name(),
            d.meaning,
            choices.join(" | ")
        );
        if word.as_ref().is_none_or(|w| line.contains(w.as_str())) {
            println!("{line}");
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn packs_check(paths: &[PathBuf], prove: bool) -> Result<ExitCode, Complaints> {
    let mut library = Library::built_in();
    let mut ids = Vec::new();
    for path in paths {
        let mut texts = Vec::new();
        crate::pack::pack_files(path, &mut texts)?;
        for t in texts {
            let root = crate::source::parse(&t)?;
            let mut complaints = match crate::pack::read_pack_tree(&t, &root) {
                Ok(p) => {
                    ids.push(p.id.value);
                    Vec::new()
                }
                Err(c) => c.0,
            };
            crate::rig::add_unless_covered(
                &mut complaints,
                crate::source::check_schema(&t, &root, crate::pack::pack_validator()),
            );
            if !complaints.is_empty() {
                return Err(Complaints(complaints));
            }
        }
        library.add_path(path)?;
    }
    let roots: Vec<&str> = ids.iter().map(String::as_str).collect();
    let compiled = compile(library.with_references(&roots)?)?;
    let mut all = Vec::new();
    for (i, pack) in compiled.packs.iter().enumerate() {
        if ids.contains(&pack.id.value) {
            let (n, complaints) = check_cases(&compiled, i);
            println!(
                "{}: {} rules, {n} cases, {} wrong",
                pack.id.value,
                pack.rules.len(),
                complaints.len()
            );
            if prove && complaints.is_empty() {
                let proof = crate::proof::prove(&compiled, i);
                println!(
                    "    {} slips, {} equivalent, {} not noticed",
                    proof.slips(),
                    proof.equivalent,
                    proof.survivors.len()
                );
                all.extend(proof.survivors);
                all.extend(crate::proof::analyse(&compiled, i));
            }
            all.extend(complaints);
        }
    }
    if all.is_empty() {
        Ok(ExitCode::SUCCESS)
    } else {
        Err(Complaints(all))
    }
}
