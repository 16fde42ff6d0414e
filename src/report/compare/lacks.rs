//! What a rig may lack, topic by topic: a description of two rigs that differ in that alone. It says
//! nothing of what any law asks.

use crate::pack::Topic;

/// A rig without something, and the same rig with it.
pub(super) struct Lacks {
    pub topic: Topic,
    /// What is lacked.
    pub what: &'static str,
    /// What is taken of both rigs besides.
    pub taken: &'static str,
    /// The facts of the rig that lacks it.
    pub without: &'static [(&'static str, &'static str)],
    /// The facts of the rig that has it.
    pub with: &'static [(&'static str, &'static str)],
}

const LACKS: &[Lacks] = &[
    Lacks {
        topic: Topic::Brakes,
        what: "service brakes on the trailer",
        taken: "two axles with four wheels in all",
        without: &[
            ("trailer.wheels", "4"),
            ("trailer.axle_count", "2"),
            ("trailer.brakes", "none"),
            ("trailer.braked_wheels", "0"),
            ("trailer.braked_axles", "0"),
            ("trailer.all_wheels_braked", "no"),
        ],
        with: &[
            ("trailer.wheels", "4"),
            ("trailer.axle_count", "2"),
            ("trailer.brakes", "electric"),
            ("trailer.braked_wheels", "4"),
            ("trailer.braked_axles", "2"),
            ("trailer.all_wheels_braked", "yes"),
        ],
    },
    Lacks {
        topic: Topic::Breakaway,
        what: "breakaway brakes",
        taken: "electric brakes on all wheels",
        without: &[
            ("trailer.brakes", "electric"),
            ("trailer.all_wheels_braked", "yes"),
            ("trailer.breakaway.fitted", "no"),
        ],
        with: &[
            ("trailer.brakes", "electric"),
            ("trailer.all_wheels_braked", "yes"),
            ("trailer.breakaway.fitted", "yes"),
        ],
    },
    Lacks {
        topic: Topic::SafetyChains,
        what: "safety chains or cables",
        taken: "",
        without: &[("trailer.safety_chains.count", "0")],
        with: &[("trailer.safety_chains.count", "2")],
    },
    Lacks {
        topic: Topic::Inspection,
        what: "a valid inspection of the trailer",
        taken: "",
        without: &[("trailer.inspected", "no")],
        with: &[("trailer.inspected", "yes")],
    },
];

/// What is taken of every rig that is compared, besides what is asked for.
pub(super) const TAKEN: &str =
    "one trailer on a ball coupling, built in the year of the day asked for";

/// The facts of [`TAKEN`], for a year.
pub(super) fn taken(year: &str) -> Vec<(&'static str, String)> {
    vec![
        ("combination.trailers", "1".to_owned()),
        ("trailer.coupling", "ball".to_owned()),
        ("trailer.built", year.to_owned()),
    ]
}

/// What a rig may lack on a topic.
pub(super) fn lacks_of(topic: Topic) -> Option<&'static Lacks> {
    LACKS.iter().find(|l| l.topic == topic)
}
