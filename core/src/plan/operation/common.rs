//! The fields that operations of every kind have.
use crate::Size;
use crate::document::form::*;
use crate::quantity::{Ratio, Time};

objects! {
    /// What an operation of any kind may have.
    Common {
        /// Its number as the shop writes it; without it 10 times its place in the order. Numbers rise.
        number: Option<u32> where Positive,
        /// Why it is done so, or at that place.
        reason: Option<String>,
        /// The machine that it is done on.
        machine: Option<String>,
        /// The station of the machine or of the line.
        station: Option<String>,
        /// The time to set it up, once for a lot.
        setup: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
        /// The share of the pieces that is scrapped there.
        scrap: DocumentNumber<Ratio> where Share = DocumentNumber::new(0.0),
        /// The coolant, as the shop calls it: `emulsion, 6 percent`, `dry`.
        coolant: Option<String>,
        /// The closest tolerance that the process is known to hold, as a width; without it common practice for its kind.
        holds: Option<Size> where Positive,
    }
}
