//! What the command line takes.

use super::documents::{COMPARE, CompareArgs, ReportFormat, SHEET, SheetArgs, UnitsAsked};
use crate::facts::{Day, parse_day};
use crate::pack::Topic;
use crate::quantity::{Dimension, Measure, parse_measure};
use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

const STATUS: &str = "Exit status: 0 nothing is broken; 1 a rule is not met; 2 the command line or an input is wrong; 3 with --strict, when nothing is broken but something is unknown or has to be looked at.";

const TOP: &str = "Examples:
  pintle example > rig.yaml                     a starter rig to fill in
  pintle check rig.yaml --in Nebraska --in US-CO
  pintle explain us-ne/brakes-commercial-trailer rig.yaml
  pintle packs list --topic safety-chains       one topic, every region
  pintle facts tongue                           what a rig file can say

Pintle informs; it gives no advice on law. Verify with the local authority.";

const CHECK: &str = "Examples:
  pintle check rig.yaml                         the regions and day that the rig names
  pintle check rig.yaml --in US-NE --in Ontario --on 2026-12-01
  pintle check rig.yaml --in US --format json   every state that a pack covers
  pintle check rig.yaml --format html > rig.html  a page with a drawing of the rig
  pintle example | pintle check -
  pintle check rig.yaml --in US-NE --rules my-packs --only-rules";

const RANGE: &str = "Examples:
  pintle range rig.yaml trailer.gross_weight    how heavy may this trailer be?
  pintle range rig.yaml load.kiln.position      where may the kiln stand?
  pintle range rig.yaml load.kiln.tie_down_count --in US-NE
  pintle range rig.yaml trip.speed --in US --format json

Exit status: 0 some value breaks no rule; 1 every value does; 2 the command line or an input is wrong.";

const STRICTEST: &str = "Examples:
  pintle strictest rig.yaml --in US-NE --in US-CO
  pintle strictest rig.yaml --in US --no-practice --format json

Exit status: 0, or 1 when two regions ask for what nothing satisfies; 2 the command line or an input is wrong.";

const ASK: &str = "Examples:
  pintle ask --in Nebraska --in US-CO           from nothing to a rig file and a report
  pintle ask rig.yaml                           only what the file leaves open
  pintle ask rig.yaml -o complete.yaml
  pintle ask rig.yaml --next 5                  the next questions, as JSON

It asks for the fact on which most hangs, says which rules those are, and stops as soon as no answer could change an outcome. Exit status: as for `pintle check`.";

const EXPLAIN: &str = "Examples:
  pintle explain us-ne/overhang-flag
  pintle explain overhang-flag --in Nebraska    by its short id
  pintle explain us-ne/overhang-flag rig.yaml   and how it decides for this rig

Exit status: 0, or with a rig 1 when a rule is not met; 2 the command line or an input is wrong.";

const PACKS: &str = "Examples:
  pintle packs list
  pintle packs list --topic brakes
  pintle packs check                            all that are built in
  pintle packs check rules/us/ne.yaml
  pintle packs stale --older-than \"12 months\"";

const PACKS_CHECK: &str = "Exit status: 0 nothing is wrong; 2 something is.";

const FACTS: &str = "Examples:
  pintle facts                                  all of them
  pintle facts tongue weight                    those that speak of both words
  pintle facts --format json";

const SCHEMA: &str = "Examples:
  pintle schema rig > rig.schema.json
  An editor that knows YAML schemas then completes and checks rig.yaml from its first line:
  # yaml-language-server: $schema=rig.schema.json";

