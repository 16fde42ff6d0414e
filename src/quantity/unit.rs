//! Dimensions, units and the spellings by which they are known.

use super::Exact;
use super::unit_table::{Facts, facts};

/// A kind of quantity.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Dimension {
    /// Mass, kept in kilograms. What the trade calls weight is a mass here.
    Mass,
    /// Length, kept in meters. The only dimension whose written values may be negative
    /// (a position ahead of the point it is measured from).
    Length,
    /// Speed, kept in meters per second.
    Speed,
    /// Pressure, kept in pascals.
    Pressure,
    /// Time, kept in seconds.
    Time,
    /// Plane angle, kept in degrees.
    Angle,
    /// Force, kept in newtons.
    Force,
    /// A share of something, kept as a fraction of one and written as a percentage.
    Share,
    /// A whole number of things.
    Count,
}

impl Dimension {
    /// Every dimension.
    pub const ALL: [Dimension; 9] = [
        Dimension::Mass,
        Dimension::Length,
        Dimension::Speed,
        Dimension::Pressure,
        Dimension::Time,
        Dimension::Angle,
        Dimension::Force,
        Dimension::Share,
        Dimension::Count,
    ];

    /// The name in plain words, such as `mass`.
    pub const fn name(self) -> &'static str {
        match self {
            Dimension::Mass => "mass",
            Dimension::Length => "length",
            Dimension::Speed => "speed",
            Dimension::Pressure => "pressure",
            Dimension::Time => "time",
            Dimension::Angle => "angle",
            Dimension::Force => "force",
            Dimension::Share => "share",
            Dimension::Count => "count",
        }
    }

    /// The name with its article, such as `a mass`.
    pub const fn with_article(self) -> &'static str {
        match self {
            Dimension::Mass => "a mass",
            Dimension::Length => "a length",
            Dimension::Speed => "a speed",
            Dimension::Pressure => "a pressure",
            Dimension::Time => "a length of time",
            Dimension::Angle => "an angle",
            Dimension::Force => "a force",
            Dimension::Share => "a share",
            Dimension::Count => "a count",
        }
    }

    /// The unit in which amounts are kept. Its factor is one, but for [`Dimension::Share`]: shares
    /// are kept as fractions of one and have no unit but the percent they are written in.
    pub const fn base_unit(self) -> Unit {
        match self {
            Dimension::Mass => Unit::Kilogram,
            Dimension::Length => Unit::Meter,
            Dimension::Speed => Unit::MeterPerSecond,
            Dimension::Pressure => Unit::Pascal,
            Dimension::Time => Unit::Second,
            Dimension::Angle => Unit::Degree,
            Dimension::Force => Unit::Newton,
            Dimension::Share => Unit::Percent,
            Dimension::Count => Unit::One,
        }
    }

    /// The smallest unit of each system of units, the customary one first; one where the systems
    /// share it.
    pub const fn smallest_units(self) -> &'static [Unit] {
        match self {
            Dimension::Mass => &[Unit::Ounce, Unit::Gram],
            Dimension::Length => &[Unit::Inch, Unit::Millimeter],
            Dimension::Speed => &[Unit::FootPerSecond, Unit::KilometerPerHour],
            Dimension::Pressure => &[Unit::Psi, Unit::Pascal],
            Dimension::Time => &[Unit::Second],
            Dimension::Angle => &[Unit::Degree],
            Dimension::Force => &[Unit::PoundForce, Unit::Newton],
            Dimension::Share => &[Unit::Percent],
            Dimension::Count => &[Unit::One],
        }
    }

    /// How such a quantity is written, for messages: `3,000 lb or 1,361 kg`.
    pub const fn example(self) -> &'static str {
        match self {
            Dimension::Mass => "3,000 lb or 1,361 kg",
            Dimension::Length => "6 ft 8 in or 2,032 mm",
            Dimension::Speed => "55 mph or 90 km/h",
            Dimension::Pressure => "65 psi or 450 kPa",
            Dimension::Time => "15 min or 10 years",
            Dimension::Angle => "30 deg",
            Dimension::Force => "5,000 lbf or 22 kN",
            Dimension::Share => "40%",
            Dimension::Count => "2",
        }
    }

    /// What is expected where such a quantity is read, for messages.
    pub fn expected(self) -> String {
        let kind = match self {
            Dimension::Count => "a whole number of things, without a unit",
            Dimension::Share => "a share in percent",
            Dimension::Time => "a length of time with its unit",
            _ => {
                return format!(
                    "{} with its unit, such as {}",
                    self.with_article(),
                    self.example()
                );
            }
        };
        format!("{kind}, such as {}", self.example())
    }
}

