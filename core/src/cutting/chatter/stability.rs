//! The stability of a cut, as it is handed out.
use super::error::StabilityError;
use super::law::{ChatterCut, Engagement};
use super::nodes::Nodes;
use super::structure::{ResponsePoint, Structure, VibrationMode};
use crate::Units;
use crate::object::{Readable, Restored, Told, Value};
use crate::quantity::*;
use std::fmt;
use tenths_macros::Object;

/// How deep a cut stays stable, by spindle speed.
///
/// A starting point: approach a limit from below, with a margin of a fifth or more. Modes that were estimated and not
/// measured may be off by half. A wrong grip, tool or guard is not judged here.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct Stability {
    /// Depth below which the cut is stable at every speed: width of the chip in turning and boring, axial depth in milling.
    pub critical_depth: Length,
    /// Frequency of the chatter at that depth.
    pub critical_frequency: Frequency,
    /// Whether a mode was estimated from the geometry of a tool and not measured.
    pub estimated: bool,
    /// Number of teeth.
    pub teeth: u32,
    /// Specific cutting force.
    pub specific_cutting_force: Stress,
    /// Angle of the force from the chip's thickness, in turning and boring.
    pub force_angle: Option<Angle>,
    /// Where a tooth enters, in milling, from the normal of the feed.
    pub entry_angle: Option<Angle>,
    /// Where a tooth leaves, in milling.
    pub exit_angle: Option<Angle>,
    /// Radial force over tangential force, in milling.
    #[pure]
    pub radial_force_ratio: Option<f64>,
    /// The modes, unless a response was measured.
    pub modes: Vec<VibrationMode>,
    /// The measured response, if there is one.
    pub response: Vec<ResponsePoint>,
    /// The units of pictures and messages.
    pub units: Units,
    pub(super) nodes: Nodes,
}

impl Stability {
    /// The stability of a cut with these modes.
    ///
    /// # Errors
    /// [`StabilityError`] for numbers that cannot be, several teeth without an engagement, and modes that never chatter.
    pub fn of_modes(modes: &[VibrationMode], cut: &ChatterCut) -> Result<Stability, StabilityError> {
        Self::new(Structure::of_modes(modes, cut.units)?, cut)
    }

    /// The stability of a cut with a measured response; without a direction across, milling takes both alike.
    ///
    /// # Errors
    /// As [`Stability::of_modes`], and for points that are not finite, do not rise in frequency, have a hole or the wrong
    /// sign.
    pub fn of_response(points: &[ResponsePoint], cut: &ChatterCut) -> Result<Stability, StabilityError> {
        let structure = Structure::of_response(points)?;
        if matches!(cut.engagement, Engagement::Continuous { .. })
            && points.iter().any(|point| point.real_across.is_some() || point.imaginary_across.is_some())
        {
            return Err(StabilityError::Across);
        }
        Self::new(structure, cut)
    }

    fn new(structure: Structure, cut: &ChatterCut) -> Result<Stability, StabilityError> {
        cut.check()?;
        let nodes = Nodes::new(cut.law(), structure.clone(), cut.teeth);
        let (depth, frequency) = nodes.shallowest().ok_or(StabilityError::NoChatter)?;
        let (modes, response) = match structure {
            Structure::Modes(modes) => (modes, vec![]),
            Structure::Measured(points) => (vec![], points),
        };
        let [force_angle, entry_angle, exit_angle] = match cut.engagement {
            Engagement::Continuous { force_angle } => [Some(force_angle), None, None],
            Engagement::Milling { entry_angle, exit_angle, .. } => {
                [None, Some(entry_angle), Some(exit_angle)]
            }
        };
        let radial_force_ratio = match cut.engagement {
            Engagement::Continuous { .. } => None,
            Engagement::Milling { radial_force_ratio, .. } => Some(radial_force_ratio),
        };
        Ok(Stability {
            critical_depth: Length::millimetres(depth),
            critical_frequency: Frequency::hertz(frequency),
            estimated: modes.iter().any(|mode| mode.estimated),
            teeth: cut.teeth,
            specific_cutting_force: cut.specific_cutting_force,
            force_angle,
            entry_angle,
            exit_angle,
            radial_force_ratio,
            modes,
            response,
            units: cut.units,
            nodes,
        })
    }

    /// The deepest stable cut at a spindle speed: infinite where no vibration within the range of frequencies is steady there.
    ///
    /// # Errors
    /// [`StabilityError::Number`] for a speed that is not above 0.
    pub fn depth(&self, spindle_speed: SpindleSpeed) -> Result<Length, StabilityError> {
        Ok(self.cut_at(spindle_speed)?.depth)
    }
}

impl Restored for Stability {
    fn restore(told: &Told) -> Option<Stability> {
        let engagement = match told.get::<Option<Angle>>("force_angle")? {
            Some(force_angle) => Engagement::Continuous { force_angle },
            None => Engagement::Milling {
                entry_angle: told.get::<Option<Angle>>("entry_angle")??,
                exit_angle: told.get::<Option<Angle>>("exit_angle")??,
                radial_force_ratio: told.get::<Option<f64>>("radial_force_ratio")??,
            },
        };
        let cut = ChatterCut {
            specific_cutting_force: told.get("specific_cutting_force")?,
            teeth: told.get("teeth")?,
            engagement,
            units: told.get("units")?,
        };
        let (modes, response) =
            (told.get::<Vec<VibrationMode>>("modes")?, told.get::<Vec<ResponsePoint>>("response")?);
        match response.is_empty() {
            true => Stability::of_modes(&modes, &cut).ok(),
            false => Stability::of_response(&response, &cut).ok(),
        }
    }
}

impl Readable for Stability {
    fn read(value: &Value) -> Option<Stability> {
        match value {
            Value::Object(told) => Restored::restore(told),
            _ => None,
        }
    }
}

impl fmt::Display for Stability {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (depth, unit) = (self.critical_depth.in_units(self.units), Length::KIND.unit(self.units).label);
        let frequency = self.critical_frequency.in_units(self.units);
        write!(f, "Stability: stable at every speed below {depth:.4} {unit}, chatter at {frequency:.0} Hz")?;
        if self.estimated { f.write_str(", by estimated modes") } else { Ok(()) }
    }
}
