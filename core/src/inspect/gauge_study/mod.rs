//! Gauge studies: how much of what a gauge shows is the gauge, and how much the parts.
//!
//! Several appraisers measure the same parts several times. The analysis of variance splits what their readings differ
//! by into parts, appraisers, their interaction and repeatability; the older average and range method does so from
//! ranges.
//!
//! Source: AIAG, Measurement Systems Analysis, 4th ed., chapter III; R. K. Burdick, C. M. Borror and D. C. Montgomery,
//! Design and Analysis of Gauge R&R Studies, 2005, for the intervals.

mod agreement;
mod anova;
mod batch;
mod bias;
mod intervals;
mod ranges;
mod sums;

pub use agreement::{AppraiserScore, AttributeAgreement, Kappa, attribute_agreement};
pub use batch::{GaugeFigures, gauge_studies};
pub use bias::{
    GaugeBias, GaugeLinearity, GaugeStability, Regression, gauge_bias, gauge_linearity, gauge_stability,
    regression,
};

use std::fmt;
use tenths_macros::{Choice, Object, accessors};

/// How a gauge study is worked out.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum StudyMethod {
    /// Analysis of variance: every appraiser measures every part.
    #[default]
    Anova,
    /// Average and range: the same, from ranges, without an interaction.
    AverageRange,
    /// Analysis of variance where each appraiser has parts of their own, as when measuring destroys them.
    Nested,
}

/// Readings of a gauge study, appraiser by appraiser within each part, trial by trial within each appraiser.
///
/// Of a nested study `parts` are those of one appraiser.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StudyData<'a> {
    /// The readings.
    pub readings: &'a [f64],
    /// How many parts.
    pub parts: usize,
    /// How many appraisers.
    pub appraisers: usize,
    /// How many times each appraiser measured each part.
    pub trials: usize,
}

/// What a gauge study is asked for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StudyOptions {
    /// The method.
    pub method: StudyMethod,
    /// The width of the tolerance that the gauge judges, in the unit of the readings.
    pub tolerance: Option<f64>,
    /// How many standard deviations count as the spread of the gauge: 6, or 5.15 for 99 percent.
    pub study_multiplier: f64,
    /// Whether the interaction is taken for repeatability.
    pub pool_interaction: bool,
    /// The confidence of the intervals.
    pub confidence: f64,
}

impl Default for StudyOptions {
    fn default() -> Self {
        StudyOptions {
            method: StudyMethod::Anova,
            tolerance: None,
            study_multiplier: 6.0,
            pool_interaction: false,
            confidence: 0.95,
        }
    }
}

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
    /// The probability of so large a ratio where the source has no effect.
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
    /// rounded down, and 1 at least. 5 or more are wanted. Nothing where the gauge shows no variation.
    #[field]
    pub fn distinct_categories(&self) -> Option<usize> {
        let ratio = std::f64::consts::SQRT_2 * self.part.sd / self.gauge.sd;
        // The ratio is below 1e16 for any readings that differ, and NaN or infinite where the gauge has no variation.
        ratio.is_finite().then(|| (ratio as usize).max(1))
    }

    /// Percent of the tolerance that the spread of the gauge takes. 10 is good, and over 30 is not accepted as a rule.
    #[field]
    pub fn percent_of_tolerance(&self) -> Option<f64> {
        self.gauge.percent_of_tolerance
    }

    /// Percent of the total standard deviation that is the gauge's. 10 is good, and over 30 is not accepted as a rule.
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

/// Why a study has no answer.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum GaugeStudyError {
    /// A text that names no method.
    #[error("`{text}` is not a method of gauge studies; expected anova, average_range or nested")]
    UnknownMethod {
        /// The text as given.
        text: String,
    },
    /// Too few parts, appraisers, trials or readings.
    #[error("{what} must be {least} or more, not {got}")]
    TooFew {
        /// Of what.
        what: &'static str,
        /// The least that will do.
        least: usize,
        /// How many there are.
        got: usize,
    },
    /// A count of readings that is not that of the study.
    #[error(
        "{got} readings were given; expected {expected}, one for each trial of each appraiser on each part"
    )]
    Count {
        /// How many there must be.
        expected: usize,
        /// How many there are.
        got: usize,
    },
    /// A reading that is not a finite number.
    #[error(
        "reading {place} must be a finite number, not {value}. Fix: measure again, or leave the part out of the study"
    )]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// Its value.
        value: f64,
    },
    /// Readings that are all alike.
    #[error(
        "the readings do not vary, so that nothing can be told of the gauge. Fix: read to a finer resolution"
    )]
    NoVariation,
    /// One trial, which leaves no repeatability.
    #[error(
        "one trial does not tell repeatability from interaction. Fix: measure each part twice, or pool the interaction"
    )]
    OneTrial,
    /// A method that has no factors for the study.
    #[error("average_range takes up to {most} {what}, not {got}. Fix: use anova")]
    Ranges {
        /// Of what.
        what: &'static str,
        /// The most that it takes.
        most: usize,
        /// How many there are.
        got: usize,
    },
    /// An option out of range.
    #[error("{name} must be {need}, not {value}")]
    Option {
        /// Its name.
        name: &'static str,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// Average and range in a batch.
    #[error("average_range has no batch. Fix: use anova")]
    NoBatch,
    /// Readings and references that do not go together.
    #[error("{x} references and {y} readings were given; expected a reference for each reading")]
    Pairs {
        /// How many references.
        x: usize,
        /// How many readings.
        y: usize,
    },
    /// References that are all alike.
    #[error(
        "all references are alike, so that there is no line. Fix: measure references over the range of the gauge"
    )]
    OneReference,
    /// More different ratings than anybody can tell apart.
    #[error(
        "{got} different ratings were found; expected {most} or fewer. Fix: use gauge_study for measurements"
    )]
    Categories {
        /// The most that are taken.
        most: usize,
        /// How many there are.
        got: usize,
    },
    /// True ratings of another count than that of the parts.
    #[error("{got} reference ratings were given; expected one for each of {parts} parts")]
    References {
        /// How many parts.
        parts: usize,
        /// How many there are.
        got: usize,
    },
}

