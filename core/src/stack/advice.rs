//! What is odd about measured sizes beside the limits that are stated for them.
use super::Distribution;
use crate::error::to_digits;

/// So many tolerances beyond a limit, sizes are hardly of the same part in the same unit.
const FAR: f64 = 10.0;
/// Millimetres in an inch.
const INCH: f64 = 25.4;

impl Distribution {
    /// What is odd about measured sizes, or a process as measured, beside limits in the same unit, and what to do about it;
    /// none for a law that is set by its limits.
    ///
    /// ```
    /// use tenths::stack::Distribution;
    /// let measured = Distribution::Measured([0.984, 0.985].into());
    /// let advice = measured.advice(24.9, 25.1).unwrap();
    /// assert!(advice.starts_with("the measured sizes, about 0.9845, look like inches"));
    /// assert_eq!(Distribution::Uniform.advice(24.9, 25.1), None);
    /// ```
    pub fn advice(&self, lower: f64, upper: f64) -> Option<String> {
        let (what, mean) = match self {
            Distribution::Process { mean, .. } => ("the mean of the process, ", *mean),
            Distribution::Measured(values) => {
                ("the measured sizes, about ", values.iter().sum::<f64>() / values.len() as f64)
            }
            _ => return None,
        };
        let (middle, tolerance) = (lower + 0.5 * (upper - lower), upper - lower);
        let told = format!("{what}{}", to_digits(mean, 5));
        let verb =
            if matches!(self, Distribution::Process { .. }) { ("looks", "lies") } else { ("look", "lie") };
        let limits = format!("the limits {} to {}", to_digits(lower, 7), to_digits(upper, 7));
        // Sizes beside the limits, or within a fiftieth of their middle where the tolerance is small.
        let is_near = |size: f64| (size - middle).abs() <= (1.5 * tolerance).max(0.02 * middle.abs());
        for (factor, unit, other) in [(INCH, "millimetres", "inches"), (1.0 / INCH, "inches", "millimetres")]
        {
            if !is_near(mean) && is_near(mean / factor) {
                return Some(format!(
                    "{told}, {} like {unit}, and {limits} like {other}. Fix: convert one of them",
                    verb.0
                ));
            }
        }
        if tolerance <= 0.0 {
            return None;
        }
        if mean < lower - FAR * tolerance || mean > upper + FAR * tolerance {
            return Some(format!(
                "{told}, {} more than ten tolerances beyond {limits}. Fix: check that both are of the same part and in the \
                 same unit",
                verb.1
            ));
        }
        const REMEDY: &str = "Samples take them as measured, and the worst case takes the limits. Fix: check the readings, or state limits that the \
                              process keeps";
        match self {
            Distribution::Measured(values) => {
                let outside = values.iter().filter(|value| **value < lower || **value > upper).count();
                let count = values.len();
                let lie = if outside == 1 { "lies" } else { "lie" };
                (outside > 0)
                    .then(|| format!("{outside} of {count} measured sizes {lie} outside {limits}. {REMEDY}"))
            }
            _ => (mean < lower || mean > upper).then(|| format!("{told}, lies outside {limits}. {REMEDY}")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn advice(law: Distribution, lower: f64, upper: f64) -> String {
        law.advice(lower, upper).unwrap_or_default()
    }

    // By hand.
    #[test]
    fn measured_sizes_are_compared_with_their_limits() {
        let measured = |values: &[f64]| Distribution::Measured(values.into());
        for sound in [measured(&[24.9, 25.0, 25.1]), Distribution::Process { mean: 25.1, sigma: 0.1 }] {
            assert_eq!(advice(sound, 24.9, 25.1), "");
        }
        let one = advice(measured(&[24.8, 25.0, 25.1]), 24.9, 25.1);
        assert!(one.starts_with("1 of 3 measured sizes lies outside the limits 24.9 to 25.1. "), "{one}");
        let shifted = advice(Distribution::Process { mean: 25.2, sigma: 0.01 }, 24.9, 25.1);
        assert!(shifted.starts_with("the mean of the process, 25.2, lies outside the limits"), "{shifted}");
        let far = advice(measured(&[29.0, 31.0]), 24.9, 25.1);
        assert!(far.contains("about 30, lie more than ten tolerances beyond the limits"), "{far}");
    }

    #[test]
    fn another_unit_shows() {
        let inches = advice(Distribution::Process { mean: 0.985, sigma: 0.001 }, 24.9, 25.1);
        assert!(
            inches.contains("looks like inches, and the limits 24.9 to 25.1 like millimetres"),
            "{inches}"
        );
        let metric = advice(Distribution::Measured([25.0, 25.1].into()), 0.985, 0.985);
        assert!(
            metric.contains("look like millimetres, and the limits 0.985 to 0.985 like inches"),
            "{metric}"
        );
        // Wide limits hold sizes of either unit.
        assert_eq!(advice(Distribution::Measured([2.0].into()), 1.0, 3.0), "");
        assert!(!advice(Distribution::Measured([12.0].into()), 0.0, 10.0).contains("like"));
        // About zero, or without a tolerance, nothing can be said.
        assert_eq!(advice(Distribution::Measured([0.05].into()), -0.1, 0.1), "");
        assert_eq!(advice(Distribution::Measured([3.0].into()), 2.0, 2.0), "");
    }
}
