//! `pintle ask`: a dialogue that asks for the facts that matter, and writes the rig file.

use super::Status;
use super::args::AskArgs;
use super::check::status;
use super::inputs::{Gathered, rig, route, rules};
use super::talk::{Reply, Talk};
use super::terminal::Terminal;
use crate::dialogue::{Refusal, Session, Told, questions_json};
use crate::engine::Ruleset;
use crate::facts::today;
use crate::pack::{Asked, Library, Region};
use crate::report::{CheckDay, Detail, print_json, report_text};
use crate::rig::{Rig, read_rig};
use crate::source::{Complaint, Complaints, SourceText};
use std::path::{Path, PathBuf};

/// A rig of which nothing is known.
const EMPTY: &str = "rig: 1\n";

pub fn run(args: &AskArgs, terminal: &Terminal) -> Result<Status, Complaints> {
    let mut gathered = Gathered::default();
    let rig = match &args.rig {
        Some(path) => gathered.keep(rig(path)),
        None => gathered.keep(read_rig(&SourceText::from_str("new rig", EMPTY))),
    };
    let library = gathered.keep(rules(&args.rules));
    let (Some(rig), Some(library)) = (rig, library) else {
        return Err(gathered.into_complaints());
    };
    let mut talk = Talk::new(terminal);
    let regions = regions(args, &rig, &library, &mut talk)?;
    let Some(regions) = regions else {
        return Err(ended());
    };
    let on = CheckDay::choose(args.place.on, Some(&rig), today()).map_err(Complaints::from)?;
    let rules = Ruleset::new(&library, &regions, !args.no_practice)?;
    let mut session = Session::new(&rules, &rig.source, on)?;
    if let Some(most) = args.next {
        terminal.print(&print_json(&questions_json(&session, most)))?;
        return Ok(Status::Good);
    }
    // An answer of an hour is not lost to a folder that is not there.
    if let Some(path) = &args.output {
        can_be_written(path)?;
    }
    let codes: Vec<&str> = regions.iter().map(|r| r.code).collect();
    // A file that cannot take them is checked for them all the same.
    let _ = session.name_regions(&codes);
    talk.hello(args.rig.is_some(), &regions)?;
    if ask_all(&mut session, &mut talk)? {
        look_all(&mut session, &mut talk)?;
    }
    let changed = session.text() != rig.source.text();
    if let Err(complaints) = keep(args, &session, changed, &mut talk) {
        // What was answered is told, so that it can be kept by hand.
        talk.gap()?;
        terminal.print(session.text())?;
        return Err(complaints);
    }
    let report = session.report(Detail::Applying)?;
    talk.gap()?;
    terminal.print(&report_text(&report, terminal.style()))?;
    Ok(status(report.gravest(), false))
}

fn ended() -> Complaints {
    Complaint::error("cli::ask-end", "the answers end before the route is known")
        .help("say where with `--in Nebraska`")
        .into()
}

/// The regions of the command line, of the rig, or else those that are answered.
fn regions(
    args: &AskArgs,
    rig: &Rig,
    library: &Library,
    talk: &mut Talk<'_>,
) -> Result<Option<Vec<&'static Region>>, Complaints> {
    if !args.place.regions.is_empty() || !rig.regions.is_empty() || args.next.is_some() {
        return route(library, &args.place, Some(rig)).map(Some);
    }
    loop {
        let question = "Which states or provinces does the trip pass through? Names or codes, with commas between.";
        match talk.line(question)? {
            Reply::Text(text) => {
                let names = text.split(',').map(str::trim).filter(|n| !n.is_empty());
                let asked: Vec<Asked<'_>> = names.map(Asked::plain).collect();
                match library.route(&asked) {
                    Ok(route) if !route.is_empty() => return Ok(Some(route)),
                    Ok(_) => talk.refuse("no region was named", "such as Nebraska, US-CO")?,
                    Err(complaints) => {
                        for c in &complaints.0 {
                            talk.refuse(&c.message, c.help.as_deref().unwrap_or_default())?;
                        }
                    }
                }
            }
            Reply::End | Reply::Quit => return Ok(None),
            _ => talk.refuse("the route has to be known", "such as Nebraska, US-CO")?,
        }
    }
}

