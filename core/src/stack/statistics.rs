//! What a linear chain comes to when its parts are made by processes rather than at their limits.
use super::linear::{Band, Contributor, Stack};
use super::moments::Cumulants;
use super::{ContributorKey, StackError};
use crate::math::normal_cdf;
use crate::object::{Restored, Told};
use crate::{Limits, Size, Units};
use tenths_macros::{Object, accessors};

/// How a process that is off its middle enters a stack.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MeanShift {
    /// Not at all: every process is centred, with the standard deviation of its short term.
    Centred,
    /// It wanders from batch to batch, which widens the spread: σ = half band / (3 Cpk).
    Dynamic,
    /// It stays, and all of them to the same side: the mean moves by the sum of the shifts.
    Static,
}

/// Mean and standard deviation of the closing dimension, in the unit of the stack.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct Spread {
    /// Mean where every process is centred.
    pub mean: f64,
    /// By how much the mean may lie off to either side.
    pub shift: f64,
    /// Standard deviation.
    pub sigma: f64,
}

/// Exact moments of the closing dimension, in the unit of the stack.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(accessors, tuple)]
pub struct Statistics {
    /// Mean of the closing dimension.
    pub mean: f64,
    /// Standard deviation of the closing dimension.
    pub sigma: f64,
    /// Third standardised moment; NaN where nothing spreads.
    #[pure]
    pub skewness: f64,
    /// Fourth standardised moment, 3 for a normal law; NaN where nothing spreads.
    #[pure]
    pub kurtosis: f64,
    units: Units,
}

#[accessors]
impl Statistics {
    /// The side whose unit the mean and the standard deviation are in.
    #[field]
    pub fn units(&self) -> Units {
        self.units
    }
}

/// What one contributor has of the whole, in percent.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct Contribution {
    /// The name of the contributor.
    pub name: String,
    /// Percent of the sum of the squared tolerances.
    pub rss: f64,
    /// Percent of the variance of the closing dimension by the distributions; with correlations it may be negative.
    pub variance: f64,
    /// Percent of the worst case.
    pub worst_case: f64,
}

/// Which sum of the tolerances has to stay within limits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Closure {
    /// Every combination of parts within their limits.
    WorstCase,
    /// The root of the sum of the squared tolerances.
    Rss,
}

/// A spread before the limits of its closing dimension.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct SpreadWithin {
    /// The spread.
    pub spread: Spread,
    /// The lower limit; minus infinity where there is none.
    pub lower: f64,
    /// The upper limit; infinity where there is none.
    pub upper: f64,
    /// Distance from the lower limit, in standard deviations, of the mean nearest to it; infinite where nothing
    /// spreads.
    pub z_lower: f64,
    /// Distance from the upper limit, in standard deviations, of the mean nearest to it; infinite where nothing
    /// spreads.
    pub z_upper: f64,
    /// Share of the pieces below the lower limit, for a normal closing dimension with the mean nearest to it.
    pub fraction_below: f64,
    /// Share of the pieces above the upper limit, for a normal closing dimension with the mean nearest to it.
    pub fraction_above: f64,
}

impl Restored for Spread {
    fn restore(told: &Told) -> Option<Spread> {
        Spread::new(told.get("mean")?, told.get("shift")?, told.get("sigma")?).ok()
    }
}

impl Spread {
    /// Figures that a process can have.
    ///
    /// # Errors
    /// [`StackError::Spread`] for a mean that is not finite, and a shift or a standard deviation that is negative or
    /// not finite.
    pub fn new(mean: f64, shift: f64, sigma: f64) -> Result<Spread, StackError> {
        let is_amount = |value: f64| (0.0..f64::INFINITY).contains(&value);
        let fault = match () {
            () if !mean.is_finite() => Some(("mean", mean, "a finite number")),
            () if !is_amount(shift) => Some(("shift", shift, "zero or more, and finite")),
            () if !is_amount(sigma) => Some(("sigma", sigma, "zero or more, and finite")),
            () => None,
        };
        match fault {
            Some((figure, got, need)) => Err(StackError::Spread { figure, got, need }),
            None => Ok(Spread { mean, shift, sigma }),
        }
    }

