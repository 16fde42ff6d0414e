//! The trailer's tyres.

use super::choices;
use super::{COUNT, Entry, LENGTH, MASS, PRESSURE, SHARE, SPEED, TIME, either, stated, worked_out};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const TYRE: &[Entry] = &[
    stated("tyre.count", COUNT, "alike tyres", "how many tyres this entry stands for"),
    stated("tyre.type", Kind::Choice(choices::TYRE_TYPES), "type", "the service that it is made for"),
    stated("tyre.load_limit", MASS, "tyre load limit", "the greatest load marked on the sidewall"),
    stated("tyre.load_index", COUNT, "load index", "the load index (single fitment) marked on the sidewall"),
    stated("tyre.pressure", PRESSURE, "cold pressure", "the cold inflation pressure as measured"),
    either("tyre.max_pressure", PRESSURE, "greatest cold pressure", "the greatest cold pressure marked on the sidewall, or that of an ST tyre's load range"),
    stated("tyre.placard_pressure", PRESSURE, "placard pressure", "the cold pressure on the trailer's placard"),
    stated("tyre.speed_symbol", Kind::Choice(choices::SPEED_SYMBOLS), "speed symbol", "the speed symbol marked on the sidewall"),
    stated("tyre.tread_depth", LENGTH, "tread depth", "the least depth of a major tread groove"),
    stated("tyre.date_code", Kind::Text, "date code", "the last digits of the DOT number: week and year of making"),
    either("tyre.age", TIME, "age of the tyre", "from the week of making to the day of the check"),
    stated("tyre.axle", COUNT, "axle that it is on", "the trailer axle that carries it, counted from the front; left out when the entry stands for tyres on all axles"),
    stated("tyre.size", Kind::Text, "size", "the size on the sidewall, such as ST225/75R15"),
    stated("tyre.load_range", Kind::Choice(choices::LOAD_RANGES), "load range", "the load range letter on the sidewall"),
    stated("tyre.load_index_dual", COUNT, "load index, dual", "the second load index on the sidewall, for dual fitment"),
    worked_out("tyre.capacity", MASS, "load capacity", "the greatest load of one tyre as fitted: by the sidewall or the load index, and for ST tyres no more than the published table gives at the pressure stated"),
    worked_out("tyre.load", MASS, "load on the tyre", "what one tyre carries: the axle's weight by its wheels, both sides taken as alike"),
    worked_out("tyre.load_used", SHARE, "tyre capacity used", "what one tyre carries as a share of its load capacity"),
    worked_out("tyre.rated_speed", SPEED, "rated speed", "the speed that its symbol stands for; 65 mph for an ST tyre without a symbol"),
];
