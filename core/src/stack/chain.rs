//! Sampling a linear chain.
//!
//! A sum of independent normal quantities is normal, so all normal contributors are drawn as one; symmetric trapezoids
//! and triangles are sums of two uniform laws. What the closing dimension draws is therefore one normal value, some
//! uniform ones, and the rest one by one.
use super::linear::Stack;
use super::sample::{self, Blocks, Model, Sampling};
use super::summary::{self, Sample};
use super::variates::{Draw, ROWS, RandomSource, VariateBlock, centred_pair, normals};
use super::{Distribution, StackError};
use crate::simd::{WideLoop, run_wide};
use crate::watch::Watch;

/// A chain made ready to be drawn.
struct Chain {
    /// What does not vary.
    mean: f64,
    /// Of all normal contributors together.
    sigma: f64,
    /// Widths of uniform laws about zero, two of which share a word.
    pairs: Vec<[f64; 2]>,
    /// Factors of what is drawn for itself, about zero.
    others: Vec<(f64, Draw)>,
}

impl Chain {
    fn new(stack: &Stack) -> Result<Chain, StackError> {
        stack.correlation.mixing()?;
        let (mut mean, mut widths, mut others) = (stack.worst_band()?.mean, Vec::new(), Vec::new());
        let mut variance = 0.0;
        for one in stack.filled()? {
            let (middle, half) = (one.middle(stack.units()), one.half(stack.units()));
            let times = one.count as usize;
            let own = one.distribution.cumulants(middle, half);
            match (&one.distribution, Draw::new(&one.distribution, 0.0, half)) {
                (_, Draw::Constant(_)) => {}
                (law, _) if law.is_normal() => {
                    mean += f64::from(one.count) * one.sensitivity * (own.mean - middle);
                    variance += f64::from(one.count) * one.sensitivity * one.sensitivity * own.variance;
                }
                (_, Draw::Uniforms { halves, .. }) => {
                    let own_widths =
                        halves.iter().filter(|half| **half > 0.0).map(|half| 2.0 * half * one.sensitivity);
                    let own_widths: Vec<f64> = own_widths.collect();
                    (0..times).for_each(|_| widths.extend(&own_widths));
                }
                (Distribution::Measured(_), draw) => {
                    mean -= f64::from(one.count) * one.sensitivity * middle;
                    others.extend((0..times).map(|_| (one.sensitivity, draw.clone())));
                }
                (_, draw) => others.extend((0..times).map(|_| (one.sensitivity, draw.clone()))),
            }
        }
        variance += stack.covariance_sum();
        let pairs = widths.chunks(2).map(|pair| [pair[0], pair.get(1).copied().unwrap_or(0.0)]).collect();
        Ok(Chain { mean, sigma: variance.max(0.0).sqrt(), pairs, others })
    }
}

impl Model for Chain {
    fn fill(&self, source: &mut RandomSource, values: &mut [f64]) -> Result<(), StackError> {
        run_wide(Fill { chain: self, source, values });
        Ok(())
    }
}

struct Fill<'a> {
    chain: &'a Chain,
    source: &'a mut RandomSource,
    values: &'a mut [f64],
}

impl WideLoop for Fill<'_> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        let Fill { chain, source, values } = self;
        let (mut sums, mut column): (VariateBlock, VariateBlock) = ([0.0; ROWS], [0.0; ROWS]);
        for part in values.chunks_mut(ROWS) {
            sums.fill(chain.mean);
            if chain.sigma > 0.0 {
                normals(source.words(), &mut column);
                for (sum, value) in sums.iter_mut().zip(&column) {
                    *sum += chain.sigma * value;
                }
            }
            for [one, other] in &chain.pairs {
                for (sum, word) in sums.iter_mut().zip(source.words()) {
                    let [first, second] = centred_pair(*word);
                    *sum += one * first + other * second;
                }
            }
            for (factor, draw) in &chain.others {
                draw.fill(source, &mut column);
                for (sum, value) in sums.iter_mut().zip(&column) {
                    *sum += factor * value;
                }
            }
            part.copy_from_slice(&sums[..part.len()]);
        }
    }
}

impl Stack {
    /// Samples the closing dimension.
    ///
    /// # Errors
    /// As [`Stack::statistics`], and [`StackError::Sampling`] for a count or limits that are none.
    pub fn sample(&self, sampling: &Sampling) -> Result<Sample, StackError> {
        self.sample_watched(sampling, &Watch::new())
    }

    /// [`Stack::sample`] under a watch, which can stop it and is told how far it is.
    ///
    /// # Errors
    /// As [`Stack::sample`], and [`StackError::Stopped`].
    pub fn sample_watched(&self, sampling: &Sampling, watch: &Watch) -> Result<Sample, StackError> {
        summary::sample(&Chain::new(self)?, sampling, watch)
    }

    /// Samples `count` of the blocks from number `first`, for [`Sample::fold`].
    ///
    /// # Errors
    /// As [`Stack::sample`], and [`StackError::Sampling`] for blocks that the sample does not have.
    pub fn sample_blocks(&self, sampling: &Sampling, first: u64, count: u64) -> Result<Blocks, StackError> {
        self.sample_blocks_watched(sampling, first, count, &Watch::new())
    }

    /// [`Stack::sample_blocks`] under a watch.
    ///
    /// # Errors
    /// As [`Stack::sample_blocks`], and [`StackError::Stopped`].
    pub fn sample_blocks_watched(
        &self,
        sampling: &Sampling,
        first: u64,
        count: u64,
        watch: &Watch,
    ) -> Result<Blocks, StackError> {
        sample::sample_blocks(&Chain::new(self)?, sampling, first, count, watch)
    }
}
