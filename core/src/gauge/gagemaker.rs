//! Gagemaker classes and the ten percent rule.
use super::layout::Places;
use super::{GaugeBasis, GaugeError, GaugeForm, SHARE};
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

/// Each member takes its class's tolerance inward from the limit that it guards.
pub(super) fn places(form: GaugeForm, part: &Limits) -> Result<Places, GaugeError> {
    let class = coarsest_class(part)?;
    let (most, least) = match form.is_internal() {
        true => (part.lower(), part.upper()),
        false => (part.upper(), part.lower()),
    };
    let tolerance = |size| class.tolerance(size).ok_or(GaugeError::OutOfRange { size });
    let (go, no_go) = (tolerance(most)?.picometres(), tolerance(least)?.picometres());
    let masters = match form.has_masters() {
        true => Some([master_tolerance(most, go)?, master_tolerance(least, no_go)?]),
        false => None,
    };
    Ok(Places {
        class: Some(class),
        grade: None,
        standard: STANDARD,
        basis: if form == GaugeForm::Plug { GaugeBasis::Published } else { GaugeBasis::CommonPractice },
        go: [0, go],
        no_go: [0, no_go],
        worn: 0,
        masters,
    })
}

/// Five percent of the part's tolerance to each member, in whole picometres.
pub(super) fn places_by_share(part: &Limits) -> Result<Places, GaugeError> {
    let share = part.tolerance().picometres() / SHARE;
    if share == 0 {
        return Err(GaugeError::NoTolerance { size: part.lower() });
    }
    Ok(Places {
        class: None,
        grade: None,
        standard: "ten percent rule",
        basis: GaugeBasis::CommonPractice,
        go: [0, share],
        no_go: [0, share],
        worn: 0,
        masters: None,
    })
}

/// Of the coarsest class that takes no more than a tenth of the gauge's tolerance; of XXX where none does.
fn master_tolerance(size: Size, gauge: i64) -> Result<i64, GaugeError> {
    let tolerances = GagemakerClass::ALL.map(|class| class.tolerance(size).map(Size::picometres));
    let [Some(finest), ..] = tolerances else { return Err(GaugeError::OutOfRange { size }) };
    Ok(tolerances.into_iter().flatten().filter(|tolerance| 10 * tolerance <= gauge).max().unwrap_or(finest))
}

/// The coarsest class of which neither member takes more than its share of the part's tolerance.
fn coarsest_class(part: &Limits) -> Result<GagemakerClass, GaugeError> {
    let tolerance = part.tolerance();
    let served = |class: GagemakerClass| {
        let served_at = |size| {
            let served = class.tolerance(size).and_then(|gauge| gauge.checked_mul(SHARE));
            served.ok_or(GaugeError::OutOfRange { size })
        };
        Ok::<_, GaugeError>(served_at(part.lower())?.max(served_at(part.upper())?))
    };
    let least = served(GagemakerClass::Xxx)?;
    if tolerance == Size::ZERO {
        return Err(GaugeError::NoTolerance { size: part.lower() });
    }
    let fits = |class: &GagemakerClass| served(*class).is_ok_and(|served| served <= tolerance);
    GagemakerClass::ALL.into_iter().rev().find(fits).ok_or(GaugeError::NoClass { tolerance, least })
}

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