    /// Distance of a limit from the nearer mean, in standard deviations; negative where that lies beyond the limit.
    fn distance(&self, inward: f64) -> f64 {
        let room = inward - self.shift;
        // A limit at the very value of what does not spread keeps it whole.
        if self.sigma == 0.0 && room == 0.0 { f64::INFINITY } else { room / self.sigma }
    }

    /// Distance from a lower limit, in standard deviations, of the mean nearest to it; infinite where nothing spreads.
    pub fn z_lower(&self, lower: f64) -> f64 {
        self.distance(self.mean - lower)
    }

    /// Distance from an upper limit, in standard deviations, of the mean nearest to it; infinite where nothing spreads.
    pub fn z_upper(&self, upper: f64) -> f64 {
        self.distance(upper - self.mean)
    }

    /// Share of the pieces below a limit, for a normal closing dimension with the mean nearest to it.
    pub fn fraction_below(&self, lower: f64) -> f64 {
        normal_cdf(-self.z_lower(lower))
    }

    /// Share of the pieces above a limit, for a normal closing dimension with the mean nearest to it.
    pub fn fraction_above(&self, upper: f64) -> f64 {
        normal_cdf(-self.z_upper(upper))
    }

    /// All of these for a pair of limits, either of which may be infinite.
    ///
    /// # Errors
    /// [`StackError::SpreadLimits`] for a lower limit above the upper one, and for one that is not a number.
    pub fn within(&self, lower: f64, upper: f64) -> Result<SpreadWithin, StackError> {
        let is_ordered = lower <= upper;
        if !is_ordered {
            return Err(StackError::SpreadLimits { lower, upper });
        }
        Ok(SpreadWithin {
            spread: *self,
            lower,
            upper,
            z_lower: self.z_lower(lower),
            z_upper: self.z_upper(upper),
            fraction_below: self.fraction_below(lower),
            fraction_above: self.fraction_above(upper),
        })
    }
}

impl Stack {
    /// The root of the sum of the squared tolerances, about the sum of the middles of all limits.
    ///
    /// Unequal deviations are first centred. Distributions do not enter: see [`Stack::statistics`] and
    /// [`Stack::spread`].
    ///
    /// # Errors
    /// [`StackError::NoContributors`], [`StackError::OutOfRange`].
    pub fn rss(&self) -> Result<Band, StackError> {
        self.inflated_rss(1.0)
    }

    /// [`Stack::rss`] times a factor for processes that spread more than in theory; 1.5 is Bender's.
    ///
    /// Source of the factor: A. Bender, Benderizing tolerances, Graphic Science (1962); from memory.
    ///
    /// # Errors
    /// As [`Stack::rss`], and [`StackError::Sampling`] for a factor that is not positive and finite.
    pub fn inflated_rss(&self, factor: f64) -> Result<Band, StackError> {
        if !(0.0 < factor && factor < f64::INFINITY) {
            return Err(StackError::Sampling(format!("a factor must be positive, not {factor}")));
        }
        self.band(factor * self.root_of_squares(|_| 1.0)?)
    }

    /// The mean of worst case and root of the sum of squares.
    ///
    /// Source: M. F. Spotts, Dimensioning and Tolerancing for Quantity Production (1983); from memory.
    ///
    /// # Errors
    /// As [`Stack::rss`].
    pub fn spotts(&self) -> Result<Band, StackError> {
        self.band(0.5 * (self.worst_band()?.tolerance + self.root_of_squares(|_| 1.0)?))
    }

