//! The figures of a capability, of one characteristic or of the columns of a table.
use super::interval;
use super::kinds::{CapabilityError, CapabilityLaw, CapabilityLimits, CapabilityOptions, FAR_OFF, SigmaRule};
use super::law::{Fitted, NormalPoints};
use super::result::{Capability, CapabilityInterval};
use super::spread::{Constants, Within, within};
use crate::simd::{WideLoop, run_wide};
use crate::statistics::{
    AndersonDarling, NormalityTests, chi_square_quantile, mean_and_deviation, normal_quantile,
};

/// The capability of one characteristic.
///
/// # Errors
/// [`CapabilityError`].
pub fn capability(
    readings: &[f64],
    limits: CapabilityLimits,
    options: &CapabilityOptions,
) -> Result<Capability, CapabilityError> {
    let moments = mean_and_deviation(readings);
    let [test, ..] = NormalityTests::default().of(&[readings], &[moments]);
    Wanted::new(options)?.capability(None, readings, limits, (moments, test))
}

/// The capability of each column of a table, with its name and its limits.
///
/// # Errors
/// [`CapabilityError`], of a column with its name.
pub fn capabilities(
    columns: &[(String, &[f64])],
    limits: &[CapabilityLimits],
    options: &CapabilityOptions,
) -> Result<Vec<Capability>, CapabilityError> {
    if limits.len() != columns.len() {
        return Err(CapabilityError::Columns { limits: limits.len(), columns: columns.len() });
    }
    let mut wanted = Wanted::new(options)?;
    let mut tests = NormalityTests::default();
    let mut made = Vec::with_capacity(columns.len());
    let together = NormalityTests::COLUMNS;
    for (columns, limits) in columns.chunks(together).zip(limits.chunks(together)) {
        let readings: Vec<_> = columns.iter().map(|(_, readings)| *readings).collect();
        let moments: Vec<_> = readings.iter().map(|readings| mean_and_deviation(readings)).collect();
        let known = moments.iter().copied().zip(tests.of(&readings, &moments));
        for (((name, readings), limits), known) in columns.iter().zip(limits).zip(known) {
            let one = wanted.capability(Some(name), readings, *limits, known);
            made.push(
                one.map_err(|fault| CapabilityError::Column { name: name.clone(), fault: Box::new(fault) })?,
            );
        }
    }
    Ok(made)
}

/// What is asked for, and what columns share.
struct Wanted<'a> {
    options: &'a CapabilityOptions,
    constants: Constants,
    /// The factors from Cp to the ends of its interval, for the degrees of freedom that were met last.
    factors: Option<(f64, [f64; 2])>,
    /// How many standard deviations to both sides hold the confidence.
    deviations: f64,
    points: NormalPoints,
}

impl<'a> Wanted<'a> {
    fn new(options: &'a CapabilityOptions) -> Result<Self, CapabilityError> {
        let confidence = options.confidence;
        if !(confidence > 0.0 && confidence < 1.0) {
            return Err(CapabilityError::Confidence { value: confidence });
        }
        if let Some(value) = options.target.filter(|target| !target.is_finite()) {
            return Err(CapabilityError::Target { value });
        }
        if options.sigma == Some(SigmaRule::MovingRange) && options.groups(0).is_some() {
            return Err(CapabilityError::MovingInSubgroups);
        }
        let deviations = -normal_quantile(0.5 * (1.0 - confidence));
        Ok(Self {
            options,
            constants: Constants::default(),
            factors: None,
            deviations,
            points: NormalPoints::new(),
        })
    }

