//! Complaints as a person sees them.

use super::diagnostic::Complaints;
use miette::{GraphicalReportHandler, GraphicalTheme, ThemeCharacters, ThemeStyles};

/// How complaints are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RenderOptions {
    /// Colours by ANSI escape sequences; without it there is no escape sequence at all.
    pub color: bool,
    /// Columns to wrap the text at.
    pub width: usize,
    /// Lines and marks drawn with Unicode characters; ASCII ones otherwise.
    pub unicode: bool,
}

impl Default for RenderOptions {
    fn default() -> RenderOptions {
        RenderOptions {
            color: false,
            width: 100,
            unicode: true,
        }
    }
}

/// Every complaint with its code, message, the place in its text and the help, a blank line between two.
/// Nothing that stands in an input can send an escape sequence through.
pub fn render(complaints: &Complaints, options: RenderOptions) -> String {
    let theme = GraphicalTheme {
        characters: if options.unicode {
            ThemeCharacters::unicode()
        } else {
            ThemeCharacters::ascii()
        },
        styles: if options.color {
            ThemeStyles::ansi()
        } else {
            ThemeStyles::none()
        },
    };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(options.width.clamp(40, 400))
        .with_links(false)
        .with_context_lines(1)
        .without_syntax_highlighting();
    let mut out = String::new();
    for (n, complaint) in complaints.iter().enumerate() {
        if n > 0 {
            out.push('\n');
        }
        let mut one = String::new();
        if handler.render_report(&mut one, complaint).is_err() {
            // Only a source that cannot be cut leads here; the message must be told all the same.
            one = format!("{}\n  {complaint}\n", complaint.code);
        }
        for line in one.lines() {
            out.push_str(line.trim_end());
            out.push('\n');
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::super::{Complaint, SourceText, Span, clean::is_unsafe};
    use super::*;
    use proptest::prelude::*;

    fn show(complaint: Complaint, options: RenderOptions) -> String {
        render(&complaint.into(), options)
    }

    #[test]
    fn points_at_the_characters() {
        let source =
            SourceText::from_str("kiln.yaml", "name: kiln\nwieght: 3,100 lb\nlength: 6 ft\n");
        let complaint = Complaint::error("a::b", "`wieght` is not known here")
            .at(&source, Span::new(11, 17), "here")
            .help("did you mean `weight`?");
        let plain = RenderOptions {
            unicode: false,
            ..RenderOptions::default()
        };
        insta::assert_snapshot!(show(complaint, plain), @r"
        a::b

          x `wieght` is not known here
           ,-[kiln.yaml:2:1]
         1 | name: kiln
         2 | wieght: 3,100 lb
           : ^^^|^^
           :    `-- here
         3 | length: 6 ft
           `----
          help: did you mean `weight`?
        ");
    }

    #[test]
    fn colour_only_when_asked() {
        let source = SourceText::from_str("t", "a: 1");
        let complaint = Complaint::warning("a::b", "odd").at(&source, Span::new(0, 1), "here");
        assert!(!show(complaint.clone(), RenderOptions::default()).contains('\u{1b}'));
        let coloured = RenderOptions {
            color: true,
            ..RenderOptions::default()
        };
        assert!(show(complaint, coloured).contains('\u{1b}'));
    }

    #[test]
    fn a_long_line_is_shown_as_a_window() {
        let text = format!("{}: [{}]", "k".repeat(300_000), "1,".repeat(300_000));
        let source = SourceText::from_str("t", &text);
        let complaint = Complaint::error("a::b", "wrong")
            .at(&source, Span::new(300_010, 600_000), "here")
            .also(Span::new(10, 20), "and here");
        let shown = show(complaint, RenderOptions::default());
        assert!(shown.len() < 4_000, "{} bytes", shown.len());
        assert!(
            shown.contains("t:1:300011") && shown.contains("and here"),
            "{shown}"
        );
    }

    #[test]
    fn places_far_apart_are_shown_apart() {
        let text = "line: 1\n".repeat(5_000);
        let source = SourceText::from_str("t", &text);
        let complaint = Complaint::error("a::b", "twice")
            .at(&source, Span::new(39_992, 39_996), "again")
            .also(Span::new(8, 12), "first");
        let shown = show(complaint, RenderOptions::default());
        assert!(shown.contains("5000") && shown.contains("t:2:1"), "{shown}");
        assert!(shown.lines().count() < 25, "{shown}");
    }

    proptest! {
        #[test]
        fn nothing_in_an_input_reaches_the_terminal(
            text in "(\\PC|[\\x00-\\x1f\\x7f\u{85}\u{9b}\u{202e}\u{2028}\u{feff}\u{e0041}\r\n\t])*",
            message in "(\\PC|[\\x00-\\x1f\u{9b}\u{202e}])*",
            spans in proptest::collection::vec((0usize..80, 0usize..80), 0..4),
            unicode: bool,
            width in 0usize..200,
        ) {
            let source = SourceText::from_str(&message, &text);
            let mut complaint = Complaint::error("a::b", message.clone()).help(message.clone());
            for (a, b) in spans {
                complaint = complaint.at(&source, Span::new(a, b), message.clone());
            }
            let shown = show(complaint, RenderOptions { color: false, width, unicode });
            let stray: Vec<char> = shown.chars().filter(|&c| c != '\n' && is_unsafe(c)).collect();
            prop_assert!(stray.is_empty(), "{:?} in {:?}", stray, shown);
        }
    }
}
