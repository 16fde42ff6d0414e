//! What checking packs came to, as JUnit XML: a suite a pack, a test a rule.

use crate::proof::PackCheck;
use crate::source::{Complaint, Severity, clean};
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};

/// The checks as JUnit XML.
#[must_use]
pub fn junit(checks: &[PackCheck]) -> String {
    let mut report = Report::new("pintle packs");
    for check in checks {
        let name = check.id.as_deref().unwrap_or(&check.file);
        let mut suite = TestSuite::new(clean(name));
        suite.add_test_case(test("pack", name, &whole(check)));
        for rule in &check.each {
            let own: Vec<&Complaint> = errors(check)
                .filter(|c| within(c, rule.span, check))
                .collect();
            suite.add_test_case(test(&rule.id, name, &own));
        }
        report.add_test_suite(suite);
    }
    // The published schema knows no `skipped` on the outermost element, and nothing is skipped here.
    let xml = report.to_string().unwrap_or_default();
    xml.replacen(" skipped=\"0\"", "", 1)
}

fn errors(check: &PackCheck) -> impl Iterator<Item = &Complaint> {
    check
        .complaints
        .iter()
        .filter(|c| c.severity == Severity::Error)
}

fn within(c: &Complaint, rule: crate::source::Span, check: &PackCheck) -> bool {
    let own_file = c.source.as_ref().is_some_and(|s| s.name() == check.file);
    own_file
        && c.span()
            .is_some_and(|s| rule.start <= s.start && s.end <= rule.end)
}

/// Complaints that belong to no single rule.
fn whole(check: &PackCheck) -> Vec<&Complaint> {
    errors(check)
        .filter(|c| !check.each.iter().any(|r| within(c, r.span, check)))
        .collect()
}

fn test(name: &str, class: &str, complaints: &[&Complaint]) -> TestCase {
    let status = if complaints.is_empty() {
        TestCaseStatus::success()
    } else {
        let mut failure = TestCaseStatus::non_success(NonSuccessKind::Failure);
        let told: Vec<String> = complaints.iter().map(|c| told(c)).collect();
        if let Some(first) = complaints.first() {
            failure
                .set_message(clean(&first.message))
                .set_type(first.code);
        }
        failure.set_description(told.join("\n\n"));
        failure
    };
    let mut case = TestCase::new(clean(name), status);
    case.set_classname(clean(class));
    case
}

fn told(c: &Complaint) -> String {
    let place = match (&c.source, c.line_col()) {
        (Some(s), Some((line, column))) => format!("{}:{line}:{column}: ", s.name()),
        _ => String::new(),
    };
    let help = c
        .help
        .as_deref()
        .map_or_else(String::new, |h| format!("\n{h}"));
    clean(&format!("{place}{} [{}]{help}", c.message, c.code)).into_owned()
}