    /// Shares of the tolerances that the means may be off by add up, and the rest is the root of the sum of squares:
    /// Σ m |s| T + √Σ ((1 - m) s T)². A share of 0 gives [`Stack::rss`], of 1 the worst case.
    ///
    /// `shares` has one number for each contributor, from 0 to 1.
    ///
    /// Source: W. H. Greenwood and K. W. Chase, A new tolerance analysis method for designers and manufacturers,
    /// Journal of Engineering for Industry 109 (1987).
    ///
    /// # Errors
    /// As [`Stack::rss`], and [`StackError::Sampling`] for another count of shares or one beyond 0 to 1.
    pub fn estimated_mean_shift(&self, shares: &[f64]) -> Result<Band, StackError> {
        let contributors = self.filled()?;
        if shares.len() != contributors.len() {
            let (count, given) = (contributors.len(), shares.len());
            return Err(StackError::Sampling(format!(
                "{count} contributors need {count} shares, not {given}"
            )));
        }
        if let Some(share) = shares.iter().find(|share| !(0.0 <= **share && **share <= 1.0)) {
            return Err(StackError::Sampling(format!("a share must be from 0 to 1, not {share}")));
        }
        let weighed = |weight: fn(f64) -> f64| {
            contributors
                .iter()
                .zip(shares)
                .map(move |(one, share)| (f64::from(one.count), weight(*share) * one.share(self.units())))
        };
        let shifted: f64 = weighed(|share| share).map(|(count, part)| count * part).sum();
        let spread: f64 = weighed(|share| 1.0 - share).map(|(count, part)| count * part * part).sum();
        self.band(shifted + spread.sqrt())
    }

    fn band(&self, tolerance: f64) -> Result<Band, StackError> {
        let worst = self.worst_band()?;
        // A sum that is the worst case but for rounding does not exceed it.
        let exceeds_worst_case = tolerance > worst.tolerance * (1.0 + 1e-12);
        Ok(Band { tolerance, exceeds_worst_case, ..worst })
    }

    fn root_of_squares(&self, weight: impl Fn(&Contributor) -> f64) -> Result<f64, StackError> {
        let square = |one: &Contributor| {
            let part = weight(one) * one.share(self.units());
            f64::from(one.count) * part * part
        };
        Ok(self.filled()?.iter().map(square).sum::<f64>().sqrt())
    }

    /// Exact mean, standard deviation, skewness and kurtosis of the closing dimension by the distributions of the
    /// contributors and their correlations.
    ///
    /// # Errors
    /// [`StackError::NoContributors`], and [`StackError::NotPositive`] for correlations that contradict one another.
    pub fn statistics(&self) -> Result<Statistics, StackError> {
        let Cumulants { mean, variance, third, fourth } = self.cumulants()?;
        let sigma = variance.sqrt();
        let (skewness, kurtosis) = (third / (variance * sigma), 3.0 + fourth / (variance * variance));
        Ok(Statistics { mean, sigma, skewness, kurtosis, units: self.units() })
    }

    pub(crate) fn cumulants(&self) -> Result<Cumulants, StackError> {
        self.correlation.mixing()?;
        let terms = self.filled()?.iter().map(|one| one.cumulants(self.units()));
        let independent = terms.reduce(Cumulants::plus).unwrap_or_default();
        let variance = (independent.variance + self.covariance_sum()).max(0.0);
        Ok(Cumulants { variance, ..independent })
    }

    /// What all correlations add to the variance.
    pub(crate) fn covariance_sum(&self) -> f64 {
        self.covariances().map(|(_, _, term)| term).sum()
    }

    /// What each correlated pair adds to the variance.
    fn covariances(&self) -> impl Iterator<Item = (usize, usize, f64)> {
        let deviation = |place: usize| {
            let one = &self.contributors()[place];
            one.sensitivity * one.distribution.cumulants(0.0, one.half(self.units())).variance.sqrt()
        };
        self.correlation.pairs().map(move |(one, other, coefficient)| {
            (one, other, 2.0 * coefficient * deviation(one) * deviation(other))
        })
    }

