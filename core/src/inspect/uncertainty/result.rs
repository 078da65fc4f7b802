//! What is known of a result: the budget with its rows, and the figures of a sample.
use super::freedom::{rounded_down, student};
use crate::quantity::Units;
use crate::size::Size;
use std::fmt;
use tenths_macros::{Object, accessors};

/// One input of a budget.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct UncertaintyRow {
    /// The input.
    pub name: String,
    /// Its mean.
    pub value: f64,
    /// Its standard uncertainty.
    pub standard_uncertainty: f64,
    /// The law by which it varies.
    pub distribution: String,
    /// The degrees of freedom of its uncertainty; infinite where that is taken as exactly known.
    pub degrees_of_freedom: f64,
    /// By how much the result changes with it, per unit; absent for an input without uncertainty.
    pub sensitivity: Option<f64>,
    /// The uncertainty of the result that comes of it: the size of its sensitivity times its standard uncertainty.
    pub contribution: f64,
    /// Its share of the variance of the result, in percent; with correlations it may be negative.
    pub share: f64,
}

/// The uncertainty of a result, by what is known of each input.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct UncertaintyBudget {
    /// The result, where the model names it.
    pub output: Option<String>,
    /// The unit of the result and its uncertainties, where it is known.
    pub unit: Option<String>,
    /// The result: the model at the means of the inputs.
    pub value: f64,
    /// The combined standard uncertainty, to the first order.
    pub combined: f64,
    /// The standard uncertainty to the second order, which takes in how the model bends. Where it differs much from the
    /// combined one, trust a sample.
    pub second_order: f64,
    /// The effective degrees of freedom by Welch and Satterthwaite, not rounded; infinite where no input has a finite
    /// number.
    pub effective_freedom: f64,
    /// The probability that the interval is to have, such as 0.95.
    pub coverage: f64,
    /// The factor for that probability, of Student's law with the effective degrees of freedom rounded down.
    pub coverage_factor: f64,
    /// The expanded uncertainty: coverage factor times combined uncertainty.
    pub expanded: f64,
    /// A line for each input.
    pub rows: Vec<UncertaintyRow>,
    /// The result by sampling, where that was asked for.
    pub monte_carlo: Option<MonteCarlo>,
}

/// The result of a model by sampling it.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore)]
pub struct MonteCarlo {
    /// How many samples were drawn.
    pub count: u64,
    /// The seed of the sample: the same one gives the same figures.
    pub seed: u64,
    /// The mean of the sample.
    pub mean: f64,
    /// The standard uncertainty: the standard deviation of the sample.
    pub standard_uncertainty: f64,
    /// The lower end of the interval with as much beyond each end.
    pub lower: f64,
    /// The upper end of the interval with as much beyond each end.
    pub upper: f64,
    /// The lower end of the shortest interval of the coverage.
    pub shortest_lower: f64,
    /// The upper end of the shortest interval of the coverage.
    pub shortest_upper: f64,
    /// Whether both ends of the budget's interval are within half a unit of the second digit of the combined uncertainty
    /// of those with as much beyond each end: then the budget's interval may be used.
    pub agrees: bool,
}

impl UncertaintyBudget {
    /// The same with the name of the result and its unit.
    #[must_use]
    pub fn named(self, output: Option<&str>, unit: Option<&str>) -> UncertaintyBudget {
        UncertaintyBudget { output: output.map(Into::into), unit: unit.map(Into::into), ..self }
    }

    /// Whether the model bends so much within the uncertainties of its inputs that the budget is too small by a tenth: by
    /// its second order, or by an interval of the sample that reaches further.
    fn is_too_small(&self) -> bool {
        const TENTH_MORE: f64 = 1.1;
        let reaches_further = |sample: MonteCarlo| {
            sample.upper - self.value > TENTH_MORE * self.expanded
                || self.value - sample.lower > TENTH_MORE * self.expanded
        };
        self.second_order > TENTH_MORE * self.combined || self.monte_carlo.is_some_and(reaches_further)
    }
}

