//! The distribution of the result by sampling the model, after supplement 1 to the GUM.
use super::error::UncertaintyError;
use super::freedom::student;
use super::result::{MonteCarlo, UncertaintyBudget};
use crate::stack::{EXACT_COUNT, Function, Propagation, Sampling, StackError};
use crate::watch::{Steps, Stopped, Watch};

/// Fewer samples leave an interval of 95 percent to a handful of values.
const MIN_SAMPLES: u64 = 1000;

impl MonteCarlo {
    /// Samples a model. A normal input whose uncertainty has finite degrees of freedom is drawn from Student's law with
    /// these, scaled by its standard uncertainty; other inputs by their own law.
    pub(super) fn of<F: Function>(
        model: &Propagation<F>,
        freedoms: &[f64],
        sampling: &Sampling,
        budget: &UncertaintyBudget,
        watch: &Watch,
    ) -> Result<MonteCarlo, UncertaintyError> {
        if sampling.count > EXACT_COUNT {
            let reason = format!(
                "an interval needs every value of the sample: at most {EXACT_COUNT} samples, not {}",
                sampling.count
            );
            return Err(UncertaintyError::Sample { reason });
        }
        if sampling.count < MIN_SAMPLES {
            let reason = format!("an interval needs {MIN_SAMPLES} samples or more, not {}", sampling.count);
            return Err(UncertaintyError::Sample { reason });
        }
        let inputs = model.inputs().to_vec();
        let shapes = inputs.iter().zip(&budget.rows).zip(freedoms).map(|((input, row), freedom)| {
            let is_student =
                input.distribution.is_normal() && freedom.is_finite() && row.standard_uncertainty > 0.0;
            is_student.then(|| Shape::new(row.value, row.standard_uncertainty, *freedom))
        });
        let shaped = Shaped { function: model.function(), shapes: shapes.collect() };
        let mut drawn = Propagation::new(shaped, inputs)?;
        for (one, other, coefficient) in model.correlations() {
            drawn.correlate(one, other, coefficient)?;
        }
        let sample = drawn.sample_watched(sampling, &watch.first_part(SAMPLED))?;
        if sample.undefined() > 0 {
            let reason = format!(
                "the model has no value for {} of {} samples: its inputs reach beyond where it is defined",
                sample.undefined(),
                sample.count()
            );
            return Err(UncertaintyError::Sample { reason });
        }
        let mut values = sample.values().to_vec();
        let count = values.len();
        let [below, inside] = ranks(count, budget.coverage);
        sort_ends(&mut values, count - inside, watch).map_err(StackError::from)?;
        let shortest = (0..count - inside).min_by(|one, other| {
            (values[one + inside] - values[*one]).total_cmp(&(values[other + inside] - values[*other]))
        });
        let shortest = shortest.unwrap_or(0);
        let (lower, upper) = (values[below], values[below + inside]);
        let tolerance = half_of_second_digit(budget.combined);
        let near = |one: f64, other: f64| (one - other).abs() <= tolerance;
        Ok(MonteCarlo {
            count: sampling.count,
            seed: sampling.seed,
            mean: sample.mean(),
            standard_uncertainty: sample.sigma(),
            lower,
            upper,
            shortest_lower: values[shortest],
            shortest_upper: values[shortest + inside],
            agrees: near(budget.value - budget.expanded, lower)
                && near(budget.value + budget.expanded, upper),
        })
    }
}

/// How many values lie below the interval with as much beyond each end, and from its lower to its upper end.
///
/// Source: JCGM 101:2008, 7.7.2 (from memory), which counts places from 1.
fn ranks(count: usize, coverage: f64) -> [usize; 2] {
    let inside = ((coverage * count as f64 + 0.5) as usize).min(count.saturating_sub(1));
    [(count - inside).div_ceil(2).saturating_sub(1), inside]
}

/// The share of the work that is done when the sample is drawn.
const SAMPLED: f64 = 0.8;

/// Sorts the `many` smallest and the `many` largest values; no interval ends between them.
fn sort_ends(values: &mut [f64], many: usize, watch: &Watch) -> Result<(), Stopped> {
    let steps = Steps::new(watch, 100);
    steps.count((100.0 * SAMPLED) as u64)?;
    let between = values.len().saturating_sub(2 * many);
    if between == 0 {
        values.sort_unstable_by(f64::total_cmp);
        return steps.end();
    }
    values.select_nth_unstable_by(many, f64::total_cmp);
    steps.count(5)?;
    let (low, rest) = values.split_at_mut(many);
    rest.select_nth_unstable_by(between, f64::total_cmp);
    steps.count(5)?;
    low.sort_unstable_by(f64::total_cmp);
    steps.count(5)?;
    rest[between..].sort_unstable_by(f64::total_cmp);
    steps.end()
}

/// Half a unit of the second significant digit.
fn half_of_second_digit(value: f64) -> f64 {
    let mut unit = 1.0;
    if !(value > 0.0 && value.is_finite()) {
        return 0.0;
    }
    while value < 10.0 * unit {
        unit /= 10.0;
    }
    while value >= 100.0 * unit {
        unit *= 10.0;
    }
    0.5 * unit
}

