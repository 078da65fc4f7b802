//! What vibrates: modes, or a measured response.
use super::complex::Complex;
use super::error::StabilityError;
use crate::math::{cos_degrees, sin_degrees};
use crate::quantity::*;
use tenths_macros::Object;

/// The most modes of a structure.
pub(super) const MAX_MODES: usize = 100;
/// The most points of a measured response.
pub(super) const MAX_POINTS: usize = 100_000;
/// The fewest.
const MIN_POINTS: usize = 3;
/// A step this many times as wide as those beside it is a hole.
const HOLE: f64 = 5.0;

/// A mode of vibration at the edge: of the tool, its holder and spindle, or the work.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore)]
pub struct VibrationMode {
    /// Its natural frequency.
    pub frequency: Frequency,
    /// Its stiffness at the edge: force over deflection of this mode alone.
    pub stiffness: Stiffness,
    /// Its damping, as a share of what would stop it from swinging: 0.01 to 0.05 for most.
    #[pure]
    pub damping_ratio: f64,
    /// Where it moves. In turning and boring the angle from the chip's thickness, the normal of the cut surface, toward the
    /// cutting motion; without it, along the thickness. In milling the angle from the feed; without it, alike in all
    /// directions of the plane, as a round tool does.
    pub direction: Option<Angle>,
    /// Whether it was estimated from the geometry of a tool and not measured.
    pub estimated: bool,
}

impl VibrationMode {
    /// A measured mode without a direction.
    pub fn new(frequency: Frequency, stiffness: Stiffness, damping_ratio: f64) -> VibrationMode {
        VibrationMode { frequency, stiffness, damping_ratio, direction: None, estimated: false }
    }

    /// The same in a direction.
    #[must_use]
    pub fn in_direction(self, direction: Angle) -> VibrationMode {
        VibrationMode { direction: Some(direction), ..self }
    }

    pub(super) fn check(&self, place: usize, units: Units) -> Result<(), StabilityError> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        let refuse = |what, must, value: String| StabilityError::Mode { place, what, must, value };
        if !positive(self.frequency.metric()) {
            let value = shown(self.frequency, units);
            return Err(refuse("its frequency", "greater than 0", value));
        }
        if !positive(self.stiffness.metric()) {
            return Err(refuse("its stiffness", "greater than 0", shown(self.stiffness, units)));
        }
        if !(self.damping_ratio > 0.0 && self.damping_ratio < 1.0) {
            return Err(refuse("its damping ratio", "between 0 and 1", self.damping_ratio.to_string()));
        }
        match self.direction {
            Some(angle) if !(-360.0..=360.0).contains(&angle.metric()) => {
                Err(refuse("its direction", "from -360 to 360 degrees", shown(angle, units)))
            }
            _ => Ok(()),
        }
    }

    /// Its natural frequency in hertz.
    pub(super) fn hertz(&self) -> f64 {
        hertz(self.frequency)
    }

    /// Its compliance in mm/N at a frequency in hertz.
    fn response(&self, frequency: f64) -> Complex {
        let ratio = frequency / self.hertz();
        let stiffness = Complex { re: (1.0 - ratio) * (1.0 + ratio), im: 2.0 * self.damping_ratio * ratio };
        stiffness.scaled(self.stiffness.metric()).inverse()
    }
}

/// One frequency of a measured response.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore, tuple)]
pub struct ResponsePoint {
    /// The frequency.
    pub frequency: Frequency,
    /// Real part of the compliance: deflection over force.
    pub real: Compliance,
    /// Imaginary part, below zero at a resonance.
    pub imaginary: Compliance,
    /// Real part in the direction across, where it was measured.
    pub real_across: Option<Compliance>,
    /// Imaginary part in the direction across, where it was measured.
    pub imaginary_across: Option<Compliance>,
}

/// A quantity with its unit, for a message.
pub(super) fn shown<Q: Quantity>(value: Q, units: Units) -> String {
    format!("{} {}", value.in_units(units), Q::KIND.unit(units).label)
}

pub(super) fn hertz(frequency: Frequency) -> f64 {
    frequency.in_units(Units::Metric)
}

/// Compliance along the feed, across it, and of one by a force in the other.
#[derive(Clone, Copy)]
pub(super) struct Plane {
    pub(super) along: Complex,
    pub(super) across: Complex,
    pub(super) between: Complex,
}

/// What vibrates, checked.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Structure {
    Modes(Vec<VibrationMode>),
    Measured(Vec<ResponsePoint>),
}

impl Structure {
    pub(super) fn of_modes(modes: &[VibrationMode], units: Units) -> Result<Structure, StabilityError> {
        match modes.len() {
            0 => return Err(StabilityError::NoModes),
            count if count > MAX_MODES => {
                return Err(StabilityError::TooMany { what: "modes", most: MAX_MODES, count });
            }
            _ => {}
        }
        modes.iter().enumerate().try_for_each(|(place, mode)| mode.check(place, units))?;
        Ok(Structure::Modes(modes.to_vec()))
    }

