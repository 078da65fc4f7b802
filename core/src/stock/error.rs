//! Why there is no answer about stock.
use crate::size::{Size, SizeError};

/// Why there is no answer about stock.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StockError {
    /// No form of bar has this name.
    #[error("no form of bar is called {name:?}; expected round, hexagon, square, tube, flat or plate")]
    UnknownForm {
        /// The name as given.
        name: String,
    },
    /// The form needs a second dimension.
    #[error("form {form}: {dimension} is missing. Fix: give {dimension} beside the size")]
    Missing {
        /// The name of the form.
        form: &'static str,
        /// What it needs.
        dimension: &'static str,
    },
    /// The form has another second dimension, or none.
    #[error("form {form} has no {surplus}; expected {}", needed.map_or("the size alone".into(), |name| format!("size and {name}")))]
    Surplus {
        /// The name of the form.
        form: &'static str,
        /// What is given beyond it.
        surplus: &'static str,
        /// What it needs beside its size.
        needed: Option<&'static str>,
    },
    /// No list of bar sizes has this name.
    #[error("no list of bar sizes is called {name:?}; expected {}", names.join(", "))]
    UnknownList {
        /// The name as given.
        name: String,
        /// The names that there are.
        names: Vec<&'static str>,
    },
    /// A list of sizes without any.
    #[error("there are no sizes to choose from: give at least one")]
    NoSizes,
    /// Every size is too small.
    #[error(
        "no size is at least {least}; the largest of {list} is {largest}. Fix: take another list, or forge or cut it from plate"
    )]
    TooSmall {
        /// What is needed.
        least: Size,
        /// What the sizes come from.
        list: String,
        /// The largest of them, at its lower limit.
        largest: Size,
    },
    /// A length that cannot be.
    #[error("{what} must be {}, not {size}", if *positive { "greater than zero" } else { "zero or more" })]
    Length {
        /// What it is of.
        what: &'static str,
        /// The size as given.
        size: Size,
        /// Whether zero is refused too.
        positive: bool,
    },
    /// A part that a bar does not hold.
    #[error("a part of {part} does not fit in a bar of {bar}: trim and remnant leave {room} for parts")]
    PartTooLong {
        /// The length of the part, with its facing allowance.
        part: Size,
        /// The length of the bar.
        bar: Size,
        /// What is left of it for parts.
        room: Size,
    },
    /// A share of good pieces that cannot be.
    #[error("the yield must be above 0 and at most 1, e.g. 0.95, not {share}")]
    Yield {
        /// The share as given.
        share: f64,
    },
    /// More than is counted.
    #[error("the order is too large: at most 10¹² pieces, and 9 000 km of bar")]
    TooLarge,
    /// An amount of money that cannot be.
    #[error("{what} of {name:?} must be zero or more and at most 1 000 000 000, not {amount}")]
    Money {
        /// What it is.
        what: &'static str,
        /// What it belongs to.
        name: String,
        /// The amount as given.
        amount: f64,
    },
    /// A time that cannot be.
    #[error("{what} of {name:?} must be {} to 5000000000 min, not {minutes} min", if *signed { -5e9 } else { 0.0 })]
    Time {
        /// What it is.
        what: &'static str,
        /// What it belongs to.
        name: String,
        /// The time as given.
        minutes: f64,
        /// Whether it may be below zero.
        signed: bool,
    },
    /// Nothing to choose from, or nothing to do.
    #[error("there are no {what}: give at least one")]
    Nothing {
        /// What is missing.
        what: &'static str,
    },
    /// A name given twice.
    #[error("{name:?} is named twice: give each {what} a name of its own")]
    Twice {
        /// What it names.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// A size cannot be formed.
    #[error(transparent)]
    Size(#[from] SizeError),
}
