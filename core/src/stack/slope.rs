//! Derivatives of a function at steps of their own, with an error.
//!
//! Central differences over steps that halve are extrapolated to no step (Richardson; the choice of the best after C.
//! J. F. Ridders, Advances in Engineering Software 4, 1982). Where the terms left out weigh more, the shorter steps
//! decide, and where rounding does, the longer ones.
use super::StackError;
use super::function::Function;
use super::propagation::Propagation;

/// Halvings of the first steps, which are standard deviations: what samples reach in any case.
const HALVINGS: i32 = 7;
/// Doublings of them, where rounding hides the function from shorter steps.
const DOUBLINGS: i32 = 24;
/// A relative error with which no longer steps are sought.
const FINE: f64 = 1e-10;
/// No step is longer than this part of the mean, so that the function is not asked too far away.
const PART: f64 = 1.0 / 16.0;

/// A derivative, and by how much it may be off.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Slope {
    pub value: f64,
    pub error: f64,
}

/// A step, and the values that far above and below.
#[derive(Clone, Copy, Debug)]
struct Ends {
    step: f64,
    values: [f64; 2],
}

impl Slope {
    const NONE: Slope = Slope { value: f64::NAN, error: f64::INFINITY };

    fn is_fine(&self) -> bool {
        self.error <= FINE * self.value.abs()
    }

    /// From steps of which each is half the one before.
    fn of(ends: &[Ends]) -> Slope {
        let (mut best, mut row) = (Slope::NONE, Vec::<f64>::new());
        let mut of_rows = Vec::with_capacity(ends.len());
        for Ends { step, values: [above, below] } in ends {
            let mut next = vec![(above - below) / (2.0 * step)];
            let rounding = 2.0 * f64::EPSILON * above.abs().max(below.abs()) / step;
            let (mut factor, mut of_row) = (1.0, Slope::NONE);
            for (order, coarse) in row.iter().enumerate() {
                factor *= 4.0;
                let fine = next[order];
                let value = fine + (fine - coarse) / (factor - 1.0);
                let error = (value - fine).abs().max((value - coarse).abs()) + rounding;
                if error < of_row.error {
                    of_row = Slope { value, error };
                }
                next.push(value);
            }
            if of_row.error < best.error {
                best = of_row;
            }
            of_rows.push(of_row.value);
            row = next;
        }
        // Of a coarse function some rows may agree by chance: half of all must.
        let mut apart: Vec<f64> = of_rows.iter().map(|value| (value - best.value).abs()).collect();
        apart.retain(|distance| !distance.is_nan());
        apart.sort_unstable_by(f64::total_cmp);
        Slope { error: best.error.max(apart.get(apart.len() / 2).copied().unwrap_or(0.0)), ..best }
    }
}

impl<F: Function> Propagation<F> {
    /// The derivatives by some inputs at the means, from steps about their standard deviations.
    pub(crate) fn slopes(
        &self,
        active: &[usize],
        means: &[f64],
        sigmas: &[f64],
    ) -> Result<Vec<Slope>, StackError> {
        let near: Vec<Vec<f64>> =
            sigmas.iter().map(|sigma| (0..=HALVINGS).map(|k| sigma * power(-k)).collect()).collect();
        let near = self.ends(active, means, &near)?;
        let slopes: Vec<Slope> = near.iter().map(|ends| Slope::of(ends)).collect();
        if slopes.iter().all(Slope::is_fine) || !self.function.is_defined_beyond() {
            return Ok(slopes);
        }
        let longer = |(place, slope): (usize, &Slope)| -> Vec<f64> {
            let longest = if slope.is_fine() { 0.0 } else { PART * means[active[place]].abs() };
            let steps = (1..=DOUBLINGS).rev().map(|k| sigmas[place] * power(k));
            steps.filter(|step| *step <= longest).collect()
        };
        let far: Vec<Vec<f64>> = slopes.iter().enumerate().map(longer).collect();
        let far = self.ends(active, means, &far)?;
        let with_far = |(far, (near, slope)): (Vec<Ends>, (Vec<Ends>, Slope))| {
            // Beyond the last step at which it is not defined.
            let is_gap = |ends: &Ends| ends.values.iter().any(|value| !value.is_finite());
            let start = far.iter().rposition(is_gap).map_or(0, |gap| gap + 1);
            let all = Slope::of(&[&far[start..], &near].concat());
            if all.error < slope.error { all } else { slope }
        };
        Ok(far.into_iter().zip(near.into_iter().zip(slopes)).map(with_far).collect())
    }

