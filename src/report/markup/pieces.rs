//! Pieces that every page shares.

use super::style::{COMMON, css_string};
use crate::facts::format_day;
use crate::pack::{Authority, Reading, Source, Topic};
use crate::report::figures::{Piece, pieces};
use crate::report::finding::region_name;
use crate::report::notice::{CAUTIONS, NOTICE};
use crate::report::summary::capital;
use crate::report::{CheckDay, PackUsed, Units};
use crate::source::clean::is_unsafe;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Nothing may run and nothing be fetched, whatever finds its way into a page.
const POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// A whole page. `running` names the parts that have a foot of their own in print: an id and what
/// the foot says.
pub(in crate::report) fn document(
    title: &str,
    style: &str,
    running: &[(String, String)],
    body: &Markup,
) -> String {
    let mut feet = String::new();
    for (id, foot) in running {
        feet.push_str(&format!(
            "@page {id} {{ @bottom-left {{ content: {} }} }}\n#{id} {{ page: {id} }}\n",
            css_string(foot)
        ));
    }
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="generator" content={ "Pintle " (env!("CARGO_PKG_VERSION")) };
                title { (title) }
                style { (PreEscaped(COMMON)) (PreEscaped(style)) (PreEscaped(feet)) }
            }
            body { (body) }
        }
    };
    let keep = |c: &char| *c == '\n' || !is_unsafe(*c);
    let mut text: String = page.into_string().chars().filter(keep).collect();
    text.push('\n');
    text
}

/// A sentence of a rule, its figures standing out, and told in the units asked for too.
pub(in crate::report) fn says(text: &str, units: Option<Units>) -> Markup {
    html! {
        @for piece in pieces(text, units) {
            @match piece {
                Piece::Words(words) => (words),
                Piece::Figure(figure, other) => {
                    strong.figure { (figure) }
                    @if let Some(other) = other { " (" (other) ")" }
                }
            }
        }
    }
}

/// An id for a topic of a region.
pub(in crate::report) fn topic_id(of: &str, topic: Topic) -> String {
    format!("{of}-{}", topic.name())
}

/// References to sources by their numbers. A grade that is less than the text itself is told on the
/// spot.
pub(in crate::report) fn source_refs(of: &str, places: &[usize], sources: &[Source]) -> Markup {
    html! {
        span.refs {
            @for place in places {
                @if let Some(source) = sources.get(*place) {
                    a href={ "#" (of) "-source-" (place + 1) } aria-label={ "source " (place + 1) } { "[" (place + 1) "]" }
                    @if !matches!(source.read, Reading::Text | Reading::Excerpt) {
                        " " span.grade { (source.read.says()) }
                    }
                    " "
                }
            }
        }
    }
}

/// The numbered sources, each with its grade, the day it was read, and its address. What an
/// earlier source has of these too is told by that one's number.
pub(in crate::report) fn source_list(of: &str, sources: &[Source]) -> Markup {
    html! {
        ol.sources {
            @for (n, source) in sources.iter().enumerate() {
                @let first = sources.iter().take(n).position(|s| s.at.is_some() && s.at == source.at);
                @let likewise = first.and_then(|f| sources.get(f)).is_some_and(|f| {
                    (f.read, f.on, &f.as_of) == (source.read, source.on, &source.as_of)
                });
                li id={ (of) "-source-" (n + 1) } {
                    (source.cite)
                    @if source.read != Reading::None {
                        " — " span.grade { (source.read.says()) }
                        @if !likewise {
                            @if let Some(on) = source.on { ", " (format_day(on)) }
                            @if let Some(edition) = &source.as_of { "; copy: " (edition) }
                        }
                    }
                    @if let Some(first) = first {
                        (if likewise { ", as source " } else { "; address of source " }) (source_ref(of, first))
                    } @else if let Some(at) = &source.at {
                        " " span.at { (address(at)) }
                    }
                }
            }
        }
    }
}

/// The number of a source, linked to its place in the list.
fn source_ref(of: &str, n: usize) -> Markup {
    html! { a href={ "#" (of) "-source-" (n + 1) } { (n + 1) } }
}

/// An address as a link, where it is one.
pub(in crate::report) fn address(at: &str) -> Markup {
    let is_link = at.starts_with("https://") || at.starts_with("http://");
    html! {
        @if is_link { a href=(at) rel="noreferrer" { (at) } } @else { (at) }
    }
}

/// What closes every page: cautions, the notice, whom to verify with, the packs and the day.
pub(in crate::report) fn closing(
    authorities: &[(String, Authority)],
    packs: &[PackUsed],
    on: CheckDay,
) -> Markup {
    html! {
        section.closing id="closing" {
            h2 { "Before you drive" }
            ul { @for caution in CAUTIONS { li { (caution) } } }
            p.notice { strong { (NOTICE) } }
            @if !authorities.is_empty() {
                h3 { "Verify with" }
                dl.authorities {
                    @for (region, authority) in authorities {
                        div {
                            dt { (capital(region_name(region))) }
                            dd {
                                (authority.name)
                                @if let Some(web) = &authority.web { " " span.at { (address(web)) } }
                            }
                        }
                    }
                }
            }
            p.made {
                "Made for " (format_day(on.day)) " by Pintle " (env!("CARGO_PKG_VERSION")) " from the packs "
                @for (n, pack) in packs.iter().enumerate() {
                    @if n > 0 { ", " }
                    (pack.id) " " (pack.version) " (" span.hash { (pack.sha256.get(..12).unwrap_or(&pack.sha256)) } ")"
                }
                "."
            }
        }
    }
}
