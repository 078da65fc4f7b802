//! How many pieces of a sample are nonconforming: three laws, each by the ratio of neighbouring probabilities.
//!
//! The probabilities are counted from the most frequent number outward and divided by their sum, so they need neither
//! factorials nor logarithms, and come out the same on every machine.

/// Below this share of the greatest one, a probability counts as zero.
const NOTHING: f64 = 1e-300;

/// Probabilities of `first`, `first + 1` and so on nonconforming pieces.
#[derive(Clone, Debug)]
pub(super) struct Counts {
    first: u64,
    shares: Vec<f64>,
}

impl Counts {
    /// Pieces from a process with a fraction `p` nonconforming.
    pub(super) fn binomial(pieces: u64, p: f64) -> Counts {
        let (n, odds) = (pieces as f64, p / (1.0 - p));
        match p {
            p if p <= 0.0 => Counts::certain(0),
            p if p >= 1.0 => Counts::certain(pieces),
            p => {
                let most = (((n + 1.0) * p) as u64).min(pieces);
                Counts::from_ratios(0, pieces, most, |k| (n - k) / (k + 1.0) * odds)
            }
        }
    }

    /// Pieces from a lot in which `marked` of `lot` are nonconforming.
    pub(super) fn hypergeometric(pieces: u64, lot: u64, marked: u64) -> Counts {
        let (pieces, marked) = (pieces.min(lot), marked.min(lot));
        let (least, greatest) = ((pieces + marked).saturating_sub(lot), pieces.min(marked));
        let (n, d, good) = (pieces as f64, marked as f64, (lot - marked) as f64);
        let most = (((n + 1.0) * (d + 1.0) / (lot as f64 + 2.0)) as u64).clamp(least, greatest);
        Counts::from_ratios(least, greatest, most, |k| (d - k) * (n - k) / ((k + 1.0) * (good - n + k + 1.0)))
    }

    /// Nonconformities, of which there are `mean` on average.
    pub(super) fn poisson(mean: f64) -> Counts {
        match mean > 0.0 {
            true => Counts::from_ratios(0, u64::MAX, mean as u64, |k| mean / (k + 1.0)),
            false => Counts::certain(0),
        }
    }

    fn certain(first: u64) -> Counts {
        Counts { first, shares: vec![1.0] }
    }

    /// `ratio(k)` is the probability of k + 1 over that of k.
    fn from_ratios(least: u64, greatest: u64, most: u64, ratio: impl Fn(f64) -> f64) -> Counts {
        let (mut below, mut share, mut first) = (vec![], 1.0, most);
        while first > least {
            share /= ratio((first - 1) as f64);
            if share < NOTHING {
                break;
            }
            below.push(share);
            first -= 1;
        }
        let mut shares: Vec<f64> = below.into_iter().rev().collect();
        let (mut share, mut k) = (1.0, most);
        loop {
            shares.push(share);
            if k == greatest {
                break;
            }
            share *= ratio(k as f64);
            if share < NOTHING {
                break;
            }
            k += 1;
        }
        let sum: f64 = shares.iter().sum();
        shares.iter_mut().for_each(|share| *share /= sum);
        Counts { first, shares }
    }

    /// The probability of exactly `count`.
    pub(super) fn of(&self, count: u64) -> f64 {
        let place = count.checked_sub(self.first).and_then(|place| usize::try_from(place).ok());
        place.and_then(|place| self.shares.get(place)).copied().unwrap_or(0.0)
    }

    /// The probability of at most `count`.
    pub(super) fn at_most(&self, count: u64) -> f64 {
        (self.first..=count).take(self.shares.len()).map(|count| self.of(count)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // By hand.
    #[test]
    fn small_samples_are_exact() {
        let near = |got: f64, want: f64| assert!((got - want).abs() <= 1e-15, "{got} {want}");
        let two = Counts::binomial(2, 0.25);
        [0.5625, 0.375, 0.0625, 0.0].iter().enumerate().for_each(|(k, want)| near(two.of(k as u64), *want));
        // Two of five from a lot of ten with four marked: 6·36/252 of choosing 4 over 2 and 6 over 3.
        near(Counts::hypergeometric(5, 10, 4).of(2), 6.0 * 20.0 / 252.0);
        near(Counts::hypergeometric(10, 10, 4).of(4), 1.0);
        near(Counts::hypergeometric(8, 10, 4).at_most(1), 0.0);
        // Each of these is its neighbour over k + 1.
        let poisson = Counts::poisson(1.0);
        near(poisson.of(0), poisson.of(1));
        near(poisson.of(2), poisson.of(3) * 3.0);
        for (p, certain) in [(0.0, 0), (1.0, 9)] {
            near(Counts::binomial(9, p).of(certain), 1.0);
        }
        near(Counts::poisson(0.0).at_most(0), 1.0);
    }
}
