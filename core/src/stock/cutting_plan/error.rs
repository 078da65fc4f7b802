//! Why there is no cutting plan.
use crate::error::excerpt;
use crate::size::{Size, SizeError};
use crate::watch::Stopped;

/// Why there is no cutting plan.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CuttingError {
    /// No bar to cut from.
    #[error("there are no bars to cut from: give at least one bar length")]
    NoBars,
    /// A length, kerf, trim, remnant or allowance that cannot be.
    #[error("{what} must be {}, not {size}", if *positive { "greater than zero" } else { "zero or more" })]
    Negative {
        /// What it is of.
        what: &'static str,
        /// The size as given.
        size: Size,
        /// Whether zero is refused too.
        positive: bool,
    },
    /// A piece that no bar holds.
    #[error("a piece of {length} does not fit: the longest bar leaves {longest} for one piece")]
    PieceTooLong {
        /// The length of the piece.
        length: Size,
        /// The longest piece that a bar holds.
        longest: Size,
    },
    /// Prices for some bars only.
    #[error("some bars have a price and some have none: give a price for each kind of bar, or for none")]
    MixedPrices,
    /// A price that is no amount.
    #[error("a price must be zero or more, at most 1 000 000 000 and to a millionth, not {price}")]
    Price {
        /// The price as given.
        price: f64,
    },
    /// The bars at hand do not hold all pieces.
    #[error("the bars do not hold all pieces: {}", excerpt(bars))]
    NotEnoughBars {
        /// The bars at hand, in words.
        bars: String,
    },
    /// The search was ended before any plan was found.
    #[error("no plan was found within the limits of the search: allow more time or work")]
    NoPlanYet,
    /// The order is larger than is counted.
    #[error(
        "the order is too large: the bars together must be at most 9 000 km long, and the pieces at most 10¹²"
    )]
    TooLarge,
    /// Two orders of one name.
    #[error("two orders are named {name:?}: give each order a name of its own")]
    OrderTwice {
        /// The name.
        name: String,
    },
    /// A size cannot be formed.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// The search was stopped by its watch.
    #[error(transparent)]
    Stopped(#[from] Stopped),
}