    pub(super) fn of_response(points: &[ResponsePoint]) -> Result<Structure, StabilityError> {
        let count = points.len();
        if count < MIN_POINTS {
            return Err(StabilityError::TooFew { least: MIN_POINTS, count });
        }
        if count > MAX_POINTS {
            return Err(StabilityError::TooMany { what: "points", most: MAX_POINTS, count });
        }
        points.iter().enumerate().try_for_each(|(row, point)| finite(row, point))?;
        rising(points)?;
        lags(points, "imaginary", |point| Some(point.imaginary))?;
        lags(points, "imaginary_across", |point| point.imaginary_across)?;
        Ok(Structure::Measured(points.to_vec()))
    }

    /// Compliance along the chip's thickness in turning, with a force at this angle from it.
    pub(super) fn toward_chip(&self, frequency: f64, force_angle: f64) -> Complex {
        match self {
            Structure::Modes(modes) => modes.iter().fold(Complex::ZERO, |sum, mode| {
                let direction = mode.direction.map_or(0.0, |angle| angle.metric());
                let share = cos_degrees(force_angle - direction) * cos_degrees(direction);
                sum + mode.response(frequency).scaled(share)
            }),
            Structure::Measured(points) => measured(points, frequency).along.scaled(cos_degrees(force_angle)),
        }
    }

    /// Compliance in the plane of a milling cut.
    pub(super) fn in_plane(&self, frequency: f64) -> Plane {
        match self {
            Structure::Modes(modes) => {
                let none = Plane { along: Complex::ZERO, across: Complex::ZERO, between: Complex::ZERO };
                modes.iter().fold(none, |sum, mode| {
                    let response = mode.response(frequency);
                    let [xx, yy, xy] = match mode.direction.map(|angle| angle.metric()) {
                        None => [1.0, 1.0, 0.0],
                        Some(angle) => {
                            let (c, s) = (cos_degrees(angle), sin_degrees(angle));
                            [c * c, s * s, c * s]
                        }
                    };
                    Plane {
                        along: sum.along + response.scaled(xx),
                        across: sum.across + response.scaled(yy),
                        between: sum.between + response.scaled(xy),
                    }
                })
            }
            Structure::Measured(points) => measured(points, frequency),
        }
    }
}

fn finite(row: usize, point: &ResponsePoint) -> Result<(), StabilityError> {
    let frequency = hertz(point.frequency);
    if !(frequency > 0.0 && frequency.is_finite()) {
        let must = "greater than 0 and finite";
        return Err(StabilityError::Point { row, column: "frequency", must, value: frequency });
    }
    let columns = [
        ("real", Some(point.real)),
        ("imaginary", Some(point.imaginary)),
        ("real_across", point.real_across),
        ("imaginary_across", point.imaginary_across),
    ];
    for (column, value) in columns.into_iter().filter_map(|(column, value)| Some((column, value?.metric()))) {
        if !value.is_finite() {
            return Err(StabilityError::Point { row, column, must: "finite", value });
        }
    }
    Ok(())
}

/// Frequencies rise, without a hole.
fn rising(points: &[ResponsePoint]) -> Result<(), StabilityError> {
    let frequencies: Vec<f64> = points.iter().map(|point| hertz(point.frequency)).collect();
    for (row, pair) in frequencies.windows(2).enumerate() {
        let [before, frequency] = [pair[0], pair[1]];
        if frequency <= before {
            return Err(StabilityError::Unsorted { row: row + 1, frequency, before });
        }
    }
    let steps: Vec<f64> = frequencies.windows(2).map(|pair| pair[1] - pair[0]).collect();
    for (row, step) in steps.iter().enumerate() {
        let beside = [row.checked_sub(1).and_then(|k| steps.get(k)), steps.get(row + 1)];
        let widest = beside.into_iter().flatten().fold(0.0_f64, |widest, step| widest.max(*step));
        if *step > HOLE * widest {
            return Err(StabilityError::Hole { from: frequencies[row], to: frequencies[row + 1] });
        }
    }
    Ok(())
}

/// The imaginary part is below zero where it is greatest.
fn lags(
    points: &[ResponsePoint],
    column: &'static str,
    of: impl Fn(&ResponsePoint) -> Option<Compliance>,
) -> Result<(), StabilityError> {
    let mut greatest = (0.0_f64, 0.0);
    for point in points {
        let value = of(point).map_or(0.0, |value| value.metric());
        if value.abs() > greatest.0.abs() {
            greatest = (value, hertz(point.frequency));
        }
    }
    match greatest.0 > 0.0 {
        true => Err(StabilityError::Sign { column, frequency: greatest.1 }),
        false => Ok(()),
    }
}

/// A measured response at a frequency, straight between points.
fn measured(points: &[ResponsePoint], frequency: f64) -> Plane {
    let after = points.partition_point(|point| hertz(point.frequency) < frequency).clamp(1, points.len() - 1);
    let (low, high) = (&points[after - 1], &points[after]);
    let (from, to) = (hertz(low.frequency), hertz(high.frequency));
    let share = ((frequency - from) / (to - from)).clamp(0.0, 1.0);
    let between = |low: Compliance, high: Compliance| low.metric() + share * (high.metric() - low.metric());
    let along = Complex { re: between(low.real, high.real), im: between(low.imaginary, high.imaginary) };
    let across = match [low.real_across, high.real_across, low.imaginary_across, high.imaginary_across] {
        [Some(a), Some(b), Some(c), Some(d)] => Complex { re: between(a, b), im: between(c, d) },
        _ => along,
    };
    Plane { along, across, between: Complex::ZERO }
}
