//! Drawing from distributions, so many rows at a time that words and columns stay in the first cache.
//!
//! Normal values are good to 1e-11 of a standard deviation, and uniform ones are the middles of 2^32 or more equal
//! cells: far below what any count of samples could show.
use std::f64::consts::{FRAC_PI_2, LN_2};
use std::sync::Arc;

use super::distribution::{Distribution, trapezoid_halves};
use super::random::{LANES, Stream};
use crate::math::{exp, ln, normal_cdf, normal_quantile};

/// Rows drawn at a time.
pub(crate) const ROWS: usize = 512;

/// A column of drawn values.
pub(crate) type VariateBlock = [f64; ROWS];

/// The random words of a numbered block.
pub(crate) struct RandomSource {
    stream: Stream,
    words: [u64; ROWS],
    singles: [u64; LANES],
    used: usize,
}

impl RandomSource {
    pub(crate) fn new(seed: u64, block: u64) -> RandomSource {
        RandomSource { stream: Stream::new(seed, block), words: [0; ROWS], singles: [0; LANES], used: LANES }
    }

    /// A word for each row.
    #[inline(always)]
    pub(crate) fn words(&mut self) -> &[u64; ROWS] {
        self.stream.fill(&mut self.words);
        &self.words
    }

    /// One word, for laws that take a varying count of them.
    fn word(&mut self) -> u64 {
        if self.used == LANES {
            self.stream.fill(&mut self.singles);
            self.used = 0;
        }
        self.used += 1;
        self.singles[self.used - 1]
    }
}

/// What draws a column of one dimension.
#[derive(Clone, Debug)]
pub(crate) enum Draw {
    Constant(f64),
    Normal {
        mean: f64,
        sigma: f64,
    },
    /// Normal between two ends, given as probabilities of the standard law.
    Truncated {
        mean: f64,
        sigma: f64,
        ends: [f64; 2],
    },
    /// The sum of two uniform laws of these half widths.
    Uniforms {
        middle: f64,
        halves: [f64; 2],
    },
    /// Over `low` to `high`, with its peak after this share of the width.
    Triangle {
        low: f64,
        width: f64,
        peak: f64,
    },
    Beta {
        low: f64,
        width: f64,
        shapes: [Gamma; 2],
    },
    Measured(Arc<[f64]>),
}

impl Draw {
    /// For limits about `middle` with a half band of `half`.
    pub(crate) fn new(distribution: &Distribution, middle: f64, half: f64) -> Draw {
        let needs_band = !matches!(distribution, Distribution::Process { .. } | Distribution::Measured(_));
        if needs_band && half == 0.0 {
            return Draw::Constant(middle);
        }
        let (low, width) = (middle - half, 2.0 * half);
        match distribution {
            Distribution::Normal { cp, shift } => {
                Draw::Normal { mean: middle + shift * half, sigma: half / (3.0 * cp) }
            }
            Distribution::TruncatedNormal { cp, shift } => {
                let ends = [-1.0, 1.0].map(|end| normal_cdf(3.0 * cp * (end - shift)));
                Draw::Truncated { mean: middle + shift * half, sigma: half / (3.0 * cp), ends }
            }
            Distribution::Uniform => Draw::Uniforms { middle, halves: [half, 0.0] },
            Distribution::Triangular { mode: 0.0 } => Draw::Uniforms { middle, halves: [0.5 * half; 2] },
            Distribution::Triangular { mode } => Draw::Triangle { low, width, peak: 0.5 * (1.0 + mode) },
            Distribution::Trapezoid { top } => {
                Draw::Uniforms { middle, halves: trapezoid_halves(*top).map(|share| share * half) }
            }
            Distribution::Beta { alpha, beta } => {
                Draw::Beta { low, width, shapes: [*alpha, *beta].map(Gamma::new) }
            }
            Distribution::Process { mean, sigma } => Draw::Normal { mean: *mean, sigma: *sigma },
            Distribution::Measured(values) => Draw::Measured(values.clone()),
        }
    }

    /// Fills a column.
    #[inline(always)]
    pub(crate) fn fill(&self, source: &mut RandomSource, column: &mut VariateBlock) {
        match self {
            Draw::Constant(value) => column.fill(*value),
            Draw::Normal { mean, sigma } => {
                normals(source.words(), column);
                for value in column {
                    *value = mean + sigma * *value;
                }
            }
            Draw::Truncated { mean, sigma, ends: [low, high] } => {
                let span = high - low;
                for (value, word) in column.iter_mut().zip(source.words()) {
                    *value = mean + sigma * normal_quantile(low + span * (0.5 + centred(*word)));
                }
            }
            Draw::Uniforms { middle, halves: [one, other] } => {
                let (one, other) = (2.0 * one, 2.0 * other);
                for (value, word) in column.iter_mut().zip(source.words()) {
                    let [first, second] = centred_pair(*word);
                    *value = middle + (one * first + other * second);
                }
            }
            Draw::Triangle { low, width, peak } => {
                for (value, word) in column.iter_mut().zip(source.words()) {
                    let share = 0.5 + centred(*word);
                    let (rising, falling) = ((share * peak).sqrt(), ((1.0 - share) * (1.0 - peak)).sqrt());
                    *value = low + width * if share < *peak { rising } else { 1.0 - falling };
                }
            }
            Draw::Beta { low, width, shapes } => {
                for value in column {
                    let [one, other] = [shapes[0].draw(source), shapes[1].draw(source)];
                    *value = low + width * (one / (one + other));
                }
            }
            Draw::Measured(values) => {
                for (value, word) in column.iter_mut().zip(source.words()) {
                    let place = (u128::from(*word) * values.len() as u128) >> 64;
                    *value = values[place as usize];
                }
            }
        }
    }
}

