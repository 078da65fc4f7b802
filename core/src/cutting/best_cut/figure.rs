//! A figure of a cut as a power of what is chosen, and products of figures.
use super::program::{MAX_UNKNOWNS, Vector};
use crate::math::{ln, powf};

/// What divides a range in two, seen from its least end.
const MIDDLE: f64 = 0.5;

/// A figure between two planes of the same slopes, all in logarithms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure {
    pub low: f64,
    pub high: f64,
    pub slopes: Vector,
}

impl Figure {
    pub fn constant(value: f64) -> Figure {
        let level = if value > 0.0 { ln(value) } else { f64::NEG_INFINITY };
        Figure { low: level, high: level, slopes: [0.0; MAX_UNKNOWNS] }
    }
}

/// `factor · Π figure^exponent`, the figures by place.
#[derive(Clone, Debug)]
pub(super) struct Product {
    pub factor: f64,
    pub parts: Vec<(usize, f64)>,
}

impl Product {
    pub fn of(place: usize) -> Product {
        Product { factor: 1.0, parts: vec![(place, 1.0)] }
    }

    pub fn times(&self, factor: f64) -> Product {
        Product { factor: self.factor * factor, parts: self.parts.clone() }
    }

    pub fn inverse(&self) -> Product {
        Product {
            factor: 1.0 / self.factor,
            parts: self.parts.iter().map(|&(place, by)| (place, -by)).collect(),
        }
    }

    /// Its value, from those of the figures.
    pub fn value(&self, figures: &[f64]) -> f64 {
        let powers = self.parts.iter().map(|&(place, by)| match by {
            1.0 => figures[place],
            -1.0 => 1.0 / figures[place],
            by => powf(figures[place], by),
        });
        powers.fold(self.factor, |product, power| product * power)
    }

    pub fn figure(&self, figures: &[Figure]) -> Figure {
        let mut product = Figure::constant(self.factor);
        for &(place, by) in &self.parts {
            let Figure { low, high, slopes } = figures[place];
            let (low, high) = if by > 0.0 { (low, high) } else { (high, low) };
            product.low += by * low;
            product.high += by * high;
            product.slopes.iter_mut().zip(&slopes).for_each(|(to, slope)| *to += by * slope);
        }
        product
    }
}

/// A stretch of an argument in which figures are not known to be straight.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Stretch {
    pub low: f64,
    pub high: f64,
}

impl Stretch {
    pub fn is_point(&self) -> bool {
        self.low == self.high
    }

    pub fn middle(&self) -> f64 {
        self.low + MIDDLE * (self.high - self.low)
    }
}
