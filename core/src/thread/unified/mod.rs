//! Limits of Unified inch threads, ASME B1.1.
//!
//! The formulas are from memory. What they are rounded to was settled by the figures of reprinted tables, all of
//! which in `tests/published/thread_limits.csv` are met exactly.
pub(super) mod series;

use super::diameters::{Basic, Diameters, ThreadError};
use super::profile::{TO_MINOR, TO_PITCH, TO_ROOT};
use crate::math::cbrt;
use crate::{Limits, Size};
use std::fmt;

/// The standard, with its edition.
pub(super) const STANDARD: &str = "ASME B1.1-2003";

/// A series of diameters and threads per inch.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Series {
    Coarse,
    Fine,
    ExtraFine,
    Constant,
    Special,
}

/// A class of thread: `2A` is external, `2B` internal.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct UnifiedClass {
    pub number: u8,
    pub internal: bool,
}

/// What a Unified designation says, without its class. Lengths are in ten-thousandths of an inch.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct UnifiedThread {
    pub nominal: i64,
    /// Twice the threads per inch, which is whole for 4 1/2 and 11 1/2 too.
    pub half_threads: i64,
    pub series: Series,
    /// UNR: the root of an external thread is rounded.
    pub rounded_root: bool,
}

impl fmt::Display for Series {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Series::Coarse => "C",
            Series::Fine => "F",
            Series::ExtraFine => "EF",
            Series::Constant => "",
            Series::Special => "S",
        })
    }
}

impl fmt::Display for UnifiedClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.number, if self.internal { 'B' } else { 'A' })
    }
}

impl UnifiedClass {
    pub(super) fn parse(text: &str) -> Option<UnifiedClass> {
        let (number, internal) = match text.as_bytes() {
            [number @ b'1'..=b'3', b'A'] => (number - b'0', false),
            [number @ b'1'..=b'3', b'B'] => (number - b'0', true),
            _ => return None,
        };
        Some(UnifiedClass { number, internal })
    }

    /// By how many thousandths of the tolerance of class 2A that of the pitch diameter counts.
    const fn factor(self) -> i64 {
        match (self.number, self.internal) {
            (1, false) => 1500,
            (3, false) => 750,
            (1, true) => 1950,
            (2, true) => 1300,
            (_, true) => 975,
            _ => 1000,
        }
    }
}

/// Inches as whole millionths, to which the standard rounds what it computes with.
fn millionths(inches: f64) -> i64 {
    (inches * 1e6).round() as i64
}

/// `numerator / denominator` to the nearest whole number, and to the even one where two are as near.
pub(super) const fn nearest(numerator: i64, denominator: i64) -> i64 {
    let (whole, rest) = (numerator.div_euclid(denominator), numerator.rem_euclid(denominator));
    let up = 2 * rest > denominator || 2 * rest == denominator && whole % 2 != 0;
    if up { whole + 1 } else { whole }
}

/// Millionths of an inch, to the nearest ten-thousandth.
const fn tenths(millionths: i64) -> i64 {
    nearest(millionths, 100)
}

/// From a count of ten-thousandths of an inch.
pub(super) const fn size(tenths: i64) -> Size {
    Size::from_picometres(tenths * 2_540_000)
}

impl UnifiedThread {
    pub(super) fn pitch(self) -> f64 {
        2.0 / self.half_threads as f64
    }

    fn diameter(self) -> f64 {
        self.nominal as f64 / 1e4
    }

    /// Length of engagement on which the tolerance is based: the diameter for coarse and fine threads and for 4 to 8
    /// threads per inch of the constant-pitch series, else nine pitches.
    fn engagement(self) -> f64 {
        match self.series {
            Series::Coarse | Series::Fine => self.diameter(),
            Series::Constant if self.half_threads <= 16 => self.diameter(),
            // 1-14 UNS was once the fine thread of one inch, and kept its limits.
            Series::Special if (self.nominal, self.half_threads) == (10_000, 28) => self.diameter(),
            _ => 9.0 * self.pitch(),
        }
    }

    /// Tolerance of the pitch diameter in class 2A, in millionths of an inch.
    fn pitch_tolerance(self) -> i64 {
        let p = self.pitch();
        millionths(0.0015 * cbrt(self.diameter()) + 0.0015 * self.engagement().sqrt() + 0.015 * cbrt(p * p))
    }

    /// Tolerance of the major diameter of an external thread, in millionths of an inch.
    fn major_tolerance(self, class: UnifiedClass) -> i64 {
        let p = self.pitch();
        millionths(if class.number == 1 { 0.09 } else { 0.06 } * cbrt(p * p))
    }

