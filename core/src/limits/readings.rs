//! Readings of an instrument, which are floats, judged by limits, which are exact.

use super::error::LimitsError;
use super::size_limits::Limits;
use crate::quantity::Units;
use crate::simd::{WideLoop, run_wide};
use crate::size::{Size, nearest_ratio};

impl Limits {
    /// A judge of readings that are floats, in inches or millimetres.
    ///
    /// Without a resolution, a reading is its shortest decimal, to the nearest picometre. With one, the step of
    /// the instrument, such as 0.0001 in, a reading within a millionth of a step of a whole number of steps is
    /// that number of steps, and any other is judged as without.
    ///
    /// # Errors
    /// [`LimitsError::Resolution`] for a resolution that is not positive.
    pub fn readings(&self, units: Units, resolution: Option<Size>) -> Result<Readings, LimitsError> {
        let step = step_of(resolution, units)?;
        let (lower, upper) = (i128::from(self.lower().picometres()), i128::from(self.upper().picometres()));
        // Reading is symmetric about zero.
        Ok(Readings {
            least: least_float(least_accepted(lower, step), units),
            greatest: -least_float(least_accepted(-upper, step), units),
        })
    }
}

/// Judges readings that are floats; see [`Limits::readings`].
///
/// What is read grows with the float, so that the good readings are those from one float to another.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Readings {
    least: f64,
    greatest: f64,
}

impl Readings {
    /// Whether a part of this reading is good. NaN and the infinities never are.
    #[inline]
    pub fn accepts(&self, reading: f64) -> bool {
        self.least <= reading && reading <= self.greatest
    }

    /// Judges many readings: `accepted[k]` tells whether `readings[k]` is good. What the longer one has beyond the other
    /// is left alone.
    pub fn accept_all(&self, readings: &[f64], accepted: &mut [bool]) {
        run_wide(ByOne { limits: *self, readings, accepted });
    }

    /// A judge by the ends that [`Readings::ends`] gave; NaN for either accepts nothing.
    pub const fn from_ends(least: f64, greatest: f64) -> Readings {
        Readings { least, greatest }
    }

    /// The least and the greatest good reading.
    pub const fn ends(&self) -> (f64, f64) {
        (self.least, self.greatest)
    }
}

/// The step of an instrument in picometres; one that reads what is printed has the step 1.
pub(super) fn step_of(resolution: Option<Size>, units: Units) -> Result<i128, LimitsError> {
    match resolution {
        Some(resolution) if !resolution.is_positive() => Err(LimitsError::Resolution { resolution, units }),
        Some(resolution) => Ok(i128::from(resolution.picometres())),
        None => Ok(1),
    }
}

struct ByOne<'a> {
    limits: Readings,
    readings: &'a [f64],
    accepted: &'a mut [bool],
}

impl WideLoop for ByOne<'_> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        let Readings { least, greatest } = self.limits;
        for (accepted, reading) in self.accepted.iter_mut().zip(self.readings) {
            // Without a branch, so that the loop is one of vectors.
            *accepted = (least <= *reading) & (*reading <= greatest);
        }
    }
}

/// A reading within this part of a step of a whole number of steps is that number of steps.
pub(super) const SNAP: i128 = 1_000_000;

/// The least picometre that is read as `lower` or more, where readings snap to whole steps.
fn least_accepted(lower: i128, step: i128) -> i128 {
    let window = step / SNAP;
    let above = lower.rem_euclid(step);
    let below = step - above;
    if above == 0 {
        lower - window
    } else if above <= window {
        lower - above + window + 1
    } else if below <= window {
        lower + below - window
    } else {
        lower
    }
}

