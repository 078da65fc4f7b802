//! How hard clamps must press against the forces of the cut, and how many times those forces they hold.
//!
//! Friction is Coulomb's, clamps press with a constant force, and the work is rigid: tilting, and chatter that shakes the work
//! loose, are not in here.
use crate::formula::Formula;
use crate::math::sin_degrees;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// How hard clamps must press.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RequiredClampForce {
    /// Force of all clamps together: the greater of the two that follow, and what speed takes away on top.
    pub clamp_force: Force,
    /// What it takes against slip.
    pub against_slip: Force,
    /// What it takes against lift.
    pub against_lift: Force,
}

/// How many times the forces of the cut clamps hold.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct ClampHolding {
    /// How many times the forces of the cut it takes to make the work slip.
    pub slip_safety: Ratio,
    /// Side force that friction holds while the work is not lifted.
    pub holding_force: Force,
}

#[inline(always)]
fn greater(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Clamping force that holds work on a rest or in a vice against the forces of the cut.
///
/// The faces together hold µ · (faces · force - lifting force): against slip it takes
/// safety · (side force / µ + lifting force) / faces, against lift safety · lifting force. In a vice the side force is along
/// the jaws, up and down too, and the lifting force is away from the fixed jaw.
#[formula(source = "Statics with Coulomb's friction, common practice of fixture design", caution(clamping))]
pub fn required_clamp_force(
    #[increasing(clamp_force, against_slip, against_lift)] side_force: Force,
    #[term(holding_friction)]
    #[decreasing(clamp_force, against_slip, against_lift)]
    friction: Ratio,
    #[increasing(clamp_force, against_slip, against_lift)] lifting_force: Force,
    #[term(friction_faces)]
    #[decreasing(clamp_force, against_slip)]
    faces: Count,
    #[term(wanted_safety)]
    #[increasing(clamp_force, against_slip, against_lift)]
    safety: Ratio,
) -> RequiredClampForce {
    let against_slip = safety * (side_force / friction + lifting_force) / faces;
    let against_lift = safety * lifting_force;
    BareRequiredClampForce { clamp_force: greater(against_slip, against_lift), against_slip, against_lift }
}

/// How many times the forces of the cut the clamps of a rest or a vice hold: µ · faces · force / (side force + µ · lifting force).
#[formula(
    source = "Statics with Coulomb's friction, common practice of fixture design",
    caution(clamping),
    rule(side_force > 0.0 || lifting_force > 0.0, "side_force or lifting_force must be greater than zero")
)]
pub fn clamp_holding(
    #[increasing(slip_safety, holding_force)] clamp_force: Force,
    #[decreasing(slip_safety)] side_force: Force,
    #[term(holding_friction)]
    #[increasing(slip_safety, holding_force)]
    friction: Ratio,
    #[decreasing(slip_safety)] lifting_force: Force,
    #[term(friction_faces)]
    #[increasing(slip_safety, holding_force)]
    faces: Count,
) -> ClampHolding {
    let holding_force = friction * faces * clamp_force;
    // Without a side force friction has no part in it, to the last digit.
    BareClampHolding {
        slip_safety: faces * clamp_force / (side_force / friction + lifting_force),
        holding_force,
    }
}

/// The side force at the jaws that the forces of a cut about and along an axis make.
#[inline(always)]
fn at_the_grip(cutting_force: f64, force_diameter: f64, grip_diameter: f64, axial_force: f64) -> f64 {
    let around = cutting_force * (force_diameter / grip_diameter);
    (around * around + axial_force * axial_force).sqrt()
}

/// Grip that a chuck or collet must have at rest, all jaws together, against the forces of turning.
///
/// safety · (√((cutting force · force diameter / grip diameter)² + axial force²) / µ + lifting force) + grip lost to speed. The
/// lifting force is the part of the cut across the axis, which relieves a jaw by as much. Tilting of work that sticks out far is
/// not in here: support it by a tailstock.
#[formula(
    source = "Statics with Coulomb's friction, common practice; the scheme of VDI 3106 (from memory)",
    caution(chuck)
)]
pub fn required_grip(
    #[term(turning_cut_force)]
    #[increasing(clamp_force, against_slip, against_lift)]
    cutting_force: Force,
    #[increasing(clamp_force, against_slip, against_lift)] force_diameter: Length,
    #[decreasing(clamp_force, against_slip)] grip_diameter: Length,
    #[term(holding_friction)]
    #[decreasing(clamp_force, against_slip, against_lift)]
    friction: Ratio,
    #[increasing(clamp_force, against_slip, against_lift)] axial_force: Force,
    #[increasing(clamp_force, against_slip, against_lift)] lifting_force: Force,
    #[increasing(clamp_force)] grip_lost: Force,
    #[term(wanted_safety)]
    #[increasing(clamp_force, against_slip, against_lift)]
    safety: Ratio,
) -> RequiredClampForce {
    let side = at_the_grip(cutting_force, force_diameter, grip_diameter, axial_force);
    let against_slip = safety * (side / friction + lifting_force);
    let against_lift = safety * lifting_force;
    BareRequiredClampForce {
        clamp_force: greater(against_slip, against_lift) + grip_lost,
        against_slip,
        against_lift,
    }
}

