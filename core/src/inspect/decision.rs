//! Decision rules: what a measured size says of a part, in view of the uncertainty of measurement.
//!
//! A guard band moves the limits by which a part is accepted. Drawn in, an accepted part is good and only
//! readings between the zones leave open whether it is; drawn out, a rejected one is bad. Everything is an exact
//! size, and what does not come out even is rounded so that fewer parts are accepted.

use crate::error::excerpt;
use crate::limits::{Limits, LimitsError};
use crate::object::{FieldKind, FieldValue, Readable, Value};
use crate::quantity::Units;
use crate::size::{Size, SizeError, alike};
use std::fmt;
use tenths_macros::{Choice, Object, accessors, function};

/// A decision rule.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum DecisionRule {
    /// Simple acceptance: what measures within the limits is accepted.
    Simple,
    /// Simple acceptance where the tolerance is at least so many times twice the expanded uncertainty, N : 1.
    Ratio(f64),
    /// ISO 14253-1:2017 with its default of 95 percent at one limit: a guard band of 1.65 standard uncertainties.
    Iso14253,
    /// ISO 14253-1:1998: a guard band of the whole expanded uncertainty.
    Iso14253Whole,
    /// ASME B89.7.3.1, stringent acceptance: limits drawn in by so many expanded uncertainties, and all else rejected.
    Stringent(f64),
    /// ASME B89.7.3.1, relaxed acceptance: limits drawn out by so many expanded uncertainties, and all else rejected.
    Relaxed(f64),
}

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

/// Why there is no decision rule.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum DecisionError {
    /// The uncertainty is negative, or missing where the rule needs one.
    #[error("the expanded uncertainty for {} must be {}, not {uncertainty}", rule.name(), rule.need())]
    Uncertainty {
        /// The uncertainty as given.
        uncertainty: Size,
        /// The rule.
        rule: DecisionRule,
    },
    /// A multiplier or ratio that is not positive or beyond what is counted.
    #[error("the number for {} must be greater than 0 and at most 1 000 000, not {value}", rule.name())]
    Number {
        /// The number as given.
        value: f64,
        /// The rule.
        rule: DecisionRule,
    },
    /// The measurement is too uncertain for the rule.
    #[error(
        "the tolerance of {} is {ratio:.2} times twice the uncertainty of {}, and the rule needs {wanted} : 1: measure with less uncertainty",
        alike([*tolerance, *uncertainty])[0], alike([*tolerance, *uncertainty])[1]
    )]
    Ratio {
        /// The tolerance of the part.
        tolerance: Size,
        /// The expanded uncertainty.
        uncertainty: Size,
        /// The ratio that there is.
        ratio: f64,
        /// The ratio that the rule asks for.
        wanted: f64,
    },
    /// The guard bands leave no acceptance zone.
    #[error(
        "guard bands of {} use up the tolerance of {}: measure with less uncertainty",
        alike([*guard_band, *tolerance])[0], alike([*guard_band, *tolerance])[1]
    )]
    NoZone {
        /// The guard band at each limit.
        guard_band: Size,
        /// The tolerance of the part.
        tolerance: Size,
    },
    /// A text that names no rule.
    #[error(
        "`{text}` is not a decision rule; expected simple, 4:1, ISO 14253-1, ISO 14253-1:1998, stringent or relaxed"
    )]
    UnknownRule {
        /// The text as given.
        text: String,
    },
    /// The limits of a zone could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}

impl From<SizeError> for DecisionError {
    fn from(error: SizeError) -> Self {
        DecisionError::Limits(error.into())
    }
}

/// Multipliers are counted in billionths, as the shortest decimal of the float.
const BILLION: i128 = 1_000_000_000;

impl DecisionRule {
    /// Reads `simple`, `4:1` or another ratio, `ISO 14253-1`, `ISO 14253-1:1998`, `stringent`, `relaxed`; the last two
    /// may be followed by their multiplier, as in `stringent 0.5`, and mean 1 without.
    ///
    /// # Errors
    /// [`DecisionError::UnknownRule`].
    pub fn parse(text: &str) -> Result<DecisionRule, DecisionError> {
        let unknown = || DecisionError::UnknownRule { text: excerpt(text) };
        let number = |text: &str| text.trim().parse::<f64>().map_err(|_| unknown());
        let multiplier = |rest: &str| if rest.is_empty() { Ok(1.0) } else { number(rest) };
        match text.trim() {
            "simple" => Ok(DecisionRule::Simple),
            "ISO 14253-1" | "ISO 14253-1:2017" => Ok(DecisionRule::Iso14253),
            "ISO 14253-1:1998" => Ok(DecisionRule::Iso14253Whole),
            text => {
                if let Some(ratio) = text.strip_suffix(":1") {
                    Ok(DecisionRule::Ratio(number(ratio)?))
                } else if let Some(rest) = text.strip_prefix("stringent") {
                    Ok(DecisionRule::Stringent(multiplier(rest)?))
                } else if let Some(rest) = text.strip_prefix("relaxed") {
                    Ok(DecisionRule::Relaxed(multiplier(rest)?))
                } else {
                    Err(unknown())
                }
            }
        }
    }

