//! Quantities in the units that a reader asks for, the statute's own always beside them.

use crate::quantity::{Dimension, Exact, Unit, format_exact, is_rounded};

/// The units that a reader asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Pounds, feet, miles.
    Us,
    /// Kilograms, metres, kilometres.
    Metric,
}

impl Units {
    /// Whether a unit is one of these; time, shares, angles and counts belong to both.
    #[must_use]
    pub fn has(self, unit: Unit) -> bool {
        let us = matches!(
            unit,
            Unit::Pound
                | Unit::Ounce
                | Unit::ShortTon
                | Unit::Foot
                | Unit::Inch
                | Unit::Yard
                | Unit::Mile
                | Unit::MilePerHour
                | Unit::FootPerSecond
                | Unit::Psi
                | Unit::PoundForce
        );
        match unit.dimension() {
            Dimension::Mass
            | Dimension::Length
            | Dimension::Speed
            | Dimension::Pressure
            | Dimension::Force => us == (self == Units::Us),
            _ => true,
        }
    }

    /// The unit to tell a value in that was written in another.
    #[must_use]
    pub fn unit_for(self, value: Exact, written: Unit) -> Unit {
        if self.has(written) {
            return written;
        }
        let size = value.abs().to_f64();
        match (written.dimension(), self) {
            (Dimension::Mass, Units::Us) => Unit::Pound,
            (Dimension::Mass, Units::Metric) => Unit::Kilogram,
            (Dimension::Length, Units::Us) if size < 0.9 => Unit::Inch,
            (Dimension::Length, Units::Us) if size < 1500.0 => Unit::Foot,
            (Dimension::Length, Units::Us) => Unit::Mile,
            (Dimension::Length, Units::Metric) if size < 0.995 => Unit::Centimeter,
            (Dimension::Length, Units::Metric) if size < 1500.0 => Unit::Meter,
            (Dimension::Length, Units::Metric) => Unit::Kilometer,
            (Dimension::Speed, Units::Us) => Unit::MilePerHour,
            (Dimension::Speed, Units::Metric) => Unit::KilometerPerHour,
            (Dimension::Pressure, Units::Us) => Unit::Psi,
            (Dimension::Pressure, Units::Metric) => Unit::Kilopascal,
            (Dimension::Force, Units::Us) => Unit::PoundForce,
            (Dimension::Force, Units::Metric) => Unit::Newton,
            _ => written,
        }
    }
}

/// A value, in base units, as a statute writes it; where other units are asked for, in these first
/// and the statute's own behind: `about 1,360.8 kg (3,000 lb)`.
#[must_use]
pub fn told_in(value: Exact, written: Unit, units: Option<Units>) -> String {
    match turned(value, written, units) {
        Some(turned) => format!("{turned} ({})", format_exact(value, written)),
        None => format_exact(value, written),
    }
}

/// The value in the units asked for; nothing where it is written in these already.
#[must_use]
pub(super) fn turned(value: Exact, written: Unit, units: Option<Units>) -> Option<String> {
    let unit = units?.unit_for(value, written);
    let about = if is_rounded(value, unit) {
        "about "
    } else {
        ""
    };
    (unit != written).then(|| format!("{about}{}", format_exact(value, unit)))
}

/// The unit in which to tell what nobody has written yet.
#[must_use]
pub(super) fn unit_of_axis(units: Option<Units>, first_seen: Option<Unit>) -> Unit {
    match units {
        Some(Units::Us) => Unit::Pound,
        Some(Units::Metric) => Unit::Kilogram,
        None => first_seen.unwrap_or(Unit::Pound),
    }
}
