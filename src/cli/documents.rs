//! What the commands that print documents take: sheets and comparisons.

use super::args::{RulesArgs, day, topic};
use crate::facts::Day;
use crate::pack::Topic;
use clap::{Args as ClapArgs, ValueEnum};

pub const SHEET: &str = "Examples:
  pintle sheet Nebraska --kind boat --use private --gross \"0 lb to 10,000 lb\"
  pintle sheet US-NE CA-ON --format html > sheet.html     a page to print, Letter or A4
  pintle sheet Ontario --topic brakes --units us          figures in pounds too
  pintle sheet Texas --given trailer.model_year=2019 --practice";

pub const COMPARE: &str = "Examples:
  pintle compare US CA --topic brakes --kind utility --use private
  pintle compare Nebraska Iowa --topic safety-chains --format html > chains.html
  pintle compare US-NE CA-ON --topic brakes --units metric --given tow_vehicle.kind=pickup";

#[derive(Debug, ClapArgs)]
pub struct CompareArgs {
    /// The regions, by name or ISO 3166-2 code; US or CA is every one of that country that a pack covers
    #[arg(required = true, value_name = "REGION", value_delimiter = ',')]
    pub regions: Vec<String>,
    /// The topic
    #[arg(long, value_name = "TOPIC", value_parser = topic)]
    pub topic: Topic,
    #[command(flatten)]
    pub kind: KindArgs,
    /// How to print it
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: DocumentFormat,
    #[command(flatten)]
    pub rules: RulesArgs,
}

#[derive(Debug, ClapArgs)]
pub struct SheetArgs {
    /// The regions, by name or ISO 3166-2 code; US or CA is every one of that country that a pack covers
    #[arg(required = true, value_name = "REGION", value_delimiter = ',')]
    pub regions: Vec<String>,
    #[command(flatten)]
    pub kind: KindArgs,
    /// Only this topic; repeat it for several
    #[arg(long = "topic", value_name = "TOPIC", value_parser = topic, value_delimiter = ',')]
    pub topics: Vec<Topic>,
    /// Add the habits of the trade
    #[arg(long)]
    pub practice: bool,
    /// How to print it
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    pub format: DocumentFormat,
    #[command(flatten)]
    pub rules: RulesArgs,
}

/// What is known of every rig that something is printed for.
#[derive(Debug, ClapArgs)]
pub struct KindArgs {
    /// The kind of trailer, such as boat or flatbed
    #[arg(long, value_name = "KIND")]
    pub kind: Option<String>,
    /// What the rig is used for: private, business or farm
    #[arg(long = "use", value_name = "USE")]
    pub used_for: Option<String>,
    /// The gross weights of the trailer to look at, such as "0 lb to 10,000 lb"
    #[arg(long, value_name = "WEIGHTS")]
    pub gross: Option<String>,
    /// Another fact that is known, by its name in a rig file; repeat it for several
    #[arg(long, value_name = "FACT=VALUE", value_parser = given)]
    pub given: Vec<(String, String)>,
    /// The day to print it for, YYYY-MM-DD; today when left out
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub on: Option<Day>,
    /// Tell figures in these units too; the statute's own are always shown
    #[arg(long, value_name = "UNITS")]
    pub units: Option<UnitsAsked>,
}

/// How a report is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ReportFormat {
    /// For people, on a terminal
    Text,
    /// For people, as a page with a drawing of the rig
    Html,
    /// For programs
    Json,
}

/// How a document is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DocumentFormat {
    /// For people, on a terminal
    Text,
    /// For people, as a page to read or print
    Html,
    /// For people, as Markdown
    Markdown,
    /// For programs
    Json,
}

/// The units that figures are told in besides the statute's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitsAsked {
    /// Pounds, feet and miles
    Us,
    /// Kilograms, metres and kilometres
    Metric,
}

fn given(text: &str) -> Result<(String, String), String> {
    let (fact, value) = text
        .split_once('=')
        .ok_or("expected a fact and its value, such as trailer.model_year=2019")?;
    Ok((fact.trim().to_owned(), value.trim().to_owned()))
}
