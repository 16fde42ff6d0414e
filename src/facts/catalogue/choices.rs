//! The words that choices and sets are made of.

use crate::facts::kind::Choice;

const fn c(name: &'static str, meaning: &'static str) -> Choice {
    Choice { name, meaning }
}

#[rustfmt::skip]
pub(super) const USE: &[Choice] = &[
    c("private", "not for a business: household, leisure, own goods without pay"),
    c("business", "in the course of a business or for pay"),
    c("farm", "a farmer's own farming"),
];

#[rustfmt::skip]
pub(super) const ROADS: &[Choice] = &[
    c("interstate", "a highway of the US Interstate system"),
    c("freeway", "a freeway, expressway or motorway with controlled access"),
    c("limited-access", "a road with limited access that is not a freeway"),
    c("divided", "a divided highway"),
    c("national-network", "a highway designated for large vehicles (US National Network or a state's own list)"),
    c("us-highway", "a numbered US highway that is not an interstate"),
    c("state-highway", "a numbered state or provincial highway"),
    c("county-road", "a county or township road"),
    c("local-street", "a street of a town or city"),
    c("parkway", "a parkway closed to commercial vehicles or trailers"),
    c("unpaved", "a road without a hard surface"),
    c("park-road", "a road of a national park"),
];

#[rustfmt::skip]
pub(super) const LICENCE: &[Choice] = &[
    c("cdl-a", "US commercial licence, class or group A"),
    c("cdl-b", "US commercial licence, class or group B"),
    c("cdl-c", "US commercial licence, class or group C"),
    c("noncommercial-a", "a state's class A licence that is not commercial"),
    c("noncommercial-b", "a state's class B licence that is not commercial"),
    c("class-a", "a licence of class A, where the place's classes are lettered"),
    c("class-b", "a licence of class B"),
    c("class-c", "a licence of class C"),
    c("class-d", "a licence of class D"),
    c("class-e", "a licence of class E"),
    c("class-f", "a licence of class F"),
    c("class-g", "a licence of class G"),
    c("class-m", "a licence of class M"),
    c("class-r", "a licence of class R"),
    c("class-1", "a licence of class 1, where the place's classes are numbered"),
    c("class-2", "a licence of class 2"),
    c("class-3", "a licence of class 3"),
    c("class-4", "a licence of class 4"),
    c("class-5", "a licence of class 5"),
    c("class-6", "a licence of class 6"),
    c("class-7", "a licence of class 7"),
    c("ordinary", "the ordinary licence for cars and light trucks, whatever the place calls it"),
    c("heavy-trailer-endorsement", "an endorsement for heavy trailers"),
    c("house-trailer-endorsement", "an endorsement for house trailers or large campers"),
    c("recreational-trailer-endorsement", "an endorsement for recreational trailers"),
    c("fifth-wheel-endorsement", "an endorsement for fifth-wheel trailers"),
    c("doubles-endorsement", "an endorsement for double or triple trailers"),
    c("tank-endorsement", "an endorsement for tank vehicles"),
    c("hazmat-endorsement", "an endorsement for placarded dangerous goods"),
    c("air-brake-endorsement", "an endorsement for air brakes"),
    c("farm-endorsement", "an endorsement or licence for farm vehicles"),
];

#[rustfmt::skip]
pub(super) const VEHICLE_KINDS: &[Choice] = &[
    c("car", "a passenger car"),
    c("suv", "a sport utility or multipurpose passenger vehicle"),
    c("pickup", "a pickup truck"),
    c("van", "a van"),
    c("truck", "a truck other than a pickup, built to carry a load itself"),
    c("truck-tractor", "a tractor built to pull a semitrailer rather than carry a load"),
    c("motorhome", "a motor home"),
    c("bus", "a bus"),
    c("motorcycle", "a motorcycle"),
    c("farm-tractor", "a farm tractor"),
    c("tow-truck", "a wrecker or recovery vehicle"),
    c("emergency-vehicle", "a fire, police or ambulance vehicle"),
    c("other", "none of these"),
];

#[rustfmt::skip]
pub(super) const TRAILER_KINDS: &[Choice] = &[
    c("utility", "an open trailer for general goods"),
    c("flatbed", "a flat deck for general goods"),
    c("enclosed", "an enclosed cargo trailer"),
    c("boat", "a trailer made to carry a boat or other watercraft"),
    c("camper", "a travel, camping or fifth-wheel trailer to sleep or live in for a time"),
    c("livestock", "a trailer for horses, cattle or other animals"),
    c("car-hauler", "a trailer made to carry motor vehicles"),
    c("equipment", "a trailer made to carry machines"),
    c("dump", "a tipping trailer"),
    c("tank", "a tank trailer"),
    c("log", "a trailer for logs or long timber"),
    c("farm-implement", "an implement of husbandry that is itself towed"),
    c("farm-wagon", "a farm trailer or wagon for the farm's own produce or supplies"),
    c("semitrailer", "a freight semitrailer behind a truck tractor or on a dolly"),
    c("pole", "a pole or pipe trailer"),
    c("tow-dolly", "a dolly that carries the front or rear wheels of a towed vehicle"),
    c("converter-dolly", "a dolly that turns a semitrailer into a full trailer"),
    c("manufactured-home", "a mobile or manufactured home on its own wheels"),
    c("house-trailer", "an older trailer for permanent living, not a camper"),
    c("office", "a trailer used as an office or shop on site"),
    c("motorcycle-trailer", "a small trailer made to be towed by a motorcycle"),
    c("towed-vehicle", "a motor vehicle towed on its own wheels"),
    c("special-machine", "a wheeled machine that is itself towed: compressor, mixer, welder, generator, sign board"),
    c("construction", "road-making or construction equipment that is itself towed"),
    c("fertilizer", "a trailer made to carry or spread fertilizer"),
    c("other", "none of these"),
];

