//! `pintle schema`: the JSON Schemas.

use super::Status;
use super::args::{SchemaArgs, Which};
use super::terminal::Terminal;
use crate::pack::pack_schema;
use crate::report::{print_json, report_schema};
use crate::rig::rig_schema;
use crate::source::Complaints;

pub fn run(args: &SchemaArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let schema = match args.which {
        Which::Rig => rig_schema(),
        Which::Pack => pack_schema(),
        Which::Report => report_schema(),
    };
    terminal.print(&print_json(&schema))?;
    Ok(Status::Good)
}
