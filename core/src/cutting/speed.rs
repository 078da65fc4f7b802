//! Speeds and feeds.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Surface speed of a turning workpiece or tool: π · diameter · spindle speed.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(diameter = surface_speed / (PI * spindle_speed)),
    inverse(spindle_speed = surface_speed / (PI * diameter))
)]
pub fn surface_speed(
    #[term(cutting_diameter)]
    #[increasing]
    diameter: Length,
    #[increasing] spindle_speed: SpindleSpeed,
) -> SurfaceSpeed {
    PI * diameter * spindle_speed
}

/// Spindle speed that gives a surface speed: surface speed / (π · diameter).
///
/// The exact relation. The rule of thumb 4 · surface speed / diameter in inch units lies 4.7 % above it.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    caution(spindle_speed),
    inverse(surface_speed = PI * diameter * spindle_speed),
    inverse(diameter = surface_speed / (PI * spindle_speed))
)]
pub fn spindle_speed(
    /// Surface speed wanted at the cut.
    #[non_negative]
    #[increasing]
    surface_speed: SurfaceSpeed,
    #[term(cutting_diameter)]
    #[decreasing]
    diameter: Length,
) -> SpindleSpeed {
    surface_speed / (PI * diameter)
}

/// Chip load, the feed of each tooth: feed rate / (teeth · spindle speed).
///
/// It is the advance between one tooth and the next, not the thickness of the chip, which is less where the
/// cutter takes a narrow width or has a lead angle.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(feed_rate = chip_load * (teeth * spindle_speed)),
    inverse(spindle_speed = feed_rate / (teeth * chip_load))
)]
pub fn chip_load(
    #[increasing] feed_rate: FeedRate,
    #[term(effective_teeth)]
    #[decreasing]
    teeth: Count,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
) -> Length {
    feed_rate / (teeth * spindle_speed)
}

/// Feed rate that gives a chip load: chip load · teeth · spindle speed.
///
/// A tool with one cutting edge, in turning or boring, has one tooth, and its chip load is the feed per
/// revolution.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(chip_load = feed_rate / (teeth * spindle_speed)),
    inverse(spindle_speed = feed_rate / (chip_load * teeth))
)]
pub fn feed_rate(
    /// Chip load wanted, the advance between one tooth and the next.
    #[non_negative]
    #[increasing]
    chip_load: Length,
    #[term(effective_teeth)]
    #[increasing]
    teeth: Count,
    #[increasing] spindle_speed: SpindleSpeed,
) -> FeedRate {
    chip_load * teeth * spindle_speed
}

/// Feed per revolution, the advance in one turn of the spindle: feed rate / spindle speed.
#[formula(
    source = "Common practice; the symbols of ISO 3002-3:1984, from memory",
    inverse(feed_rate = feed_per_revolution * spindle_speed),
    inverse(spindle_speed = feed_rate / feed_per_revolution)
)]
pub fn feed_per_revolution(
    /// Feed rate of the tool or slide.
    #[non_negative]
    #[increasing]
    feed_rate: FeedRate,
    #[positive]
    #[decreasing]
    spindle_speed: SpindleSpeed,
) -> Length {
    feed_rate / spindle_speed
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&SURFACE_SPEED, &SPINDLE_SPEED, &CHIP_LOAD, &FEED_RATE, &FEED_PER_REVOLUTION];

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
