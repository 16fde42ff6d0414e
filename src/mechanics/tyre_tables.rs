//! Published tyre tables: load index, speed symbol, ST sizes by pressure, load ranges.

/// Kilograms for load index 60 and on, as read from load index charts; 127 to 130 from memory of
/// the same series.
#[rustfmt::skip]
const LOAD_INDEX: [i64; 71] = [
    250, 257, 265, 272, 280, 290, 300, 307, 315, 325, // 60 to 69
    335, 345, 355, 365, 375, 387, 400, 412, 425, 437, // 70 to 79
    450, 462, 475, 487, 500, 515, 530, 545, 560, 580, // 80 to 89
    600, 615, 630, 650, 670, 690, 710, 730, 750, 775, // 90 to 99
    800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, // 100 to 109
    1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, // 110 to 119
    1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, // 120 to 129
    1900, // 130
];

/// The load, in kg, of one tyre of a load index from 60 to 130.
pub(super) fn load_index(index: i64) -> Option<i64> {
    let at = usize::try_from(index.checked_sub(60)?).ok()?;
    LOAD_INDEX.get(at).copied()
}

/// The columns of [`ST_LOADS`], psi.
pub(super) const ST_PRESSURES: [i64; 4] = [35, 50, 65, 80];

/// Pounds that one ST tyre carries at 35, 50, 65 and 80 psi (a tyre maker's chart).
#[rustfmt::skip]
const ST_LOADS: [(&str, [Option<i64>; 4]); 10] = [
    ("ST165/80-13", [Some(990), Some(1_230), None, None]),
    ("ST175/80-13", [Some(1_100), Some(1_360), None, None]),
    ("ST185/80-13", [Some(1_200), Some(1_480), None, None]),
    ("ST195/80-14", [Some(1_320), Some(1_610), None, None]),
    ("ST205/80-14", [Some(1_430), Some(1_760), Some(2_040), None]),
    ("ST215/80-14", [Some(1_520), Some(1_870), None, None]),
    ("ST205/75-15", [Some(1_480), Some(1_820), Some(2_150), None]),
    ("ST225/75-15", [Some(1_760), Some(2_150), Some(2_540), Some(2_840)]),
    ("ST215/80-16", [Some(1_820), Some(2_200), Some(2_600), Some(2_910)]),
    ("ST235/80-16", [Some(2_090), Some(2_600), Some(3_000), Some(3_420)]),
];

/// The row of an ST size, however it is written: `ST225/75R15`, `st 225/75 D 15`, `ST225/75-15`.
pub(super) fn st_row(size: &str) -> Option<[Option<i64>; 4]> {
    let plain = |t: &str| {
        let upper = t.to_ascii_uppercase();
        // The letter or dash between profile and rim tells the build, not the size.
        let mut out = String::new();
        for c in upper.chars().filter(|c| !c.is_whitespace()) {
            match c {
                'R' | 'D' | 'B' | '-' if out.contains('/') => out.push('-'),
                c => out.push(c),
            }
        }
        out
    };
    let wanted = plain(size);
    ST_LOADS
        .iter()
        .find(|(name, _)| *name == wanted)
        .map(|(_, row)| *row)
}

/// The greatest cold pressure, psi, of an ST tyre's load range. The chart ends with E.
pub(super) fn load_range_pressure(range: &str) -> Option<i64> {
    Some(match range {
        "B" => 35,
        "C" => 50,
        "D" => 65,
        "E" => 80,
        _ => return None,
    })
}

/// The speed, km/h, of a speed symbol. Q, S, T, U, H, V, W and Y as read in charts, N as read
/// there in mph (87); J, K, L, M, P and R from memory of the same series.
pub(super) fn symbol_speed(symbol: &str) -> Option<i64> {
    Some(match symbol {
        "J" => 100,
        "K" => 110,
        "L" => 120,
        "M" => 130,
        "N" => 140,
        "P" => 150,
        "Q" => 160,
        "R" => 170,
        "S" => 180,
        "T" => 190,
        "U" => 200,
        "H" => 210,
        "V" => 240,
        "W" => 270,
        "Y" => 300,
        _ => return None,
    })
}
