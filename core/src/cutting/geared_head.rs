//! The steps of a geared head.
use crate::Error;
use crate::quantity::{Quantity, SpindleSpeed};

const NAME: &str = "lower_spindle_step";

/// The nearest step of a geared head that is not above the speed wanted.
///
/// The steps may stand in any order, and a step that is just the speed wanted is taken. Common practice:
/// the lower step spares the tool.
///
/// # Errors [`Error`] where the list is empty, a step is not positive or not finite, the speed wanted is
/// not finite, or all steps lie above it: the message then tells the lowest.
pub fn lower_step(wanted: SpindleSpeed, steps: &[SpindleSpeed]) -> Result<SpindleSpeed, Error> {
    let refused = |argument, speed: SpindleSpeed, need: String| Error::Argument {
        formula: NAME,
        argument,
        value: speed.metric(),
        unit: "rev/min",
        need,
    };
    let sound = |step: &&SpindleSpeed| step.metric() > 0.0 && step.metric() < f64::INFINITY;
    if let Some(&step) = steps.iter().find(|step| !sound(step)) {
        return Err(refused("steps", step, "greater than 0 rev/min and finite".into()));
    }
    if !wanted.metric().is_finite() {
        return Err(refused("wanted", wanted, "finite".into()));
    }
    let sorted = || steps.iter().map(|step| step.metric());
    let lower = sorted().filter(|&step| step <= wanted.metric()).fold(f64::NAN, f64::max);
    let lowest = sorted().fold(f64::NAN, f64::min);
    match (lower.is_nan(), lowest.is_nan()) {
        (false, _) => Ok(SpindleSpeed::from_metric(lower)),
        (true, true) => Err(Error::Count { formula: NAME, what: "step at least", expected: 1, got: 0 }),
        (true, false) => {
            Err(refused("wanted", wanted, format!("at least {lowest} rev/min, the lowest of the steps")))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lower(wanted: f64, steps: &[f64]) -> Result<f64, String> {
        let steps: Vec<SpindleSpeed> = steps.iter().copied().map(SpindleSpeed::rev_per_minute).collect();
        let step = lower_step(SpindleSpeed::rev_per_minute(wanted), &steps);
        step.map(Quantity::metric).map_err(|error| error.to_string())
    }

    // A series of preferred speeds with the ratio 1.41, R 20/3 of ISO 229 (from memory), out of order.
    const STEPS: [f64; 8] = [355.0, 45.0, 63.0, 500.0, 90.0, 125.0, 180.0, 250.0];

    #[test]
    fn the_nearest_lower_step_is_taken() {
        for (wanted, step) in [(249.9, 180.0), (250.0, 250.0), (1e9, 500.0), (45.0, 45.0)] {
            assert_eq!(lower(wanted, &STEPS), Ok(step));
        }
    }

    #[test]
    fn what_has_no_lower_step_is_told_the_lowest() {
        let told = |text: &str| Err(format!("lower_spindle_step{text}"));
        let need = ": wanted must be at least 45 rev/min, the lowest of the steps, not 44.9 rev/min";
        assert_eq!(lower(44.9, &STEPS), told(need));
        assert_eq!(lower(100.0, &[]), told(" takes 1 step at least, not 0"));
        assert_eq!(lower(f64::NAN, &STEPS), told(": wanted must be finite, not NaN"));
        for step in [0.0, -5.0, f64::NAN, f64::INFINITY] {
            let given = if step.is_nan() { "NaN".into() } else { format!("{step} rev/min") };
            let need = format!(": steps must be greater than 0 rev/min and finite, not {given}");
            assert_eq!(lower(100.0, &[90.0, step]), told(&need));
        }
    }
}