/// Checks a towing rig against the rules of the places it will pass through, and cites the source of
/// each.
#[derive(Debug, Parser)]
#[command(name = "pintle", version, arg_required_else_help = true, after_help = TOP, after_long_help = format!("{TOP}\n\n{STATUS}"))]
pub struct Args {
    /// When to use colours; NO_COLOR in the environment turns them off too
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto")]
    pub color: ColorWhen,
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check a rig against the rules of regions
    #[command(after_help = format!("{CHECK}\n\n{STATUS}"))]
    Check(CheckArgs),
    /// Ask for the facts that matter, write them into a rig file, and check it
    #[command(after_help = ASK)]
    Ask(AskArgs),
    /// Tell which values of one fact break no rule, all else as the rig states it
    #[command(after_help = RANGE)]
    Range(RangeArgs),
    /// Tell the one set of requirements that satisfies every region of a route
    #[command(after_help = STRICTEST)]
    Strictest(StrictestArgs),
    /// Tell a rule in full: what it says, when it applies, its sources and history
    #[command(after_help = EXPLAIN)]
    Explain(ExplainArgs),
    /// Print what regions ask of a kind of rig, to hand out or to tick off
    #[command(after_help = SHEET)]
    Sheet(SheetArgs),
    /// Compare what regions ask on one topic: side by side, by weight, on a map
    #[command(after_help = COMPARE)]
    Compare(CompareArgs),
    /// List packs of rules, check them, or find those that were read long ago
    #[command(subcommand, after_help = PACKS)]
    Packs(PacksCommand),
    /// Print the vocabulary: what a rig file and a pack can speak of
    #[command(after_help = FACTS)]
    Facts(FactsArgs),
    /// Print a JSON Schema
    #[command(after_help = SCHEMA)]
    Schema(SchemaArgs),
    /// Print a starter rig with comments, to fill in
    Example,
}

#[derive(Debug, ClapArgs)]
pub struct CheckArgs {
    /// The rig file; `-` is standard input
    pub rig: PathBuf,
    #[command(flatten)]
    pub place: PlaceArgs,
    #[command(flatten)]
    pub rules: RulesArgs,
    /// How to print the report
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: ReportFormat,
    /// On a page of HTML, tell figures in these units too
    #[arg(long, value_name = "UNITS")]
    pub units: Option<UnitsAsked>,
    /// List the rules that do not apply too, and all that was worked out
    #[arg(long)]
    pub all: bool,
    /// Exit with status 3 when nothing is broken but something is unknown or has to be looked at
    #[arg(long)]
    pub strict: bool,
    /// Leave out the habits of the trade; check the law alone
    #[arg(long)]
    pub no_practice: bool,
}

#[derive(Debug, ClapArgs)]
pub struct RangeArgs {
    /// The rig file; `-` is standard input
    pub rig: PathBuf,
    /// The fact, by its dotted name: trailer.gross_weight, load.kiln.position
    pub fact: String,
    #[command(flatten)]
    pub place: PlaceArgs,
    #[command(flatten)]
    pub rules: RulesArgs,
    /// How to print the range
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
    /// Tell every rule that stops at an end, not the first few
    #[arg(long)]
    pub all: bool,
    /// Leave out the habits of the trade; keep to the law alone
    #[arg(long)]
    pub no_practice: bool,
}

#[derive(Debug, ClapArgs)]
pub struct StrictestArgs {
    /// The rig file, which tells the rules that apply; `-` is standard input
    pub rig: PathBuf,
    #[command(flatten)]
    pub place: PlaceArgs,
    #[command(flatten)]
    pub rules: RulesArgs,
    /// How to print the requirements
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
    /// Tell every rule that asks for the same, not the first few
    #[arg(long)]
    pub all: bool,
    /// Leave out the habits of the trade; keep to the law alone
    #[arg(long)]
    pub no_practice: bool,
}

#[derive(Debug, ClapArgs)]
pub struct AskArgs {
    /// The rig file to begin from; a new one when left out
    pub rig: Option<PathBuf>,
    #[command(flatten)]
    pub place: PlaceArgs,
    #[command(flatten)]
    pub rules: RulesArgs,
    /// Print the next N questions as JSON and exit
    #[arg(long, value_name = "N")]
    pub next: Option<usize>,
    /// Where to write the rig; else the file it began from. What is there is written over only after asking
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Leave out the habits of the trade; ask for what the law needs alone
    #[arg(long)]
    pub no_practice: bool,
}

#[derive(Debug, ClapArgs)]
pub struct ExplainArgs {
    /// The rule: its full id, such as us-ne/overhang-flag, or the id without the pack
    pub rule: String,
    /// A rig to decide it for; `-` is standard input
    pub rig: Option<PathBuf>,
    #[command(flatten)]
    pub place: PlaceArgs,
    #[command(flatten)]
    pub rules: RulesArgs,
}

#[derive(Debug, ClapArgs)]
pub struct PlaceArgs {
    /// A region, by name or ISO 3166-2 code; US or CA is every one of that country that a pack covers. Repeat it for a route
    #[arg(long = "in", value_name = "REGION", value_delimiter = ',')]
    pub regions: Vec<String>,
    /// The day to check for, YYYY-MM-DD; else the rig's day of the trip, else today
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub on: Option<Day>,
}

