//! The trailer's tyres.

use super::choices;
use super::{COUNT, Entry, LENGTH, MASS, PRESSURE, TIME, stated, worked_out};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const TYRE: &[Entry] = &[
    stated("tyre.count", COUNT, "alike tyres", "how many tyres this entry stands for"),
    stated("tyre.type", Kind::Choice(choices::TYRE_TYPES), "type", "the service that it is made for"),
    stated("tyre.load_limit", MASS, "tyre load limit", "the greatest load marked on the sidewall"),
    stated("tyre.load_index", COUNT, "load index", "the load index (single fitment) marked on the sidewall"),
    stated("tyre.pressure", PRESSURE, "cold pressure", "the cold inflation pressure as measured"),
    stated("tyre.max_pressure", PRESSURE, "greatest cold pressure", "the greatest cold pressure marked on the sidewall"),
    stated("tyre.placard_pressure", PRESSURE, "placard pressure", "the cold pressure on the trailer's placard"),
    stated("tyre.speed_symbol", Kind::Choice(choices::SPEED_SYMBOLS), "speed symbol", "the speed symbol marked on the sidewall"),
    stated("tyre.tread_depth", LENGTH, "tread depth", "the least depth of a major tread groove"),
    stated("tyre.date_code", Kind::Text, "date code", "the last digits of the DOT number: week and year of making"),
    worked_out("tyre.age", TIME, "age of the tyre", "from the week of making to the day of the check"),
];
