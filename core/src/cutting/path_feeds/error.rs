//! Why a path has no feeds.

/// Why a path has no feeds.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PathFeedError {
    /// Columns of different length.
    #[error("{column} must have a value for each segment: {segments}, not {got}")]
    Lengths {
        /// The column.
        column: &'static str,
        /// Its length.
        got: usize,
        /// How many segments there are.
        segments: usize,
    },
    /// A number of a segment that cannot be.
    #[error("segment {segment}: {column} must be {must}, not {value} {unit}")]
    Segment {
        /// The segment, from 0.
        segment: usize,
        /// The column.
        column: &'static str,
        /// What it must be.
        must: &'static str,
        /// The number as given.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A number of the cut that cannot be.
    #[error("{what} must be {must}, not {value}")]
    Number {
        /// Which number.
        what: &'static str,
        /// What it must be.
        must: &'static str,
        /// The number with its unit.
        value: String,
    },
    /// Two numbers that go together, of which one is missing.
    #[error("{given} goes with {missing}: give both")]
    Incomplete {
        /// The one that is there.
        given: &'static str,
        /// The one that is missing.
        missing: &'static str,
    },
    /// A segment without a cut, and no feed to run it at.
    #[error("segment {segment} cuts nothing, so that nothing bounds its feed. Fix: give greatest_feed_rate")]
    AirCut {
        /// The segment, from 0.
        segment: usize,
    },
    /// Numbers so far apart that no feed can be worked out.
    #[error("segment {segment}: no feed can be worked out from numbers of these sizes. Fix: check the units")]
    NoFeed {
        /// The segment, from 0.
        segment: usize,
    },
    /// A spindle speed that the machine does not have.
    #[error("spindle_speed must be within the machine's, {least} to {greatest} {unit}, not {speed} {unit}")]
    SpindleSpeed {
        /// The speed as given.
        speed: f64,
        /// The lowest of the machine.
        least: f64,
        /// The highest of the machine.
        greatest: f64,
        /// Their unit.
        unit: &'static str,
    },
    /// A spindle speed at which the curve of the machine gives nothing.
    #[error(
        "the machine has no power at {speed} {unit}. Fix: check its curve, or take another spindle_speed"
    )]
    NoPower {
        /// The speed.
        speed: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A segment whose limits are below the lowest feed rate.
    #[error(
        "segment {segment}: its limits allow {feed} {unit}, and the lowest feed rate is {least} {unit}. Fix: cut less deep or \
         less wide there"
    )]
    Slow {
        /// The segment, from 0.
        segment: usize,
        /// What its limits allow.
        feed: f64,
        /// The lowest feed rate.
        least: f64,
        /// Their unit.
        unit: &'static str,
    },
    /// A feed at the start that the path cannot take.
    #[error(
        "start_feed_rate of {start} {unit} is more than the first segments allow, which is {allowed} {unit}: they cannot slow \
         down in time. Fix: enter the path more slowly"
    )]
    Start {
        /// The feed as given.
        start: f64,
        /// What the path allows.
        allowed: f64,
        /// Their unit.
        unit: &'static str,
    },
}
