//! Money in exact decimals: amounts in the smallest unit of a currency, rounded once by a named rule, and split.
mod amount;
mod exact;
mod rounding;

pub use amount::{Amount, AmountError, MAX_DECIMALS, split_amount};
pub(crate) use exact::Exact;
pub use rounding::Rounding;
