//! What a gauge study comes to.
use super::options::{StudyMethod, StudyOptions};
use super::readings::StudyData;
use std::fmt;
use tenths_macros::{Choice, Object, accessors};

/// A line of an analysis of variance.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct VarianceRow {
    /// What the readings differ by.
    pub source: VarianceSource,
    /// Degrees of freedom.
    pub df: f64,
    /// Sum of squares.
    pub ss: f64,
    /// Mean square; the total has one too, the variance of all readings.
    pub ms: f64,
    /// The mean square over that of the line that it is tested against, where there is one.
    pub f: Option<f64>,
    /// The p value: how likely a ratio this large is where the source has no effect.
    pub p: Option<f64>,
}

/// What readings differ by.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum VarianceSource {
    /// The parts.
    Part,
    /// The appraisers.
    Appraiser,
    /// How much appraisers differ more on some parts than on others.
    Interaction,
    /// What one appraiser finds on one part from trial to trial.
    Repeatability,
    /// Everything.
    Total,
}

/// A component of the variance.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct VarianceComponent {
    /// The variance; zero where its estimate is negative.
    pub variance: f64,
    /// The standard deviation.
    pub sd: f64,
    /// The confidence interval of the variance, from and to; empty where the method has none.
    pub interval: Vec<f64>,
    /// Percent of the total variance.
    pub percent_of_variance: f64,
    /// Percent of the total standard deviation.
    pub percent_of_study: f64,
    /// Percent of the tolerance that the spread takes, where a tolerance was given.
    pub percent_of_tolerance: Option<f64>,
}

/// A study of repeatability and reproducibility.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary)]
pub struct GaugeStudy {
    /// The method.
    pub method: StudyMethod,
    /// How many parts were measured; of a nested study those of each appraiser.
    pub parts: usize,
    /// How many appraisers.
    pub appraisers: usize,
    /// How many trials.
    pub trials: usize,
    /// The width of the tolerance.
    pub tolerance: Option<f64>,
    /// How many standard deviations count as a spread.
    pub study_multiplier: f64,
    /// Whether the interaction was taken for repeatability.
    pub pool_interaction: bool,
    /// The confidence of the intervals.
    pub confidence: f64,
    /// The mean of all readings.
    pub mean: f64,
    /// The analysis of variance; empty for average and range.
    pub table: Vec<VarianceRow>,
    /// What one appraiser finds on one part from trial to trial.
    pub repeatability: VarianceComponent,
    /// How appraisers differ on all parts.
    pub appraiser: VarianceComponent,
    /// How appraisers differ more on some parts than on others.
    pub interaction: VarianceComponent,
    /// Appraiser and interaction together.
    pub reproducibility: VarianceComponent,
    /// Repeatability and reproducibility together.
    pub gauge: VarianceComponent,
    /// How the parts differ.
    pub part: VarianceComponent,
    /// Gauge and parts together.
    pub total: VarianceComponent,
}

#[accessors]
impl GaugeStudy {
    /// How many groups of parts the gauge can tell apart: √2 times the deviation of the parts over that of the gauge,
    /// rounded down, and 1 at least. 5 or more are wanted. Absent where the gauge shows no variation.
    #[field]
    pub fn distinct_categories(&self) -> Option<usize> {
        let ratio = std::f64::consts::SQRT_2 * self.part.sd / self.gauge.sd;
        // The ratio is below 1e16 for any readings that differ, and NaN or infinite where the gauge has no variation.
        ratio.is_finite().then(|| (ratio as usize).max(1))
    }

    /// Percent of the tolerance that the spread of the gauge takes. 10 percent or less is good; over 30 is usually
    /// rejected.
    #[field]
    pub fn percent_of_tolerance(&self) -> Option<f64> {
        self.gauge.percent_of_tolerance
    }

    /// Percent of the total standard deviation that is the gauge's. 10 percent or less is good; over 30 is usually
    /// rejected.
    #[field]
    pub fn percent_of_study(&self) -> f64 {
        self.gauge.percent_of_study
    }

    /// The width of the zone about a limit in which the gauge cannot decide: its spread.
    #[field]
    pub fn undecided_width(&self) -> f64 {
        self.study_multiplier * self.gauge.sd
    }
}

/// Variances of a study, each with its interval: repeatability, appraiser, interaction, reproducibility, gauge, part,
/// total.
pub(super) type Components = [(f64, Vec<f64>); 7];

impl GaugeStudy {
    /// A study of these components.
    pub(super) fn of(
        data: &StudyData<'_>,
        options: &StudyOptions,
        mean: f64,
        table: Vec<VarianceRow>,
        components: Components,
    ) -> GaugeStudy {
        let all = components[6].0;
        let component = |(variance, interval): (f64, Vec<f64>)| {
            let sd = variance.sqrt();
            VarianceComponent {
                variance,
                sd,
                interval,
                percent_of_variance: 100.0 * variance / all,
                percent_of_study: 100.0 * (variance / all).sqrt(),
                percent_of_tolerance: options
                    .tolerance
                    .map(|width| 100.0 * options.study_multiplier * sd / width),
            }
        };
        let [repeatability, appraiser, interaction, reproducibility, gauge, part, total] =
            components.map(component);
        GaugeStudy {
            method: options.method,
            parts: data.parts,
            appraisers: data.appraisers,
            trials: data.trials,
            tolerance: options.tolerance,
            study_multiplier: options.study_multiplier,
            pool_interaction: options.pool_interaction,
            confidence: options.confidence,
            mean,
            table,
            repeatability,
            appraiser,
            interaction,
            reproducibility,
            gauge,
            part,
            total,
        }
    }
}

impl fmt::Display for VarianceComponent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "variance {:.6e}, {:.1} % of the total", self.variance, self.percent_of_variance)
    }
}

impl fmt::Display for GaugeStudy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "gauge study: {:.1} % of the study variation", self.percent_of_study())?;
        if let Some(percent) = self.percent_of_tolerance() {
            write!(f, ", {percent:.1} % of the tolerance")?;
        }
        match self.distinct_categories() {
            Some(1) => write!(f, ", 1 distinct category"),
            Some(count) => write!(f, ", {count} distinct categories"),
            None => Ok(()),
        }
    }
}
