//! The shades and hatches of pages. Each shade that carries text is paired with what it stands on;
//! the pairs keep a contrast of 4.5 to 1 at least, and no meaning hangs on a shade alone.

use maud::{Markup, html};

/// Shades by what they are for.
pub(in crate::report) mod shade {
    /// Text and outlines.
    pub const INK: &str = "#17212b";
    /// The page.
    pub const PAPER: &str = "#ffffff";
    /// Text of less weight.
    pub const QUIET: &str = "#46525e";
    /// Thin lines.
    pub const LINE: &str = "#77838f";
    /// What surely binds; headings.
    pub const DEEP: &str = "#1d4f73";
    /// What is open.
    pub const OCHRE: &str = "#775000";
    /// What is broken or not allowed.
    pub const BRICK: &str = "#8f2d1f";
    /// What is met.
    pub const MOSS: &str = "#2c5e3b";
    /// Ground under headings and bands.
    pub const MIST: &str = "#e8eef4";
    /// Ground of what is open.
    pub const SAND: &str = "#f6eedc";
    /// Ground of what is broken.
    pub const BLUSH: &str = "#f7e5e1";
    /// Ground of what is met.
    pub const SAGE: &str = "#e4efe6";
    /// The steps of a map, from light to dark.
    pub const STEPS: [&str; 5] = ["#f4f7fa", "#d5e2ec", "#9fbdd3", "#3f759c", "#123a57"];
}

/// Text and what it stands on, wherever a page puts one upon the other.
pub const PAIRS: [(&str, &str); 23] = [
    (shade::INK, shade::PAPER),
    (shade::QUIET, shade::PAPER),
    (shade::DEEP, shade::PAPER),
    (shade::OCHRE, shade::PAPER),
    (shade::BRICK, shade::PAPER),
    (shade::MOSS, shade::PAPER),
    (shade::INK, shade::MIST),
    (shade::QUIET, shade::MIST),
    (shade::DEEP, shade::MIST),
    (shade::INK, shade::SAND),
    (shade::OCHRE, shade::SAND),
    (shade::INK, shade::BLUSH),
    (shade::BRICK, shade::BLUSH),
    (shade::INK, shade::SAGE),
    (shade::MOSS, shade::SAGE),
    (shade::PAPER, shade::DEEP),
    (shade::PAPER, shade::BRICK),
    (shade::PAPER, shade::INK),
    (shade::INK, shade::STEPS[0]),
    (shade::INK, shade::STEPS[1]),
    (shade::INK, shade::STEPS[2]),
    (shade::PAPER, shade::STEPS[3]),
    (shade::PAPER, shade::STEPS[4]),
];

/// The contrast of two shades, as WCAG 2 reckons it: from 1 (none) to 21 (black on white). `None`
/// when one of them is not written `#rrggbb`.
#[must_use]
pub fn contrast(a: &str, b: &str) -> Option<f64> {
    let (a, b) = (luminance(a)?, luminance(b)?);
    Some((a.max(b) + 0.05) / (a.min(b) + 0.05))
}

/// Relative luminance of an sRGB shade.
fn luminance(hex: &str) -> Option<f64> {
    let digits = hex.strip_prefix('#').filter(|d| d.len() == 6)?;
    let part = |from: usize| {
        let byte = u8::from_str_radix(digits.get(from..from + 2)?, 16).ok()?;
        let c = f64::from(byte) / 255.0;
        Some(if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        })
    };
    Some(0.2126 * part(0)? + 0.7152 * part(2)? + 0.0722 * part(4)?)
}

/// The hatches of drawings, to be put into an SVG whose ids begin with `of`: slanting lines for what
/// is open, crossed ones for what is barred.
pub(in crate::report) fn hatches(of: &str) -> Markup {
    html! {
        defs {
            pattern id={ (of) "-open" } width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                rect width="7" height="7" fill=(shade::SAND) {}
                line x1="0" y1="0" x2="0" y2="7" stroke=(shade::OCHRE) stroke-width="2" {}
            }
            pattern id={ (of) "-barred" } width="7" height="7" patternUnits="userSpaceOnUse" {
                rect width="7" height="7" fill=(shade::BLUSH) {}
                path d="M0 0 L7 7 M7 0 L0 7" stroke=(shade::BRICK) stroke-width="1.4" {}
            }
            pattern id={ (of) "-allowed" } width="6" height="6" patternUnits="userSpaceOnUse" {
                rect width="6" height="6" fill=(shade::SAGE) {}
                circle cx="3" cy="3" r="1.1" fill=(shade::MOSS) {}
            }
        }
    }
}
