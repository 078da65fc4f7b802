//! What a sample tells.
use std::sync::OnceLock;

use super::StackError;
use super::moments::SampleMoments;
use super::sample::{Blocks, Model, Sampling, Summary, sample_blocks};
use super::select::{pilot, select};
use super::sketch::Sketch;
use crate::math::normal_quantile;
use crate::watch::Watch;
use tenths_macros::Object;

/// What a sample tells.
#[derive(Clone, Debug)]
pub struct Sample {
    sampling: Sampling,
    moments: SampleMoments,
    below: u64,
    above: u64,
    undefined: u64,
    summaries: Vec<Summary>,
    values: Vec<f64>,
    sketch: Sketch,
    pilot: OnceLock<Vec<f64>>,
}

/// A value, and by how much it may be off either way.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Percentile {
    /// The value.
    pub value: f64,
    /// The greatest distance from it of the sample's own percentile: zero where that is exact.
    pub error: f64,
}

/// A share of all pieces, and an interval that holds it with a stated confidence.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct Fraction {
    /// The share in the sample.
    pub value: f64,
    /// Lower end of the interval.
    pub lower: f64,
    /// Upper end of the interval.
    pub upper: f64,
}

/// Samples a model whole.
pub(crate) fn sample<M: Model + ?Sized>(
    model: &M,
    sampling: &Sampling,
    watch: &Watch,
) -> Result<Sample, StackError> {
    sampling.check()?;
    Sample::fold([sample_blocks(model, sampling, 0, sampling.blocks(), watch)?])
}

impl Sample {
    /// Folds the blocks of a sample into one, in any order and portions.
    ///
    /// # Errors
    /// [`StackError::Sampling`] where blocks are missing, come twice, or are not of one sample, and
    /// [`StackError::Undefined`] where no value is defined.
    pub fn fold(portions: impl IntoIterator<Item = Blocks>) -> Result<Sample, StackError> {
        let mut portions: Vec<Blocks> = portions.into_iter().collect();
        portions.sort_by_key(|portion| (portion.first, portion.count()));
        let fault = |text: String| Err(StackError::Sampling(text));
        let Some(first) = portions.first() else {
            return fault("there are no blocks to fold".into());
        };
        // How many threads drew a portion does not matter.
        let sampling = first.sampling;
        let is_same = |other: &Sampling| Sampling { threads: sampling.threads, ..*other } == sampling;
        if !portions.iter().all(|portion| is_same(&portion.sampling)) {
            return fault("these blocks are of different samples".into());
        }
        if !portions.iter().all(|portion| portion.may_go_with(&portions[0])) {
            return fault("these blocks are of different stacks or functions".into());
        }
        let mut next = 0;
        for portion in &portions {
            if portion.first != next {
                let what = if portion.first > next { "is missing" } else { "comes twice" };
                return fault(format!("block {} {what}", next.min(portion.first)));
            }
            next += portion.count();
        }
        if next != sampling.blocks() {
            return fault(format!("block {next} is missing: the sample has {}", sampling.blocks()));
        }
        Sample::of(sampling, portions)
    }

    fn of(sampling: Sampling, portions: Vec<Blocks>) -> Result<Sample, StackError> {
        let (mut moments, mut below, mut above, mut undefined) = (SampleMoments::NONE, 0, 0, 0);
        for block in portions.iter().flat_map(|portion| &portion.summaries) {
            moments = moments.and(block.moments);
            below += block.below;
            above += block.above;
            undefined += block.undefined;
        }
        if moments.count == 0 {
            return Err(StackError::Undefined { at: "any of the samples".into(), reason: None });
        }
        let grid = portions.first().map(|portion| portion.sketch.grid()).unwrap_or_default();
        let (mut summaries, mut values, mut sketch) = (Vec::new(), Vec::new(), Sketch::new(grid));
        for portion in portions {
            summaries.extend(portion.summaries);
            sketch.merge(&portion.sketch);
            // The usual one portion is taken as it is.
            if values.is_empty() { values = portion.values } else { values.extend(portion.values) }
        }
        Ok(Sample {
            sampling,
            moments,
            below,
            above,
            undefined,
            summaries,
            values,
            sketch,
            pilot: OnceLock::new(),
        })
    }

    /// All of its blocks, of which [`Sample::fold`] makes the same sample; as bytes they can be kept or sent.
    pub fn to_blocks(&self) -> Blocks {
        Blocks {
            sampling: self.sampling,
            first: 0,
            summaries: self.summaries.clone(),
            values: self.values.clone(),
            sketch: self.sketch.clone(),
            probe: f64::NAN,
        }
    }

