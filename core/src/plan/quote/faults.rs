//! What is wrong with a request for quotes.
use super::job::rates_place;
use crate::cost::MAX_PIECES;
use crate::document::DocumentError;
use crate::document::fault::{Fault, FaultKind, Place};

/// The most quantities of a price list.
pub const MAX_QUANTITIES: usize = 10_000;

pub(super) fn fault(kind: FaultKind, at: Place<'_>, message: String) -> DocumentError {
    Fault { kind, place: at.pointer(), line_and_column: None, message }.into()
}

pub(super) fn no_rates() -> DocumentError {
    let message = "the plan has no rates: give `rates` in the document or to the call, with `currency`, `machines`, `operations` and \
                   `material`";
    fault(FaultKind::Missing, rates_place(false), message.into())
}

/// Where no sample has a price.
pub(super) fn never_priced() -> DocumentError {
    let message = "none of the samples makes a plan with a price: narrow what varies, and see `Plan.propagate` for the faults";
    fault(FaultKind::NoAnswer, Place::ROOT.field("varying"), message.into())
}

/// Where a sum is too large to be kept exactly.
pub(super) fn too_large(quantity: u64, is_own: bool) -> DocumentError {
    let message = format!(
        "the amounts for {quantity} pieces are too large to be kept exactly. Fix: quote fewer pieces, or give rates with fewer \
         decimals"
    );
    fault(FaultKind::TooLarge, rates_place(is_own), message)
}

pub(super) fn check(quantities: &[u64]) -> Result<(), DocumentError> {
    let wrong = |message| Err(fault(FaultKind::OutOfRange, Place::ROOT.field("quantities"), message));
    if !(1..=MAX_QUANTITIES).contains(&quantities.len()) {
        return wrong(format!("give 1 to {MAX_QUANTITIES} quantities, not {}", quantities.len()));
    }
    match quantities.iter().find(|quantity| !(1..=MAX_PIECES).contains(quantity)) {
        Some(quantity) => wrong(format!("a quantity must be 1 to {MAX_PIECES} pieces, not {quantity}")),
        None => Ok(()),
    }
}