#[rustfmt::skip]
pub(super) const TRAILER_FORMS: &[Choice] = &[
    c("semitrailer", "part of its weight rests on the towing vehicle"),
    c("full-trailer", "no weight but that of the drawbar rests on the towing vehicle"),
    c("pole-trailer", "joined to the towing vehicle by a reach, a pole or the load itself"),
];

#[rustfmt::skip]
pub(super) const COUPLINGS: &[Choice] = &[
    c("ball", "a ball and coupler at the rear of the towing vehicle"),
    c("pintle", "a pintle hook and ring"),
    c("drawbar", "a rigid drawbar with a pin or clevis"),
    c("tow-bar", "a tow bar to a vehicle on its own wheels"),
    c("gooseneck", "a gooseneck ball over the rear axle"),
    c("fifth-wheel", "a fifth wheel with kingpin"),
    c("saddle-mount", "a saddle mount"),
    c("rope-chain-cable", "a rope, chain, cable or strap as the only connection"),
    c("bumper", "a ball on a bumper made for towing"),
    c("other", "none of these"),
];

#[rustfmt::skip]
pub(super) const BRAKES: &[Choice] = &[
    c("none", "no service brakes"),
    c("surge", "surge (overrun, inertia) brakes"),
    c("electric", "electric brakes"),
    c("electric-over-hydraulic", "hydraulic brakes with an electric actuator"),
    c("hydraulic", "hydraulic brakes joined to the towing vehicle's"),
    c("vacuum", "vacuum brakes"),
    c("air", "air brakes"),
];

#[rustfmt::skip]
pub(super) const ANCHORS: &[Choice] = &[
    c("tow-vehicle-frame", "the frame or structure of the towing vehicle"),
    c("hitch-receiver", "the receiver or a fixed part of the hitch"),
    c("ball-mount", "the removable ball mount"),
    c("ball", "the ball itself"),
    c("bumper", "the bumper"),
    c("safety-chains", "the safety chains"),
    c("pintle-hook", "the pintle hook or the part that carries the drawbar"),
    c("other", "something else"),
];

#[rustfmt::skip]
pub(super) const LAMPS: &[Choice] = &[
    c("tail", "red tail lamps"),
    c("stop", "stop (brake) lamps"),
    c("turn", "turn signals at the rear"),
    c("hazard", "hazard flashers, which on most trailers are the turn signals flashing together"),
    c("plate", "a white lamp for the number plate"),
    c("side-marker", "side marker lamps"),
    c("clearance", "clearance lamps that show the width"),
    c("identification", "three identification lamps in a group"),
    c("backup", "reversing lamps"),
];

#[rustfmt::skip]
pub(super) const REFLECTORS: &[Choice] = &[
    c("rear", "red reflectors at the rear"),
    c("side-front", "amber reflectors at the front of each side"),
    c("side-rear", "red reflectors at the rear of each side"),
    c("side-middle", "amber reflectors at the middle of each side"),
    c("front", "white or amber reflectors at the front"),
];

#[rustfmt::skip]
pub(super) const MIRRORS: &[Choice] = &[
    c("left", "an outside mirror on the left"),
    c("right", "an outside mirror on the right"),
    c("inside", "an inside mirror with a view to the rear"),
    c("extended", "extended or clip-on mirrors that see past the trailer"),
];

#[rustfmt::skip]
pub(super) const LOAD_KINDS: &[Choice] = &[
    c("general", "general goods"),
    c("vehicle", "a car, light truck or van"),
    c("machine", "a machine on wheels or tracks"),
    c("boat", "a boat"),
    c("livestock", "animals"),
    c("sand", "sand"),
    c("gravel", "gravel, crushed stone or aggregate"),
    c("rock", "rock or boulders"),
    c("dirt", "dirt or earth"),
    c("refuse", "refuse, garbage or rubbish"),
    c("loose", "other loose material that can blow, sift or fall"),
    c("farm-produce", "farm produce in its natural state"),
    c("hay-round", "round bales of hay or straw"),
    c("hay-square", "square bales of hay or straw"),
    c("cotton", "cotton bales or modules"),
    c("logs", "logs or pulpwood"),
    c("lumber", "lumber or building boards"),
    c("poles", "poles, piling or posts"),
    c("pipe", "pipe or rods"),
    c("steel", "steel, iron or structural members"),
    c("concrete", "concrete pieces or pipe"),
    c("metal-coils", "metal coils"),
    c("paper-rolls", "paper rolls"),
    c("container", "an intermodal container"),
    c("building", "a portable building"),
    c("household", "household goods"),
    c("tank-liquid", "liquid in a tank"),
    c("hazardous", "placarded dangerous goods"),
];

