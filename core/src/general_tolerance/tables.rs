//! The tables of ISO 2768-1:1989 and ISO 2768-2:1989, in micrometres and in minutes of arc.
//!
//! Neither standard was seen itself. The figures were seen in two reprints that agree, save for the run-outs, which are
//! from memory. `tests/published/general_tolerances.csv` has every figure again, as it was copied from the reprints.

/// Where the standard has no figure.
pub(super) const NONE: i32 = 0;

/// A table: the size, in millimetres, that the first range begins at; the size that each range ends at, included;
/// and a row of figures for each class.
pub(super) struct Table<const CLASSES: usize, const RANGES: usize> {
    pub(super) from: [i64; 2],
    pub(super) ends: [i64; RANGES],
    pub(super) rows: [[i32; RANGES]; CLASSES],
}

/// For the end of a last range that has none.
pub(super) const OPEN: i64 = i64::MAX;

/// Half a millimetre, included; below it the standard gives nothing.
const HALF: [i64; 2] = [1, 2];
/// Zero, excluded.
const ZERO: [i64; 2] = [0, 1];

/// ISO 2768-1, Table 1: permissible deviations of linear sizes other than broken edges, to either side.
pub(super) static LENGTHS: Table<4, 8> = Table {
    from: HALF,
    ends: [3, 6, 30, 120, 400, 1000, 2000, 4000],
    rows: [
        [50, 50, 100, 150, 200, 300, 500, NONE],
        [100, 100, 200, 300, 500, 800, 1200, 2000],
        [200, 300, 500, 800, 1200, 2000, 3000, 4000],
        [NONE, 500, 1000, 1500, 2500, 4000, 6000, 8000],
    ],
};

/// ISO 2768-1, Table 2: permissible deviations of broken edges (outer radii and heights of chamfers), to either side.
pub(super) static EDGES: Table<4, 3> = Table {
    from: HALF,
    ends: [3, 6, OPEN],
    rows: [[200, 500, 1000], [200, 500, 1000], [400, 1000, 2000], [400, 1000, 2000]],
};

/// ISO 2768-1, Table 3: permissible deviations of angles by their shorter side, to either side, in minutes.
pub(super) static ANGLES: Table<4, 5> = Table {
    from: ZERO,
    ends: [10, 50, 120, 400, OPEN],
    rows: [[60, 30, 20, 10, 5], [60, 30, 20, 10, 5], [90, 60, 30, 15, 10], [180, 120, 60, 30, 20]],
};

/// ISO 2768-2, Table 1: straightness and flatness.
pub(super) static FLATNESS: Table<3, 6> = Table {
    from: ZERO,
    ends: [10, 30, 100, 300, 1000, 3000],
    rows: [[20, 50, 100, 200, 300, 400], [50, 100, 200, 400, 600, 800], [100, 200, 400, 800, 1200, 1600]],
};

/// ISO 2768-2, Table 2: perpendicularity, by the shorter side.
pub(super) static PERPENDICULARITY: Table<3, 4> = Table {
    from: ZERO,
    ends: [100, 300, 1000, 3000],
    rows: [[200, 300, 400, 500], [400, 600, 800, 1000], [600, 1000, 1500, 2000]],
};

/// ISO 2768-2, Table 3: symmetry.
pub(super) static SYMMETRY: Table<3, 4> = Table {
    from: ZERO,
    ends: [100, 300, 1000, 3000],
    rows: [[500, 500, 500, 500], [600, 600, 800, 1000], [600, 1000, 1500, 2000]],
};

/// ISO 2768-2, Table 4: circular run-out, for any size; from memory.
pub(super) static RUN_OUT: Table<3, 1> = Table { from: ZERO, ends: [OPEN], rows: [[100], [200], [500]] };
