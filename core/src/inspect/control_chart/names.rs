//! Kinds of charts, sets of rules and sources of constants by their names.
use super::constants::ConstantSource;
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::rules::RuleSet;

impl ChartKind {
    /// The kind of that name.
    ///
    /// # Errors
    /// [`ControlChartError::UnknownKind`].
    pub fn parse(text: &str) -> Result<ChartKind, ControlChartError> {
        let named = ChartKind::ALL.into_iter().find(|kind| kind.name() == text);
        named.ok_or_else(|| ControlChartError::UnknownKind { text: crate::error::excerpt(text) })
    }
}

impl RuleSet {
    /// The set of that name.
    ///
    /// # Errors
    /// [`ControlChartError::UnknownRules`].
    pub fn parse(text: &str) -> Result<RuleSet, ControlChartError> {
        let named = RuleSet::ALL.into_iter().find(|rules| rules.name() == text);
        named.ok_or_else(|| ControlChartError::UnknownRules { text: crate::error::excerpt(text) })
    }
}

impl ConstantSource {
    /// The source of that name.
    ///
    /// # Errors
    /// [`ControlChartError::UnknownConstants`].
    pub fn parse(text: &str) -> Result<ConstantSource, ControlChartError> {
        let named = ConstantSource::ALL.into_iter().find(|source| source.name() == text);
        named.ok_or_else(|| ControlChartError::UnknownConstants { text: crate::error::excerpt(text) })
    }
}
