//! What clamps press with: straps, cams, toggles, wedges, cylinders and collets. Screws have a file of their own.
use crate::formula::Formula;
use crate::math::{asin_degrees, atan_degrees, cos_degrees, sin_degrees, tan_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Force of a strap clamp on the work: screw force · heel distance / (heel distance + work distance).
///
/// The screw pulls between the heel, on which the strap rests, and the work. In the middle it gives half of its force to
/// each: set it near the work.
#[formula(
    source = "Lever, common practice; Carr Lane, Fixture design principles, clamping forces of straps",
    caution(clamping),
    inverse(screw_force = strap_clamp_force / (heel_distance / (heel_distance + work_distance)))
)]
pub fn strap_clamp_force(
    /// Tension of the screw, as `screw_preload` gives it.
    #[non_negative]
    #[increasing]
    screw_force: Force,
    /// Distance from the heel of the strap to the screw.
    #[positive]
    #[increasing]
    heel_distance: Length,
    /// Distance from the screw to where the strap presses the work.
    #[non_negative]
    #[decreasing]
    work_distance: Length,
) -> Force {
    screw_force * (heel_distance / (heel_distance + work_distance))
}

/// Force of an eccentric cam on the work: hand force · lever / (e cos θ + µ (R + e sin θ) + µ_p · r_p · √(1 + µ²)).
///
/// A round cam of radius R turns about a pin at the eccentricity e from its centre and presses with its edge. The angle θ is
/// 0 where the centre stands level with the pin and the cam rises fastest, and 90° where it can rise no more. The last part is
/// the friction of the pin.
#[formula(
    source = "Statics of an eccentric on a flat face with friction; common practice",
    caution(clamping),
    rule(eccentricity < cam_radius, "eccentricity must be less than cam_radius"),
    inverse(hand_force = cam_clamp_force
        * (cam_lever(eccentricity, cam_radius, cam_angle, friction, pivot_diameter, pivot_friction) / lever_length))
)]
pub fn cam_clamp_force(
    /// Force on the handle, square to it: a hand gives about 100 to 150 N (25 to 35 lbf) without strain.
    #[non_negative]
    #[increasing]
    hand_force: Force,
    /// Length of the handle, from the pin.
    #[positive]
    #[increasing]
    lever_length: Length,
    #[term(cam_eccentricity)] eccentricity: Length,
    #[decreasing] cam_radius: Length,
    cam_angle: Angle,
    /// Coefficient of friction between cam and work.
    #[positive]
    #[at_most(2.0)]
    #[decreasing]
    friction: Ratio,
    /// Diameter of the pin; zero leaves its friction out.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    pivot_diameter: Length,
    /// Coefficient of friction at the pin.
    #[non_negative]
    #[at_most(2.0)]
    #[default(0.1)]
    #[decreasing]
    pivot_friction: Ratio,
) -> Force {
    hand_force
        * (lever_length
            / cam_lever(eccentricity, cam_radius, cam_angle, friction, pivot_diameter, pivot_friction))
}

/// Torque about the pin of a cam for each unit of force on the work.
#[inline(always)]
fn cam_lever(
    eccentricity: f64,
    cam_radius: f64,
    cam_angle: f64,
    friction: f64,
    pivot_diameter: f64,
    pivot_friction: f64,
) -> f64 {
    let rise = eccentricity * cos_degrees(cam_angle);
    let height = cam_radius + eccentricity * sin_degrees(cam_angle);
    rise + friction * height + 0.5 * pivot_friction * pivot_diameter * (1.0 + friction * friction).sqrt()
}

/// Least friction with which an eccentric cam stays shut by itself: e cos θ / (R + e sin θ).
///
/// The friction of the pin is a margin on top. Vibration and oil open a cam whose friction is near this.
#[formula(
    source = "Statics of an eccentric on a flat face; common practice",
    caution(clamping),
    rule(eccentricity < cam_radius, "eccentricity must be less than cam_radius")
)]
pub fn cam_locking_friction(
    #[term(cam_eccentricity)] eccentricity: Length,
    #[decreasing] cam_radius: Length,
    cam_angle: Angle,
) -> Ratio {
    let share = eccentricity / cam_radius;
    share * cos_degrees(cam_angle) / (1.0 + share * sin_degrees(cam_angle))
}

/// Force of a toggle of two equal arms along its line: knee force / (2 tan(A + β)).
///
/// A is the angle of each arm from the straight line, and sin β = pin friction · pin ratio the friction of the pins. Without
/// friction the force has no bound as the arms straighten; in fact friction and the give of the clamp bound it, so give the
/// friction of the pins for a figure to rely on.
#[formula(
    source = "Machinery's Handbook, toggle joints with equal arms (from memory); the friction of the pins by their circles of \
              friction",
    caution(clamping),
    rule(pin_friction * pin_ratio < 1.0, "pin_friction · pin_ratio must be less than 1"),
    rule(
        arm_angle + asin_degrees(pin_friction * pin_ratio) < 90.0,
        "arm_angle and the friction of the pins, of pin_friction and pin_ratio, must make less than 90°"
    ),
    inverse(knee_force = toggle_clamp_force * 2.0 * tan_degrees(arm_angle + asin_degrees(pin_friction * pin_ratio)))
)]
pub fn toggle_clamp_force(
    /// Force on the knee, square to the line.
    #[non_negative]
    #[increasing]
    knee_force: Force,
    /// Angle of each arm from the straight line, when clamped.
    #[positive]
    #[below(90.0)]
    #[decreasing]
    arm_angle: Angle,
    /// Coefficient of friction of the pins: 0.1 or so; zero leaves it out.
    #[non_negative]
    #[at_most(2.0)]
    #[default(0.0)]
    #[decreasing]
    pin_friction: Ratio,
    /// Diameter of the pins over the distance between them.
    #[non_negative]
    #[below(1.0)]
    #[default(0.1)]
    #[decreasing]
    pin_ratio: Ratio,
) -> Force {
    knee_force / (2.0 * tan_degrees(arm_angle + asin_degrees(pin_friction * pin_ratio)))
}

