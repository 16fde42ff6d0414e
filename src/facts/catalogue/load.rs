//! The load, item by item, and its tie-downs.

use super::choices;
use super::{
    ANGLE, COUNT, Entry, FORCE, LENGTH, MASS, SHARE, TIME, either, signed, stated, worked_out,
};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const LOADING: &[Entry] = &[
    stated("loading.positions_from", Kind::Choice(choices::DATUMS), "positions measured from", "the point from which the positions of the load items are measured rearward"),
    stated("loading.first_recheck", LENGTH, "distance to the first recheck", "how far the rig is driven before load and tie-downs are first checked again"),
    stated("loading.recheck_distance", LENGTH, "distance between rechecks", "how far the rig is driven between later checks of the load"),
    stated("loading.recheck_time", TIME, "time between rechecks", "how long the rig is driven between later checks of the load"),
    stated("loading.structural", Kind::YesNo, "structural load", "what is carried is poles, pipe, machinery or other structural parts that cannot readily be taken apart"),
];

#[rustfmt::skip]
pub(super) const LOAD: &[Entry] = &[
    stated("load.name", Kind::Text, "name", "what the item is called in the report"),
    stated("load.kind", Kind::Choice(choices::LOAD_KINDS), "kind of load", "what the item is"),
    stated("load.weight", MASS, "weight of the item", "what the item weighs"),
    stated("load.length", LENGTH, "length of the item", "its length along the trailer"),
    stated("load.width", LENGTH, "width of the item", "its width across the trailer"),
    stated("load.height", LENGTH, "height of the item", "its height"),
    signed(stated("load.position", LENGTH, "position of the item", "where its centre of gravity lies along the trailer, measured rearward from the point that loading.positions_from names; negative ahead of it")),
    stated("load.overhang_rear", LENGTH, "rear overhang", "how far it reaches beyond the rear of the bed or body"),
    stated("load.overhang_front", LENGTH, "front overhang", "how far it reaches beyond the front of the vehicle that carries it"),
    stated("load.overhang_left", LENGTH, "left overhang", "how far it reaches beyond the left side of the trailer's body or fender"),
    stated("load.overhang_right", LENGTH, "right overhang", "how far it reaches beyond the right side of the trailer's body or fender"),
    stated("load.flag.count", COUNT, "flags", "how many flags mark the end of the overhang"),
    stated("load.flag.size", LENGTH, "flag size", "the shorter side of the flag at the end of the overhang; 0 in when there is none"),
    stated("load.flag.colour", Kind::Choice(choices::FLAG_COLOURS), "flag colour", "the colour of the flag"),
    stated("load.overhang_width", LENGTH, "width of the overhang", "how wide the part is that reaches beyond the rear"),
    stated("load.lamp_at_end", Kind::YesNo, "lamp at the end of the load", "a red lamp is shown at the end of the overhang when lamps are due"),
    stated("load.red_lamps_rear", COUNT, "red lamps at the end", "how many red lamps face the rear at the end of the overhang"),
    stated("load.red_reflectors_rear", COUNT, "red reflectors at the end", "how many red reflectors face the rear at the end of the overhang"),
    stated("load.secured", Kind::YesNo, "secured", "tied, blocked or contained so that it cannot shift, fall or leak"),
    stated("load.covered", Kind::YesNo, "covered", "covered by a tarpaulin or the like that is itself fastened"),
    stated("load.above_sides", Kind::YesNo, "above the sides", "it rises above the sides of the body"),
    stated("load.below_sides", LENGTH, "freeboard", "how far the load stays below the top of the sides where it touches them"),
    stated("load.contained", Kind::YesNo, "fully contained", "the trailer's structure holds it on all sides"),
    stated("load.blocked_forward", Kind::YesNo, "blocked forward", "a headboard, bulkhead, other cargo or blocking keeps it from moving forward"),
    stated("load.likely_to_roll", Kind::YesNo, "likely to roll", "it can roll if it is not chocked"),
    stated("load.may_shift", Kind::YesNo, "may shift or spill", "it can shift, roll or spill if it is not held or covered"),
    stated("load.held_front_and_rear", Kind::YesNo, "held at front and rear", "tied down at its front and at its rear"),
    either("load.tie_down_count", COUNT, "tie-downs", "how many tie-downs hold the item"),
    worked_out("load.aggregate_limit", MASS, "aggregate working load limit", "the working load limits of the item's tie-downs added up, each counted by its path: the whole limit over to the other side, half of it otherwise"),
    worked_out("load.unmarked_tie_downs", COUNT, "unmarked tie-downs", "how many of its tie-downs carry no working load limit"),
    worked_out("load.aggregate_limit_us_default", MASS, "aggregate limit with US default limits", "as the aggregate working load limit, with the default limits of 49 CFR 393.108 for tie-downs without a marking"),
    worked_out("load.aggregate_limit_marked", MASS, "aggregate limit of marked tie-downs", "as the aggregate working load limit, with nothing for tie-downs without a marking, as in Canada"),
    worked_out("load.tie_downs_needed_us", COUNT, "tie-downs needed in the US", "the least number of tie-downs by length and weight of the item, 49 CFR 393.110"),
    stated("load.centre_height", LENGTH, "height of the centre of gravity", "from the deck to the item's centre of gravity"),
    stated("load.centre_in_middle", Kind::YesNo, "centre of gravity in the middle", "the item's centre of gravity lies in the middle of its length and width"),
    either("load.tipping_edge.front", LENGTH, "centre to the front edge", "from the item's centre of gravity forward to the edge over which it would tip"),
    either("load.tipping_edge.rear", LENGTH, "centre to the rear edge", "from the item's centre of gravity rearward to the edge over which it would tip"),
    either("load.tipping_edge.side", LENGTH, "centre to the side edge", "from the item's centre of gravity sideways to the nearer edge over which it would tip"),
    worked_out("load.sliding_held.forward", SHARE, "held against sliding forward", "what the tie-downs hold of the force that friction leaves over when braking at 0.8 g (EN 12195-1); 100% is enough"),
    worked_out("load.sliding_held.rearward", SHARE, "held against sliding rearward", "what the tie-downs hold of the force that friction leaves over at 0.5 g rearward (EN 12195-1); 100% is enough"),
    worked_out("load.sliding_held.sideways", SHARE, "held against sliding sideways", "what the tie-downs hold of the force that friction leaves over at 0.5 g sideways (EN 12195-1); 100% is enough"),
    worked_out("load.top_over_needed.forward", COUNT, "top-over tie-downs needed, forward", "how many top-over tie-downs like the weakest of those listed keep the item from sliding forward (EN 12195-1)"),
    worked_out("load.top_over_needed.rearward", COUNT, "top-over tie-downs needed, rearward", "how many top-over tie-downs like the weakest of those listed keep the item from sliding rearward (EN 12195-1)"),
    worked_out("load.top_over_needed.sideways", COUNT, "top-over tie-downs needed, sideways", "how many top-over tie-downs like the weakest of those listed keep the item from sliding sideways (EN 12195-1)"),
    worked_out("load.tipping_held.forward", SHARE, "held against tipping forward", "what the tie-downs hold of the moment that would tip the item forward at 0.8 g; at least 100% where it stands by itself"),
    worked_out("load.tipping_held.rearward", SHARE, "held against tipping rearward", "what the tie-downs hold of the moment that would tip the item rearward at 0.5 g; at least 100% where it stands by itself"),
    worked_out("load.tipping_held.sideways", SHARE, "held against tipping sideways", "what the tie-downs hold of the moment that would tip the item sideways at 0.6 g; at least 100% where it stands by itself"),
    stated("load.friction", SHARE, "friction", "the coefficient of friction between the item and the deck"),
];

