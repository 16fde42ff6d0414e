//! Pages of HTML: the shell, the shades, and the pieces that every page shares.
//!
//! All text goes through `maud`, which escapes it, and the finished page is cleaned of characters
//! that could hide or reorder text. Pages hold no script and fetch nothing.

mod palette;
mod pieces;
mod strips;
mod style;

pub use palette::{PAIRS, contrast};
pub(super) use palette::{hatches, shade};
pub(super) use pieces::{address, closing, document, says, source_list, source_refs, topic_id};
pub(super) use strips::{Row, Segment, strips};

/// A number for a drawing, to a hundredth.
pub(super) fn px(x: f64) -> String {
    let text = format!("{x:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}
