//! Readings judged row by row, each by limits of its own, all of them floats in columns.
use super::error::{LimitsError, RowLimitsError};
use super::readings::{SNAP, step_of};
use super::size_limits::Limits;
use crate::quantity::Units;
use crate::simd::{WideLoop, run_wide};
use crate::size::Size;

/// Judges each reading by limits of its own: `accepted[row]` tells whether `readings[row]` is good by `lower[row]` and
/// `upper[row]`, all in inches or millimetres.
///
/// Verdicts are those of [`Limits::readings`], where a limit is the size of its shortest decimal. Minus infinity below and
/// infinity above are no limit. A row with a NaN is never good.
///
/// ```
/// use tenths::limits::accept_rows;
/// use tenths::Units;
/// let (lower, upper) = ([1.415, 1.415, f64::NEG_INFINITY], [1.425, 1.425, 0.5]);
/// let mut accepted = [false; 3];
/// accept_rows(&[1.425, 1.4251, 0.2], &lower, &upper, Units::Inch, None, &mut accepted)?;
/// assert_eq!(accepted, [true, false, true]);
/// # Ok::<(), tenths::limits::RowLimitsError>(())
/// ```
///
/// # Errors
/// [`RowLimitsError`]: columns of unequal length, limits of a row that are no limits, a resolution that is not positive.
pub fn accept_rows(
    readings: &[f64],
    lower: &[f64],
    upper: &[f64],
    units: Units,
    resolution: Option<Size>,
    accepted: &mut [bool],
) -> Result<(), RowLimitsError> {
    let rows = readings.len();
    if let Some(got) = [lower.len(), upper.len(), accepted.len()].into_iter().find(|&got| got != rows) {
        return Err(RowLimitsError::Length { readings: rows, got });
    }
    let step = step_of(resolution, units).map_err(|error| RowLimitsError::Limits { row: None, error })?;
    let judge = Judge { units, scale: units.picometres() as f64, step, window: (step / SNAP) as f64 };
    for start in (0..rows).step_by(PIECE) {
        let piece = start..rows.min(start + PIECE);
        let columns = [readings, lower, upper].map(|column| &column[piece.clone()]);
        let accepted = &mut accepted[piece];
        if run_wide(Piece { judge, columns, accepted }) {
            continue;
        }
        for (row, accepted) in accepted.iter_mut().enumerate() {
            let [reading, lower, upper] = columns.map(|column| column[row]);
            *accepted = judge
                .row(reading, lower, upper)
                .map_err(|error| RowLimitsError::Limits { row: Some(start + row), error })?;
        }
    }
    Ok(())
}

/// Rows that are judged at a time; one by one, if floats do not decide all of them.
const PIECE: usize = 256;

#[derive(Clone, Copy)]
struct Judge {
    units: Units,
    /// Picometres of a unit.
    scale: f64,
    /// The step of the instrument, in picometres.
    step: i128,
    /// How far from a whole number of steps a reading is taken for it, in picometres.
    window: f64,
}

