//! Complex numbers, as far as the laws of chatter take them.
use std::ops::{Add, Mul, Sub};

#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Complex {
    pub(super) re: f64,
    pub(super) im: f64,
}

impl Complex {
    pub(super) const ZERO: Complex = Complex { re: 0.0, im: 0.0 };

    pub(super) fn scaled(self, by: f64) -> Complex {
        Complex { re: by * self.re, im: by * self.im }
    }

    /// The square of its length.
    pub(super) fn square_length(self) -> f64 {
        self.re * self.re + self.im * self.im
    }

    pub(super) fn length(self) -> f64 {
        self.square_length().sqrt()
    }

    pub(super) fn inverse(self) -> Complex {
        let square = self.square_length();
        Complex { re: self.re / square, im: -self.im / square }
    }

    /// The square root on the right of the imaginary axis.
    pub(super) fn sqrt(self) -> Complex {
        let length = self.length();
        let re = (0.5 * (length + self.re)).max(0.0).sqrt();
        let im = (0.5 * (length - self.re)).max(0.0).sqrt();
        Complex { re, im: if self.im < 0.0 { -im } else { im } }
    }
}

impl Add for Complex {
    type Output = Complex;
    fn add(self, other: Complex) -> Complex {
        Complex { re: self.re + other.re, im: self.im + other.im }
    }
}

impl Sub for Complex {
    type Output = Complex;
    fn sub(self, other: Complex) -> Complex {
        self + other.scaled(-1.0)
    }
}

impl Mul for Complex {
    type Output = Complex;
    fn mul(self, other: Complex) -> Complex {
        Complex { re: self.re * other.re - self.im * other.im, im: self.re * other.im + self.im * other.re }
    }
}
