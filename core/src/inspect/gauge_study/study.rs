//! A study of repeatability and reproducibility by any method.
use super::error::GaugeStudyError;
use super::options::{StudyMethod, StudyOptions};
use super::readings::{StudyData, check, check_spread};
use super::result::GaugeStudy;
use super::{anova, ranges, sums};

/// A study of repeatability and reproducibility.
///
/// # Errors
/// [`GaugeStudyError`].
pub fn gauge_study(data: &StudyData<'_>, options: &StudyOptions) -> Result<GaugeStudy, GaugeStudyError> {
    check(data, options)?;
    let sums = sums::of_one(data, options.method == StudyMethod::Nested);
    if !(sums.part[0] + sums.appraiser[0] + sums.interaction[0] + sums.repeatability[0]).is_finite() {
        return Err(GaugeStudyError::TooLarge { what: "readings" });
    }
    check_spread(data.readings, data)?;
    match options.method {
        StudyMethod::Anova | StudyMethod::Nested => Ok(anova::study(data, &sums, options)),
        StudyMethod::AverageRange => ranges::study(data, &sums, options),
    }
}
