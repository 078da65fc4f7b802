//! How a gauge study is worked out.
use super::error::GaugeStudyError;
use crate::object::UnknownName;
use tenths_macros::Choice;

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

impl StudyMethod {
    /// The method of that name.
    ///
    /// # Errors
    /// [`GaugeStudyError::Name`].
    pub fn parse(text: &str) -> Result<StudyMethod, GaugeStudyError> {
        Ok(UnknownName::or_named("a method of gauge studies", text)?)
    }
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