    /// The values at steps either way along each of some inputs; NaN where there is none.
    fn ends(
        &self,
        active: &[usize],
        means: &[f64],
        steps: &[Vec<f64>],
    ) -> Result<Vec<Vec<Ends>>, StackError> {
        let mut points = Vec::new();
        for (input, steps) in active.iter().zip(steps) {
            for step in steps.iter().flat_map(|step| [*step, -*step]) {
                let mut point = means.to_vec();
                point[*input] += step;
                points.push(point);
            }
        }
        let values = self.anywhere(&points)?;
        let mut pairs = values.chunks_exact(2);
        let ends = |step: &f64, pair: &[f64]| Ends { step: *step, values: [pair[0], pair[1]] };
        Ok(steps
            .iter()
            .map(|steps| steps.iter().zip(&mut pairs).map(|(step, pair)| ends(step, pair)).collect())
            .collect())
    }
}

/// A power of two.
fn power(exponent: i32) -> f64 {
    f64::from_bits(((1023 + exponent) as u64) << 52)
}

#[cfg(test)]
mod tests {
    use super::super::{Input, by_row};
    use super::*;
    use crate::math::{acos_degrees, exp, sin_degrees};
    use proptest::prelude::*;

    fn slope(function: impl Fn(f64) -> f64 + Sync, mean: f64, tolerance: f64) -> Slope {
        let input = Input::new("x", mean, tolerance, -tolerance);
        let propagation = Propagation::new(by_row(move |[x]: [f64; 1]| function(x)), vec![input]).unwrap();
        propagation.slopes(&[0], &[mean], &[tolerance / 3.0]).unwrap()[0]
    }

    // Whatever the tolerance is, from one that hides in the last digits to one that bends the function.
    proptest! {
        #[test]
        fn derivatives_are_those_of_the_closed_form(mean in 1.0..30.0f64, decade in -8.0..-1.0f64) {
            let tolerance = mean * crate::math::powf(10.0, decade);
            let per_degree = std::f64::consts::PI / 180.0;
            let cases = [
                (slope(|x| 1.0 / x, mean, tolerance), -1.0 / (mean * mean)),
                (slope(f64::sqrt, mean, tolerance), 0.5 / mean.sqrt()),
                (slope(|x| exp(0.1 * x), mean, tolerance), 0.1 * exp(0.1 * mean)),
                (slope(sin_degrees, mean, tolerance), per_degree * sin_degrees(90.0 - mean)),
                (slope(|x| 3.0 * x - 1.0, mean, tolerance), 3.0),
            ];
            for (number, (got, expected)) in cases.into_iter().enumerate() {
                let off = (got.value - expected).abs();
                prop_assert!(off <= 1e-9 * expected.abs(), "{number}: {got:?} for {expected}");
                prop_assert!(off <= got.error + 2.0 * f64::EPSILON * expected.abs(), "{number}: {got:?} for {expected}");
                prop_assert!(got.error <= 1e-8 * expected.abs(), "{number}: {got:?} for {expected}");
            }
        }
    }

    // Contact angle of a roller clutch by the radius of its ring: d/de acos(q) = q / (√(1 - q²) · (e - c)), in radians.
    #[test]
    fn a_steep_derivative_keeps_its_digits_as_tolerances_grow() {
        let (sum, roller, ring) = (27.645 + 11.43, 11.43, 50.8_f64);
        let ratio = sum / (ring - roller);
        let expected = ratio / (1.0 - ratio * ratio).sqrt() / (ring - roller) * 180.0 / std::f64::consts::PI;
        for tolerance in [2e-5, 2e-4, 2e-3, 2e-2, 0.1] {
            let got = slope(|ring| acos_degrees(sum / (ring - roller)), ring, tolerance);
            assert!((got.value - expected).abs() <= 1e-9 * expected, "±{tolerance}: {got:?} for {expected}");
            assert!(got.error <= 1e-9 * expected, "±{tolerance}: {got:?}");
        }
    }

    #[test]
    fn a_corner_and_a_coarse_function_tell_their_error() {
        let corner = slope(|x| (x - 10.0).abs() + 1e-3 * x, 10.0, 0.1);
        assert!((corner.value - 1e-3).abs() <= corner.error);
        let coarse = slope(|x| (x * x * 1e4).round() / 1e4, 10.0, 0.2917);
        assert!((coarse.value - 20.0).abs() < 0.01 && (1e-9..0.1).contains(&coarse.error), "{coarse:?}");
    }
}
