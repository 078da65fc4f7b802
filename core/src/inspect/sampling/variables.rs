//! Sampling plans by variables, the k method: the mean of the sample must be at least k standard deviations within the limit.
//!
//! The pieces must be normal. For an unknown standard deviation the chance is that of the noncentral t, not its usual
//! approximation.
use super::design::{between, first_size};
use super::error::SamplingError;
use super::kinds::{LotModel, LotVerdict, SigmaKnowledge};
use super::stage::MAX_SAMPLE;
use crate::math::{normal_cdf, normal_quantile};
use crate::statistics::{noncentral_t_above, noncentral_t_quantile, noncentral_t_quantile_above};
use std::fmt;
use tenths_macros::Object;

/// A plan that judges a lot by the mean of measured pieces and the standard deviation, with risks for one limit.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct VariablesPlan {
    /// Whether the standard deviation of the process is known, or that of the sample is taken.
    pub sigma: SigmaKnowledge,
    /// Pieces of the sample.
    pub sample_size: u64,
    /// The acceptability constant: how many standard deviations the mean must be within the limit.
    pub k: f64,
    /// The percentage beyond the limit of lots that are to be accepted.
    pub aql: f64,
    /// The percentage beyond the limit of lots that are to be rejected.
    pub ltpd: f64,
    /// The share of lots at the AQL that are rejected.
    pub producer_risk: f64,
    /// The share of lots at the LTPD that are accepted.
    pub consumer_risk: f64,
}

impl VariablesPlan {
    /// The plan with the fewest pieces that keeps both risks: lots with `aql` percent beyond the limit are rejected with
    /// `producer_risk` at the most, those with `ltpd` percent accepted with `consumer_risk` at the most. Between the two
    /// constants that the risks allow it takes the middle.
    ///
    /// # Errors
    /// [`SamplingError`] for percentages and risks out of range, and where more than a million pieces would be needed.
    pub fn new(
        aql: f64,
        ltpd: f64,
        producer_risk: f64,
        consumer_risk: f64,
        sigma: SigmaKnowledge,
    ) -> Result<VariablesPlan, SamplingError> {
        between("the AQL in percent", aql, 50.0, "greater than 0 and less than 50")?;
        between("the LTPD in percent", ltpd, 50.0, "greater than 0 and less than 50")?;
        between("the producer's risk", producer_risk, 0.5, "greater than 0 and less than 0.5")?;
        between("the consumer's risk", consumer_risk, 0.5, "greater than 0 and less than 0.5")?;
        if ltpd <= aql {
            return Err(SamplingError::Number {
                what: "the LTPD in percent",
                need: "greater than the AQL",
                value: ltpd,
            });
        }
        let (good, bad) = (normal_quantile(1.0 - aql / 100.0), normal_quantile(1.0 - ltpd / 100.0));
        let (alpha, beta) = (normal_quantile(1.0 - producer_risk), normal_quantile(1.0 - consumer_risk));
        let root = (alpha + beta) / (good - bad);
        // For a known standard deviation the constants are k = z + z' / sqrt(n) exactly.
        let known = (root * root - 1e-9).ceil().max(1.0);
        if known > MAX_SAMPLE as f64 {
            return Err(SamplingError::NoPlan { most: MAX_SAMPLE });
        }
        let (size, k) = match sigma {
            SigmaKnowledge::Known => {
                let step = 1.0 / known.sqrt();
                (known as u64, 0.5 * ((good - alpha * step) + (bad + beta * step)))
            }
            SigmaKnowledge::Unknown => unknown(known as u64, good, bad, producer_risk, consumer_risk)?,
        };
        let plan = VariablesPlan { sigma, sample_size: size, k, aql, ltpd, producer_risk, consumer_risk };
        Ok(VariablesPlan {
            producer_risk: 1.0 - plan.acceptance_probability(aql / 100.0)?,
            consumer_risk: plan.acceptance_probability(ltpd / 100.0)?,
            ..plan
        })
    }
}

