//! Gagemaker tolerances, in microinches.

/// The sizes above `over` and up to `up_to`, both in microinches, and the tolerance of each class.
pub(super) struct Row {
    pub over: i64,
    pub up_to: i64,
    /// Classes XXX, XX, X, Y, Z, ZZ.
    pub tolerances: [i64; 6],
}

const fn row(over: i64, up_to: i64, tolerances: [i64; 6]) -> Row {
    Row { over, up_to, tolerances }
}

/// The edition whose figures these are.
pub(super) const STANDARD: &str = "ASME B89.1.5-1998";

/// Source of every row: ASME B89.1.5-1998, chart of gagemaker tolerances for plain plugs and master discs, as
/// reprinted by gauge makers; three printings agree in the inch values. The standard itself was not seen.
pub(super) static ROWS: [Row; 7] = [
    row(10_000, 825_000, [10, 20, 40, 70, 100, 200]),
    row(825_000, 1_510_000, [15, 30, 60, 90, 120, 240]),
    row(1_510_000, 2_510_000, [20, 40, 80, 120, 160, 320]),
    row(2_510_000, 4_510_000, [25, 50, 100, 150, 200, 400]),
    row(4_510_000, 6_510_000, [33, 65, 130, 190, 250, 500]),
    row(6_510_000, 9_010_000, [40, 80, 160, 240, 320, 640]),
    row(9_010_000, 12_010_000, [50, 100, 200, 300, 400, 800]),
];
