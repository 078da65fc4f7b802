//! Decision rules: what a measured size says of a part, in view of the uncertainty of measurement.
//!
//! A guard band moves the limits by which a part is accepted. Limits moved in: every accepted part is good, and readings
//! near a limit stay undecided. Limits moved out: every rejected part is bad. Everything is an exact size, rounded where it
//! must be so that fewer parts are accepted.
mod rule;

use crate::limits::{Limits, LimitsError};
use crate::quantity::Units;
use crate::size::Size;
use rule::BILLION;
use std::fmt;
use tenths_macros::{Choice, Object, accessors, function};

pub use rule::{DecisionError, DecisionRule};

/// What a reading says of a part.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum Verdict {
    /// The rule accepts the part.
    Conforming,
    /// The rule rejects the part.
    #[name = "not conforming"]
    NotConforming,
    /// Neither is proved.
    Indeterminate,
}

/// The zones of a decision rule for a part and an uncertainty of measurement.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct Decision {
    /// The rule.
    pub rule: DecisionRule,
    /// The limits of the part.
    pub limits: Limits,
    /// The expanded uncertainty of measurement, for a coverage factor of 2.
    pub uncertainty: Size,
    /// By how much the acceptance zone is drawn in at each limit; negative where it is drawn out.
    pub guard_band: Size,
    /// The acceptance zone, both ends in it.
    pub acceptance: Limits,
    /// A reading below this is rejected.
    pub reject_below: Size,
    /// A reading above this is rejected.
    pub reject_above: Size,
}

impl Decision {
    /// The zones of a rule for limits and an expanded uncertainty U of coverage factor 2.
    ///
    /// With a resolution, the ends of the acceptance zone are rounded to it into the zone.
    ///
    /// Source: explanatory texts on ISO 14253-1 and definitions of ASME B89.7.3.1; the standards were not seen.
    ///
    /// # Errors
    /// [`DecisionError`]; in particular [`DecisionError::NoZone`] where the guard bands leave nothing, and
    /// [`DecisionError::Ratio`] where the uncertainty is too large for an N:1 rule.
    pub fn new(
        limits: &Limits,
        uncertainty: Size,
        rule: DecisionRule,
        resolution: Option<Size>,
    ) -> Result<Decision, DecisionError> {
        let simple = rule == DecisionRule::Simple;
        if uncertainty.is_negative() || !(simple || uncertainty.is_positive()) {
            return Err(DecisionError::Uncertainty { uncertainty, rule });
        }
        let (billionths, outward) = rule.guard()?;
        if let DecisionRule::Ratio(wanted) = rule {
            check_ratio(limits, uncertainty, wanted, rule.billionths(wanted)?)?;
        }
        let product = i128::from(uncertainty.picometres()) * billionths;
        // Fewer parts are accepted with a larger band drawn in and with a smaller one drawn out.
        let band = if outward { -(product / BILLION) } else { (product + BILLION - 1) / BILLION };
        let out_of_range = || LimitsError::OutOfRange { nominal: limits.nominal() };
        let guard_band = Size::from_picometres(i64::try_from(band).map_err(|_| out_of_range())?);

        let tolerance = limits.tolerance();
        let (in_lower, in_upper) =
            (limits.lower().checked_add(guard_band), limits.upper().checked_sub(guard_band));
        let (lower, upper) = (in_lower.ok_or_else(out_of_range)?, in_upper.ok_or_else(out_of_range)?);
        if lower > upper {
            return Err(DecisionError::NoZone { guard_band, tolerance });
        }
        let exact = Limits::between(lower, upper)?;
        let acceptance = resolution.map_or(Ok(exact), |step| rounded_into(&exact, step))?;
        let (lower, upper) = (acceptance.lower(), acceptance.upper());
        // Rejection is proved only beyond a guard band on the other side; the other rules leave nothing open.
        let proves = matches!(rule, DecisionRule::Iso14253 | DecisionRule::Iso14253Whole);
        let (reject_below, reject_above) = match proves {
            true => (
                limits.lower().checked_sub(guard_band).ok_or_else(out_of_range)?,
                limits.upper().checked_add(guard_band).ok_or_else(out_of_range)?,
            ),
            false => (lower, upper),
        };
        Ok(Decision {
            rule,
            limits: *limits,
            uncertainty,
            guard_band,
            acceptance,
            reject_below,
            reject_above,
        })
    }

    /// What a measured size says of the part.
    pub fn judge(&self, measured: Size) -> Verdict {
        match measured {
            size if self.acceptance.accepts(size) => Verdict::Conforming,
            size if size < self.reject_below || size > self.reject_above => Verdict::NotConforming,
            _ => Verdict::Indeterminate,
        }
    }
}

#[accessors]
impl Decision {
    /// The tolerance over twice the expanded uncertainty, the N of N:1; infinite for an uncertainty of zero.
    #[field]
    pub fn ratio(&self) -> f64 {
        uncertainty_ratio(&self.limits, self.uncertainty)
    }

    /// The standard that the rule is after, with its edition. The standards themselves were not seen.
    #[field]
    pub const fn standard(&self) -> &'static str {
        self.rule.standard()
    }
}

impl fmt::Display for Decision {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "decision by {}: accepts {}", self.rule.name(), self.acceptance)
    }
}

/// A zone with its ends rounded to a step into it.
fn rounded_into(zone: &Limits, resolution: Size) -> Result<Limits, DecisionError> {
    if !resolution.is_positive() {
        return Err(LimitsError::Resolution { resolution, units: Units::Metric }.into());
    }
    let (lower, upper) = (zone.lower().round_up(resolution)?, zone.upper().round_down(resolution)?);
    if lower > upper {
        return Err(DecisionError::Resolution { resolution, zone: *zone });
    }
    Ok(Limits::between(lower, upper)?)
}

/// The tolerance of a part over twice the expanded uncertainty of its measurement: the N of N:1.
pub fn uncertainty_ratio(limits: &Limits, uncertainty: Size) -> f64 {
    limits.tolerance().picometres() as f64 / (2.0 * uncertainty.picometres() as f64)
}

/// Compared exactly; the ratio itself is only for the message.
fn check_ratio(
    limits: &Limits,
    uncertainty: Size,
    wanted: f64,
    billionths: i128,
) -> Result<(), DecisionError> {
    let tolerance = limits.tolerance();
    let needed = 2 * i128::from(uncertainty.picometres()) * billionths;
    match i128::from(tolerance.picometres()) * BILLION >= needed {
        true => Ok(()),
        false => {
            let ratio = uncertainty_ratio(limits, uncertainty);
            Err(DecisionError::Ratio { tolerance, uncertainty, ratio, wanted })
        }
    }
}

/// The zones of a decision rule for limits and an uncertainty.
///
/// # Errors
/// As [`Decision::new`].
#[function(gives = "decision", only_c, example("10..10.1 mm", "0.02 mm", "ISO 14253-1", null))]
pub fn decision(
    /// The limits of the specification.
    limits: Limits,
    /// The expanded uncertainty, of coverage factor 2.
    uncertainty: Size,
    /// The rule: `simple`, `4:1` or another ratio, `ISO 14253-1`, `ISO 14253-1:1998`, and after ASME B89.7.3.1
    /// `stringent 0.5` and `relaxed 0.5`.
    #[text]
    rule: DecisionRule,
    /// The step that the acceptance zone is rounded to, into itself; without it the zone is exact.
    resolution: Option<Size>,
) -> Result<Decision, DecisionError> {
    Decision::new(&limits, uncertainty, rule, resolution)
}

#[cfg(test)]
mod tests;