    /// Tolerance of the minor diameter of an internal thread, in millionths of an inch.
    fn minor_tolerance(self, class: UnifiedClass) -> i64 {
        let (p, d) = (self.pitch(), self.diameter());
        let flat = if self.half_threads >= 8 { 0.25 * p - 0.4 * p * p } else { 0.15 * p };
        let fine = 0.05 * cbrt(p * p) + 0.03 * p / d - 0.002;
        millionths(match class.number {
            3 => {
                let least = if self.half_threads >= 26 { 0.23 * p - 1.5 * p * p } else { 0.12 * p };
                fine.min(0.394 * p).max(least)
            }
            _ if self.nominal < 2_500 => fine.min(0.394 * p).max(flat),
            _ => flat,
        })
    }

    /// From the nominal diameter to another one, in ten-thousandths of an inch.
    fn drop(self, part: f64) -> i64 {
        (1e4 * part * self.pitch()).round() as i64
    }

    /// The basic diameters. `text` is the designation, for messages.
    pub(super) fn basic(self, text: &str) -> Result<Basic, ThreadError> {
        if self.nominal <= self.drop(TO_ROOT) {
            return Err(ThreadError::NoMinorDiameter { text: text.into() });
        }
        let [pitch_diameter, minor] = [TO_PITCH, TO_MINOR].map(|part| size(self.nominal - self.drop(part)));
        Ok(Basic { pitch_diameter, minor })
    }

    /// The limits of a class. `text` is the designation, for messages.
    ///
    /// The standard states basic diameters, allowance and tolerances to ten-thousandths of an inch and adds those up.
    pub(super) fn diameters(self, class: UnifiedClass) -> Result<Diameters, ThreadError> {
        let [basic_pitch, basic_minor] = [TO_PITCH, TO_MINOR].map(|part| self.nominal - self.drop(part));
        let width = nearest(self.pitch_tolerance() * class.factor(), 100_000);
        if class.internal {
            let minor = basic_minor + tenths(self.minor_tolerance(class));
            // From size 6 up the standard states the minor diameter to thousandths, save the upper limit of class 3B.
            let coarse = |size: i64| if self.nominal >= 1_380 { 10 * nearest(size, 10) } else { size };
            let upper = if class.number == 3 { minor } else { coarse(minor) };
            let lower = coarse(basic_minor);
            let minor = Limits::with_deviations(size(lower), size(upper - lower), Size::ZERO)?;
            return Ok(Diameters {
                major: None,
                major_least: size(self.nominal),
                pitch_diameter: Limits::with_deviations(size(basic_pitch), size(width), Size::ZERO)?,
                minor: Some(minor),
                minor_greatest: minor.upper(),
            });
        }
        let allowance = match class.number {
            3 => 0,
            _ => tenths(nearest(3 * self.pitch_tolerance(), 10)),
        };
        let below = |basic: i64, tolerance: i64| {
            Limits::with_deviations(size(basic), size(-allowance), size(-allowance - tolerance))
        };
        let major = below(self.nominal, tenths(self.major_tolerance(class)))?;
        let greatest = match self.rounded_root {
            true => tenths(100 * (self.nominal - allowance) - millionths(TO_ROOT * self.pitch())),
            false => basic_minor - allowance,
        };
        Ok(Diameters {
            major: Some(major),
            major_least: major.lower(),
            pitch_diameter: below(basic_pitch, width)?,
            minor: None,
            minor_greatest: size(greatest),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_to_the_even_neighbour() {
        let rounded = [(250, 2), (350, 4), (251, 3), (249, 2), (-250, -2), (-350, -4)];
        assert!(rounded.iter().all(|(millionths, whole)| tenths(*millionths) == *whole));
    }

    // Tolerances grow with diameter and pitch, and from class 3 to class 1.
    #[test]
    fn tolerances_keep_their_order() {
        let thread = |nominal, half_threads| UnifiedThread {
            nominal,
            half_threads,
            series: Series::Special,
            rounded_root: false,
        };
        for internal in [false, true] {
            for pair in [(2_500, 40), (2_500, 56), (5_000, 26), (60_000, 8)].windows(2) {
                let (a, b) = (thread(pair[0].0, pair[0].1), thread(pair[1].0, pair[1].1));
                assert!((a.pitch_tolerance() < b.pitch_tolerance()) == (a.half_threads > b.half_threads));
            }
            let widths = [3, 2, 1].map(|number| {
                let class = UnifiedClass { number, internal };
                thread(5_000, 26).diameters(class).unwrap().pitch_diameter.tolerance()
            });
            assert!(widths.is_sorted_by(|a, b| a < b));
        }
    }
}