/// How many times the forces of turning the grip of a chuck or collet holds at speed.
///
/// µ · (gripping force - grip lost) / (√((cutting force · force diameter / grip diameter)² + axial force²) + µ · lifting force).
#[formula(
    source = "Statics with Coulomb's friction, common practice; the scheme of VDI 3106 (from memory)",
    caution(chuck),
    rule(grip_lost < gripping_force, "grip_lost must be less than gripping_force: the work would be thrown"),
    rule(
        cutting_force > 0.0 || axial_force > 0.0 || lifting_force > 0.0,
        "cutting_force, axial_force or lifting_force must be greater than zero"
    )
)]
pub fn grip_holding(
    #[increasing(slip_safety, holding_force)] gripping_force: Force,
    #[term(turning_cut_force)]
    #[decreasing(slip_safety)]
    cutting_force: Force,
    #[decreasing(slip_safety)] force_diameter: Length,
    #[increasing(slip_safety)] grip_diameter: Length,
    #[term(holding_friction)]
    #[increasing(slip_safety, holding_force)]
    friction: Ratio,
    #[decreasing(slip_safety)] axial_force: Force,
    #[decreasing(slip_safety)] lifting_force: Force,
    #[decreasing(slip_safety, holding_force)] grip_lost: Force,
) -> ClampHolding {
    let side = at_the_grip(cutting_force, force_diameter, grip_diameter, axial_force);
    let grip = gripping_force - grip_lost;
    BareClampHolding { slip_safety: grip / (side / friction + lifting_force), holding_force: friction * grip }
}

/// Clamping force that holds a bar in a V-block, with a clamp opposite the V, against the forces of the cut.
///
/// Friction acts at the clamp and at both flanks, which together bear 1 / sin(V/2) of the force: against slip it takes
/// safety · (side / µ + lifting force / sin(V/2)) / (1 + 1 / sin(V/2)), with the side force
/// √((cutting force · force diameter / bar diameter)² + axial force²).
#[formula(source = "Statics with Coulomb's friction, common practice of fixture design", caution(clamping))]
pub fn required_vee_force(
    #[term(turning_cut_force)]
    #[increasing(clamp_force, against_slip, against_lift)]
    cutting_force: Force,
    #[increasing(clamp_force, against_slip, against_lift)] force_diameter: Length,
    #[decreasing(clamp_force, against_slip)] bar_diameter: Length,
    #[term(holding_friction)]
    #[decreasing(clamp_force, against_slip, against_lift)]
    friction: Ratio,
    #[increasing(clamp_force, against_slip, against_lift)] axial_force: Force,
    #[increasing(clamp_force, against_slip, against_lift)] lifting_force: Force,
    #[term(vee_block_angle)] vee_angle: Angle,
    #[term(wanted_safety)]
    #[increasing(clamp_force, against_slip, against_lift)]
    safety: Ratio,
) -> RequiredClampForce {
    let sin = sin_degrees(0.5 * vee_angle);
    let side = at_the_grip(cutting_force, force_diameter, bar_diameter, axial_force);
    let against_slip = safety * (side / friction * sin + lifting_force) / (1.0 + sin);
    let against_lift = safety * lifting_force;
    BareRequiredClampForce { clamp_force: greater(against_slip, against_lift), against_slip, against_lift }
}

/// How many times the forces of the cut a V-block with a clamp opposite the V holds.
///
/// µ · (1 + 1 / sin(V/2)) · force / (√((cutting force · force diameter / bar diameter)² + axial force²)
/// + µ · lifting force / sin(V/2)).
#[formula(
    source = "Statics with Coulomb's friction, common practice of fixture design",
    caution(clamping),
    rule(
        cutting_force > 0.0 || axial_force > 0.0 || lifting_force > 0.0,
        "cutting_force, axial_force or lifting_force must be greater than zero"
    )
)]
pub fn vee_holding(
    #[increasing(slip_safety, holding_force)] clamp_force: Force,
    #[term(turning_cut_force)]
    #[decreasing(slip_safety)]
    cutting_force: Force,
    #[decreasing(slip_safety)] force_diameter: Length,
    #[increasing(slip_safety)] bar_diameter: Length,
    #[term(holding_friction)]
    #[increasing(slip_safety, holding_force)]
    friction: Ratio,
    #[decreasing(slip_safety)] axial_force: Force,
    #[decreasing(slip_safety)] lifting_force: Force,
    #[term(vee_block_angle)]
    #[decreasing(holding_force)]
    vee_angle: Angle,
) -> ClampHolding {
    let sin = sin_degrees(0.5 * vee_angle);
    let side = at_the_grip(cutting_force, force_diameter, bar_diameter, axial_force);
    let holding_force = friction * clamp_force * (1.0 + sin) / sin;
    BareClampHolding {
        slip_safety: clamp_force * (1.0 + sin) / (side / friction * sin + lifting_force),
        holding_force,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &REQUIRED_CLAMP_FORCE,
    &CLAMP_HOLDING,
    &REQUIRED_GRIP,
    &GRIP_HOLDING,
    &REQUIRED_VEE_FORCE,
    &VEE_HOLDING,
];