impl Judge {
    /// Whether a reading is good, and whether floats are enough to tell: where the reading lies clear of both limits, or
    /// all are certain to be whole picometres.
    #[inline(always)]
    fn by_floats(&self, reading: f64, lower: f64, upper: f64) -> (bool, bool) {
        /// A product is a count of picometres to within 0.0079 there; see [`Size::from_float`].
        const COUNTED: f64 = (1u64 << 45) as f64;
        /// Adding and taking away 3 · 2^51 rounds to a whole number.
        const ROUNDER: f64 = (3u64 << 51) as f64;
        let is_open = [lower == f64::NEG_INFINITY, upper == f64::INFINITY];
        let [reading, lower, upper] = [reading, lower, upper].map(|number| number * self.scale);
        let [of_reading, of_lower, of_upper] =
            [reading, lower, upper].map(|count| (count + ROUNDER) - ROUNDER);
        let is_whole = |count: f64, nearest: f64| (count - nearest).abs() < 0.49;
        let is_clear = |limit: f64| (reading - limit).abs() > self.window + 1.5;
        let is_read = is_whole(reading, of_reading) & (self.step == 1);
        let decided = (is_clear(lower) | (is_read & is_whole(lower, of_lower)))
            & (is_clear(upper) | (is_read & is_whole(upper, of_upper)))
            & (lower + 1.5 <= upper)
            & (reading.abs() < COUNTED)
            & ((lower.abs() < COUNTED) | is_open[0])
            & ((upper.abs() < COUNTED) | is_open[1]);
        let good = if is_read {
            (of_lower <= of_reading) & (of_reading <= of_upper)
        } else {
            (lower < reading) & (reading < upper)
        };
        // A row with a gap is never good.
        (good, decided | reading.is_nan() | lower.is_nan() | upper.is_nan())
    }

    /// The verdict on a row by its sizes.
    fn row(&self, reading: f64, lower: f64, upper: f64) -> Result<bool, LimitsError> {
        if let (good, true) = self.by_floats(reading, lower, upper) {
            return Ok(good);
        }
        let size =
            |limit: f64, none: f64| (limit != none).then(|| Size::from_float(limit, self.units)).transpose();
        let (lower, upper) = (size(lower, f64::NEG_INFINITY)?, size(upper, f64::INFINITY)?);
        if let (Some(lower), Some(upper)) = (lower, upper) {
            Limits::between(lower, upper)?;
        }
        // Infinity and what is beyond any size is no reading.
        let Ok(reading) = Size::from_float(reading, self.units) else { return Ok(false) };
        let count = self.snapped(i128::from(reading.picometres()));
        let is_good = |limit: Option<Size>, is_in: fn(&i128, &i128) -> bool| {
            limit.is_none_or(|limit| is_in(&i128::from(limit.picometres()), &count))
        };
        Ok(is_good(lower, i128::le) && is_good(upper, i128::ge))
    }

    /// A reading taken to a whole number of steps, if it is as near as that.
    fn snapped(&self, picometres: i128) -> i128 {
        let below = picometres.div_euclid(self.step) * self.step;
        let is_near = |whole: &i128| (picometres - whole).abs() <= self.step / SNAP;
        [below, below + self.step].into_iter().find(is_near).unwrap_or(picometres)
    }
}

/// The rows of a piece by floats; whether these decide all of them.
struct Piece<'a> {
    judge: Judge,
    columns: [&'a [f64]; 3],
    accepted: &'a mut [bool],
}

