//! The table of units: one entry for each.
//!
//! Factors are exact by definition: the international yard and pound of 1959 (1 yd = 0.9144 m,
//! 1 lb = 0.45359237 kg) and standard gravity (9.80665 m/s²).

use super::{Dimension, Exact, Unit};

/// What is known of a unit.
pub(super) struct Facts {
    pub dimension: Dimension,
    pub factor: Exact,
    pub symbol: &'static str,
    pub decimals: u32,
    pub names: &'static [&'static str],
}

/// `num / den` base units make one of the unit; `decimals` are kept when rounding; the first of
/// the names is the symbol.
const fn entry(
    dimension: Dimension,
    (num, den): (u64, u64),
    decimals: u32,
    names: &'static [&'static str],
) -> Facts {
    let symbol = match names {
        [first, ..] => first,
        [] => "",
    };
    Facts {
        dimension,
        factor: Exact::constant(num, den),
        symbol,
        decimals,
        names,
    }
}

#[rustfmt::skip] // one unit, one line or two
pub(super) const fn facts(unit: Unit) -> Facts {
    use Dimension::{Angle, Count, Force, Length, Mass, Pressure, Share, Speed, Time};
    match unit {
        Unit::Pound => const { entry(Mass, (45_359_237, 100_000_000), 1,
            &["lb", "lbs", "pound", "pounds", "#"]) },
        Unit::Ounce => const { entry(Mass, (45_359_237, 1_600_000_000), 1,
            &["oz", "ounce", "ounces"]) },
        Unit::Kilogram => const { entry(Mass, (1, 1), 1,
            &["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"]) },
        Unit::Gram => const { entry(Mass, (1, 1_000), 1,
            &["g", "gram", "grams", "gramme", "grammes"]) },
        Unit::Tonne => const { entry(Mass, (1_000, 1), 3,
            &["t", "tonne", "tonnes", "metric ton", "metric tons"]) },
        Unit::ShortTon => const { entry(Mass, (90_718_474, 100_000), 3,
            &["short ton", "short tons", "US ton", "US tons"]) },
        Unit::Foot => const { entry(Length, (3_048, 10_000), 2,
            &["ft", "foot", "feet", "'"]) },
        Unit::Inch => const { entry(Length, (254, 10_000), 2,
            &["in", "inch", "inches", "\""]) },
        Unit::Yard => const { entry(Length, (9_144, 10_000), 2,
            &["yd", "yds", "yard", "yards"]) },
        Unit::Meter => const { entry(Length, (1, 1), 3,
            &["m", "meter", "meters", "metre", "metres"]) },
        Unit::Centimeter => const { entry(Length, (1, 100), 1,
            &["cm", "centimeter", "centimeters", "centimetre", "centimetres"]) },
        Unit::Millimeter => const { entry(Length, (1, 1_000), 1,
            &["mm", "millimeter", "millimeters", "millimetre", "millimetres"]) },
        Unit::Kilometer => const { entry(Length, (1_000, 1), 2,
            &["km", "kilometer", "kilometers", "kilometre", "kilometres"]) },
        Unit::Mile => const { entry(Length, (1_609_344, 1_000), 2,
            &["mi", "mile", "miles"]) },
        Unit::MilePerHour => const { entry(Speed, (44_704, 100_000), 1,
            &["mph", "mi/h", "mile per hour", "miles per hour", "miles an hour"]) },
        Unit::KilometerPerHour => const { entry(Speed, (5, 18), 1,
            &["km/h", "kph", "kmh", "kmph", "kilometer per hour", "kilometers per hour",
                "kilometre per hour", "kilometres per hour"]) },
        Unit::MeterPerSecond => const { entry(Speed, (1, 1), 2,
            &["m/s", "meter per second", "meters per second", "metre per second",
                "metres per second"]) },
        Unit::FootPerSecond => const { entry(Speed, (3_048, 10_000), 1,
            &["ft/s", "foot per second", "feet per second", "fps"]) },
        Unit::Psi => const { entry(Pressure, (44_482_216_152_605, 6_451_600_000), 1,
            &["psi", "lbf/in²", "lb/in²", "pound per square inch", "pounds per square inch"]) },
        Unit::Pascal => const { entry(Pressure, (1, 1), 0,
            &["Pa", "pascal", "pascals"]) },
        Unit::Kilopascal => const { entry(Pressure, (1_000, 1), 1,
            &["kPa", "kilopascal", "kilopascals"]) },
        Unit::Bar => const { entry(Pressure, (100_000, 1), 2,
            &["bar", "bars"]) },
        Unit::Second => const { entry(Time, (1, 1), 1,
            &["s", "sec", "secs", "second", "seconds"]) },
        Unit::Minute => const { entry(Time, (60, 1), 1,
            &["min", "mins", "minute", "minutes"]) },
        Unit::Hour => const { entry(Time, (3_600, 1), 2,
            &["h", "hr", "hrs", "hour", "hours"]) },
        Unit::Day => const { entry(Time, (86_400, 1), 1,
            &["days", "day", "d"]) },
        Unit::Month => const { entry(Time, (2_629_746, 1), 1,
            &["months", "month", "mo", "mos"]) },
        Unit::Year => const { entry(Time, (31_556_952, 1), 2,
            &["years", "year", "yr", "yrs", "y"]) },
        Unit::Degree => const { entry(Angle, (1, 1), 1,
            &["deg", "degs", "degree", "degrees", "°"]) },
        Unit::PoundForce => const { entry(Force, (44_482_216_152_605, 10_000_000_000_000), 1,
            &["lbf", "pound-force", "pounds-force", "pound force", "pounds force"]) },
        Unit::Newton => const { entry(Force, (1, 1), 1,
            &["N", "newton", "newtons"]) },
        Unit::Dekanewton => const { entry(Force, (10, 1), 1,
            &["daN", "dekanewton", "dekanewtons", "decanewton", "decanewtons"]) },
        Unit::Kilonewton => const { entry(Force, (1_000, 1), 2,
            &["kN", "kilonewton", "kilonewtons"]) },
        Unit::Percent => const { entry(Share, (1, 100), 1,
            &["%", "percent", "per cent", "pct"]) },
        Unit::One => const { entry(Count, (1, 1), 2, &[]) },
    }
}
