//! The laws of chatter: at which depth, and with which lag, a cut vibrates at a frequency.
use super::complex::Complex;
use super::error::StabilityError;
use super::structure::{Plane, Structure, shown};
use crate::error::excerpt;
use crate::math::{acos_degrees, atan, cos_degrees, sin_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::Choice;

/// Degrees in radians.
const RADIAN: f64 = PI / 180.0;
/// The most teeth of a cutter.
const MAX_TEETH: u32 = 10_000;

/// Which way the teeth of a side cut go.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum MillingDirection {
    /// Against the feed, from a thin chip to a thick one: conventional milling.
    Up,
    /// With the feed, from a thick chip to a thin one: climb milling.
    Down,
}

impl MillingDirection {
    /// Reads `up` or `down`.
    ///
    /// # Errors
    /// [`StabilityError::Number`] for any other text.
    pub fn parse(text: &str) -> Result<MillingDirection, StabilityError> {
        let found = MillingDirection::ALL.into_iter().find(|known| known.name() == text.trim());
        found.ok_or_else(|| {
            let value = format!("`{}`", excerpt(text));
            StabilityError::Number { what: "milling", must: "`up` or `down`", value }
        })
    }
}

/// How edges meet the work.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Engagement {
    /// One edge stays in the cut: turning, boring.
    Continuous {
        /// Angle of the cutting force from the chip's thickness, toward the cutting motion: 0 takes the whole force along the
        /// thickness, the worst case; 60° to 75° are common in turning.
        force_angle: Angle,
    },
    /// Teeth enter and leave the cut.
    Milling {
        /// Where a tooth enters, turning from the normal of the feed: 0 in up milling.
        entry_angle: Angle,
        /// Where it leaves: 180° in down milling.
        exit_angle: Angle,
        /// Radial force over tangential force on a tooth: about 0.3.
        radial_force_ratio: f64,
    },
}

impl Engagement {
    /// A side cut, with the cutter's rim on one edge of it.
    ///
    /// # Errors
    /// [`StabilityError::Number`] for a width that is not within the cutter.
    pub fn side_cut(
        cutter_diameter: Length,
        radial_width: Length,
        direction: MillingDirection,
        radial_force_ratio: f64,
        units: Units,
    ) -> Result<Engagement, StabilityError> {
        let diameter = cutter_diameter.metric();
        if !(diameter > 0.0 && diameter.is_finite()) {
            return Err(refuse("cutter_diameter", "greater than 0", cutter_diameter, units));
        }
        let share = radial_width.metric() / diameter;
        if !(share > 0.0 && share <= 1.0) {
            return Err(refuse(
                "radial_width",
                "above 0 and at most the cutter's diameter",
                radial_width,
                units,
            ));
        }
        let (entry, exit) = match direction {
            MillingDirection::Up => (0.0, acos_degrees(1.0 - 2.0 * share)),
            MillingDirection::Down => (acos_degrees(2.0 * share - 1.0), 180.0),
        };
        let [entry_angle, exit_angle] = [entry, exit].map(Angle::degrees);
        Ok(Engagement::Milling { entry_angle, exit_angle, radial_force_ratio })
    }
}

fn refuse<Q: Quantity>(what: &'static str, must: &'static str, value: Q, units: Units) -> StabilityError {
    StabilityError::Number { what, must, value: shown(value, units) }
}

/// A cut that may chatter.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ChatterCut {
    /// Force for unit section of the chip: in turning that of the whole force, in milling the tangential one.
    pub specific_cutting_force: Stress,
    /// Number of teeth, equally spaced: 1 in turning and boring.
    pub teeth: u32,
    /// How edges meet the work.
    pub engagement: Engagement,
    /// The units of messages and pictures.
    pub units: Units,
}

