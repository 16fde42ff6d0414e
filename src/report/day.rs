//! The day that a check is made for.

use crate::facts::{Day, FactSet, ItemId, Known, Value, Whence, catalogue};
use crate::quantity::{Exact, Interval};
use crate::rig::Rig;
use crate::source::{Complaint, Span};

/// The fact that holds the day of the trip.
const TRIP_DAY: &str = "trip.on";

/// Where the day of a check comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DayFrom {
    /// It was asked for.
    Asked,
    /// The rig states it as the day of the trip.
    Trip,
    /// Nothing was said; it is the day on which the check is made.
    Today,
}

/// A day, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CheckDay {
    /// The day.
    pub day: Day,
    /// Where it comes from.
    pub from: DayFrom,
}

impl CheckDay {
    /// The day asked for.
    #[must_use]
    pub fn asked(day: Day) -> CheckDay {
        CheckDay {
            day,
            from: DayFrom::Asked,
        }
    }

    /// The day asked for, else the rig's day of the trip, else today.
    ///
    /// # Errors
    /// That the rig's day of the trip leaves several days open, and none was asked for.
    pub fn choose(
        asked: Option<Day>,
        rig: Option<&Rig>,
        today: Day,
    ) -> Result<CheckDay, Complaint> {
        if let Some(day) = asked {
            return Ok(CheckDay::asked(day));
        }
        let fact = catalogue().find(TRIP_DAY);
        let stated = rig
            .zip(fact)
            .and_then(|(rig, fact)| Some((rig, rig.facts.known(ItemId::RIG, fact)?)));
        let Some((
            rig,
            Known {
                value,
                whence: Whence::Stated { start, end },
                ..
            },
        )) = stated
        else {
            return Ok(CheckDay {
                day: today,
                from: DayFrom::Today,
            });
        };
        match value
            .interval()
            .is_exact()
            .and_then(|d| d.to_decimal(0).parse().ok())
        {
            Some(day) => Ok(CheckDay {
                day,
                from: DayFrom::Trip,
            }),
            None => Err(Complaint::error(
                "report::several-days",
                "a check is made for one day, and the trip leaves several open",
            )
            .at(&rig.source, Span::new(*start, *end), "several days")
            .help("write one day, or say which with `--on YYYY-MM-DD`")),
        }
    }

    /// Where the day comes from, in words.
    #[must_use]
    pub fn origin(&self) -> &'static str {
        match self.from {
            DayFrom::Asked => "the day asked for",
            DayFrom::Trip => "the day of the trip",
            DayFrom::Today => "today; the rig names no day",
        }
    }
}

/// Makes a day the day of the trip: the one asked for stands over the one that the rig states.
pub(super) fn set_day(facts: &mut FactSet, day: Day) {
    if let Some(fact) = catalogue().find(TRIP_DAY) {
        let known = Known {
            value: Value::Number(Interval::exactly(Exact::from_int(day))),
            whence: Whence::WorkedOut("the day of the check".to_owned()),
            unit: None,
            written: None,
        };
        facts.set(ItemId::RIG, fact, known);
    }
}