/// A study of repeatability and reproducibility.
///
/// # Errors
/// [`GaugeStudyError`].
pub fn gauge_study(data: &StudyData<'_>, options: &StudyOptions) -> Result<GaugeStudy, GaugeStudyError> {
    check(data, options)?;
    let sums = sums::of_one(data, options.method == StudyMethod::Nested);
    if sums.part[0] + sums.appraiser[0] + sums.interaction[0] + sums.repeatability[0] == 0.0 {
        return Err(GaugeStudyError::NoVariation);
    }
    match options.method {
        StudyMethod::Anova | StudyMethod::Nested => Ok(anova::study(data, &sums, options)),
        StudyMethod::AverageRange => ranges::study(data, &sums, options),
    }
}

/// Whether a study can be worked out, but for its readings.
fn check_layout(data: &StudyData<'_>, options: &StudyOptions) -> Result<(), GaugeStudyError> {
    let least = |what, got, least| match got < least {
        true => Err(GaugeStudyError::TooFew { what, least, got }),
        false => Ok(()),
    };
    least("parts", data.parts, 2)?;
    least("appraisers", data.appraisers, if options.method == StudyMethod::Nested { 2 } else { 1 })?;
    least("trials", data.trials, 1)?;
    let pooled = options.method == StudyMethod::Anova && options.pool_interaction && data.appraisers > 1;
    if data.trials == 1 && !pooled {
        return Err(GaugeStudyError::OneTrial);
    }
    let positive = |value: f64| value > 0.0 && value.is_finite();
    let need = "a finite number above zero";
    if let Some(value) = options.tolerance.filter(|tolerance| !positive(*tolerance)) {
        return Err(GaugeStudyError::Option { name: "tolerance", need, value });
    }
    if !positive(options.study_multiplier) {
        return Err(GaugeStudyError::Option {
            name: "study_multiplier",
            need,
            value: options.study_multiplier,
        });
    }
    if !(options.confidence > 0.0 && options.confidence < 1.0) {
        let need = "between 0 and 1";
        return Err(GaugeStudyError::Option { name: "confidence", need, value: options.confidence });
    }
    Ok(())
}

fn check(data: &StudyData<'_>, options: &StudyOptions) -> Result<(), GaugeStudyError> {
    check_layout(data, options)?;
    let expected = data.parts.checked_mul(data.appraisers).and_then(|n| n.checked_mul(data.trials));
    if expected != Some(data.readings.len()) {
        let expected = expected.unwrap_or(usize::MAX);
        return Err(GaugeStudyError::Count { expected, got: data.readings.len() });
    }
    check_readings(data.readings)
}

fn check_readings(readings: &[f64]) -> Result<(), GaugeStudyError> {
    match readings.iter().position(|reading| !reading.is_finite()) {
        Some(place) => Err(GaugeStudyError::Reading { place: place + 1, value: readings[place] }),
        None => Ok(()),
    }
}

impl StudyMethod {
    /// The method of that name.
    ///
    /// # Errors
    /// [`GaugeStudyError::UnknownMethod`].
    pub fn parse(text: &str) -> Result<StudyMethod, GaugeStudyError> {
        let named = StudyMethod::ALL.into_iter().find(|method| method.name() == text);
        named.ok_or_else(|| GaugeStudyError::UnknownMethod { text: crate::error::excerpt(text) })
    }
}

/// Variances of a study, each with its interval: repeatability, appraiser, interaction, reproducibility, gauge, part,
/// total.
type Components = [(f64, Vec<f64>); 7];

impl GaugeStudy {
    /// A study of these components.
    fn of(
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

#[cfg(test)]
mod tests;
