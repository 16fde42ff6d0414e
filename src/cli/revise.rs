//! `pintle packs new` and `pintle packs diff`: a pack to begin from, and what changed in one.

use super::Status;
use super::args::{Format, PacksDiffArgs, PacksNewArgs};
use super::terminal::Terminal;
use crate::engine::compile;
use crate::facts::{format_day, today};
use crate::pack::{Asked, Library, Pack, Region, read_pack_fully, skeleton};
use crate::proof::{RuleDiff, diff};
use crate::report::{diff_json, diff_text, print_json};
use crate::source::{Complaints, read_path};
use std::path::Path;

pub fn new(args: &PacksNewArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let region = Region::asked(&Asked::plain(&args.region))?;
    terminal.print(&skeleton(region, &format_day(today())))?;
    Ok(Status::Good)
}

pub fn compare(args: &PacksDiffArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let changes = changes(&args.old, &args.new)?;
    terminal.print(&match args.format {
        Format::Text => diff_text(&changes, terminal.style()),
        Format::Json => print_json(&diff_json(&changes)),
    })?;
    Ok(Status::Good)
}

/// Reads two versions of a pack, each with the built-in packs that it refers to.
fn changes(old: &Path, new: &Path) -> Result<Vec<RuleDiff>, Complaints> {
    let load = |path: &Path| -> Result<(Library, String), Complaints> {
        let pack: Pack = read_pack_fully(&read_path(path)?)?;
        let id = pack.id.value.clone();
        let mut library = Library::built_in();
        library.add_read(pack);
        Ok((library, id))
    };
    let ((old_library, old_id), (new_library, new_id)) = (load(old)?, load(new)?);
    let before = compile(old_library.with_references(&[&old_id])?)?;
    let after = compile(new_library.with_references(&[&new_id])?)?;
    // The pack asked for is the first of those compiled with it.
    Ok(diff(&before, 0, &after, 0))
}