#[rustfmt::skip]
pub(super) const TIE_DOWN_PATHS: &[Choice] = &[
    c("over", "from the vehicle over or around the item to the other side of the vehicle"),
    c("same-side", "from the vehicle through, over or around the item and back to the same side"),
    c("direct", "from the vehicle to a fixing point on the item"),
];

#[rustfmt::skip]
pub(super) const TIE_DOWN_MATERIALS: &[Choice] = &[
    c("webbing", "synthetic webbing"),
    c("chain-30", "chain, grade 30 proof coil"),
    c("chain-43", "chain, grade 43 high test"),
    c("chain-70", "chain, grade 70 transport"),
    c("chain-80", "chain, grade 80 alloy"),
    c("chain-100", "chain, grade 100 alloy"),
    c("chain", "chain of unknown grade"),
    c("wire-rope", "wire rope"),
    c("manila-rope", "manila rope"),
    c("polypropylene-rope", "polypropylene rope"),
    c("polyester-rope", "polyester rope"),
    c("nylon-rope", "nylon rope"),
    c("synthetic-rope", "synthetic rope of unknown fibre"),
    c("steel-strapping", "steel strapping"),
    c("double-braided-nylon-rope", "double braided nylon rope"),
];

#[rustfmt::skip]
pub(super) const FLAG_COLOURS: &[Choice] = &[
    c("red", "red"),
    c("orange", "fluorescent orange"),
    c("yellow", "yellow"),
    c("white", "white"),
    c("other", "another colour"),
];

#[rustfmt::skip]
pub(super) const TYRE_TYPES: &[Choice] = &[
    c("st", "special trailer service"),
    c("lt", "light truck"),
    c("passenger", "passenger car"),
    c("commercial", "medium or heavy commercial"),
];

#[rustfmt::skip]
pub(super) const SPEED_SYMBOLS: &[Choice] = &[
    c("J", "100 km/h"),
    c("K", "110 km/h"),
    c("L", "120 km/h"),
    c("M", "130 km/h"),
    c("N", "140 km/h"),
    c("P", "150 km/h"),
    c("Q", "160 km/h"),
    c("R", "170 km/h"),
    c("S", "180 km/h"),
    c("T", "190 km/h"),
    c("U", "200 km/h"),
    c("H", "210 km/h"),
    c("V", "240 km/h"),
    c("W", "270 km/h"),
    c("Y", "300 km/h"),
    c("none", "the sidewall carries no speed symbol"),
];

#[rustfmt::skip]
pub(super) const PLUGS: &[Choice] = &[
    c("4-way-flat", "four-way flat: lamps only"),
    c("5-way-flat", "five-way flat: lamps and one more circuit"),
    c("6-way-round", "six-way round"),
    c("7-way", "seven-way, blade or round: lamps, electric brakes, charge"),
    c("other", "another plug"),
];

#[rustfmt::skip]
pub(super) const HITCH_CLASSES: &[Choice] = &[
    c("class-1", "SAE J684 class 1"),
    c("class-2", "SAE J684 class 2"),
    c("class-3", "SAE J684 class 3"),
    c("class-4", "SAE J684 class 4"),
    c("class-5", "class 5, a class of the trade beyond SAE J684"),
];

#[rustfmt::skip]
pub(super) const BODIES: &[Choice] = &[
    c("flat", "a flat deck"),
    c("open-box", "sides and open top"),
    c("closed", "closed sides and roof"),
    c("tank", "a tank"),
];

#[rustfmt::skip]
pub(super) const DATUMS: &[Choice] = &[
    c("coupler", "from the coupler's centre rearward"),
    c("deck-front", "from the front edge of the deck rearward"),
];

#[rustfmt::skip]
pub(super) const DIRECTIONS: &[Choice] = &[
    c("forward", "moving forward, as when braking"),
    c("rearward", "moving rearward, as when pulling away or uphill"),
    c("left", "moving to the left"),
    c("right", "moving to the right"),
];

#[rustfmt::skip]
pub(super) const COUPLING_PARTS: &[Choice] = &[
    c("coupler", "the trailer's coupler"),
    c("ball", "the ball"),
    c("ball-mount", "the ball mount"),
    c("hitch", "the hitch or receiver"),
];

#[rustfmt::skip]
pub(super) const LOAD_RANGES: &[Choice] = &[
    c("B", "load range B, formerly 4 ply"),
    c("C", "load range C, formerly 6 ply"),
    c("D", "load range D, formerly 8 ply"),
    c("E", "load range E, formerly 10 ply"),
    c("F", "load range F, formerly 12 ply"),
    c("G", "load range G, formerly 14 ply"),
];
