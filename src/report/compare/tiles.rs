//! A map of equal tiles, one for each state, province and territory.
//!
//! The places were found by projecting a middle point of each region (Albers' equal-area conic,
//! standard parallels 35° and 55° north, centre 96° west) onto a grid and giving each region the
//! nearest free cell, so that the sum of the squared shifts was least; then rows were closed up by
//! hand so that neighbours touch. Which way is north, and who is next to whom, is kept as far as equal
//! tiles allow.

/// A region's place on the map, counted from the upper left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tile {
    /// The region's code.
    pub region: &'static str,
    /// The column.
    pub column: u8,
    /// The row.
    pub row: u8,
}

const ROWS: [&[(&str, u8)]; 8] = [
    &[
        ("US-AK", 0),
        ("CA-YT", 2),
        ("CA-NT", 3),
        ("CA-NU", 4),
        ("CA-NL", 11),
    ],
    &[
        ("CA-BC", 2),
        ("CA-AB", 3),
        ("CA-SK", 4),
        ("CA-MB", 5),
        ("CA-ON", 7),
        ("CA-QC", 8),
        ("CA-NB", 9),
        ("CA-PE", 10),
        ("CA-NS", 11),
    ],
    &[
        ("US-WA", 2),
        ("US-MT", 3),
        ("US-ND", 4),
        ("US-MN", 5),
        ("US-WI", 6),
        ("US-MI", 7),
        ("US-VT", 9),
        ("US-NH", 10),
        ("US-ME", 11),
    ],
    &[
        ("US-OR", 2),
        ("US-ID", 3),
        ("US-SD", 4),
        ("US-IA", 5),
        ("US-IL", 6),
        ("US-IN", 7),
        ("US-NY", 8),
        ("US-CT", 9),
        ("US-RI", 10),
        ("US-MA", 11),
    ],
    &[
        ("US-NV", 2),
        ("US-WY", 3),
        ("US-NE", 4),
        ("US-MO", 5),
        ("US-KY", 6),
        ("US-OH", 7),
        ("US-PA", 8),
        ("US-NJ", 9),
        ("US-DE", 10),
    ],
    &[
        ("US-CA", 1),
        ("US-UT", 2),
        ("US-CO", 3),
        ("US-KS", 4),
        ("US-AR", 5),
        ("US-TN", 6),
        ("US-WV", 7),
        ("US-VA", 8),
        ("US-MD", 9),
        ("US-DC", 10),
    ],
    &[
        ("US-HI", 0),
        ("US-AZ", 2),
        ("US-NM", 3),
        ("US-OK", 4),
        ("US-MS", 5),
        ("US-AL", 6),
        ("US-GA", 7),
        ("US-SC", 8),
        ("US-NC", 9),
    ],
    &[("US-TX", 4), ("US-LA", 5), ("US-FL", 8)],
];

/// How many columns the map has.
pub(super) const COLUMNS: u8 = 12;

/// Every tile, row by row.
pub const TILES: [Tile; 64] = tiles();

const fn tiles() -> [Tile; 64] {
    let mut out = [Tile {
        region: "",
        column: 0,
        row: 0,
    }; 64];
    let mut n = 0;
    let mut row = 0;
    while row < ROWS.len() {
        let mut i = 0;
        while i < ROWS[row].len() {
            let (region, column) = ROWS[row][i];
            out[n] = Tile {
                region,
                column,
                row: row as u8,
            };
            n += 1;
            i += 1;
        }
        row += 1;
    }
    out
}