impl ChatterCut {
    pub(super) fn check(&self) -> Result<(), StabilityError> {
        let force = self.specific_cutting_force;
        if !(force.metric() > 0.0 && force.metric().is_finite()) {
            return Err(refuse("specific_cutting_force", "greater than 0", force, self.units));
        }
        if self.teeth == 0 || self.teeth > MAX_TEETH {
            let value = self.teeth.to_string();
            return Err(StabilityError::Number { what: "teeth", must: "from 1 to 10000", value });
        }
        match self.engagement {
            Engagement::Continuous { force_angle } => {
                if self.teeth > 1 {
                    return Err(StabilityError::Teeth { teeth: self.teeth });
                }
                if !(-90.0..90.0).contains(&force_angle.metric()) || force_angle.metric() == -90.0 {
                    let must = "between -90 and 90 degrees";
                    return Err(refuse("force_angle", must, force_angle, self.units));
                }
            }
            Engagement::Milling { entry_angle, exit_angle, radial_force_ratio } => {
                let (entry, exit) = (entry_angle.metric(), exit_angle.metric());
                if !(0.0..180.0).contains(&entry) {
                    return Err(refuse(
                        "entry_angle",
                        "from 0 to less than 180 degrees",
                        entry_angle,
                        self.units,
                    ));
                }
                if !(exit > entry && exit <= 180.0) {
                    return Err(refuse(
                        "exit_angle",
                        "above entry_angle and at most 180 degrees",
                        exit_angle,
                        self.units,
                    ));
                }
                if !(0.0..=10.0).contains(&radial_force_ratio) {
                    let value = radial_force_ratio.to_string();
                    return Err(StabilityError::Number {
                        what: "radial_force_ratio",
                        must: "from 0 to 10",
                        value,
                    });
                }
            }
        }
        Ok(())
    }

    pub(super) fn law(&self) -> Law {
        let force = self.specific_cutting_force.metric();
        match self.engagement {
            Engagement::Continuous { force_angle } => {
                Law::Turning { force, force_angle: force_angle.metric() }
            }
            Engagement::Milling { entry_angle, exit_angle, radial_force_ratio } => Law::Milling {
                force: f64::from(self.teeth) * force / (4.0 * PI),
                factors: mean_factors(entry_angle.metric(), exit_angle.metric(), radial_force_ratio),
            },
        }
    }
}

/// The directional factors of a milling cut, averaged over a turn: of x by x, x by y, y by x and y by y.
pub(super) fn mean_factors(entry: f64, exit: f64, ratio: f64) -> [f64; 4] {
    let at = |angle: f64| {
        let (turn, c, s) = (angle * RADIAN, cos_degrees(2.0 * angle), sin_degrees(2.0 * angle));
        [
            c - 2.0 * ratio * turn + ratio * s,
            -s - 2.0 * turn + ratio * c,
            -s + 2.0 * turn + ratio * c,
            -c - 2.0 * ratio * turn - ratio * s,
        ]
    };
    let (from, to) = (at(entry), at(exit));
    std::array::from_fn(|k| 0.5 * (to[k] - from[k]))
}

/// A law with its numbers, in N and mm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Law {
    Turning { force: f64, force_angle: f64 },
    Milling { force: f64, factors: [f64; 4] },
}

impl Law {
    /// The eigenvalues of the cut at a frequency in hertz: one in turning, two in milling. An infinite one stands for none.
    pub(super) fn eigenvalues(&self, structure: &Structure, frequency: f64) -> [Complex; 2] {
        let none = Complex { re: f64::INFINITY, im: 0.0 };
        match *self {
            Law::Turning { force_angle, .. } => {
                [structure.toward_chip(frequency, force_angle).inverse(), none]
            }
            Law::Milling { factors: [xx, xy, yx, yy], .. } => {
                let Plane { along, across, between } = structure.in_plane(frequency);
                // 1 + linear Λ + square Λ² = 0, from the determinant of 1 + Λ · factors · compliance.
                let linear = along.scaled(xx) + across.scaled(yy) + between.scaled(xy + yx);
                let square = (along * across - between * between).scaled(xx * yy - xy * yx);
                let root = (linear * linear - square.scaled(4.0)).sqrt();
                let toward = linear.re * root.re + linear.im * root.im;
                // Both terms on one side, so that nothing cancels.
                let sum = if toward < 0.0 { linear - root } else { linear + root };
                let half = sum.scaled(-0.5);
                [half.inverse(), half * square.inverse()]
            }
        }
    }

    /// The depth at which an eigenvalue makes a steady vibration, in mm; infinite where none does.
    pub(super) fn depth(&self, eigenvalue: Complex) -> f64 {
        let (Law::Turning { force, .. } | Law::Milling { force, .. }) = *self;
        let depth = -eigenvalue.square_length() / (2.0 * force * eigenvalue.re);
        if depth > 0.0 && depth.is_finite() { depth } else { f64::INFINITY }
    }
}

/// How far the wave of one edge is behind that of the edge before, in turns between 0 and 1.
pub(super) fn lag(eigenvalue: Complex) -> f64 {
    0.5 - atan(eigenvalue.im / eigenvalue.re) / PI
}