/// tan(angle + arctan friction).
#[inline(always)]
fn rubbed(angle: f64, friction: f64) -> f64 {
    let tan = tan_degrees(angle);
    (tan + friction) / (1.0 - tan * friction)
}

/// Force of a wedge on the work: driving force / (tan(A + φ) + µ_b), where tan φ is the friction of the slope.
#[formula(
    source = "Statics of a wedge with friction on both faces; common practice of fixture design",
    caution(clamping),
    rule(tan_degrees(wedge_angle) * friction < 1.0, "wedge_angle and friction jam the wedge: tan(wedge_angle) · friction must be less than 1"),
    rule(wedge_angle > 0.0 || friction > 0.0 || base_friction > 0.0, "wedge_angle, friction and base_friction must not all be zero"),
    inverse(driving_force = wedge_clamp_force * (rubbed(wedge_angle, friction) + base_friction))
)]
pub fn wedge_clamp_force(
    /// Force that drives the wedge in.
    #[non_negative]
    #[increasing]
    driving_force: Force,
    /// Angle of the wedge.
    #[non_negative]
    #[below(90.0)]
    #[decreasing]
    wedge_angle: Angle,
    #[term(slope_friction)]
    #[decreasing]
    friction: Ratio,
    #[decreasing] base_friction: Ratio,
) -> Force {
    driving_force / (rubbed(wedge_angle, friction) + base_friction)
}

/// Greatest angle at which a wedge stays in by itself: arctan(friction) + arctan(base friction).
///
/// Take much less, 6° to 8° for a friction of 0.1: vibration and oil lower the friction.
#[formula(
    source = "Statics of a wedge; the smaller angle is common practice of fixture design",
    caution(clamping)
)]
pub fn wedge_locking_angle(
    #[term(slope_friction)]
    #[increasing]
    friction: Ratio,
    #[increasing] base_friction: Ratio,
) -> Angle {
    atan_degrees(friction) + atan_degrees(base_friction)
}

/// Force of a cylinder: efficiency · pressure · π/4 · (bore² - rod²) - spring force.
///
/// A pushing cylinder has the whole of its bore: leave the rod out. Pressure that fails lets the work go: use check valves and
/// watch the pressure.
#[formula(
    source = "Pressure times area, common practice",
    caution(clamping),
    rule(rod_diameter < bore_diameter, "rod_diameter must be less than bore_diameter"),
    rule(
        spring_force <= efficiency * pressure * (0.25 * PI * ((bore_diameter - rod_diameter) * (bore_diameter + rod_diameter))),
        "spring_force must be at most what pressure, bore_diameter, rod_diameter and efficiency give: the cylinder would not clamp"
    )
)]
pub fn cylinder_clamp_force(
    /// Pressure of oil or air, above that of the air around.
    #[non_negative]
    #[increasing]
    pressure: Stress,
    /// Bore of the cylinder.
    #[positive]
    #[increasing]
    bore_diameter: Length,
    /// Diameter of the rod where the cylinder pulls; zero where it pushes.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    rod_diameter: Length,
    /// Share of the force that seals and guides leave: 0.85 to 0.95 for most; 1 is the plain figure.
    #[positive]
    #[at_most(1.0)]
    #[range(0.7, 1.0)]
    #[default(1.0)]
    #[increasing]
    efficiency: Ratio,
    /// Force of a return spring, against the clamping.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    spring_force: Force,
) -> Force {
    let area = 0.25 * PI * ((bore_diameter - rod_diameter) * (bore_diameter + rod_diameter));
    efficiency * pressure * area - spring_force
}

/// Grip of a collet, all around: draw force / tan(A + φ), where A is the angle of its cone from the axis.
///
/// What it takes to close the collet on the bar is to be taken off the draw force first.
#[formula(
    source = "Statics of a cone with friction; common practice",
    caution(clamping),
    rule(tan_degrees(cone_angle) * friction < 1.0, "cone_angle and friction jam the collet: tan(cone_angle) · friction must be less than 1"),
    inverse(draw_force = collet_clamp_force * rubbed(cone_angle, friction))
)]
pub fn collet_clamp_force(
    /// Force of the draw bar or the nut, along the axis.
    #[non_negative]
    #[increasing]
    draw_force: Force,
    /// Angle of the cone from the axis, half of its included angle.
    #[positive]
    #[below(90.0)]
    #[decreasing]
    cone_angle: Angle,
    /// Coefficient of friction on the cone.
    #[non_negative]
    #[at_most(2.0)]
    #[decreasing]
    friction: Ratio,
) -> Force {
    draw_force / rubbed(cone_angle, friction)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &STRAP_CLAMP_FORCE,
    &CAM_CLAMP_FORCE,
    &CAM_LOCKING_FRICTION,
    &TOGGLE_CLAMP_FORCE,
    &WEDGE_CLAMP_FORCE,
    &WEDGE_LOCKING_ANGLE,
    &CYLINDER_CLAMP_FORCE,
    &COLLET_CLAMP_FORCE,
];
