//! Gauge studies. Readings come in as arrays, appraiser by appraiser within each part.
use crate::guard::guard;
use crate::handle::{array, results};
use crate::option::options;
use crate::options::tenths_study_options;
use crate::status::{Failure, tenths_status};
use tenths::inspect::control_chart::{ChartOptions, ControlChartError};
use tenths::inspect::gauge_study::{
    AttributeAgreement, GaugeFigures, GaugeStability, GaugeStudy, GaugeStudyError, StudyData, StudyOptions,
    attribute_agreement, gauge_stability, gauge_studies, gauge_study,
};
use tenths_macros::export;

/// The figures of each study of a batch: see `tenths_gauge_studies`.
pub const TENTHS_STUDY_FIGURES: usize = 22;

/// A study of repeatability and reproducibility: `tenths_make_gauge_study(readings, 90, 10, 3, 3, NULL, &study)`.
///
/// The readings of the first part come first, of these those of the first appraiser, trial by trial. `options` may be null
/// for the usual ones.
#[export(study)]
pub(crate) fn make_gauge_study(
    readings: &[f64],
    parts: usize,
    appraisers: usize,
    trials: usize,
    options: StudyOptions,
) -> Result<GaugeStudy, GaugeStudyError> {
    gauge_study(&StudyData { readings, parts, appraisers, trials }, &options)
}

/// Many studies of one layout by analysis of variance, one after the other in `readings`.
///
/// For each study `figures` takes its first `width` figures, up to `TENTHS_STUDY_FIGURES`: the mean of all readings; sums
/// of squares of parts, appraisers, interaction and repeatability; their mean squares; the ratios of the first three;
/// their p values; the variances of repeatability, appraiser, interaction, reproducibility, gauge, part and total. A figure
/// that a study has not is NaN. `options` may be null for the usual ones.
///
/// # Safety
/// `readings` has `count` numbers; `figures` has room for `width` numbers of each study.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_gauge_studies(
    readings: *const f64,
    count: usize,
    parts: usize,
    appraisers: usize,
    trials: usize,
    options: *const tenths_study_options,
    figures: *mut f64,
    width: usize,
) -> tenths_status {
    guard(|| {
        // On an error the first figure is NaN.
        // SAFETY: the caller's promise.
        unsafe { results(figures, width.min(1)) }?;
        if figures.is_null() {
            return Err(Failure::Null("figures"));
        }
        if width > TENTHS_STUDY_FIGURES {
            let expected = TENTHS_STUDY_FIGURES;
            return Err(Failure::Elements { what: "figures of a study", expected, got: width });
        }
        // SAFETY: the caller's promises.
        let (readings, options) = unsafe { (array(readings, count, "readings")?, self::options(options)?) };
        let made = gauge_studies(&StudyData { readings, parts, appraisers, trials }, &options)?;
        // SAFETY: the caller's promise of room for the figures of each study.
        let Some(to) = unsafe { results(figures, made.len() * width) }? else { return Ok(()) };
        for (to, figures) in to.chunks_exact_mut(width).zip(&made) {
            for (to, figure) in to.iter_mut().zip(GaugeFigures::to_array(figures)) {
                *to = figure;
            }
        }
        Ok(())
    })
}

/// Whether a gauge reads one master the same from day to day: a control chart, and the drift of its points, of single
/// readings by `tenths_make_gauge_stability(readings, 20, NULL, 0, NULL, 0.95, &stability)`.
///
/// `sizes` are the readings of each session; one size holds for all, and `sizes` may be null for single readings. `options`
/// may be null for the usual ones.
#[export(stability, sizes = size_count, readings = count)]
pub(crate) fn make_gauge_stability(
    readings: &[f64],
    sizes: Option<&[f64]>,
    options: ChartOptions,
    confidence: f64,
) -> Result<GaugeStability, ControlChartError> {
    gauge_stability(readings, sizes.unwrap_or_default(), &options, confidence)
}

/// How far appraisers agree who judge parts by attributes.
///
/// `ratings` are numbers of categories, appraiser by appraiser within each part, trial by trial. `reference` has the true
/// rating of each part; `reference` may be null where it is not known.
#[export(agreement, reference = reference_count)]
pub(crate) fn make_attribute_agreement(
    ratings: &[usize],
    parts: usize,
    appraisers: usize,
    trials: usize,
    reference: Option<&[usize]>,
    confidence: f64,
) -> Result<AttributeAgreement, GaugeStudyError> {
    attribute_agreement(ratings, [parts, appraisers, trials], reference.unwrap_or_default(), confidence)
}
