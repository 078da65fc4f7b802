//! Pieces to start, so that enough of them come through every operation.
use crate::money::Exact;
use tenths_macros::{Choice, Object};

/// The most good pieces that can be wanted.
pub const MAX_PIECES: u64 = 1_000_000_000;

/// Where pieces to start are rounded up.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum StartRule {
    /// At every operation, backwards from the good pieces.
    #[default]
    EachOperation,
    /// Once, from the rolled yield of an operation and all that follow it.
    Rolled,
}

/// Pieces to start at each operation.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct StartQuantities {
    /// The good pieces that are wanted.
    #[pure]
    pub good: u64,
    /// Pieces that start at each operation, in the order of the work.
    #[pure]
    pub starts: Vec<u64>,
    /// Pieces that start at the first operation.
    #[pure]
    pub start_quantity: u64,
    /// Good pieces over rolled yield, not rounded.
    #[pure]
    pub rolled: f64,
    /// The share of pieces that come through every operation.
    #[pure]
    pub rolled_yield: f64,
}

/// What is wrong with a chain of scrap.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StartError {
    /// A share that cannot be.
    #[error(
        "the scrap of operation {operation} must be a share from 0 up to but not 1, e.g. 0.02, not {got}"
    )]
    Scrap {
        /// The operation, counted from 1.
        operation: usize,
        /// What was given.
        got: f64,
    },
    /// More pieces than are counted.
    #[error("1 to {MAX_PIECES} good pieces can be wanted, and as many started, not {got}")]
    TooMany {
        /// How many.
        got: String,
    },
}

/// Pieces to start for good pieces through operations that scrap a share each. Shares are read to nine decimals.
///
/// Backwards from the good pieces, each operation starts those of the next over its own yield, rounded up at every
/// operation, or once from the rolled yield. In exact decimals a quotient that is a whole number is not raised.
///
/// ```
/// use tenths::cost::{StartRule, start_quantities};
/// let chain = start_quantities(100, &[0.03, 0.05, 0.02, 0.08], StartRule::EachOperation)?;
/// assert_eq!(chain.starts, [122, 118, 112, 109]);
/// # Ok::<(), tenths::cost::StartError>(())
/// ```
///
/// # Errors
/// [`StartError`].
pub fn start_quantities(good: u64, scrap: &[f64], rule: StartRule) -> Result<StartQuantities, StartError> {
    let read = |(at, &given): (usize, &f64)| {
        let share = Exact::of_float(given);
        if is_scrap(share) { Ok(share) } else { Err(StartError::Scrap { operation: at + 1, got: given }) }
    };
    let shares = scrap.iter().enumerate().map(read).collect::<Result<Vec<_>, _>>()?;
    let starts = starts(good, &shares, rule).ok_or_else(|| StartError::TooMany { got: good.to_string() })?;
    let rolled_yield = shares.iter().fold(1.0, |product, share| product * (Exact::ONE - *share).to_f64());
    Ok(StartQuantities {
        good,
        start_quantity: starts.first().copied().unwrap_or(good),
        rolled: good as f64 / rolled_yield,
        rolled_yield,
        starts,
    })
}

/// Whether a share of pieces can be scrapped, and some are left.
fn is_scrap(share: Exact) -> bool {
    Exact::ZERO <= share && share < Exact::ONE
}

/// The starts of each operation; nothing where there are too many.
pub(crate) fn starts(good: u64, scrap: &[Exact], rule: StartRule) -> Option<Vec<u64>> {
    let within = |pieces: u64| (1..=MAX_PIECES).contains(&pieces).then_some(pieces);
    let mut needed = Exact::whole(within(good)?.into());
    let mut starts = vec![0; scrap.len()];
    for (start, share) in starts.iter_mut().zip(scrap).rev() {
        let exact = needed / (Exact::ONE - *share);
        let whole = exact.ceil()?;
        *start = within(u64::try_from(whole).ok()?)?;
        needed = match rule {
            StartRule::EachOperation => Exact::whole(whole),
            StartRule::Rolled => exact,
        };
    }
    Some(starts)
}

#[cfg(test)]
mod tests {
    use super::*;

    // 190 / 0.95 = 200 and 200 / 0.5 = 400, by hand: no piece is added to a quotient that is whole.
    #[test]
    fn a_whole_quotient_is_not_raised() {
        let chain = |rule| start_quantities(190, &[0.5, 0.05], rule).unwrap().starts;
        assert_eq!(chain(StartRule::EachOperation), [400, 200]);
        assert_eq!(chain(StartRule::Rolled), [400, 200]);
    }

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let refused =
            |good, scrap| start_quantities(good, &[scrap], StartRule::Rolled).unwrap_err().to_string();
        let need = "the scrap of operation 1 must be a share from 0 up to but not 1, e.g. 0.02, not 1";
        assert_eq!(refused(10, 1.0), need);
        assert_eq!(refused(0, 0.1), "1 to 1000000000 good pieces can be wanted, and as many started, not 0");
        assert!(refused(10, f64::NAN).ends_with("not NaN") && refused(10, -0.1).ends_with("not -0.1"));
    }
}
