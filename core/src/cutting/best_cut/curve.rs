//! What the machine and chatter allow at a spindle speed, piece by piece in logarithms.
use crate::cutting::chatter::Stability;
use crate::cutting::machine::Machine;
use crate::math::{exp, ln};
use crate::quantity::{Quantity, SpindleSpeed, Units};

/// An interval of the logarithm of the spindle speed, within one piece of every curve.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Speeds(pub f64, pub f64);

/// A straight line by the logarithm of the speed.
#[derive(Clone, Copy)]
pub(super) struct Line {
    pub level: f64,
    pub slope: f64,
}

impl Line {
    pub fn at(&self, logarithm: f64) -> f64 {
        if self.slope == 0.0 { self.level } else { self.level + self.slope * logarithm }
    }
}

/// The most of a figure, by the spindle speed.
#[derive(Clone, Copy)]
pub(super) enum Curve<'a> {
    Power(&'a Machine),
    Torque(&'a Machine),
    StableDepth(&'a Stability),
}

impl Curve<'_> {
    /// The most at a spindle speed.
    pub fn most(&self, speed: f64, units: Units) -> f64 {
        let told = match self {
            Curve::Power(machine) => machine.power_at(speed, units),
            Curve::Torque(machine) => machine.torque_at(speed, units),
            Curve::StableDepth(stability) => {
                let depth = stability.depth(SpindleSpeed::rev_per_minute(speed));
                return depth.map_or(0.0, |depth| depth.in_units(units));
            }
        };
        told.unwrap_or(f64::INFINITY)
    }

    /// A line above the logarithm of the curve over some speeds, and one below.
    ///
    /// Between the points of its curve a machine's load is straight by the speed, so that its logarithm bends one way: the
    /// chord is on one side of it, the tangent on the other. Beyond the points it is straight in logarithms too. A stable
    /// depth rises or falls between its turning points, and is within its values at the ends.
    pub fn lines(&self, Speeds(low, high): Speeds, units: Units) -> [Line; 2] {
        let at = |logarithm: f64| self.most(exp(logarithm), units);
        let flat = |most: f64| Line { level: ln(most), slope: 0.0 };
        let (first, last) = (at(low), at(high));
        if high - low < 1e-12 {
            return [flat(first); 2];
        }
        if let Curve::StableDepth(_) = self {
            return [flat(first.max(last)), flat(first.min(last))];
        }
        let slope = (ln(last) - ln(first)) / (high - low);
        let chord = Line { level: ln(first) - slope * low, slope };
        let middle = 0.5 * (low + high);
        let (there, over) = (at(middle), chord.at(middle));
        if (ln(there) - over).abs() < 1e-13 {
            return [chord; 2];
        }
        let rise = (last - first) / (exp(high) - exp(low)) * exp(middle) / there;
        let tangent = Line { level: ln(there) - rise * middle, slope: rise };
        if over > ln(there) { [chord, tangent] } else { [tangent, chord] }
    }
}