#[rustfmt::skip]
pub(super) const TIE_DOWN: &[Entry] = &[
    stated("tie_down.count", COUNT, "alike tie-downs", "how many alike tie-downs this entry stands for; 1 when it is left out"),
    stated("tie_down.working_load_limit", MASS, "working load limit", "the working load limit (WLL) marked on the tie-down, or the lowest among its parts and anchor points"),
    stated("tie_down.marked", Kind::YesNo, "marked", "the working load limit is marked on it and can be read; taken so where a limit is stated and nothing else is said"),
    stated("tie_down.path", Kind::Choice(choices::TIE_DOWN_PATHS), "path", "how it runs between vehicle and item"),
    stated("tie_down.material", Kind::Choice(choices::TIE_DOWN_MATERIALS), "material", "what it is made of"),
    stated("tie_down.size", LENGTH, "size", "width of webbing; diameter of chain bar, wire rope or rope"),
    stated("tie_down.angle", ANGLE, "angle to the deck", "the angle between tie-down and deck"),
    stated("tie_down.pretension", FORCE, "pretension", "the tension left in it after tightening (STF)"),
    stated("tie_down.lashing_capacity", FORCE, "lashing capacity", "the greatest force in straight pull that its label allows (LC)"),
    stated("tie_down.angle_from_travel", ANGLE, "angle to the direction of travel", "for a direct tie-down: the angle, seen from above, between the tie-down and the trailer's long axis; 0 deg along the trailer, 90 deg across it"),
    stated("tie_down.holds_against", Kind::Set(choices::DIRECTIONS), "holds against", "for a direct tie-down: the ways in which it keeps the item from moving"),
    stated("tie_down.attach_height", LENGTH, "height of the fixing point", "for a direct tie-down: from the deck to where it is fixed on the item"),
    worked_out("tie_down.default_limit_us", MASS, "US default limit", "the working load limit that 49 CFR 393.108 gives for its material and size when it carries no marking"),
];