/// A unit in which quantities are written.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Unit {
    /// The avoirdupois pound, 0.45359237 kg.
    Pound,
    /// The avoirdupois ounce, a sixteenth of a pound.
    Ounce,
    /// The kilogram.
    Kilogram,
    /// The gram.
    Gram,
    /// The tonne (metric ton), 1,000 kg.
    Tonne,
    /// The short ton, 2,000 lb.
    ShortTon,
    /// The international foot, 12 in.
    Foot,
    /// The inch, 25.4 mm.
    Inch,
    /// The yard, 3 ft.
    Yard,
    /// The meter.
    Meter,
    /// The centimeter.
    Centimeter,
    /// The millimeter.
    Millimeter,
    /// The kilometer.
    Kilometer,
    /// The statute mile, 5,280 ft.
    Mile,
    /// Statute miles per hour.
    MilePerHour,
    /// Kilometers per hour.
    KilometerPerHour,
    /// Meters per second.
    MeterPerSecond,
    /// Feet per second.
    FootPerSecond,
    /// Pounds-force per square inch.
    Psi,
    /// The pascal.
    Pascal,
    /// The kilopascal.
    Kilopascal,
    /// The bar, 100 kPa.
    Bar,
    /// The second.
    Second,
    /// The minute.
    Minute,
    /// The hour.
    Hour,
    /// The day of 24 hours.
    Day,
    /// A twelfth of a year.
    Month,
    /// The mean year of the Gregorian calendar, 365.2425 days.
    Year,
    /// The degree of arc.
    Degree,
    /// The pound-force: the weight of a pound under standard gravity, 9.80665 m/s².
    PoundForce,
    /// The newton.
    Newton,
    /// The dekanewton, 10 N, in which straps are marked in Europe.
    Dekanewton,
    /// The kilonewton.
    Kilonewton,
    /// The percent.
    Percent,
    /// The unit of counts; it is neither written nor printed.
    One,
}

/// What a spelling stands for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Spelling {
    Known(Unit),
    /// In use for more than one unit.
    Ambiguous(&'static [Unit]),
    Unknown,
}

impl Unit {
    /// Every unit.
    pub const ALL: [Unit; 35] = [
        Unit::Pound,
        Unit::Ounce,
        Unit::Kilogram,
        Unit::Gram,
        Unit::Tonne,
        Unit::ShortTon,
        Unit::Foot,
        Unit::Inch,
        Unit::Yard,
        Unit::Meter,
        Unit::Centimeter,
        Unit::Millimeter,
        Unit::Kilometer,
        Unit::Mile,
        Unit::MilePerHour,
        Unit::KilometerPerHour,
        Unit::MeterPerSecond,
        Unit::FootPerSecond,
        Unit::Psi,
        Unit::Pascal,
        Unit::Kilopascal,
        Unit::Bar,
        Unit::Second,
        Unit::Minute,
        Unit::Hour,
        Unit::Day,
        Unit::Month,
        Unit::Year,
        Unit::Degree,
        Unit::PoundForce,
        Unit::Newton,
        Unit::Dekanewton,
        Unit::Kilonewton,
        Unit::Percent,
        Unit::One,
    ];

    /// What the unit measures.
    pub const fn dimension(self) -> Dimension {
        self.facts().dimension
    }

    /// How many base units (kg, m, m/s, Pa, s, degree, N, 1, 1) make one of this unit; exact.
    pub const fn factor(self) -> Exact {
        self.facts().factor
    }

    /// The symbol as printed, such as `lb`; empty for counts.
    pub const fn symbol(self) -> &'static str {
        self.facts().symbol
    }

    /// The spellings that are read as this unit, the symbol first; none for counts. Case does
    /// not matter but for single letters. A full stop may follow.
    pub const fn names(self) -> &'static [&'static str] {
        self.facts().names
    }

    /// `amount` of this unit in base units; `None` when it does not fit.
    pub fn to_base(self, amount: Exact) -> Option<Exact> {
        amount.checked_mul(self.factor())
    }

    /// `value` base units in this unit; `None` when it does not fit.
    pub fn from_base(self, value: Exact) -> Option<Exact> {
        value.checked_div(self.factor())
    }

    /// The unit with this spelling. `None` when no unit, or more than one, is known by it.
    pub fn find(name: &str) -> Option<Unit> {
        match Unit::spelled(name) {
            Spelling::Known(unit) => Some(unit),
            Spelling::Ambiguous(_) | Spelling::Unknown => None,
        }
    }

    /// Decimals kept when an amount in this unit has to be rounded.
    pub(super) const fn decimals(self) -> u32 {
        self.facts().decimals
    }

    /// The symbol in the singular or the plural, where they differ.
    pub(super) const fn label(self, singular: bool) -> &'static str {
        match (self, singular) {
            (Unit::Day, true) => "day",
            (Unit::Month, true) => "month",
            (Unit::Year, true) => "year",
            (Unit::ShortTon, false) => "short tons",
            _ => self.symbol(),
        }
    }

    /// Looks up a spelling: first as it is, then without a full stop at its end.
    pub(super) fn spelled(name: &str) -> Spelling {
        let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
        match (Unit::spelled_just_so(&name), name.strip_suffix('.')) {
            (Spelling::Unknown, Some(shorter)) => Unit::spelled_just_so(shorter),
            (found, _) => found,
        }
    }

    fn spelled_just_so(name: &str) -> Spelling {
        // One letter in the other case is another unit: t and T, m and M.
        let same =
            |known: &str| known == name || (name.len() > 1 && known.eq_ignore_ascii_case(name));
        let known = Unit::ALL
            .into_iter()
            .find(|unit| unit.names().iter().any(|known| same(known)));
        match known {
            Some(unit) => Spelling::Known(unit),
            None if same("ton") || same("tons") || name == "T" => {
                Spelling::Ambiguous(&[Unit::ShortTon, Unit::Tonne])
            }
            None if name == "M" => Spelling::Ambiguous(&[Unit::Meter, Unit::Mile]),
            None => Spelling::Unknown,
        }
    }

    const fn facts(self) -> Facts {
        facts(self)
    }
}