    /// Mean and standard deviation of the closing dimension, with processes off their middles as `shift` says.
    ///
    /// Source: M. J. Harry and R. Stewart, Six Sigma Mechanical Design Tolerancing (1988), the method; the
    /// standard deviation and the shift of a law that is not normal are its own.
    ///
    /// # Errors
    /// As [`Stack::statistics`], and [`StackError::Sampling`] for a dynamic shift where a contributor has no tolerance
    /// within its shift, so that its Cpk is not positive.
    pub fn spread(&self, shift: MeanShift) -> Result<Spread, StackError> {
        let mean = self.worst_band()?.mean;
        let total = self.cumulants()?;
        let off_middle = |one: &Contributor| {
            (one.distribution.cumulants(one.middle(self.units()), one.half(self.units())).mean
                - one.middle(self.units()))
            .abs()
        };
        match shift {
            MeanShift::Centred => Ok(Spread { mean, shift: 0.0, sigma: total.variance.sqrt() }),
            MeanShift::Static => {
                let part = |one: &Contributor| f64::from(one.count) * one.sensitivity.abs() * off_middle(one);
                let shift = self.filled()?.iter().map(part).sum();
                Ok(Spread { mean, shift, sigma: total.variance.sqrt() })
            }
            MeanShift::Dynamic => {
                let mut widened = 0.0;
                for one in self.filled()? {
                    let (half, off) = (one.half(self.units()), off_middle(one));
                    let variance = one.cumulants(self.units()).variance;
                    // σ / (1 - k), where k half bands are the shift.
                    let left = if off == 0.0 { 1.0 } else { 1.0 - off / half };
                    if left <= 0.0 || left.is_nan() {
                        return Err(StackError::Sampling(format!(
                            "{}: its mean is at a limit or beyond, so its Cpk is not positive",
                            one.name
                        )));
                    }
                    widened += variance * (1.0 / (left * left) - 1.0);
                }
                Ok(Spread { mean, shift: 0.0, sigma: (total.variance + widened).sqrt() })
            }
        }
    }

    /// What each contributor has of the whole. Shares of nothing are zero.
    ///
    /// # Errors
    /// As [`Stack::statistics`].
    pub fn contributions(&self) -> Result<Vec<Contribution>, StackError> {
        let contributors = self.filled()?;
        let mut variances: Vec<f64> =
            contributors.iter().map(|one| one.cumulants(self.units()).variance).collect();
        for (one, other, term) in self.covariances() {
            variances[one] += 0.5 * term;
            variances[other] += 0.5 * term;
        }
        let root = self.root_of_squares(|_| 1.0)?;
        let (worst, variance) = (self.worst_band()?.tolerance, self.cumulants()?.variance);
        let percent = |part: f64, whole: f64| if whole > 0.0 { 100.0 * part / whole } else { 0.0 };
        let contribution = |(one, own): (&Contributor, f64)| {
            let (count, share) = (f64::from(one.count), one.share(self.units()));
            Contribution {
                name: one.name.clone(),
                rss: percent(count * share * share, root * root),
                variance: percent(own, variance),
                worst_case: percent(count * share, worst),
            }
        };
        Ok(contributors.iter().zip(variances).map(contribution).collect())
    }

