//! Why there are no stability lobes.

/// Why there are no stability lobes, or no stable cut.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StabilityError {
    /// No mode at all.
    #[error("there are no modes: give at least one, as frequency, stiffness and damping ratio")]
    NoModes,
    /// More modes, points or lobes than are worked out.
    #[error("{count} {what} are too many: at most {most}")]
    TooMany {
        /// What there are too many of.
        what: &'static str,
        /// The most that are taken.
        most: usize,
        /// How many there are.
        count: usize,
    },
    /// A number of a mode that cannot be.
    #[error("mode {place}: {what} must be {must}, not {value}")]
    Mode {
        /// The place of the mode, from 0.
        place: usize,
        /// Which number.
        what: &'static str,
        /// What it must be.
        must: &'static str,
        /// The number with its unit.
        value: String,
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
    /// Several teeth without a cut that they enter and leave.
    #[error(
        "{teeth} teeth need an engagement: give the radial width and the cutter's diameter, or entry and exit angle. \
         A turning or boring tool has 1 tooth"
    )]
    Teeth {
        /// How many.
        teeth: u32,
    },
    /// Few points of a measured response.
    #[error("a measured response needs at least {least} points, not {count}")]
    TooFew {
        /// How many it needs.
        least: usize,
        /// How many there are.
        count: usize,
    },
    /// Columns of different length.
    #[error("{column} must have as many values as frequency has: {points}, not {got}")]
    Lengths {
        /// The column.
        column: &'static str,
        /// Its length.
        got: usize,
        /// The length of the frequencies.
        points: usize,
    },
    /// A point of a measured response that is not a number.
    #[error("row {row}: {column} must be {must}, not {value}. Fix: measure it again or leave the row out")]
    Point {
        /// The row, from 0.
        row: usize,
        /// The column.
        column: &'static str,
        /// What it must be.
        must: &'static str,
        /// The number as given.
        value: f64,
    },
    /// Frequencies that do not rise.
    #[error(
        "row {row}: frequency {frequency} Hz is not above the {before} Hz of the row before. Fix: sort the rows"
    )]
    Unsorted {
        /// The row, from 0.
        row: usize,
        /// Its frequency.
        frequency: f64,
        /// That of the row before.
        before: f64,
    },
    /// A gap in a measured response.
    #[error(
        "the response has a hole between {from} Hz and {to} Hz, more than 5 times as wide as the steps beside it. \
         Fix: measure there, or give the part with your mode alone"
    )]
    Hole {
        /// The frequency before it.
        from: f64,
        /// The frequency after it.
        to: f64,
    },
    /// A response whose imaginary part has the wrong sign.
    #[error(
        "{column} is above zero where it is greatest, at {frequency} Hz: a deflection lags behind its force, so it must be \
         below zero there. Fix: change its sign, or give the deflection and not the acceleration"
    )]
    Sign {
        /// The column.
        column: &'static str,
        /// Where.
        frequency: f64,
    },
    /// A second direction in turning.
    #[error(
        "a turning or boring cut takes the response along the chip's thickness alone: leave out the one across"
    )]
    Across,
    /// A range of spindle speeds that cannot be.
    #[error("the spindle speeds must be above 0 and rise, not {least} to {greatest} rev/min")]
    Range {
        /// The least.
        least: f64,
        /// The greatest.
        greatest: f64,
    },
    /// No vibration lies in the way of the chip.
    #[error(
        "no depth of cut makes these vibrate: nothing moves along the chip's thickness. Fix: check the directions of modes \
         and force"
    )]
    NoChatter,
    /// No speed of the range is stable at the depth.
    #[error(
        "no spindle speed from {least} to {greatest} rev/min is stable at that depth: the deepest stable cut there is {deepest}"
    )]
    NothingStable {
        /// The least speed.
        least: f64,
        /// The greatest speed.
        greatest: f64,
        /// The deepest stable cut with its unit.
        deepest: String,
    },
    /// The geometry of a tool that has no mode.
    #[error(transparent)]
    Tool(#[from] crate::Error),
}
