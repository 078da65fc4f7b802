//! Teeth that track: how many go round a blank, and blanks for whole teeth.
use crate::formula::Formula;
use crate::math::{acos_degrees, cos_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Number of knurl teeth round a blank: π · diameter · cos(helix angle) / pitch.
///
/// Fractional as a rule. Teeth track where it is near a whole number; a blank a little smaller or larger
/// brings it there.
#[formula(
    source = "Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 1059: diametral pitch and blank diameter",
    inverse(diameter = knurl_teeth * pitch / (PI * cos_degrees(helix_angle))),
    inverse(pitch = PI * diameter * cos_degrees(helix_angle) / knurl_teeth)
)]
pub fn knurl_teeth(
    #[term(blank_diameter)]
    #[increasing]
    diameter: Length,
    #[decreasing] pitch: Length,
    #[decreasing] helix_angle: Angle,
) -> Count {
    PI * diameter * cos_degrees(helix_angle) / pitch
}

/// Blanks for whole numbers of teeth.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct KnurlBlank {
    /// The whole number of teeth whose blank is nearest to the wanted diameter.
    pub teeth: Count,
    /// Diameter of that blank.
    pub blank_diameter: Length,
    /// Diameter of the blank for one tooth fewer; zero for a single tooth.
    pub smaller_blank_diameter: Length,
    /// Diameter of the blank for one tooth more.
    pub larger_blank_diameter: Length,
}

/// Blank diameter for a whole number of teeth, nearest to a wanted diameter.
///
/// Teeth = π · diameter · cos(helix angle) / pitch, to the nearest whole number; the blank is
/// teeth · pitch / (π · cos(helix angle)). On such a blank every turn of the roll falls into the grooves of the last
/// one. Between two blanks lies a step of one tooth. A roll tracks within a part of that step, the less the harder the
/// metal, so prove the blank on a trial piece. For the diameter over the finished crests subtract the growth first.
#[formula(
    source = "Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 1059: diametral pitch and blank diameter",
    rule(
        PI * diameter * cos_degrees(helix_angle) >= pitch,
        "diameter must have room for a tooth of this pitch and helix_angle"
    )
)]
pub fn knurl_blank(
    /// Wanted diameter of the blank.
    #[positive]
    #[increasing(teeth)]
    diameter: Length,
    /// Pitch of the teeth, measured square to the grooves: π / diametral pitch, or π · module.
    #[positive]
    #[decreasing(teeth)]
    pitch: Length,
    #[decreasing(teeth)] helix_angle: Angle,
) -> KnurlBlank {
    let teeth = knurl_teeth_base(diameter, pitch, helix_angle).round();
    let step = pitch / (PI * cos_degrees(helix_angle));
    BareKnurlBlank {
        teeth,
        blank_diameter: teeth * step,
        smaller_blank_diameter: (teeth - 1.0) * step,
        larger_blank_diameter: (teeth + 1.0) * step,
    }
}

/// Helix angle to which a straight roll is swivelled, so that a whole number of teeth goes round the blank.
///
/// acos(teeth · pitch / (π · diameter)): a blank that is what it is tracks after all.
#[formula(
    source = "Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 1059, formulas 16 to 18",
    rule(teeth * pitch <= PI * diameter, "teeth of this pitch must go round diameter"),
    inverse(diameter = teeth * pitch / (PI * cos_degrees(tracking_helix_angle))),
    inverse(pitch = PI * diameter * cos_degrees(tracking_helix_angle) / teeth)
)]
pub fn tracking_helix_angle(
    /// Whole number of teeth.
    #[positive]
    #[whole]
    #[decreasing]
    teeth: Count,
    #[term(blank_diameter)]
    #[increasing]
    diameter: Length,
    /// Pitch of the roll, measured square to its grooves.
    #[positive]
    #[decreasing]
    pitch: Length,
) -> Angle {
    acos_degrees(teeth * pitch / (PI * diameter))
}

/// Blank diameter for bump knurling from the cross-slide: work teeth / roll teeth · (roll diameter + allowance).
///
/// Roll and work turn as gears do from the first touch. The allowance covers how far the roll goes in on the first
/// turn, when the blank has not grown yet.
#[formula(
    source = "Form Roll Die, bump knurling from the cross-slide",
    inverse(roll_diameter = bump_knurl_blank * roll_teeth / work_teeth - allowance)
)]
pub fn bump_knurl_blank(
    /// Diameter of the roll.
    #[positive]
    #[increasing]
    roll_diameter: Length,
    /// Teeth of the roll.
    #[positive]
    #[whole]
    #[decreasing]
    roll_teeth: Count,
    /// Number of teeth wanted on the work.
    #[positive]
    #[whole]
    #[increasing]
    work_teeth: Count,
    /// What is added to the diameter of the roll for the first turn.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    allowance: Length,
) -> Length {
    work_teeth / roll_teeth * (roll_diameter + allowance)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&KNURL_TEETH, &KNURL_BLANK, &TRACKING_HELIX_ANGLE, &BUMP_KNURL_BLANK];