    /// The greatest tolerance that a contributor could have, about the middle that it has, with which the closing
    /// dimension still keeps within `limits`; none where it does not even without this tolerance, or where the
    /// contributor has no sensitivity.
    ///
    /// Its limits go in or out by as much at either end, so that in picometres it is even or odd as the tolerance
    /// that the contributor has. It is never more than what closes: with two picometres more the closing dimension
    /// leaves its limits, and in the worst case with one more, unless that is laid to the better end.
    ///
    /// # Errors
    /// As [`Stack::worst_case`], and where the place is unknown.
    pub fn greatest_tolerance<'a>(
        &self,
        place: impl Into<ContributorKey<'a>>,
        limits: &Limits,
        closure: Closure,
    ) -> Result<Option<Size>, StackError> {
        self.filled()?;
        let place = self.place(place)?;
        let one = &self.contributors()[place];
        if one.sensitivity == 0.0 {
            return Ok(None);
        }
        // The middle of an odd tolerance lies half a picometre above this one.
        let (middle, odd) = (one.limits.middle(), one.limits.tolerance().picometres() % 2);
        let mut trial = self.clone();
        let mut closes = |half: i64| -> Result<bool, StackError> {
            let lower = middle.checked_sub(Size::from_picometres(half));
            let upper = middle.checked_add(Size::from_picometres(half + odd));
            let Some(band) = lower.zip(upper).and_then(|(lower, upper)| Limits::between(lower, upper).ok())
            else {
                return Ok(false);
            };
            trial.contributors_mut()[place].limits = band;
            trial.closes(limits, closure)
        };
        if !closes(0)? {
            return Ok(None);
        }
        // The greatest half that closes lies from `least` up and below `beyond`.
        let (mut least, mut beyond) = (0, i64::MAX / 2);
        while beyond - least > 1 {
            let between = least + (beyond - least) / 2;
            if closes(between)? { least = between } else { beyond = between }
        }
        Ok(Some(Size::from_picometres(2 * least + odd)))
    }

    /// Whether the closing dimension keeps within limits; one out of range does not.
    fn closes(&self, limits: &Limits, closure: Closure) -> Result<bool, StackError> {
        let is_within = match closure {
            Closure::WorstCase => self.worst_case().map(|worst| limits.contains(&worst)),
            Closure::Rss => self.rss().map(|band| {
                let [lower, upper] =
                    [limits.lower(), limits.upper()].map(|limit| limit.to_float(self.units()));
                lower <= band.mean - band.tolerance && band.mean + band.tolerance <= upper
            }),
        };
        match is_within {
            Err(StackError::OutOfRange) => Ok(false),
            other => other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use proptest::prelude::*;

    /// A dimension in picometres, with its sensitivity in tenths.
    #[derive(Clone, Copy, Debug)]
    struct Part {
        ends: [i64; 2],
        tenths: i64,
        count: u32,
    }

    fn limits(ends: [i64; 2]) -> Limits {
        let [lower, upper] = ends.map(Size::from_picometres);
        Limits::between(lower, upper).unwrap()
    }

    fn parts(tenths: &'static [i64]) -> impl Strategy<Value = Vec<Part>> {
        let part = (-50i64..50, 0i64..12, prop::sample::select(tenths), 1u32..4).prop_map(
            |(lower, tolerance, tenths, count)| Part { ends: [lower, lower + tolerance], tenths, count },
        );
        prop::collection::vec(part, 1..5)
    }

    /// Limits about where parts lie, which move the ends of their worst case.
    fn wanted(parts: &[Part], moves: [i64; 2]) -> Limits {
        let [lower, upper] = extremes(parts).map(|end| end.div_euclid(10));
        let ends = [lower + moves[0], upper + moves[1]];
        limits([ends[0].min(ends[1]), ends[0].max(ends[1])])
    }

    fn stack(parts: &[Part]) -> Stack {
        let mut stack = Stack::new(Units::Metric);
        for part in parts {
            let one = Contributor::new("one", limits(part.ends)).count(part.count);
            stack.add(one.sensitivity(part.tenths as f64 / 10.0)).unwrap();
        }
        stack
    }

    /// Sum of what a number of each part comes to.
    fn sum(parts: &[Part], number: impl Fn(&Part) -> i64) -> i64 {
        parts.iter().map(|part| i64::from(part.count) * number(part)).sum()
    }

    /// Least and greatest sum, in tenths of a picometre.
    fn extremes(parts: &[Part]) -> [i64; 2] {
        let ends = |part: &Part| part.ends.map(|end| part.tenths * end);
        [
            sum(parts, |part| ends(part)[0].min(ends(part)[1])),
            sum(parts, |part| ends(part)[0].max(ends(part)[1])),
        ]
    }

    /// All ways to lay a tolerance about the middle of a part, by half a picometre where it is not as even.
    fn laid(part: Part, tolerance: i64) -> impl Iterator<Item = Part> {
        let twice = part.ends[0] + part.ends[1] - tolerance;
        let lowers = [twice.div_euclid(2), twice.div_euclid(2) + twice.rem_euclid(2)];
        lowers.into_iter().map(move |lower| Part { ends: [lower, lower + tolerance], ..part })
    }

    fn with(parts: &[Part], place: usize, part: Part) -> Vec<Part> {
        let mut changed = parts.to_vec();
        changed[place] = part;
        changed
    }

    #[test]
    fn what_does_not_spread_is_neither_below_nor_above_its_very_value() {
        let mut stack = Stack::new(Units::Metric);
        for text in ["0.1 +0/-0 mm", "0.2 +0/-0 mm"] {
            stack.add(Contributor::new("shim", Limits::parse(text).unwrap())).unwrap();
        }
        for shift in [MeanShift::Centred, MeanShift::Dynamic, MeanShift::Static] {
            let spread = stack.spread(shift).unwrap();
            assert_eq!(spread, Spread::new(0.3, 0.0, 0.0).unwrap());
            assert_eq!([spread.fraction_below(0.3), spread.fraction_above(0.3)], [0.0; 2]);
            assert_eq!([spread.fraction_below(0.31), spread.fraction_above(0.31)], [1.0, 0.0]);
            assert_eq!([spread.fraction_below(0.29), spread.fraction_above(0.29)], [0.0, 1.0]);
        }
        let sampling = crate::stack::Sampling::new(100, 1).within(0.3, 0.3);
        let sample = stack.sample(&sampling).unwrap();
        assert_eq!([sample.fraction_below().value, sample.fraction_above().value], [0.0; 2]);
        // A mean that may lie half a millimetre off reaches the limits there.
        let spread = Spread::new(10.0, 0.5, 0.0).unwrap();
        assert_eq!([spread.fraction_below(9.5), spread.fraction_above(10.5)], [0.0; 2]);
        assert_eq!([spread.fraction_below(9.75), spread.fraction_above(10.25)], [1.0; 2]);
    }

    #[test]
    fn a_spread_that_no_process_has_is_refused() {
        let told = |mean, shift, sigma| Spread::new(mean, shift, sigma).unwrap_err().to_string();
        assert_eq!(told(0.0, 0.0, -1.0), "sigma must be zero or more, and finite, not -1");
        assert_eq!(told(0.0, -1.0, 1.0), "shift must be zero or more, and finite, not -1");
        assert_eq!(told(f64::NAN, 0.0, 1.0), "mean must be a finite number, not NaN");
        assert!(told(0.0, f64::INFINITY, 1.0).starts_with("shift must be"));
        assert!(told(0.0, 0.0, f64::NAN).starts_with("sigma must be"));
    }

    proptest! {
        #[test]
        fn the_greatest_tolerance_closes_and_a_picometre_more_does_not(
            parts in parts(&[-25, -10, -3, 0, 5, 10, 20]),
            moves in [-20i64..20, -20i64..20],
        ) {
            let wanted = wanted(&parts, moves);
            let closes = |part: Part, place: usize| {
                let [least, greatest] = extremes(&with(&parts, place, part));
                10 * wanted.lower().picometres() <= least && greatest <= 10 * wanted.upper().picometres()
            };
            for (place, &part) in parts.iter().enumerate() {
                let every = |tolerance: i64| laid(part, tolerance).all(|part| closes(part, place));
                let evenness = (part.ends[1] - part.ends[0]) % 2;
                match stack(&parts).greatest_tolerance(place, &wanted, Closure::WorstCase)? {
                    Some(greatest) => {
                        let greatest = greatest.picometres();
                        prop_assert!(every(greatest) && !every(greatest + 1), "{}", greatest);
                        prop_assert_eq!(greatest % 2, evenness);
                    }
                    None => prop_assert!(part.tenths == 0 || !every(evenness)),
                }
            }
        }

        #[test]
        fn the_greatest_tolerance_by_squares_closes_and_two_picometres_more_do_not(
            parts in parts(&[-30, -10, 10, 20]),
            moves in [-20i64..20, -20i64..20],
        ) {
            let wanted = wanted(&parts, moves);
            let twice = sum(&parts, |part| part.tenths * (part.ends[0] + part.ends[1]));
            let ends = [wanted.lower(), wanted.upper()].map(|end| 20 * end.picometres());
            let room = (twice - ends[0]).min(ends[1] - twice);
            for (place, &part) in parts.iter().enumerate() {
                // Four hundred times the square that `room` bounds.
                let square = |tolerance: i64| {
                    let laid = with(&parts, place, Part { ends: [0, tolerance], ..part });
                    sum(&laid, |part| (part.tenths * (part.ends[1] - part.ends[0])).pow(2))
                };
                let evenness = (part.ends[1] - part.ends[0]) % 2;
                match stack(&parts).greatest_tolerance(place, &wanted, Closure::Rss)? {
                    Some(greatest) => {
                        let greatest = greatest.picometres();
                        prop_assert!(0 <= room && square(greatest) <= room * room);
                        // Floats may miss what just fits.
                        prop_assert!(square(greatest + 2) >= room * room);
                        prop_assert_eq!(greatest % 2, evenness);
                    }
                    None => prop_assert!(room < 0 || square(evenness) >= room * room),
                }
            }
        }
    }
}