    /// That of one column, of known mean and standard deviation and with its test of normality.
    fn capability(
        &mut self,
        name: Option<&String>,
        readings: &[f64],
        limits: CapabilityLimits,
        ([mean, overall], normality): ([f64; 2], Option<AndersonDarling>),
    ) -> Result<Capability, CapabilityError> {
        limits.check()?;
        let options = self.options;
        check_target(options.target, limits)?;
        let count = readings.len();
        let sizes = options.groups(count);
        check_groups(count, sizes.as_deref())?;
        check_spread(readings, overall)?;
        let groups = sizes.as_deref().unwrap_or_default();
        let default = if sizes.is_some() { SigmaRule::MeanRange } else { SigmaRule::MovingRange };
        let rule = options.sigma.unwrap_or(default);
        check_sizes(groups, rule)?;
        let Within { sigma, degrees_of_freedom } =
            within(rule, readings, groups, overall, &mut self.constants)?;
        let fitted = Fitted::of(options.law, readings, mean, overall)?;

        let CapabilityLimits { lower, upper } = limits;
        let tolerance = lower.zip(upper).map(|(lower, upper)| upper - lower);
        let target = options.target.or(lower.zip(upper).map(|(lower, upper)| lower + 0.5 * (upper - lower)));
        let cp = tolerance.map(|tolerance| tolerance / (6.0 * sigma));
        let cpl = lower.map(|lower| (mean - lower) / (3.0 * sigma));
        let cpu = upper.map(|upper| (upper - mean) / (3.0 * sigma));
        let points @ [low, _, high] = fitted.points(&self.points);
        let cpk = nearer(cpl, cpu);
        let [ppm_below, ppm_above] = fitted.tails(lower, upper).map(|share| 1e6 * share);
        let ends = [lower.unwrap_or(f64::NEG_INFINITY), upper.unwrap_or(f64::INFINITY)];
        let outside = run_wide(Outside { readings, ends });
        let cpk_interval = match cp {
            Some(_) => interval::bissell(cpk, count as f64, degrees_of_freedom, self.deviations),
            None => interval::one_sided(cpk, count as f64, degrees_of_freedom, options.confidence),
        };
        Ok(Capability {
            units: options.units,
            name: name.cloned(),
            count,
            subgroups: sizes.as_ref().map(|_| groups.len()),
            lower_limit: lower,
            upper_limit: upper,
            target,
            mean,
            sigma_within: sigma,
            sigma_overall: overall,
            sigma_rule: rule,
            degrees_of_freedom,
            law: options.law,
            cp,
            cpl,
            cpu,
            cpk,
            pp: tolerance.map(|tolerance| tolerance / (high - low)),
            ppk: ppk(limits, points),
            cpm: tolerance.zip(target).map(|(tolerance, target)| {
                let off = mean - target;
                tolerance / (6.0 * (overall * overall + off * off).sqrt())
            }),
            confidence: options.confidence,
            cp_interval: cp.map(|cp| self.cp_interval(cp, degrees_of_freedom)),
            cpk_interval,
            ppm_below,
            ppm_above,
            ppm_expected: ppm_below + ppm_above,
            ppm_bound: 1e6 * bound(limits, mean, overall),
            ppm_observed: 1e6 * outside as f64 / count as f64,
            normality_statistic: normality.map(|test| test.statistic),
            normality_p: normality.map(|test| test.p),
            advice: if limits.are_far_from(mean, sigma) {
                FAR_OFF
            } else {
                advice(options.law, normality.map(|test| test.p), count)
            },
        })
    }

    /// The interval of Cp; columns of as many readings share its factors.
    fn cp_interval(&mut self, cp: f64, degrees: f64) -> CapabilityInterval {
        let tail = 0.5 * (1.0 - self.options.confidence);
        let factors = match self.factors {
            Some((known, factors)) if known == degrees => factors,
            _ => [tail, 1.0 - tail].map(|p| (chi_square_quantile(p, degrees) / degrees).sqrt()),
        };
        self.factors = Some((degrees, factors));
        CapabilityInterval { lower: Some(factors[0] * cp), upper: Some(factors[1] * cp) }
    }
}

/// The smaller of two indices, or the one that there is.
fn nearer(lower: Option<f64>, upper: Option<f64>) -> f64 {
    lower.into_iter().chain(upper).fold(f64::INFINITY, f64::min)
}

/// Ppk of a law with these points: the distance of its median from the nearer limit over that from its outer point.
fn ppk(limits: CapabilityLimits, [low, middle, high]: [f64; 3]) -> f64 {
    nearer(
        limits.lower.map(|lower| (middle - lower) / (middle - low)),
        limits.upper.map(|upper| (upper - middle) / (high - middle)),
    )
}

/// How many readings are beyond either end.
struct Outside<'a> {
    readings: &'a [f64],
    ends: [f64; 2],
}