/// From 1 to 2, of the upper 52 bits.
#[inline(always)]
fn from_one_to_two(word: u64) -> f64 {
    f64::from_bits(0x3ff0_0000_0000_0000 | (word >> 12))
}

/// From -1/2 to 1/2: the middles of 2^51 cells.
#[inline(always)]
fn centred(word: u64) -> f64 {
    f64::from_bits(0x3ff0_0000_0000_0001 | (word >> 12)) - 1.5
}

/// Two numbers from -1/2 to 1/2 out of one word, each the middle of one of 2^32 cells.
#[inline(always)]
pub(crate) fn centred_pair(word: u64) -> [f64; 2] {
    // 2^19, whose last bit is half a cell.
    const START: u64 = 0x4120_0000_0000_0001;
    const MIDDLE: f64 = 524_288.5;
    [word >> 31, (word << 1) & 0x1_ffff_ffff].map(|bits| f64::from_bits(START | bits) - MIDDLE)
}

/// Standard normal values by the method of Box and Muller: of each pair of words one gives the radius and one the
/// angle.
#[inline(always)]
pub(crate) fn normals(words: &[u64; ROWS], column: &mut VariateBlock) {
    let (radii, angles) = words.split_at(ROWS / 2);
    let (ones, others) = column.split_at_mut(ROWS / 2);
    let (radii, angles) = (&radii[..ROWS / 2], &angles[..ROWS / 2]);
    let (ones, others) = (&mut ones[..ROWS / 2], &mut others[..ROWS / 2]);
    for row in 0..ROWS / 2 {
        [ones[row], others[row]] = normal_pair(radii[row], angles[row]);
    }
}

#[inline(always)]
fn normal_pair(radius: u64, angle: u64) -> [f64; 2] {
    let radius = (-2.0 * ln_of_share(2.0 - from_one_to_two(radius))).sqrt();
    // An eighth of a turn either way; two bits that the fraction does not use choose the quarter.
    let turn = from_one_to_two(angle) - 1.5;
    let (sine, cosine) = sine_and_cosine(turn);
    let cosine = f64::from_bits(cosine.to_bits() ^ ((angle & 2) << 62));
    let swap = angle & 1 == 0;
    [radius * if swap { sine } else { cosine }, radius * if swap { cosine } else { sine }]
}

/// ln x for x above 0 and up to 1, within 2e-11 of itself: k ln 2 + 2 atanh s with s = (m - 1) / (m + 1).
#[inline(always)]
fn ln_of_share(x: f64) -> f64 {
    const ROOT_HALF: u64 = 0x3fe6_a09e_667f_3bcd;
    const ONE: u64 = 0x3ff0_0000_0000_0000;
    // x = 2^k m, with m from √½ to √2.
    let shifted = x.to_bits().wrapping_add(ONE - ROOT_HALF);
    let k = f64::from_bits(0x4330_0000_0000_0000 | (shifted >> 52)) - (4_503_599_627_370_496.0 + 1023.0);
    let m = f64::from_bits((shifted & 0x000f_ffff_ffff_ffff).wrapping_add(ROOT_HALF));
    let s = (m - 1.0) / (m + 1.0);
    let z = s * s;
    let series = 2.0 + z * (2.0 / 3.0 + z * (0.4 + z * (2.0 / 7.0 + z * (2.0 / 9.0 + z * (2.0 / 11.0)))));
    k * LN_2 + s * series
}

/// Sine and cosine of a quarter turn times `turn`, which is from -1/2 to 1/2: their series to 1e-11.
#[inline(always)]
fn sine_and_cosine(turn: f64) -> (f64, f64) {
    let angle = FRAC_PI_2 * turn;
    let z = angle * angle;
    let sine = 1.0
        - z * (1.0 / 6.0
            - z * (1.0 / 120.0 - z * (1.0 / 5040.0 - z * (1.0 / 362_880.0 - z * (1.0 / 39_916_800.0)))));
    let cosine = 1.0
        - z * (0.5
            - z * (1.0 / 24.0
                - z * (1.0 / 720.0
                    - z * (1.0 / 40_320.0 - z * (1.0 / 3_628_800.0 - z * (1.0 / 479_001_600.0))))));
    (angle * sine, cosine)
}

/// Draws from a gamma law by the method of Marsaglia and Tsang (ACM TOMS 26, 2000).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Gamma {
    d: f64,
    c: f64,
    /// For a shape below 1, the power of a uniform number that brings the law of shape + 1 down to it.
    power: Option<f64>,
}

impl Gamma {
    fn new(shape: f64) -> Gamma {
        let (shape, power) = if shape < 1.0 { (shape + 1.0, Some(1.0 / shape)) } else { (shape, None) };
        let d = shape - 1.0 / 3.0;
        Gamma { d, c: 1.0 / (9.0 * d).sqrt(), power }
    }

    fn draw(&self, source: &mut RandomSource) -> f64 {
        let value = loop {
            let [x, _] = normal_pair(source.word(), source.word());
            let root = 1.0 + self.c * x;
            let cube = root * root * root;
            let share = 0.5 + centred(source.word());
            if cube > 0.0 && ln(share) < 0.5 * x * x + self.d * (1.0 - cube + ln(cube)) {
                break self.d * cube;
            }
        };
        match self.power {
            Some(power) => value * exp(power * ln(0.5 + centred(source.word()))),
            None => value,
        }
    }
}
