//! The two sides of a dialogue: lines to a person, and lines from one. Plain lines throughout, so that a
//! pipe and a screen reader get them as a terminal does.

use super::terminal::Terminal;
use crate::dialogue::Told;
use crate::pack::Region;
use crate::report::{CitedRule, Page, Tone};
use crate::source::{Complaint, Complaints};
use std::io::{BufRead, stdin};

/// How many choices are told one on each line; more are told together.
const LISTED: usize = 40;

/// The longest answer that is read.
const LONGEST: u64 = 10_000;

/// What a person said.
pub enum Reply {
    /// An answer.
    Text(String),
    /// Nobody knows.
    DontKnow,
    /// Take the last answer back.
    Back,
    /// Enough for now.
    Quit,
    /// Why it is asked.
    Why,
    /// What can be said.
    Help,
    /// Nobody answers any more.
    End,
}

/// A dialogue at a terminal or through a pipe.
pub struct Talk<'t> {
    terminal: &'t Terminal,
}

impl<'t> Talk<'t> {
    pub fn new(terminal: &'t Terminal) -> Talk<'t> {
        Talk { terminal }
    }

    fn page(&self) -> Page {
        Page::new(self.terminal.style())
    }

    fn put(&self, page: Page) -> Result<(), Complaints> {
        self.terminal.print(&page.finish())
    }

    pub fn gap(&self) -> Result<(), Complaints> {
        self.terminal.print("\n")
    }

    pub fn say(&self, text: &str) -> Result<(), Complaints> {
        let mut page = self.page();
        page.para(0, Tone::Plain, text);
        self.put(page)
    }

    pub fn hello(&self, has_rig: bool, regions: &[&Region]) -> Result<(), Complaints> {
        let names: Vec<&str> = regions.iter().map(|r| r.name).collect();
        let begin = if has_rig {
            "Beginning from what the rig file says"
        } else {
            "Beginning with nothing"
        };
        self.say(&format!("{begin}, for {}.", names.join(", ")))?;
        self.help()
    }

    pub fn help(&self) -> Result<(), Complaints> {
        self.say("Enter or ? when it is not known; `back` takes the last answer back; `why` tells the rules; `quit` ends with what is known so far.")
    }

    pub fn question(&self, told: &Told, open: usize) -> Result<(), Complaints> {
        let mut page = self.page();
        page.toned_item(
            0,
            "",
            Tone::Strong,
            &format!("{} ({})", told.label, told.name),
        );
        page.item(2, "Meaning   ", &told.meaning);
        let first = told.rules.first().map_or("", |r| r.says.as_str());
        let why = match told.rules.len() {
            0 => told.why(),
            1 => format!("{}: {first}", told.why()),
            _ => format!("{}, such as: {first}", told.why()),
        };
        page.item(2, "Why       ", &why);
        page.item(2, "Answer    ", &told.expected);
        let widest = told.choices.iter().map(|c| c.name.len()).max().unwrap_or(0);
        if told.choices.len() <= LISTED {
            for (n, c) in told.choices.iter().enumerate() {
                page.item(4, &format!("{:>2} {:<widest$}  ", n + 1, c.name), c.meaning);
            }
        } else {
            let all: Vec<String> = told
                .choices
                .iter()
                .enumerate()
                .map(|(n, c)| format!("{} {}", n + 1, c.name))
                .collect();
            page.para(4, Tone::Plain, &all.join(", "));
        }
        let more = match open {
            1 => "the last open question".to_owned(),
            n => format!("{n} questions are open"),
        };
        page.para(2, Tone::Aside, &format!("({more})"));
        self.terminal.print("\n")?;
        self.put(page)
    }

    pub fn why(&self, told: &Told) -> Result<(), Complaints> {
        let mut page = self.page();
        for rule in &told.rules {
            page.item(2, "- ", &rule.says);
            page.para(4, Tone::Aside, &place(rule));
        }
        self.put(page)
    }

    pub fn look(&self, text: &str) -> Result<(), Complaints> {
        let mut page = self.page();
        page.toned_item(0, "Look: ", Tone::Strong, text);
        self.terminal.print("\n")?;
        self.put(page)
    }

    pub fn refuse(&self, message: &str, expected: &str) -> Result<(), Complaints> {
        let mut page = self.page();
        page.toned_item(0, "Not taken: ", Tone::Broken, message);
        if !expected.is_empty() {
            page.item(0, "Expected:  ", expected);
        }
        self.put(page)
    }

    /// Offers an answer that may have been meant.
    pub fn offer(&self, instead: &str) -> Result<(), Complaints> {
        self.say(&format!("Did you mean `{instead}`? yes, or answer again."))
    }

    pub fn written(&self, name: &str, result: std::io::Result<()>) -> Result<(), Complaints> {
        match result {
            Ok(()) => self.say(&format!("Written to {name}.")),
            Err(e) => Err(Complaint::error(
                "cli::write",
                format!("{} cannot be written: {e}", crate::source::quote(name)),
            )
            .into()),
        }
    }

    /// Asks one thing of its own, and reads the reply.
    pub fn line(&self, question: &str) -> Result<Reply, Complaints> {
        self.say(question)?;
        self.answer()
    }

    /// Reads one reply.
    pub fn answer(&self) -> Result<Reply, Complaints> {
        self.terminal.print("> ")?;
        let mut bytes = Vec::new();
        let mut input = std::io::Read::take(stdin().lock(), LONGEST);
        let read = input.read_until(b'\n', &mut bytes);
        let Ok(1..) = read else {
            self.terminal.print("\n")?;
            return Ok(Reply::End);
        };
        let text = String::from_utf8_lossy(&bytes);
        let text = text.trim();
        Ok(match text.to_lowercase().as_str() {
            "" | "?" | "don't know" | "dont know" | "don’t know" | "dunno" | "not sure"
            | "no idea" | "not known" | "unknown" | "n/a" | "skip" => Reply::DontKnow,
            "back" => Reply::Back,
            "q" | "quit" | "exit" => Reply::Quit,
            "why" => Reply::Why,
            "help" => Reply::Help,
            _ => Reply::Text(text.to_owned()),
        })
    }
}

fn place(rule: &CitedRule) -> String {
    let first = rule.ids.first().map_or("", String::as_str);
    match rule.ids.len() {
        0 | 1 => first.to_owned(),
        n => format!("{first} and {} more that say the same", n - 1),
    }
}
