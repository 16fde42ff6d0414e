//! A session at a pseudo-terminal, from nothing to a report for two regions.

use crate::oracle::{DEMO, answer, facts};
use pintle::facts::{Scope, catalogue};
use rexpect::session::{PtySession, spawn_command};
use std::fs;
use std::process::Command;

/// The name of what the last question in a text asks for.
fn asked(text: &str) -> Option<String> {
    let known = facts(DEMO);
    let start = text.rfind("Meaning")?;
    let heading = text.get(..start)?;
    let open = heading.rfind('(')?;
    let name: String = heading
        .get(open + 1..)?
        .chars()
        .take_while(|c| *c != ')')
        .collect();
    let name: String = name.split_whitespace().collect();
    let is_list =
        Scope::ALL.iter().any(|s| s.list_key() == Some(&name)) || name.ends_with(".tie_downs");
    let is_fact = catalogue().find(&name).is_some()
        || pintle::engine::solve::find_subject(&known, &name, None).is_ok();
    (is_list || is_fact).then_some(name)
}

fn next(session: &mut PtySession) -> String {
    session.exp_string("\n> ").expect("a prompt")
}

#[test]
fn from_an_empty_rig_to_a_report_for_two_regions() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("ask");
    fs::create_dir_all(&folder).expect("a scratch folder");
    let file = folder.join("kiln.yaml");
    let _ = fs::remove_file(&file);
    let program = assert_cmd::cargo::cargo_bin!("pintle");
    let mut command = Command::new(program);
    command
        .args([
            "--color",
            "never",
            "ask",
            "--on",
            "2026-12-01",
            "--no-practice",
            "-o",
        ])
        .arg(&file);
    let mut session = spawn_command(command, Some(60_000)).expect("a pseudo-terminal");
    let first = next(&mut session);
    assert!(first.contains("states or provinces"), "{first}");
    session.send_line("Nebrasca").expect("typed");
    assert!(next(&mut session).contains("Nebraska"));
    session.send_line("Nebraska, US-CO").expect("typed");
    let known = facts(DEMO);
    let mut text = next(&mut session);
    // One slip, and one answer taken back.
    let name = asked(&text).expect("a question");
    session.send_line("no such answer").expect("typed");
    assert!(next(&mut session).contains("Expected:"));
    session
        .send_line(&answer(&known, &name).unwrap_or_default())
        .expect("typed");
    assert_ne!(asked(&next(&mut session)), Some(name.clone()));
    session.send_line("back").expect("typed");
    text = next(&mut session);
    assert_eq!(asked(&text), Some(name));
    let mut count = 0;
    while let Some(name) = asked(&text) {
        let reply = answer(&known, &name).unwrap_or_default();
        session.send_line(&reply).expect("typed");
        text = next(&mut session);
        assert!(!text.contains("Not taken"), "{name}: {reply}: {text}");
        count += 1;
        assert!(count < 300, "the questions end");
    }
    assert!(count > 20, "only {count} questions");
    assert!(text.contains("Look:"), "{text}");
    session.send_line("yes").expect("typed");
    let _ = next(&mut session);
    session.send_line("quit").expect("typed");
    let end = session.exp_eof().expect("the end");
    assert!(
        end.contains("Written to") && end.contains("BEFORE YOU DRIVE"),
        "{end}"
    );
    // The report is that of a check of the file.
    let mut check = assert_cmd::Command::new(program);
    let out = check
        .args([
            "--color",
            "never",
            "check",
            "--on",
            "2026-12-01",
            "--no-practice",
        ])
        .arg(&file)
        .output()
        .expect("it runs");
    // What comes through the pseudo-terminal is compared where it is ASCII.
    let ascii = |text: &str| -> String {
        text.chars()
            .filter(|c| c.is_ascii() && !c.is_ascii_control())
            .collect()
    };
    let report = ascii(&String::from_utf8_lossy(&out.stdout));
    assert!(
        report.len() > 1000 && ascii(&end).ends_with(&report),
        "{end}\n\n{report}"
    );
    let written = fs::read_to_string(&file).expect("the file");
    assert!(
        written.starts_with("rig: 1\n") && written.contains("seen:"),
        "{written}"
    );
}

/// Plain lines through a pipe; a file that is there is not written over without a yes.
#[test]
fn a_pipe_gets_plain_lines_and_no_file_is_lost() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("ask-pipe");
    fs::create_dir_all(&folder).expect("a scratch folder");
    let file = folder.join("rig.yaml");
    let before = "rig: 1\n# a note\ntrailer:\n  kind: boat   # on loan\n";
    let run = |input: &str| {
        fs::write(&file, before).expect("a file");
        let mut command = assert_cmd::Command::new(assert_cmd::cargo::cargo_bin!("pintle"));
        let out = command
            .args(["ask", "--in", "US-NE", "--no-practice"])
            .arg(&file)
            .write_stdin(input)
            .output()
            .expect("it runs");
        let after = fs::read_to_string(&file).expect("the file");
        (String::from_utf8_lossy(&out.stdout).into_owned(), after)
    };
    let (out, after) = run("");
    assert!(
        !out.contains('\u{1b}') && out.contains("left as it was"),
        "{out}"
    );
    assert_eq!(after, before);
    let (_, after) = run("private\nquit\nno\n\n");
    assert_eq!(after, before);
    let (out, after) = run("private\nquit\nyes\n");
    assert!(out.contains("Written to"), "{out}");
    assert!(
        after.starts_with(before) && after.contains("use: private"),
        "{after}"
    );
}
