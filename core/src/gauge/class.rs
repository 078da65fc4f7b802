//! Gagemaker classes and their table.
use super::kinds::GaugeError;
use crate::error::excerpt;
use crate::{Limits, Size};
use serde::Serialize;
use tenths_macros::Choice;

/// A class of gagemaker tolerance, from the finest to the coarsest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Choice)]
#[serde(rename_all = "UPPERCASE")]
pub enum GagemakerClass {
    /// XXX.
    #[name = "XXX"]
    Xxx,
    /// XX.
    #[name = "XX"]
    Xx,
    /// X.
    #[name = "X"]
    X,
    /// Y.
    #[name = "Y"]
    Y,
    /// Z.
    #[name = "Z"]
    Z,
    /// ZZ.
    #[name = "ZZ"]
    Zz,
}

const PICOMETRES_PER_MICROINCH: i64 = 25_400;

impl GagemakerClass {
    /// The tolerance of this class for a gauge of the given size, or `None` outside the standard: sizes over
    /// 0.010 in, up to 12.010 in.
    ///
    /// Source: ASME B89.1.5-1998, chart of gagemaker tolerances.
    pub fn tolerance(self, size: Size) -> Option<Size> {
        let holds = |row: &&Row| microinches(row.over) < size && size <= microinches(row.up_to);
        ROWS.iter().find(holds).map(|row| microinches(row.tolerances[self as usize]))
    }

    /// The class of that name.
    ///
    /// # Errors
    /// [`GaugeError::UnknownClass`].
    pub fn parse(text: &str) -> Result<GagemakerClass, GaugeError> {
        let named = GagemakerClass::ALL.into_iter().find(|class| class.name() == text);
        named.ok_or_else(|| GaugeError::UnknownClass { text: excerpt(text) })
    }

    /// The limits of a master disc or plug of this class: half of its tolerance to either side of its size.
    ///
    /// # Errors
    /// [`GaugeError::OutOfRange`].
    pub fn master(self, size: Size) -> Result<Limits, GaugeError> {
        let tolerance = self.tolerance(size).ok_or(GaugeError::OutOfRange { size })?;
        let half = tolerance.picometres() / 2;
        Ok(Limits::with_deviations(size, Size::from_picometres(half), Size::from_picometres(-half))?)
    }
}

const fn microinches(count: i64) -> Size {
    Size::from_picometres(count * PICOMETRES_PER_MICROINCH)
}

/// The sizes above `over` and up to `up_to`, both in microinches, and the tolerance of each class.
struct Row {
    pub over: i64,
    pub up_to: i64,
    /// Classes XXX, XX, X, Y, Z, ZZ.
    pub tolerances: [i64; 6],
}

const fn row(over: i64, up_to: i64, tolerances: [i64; 6]) -> Row {
    Row { over, up_to, tolerances }
}

/// Source of every row: ASME B89.1.5-1998, chart of gagemaker tolerances for plain plugs and master discs, as
/// reprinted by gauge makers; three printings agree in the inch values. The standard itself was not seen.
static ROWS: [Row; 7] = [
    row(10_000, 825_000, [10, 20, 40, 70, 100, 200]),
    row(825_000, 1_510_000, [15, 30, 60, 90, 120, 240]),
    row(1_510_000, 2_510_000, [20, 40, 80, 120, 160, 320]),
    row(2_510_000, 4_510_000, [25, 50, 100, 150, 200, 400]),
    row(4_510_000, 6_510_000, [33, 65, 130, 190, 250, 500]),
    row(6_510_000, 9_010_000, [40, 80, 160, 240, 320, 640]),
    row(9_010_000, 12_010_000, [50, 100, 200, 300, 400, 800]),
];

#[cfg(test)]
mod tests {
    use super::*;

    // Rules that the printed chart keeps, so that a mistyped figure fails: XXX is half of XX, rounded up; X twice
    // XX; ZZ twice Z; Y half way between X and Z; all grow with size.
    #[test]
    fn the_table_keeps_its_own_rules() {
        for row in &ROWS {
            let [xxx, xx, x, y, z, zz] = row.tolerances;
            assert_eq!([xxx, x, y, zz], [(xx + 1) / 2, 2 * xx, (x + z) / 2, 2 * z], "up to {}", row.up_to);
            assert!(row.tolerances.is_sorted_by(|fine, coarse| fine < coarse));
        }
        for pair in ROWS.windows(2) {
            assert_eq!(pair[0].up_to, pair[1].over);
            let mut columns = pair[0].tolerances.iter().zip(pair[1].tolerances);
            assert!(columns.all(|(smaller, larger)| *smaller < larger), "up to {}", pair[1].up_to);
        }
        assert_eq!((ROWS[0].over, ROWS[6].up_to), (10_000, 12_010_000));
    }
}