impl VariablesPlan {
    /// A plan of one's own numbers, such as one from a copy of a standard; it names no qualities and no risks.
    ///
    /// # Errors
    /// [`SamplingError::Number`] for fewer pieces than one, or two where sigma is unknown, and for a `k` out of range.
    pub fn of(sample_size: u64, k: f64, sigma: SigmaKnowledge) -> Result<VariablesPlan, SamplingError> {
        let least = if sigma == SigmaKnowledge::Known { 1 } else { 2 };
        if !(least..=MAX_SAMPLE).contains(&sample_size) {
            let need = "1 to 1 000 000, and 2 or more where sigma is unknown";
            return Err(SamplingError::Number { what: "the pieces", need, value: sample_size as f64 });
        }
        if !(-10.0..=10.0).contains(&k) {
            return Err(SamplingError::Number { what: "k", need: "from -10 to 10", value: k });
        }
        let none = f64::NAN;
        Ok(VariablesPlan {
            sigma,
            sample_size,
            k,
            aql: none,
            ltpd: none,
            producer_risk: none,
            consumer_risk: none,
        })
    }

    /// The share of lots with a fraction `p` beyond the limit that the plan accepts. `p` is a fraction: 0.01 is 1 percent.
    ///
    /// # Errors
    /// [`SamplingError::Fraction`] for a fraction out of range.
    pub fn acceptance_probability(&self, p: f64) -> Result<f64, SamplingError> {
        if !(0.0..=1.0).contains(&p) {
            return Err(SamplingError::Fraction { fraction: p, model: LotModel::Binomial });
        }
        let within = -normal_quantile(p);
        if within.is_infinite() {
            return Ok(if within > 0.0 { 1.0 } else { 0.0 });
        }
        let root = (self.sample_size as f64).sqrt();
        Ok(match self.sigma {
            SigmaKnowledge::Known => normal_cdf(root * (within - self.k)),
            SigmaKnowledge::Unknown => above(self.sample_size, within, self.k),
        })
    }

    /// What a sample of this plan's size decides: a lot is accepted where its mean is at least `k` standard deviations within
    /// each of the limits that there are. `sigma` is the standard deviation of the process where that is known, else that
    /// of the sample, with a divisor of n - 1.
    ///
    /// With two limits the sample must pass at each. `k` and the risks of the plan are for one limit: they do not hold for
    /// a lot with pieces beyond both.
    ///
    /// # Errors
    /// [`SamplingError`] for no limit, reversed limits, and figures that are not finite.
    pub fn judge(
        &self,
        mean: f64,
        sigma: f64,
        lower: Option<f64>,
        upper: Option<f64>,
    ) -> Result<LotVerdict, SamplingError> {
        let finite = |what, value: f64| match value.is_finite() {
            true => Ok(()),
            false => Err(SamplingError::Number { what, need: "a finite number", value }),
        };
        finite("the mean", mean)?;
        finite("sigma", sigma)?;
        if sigma < 0.0 {
            return Err(SamplingError::Number { what: "sigma", need: "zero or more", value: sigma });
        }
        for (what, limit) in [("the lower limit", lower), ("the upper limit", upper)] {
            finite(what, limit.unwrap_or(0.0))?;
        }
        match (lower, upper) {
            (None, None) => {
                return Err(SamplingError::Found {
                    reason: "a lower or an upper limit is missing: give at least one".into(),
                });
            }
            (Some(lower), Some(upper)) if lower >= upper => {
                let need = "less than the upper limit";
                return Err(SamplingError::Number { what: "the lower limit", need, value: lower });
            }
            _ => {}
        }
        let far = self.k * sigma;
        let good =
            lower.is_none_or(|lower| mean - lower >= far) && upper.is_none_or(|upper| upper - mean >= far);
        Ok(if good { LotVerdict::Accepted } else { LotVerdict::Rejected })
    }
}

/// The chance that the mean of a sample is at least k of its standard deviations within a limit, where the process is
/// `within` of its own from it.
fn above(size: u64, within: f64, k: f64) -> f64 {
    let root = (size as f64).sqrt();
    noncentral_t_above(root * k, size as f64 - 1.0, root * within)
}

