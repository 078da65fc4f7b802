//! Kinds of charts, sets of rules and sources of constants by their names.
use super::constants::ConstantSource;
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::rules::RuleSet;
use crate::object::UnknownName;

impl ChartKind {
    /// The kind of that name.
    ///
    /// # Errors
    /// [`ControlChartError::Name`].
    pub fn parse(text: &str) -> Result<ChartKind, ControlChartError> {
        Ok(UnknownName::or_named("a kind of control chart", text)?)
    }
}

impl RuleSet {
    /// The set of that name.
    ///
    /// # Errors
    /// [`ControlChartError::Name`].
    pub fn parse(text: &str) -> Result<RuleSet, ControlChartError> {
        Ok(UnknownName::or_named("a set of rules", text)?)
    }
}

impl ConstantSource {
    /// The source of that name.
    ///
    /// # Errors
    /// [`ControlChartError::Name`].
    pub fn parse(text: &str) -> Result<ConstantSource, ControlChartError> {
        Ok(UnknownName::or_named("a source of constants", text)?)
    }
}
