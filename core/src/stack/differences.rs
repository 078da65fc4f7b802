//! Moments of a function of varying inputs, by its derivatives from finite differences.
use super::StackError;
use super::function::Function;
use super::moments::Cumulants;
use super::propagation::Propagation;
use crate::object::ByName;
use tenths_macros::Object;

/// Mean and standard deviation of a function by its first and second derivatives. Only inputs that spread are listed.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct Moments {
    /// Mean to the second order, which takes in how the function bends.
    pub mean: f64,
    /// Standard deviation to the second order: all that is of the first two powers of the variances.
    pub sigma: f64,
    /// Value at the means of the inputs: the mean to the first order.
    pub first_order_mean: f64,
    /// Standard deviation to the first order: that of the tangent plane.
    pub first_order_sigma: f64,
    /// By how much finite differences may put the mean off, by what halving their steps changes.
    pub mean_error: f64,
    /// By how much finite differences may put the standard deviation off.
    pub sigma_error: f64,
    /// Derivative of the function by each input at the means.
    pub derivatives: ByName<f64>,
    /// What each input has of the first-order variance, in percent; with correlations it may be negative.
    pub contributions: ByName<f64>,
    /// By how much finite differences and rounding may put each derivative off.
    pub derivative_errors: ByName<f64>,
}

/// Derivatives at the means of the inputs that spread.
struct Derivatives {
    first: Vec<f64>,
    /// Row by row.
    second: Vec<f64>,
    /// By an input and twice by another, row by row.
    third: Vec<f64>,
}

impl Derivatives {
    /// The limit for ever smaller steps, from those of steps and of half of them (Richardson).
    fn extrapolate(whole: &Derivatives, half: &Derivatives, steps: &[f64]) -> Derivatives {
        let limit = |whole: &[f64], half: &[f64]| -> Vec<f64> {
            whole.iter().zip(half).map(|(whole, half)| half + (half - whole) / 3.0).collect()
        };
        let mut third = limit(&whole.third, &half.third);
        for (place, step) in steps.iter().enumerate() {
            // A central difference is off by h²/6 of the third derivative.
            third[place * steps.len() + place] =
                8.0 * (whole.first[place] - half.first[place]) / (step * step);
        }
        let (first, second) = (limit(&whole.first, &half.first), limit(&whole.second, &half.second));
        Derivatives { first, second, third }
    }
}

impl<F: Function> Propagation<F> {
    /// Mean and standard deviation by the derivatives at the means of the inputs, and what each input contributes.
    ///
    /// The first derivatives are taken at steps of their own, down to a hundredth of a standard deviation, and beyond one
    /// where rounding asks for it and the function may be evaluated there. Those of the second order are central
    /// differences over one and over half a standard deviation, extrapolated. The second order takes in the third and
    /// fourth moments of the inputs, and for the standard deviation third derivatives too. What is of higher powers of the
    /// spread is left out; a sample has it.
    ///
    /// # Errors
    /// [`StackError::Undefined`] where the function is not defined at the means or within a standard deviation, and
    /// [`StackError::NotPositive`] for correlations that contradict one another.
    pub fn moments(&self) -> Result<Moments, StackError> {
        self.correlation.mixing()?;
        let laws: Vec<Cumulants> = self
            .inputs
            .iter()
            .map(|input| input.distribution.cumulants(input.middle(), input.half()))
            .collect();
        let active: Vec<usize> = (0..laws.len()).filter(|input| laws[*input].variance > 0.0).collect();
        let means: Vec<f64> = laws.iter().map(|law| law.mean).collect();
        let centre = self.at(std::slice::from_ref(&means))?[0];
        let steps: Vec<f64> = active.iter().map(|input| laws[*input].variance.sqrt()).collect();
        let whole = self.differences(&active, &means, &steps, centre)?;
        let half_steps: Vec<f64> = steps.iter().map(|step| 0.5 * step).collect();
        let half = self.differences(&active, &means, &half_steps, centre)?;
        let slopes = self.slopes(&active, &means, &steps)?;
        let best = Derivatives {
            first: slopes.iter().map(|slope| slope.value).collect(),
            ..Derivatives::extrapolate(&whole, &half, &steps)
        };
        let rough = Derivatives {
            first: slopes.iter().map(|slope| slope.value + slope.error).collect(),
            second: half.second,
            third: best.third.clone(),
        };

        let laws: Vec<Cumulants> = active.iter().map(|input| laws[*input]).collect();
        let covariance = self.covariance(&active, &laws);
        let (mean, variance) = second_order(centre, &best, &laws, &covariance);
        let (rough_mean, rough_variance) = second_order(centre, &rough, &laws, &covariance);
        let parts = first_order_parts(&best.first, &covariance);
        let first_order: f64 = parts.iter().sum();
        let by_name = |value: &dyn Fn(usize) -> f64| {
            let inputs = active.iter().enumerate();
            inputs.map(|(place, input)| (self.inputs[*input].name.clone(), value(place))).collect()
        };
        let percent = |part: f64| if first_order > 0.0 { 100.0 * part / first_order } else { 0.0 };
        Ok(Moments {
            mean,
            sigma: variance.max(0.0).sqrt(),
            first_order_mean: centre,
            first_order_sigma: first_order.max(0.0).sqrt(),
            mean_error: (mean - rough_mean).abs(),
            sigma_error: (variance.max(0.0).sqrt() - rough_variance.max(0.0).sqrt()).abs(),
            derivatives: by_name(&|place| slopes[place].value),
            contributions: by_name(&|place| percent(parts[place])),
            derivative_errors: by_name(&|place| slopes[place].error),
        })
    }

