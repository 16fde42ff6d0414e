//! `pintle example`: a starter rig.

use super::Status;
use super::terminal::Terminal;
use crate::rig::EXAMPLE;
use crate::source::Complaints;

pub fn run(terminal: &Terminal) -> Result<Status, Complaints> {
    terminal.print(EXAMPLE)?;
    Ok(Status::Good)
}
