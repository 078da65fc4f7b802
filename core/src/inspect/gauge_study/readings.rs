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

/// Whether a study can be worked out, apart from its readings.
pub(super) fn check_layout(data: &StudyData<'_>, options: &StudyOptions) -> Result<(), GaugeStudyError> {
    let least = |what, got, least| match got < least {
        true => Err(GaugeStudyError::TooFew { what, least, got }),
        false => Ok(()),
    };
    least("parts", data.parts, 2)?;
    least("appraisers", data.appraisers, if options.method == StudyMethod::Nested { 2 } else { 1 })?;
    least("trials", data.trials, 1)?;
    let can_pool = options.method == StudyMethod::Anova && data.appraisers > 1;
    match data.trials {
        1 if !can_pool => return Err(GaugeStudyError::NoRepeatability),
        1 if !options.pool_interaction => return Err(GaugeStudyError::OneTrial),
        _ => {}
    }
    if options.pool_interaction && options.method != StudyMethod::Anova {
        return Err(GaugeStudyError::NoPooling { method: options.method.name() });
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
    check_confidence(options.confidence)
}

/// Whether a confidence is one.
pub(super) fn check_confidence(confidence: f64) -> Result<(), GaugeStudyError> {
    match confidence > 0.0 && confidence < 1.0 {
        true => Ok(()),
        false => Err(GaugeStudyError::Option {
            name: "confidence",
            need: "between 0 and 1, e.g. 0.95",
            value: confidence,
        }),
    }
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

/// Whether the readings of one study show a spread of the gauge.
pub(super) fn check_spread(readings: &[f64], data: &StudyData<'_>) -> Result<(), GaugeStudyError> {
    let all_equal = |readings: &[f64]| readings.iter().all(|reading| *reading == readings[0]);
    // With one trial the appraisers show it.
    let together = if data.trials > 1 { data.trials } else { data.appraisers };
    match readings.chunks_exact(together).all(all_equal) {
        true if all_equal(readings) => Err(GaugeStudyError::NoVariation),
        true => Err(GaugeStudyError::TrialsAgree),
        false => Ok(()),
    }
}

/// Whether each value is a number, that is not a reading of a study of parts and appraisers.
pub(super) fn check_finite(what: &'static str, values: &[f64]) -> Result<(), GaugeStudyError> {
    match values.iter().position(|value| !value.is_finite()) {
        Some(place) => Err(GaugeStudyError::NotFinite { what, place: place + 1, value: values[place] }),
        None => Ok(()),
    }
}

/// Whether each reading of a study is a number.
pub(super) fn check_readings(readings: &[f64]) -> Result<(), GaugeStudyError> {
    match readings.iter().position(|reading| !reading.is_finite()) {
        Some(place) => Err(GaugeStudyError::Reading { place: place + 1, value: readings[place] }),
        None => Ok(()),
    }
}