/// The fewest pieces, and the constant, for a standard deviation that is not known.
fn unknown(
    known: u64,
    good: f64,
    bad: f64,
    producer_risk: f64,
    consumer_risk: f64,
) -> Result<(u64, f64), SamplingError> {
    // The constants at which each risk is just kept: the largest for the producer's, the smallest for the consumer's.
    let ends = |size: u64| {
        let (root, freedom) = ((size as f64).sqrt(), size as f64 - 1.0);
        let largest = noncentral_t_quantile(producer_risk, freedom, root * good) / root;
        let smallest = noncentral_t_quantile_above(consumer_risk, freedom, root * bad) / root;
        (smallest, largest)
    };
    // NaN, where the law is not known, keeps nothing.
    let kept = |size: u64| {
        let (smallest, largest) = ends(size);
        smallest <= largest
    };
    let size =
        first_size(known.max(2), MAX_SAMPLE, kept).ok_or(SamplingError::NoPlan { most: MAX_SAMPLE })?;
    let (smallest, largest) = ends(size);
    Ok((size, 0.5 * (smallest + largest)))
}

impl fmt::Display for VariablesPlan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "variables plan: {}, k = {:.4}, sigma {}",
            crate::error::plural(self.sample_size, "piece"),
            self.k,
            self.sigma.name()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan(sigma: SigmaKnowledge) -> VariablesPlan {
        VariablesPlan::new(1.0, 8.0, 0.05, 0.1, sigma).unwrap()
    }

    // n = ((z of alpha + z of beta) / (z of AQL - z of LTPD))², by hand from tables of the normal law: (1.645 + 1.282)² /
    // (2.326 - 1.405)² = 10.1.
    #[test]
    fn the_fewest_pieces_are_taken() {
        let known = plan(SigmaKnowledge::Known);
        assert_eq!(known.sample_size, 11);
        let unknown = plan(SigmaKnowledge::Unknown);
        assert!(unknown.sample_size > known.sample_size);
        for plan in [known, unknown] {
            assert!(plan.producer_risk <= 0.05 && plan.consumer_risk <= 0.1, "{plan:?}");
            assert!((plan.acceptance_probability(0.01).unwrap() - 1.0 + plan.producer_risk).abs() < 1e-12);
            // One piece fewer cannot keep both, with any constant.
            let fewer = VariablesPlan { sample_size: plan.sample_size - 1, ..plan };
            let keeps = |k: f64| {
                let plan = VariablesPlan { k, ..fewer };
                plan.acceptance_probability(0.01).unwrap() >= 0.95
                    && plan.acceptance_probability(0.08).unwrap() <= 0.1
            };
            assert!(!(-50..50).any(|step| keeps(plan.k + f64::from(step) / 1000.0)), "{plan:?}");
            assert_eq!([0.0, 1.0].map(|p| plan.acceptance_probability(p).unwrap()), [1.0, 0.0]);
        }
    }

    #[test]
    fn samples_are_judged_against_their_limits() {
        let plan = VariablesPlan { k: 2.0, ..plan(SigmaKnowledge::Unknown) };
        let judge = |mean, sigma, lower, upper| plan.judge(mean, sigma, lower, upper);
        assert_eq!(judge(10.0, 0.5, Some(9.0), None), Ok(LotVerdict::Accepted));
        assert_eq!(judge(10.0, 0.6, Some(9.0), None), Ok(LotVerdict::Rejected));
        assert_eq!(judge(10.0, 0.5, Some(9.0), Some(10.9)), Ok(LotVerdict::Rejected));
        assert_eq!(judge(10.0, 0.0, None, Some(10.0)), Ok(LotVerdict::Accepted));
        for (mean, sigma, lower, upper) in [
            (10.0, 0.5, None, None),
            (10.0, 0.5, Some(11.0), Some(9.0)),
            (10.0, -0.5, Some(9.0), None),
            (f64::NAN, 0.5, Some(9.0), None),
            (10.0, 0.5, Some(f64::NAN), None),
        ] {
            assert!(judge(mean, sigma, lower, upper).is_err());
        }
        for (aql, ltpd, producer, consumer) in [
            (1.0, 1.0, 0.05, 0.1),
            (0.0, 1.0, 0.05, 0.1),
            (1.0, 60.0, 0.05, 0.1),
            (1.0, 8.0, 0.5, 0.1),
            (1.0, 1.0001, 0.05, 0.1),
        ] {
            assert!(VariablesPlan::new(aql, ltpd, producer, consumer, SigmaKnowledge::Known).is_err());
        }
    }
}
