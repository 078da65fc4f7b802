//! The readings of a gauge study, and whether it can be worked out from them.
use super::error::GaugeStudyError;
use super::options::{StudyMethod, StudyOptions};

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

/// Whether a study can be worked out, but for its readings.
pub(super) fn check_layout(data: &StudyData<'_>, options: &StudyOptions) -> Result<(), GaugeStudyError> {
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

/// Whether a study can be worked out.
pub(super) fn check(data: &StudyData<'_>, options: &StudyOptions) -> Result<(), GaugeStudyError> {
    check_layout(data, options)?;
    let expected = data.parts.checked_mul(data.appraisers).and_then(|n| n.checked_mul(data.trials));
    if expected != Some(data.readings.len()) {
        let expected = expected.unwrap_or(usize::MAX);
        return Err(GaugeStudyError::Count { expected, got: data.readings.len() });
    }
    check_readings(data.readings)
}

/// Whether each reading is a number.
pub(super) fn check_readings(readings: &[f64]) -> Result<(), GaugeStudyError> {
    match readings.iter().position(|reading| !reading.is_finite()) {
        Some(place) => Err(GaugeStudyError::Reading { place: place + 1, value: readings[place] }),
        None => Ok(()),
    }
}
