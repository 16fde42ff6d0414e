//! `pintle schema`: the JSON Schemas.

use super::Status;
use super::args::{SchemaArgs, Which};
use super::terminal::Terminal;
use crate::dialogue::questions_schema;
use crate::pack::pack_schema;
use crate::report::{
    comparison_schema, print_json, range_schema, report_schema, sheet_schema, strictest_schema,
};
use crate::rig::rig_schema;
use crate::source::Complaints;

pub fn run(args: &SchemaArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let schema = match args.which {
        Which::Rig => rig_schema(),
        Which::Pack => pack_schema(),
        Which::Report => report_schema(),
        Which::Range => range_schema(),
        Which::Strictest => strictest_schema(),
        Which::Ask => questions_schema(),
        Which::Sheet => sheet_schema(),
        Which::Compare => comparison_schema(),
    };
    terminal.print(&print_json(&schema))?;
    Ok(Status::Good)
}
