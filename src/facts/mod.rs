//! The vocabulary: every fact that can be said of a rig, and the values a fact can have.
//!
//! A fact is known, known to lie in a range, or missing. All three are one thing here: the set of
//! worlds that what was said leaves possible ([`Value`]). A missing fact leaves every value open.

pub mod catalogue;
mod date;
mod kind;
mod naming;
mod show;
mod store;
mod value;
mod week_code;

pub use catalogue::{Catalogue, catalogue};
pub use date::{Day, day_before, format_day, parse_day, parse_days, today};
pub use kind::{Choice, FactDef, FactId, Kind, Origin, Scope};
pub use show::{show_members, show_value};
pub use store::{FactSet, Item, ItemId, Known, Whence};
pub use value::{Tri, Value};
pub use week_code::{MadeIn, WeekCodeError, parse_week_code};
