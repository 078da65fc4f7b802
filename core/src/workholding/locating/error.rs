//! Why locators cannot be judged, and how many are.

/// The most locators that are judged.
pub const MAX_LOCATORS: usize = 1000;
/// The most locators, and the most clamps, whose forces are weighed against each other.
pub const MAX_CLAMPED: usize = 24;

/// Why locators cannot be judged.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LocatingError {
    /// A coordinate, part of a normal, or error that is not finite, or is beyond any shop.
    #[error("{what} must be finite and at most 1e9, not {value}")]
    NotFinite {
        /// Whose number it is.
        what: String,
        /// The number as given.
        value: f64,
    },
    /// A direction without length.
    #[error("{what} must have a direction, not the length zero. Fix: give e.g. (0, 0, 1)")]
    NoDirection {
        /// Whose direction it is.
        what: String,
    },
    /// A force that does not press.
    #[error("the force of {what} must be greater than zero, not {value}")]
    Force {
        /// Whose force it is.
        what: String,
        /// The force as given.
        value: f64,
    },
    /// A coefficient of friction that no surfaces have.
    #[error("friction must be from 0 to 5, not {value}")]
    Friction {
        /// The coefficient as given.
        value: f64,
    },
    /// More locators than are judged.
    #[error("{count} locators are more than {MAX_LOCATORS}, the most that are judged")]
    TooMany {
        /// How many there are.
        count: usize,
    },
    /// More locators or clamps than are weighed against each other.
    #[error(
        "with clamps, at most {MAX_CLAMPED} locators and {MAX_CLAMPED} clamps are judged, not {locators} and {clamps}"
    )]
    TooManyClamped {
        /// How many locators there are.
        locators: usize,
        /// How many clamps.
        clamps: usize,
    },
    /// Points that do not make a contact.
    #[error("{what}")]
    Contact {
        /// Why not, and the remedy.
        what: &'static str,
    },
    /// Errors for another number of locators.
    #[error("there must be one error for each of the {locators} locators, not {errors}")]
    Errors {
        /// How many locators there are.
        locators: usize,
        /// How many errors were given.
        errors: usize,
    },
    /// A feature that a free motion moves.
    #[error(
        "the shift is open, since the part {motion}. Fix: add a locator, or ask along a direction that it stops"
    )]
    Open {
        /// The motion, in words.
        motion: String,
    },
    /// More locators than freedoms that they stop.
    #[error(
        "{locators} locators stop {held} motions, so the part rests on {held} of them, and which ones depends on the \
         errors. Fix: give only the locators that bear"
    )]
    Redundant {
        /// How many locators there are.
        locators: usize,
        /// How many motions they stop.
        held: usize,
    },
    /// The balance of forces was not found.
    #[error(
        "the balance of clamps and locators could not be found. Fix: give fewer contacts, or their places apart"
    )]
    NoBalance,
}