    /// Values that were sampled elsewhere, NaN where there is none, as many as the sampling counts.
    pub(crate) fn of_values(sampling: &Sampling, values: Vec<f64>) -> Result<Sample, StackError> {
        let given = values.len();
        let values: Vec<f64> = values.into_iter().filter(|value| !value.is_nan()).collect();
        let moments = SampleMoments::of(&values);
        let (low, high) = sampling.limits;
        let count =
            |is_out: &dyn Fn(f64) -> bool| values.iter().filter(|value| is_out(**value)).count() as u64;
        let summary = Summary {
            moments,
            below: count(&|value| value < low),
            above: count(&|value| value > high),
            undefined: (given - values.len()) as u64,
        };
        let sketch = Sketch::default();
        Sample::of(
            *sampling,
            vec![Blocks {
                sampling: *sampling,
                first: 0,
                summaries: vec![summary],
                values,
                sketch,
                probe: f64::NAN,
            }],
        )
    }

    /// How it was taken.
    pub fn sampling(&self) -> &Sampling {
        &self.sampling
    }

    /// How many samples were taken, the undefined ones too.
    pub fn count(&self) -> u64 {
        self.sampling.count
    }

    /// How many samples have no value, because the function is not defined there. The moments, extremes and
    /// percentiles are those of the others; they count as out of limits.
    pub fn undefined(&self) -> u64 {
        self.undefined
    }

    /// Mean.
    pub fn mean(&self) -> f64 {
        self.moments.mean
    }

    /// Standard deviation, over the count less one; NaN for a single value.
    pub fn sigma(&self) -> f64 {
        self.moments.sigma()
    }

    /// Third standardised moment, zero for a symmetrical law; NaN where nothing spreads.
    pub fn skewness(&self) -> f64 {
        self.moments.skewness()
    }

    /// Fourth standardised moment, 3 for a normal law; NaN where nothing spreads.
    pub fn kurtosis(&self) -> f64 {
        self.moments.kurtosis()
    }

    /// Standard error of the mean.
    pub fn mean_error(&self) -> f64 {
        self.sigma() / (self.moments.count as f64).sqrt()
    }

    /// Standard error of the standard deviation, for a law of this kurtosis.
    pub fn sigma_error(&self) -> f64 {
        let excess = (self.kurtosis() - 1.0).max(0.0);
        self.sigma() * 0.5 * (excess / self.moments.count as f64).sqrt()
    }

    /// The least value.
    pub fn minimum(&self) -> f64 {
        self.moments.minimum
    }

    /// The greatest value.
    pub fn maximum(&self) -> f64 {
        self.moments.maximum
    }

    /// The defined values in the order in which they were drawn; none where only a sketch was kept.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The value that so many percent of the sample do not exceed.
    ///
    /// # Errors
    /// As [`Sample::percentiles`].
    pub fn percentile(&self, percent: f64) -> Result<Percentile, StackError> {
        Ok(self.percentiles(&[percent])?[0])
    }

    /// Several percentiles at once, which takes little longer than one.
    ///
    /// Between two values of the sample the percentile is linear, with the first at 0 and the last at 100 percent. It
    /// is exact where all values were kept. Otherwise it is the middle of what it surely lies in, and tells by how
    /// much it may be off: at most 1e-4 standard deviations within one of the median, and 1e-3 within fifteen,
    /// wherever the values lie. Of a law of which no value was defined in 16 384 trials it may be more.
    ///
    /// # Errors
    /// [`StackError::Sampling`] for a percentage beyond 0 to 100.
    pub fn percentiles(&self, percents: &[f64]) -> Result<Vec<Percentile>, StackError> {
        self.percentiles_watched(percents, &Watch::new())
    }

    /// [`Sample::percentiles`] under a watch, for many percentages of a large sample.
    ///
    /// # Errors
    /// As [`Sample::percentiles`], and [`StackError::Stopped`].
    pub fn percentiles_watched(
        &self,
        percents: &[f64],
        watch: &Watch,
    ) -> Result<Vec<Percentile>, StackError> {
        if let Some(percent) = percents.iter().find(|percent| !(0.0 <= **percent && **percent <= 100.0)) {
            return Err(StackError::Sampling(format!("a percentage must be from 0 to 100, not {percent}")));
        }
        let last = self.moments.count - 1;
        let ranks: Vec<f64> = percents.iter().map(|percent| last as f64 * (percent / 100.0)).collect();
        if self.values.is_empty() {
            return Ok(ranks.iter().map(|rank| self.of_sketch(*rank as u64, *rank)).collect());
        }
        let pilot = self.pilot.get_or_init(|| pilot(&self.values));
        let exact = |value| Percentile { value, error: 0.0 };
        let threads = self.sampling.threads;
        Ok(select(&self.values, pilot, &ranks, threads, watch)?.into_iter().map(exact).collect())
    }