#[derive(Debug, ClapArgs)]
pub struct RulesArgs {
    /// A pack, or a folder of packs, to read on top of those that are built in
    #[arg(long = "rules", value_name = "DIR")]
    pub paths: Vec<PathBuf>,
    /// Use only the packs of --rules
    #[arg(long, requires = "paths")]
    pub only_rules: bool,
}

#[derive(Debug, Subcommand)]
pub enum PacksCommand {
    /// List the packs: region, version, rules, topics, how the sources were read
    List(ListArgs),
    /// Check packs: schema, references, and every case; the built-in ones when no path is given
    #[command(after_help = PACKS_CHECK)]
    Check(PacksCheckArgs),
    /// Prove packs: check them, and show that their cases would notice any slip
    #[command(after_help = PACKS_CHECK)]
    Prove(PacksCheckArgs),
    /// List rules whose sources were read long ago
    Stale(StaleArgs),
    /// Print a pack to begin from, with comments and one rule to replace
    New(PacksNewArgs),
    /// Tell what changed between two versions of a pack, meaning apart from wording
    Diff(PacksDiffArgs),
}

#[derive(Debug, ClapArgs)]
pub struct PacksNewArgs {
    /// The region, by name or ISO 3166-2 code
    pub region: String,
}

#[derive(Debug, ClapArgs)]
pub struct PacksDiffArgs {
    /// The pack as it was
    pub old: PathBuf,
    /// The pack as it is
    pub new: PathBuf,
    /// How to print the changes
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
}

#[derive(Debug, ClapArgs)]
pub struct ListArgs {
    /// Print what every region says on one topic
    #[arg(long, value_name = "TOPIC", value_parser = topic)]
    pub topic: Option<Topic>,
    /// How to print the list
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
    #[command(flatten)]
    pub rules: RulesArgs,
}

#[derive(Debug, ClapArgs)]
pub struct PacksCheckArgs {
    /// Packs, or folders of packs
    pub paths: Vec<PathBuf>,
    /// How to print the result; with text, complaints go to standard error
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: ReviewFormat,
}

#[derive(Debug, ClapArgs)]
pub struct StaleArgs {
    /// How long ago, such as "12 months" or "2 years"
    #[arg(long, value_name = "TIME", value_parser = stretch)]
    pub older_than: Measure,
    /// The day to count from, YYYY-MM-DD; today when left out
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub on: Option<Day>,
    /// How to print the list
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
    #[command(flatten)]
    pub rules: RulesArgs,
}

#[derive(Debug, ClapArgs)]
pub struct FactsArgs {
    /// Words that a fact must speak of, in its name, meaning or choices
    pub words: Vec<String>,
    /// How to print them
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: Format,
}

#[derive(Debug, ClapArgs)]
pub struct SchemaArgs {
    /// Which schema
    pub which: Which,
}

/// How something is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people
    Text,
    /// For programs
    Json,
}

/// How the result of checking packs is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ReviewFormat {
    /// For people
    Text,
    /// For programs
    Json,
    /// SARIF 2.1.0, for tools that annotate a change at the line
    Sarif,
    /// JUnit XML, for tools that show test results
    Junit,
}

/// When to use colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ColorWhen {
    /// On a terminal, unless NO_COLOR is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// The schemas.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Which {
    /// Of a rig file
    Rig,
    /// Of a pack
    Pack,
    /// Of the JSON report
    Report,
    /// Of the range of a fact
    Range,
    /// Of the requirements of a route
    Strictest,
    /// Of the next questions
    Ask,
    /// Of a sheet of requirements
    Sheet,
    /// Of a comparison of regions
    Compare,
}

pub(super) fn day(text: &str) -> Result<Day, String> {
    parse_day(text).ok_or_else(|| "expected a day of the calendar, YYYY-MM-DD".to_owned())
}

pub(super) fn topic(text: &str) -> Result<Topic, String> {
    let names = Topic::ALL.map(Topic::name);
    Topic::find(text).ok_or_else(|| match crate::source::suggest::phrase(text, names) {
        Some(question) => question,
        None => format!("the topics are {}", names.join(", ")),
    })
}

fn stretch(text: &str) -> Result<Measure, String> {
    let read = parse_measure(text, Dimension::Time).map_err(|e| e.message)?;
    match read.interval.is_exact() {
        Some(_) => Ok(read),
        None => Err("expected one length of time, such as 12 months".to_owned()),
    }
}
