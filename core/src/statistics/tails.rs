//! Both tails of a law.

/// The probabilities of at most a point and of more than it.
pub(super) type Tails = [f64; 2];
/// Which of the [`Tails`].
pub(super) const BELOW: usize = 0;
pub(super) const ABOVE: usize = 1;
