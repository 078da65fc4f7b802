//! Gauge studies. Readings come in as arrays, appraiser by appraiser within each part.
use crate::control_chart::optional;
use crate::guard::guard;
use crate::handle::{array, results};
use crate::object::write;
use crate::objects::{tenths_attribute_agreement, tenths_gauge_stability, tenths_gauge_study};
use crate::option::options;
use crate::options::{tenths_chart_options, tenths_study_options};
use crate::status::{Failure, tenths_status};
use tenths::Units;
use tenths::inspect::gauge_study::{
    GaugeFigures, StudyData, attribute_agreement, gauge_stability, gauge_studies, gauge_study,
};

/// The figures of each study of a batch: see `tenths_gauge_studies`.
pub const TENTHS_STUDY_FIGURES: usize = 22;

/// A study of repeatability and reproducibility: `tenths_make_gauge_study(readings, 90, 10, 3, 3, NULL, &study)`.
///
/// The readings of the first part come first, of these those of the first appraiser, trial by trial. `options` may be null
/// for the usual ones.
///
/// # Safety
/// `readings` has `count` numbers; `study->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_gauge_study(
    readings: *const f64,
    count: usize,
    parts: usize,
    appraisers: usize,
    trials: usize,
    options: *const tenths_study_options,
    study: *mut tenths_gauge_study,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (readings, options) =
                unsafe { (array(readings, count, "readings")?, self::options(options)?) };
            Ok(gauge_study(&StudyData { readings, parts, appraisers, trials }, &options)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(study, "study", Units::Metric, made) }
    })
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

/// Whether a gauge reads one master the same from day to day: a control chart, and the drift of its points.
///
/// `sizes` are the readings of each session; one size holds for all, and `sizes` may be null for single readings. `options`
/// may be null for the usual ones.
///
/// # Safety
/// Each array has as many numbers as its count; `stability->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_gauge_stability(
    readings: *const f64,
    count: usize,
    sizes: *const f64,
    size_count: usize,
    options: *const tenths_chart_options,
    confidence: f64,
    stability: *mut tenths_gauge_stability,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (readings, sizes, options) = unsafe {
                (
                    array(readings, count, "readings")?,
                    optional(sizes, size_count, "sizes")?,
                    self::options(options)?,
                )
            };
            Ok(gauge_stability(readings, sizes, &options, confidence)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(stability, "stability", Units::Metric, made) }
    })
}

/// How far appraisers agree who judge parts by attributes.
///
/// `ratings` are numbers of categories, appraiser by appraiser within each part, trial by trial. `reference` has the true
/// rating of each part; `reference` may be null where it is not known.
///
/// # Safety
/// Each array has as many elements as its count; `agreement->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_attribute_agreement(
    ratings: *const usize,
    count: usize,
    parts: usize,
    appraisers: usize,
    trials: usize,
    reference: *const usize,
    reference_count: usize,
    confidence: f64,
    agreement: *mut tenths_attribute_agreement,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (ratings, reference) = unsafe {
                (array(ratings, count, "ratings")?, optional(reference, reference_count, "reference")?)
            };
            Ok(attribute_agreement(ratings, [parts, appraisers, trials], reference, confidence)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(agreement, "agreement", Units::Metric, made) }
    })
}