    /// Central differences of the inputs that spread.
    fn differences(
        &self,
        active: &[usize],
        means: &[f64],
        steps: &[f64],
        centre: f64,
    ) -> Result<Derivatives, StackError> {
        let count = active.len();
        let moved = |moves: &[(usize, f64)]| {
            let mut point = means.to_vec();
            for (place, sign) in moves {
                point[active[*place]] += sign * steps[*place];
            }
            point
        };
        let mut points = Vec::with_capacity(2 * count * count);
        for one in 0..count {
            points.extend([moved(&[(one, 1.0)]), moved(&[(one, -1.0)])]);
        }
        for one in 0..count {
            for other in 0..one {
                for signs in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
                    points.push(moved(&[(one, signs.0), (other, signs.1)]));
                }
            }
        }
        let values = self.at(&points)?;
        let (mut first, mut second) = (vec![0.0; count], vec![0.0; count * count]);
        let mut third = vec![0.0; count * count];
        let ends: Vec<&[f64]> = values[..2 * count].chunks_exact(2).collect();
        for (one, end) in ends.iter().enumerate() {
            first[one] = (end[0] - end[1]) / (2.0 * steps[one]);
            second[one * count + one] = ((end[0] - centre) + (end[1] - centre)) / (steps[one] * steps[one]);
        }
        let mut corners = values[2 * count..].chunks_exact(4);
        for one in 0..count {
            for (other, corner) in (0..one).zip(&mut corners) {
                let [both, one_up, other_up, none] = [corner[0], corner[1], corner[2], corner[3]];
                let area = steps[one] * steps[other];
                let mixed = ((both - one_up) - (other_up - none)) / (4.0 * area);
                second[one * count + other] = mixed;
                second[other * count + one] = mixed;
                // The difference along one input of the second difference along the other.
                let along = |high: f64, low: f64, ends: &[f64]| (high - low) - 2.0 * (ends[0] - ends[1]);
                third[one * count + other] =
                    along(both + one_up, other_up + none, ends[one]) / (2.0 * area * steps[other]);
                third[other * count + one] =
                    along(both + other_up, one_up + none, ends[other]) / (2.0 * area * steps[one]);
            }
        }
        Ok(Derivatives { first, second, third })
    }

    /// Covariance matrix of the inputs that spread, row by row.
    fn covariance(&self, active: &[usize], laws: &[Cumulants]) -> Vec<f64> {
        let count = active.len();
        let mut covariance = vec![0.0; count * count];
        for (place, law) in laws.iter().enumerate() {
            covariance[place * count + place] = law.variance;
        }
        for (one, other, coefficient) in self.correlation.pairs() {
            let place = |input| active.iter().position(|member| *member == input);
            if let (Some(one), Some(other)) = (place(one), place(other)) {
                let both = coefficient * (laws[one].variance * laws[other].variance).sqrt();
                covariance[one * count + other] = both;
                covariance[other * count + one] = both;
            }
        }
        covariance
    }
}

/// What each input has of the variance of the tangent plane.
fn first_order_parts(first: &[f64], covariance: &[f64]) -> Vec<f64> {
    let row = |one: usize| covariance[one * first.len()..][..first.len()].iter().zip(first);
    let part = |one: usize| first[one] * row(one).map(|(both, other)| both * other).sum::<f64>();
    (0..first.len()).map(part).collect()
}

/// Mean and variance to the second order, for inputs that are independent or jointly normal.
///
/// With the gradient g, the matrix H of second derivatives, the tensor T of third ones and the covariance C they are
/// f + ½ tr(H C) and gᵀ C g + ½ tr(H C H C) + gᵀ C t, where t has the elements Σ T C. Third and fourth cumulants of the
/// independent inputs add g H κ₃ + (¼ H² + ⅓ g T) κ₄. Of T only what is by two inputs at most enters, which is all
/// there is to it unless three are correlated.
fn second_order(
    centre: f64,
    derivatives: &Derivatives,
    laws: &[Cumulants],
    covariance: &[f64],
) -> (f64, f64) {
    let count = laws.len();
    let Derivatives { first, second, third } = derivatives;
    let product: Vec<f64> = (0..count * count)
        .map(|place| {
            let (row, column) = (place / count, place % count);
            (0..count).map(|k| second[row * count + k] * covariance[k * count + column]).sum()
        })
        .collect();
    let trace: f64 = (0..count).map(|k| product[k * count + k]).sum();
    let squared: f64 =
        (0..count * count).map(|place| product[place] * product[place % count * count + place / count]).sum();
    let slopes: Vec<f64> = (0..count)
        .map(|one| {
            let with = |other: usize| {
                let twice = third[one * count + other] * covariance[other * count + other];
                let across = third[other * count + one] * covariance[one * count + other];
                if one == other { twice } else { twice + 2.0 * across }
            };
            (0..count).map(with).sum()
        })
        .collect();
    let bend: f64 = (0..count * count)
        .map(|place| first[place / count] * covariance[place] * slopes[place % count])
        .sum();
    let shape = |(k, law): (usize, &Cumulants)| {
        let (bend, third) = (second[k * count + k], third[k * count + k]);
        first[k] * bend * law.third + (0.25 * bend * bend + first[k] * third / 3.0) * law.fourth
    };
    let shape: f64 = laws.iter().enumerate().map(shape).sum();
    let plane: f64 = first_order_parts(first, covariance).iter().sum();
    (centre + 0.5 * trace, plane + 0.5 * squared + bend + shape)
}