    /// The rule as [`DecisionRule::parse`] reads it.
    pub fn name(&self) -> String {
        match self {
            DecisionRule::Simple => "simple".into(),
            DecisionRule::Ratio(ratio) => format!("{ratio}:1"),
            DecisionRule::Iso14253 => "ISO 14253-1".into(),
            DecisionRule::Iso14253Whole => "ISO 14253-1:1998".into(),
            DecisionRule::Stringent(multiplier) => format!("stringent {multiplier}"),
            DecisionRule::Relaxed(multiplier) => format!("relaxed {multiplier}"),
        }
    }

    /// The standard that the rule is after, with its edition; none of them was seen itself.
    pub const fn standard(&self) -> &'static str {
        match self {
            DecisionRule::Iso14253 => "ISO 14253-1:2017",
            DecisionRule::Iso14253Whole => "ISO 14253-1:1998",
            _ => "ASME B89.7.3.1-2001",
        }
    }

    fn need(&self) -> &'static str {
        if *self == DecisionRule::Simple { "zero or more" } else { "positive" }
    }

    /// The guard band as billionths of the expanded uncertainty: inward, and whether it is outward instead.
    fn guard(&self) -> Result<(i128, bool), DecisionError> {
        match self {
            DecisionRule::Simple => Ok((0, false)),
            // Checked, and without a guard band.
            DecisionRule::Ratio(ratio) => self.billionths(*ratio).map(|_| (0, false)),
            // 1.65 standard uncertainties, each half of the expanded one.
            DecisionRule::Iso14253 => Ok((825_000_000, false)),
            DecisionRule::Iso14253Whole => Ok((BILLION, false)),
            DecisionRule::Stringent(multiplier) => Ok((self.billionths(*multiplier)?, false)),
            DecisionRule::Relaxed(multiplier) => Ok((self.billionths(*multiplier)?, true)),
        }
    }

    fn billionths(&self, value: f64) -> Result<i128, DecisionError> {
        let refused = DecisionError::Number { value, rule: *self };
        match 0.0 < value && value <= 1e6 {
            // The shortest decimal, to nine places: a millimetre has as many picometres as one a billionth.
            true => match Size::from_float(value, Units::Metric) {
                Ok(count) if count.is_positive() => Ok(i128::from(count.picometres())),
                _ => Err(refused),
            },
            false => Err(refused),
        }
    }
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
    /// [`DecisionError::Ratio`] where the uncertainty is too large for an N : 1 rule.
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
        let (mut lower, mut upper) = (in_lower.ok_or_else(out_of_range)?, in_upper.ok_or_else(out_of_range)?);
        if let Some(step) = resolution {
            if !step.is_positive() {
                return Err(LimitsError::Resolution { resolution: step, units: Units::Metric }.into());
            }
            (lower, upper) = (lower.round_up(step)?, upper.round_down(step)?);
        }
        if lower > upper {
            return Err(DecisionError::NoZone { guard_band, tolerance });
        }
        let acceptance = Limits::between(lower, upper)?;
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
    /// The tolerance over twice the expanded uncertainty, the N of N : 1; infinite for an uncertainty of zero.
    #[field]
    pub fn ratio(&self) -> f64 {
        uncertainty_ratio(&self.limits, self.uncertainty)
    }

    /// The standard that the rule is after, with its edition; none of them was seen itself.
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

/// A rule is told as it is written.
impl FieldValue for DecisionRule {
    const FIELD: FieldKind = FieldKind::Text;

    fn value(&self) -> Value {
        Value::Text(self.name().into())
    }
}

impl Readable for DecisionRule {
    fn read(value: &Value) -> Option<DecisionRule> {
        match value {
            Value::Text(text) => DecisionRule::parse(text).ok(),
            _ => None,
        }
    }
}

