//! What every report must state.

/// What Pintle is not, and whom to ask.
pub const NOTICE: &str = "Pintle informs; it gives no advice on law and certifies nothing. Rules change, and what is recorded here may be wrong, old or incomplete. Verify with the local authority before you drive; local codes, the police and the transport authorities decide.";

/// The cautions that go with it.
pub const CAUTIONS: [&str; 4] = [
    "Towing can kill: a trailer that sways, breaks away or sheds its load endangers everybody on the road.",
    "The ratings on the plates of vehicle, trailer, hitch, ball, coupler and tyres come first. Whatever a rule allows, never go beyond the lowest of them.",
    "Weigh the loaded rig on a scale when any weight is close to a limit; sums of brochure weights run low.",
    "Brakes, hitches and bearings are for a licensed person to judge.",
];
