//! What closes a report for people: cautions, notice, authorities, packs and the day.

use super::Report;
use super::finding::region_name;
use super::notice::{CAUTIONS, NOTICE};
use super::page::{Page, Tone};
use crate::facts::format_day;

/// How many digits of a pack's SHA-256 people are shown.
const SHORT_HASH: usize = 12;

/// Sets the closing of a report.
pub(super) fn set(page: &mut Page, report: &Report) {
    page.heading(Tone::Strong, "BEFORE YOU DRIVE");
    for caution in CAUTIONS {
        page.item(0, "  - ", caution);
    }
    page.gap();
    page.para(0, Tone::Strong, NOTICE);
    for (region, authority) in &report.authorities {
        page.item(2, &format!("{}: ", region_name(region)), &authority.name);
        if let Some(web) = &authority.web {
            page.whole(6, web);
        }
    }
    page.gap();
    let used = |p: &super::PackUsed| {
        format!(
            "{} {} ({})",
            p.id,
            p.version,
            p.sha256.get(..SHORT_HASH).unwrap_or(&p.sha256)
        )
    };
    let packs: Vec<String> = report.packs.iter().map(used).collect();
    page.item(0, "Packs  ", &packs.join(", "));
    page.item(
        0,
        "Day    ",
        &format!("{} ({})", format_day(report.on.day), report.on.origin()),
    );
}