/// The tolerance of a part over twice the expanded uncertainty of its measurement: the N of N : 1.
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
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn decide(part: &str, uncertainty: &str, rule: &str) -> Result<Decision, DecisionError> {
        let limits = Limits::parse(part).unwrap_or_else(|error| panic!("{error}"));
        Decision::new(&limits, size(uncertainty), DecisionRule::parse(rule)?, None)
    }

    // Three zones with g = U: 10.02 to 10.08 printed in an explanatory text on ISO 14253-1, the rest by hand.
    #[test]
    fn a_reading_between_the_zones_proves_nothing() {
        let decision = decide("10..10.1 mm", "0.02 mm", "ISO 14253-1:1998").unwrap();
        for (reading, verdict) in [
            ("10.02 mm", Verdict::Conforming),
            ("10.08 mm", Verdict::Conforming),
            ("10.080000001 mm", Verdict::Indeterminate),
            ("10.12 mm", Verdict::Indeterminate),
            ("10.120000001 mm", Verdict::NotConforming),
            ("9.98 mm", Verdict::Indeterminate),
            ("9.979 mm", Verdict::NotConforming),
        ] {
            assert_eq!(decision.judge(size(reading)), verdict, "{reading}");
        }
        assert_eq!(
            decide("10..10.1 mm", "0 mm", "simple").unwrap().judge(size("10.1 mm")),
            Verdict::Conforming
        );
    }

    // By hand: 0.825 times 1 pm is 1 pm drawn in; 0.5 times 3 pm is 1 pm drawn out. 10.0033 in steps of 0.001 mm
    // is 10.004 mm.
    #[test]
    fn rounding_accepts_fewer() {
        let narrow = decide("1..1.1 mm", "0.000000001 mm", "ISO 14253-1").unwrap();
        assert_eq!(narrow.guard_band.picometres(), 1);
        let wide = decide("1..1.1 mm", "0.000000003 mm", "relaxed 0.5").unwrap();
        assert_eq!(wide.guard_band.picometres(), -1);
        let limits = Limits::parse("10..10.1 mm").unwrap();
        let rule = DecisionRule::Iso14253;
        let stepped = Decision::new(&limits, size("0.004 mm"), rule, Some(size("0.001 mm"))).unwrap();
        assert_eq!(stepped.acceptance.lower(), size("10.004 mm"));
        assert_eq!(stepped.acceptance.upper(), size("10.096 mm"));
    }

    #[test]
    fn every_refusal_says_why() {
        for (part, uncertainty, rule, why) in [
            ("10..10.1 mm", "0.02 mm", "4:1", "is 2.50 times twice the uncertainty"),
            ("10..10.1 mm", "0.06 mm", "ISO 14253-1:1998", "use up the tolerance"),
            ("10..10.1 mm", "0 mm", "ISO 14253-1", "must be positive"),
            ("10..10.1 mm", "-1 mm", "simple", "must be zero or more"),
            ("10..10.1 mm", "0.01 mm", "stringent -1", "not -1"),
            ("10..10.1 mm", "0.01 mm", "relaxed NaN", "not NaN"),
            ("10..10.1 mm", "0.01 mm", "0:1", "not 0"),
            ("10..10.1 mm", "0.01 mm", "strict", "is not a decision rule"),
        ] {
            let text = decide(part, uncertainty, rule).unwrap_err().to_string();
            assert!(text.contains(why), "{text}");
        }
        // 0.1 = 4 · 2 · 0.0125 exactly.
        assert!(decide("10..10.1 mm", "0.0125 mm", "4:1").is_ok());
    }

    proptest! {
        // A part whose true size is within U of its reading is good if accepted, and bad if rejected.
        #[test]
        fn three_zones_prove_what_they_say(
            lower in -1_000_000i64..1_000_000,
            tolerance in 0i64..1_000,
            uncertainty in 1i64..400,
            reading in -2_000i64..3_000,
            off in -1.0..1.0f64,
        ) {
            let pm = Size::from_picometres;
            let limits = Limits::between(pm(lower), pm(lower + tolerance))?;
            let Ok(decision) = Decision::new(&limits, pm(uncertainty), DecisionRule::Iso14253Whole, None) else {
                return Ok(());
            };
            let measured = lower + reading;
            let part = pm(measured + (off * uncertainty as f64) as i64);
            match decision.judge(pm(measured)) {
                Verdict::Conforming => prop_assert!(limits.accepts(part)),
                Verdict::NotConforming => prop_assert!(!limits.accepts(part)),
                Verdict::Indeterminate => {}
            }
        }

        #[test]
        fn rules_read_back(ratio in 0.1..100.0f64) {
            for rule in [DecisionRule::Ratio(ratio), DecisionRule::Stringent(ratio), DecisionRule::Relaxed(ratio)] {
                prop_assert_eq!(DecisionRule::parse(&rule.name()), Ok(rule));
            }
        }

        #[test]
        fn no_text_panics(text in "\\PC*") {
            let _ = DecisionRule::parse(&text);
        }
    }
}
