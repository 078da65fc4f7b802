//! Speeds, feeds and the time they take.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Surface speed of a turning workpiece or tool: π · diameter · spindle speed.
#[formula(
    source = "Common practice; v = π d n, as in ISO 3002-3:1984",
    inverse(diameter = surface_speed / (PI * spindle_speed)),
    inverse(spindle_speed = surface_speed / (PI * diameter))
)]
pub fn surface_speed(
    /// Diameter of the workpiece in turning, of the tool in milling and drilling.
    #[positive]
    #[increasing]
    diameter: Length,
    /// Spindle speed.
    #[non_negative]
    #[increasing]
    spindle_speed: SpindleSpeed,
) -> SurfaceSpeed {
    PI * diameter * spindle_speed
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&SURFACE_SPEED];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    #[test]
    fn a_body_speaks_of_quantities() {
        let v = surface_speed(Length::millimetres(50.0), SpindleSpeed::rev_per_minute(700.0)).unwrap();
        assert!((v.in_units(Units::Metric) - 109.956).abs() < 1e-3);
        let e = surface_speed(Length::millimetres(-1.0), SpindleSpeed::rev_per_minute(700.0)).unwrap_err();
        assert_eq!(e.to_string(), "surface_speed: diameter must be greater than 0 mm, not -1 mm");
        let mut y = [0.0];
        SURFACE_SPEED.call(Units::Inch, &[0.5, 1500.0], &mut y).unwrap();
        assert!((y[0] - 196.35).abs() < 1e-2);
        let x = [0.5, -1.0, f64::NAN];
        let mut y = [0.0; 3];
        let met = SURFACE_SPEED.batch(Units::Inch, &[&x, &[1500.0; 3]], &mut [&mut y]).unwrap();
        assert!(met.refused && y[1].is_nan() && y[2].is_nan() && y[0] > 196.0);
    }
}