const BENT: &str = "The model bends within the uncertainties of its inputs, so that this budget is too small: take the \
                    interval of a sample of the model.";

#[accessors]
impl UncertaintyBudget {
    /// The expanded uncertainty that a decision rule takes, as a size rounded up to a picometre: twice the combined
    /// uncertainty, and more where few degrees of freedom leave that in doubt. The factor is that of Student's law for the
    /// 95.45 percent of a normal law within two standard deviations: 2.28 for 10 degrees of freedom, 4.53 for 2. Absent
    /// where the result is not in millimetres or inches, and where the budget is too small, which `advice` then says.
    #[field]
    pub fn for_decision(&self) -> Option<Size> {
        if self.is_too_small() {
            return None;
        }
        let units = match self.unit.as_deref()? {
            "mm" => Units::Metric,
            "in" => Units::Inch,
            _ => return None,
        };
        let factor = student(2.0, rounded_down(self.effective_freedom));
        let picometres = (factor * self.combined * units.picometres() as f64).ceil();
        (0.0..9e18).contains(&picometres).then(|| Size::from_picometres(picometres as i64))
    }

    /// What to mind before the budget is used; empty if nothing.
    #[field]
    pub fn advice(&self) -> &'static str {
        if self.is_too_small() { BENT } else { "" }
    }
}

impl fmt::Display for UncertaintyBudget {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit.as_deref().map_or(String::new(), |unit| format!(" {unit}"));
        let (percent, factor) = (100.0 * self.coverage, self.coverage_factor);
        let (expanded, decimals) = two_digits(self.expanded);
        match decimals {
            Some(decimals) => write!(f, "{:.decimals$} ± {expanded}{unit}", self.value)?,
            None => write!(f, "{} ± {expanded}{unit}", self.value)?,
        }
        write!(f, " at {percent} %, coverage factor {factor:.2}")?;
        match self.advice() {
            "" => Ok(()),
            advice => write!(f, ". {advice}"),
        }
    }
}

/// An uncertainty in two digits, or in whole numbers from 100 on, with its decimals. It is rounded up unless that drops less
/// than a tenth of the last digit: section 7.2.6 of the GUM allows rounding up, but with common sense. One that is zero or
/// not finite is as it stands.
fn two_digits(uncertainty: f64) -> (String, Option<usize>) {
    let plain = || (uncertainty.to_string(), None);
    let scientific = format!("{uncertainty:.1e}");
    let exponent = scientific.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok());
    let Some(exponent) = exponent.filter(|exponent| uncertainty > 0.0 && (-15..=15).contains(exponent))
    else {
        return plain();
    };
    let decimals = (1 - exponent).max(0) as usize;
    let nearest = format!("{uncertainty:.decimals$}");
    let (Ok(rounded), Ok(step)) = (nearest.parse::<f64>(), format!("1e-{decimals}").parse::<f64>()) else {
        return plain();
    };
    match uncertainty > rounded + 0.1 * step {
        true => (format!("{:.decimals$}", rounded + step), Some(decimals)),
        false => (nearest, Some(decimals)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // GUM, section 7.2.6: two digits are enough; 10.47 may be rounded up to 11, but 28.05 is rounded down to 28.
    #[test]
    fn an_uncertainty_has_two_digits_and_is_hardly_rounded_down() {
        let texts = [10.47, 28.05, 0.028_05, 0.53875, 0.0500, 2.0, 1234.5, 9.99]
            .map(|uncertainty| two_digits(uncertainty).0);
        assert_eq!(texts, ["11", "28", "0.028", "0.54", "0.050", "2.0", "1235", "10"]);
        assert_eq!(two_digits(0.0), ("0".into(), None));
        assert_eq!(two_digits(f64::INFINITY), ("inf".into(), None));
    }
}