    fn of_sketch(&self, rank: u64, exact_rank: f64) -> Percentile {
        let last = self.moments.count - 1;
        if rank == 0 && exact_rank == 0.0 {
            return Percentile { value: self.minimum(), error: 0.0 };
        }
        if rank == last {
            return Percentile { value: self.maximum(), error: 0.0 };
        }
        // The percentile lies between two values, of which each lies in a bin.
        let ends_of = |rank| match self.sketch.bin_of(rank) {
            Some([low, high]) => [low.max(self.minimum()), high.min(self.maximum())],
            None => [self.maximum(); 2],
        };
        let share = exact_rank - rank as f64;
        let (one, next) = (ends_of(rank), if share > 0.0 { ends_of(rank + 1) } else { [0.0; 2] });
        let [low, high] = [0, 1].map(|end| match share > 0.0 {
            true => one[end] + share * (next[end] - one[end]),
            false => one[end],
        });
        Percentile { value: low + 0.5 * (high - low), error: 0.5 * (high - low) }
    }

    /// Share of the pieces below the lower limit, with an interval of 95 percent confidence.
    pub fn fraction_below(&self) -> Fraction {
        self.fraction(self.below, 0.95)
    }

    /// Share of the pieces above the upper limit, with an interval of 95 percent confidence.
    pub fn fraction_above(&self) -> Fraction {
        self.fraction(self.above, 0.95)
    }

    /// Share of the pieces outside the limits, those that are not defined among them, with an interval of 95 percent
    /// confidence.
    pub fn fraction_out(&self) -> Fraction {
        self.fraction_out_at(0.95)
    }

    /// [`Sample::fraction_out`] with another confidence, from 0 to 1: NaN ends beyond.
    pub fn fraction_out_at(&self, confidence: f64) -> Fraction {
        self.fraction(self.below + self.above + self.undefined, confidence)
    }

    /// Share of the pieces below any number, with an interval of 95 percent confidence.
    ///
    /// # Errors
    /// [`StackError::Sampling`] for a number that is not finite, and where only a sketch was kept, of more than 2^24 samples: limits that the
    /// sampling itself is given are counted exactly there too.
    pub fn fraction_under(&self, number: f64) -> Result<Fraction, StackError> {
        if !number.is_finite() {
            return Err(StackError::Sampling(format!("the number must be finite, not {number}")));
        }
        if self.values.is_empty() && self.sampling.count > self.undefined {
            return Err(StackError::Sampling(
                "of more than 2^24 samples the values are not kept: give the number as a limit of the sampling".into(),
            ));
        }
        Ok(self.fraction(self.values.iter().map(|value| u64::from(*value < number)).sum(), 0.95))
    }

    fn fraction(&self, count: u64, confidence: f64) -> Fraction {
        wilson(count, self.sampling.count, confidence)
    }

    /// Counts in so many equal bins from the least to the greatest value, and the ends of the bins.
    ///
    /// Where only a sketch was kept, a value counts where the middle of its own narrow bin lies.
    ///
    /// # Errors
    /// [`StackError::Sampling`] for no bins, or more than 100 000.
    pub fn histogram(&self, bins: usize) -> Result<(Vec<u64>, Vec<f64>), StackError> {
        if !(1..=100_000).contains(&bins) {
            return Err(StackError::Sampling(format!("a histogram must have 1 to 100 000 bins, not {bins}")));
        }
        let (low, high) = (self.minimum(), self.maximum());
        let width = (high - low) / bins as f64;
        let mut counts = vec![0; bins];
        let mut count = |value: f64, times: u64| {
            let bin = if width > 0.0 { ((value - low) / width) as usize } else { 0 };
            counts[bin.min(bins - 1)] += times;
        };
        self.values.iter().for_each(|value| count(*value, 1));
        self.sketch.bins().for_each(|([first, last], times)| count(first + 0.5 * (last - first), times));
        let ends = (0..=bins).map(|bin| if bin == bins { high } else { low + width * bin as f64 }).collect();
        Ok((counts, ends))
    }
}

/// Wilson's score interval (Journal of the American Statistical Association 22, 1927) for a share of which a sample
/// has `count` of `of`.
pub(crate) fn wilson(count: u64, of: u64, confidence: f64) -> Fraction {
    let (n, value) = (of as f64, count as f64 / of as f64);
    let z = normal_quantile(0.5 + 0.5 * confidence);
    let square = z * z;
    let middle = value + square / (2.0 * n);
    let half = z * (value * (1.0 - value) / n + square / (4.0 * n * n)).sqrt();
    let whole = 1.0 + square / n;
    Fraction {
        value,
        lower: if count == 0 { 0.0 } else { (middle - half) / whole },
        upper: if count == of { 1.0 } else { (middle + half) / whole },
    }
}

impl PartialEq for Sample {
    fn eq(&self, other: &Sample) -> bool {
        let threads = self.sampling.threads;
        self.sampling == Sampling { threads, ..other.sampling }
            && self.moments == other.moments
            && (self.below, self.above, self.undefined) == (other.below, other.above, other.undefined)
            && self.values == other.values
            && self.sketch == other.sketch
    }
}