/// The least float whose shortest decimal is nearest to `picometres` or to more.
fn least_float(picometres: i128, units: Units) -> f64 {
    let picometres = picometres.max(i128::from(i64::MIN));
    let reads_less = |float: f64| match Size::from_float(float, units) {
        Ok(size) => i128::from(size.picometres()) < picometres,
        Err(_) => float < 0.0,
    };
    // A shortest decimal at or beyond the edge, half a picometre below, belongs to the float nearest to that
    // edge or to one beyond.
    let nearest = nearest_ratio(2 * picometres - 1, 2 * units.picometres());
    if reads_less(nearest) { nearest.next_up() } else { nearest }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::size_limits::tests::{limits, size};
    use proptest::prelude::*;

    // The verdicts come from whole tenths of thousandths.
    #[test]
    fn every_reading_of_a_grid_of_tenths_is_judged_right() {
        let tenth = size("0.0001 in");
        for (text, lower, upper) in [
            ("1.420 ±.005 in", 14_150, 14_250),
            ("0.1 ±.0003 in", 997, 1_003),
            ("2.0005 +.0007/-.0002 in", 20_003, 20_012),
        ] {
            let limits = limits(text);
            let printed = limits.readings(Units::Inch, None).unwrap();
            let stepped = limits.readings(Units::Inch, Some(tenth)).unwrap();
            for count in 0..=30_000u32 {
                let good = (lower..=upper).contains(&count);
                let text = format!("{}.{:04} in", count / 10_000, count % 10_000);
                assert_eq!(limits.accepts(size(&text)), good, "{text}");
                let divided = f64::from(count) / 10_000.0;
                for reading in [divided, f64::from(count) * 0.0001, divided.next_up(), divided.next_down()] {
                    assert_eq!(limits.accepts(Size::from_float(reading, Units::Inch).unwrap()), good);
                    assert_eq!(printed.accepts(reading), good, "{reading} as printed");
                    assert_eq!(stepped.accepts(reading), good, "{reading} in steps");
                }
                // Six tenths of a millionth of a step: on the grid for an instrument, off it as printed.
                for (reading, is_edge) in
                    [(divided - 6e-11, count == lower), (divided + 6e-11, count == upper)]
                {
                    assert_eq!(printed.accepts(reading), good && !is_edge, "{reading} as printed");
                    assert_eq!(stepped.accepts(reading), good, "{reading} in steps");
                }
                // Two millionths of a step: judged as it stands.
                assert_eq!(stepped.accepts(divided + 2e-10), good && count != upper, "{divided}");
            }
        }
    }

    #[test]
    fn a_reading_is_finite_and_a_resolution_positive() {
        let everything = Limits::between(Size::from_picometres(-i64::MAX), Size::ZERO).unwrap();
        for resolution in [None, Some(size("0.01 mm")), Some(Size::from_picometres(i64::MAX))] {
            let judge = everything.readings(Units::Metric, resolution).unwrap();
            assert!(judge.accepts(-0.0) && judge.accepts(-5e8));
            for reading in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1e300, 1e300, -9.223_38e9] {
                assert!(!judge.accepts(reading), "{reading}");
            }
        }
        for resolution in [Size::ZERO, size("-1 mm")] {
            assert_eq!(
                everything.readings(Units::Inch, Some(resolution)),
                Err(LimitsError::Resolution { resolution, units: Units::Inch })
            );
        }
        let refused = everything.readings(Units::Inch, Some(size("-0.001 in"))).unwrap_err();
        assert_eq!(refused.to_string(), "a resolution must be greater than 0, not -0.001 in");
    }

    #[test]
    fn many_readings_are_judged_as_each_alone() {
        let judges = ["1.420 ±.005 in", "0.1 ±.0003 in", "-2..3 mm", "20 H7"]
            .map(|text| Limits::parse(text).unwrap().readings(Units::Metric, None).unwrap());
        let mut readings = vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0];
        for judge in judges {
            let (least, greatest) = judge.ends();
            readings.extend([least, least.next_down(), least.next_up()]);
            readings.extend([greatest, greatest.next_down(), greatest.next_up()]);
        }
        // Any length, so that a loop of vectors has a rest of any size.
        for count in 0..=readings.len() {
            let readings = &readings[..count];
            for judge in judges {
                let mut accepted = vec![true; count];
                judge.accept_all(readings, &mut accepted);
                let alone: Vec<bool> = readings.iter().map(|&reading| judge.accepts(reading)).collect();
                assert_eq!(accepted, alone);
            }
        }
    }

    /// A reading taken to a whole number of steps, if it is as near as that.
    fn snapped(picometres: i128, step: i128) -> i128 {
        let below = picometres.div_euclid(step) * step;
        [below, below + step]
            .into_iter()
            .find(|whole| (picometres - whole).abs() * 1_000_000 <= step)
            .unwrap_or(picometres)
    }

    proptest! {
        #[test]
        fn the_least_good_reading_is_the_least(steps in -3i128..3, off in -12i128..12, step in 1i128..8_000_000) {
            let lower = steps * step + off;
            let least = least_accepted(lower, step);
            for picometres in least - 40..least + 40 {
                prop_assert_eq!(snapped(picometres, step) >= lower, picometres >= least);
            }
        }

        #[test]
        fn floats_near_a_limit_are_judged_as_their_sizes(
            lower in prop_oneof![-3_000_000_000_000i64..3_000_000_000_000, any::<i64>()],
            tolerance in 0i64..1_000,
            near in -300i64..300,
            part in -0.5..0.5,
        ) {
            let lower = lower.min(i64::MAX - 2_000);
            let limits = Limits::between(Size::from_picometres(lower), Size::from_picometres(lower + tolerance))?;
            for units in Units::ALL {
                let judge = limits.readings(units, None)?;
                let reading = (lower.saturating_add(near) as f64 + part) / units.picometres() as f64;
                let Readings { least, greatest } = judge;
                for reading in [reading, least, least.next_down(), greatest, greatest.next_up()] {
                    let good = Size::from_float(reading, units).is_ok_and(|size| limits.accepts(size));
                    prop_assert_eq!(judge.accepts(reading), good, "{}", reading);
                }
            }
        }
    }
}