/// How a normal number becomes one of Student's law: by a table of the law against the normal one.
struct Shape {
    mean: f64,
    uncertainty: f64,
    /// Student's t for normal numbers from zero on, in equal steps.
    table: Vec<f64>,
    freedom: f64,
}

/// Steps of the table to one standard deviation.
const STEPS: f64 = 64.0;
/// The table ends at eight deviations, beyond which samples practically never lie.
const END: usize = 512;

impl Shape {
    fn new(mean: f64, uncertainty: f64, freedom: f64) -> Shape {
        let student = |place: usize| student(place as f64 / STEPS, freedom);
        Shape { mean, uncertainty, table: (0..END + 3).map(student).collect(), freedom }
    }

    fn of(&self, drawn: f64) -> f64 {
        let normal = (drawn - self.mean) / self.uncertainty;
        let place = normal.abs() * STEPS;
        let whole = place as usize;
        let size = match self.table.get(whole.saturating_sub(1)..whole + 3) {
            Some(&[before, here, next, after]) if whole > 0 => {
                cubic([before, here, next, after], place - whole as f64)
            }
            // The law is odd about zero.
            Some(&[here, next, after]) => cubic([-next, here, next, after], place),
            _ => student(normal.abs(), self.freedom),
        };
        self.mean + self.uncertainty * if normal < 0.0 { -size } else { size }
    }
}

/// The value at a share of the way from the second to the third of four numbers, on the cubic through all.
fn cubic([before, here, next, after]: [f64; 4], share: f64) -> f64 {
    let (a, b, c) = (share + 1.0, share - 1.0, share - 2.0);
    before * (-share * b * c / 6.0) + here * (a * b * c / 2.0) - next * (a * share * c / 2.0)
        + after * (a * share * b / 6.0)
}

/// A function whose normal inputs are given Student's law on their way to it.
struct Shaped<'a, F> {
    function: &'a F,
    shapes: Vec<Option<Shape>>,
}

impl<F: Function> Function for Shaped<'_, F> {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        let shaped: Vec<Option<Vec<f64>>> = inputs
            .iter()
            .zip(&self.shapes)
            .map(|(column, shape)| {
                let shape = shape.as_ref()?;
                Some(column.iter().map(|drawn| shape.of(*drawn)).collect())
            })
            .collect();
        let columns: Vec<&[f64]> =
            shaped.iter().zip(inputs).map(|(shaped, column)| shaped.as_deref().unwrap_or(column)).collect();
        self.function.evaluate(&columns, values)
    }

    fn rows(&self) -> usize {
        self.function.rows()
    }

    fn is_defined_beyond(&self) -> bool {
        self.function.is_defined_beyond()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_are_those_of_all_in_order() {
        let drawn: Vec<f64> = (0..101u32).map(|k| f64::from(k * 37 % 101) - 50.0).collect();
        let mut ordered = drawn.clone();
        ordered.sort_unstable_by(f64::total_cmp);
        for many in [1, 2, 5, 49, 50, 51, 100] {
            let mut values = drawn.clone();
            sort_ends(&mut values, many, &Watch::new()).unwrap();
            assert_eq!(values[..many], ordered[..many], "{many}");
            assert_eq!(values[101 - many..], ordered[101 - many..], "{many}");
        }
    }

    // JCGM 101:2008, 7.7.2 (from memory): of values counted from 1 the interval goes from r to r + q, with q = pM where that
    // is whole, otherwise the whole part of pM + 1/2; r = (M - q)/2 where that is whole, otherwise that of (M - q + 1)/2.
    #[test]
    fn the_interval_has_its_ranks() {
        for (count, coverage, r, q) in [
            (1_000_000, 0.95, 25_000, 950_000),
            (1000, 0.953, 24, 953),
            (1001, 0.95, 25, 951),
            (100, 0.9999, 1, 99),
            (2, 0.5, 1, 1),
        ] {
            assert_eq!(ranks(count, coverage), [r - 1, q], "{count} {coverage}");
        }
    }

    // By hand.
    #[test]
    fn the_second_digit_has_its_half() {
        for (value, half) in [(0.0317, 0.0005), (31.7, 0.5), (1.0, 0.05), (9.9, 0.05), (0.0, 0.0)] {
            assert!((half_of_second_digit(value) - half).abs() <= 1e-15 * half, "{value}");
        }
    }

    // The table against the law that it is of, between its points and beyond them.
    #[test]
    fn normal_numbers_become_students() {
        for freedom in [1.0, 2.0, 7.5, 50.0] {
            let shape = Shape::new(10.0, 2.0, freedom);
            for normal in [-9.0, -3.3, -0.7, -0.004, 0.0, 0.001, 0.0151, 0.5, 1.961, 4.32, 7.99, 8.1] {
                let want = 10.0
                    + 2.0 * if normal < 0.0 { -student(-normal, freedom) } else { student(normal, freedom) };
                let got = shape.of(10.0 + 2.0 * normal);
                assert!(
                    (got - want).abs() <= 1e-5 * (want - 10.0).abs() + 1e-9,
                    "{freedom} {normal}: {got} {want}"
                );
            }
        }
    }
}
