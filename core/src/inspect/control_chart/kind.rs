//! The kinds of control charts.
use tenths_macros::Choice;

/// What a control chart plots.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ChartKind {
    /// Means and ranges of subgroups.
    XbarR,
    /// Means and standard deviations of subgroups.
    XbarS,
    /// Single readings and their moving ranges.
    IMr,
    /// Share of defective pieces in samples.
    P,
    /// Count of defective pieces in samples.
    Np,
    /// Count of defects in units of one size.
    C,
    /// Defects for each unit.
    U,
    /// Means that weigh the last readings most, against small lasting shifts.
    Ewma,
    /// Sums of what readings lie off the target, against small lasting shifts.
    Cusum,
}

impl ChartKind {
    /// Whether it is of counts.
    pub(super) const fn counts(self) -> bool {
        matches!(self, ChartKind::P | ChartKind::Np | ChartKind::C | ChartKind::U)
    }
}
