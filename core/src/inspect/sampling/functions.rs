//! Sampling plans by the names of what is wanted, as C and Python ask for them.
use super::error::SamplingError;
use super::kinds::{InspectionLevel, InspectionSeverity, LotModel, PlanKind, SigmaKnowledge};
use super::performance::PlanPerformance;
use super::plan::{PlanRequest, SamplingPlan};
use super::switching::Switching;
use super::variables::VariablesPlan;
use tenths_macros::function;

/// The sampling plan of a standard for a lot and an AQL.
///
/// A plan whose table was not seen in print is refused: make one from your copy of the standard by its samples.
///
/// # Errors
/// As [`SamplingPlan::of_standard`].
#[function(gives = "plan", example(1000, 1.0, "II", "normal", "single", "ISO 2859-1"))]
pub fn sampling_plan(
    /// Pieces of the lot.
    lot: u64,
    /// The acceptance quality limit, in percent; above 10, nonconformities per hundred pieces.
    #[pure]
    aql: f64,
    /// The inspection level: `I`, `II`, `III` or `S-1` to `S-4`.
    #[text]
    #[default("II")]
    level: InspectionLevel,
    /// How strict the inspection is: `normal`, `tightened` or `reduced`.
    #[text]
    #[default("normal")]
    severity: InspectionSeverity,
    /// The kind of plan: `single`, `double` or `multiple`.
    #[text]
    #[default("single")]
    kind: PlanKind,
    /// The standard: `ISO 2859-1`, `ANSI/ASQ Z1.4` or `MIL-STD-105E`, which share their tables.
    #[default("ISO 2859-1".into())]
    standard: &str,
) -> Result<SamplingPlan, SamplingError> {
    SamplingPlan::of_standard(&PlanRequest { lot, aql, level, severity, kind, standard })
}

/// The plan by variables with the fewest pieces that keeps both risks.
///
/// It judges a lot by the mean of measured pieces, which must be normal. Its risks are those of one limit.
///
/// # Errors
/// As [`VariablesPlan::new`].
#[function(gives = "plan", example(1, 5, 0.05, 0.1, "unknown"))]
pub fn variables_plan(
    /// The percentage beyond a limit of lots that are to be accepted.
    #[pure]
    aql: f64,
    /// The percentage beyond a limit of lots that are to be rejected.
    #[pure]
    ltpd: f64,
    /// The share of lots at the AQL that are rejected, at the most.
    #[pure]
    #[default(0.05)]
    producer_risk: f64,
    /// The share of lots at the LTPD that are accepted, at the most.
    #[pure]
    #[default(0.1)]
    consumer_risk: f64,
    /// `unknown`, where the standard deviation of the sample is taken, or `known`.
    #[text]
    #[default("unknown")]
    sigma: SigmaKnowledge,
) -> Result<VariablesPlan, SamplingError> {
    VariablesPlan::new(aql, ltpd, producer_risk, consumer_risk, sigma)
}

/// What a plan does to lots of a fraction, a point of its operating characteristic.
///
/// # Errors
/// [`SamplingError`] for samples, a lot or a fraction that cannot be.
#[function(
    c = "tenths_sampling_performance",
    gives = "performance",
    only_c,
    example("80/2/3", 0, 0.01, "binomial")
)]
pub fn sampling_performance(
    /// The samples of the plan, such as `80/2/3` or `1/0/1`.
    samples: &str,
    /// Pieces of the lot.
    lot: Option<u64>,
    /// The fraction of nonconforming pieces: 0.01 is 1 percent.
    #[pure]
    fraction: f64,
    /// `binomial` for lots from a process, `hypergeometric` for lots of this size with that share, or `poisson` for
    /// nonconformities.
    #[text]
    #[default("binomial")]
    model: LotModel,
) -> Result<PlanPerformance, SamplingError> {
    SamplingPlan::parse(samples, lot, InspectionSeverity::Normal)?.performance(fraction, model)
}

/// What a plan does to lots of the fraction at which most nonconforming pieces go out.
///
/// The average outgoing quality is then its limit, the AOQL.
///
/// # Errors
/// [`SamplingError`] for samples or a lot that cannot be.
#[function(
    c = "tenths_sampling_worst_outgoing",
    gives = "performance",
    only_c,
    example("80/2/3", 0, "binomial")
)]
pub fn sampling_worst_outgoing(
    /// The samples of the plan, such as `80/2/3` or `1/0/1`.
    samples: &str,
    /// Pieces of the lot.
    lot: Option<u64>,
    /// `binomial` for lots from a process, `hypergeometric` for lots of this size with that share, or `poisson` for
    /// nonconformities.
    #[text]
    #[default("binomial")]
    model: LotModel,
) -> Result<PlanPerformance, SamplingError> {
    SamplingPlan::parse(samples, lot, InspectionSeverity::Normal)?.worst_outgoing(model)
}

/// The share of lots with a fraction beyond the limit that a plan by variables accepts.
///
/// # Errors
/// [`SamplingError`] for a plan or a fraction that cannot be.
#[function(
    c = "tenths_variables_acceptance",
    gives = "probability",
    only_c,
    example(28, 1.82, "unknown", 0.01)
)]
pub fn variables_acceptance(
    /// Pieces of the sample.
    sample_size: u64,
    /// The acceptability constant.
    #[pure]
    k: f64,
    /// `unknown`, where the standard deviation of the sample is taken, or `known`.
    #[text]
    #[default("unknown")]
    sigma: SigmaKnowledge,
    /// The fraction beyond the limit: 0.01 is 1 percent.
    #[pure]
    fraction: f64,
) -> Result<f64, SamplingError> {
    VariablesPlan::of(sample_size, k, sigma)?.acceptance_probability(fraction)
}

/// A plan of one's own samples, single, double or multiple.
///
/// # Errors
/// As [`SamplingPlan::parse`].
#[function(gives = "plan", only_c, example("50/1/4, 50/4/5", 0, "normal"))]
pub fn staged_plan(
    /// The samples with commas between them: `50/1/4, 50/4/5`, `20/-/5, 20/3/8, 20/7/8` or `1/0/1`. Each has its pieces, its
    /// acceptance number, `-` where it accepts no lot, and its rejection number; the numbers count the nonconforming pieces
    /// of all samples so far.
    samples: &str,
    /// Pieces of the lot.
    lot: Option<u64>,
    /// How strict the inspection is: `normal`, `tightened` or `reduced`.
    #[text]
    #[default("normal")]
    severity: InspectionSeverity,
) -> Result<SamplingPlan, SamplingError> {
    SamplingPlan::parse(samples, lot, severity)
}

/// Where the inspection of a series of lots stands.
///
/// # Errors
/// As [`Switching::after_all`].
#[function(gives = "switching", only_c, example("normal", "A3 A3 R0 A2", true))]
pub fn switching(
    /// The severity at the start: `normal`, `tightened` or `reduced`.
    #[text]
    severity: InspectionSeverity,
    /// The lots so far: `A` for an accepted one and `R` for a rejected one, each with its points of the switching score
    /// where they are known, such as `A3 A3 R0 A2`.
    lots: Option<&str>,
    /// Whether production is steady and whoever is responsible wants reduced inspection.
    steady: bool,
) -> Result<Switching, SamplingError> {
    Switching::start(severity).after_all(lots.unwrap_or_default(), steady)
}
