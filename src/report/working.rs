//! Tells the working of a figure once in a report, and the bare figure after that.

use super::Report;

/// Workings shorter than this are told every time.
const SHORT: usize = 16;

/// The workings of a report, and which of them have been told.
pub(super) struct Workings<'r> {
    /// Each working, the longest first, and whether it was told.
    all: Vec<(&'r str, bool)>,
}

impl<'r> Workings<'r> {
    /// Those of the facts that were worked out.
    pub fn new(report: &'r Report) -> Workings<'r> {
        let workings = report.worked_out.iter().map(|w| w.working.as_str());
        let mut all: Vec<(&str, bool)> = workings
            .filter(|w| w.len() >= SHORT)
            .map(|w| (w, false))
            .collect();
        all.sort_by_key(|(working, _)| std::cmp::Reverse(working.len()));
        all.dedup();
        Workings { all }
    }

    /// The line without the workings that were told before.
    pub fn cut(&mut self, line: &str) -> String {
        let mut out = line.to_owned();
        for (working, told) in &mut self.all {
            let part = format!(" = {working}");
            if out.contains(&part) {
                if *told {
                    out = out.replace(&part, "");
                }
                *told = true;
            }
        }
        out
    }
}