/// Asks until no answer could change an outcome. Whether it came to that.
fn ask_all(session: &mut Session<'_, '_>, talk: &mut Talk<'_>) -> Result<bool, Complaints> {
    loop {
        let open = session.questions();
        let Some(question) = open.first() else {
            talk.say("No further answer could change what comes out.")?;
            return Ok(true);
        };
        let told = Told::new(question, session);
        talk.question(&told, open.len())?;
        let mut offered: Option<String> = None;
        loop {
            match talk.answer()? {
                Reply::Text(text) => {
                    let agreed = offered.take().filter(|_| is_yes(&text));
                    let text = agreed.unwrap_or(text);
                    match session.answer(question.asked, &text) {
                        Ok(()) => break,
                        Err(refusal) => match refusal.instead {
                            Some(instead) => {
                                talk.refuse(&refusal.message, "")?;
                                talk.offer(&instead)?;
                                offered = Some(instead);
                            }
                            None => talk.refuse(&refusal.message, expected(&refusal, &told))?,
                        },
                    }
                }
                Reply::DontKnow => {
                    session.dont_know(question.asked);
                    break;
                }
                Reply::Back if session.back() => break,
                Reply::Back => talk.say("There is nothing to go back to.")?,
                Reply::Why => talk.why(&told)?,
                Reply::Help => talk.help()?,
                Reply::Quit | Reply::End => return Ok(false),
            }
        }
    }
}

fn is_yes(text: &str) -> bool {
    ["y", "yes"].contains(&text.to_lowercase().as_str())
}

/// What to answer instead; of a choice, what the question itself says.
fn expected<'a>(refusal: &'a Refusal, told: &'a Told) -> &'a str {
    if told.choices.is_empty() {
        &refusal.expected
    } else {
        &told.expected
    }
}

/// Asks for what only an eye can tell.
fn look_all(session: &mut Session<'_, '_>, talk: &mut Talk<'_>) -> Result<(), Complaints> {
    let looks = session.looks();
    if looks.is_empty() {
        return Ok(());
    }
    talk.gap()?;
    let count = looks.len();
    talk.say(&format!(
        "What only an eye can tell ({count}): yes where it is so, no where it is not, Enter where nobody has looked."
    ))?;
    for look in looks {
        talk.look(&look.text)?;
        loop {
            match talk.answer()? {
                Reply::Text(text) => {
                    let good = match text.to_lowercase().as_str() {
                        "y" | "yes" => true,
                        "n" | "no" => false,
                        _ => {
                            talk.refuse("that is no answer", "yes, no, or Enter")?;
                            continue;
                        }
                    };
                    if let Err(refusal) = session.see(&look, good) {
                        talk.refuse(&refusal.message, &refusal.expected)?;
                    }
                    break;
                }
                Reply::Back => {
                    let _ = session.back();
                    talk.say("The last answer is taken back.")?;
                }
                Reply::Quit | Reply::End => return Ok(()),
                Reply::Help => talk.help()?,
                Reply::DontKnow | Reply::Why => break,
            }
        }
    }
    Ok(())
}

/// Writes the rig file: never over one that is there without asking.
fn keep(
    args: &AskArgs,
    session: &Session<'_, '_>,
    changed: bool,
    talk: &mut Talk<'_>,
) -> Result<(), Complaints> {
    let mut target: Option<PathBuf> = args.output.clone();
    if target.is_none() {
        target = args.rig.clone().filter(|p| p != Path::new("-"));
        if target.is_some() && !changed {
            return Ok(());
        }
    }
    loop {
        let Some(path) = target.take() else {
            let question = "Into which file shall the rig be written? Enter to keep none.";
            match talk.line(question)? {
                Reply::Text(name) => target = Some(PathBuf::from(name)),
                _ => {
                    talk.say("The rig was not written.")?;
                    return Ok(());
                }
            }
            continue;
        };
        let shown = path.to_string_lossy().into_owned();
        if path.exists() {
            let question = format!("{shown} is there already. Write over it? yes or no");
            match talk.line(&question)? {
                Reply::Text(t) if is_yes(&t) => {}
                Reply::End => {
                    talk.say(&format!("{shown} was left as it was."))?;
                    return Ok(());
                }
                _ => continue,
            }
            return talk.written(&shown, std::fs::write(&path, session.text()));
        }
        return talk.written(&shown, create(&path, session.text()));
    }
}

/// Complains of a place where no file can be written.
fn can_be_written(path: &Path) -> Result<(), Complaints> {
    let folder = path.parent().filter(|f| !f.as_os_str().is_empty());
    let fault = if path.is_dir() {
        Some(("it is a folder", "name a file in it"))
    } else if folder.is_some_and(|f| !f.is_dir()) {
        Some((
            "its folder is not there",
            "make the folder first, or name another file",
        ))
    } else {
        None
    };
    let Some((why, help)) = fault else {
        return Ok(());
    };
    let name = crate::source::quote(&path.to_string_lossy());
    let message = format!("{name} cannot be written: {why}");
    Err(Complaint::error("cli::write", message).help(help).into())
}

/// Writes a file that is not there yet.
fn create(path: &Path, text: &str) -> std::io::Result<()> {
    use std::io::Write as _;
    let mut options = std::fs::OpenOptions::new();
    let mut file = options.write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())
}