impl WideLoop for Outside<'_> {
    type Output = u64;

    #[inline(always)]
    fn run(self) -> u64 {
        let [lower, upper] = self.ends;
        let mut outside = 0;
        for reading in self.readings {
            outside += u64::from((*reading < lower) | (*reading > upper));
        }
        outside
    }
}

fn check_groups(count: usize, groups: Option<&[usize]>) -> Result<(), CapabilityError> {
    if let Some(sizes) = groups {
        let grouped = sizes.iter().fold(0, |sum: usize, size| sum.saturating_add(*size));
        if grouped != count {
            return Err(CapabilityError::Subgroups { grouped, count });
        }
    }
    Ok(())
}

/// Whether each subgroup shows a spread, where the rule takes it from them.
fn check_sizes(groups: &[usize], rule: SigmaRule) -> Result<(), CapabilityError> {
    let small = groups.iter().position(|size| *size < 2);
    match small.filter(|_| rule != SigmaRule::Overall) {
        Some(at) => Err(CapabilityError::SmallSubgroup { place: at + 1, size: groups[at], rule }),
        None => Ok(()),
    }
}

/// Whether a target is one that parts may have.
fn check_target(target: Option<f64>, limits: CapabilityLimits) -> Result<(), CapabilityError> {
    let CapabilityLimits { lower, upper } = limits;
    let is_outside = |target: &f64| {
        lower.is_some_and(|lower| *target < lower) || upper.is_some_and(|upper| *target > upper)
    };
    target.filter(is_outside).map_or(Ok(()), |value| Err(CapabilityError::Target { value }))
}

/// Whether readings with this standard deviation have a spread to work with.
fn check_spread(readings: &[f64], overall: f64) -> Result<(), CapabilityError> {
    let count = readings.len();
    match readings.first() {
        // One reading that is not finite leaves no deviation, so that only then each is looked at.
        _ if !overall.is_finite() => Err(match readings.iter().position(|reading| !reading.is_finite()) {
            Some(place) => CapabilityError::Reading { place: place + 1, value: readings[place] },
            None if count < 2 => CapabilityError::TooFew { count },
            None => CapabilityError::TooLarge,
        }),
        None => Err(CapabilityError::TooFew { count }),
        Some(first) if overall <= 0.0 || readings.iter().all(|reading| reading == first) => {
            Err(CapabilityError::NoSpread { count, value: *first })
        }
        Some(_) => Ok(()),
    }
}

/// The largest share outside the limits that a law with this mean and deviation can have: by Cantelli's inequality at
/// each limit, or by Chebyshev's for the nearer one.
fn bound(limits: CapabilityLimits, mean: f64, deviation: f64) -> f64 {
    let far = [limits.lower.map(|lower| mean - lower), limits.upper.map(|upper| upper - mean)]
        .map(|distance| distance.map(|distance| distance / deviation));
    let one_side = |z: f64| if z > 0.0 { 1.0 / (1.0 + z * z) } else { 1.0 };
    let cantelli: f64 = far.into_iter().flatten().map(one_side).sum();
    let nearest = far.into_iter().flatten().fold(f64::INFINITY, f64::min);
    let chebyshev = if nearest > 0.0 { 1.0 / (nearest * nearest) } else { 1.0 };
    cantelli.min(chebyshev).min(1.0)
}

fn advice(law: CapabilityLaw, p: Option<f64>, count: usize) -> &'static str {
    match p {
        Some(p) if p < 0.05 && law == CapabilityLaw::Normal => NOT_NORMAL,
        Some(p) if p < 0.05 => OTHER_LAW,
        None => FEW,
        _ if count < 50 => SHORT,
        _ => "",
    }
}

const NOT_NORMAL: &str = "The readings are not normal (Anderson-Darling, p below 0.05): do not quote Cpk. Look for mixed \
                          batches, drift and sorted parts first; then try another law.";
const OTHER_LAW: &str = "Cp and Cpk take the readings for normal, which they are not (Anderson-Darling, p below 0.05): \
                         quote Pp and Ppk with their law.";
const FEW: &str = "Too few readings to test whether they are normal, and too few for a capability that can be relied on: \
                   look at the intervals.";
const SHORT: &str = "Fewer than 50 readings: look at the intervals before quoting a single figure.";