impl WideLoop for Piece<'_> {
    type Output = bool;

    #[inline(always)]
    fn run(self) -> bool {
        let [readings, lower, upper] = self.columns;
        let mut all_decided = true;
        let limits = lower.iter().zip(upper);
        for (accepted, (reading, (lower, upper))) in self.accepted.iter_mut().zip(readings.iter().zip(limits))
        {
            let (good, decided) = self.judge.by_floats(*reading, *lower, *upper);
            all_decided &= decided;
            *accepted = good;
        }
        all_decided
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Readings;
    use proptest::prelude::*;

    /// What judges by limits that are made of sizes.
    fn judge_of(lower: f64, upper: f64, units: Units, step: Option<Size>) -> Readings {
        let [lower, upper] = [lower, upper].map(|limit| Size::from_float(limit, units).unwrap());
        Limits::between(lower, upper).unwrap().readings(units, step).unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        // Readings on a limit, next to it, on the grid of an instrument and anywhere.
        #[test]
        fn verdicts_are_those_of_limits(
            lower in prop_oneof![-40_000_000i64..40_000_000, -40_000_000_000..40_000_000_000i64],
            tolerance in 0i64..50_000,
            near in prop_oneof![-3i64..=3, -60_000i64..60_000],
            ulps in -4i64..=4,
            part in prop_oneof![Just(0.0), -1e-6..1e-6f64, -0.51..0.51f64],
            digits in prop::sample::select(vec![1e3, 1e4, 1e6, 1e9, 25.4e9]),
            step in prop::sample::select(vec![None, Some("0.001 mm"), Some("0.0001 in"), Some("0.37 mm")]),
        ) {
            let float = |count: i64| count as f64 / digits;
            let off = |number: f64| f64::from_bits(number.to_bits().wrapping_add_signed(ulps));
            let (least, greatest) = (float(lower), float(lower + tolerance));
            let close = [least, greatest, off(least), off(greatest), float(lower + near), least + 1e-9 * part];
            let anywhere = [least + (greatest - least) * part, 0.0, -0.0, f64::MAX, f64::INFINITY, f64::NAN];
            let step = step.map(|step| step.parse::<Size>().unwrap());
            let readings: Vec<f64> = close.into_iter().chain(anywhere).cycle().take(PIECE + 12).collect();
            for units in Units::ALL {
                for (low, high) in [(least, greatest), (off(least), greatest.max(off(least)))] {
                    let mut accepted = vec![false; readings.len()];
                    let columns = [low, high].map(|limit| vec![limit; readings.len()]);
                    let judged = accept_rows(&readings, &columns[0], &columns[1], units, step, &mut accepted);
                    prop_assert_eq!(judged, Ok(()));
                    let judge = judge_of(low, high, units, step);
                    for (reading, accepted) in readings.iter().zip(accepted) {
                        let expected = judge.accepts(*reading);
                        prop_assert_eq!(accepted, expected, "{} in {} to {} {}", reading, low, high, units.name());
                    }
                }
            }
        }
    }

    #[test]
    fn ends_may_be_open_and_rows_have_gaps() {
        let (open, none) = (f64::NEG_INFINITY, f64::INFINITY);
        let (nan, mut accepted) = (f64::NAN, [true; 9]);
        let readings = [1.0, 1.0, 1.0, -9.0, 9.0, nan, 1.0, 1.0, none];
        let lower = [open, 1.0, open, open, 1.0, 0.0, nan, 0.0, open];
        let upper = [1.0, none, none, 1.0, none, 2.0, 2.0, nan, none];
        for step in [None, Some(Size::from_picometres(1_000_000))] {
            accept_rows(&readings, &lower, &upper, Units::Metric, step, &mut accepted).unwrap();
            assert_eq!(accepted, [true, true, true, true, true, false, false, false, false]);
        }
    }

    #[test]
    fn a_row_at_fault_is_named() {
        let judge = |lower: f64, upper: f64, resolution: Option<&str>| {
            let (mut lowers, mut uppers) = ([1.0; 300], [2.0; 300]);
            (lowers[270], uppers[270]) = (lower, upper);
            let resolution = resolution.map(|text| text.parse().unwrap());
            accept_rows(&[1.5; 300], &lowers, &uppers, Units::Metric, resolution, &mut [false; 300])
                .map_err(|error| error.to_string())
        };
        assert_eq!(
            judge(2.0, 1.0, None),
            Err("row 270: the lower limit, 2 mm, is above the upper limit, 1 mm".into())
        );
        assert_eq!(judge(1.0, 1.0 - 1e-12, None), Ok(()));
        assert_eq!(
            judge(1.0, 1e300, None),
            Err("row 270: `1e300` is out of range: a size lies within ±9223 km".into())
        );
        assert!(judge(f64::INFINITY, f64::INFINITY, None).is_err());
        assert_eq!(
            judge(1.0, 2.0, Some("0 mm")),
            Err("a resolution must be greater than 0, not 0 mm".into())
        );
        let short = accept_rows(&[1.0], &[1.0], &[], Units::Metric, None, &mut [false]);
        assert_eq!(short, Err(RowLimitsError::Length { readings: 1, got: 0 }));
    }
}
