//! Dovetails, vee grooves and bores, measured over pins and balls.
//!
//! The relations are those of rigid bodies that touch where they should: corners are relieved below the pin, and
//! a pin touches the flank, not its edge.
use super::on_branch;
use crate::formula::Formula;
use crate::math::{asin_degrees, atan_degrees, atan2_degrees, cos_degrees, sin_degrees, tan_degrees};
use crate::quantity::*;
use tenths_macros::formula;

/// Measurement over two pins in the corners of a male dovetail: width + d (1 + cot(flank angle / 2)).
///
/// Here d is the diameter of the pins. They touch the flanks d/2 · (1 + cos(flank angle)) above the floor.
#[formula(
    source = "Handbook relation for dovetail slides (from memory); plane geometry",
    inverse(corner_width = male_dovetail_over_pins - pin_diameter * corner_rise(flank_angle)),
    inverse(flank_angle
        = 2.0 * atan_degrees(pin_diameter / (male_dovetail_over_pins - corner_width - pin_diameter))),
    inverse(pin_diameter = (male_dovetail_over_pins - corner_width) / corner_rise(flank_angle))
)]
pub fn male_dovetail_over_pins(
    /// Width between the sharp corners where the flanks meet the floor, the least of a male dovetail.
    #[positive]
    #[increasing]
    corner_width: Length,
    #[decreasing] flank_angle: Angle,
    #[increasing] pin_diameter: Length,
) -> Length {
    corner_width + pin_diameter * corner_rise(flank_angle)
}

/// Width of a male dovetail between its corners, from the measurement over pins.
///
/// Measurement - pin diameter · (1 + cot(flank angle / 2)).
#[formula(
    source = "Handbook relation for dovetail slides (from memory); plane geometry",
    rule(
        over_pins > pin_diameter * corner_rise(flank_angle),
        "over_pins, pin_diameter and flank_angle must leave a width"
    ),
    inverse(over_pins = male_dovetail_width + pin_diameter * corner_rise(flank_angle)),
    inverse(flank_angle
        = 2.0 * atan_degrees(pin_diameter / (over_pins - male_dovetail_width - pin_diameter))),
    inverse(pin_diameter = (over_pins - male_dovetail_width) / corner_rise(flank_angle))
)]
pub fn male_dovetail_width(
    /// Measurement over the pins.
    #[positive]
    #[increasing]
    over_pins: Length,
    #[increasing] flank_angle: Angle,
    #[decreasing] pin_diameter: Length,
) -> Length {
    over_pins - pin_diameter * corner_rise(flank_angle)
}

/// Measurement between two pins in the corners of a female dovetail: width - d (1 + cot(flank angle / 2)).
///
/// Here d is the diameter of the pins. They touch the flanks d/2 · (1 + cos(flank angle)) above the floor.
#[formula(
    source = "Handbook relation for dovetail slides (from memory); plane geometry",
    rule(
        corner_width > pin_diameter * corner_rise(flank_angle),
        "corner_width, pin_diameter and flank_angle must leave a gap between the pins"
    ),
    inverse(corner_width = female_dovetail_between_pins + pin_diameter * corner_rise(flank_angle)),
    inverse(flank_angle
        = 2.0 * atan_degrees(pin_diameter / (corner_width - female_dovetail_between_pins - pin_diameter))),
    inverse(pin_diameter = (corner_width - female_dovetail_between_pins) / corner_rise(flank_angle))
)]
pub fn female_dovetail_between_pins(
    /// Width between the sharp corners where the flanks meet the floor, the greatest of a female dovetail.
    #[positive]
    #[increasing]
    corner_width: Length,
    #[increasing] flank_angle: Angle,
    #[decreasing] pin_diameter: Length,
) -> Length {
    corner_width - pin_diameter * corner_rise(flank_angle)
}

/// Width of a female dovetail between its corners, from the measurement between pins.
///
/// Measurement + pin diameter · (1 + cot(flank angle / 2)).
#[formula(
    source = "Handbook relation for dovetail slides (from memory); plane geometry",
    inverse(between_pins = female_dovetail_width - pin_diameter * corner_rise(flank_angle)),
    inverse(flank_angle
        = 2.0 * atan_degrees(pin_diameter / (female_dovetail_width - between_pins - pin_diameter))),
    inverse(pin_diameter = (female_dovetail_width - between_pins) / corner_rise(flank_angle))
)]
pub fn female_dovetail_width(
    /// Measurement between the pins.
    #[positive]
    #[increasing]
    between_pins: Length,
    #[decreasing] flank_angle: Angle,
    #[increasing] pin_diameter: Length,
) -> Length {
    between_pins + pin_diameter * corner_rise(flank_angle)
}

/// By how much two pins in the corners of a dovetail change its width, over their diameter.
fn corner_rise(flank_angle: f64) -> f64 {
    1.0 + 1.0 / tan_degrees(0.5 * flank_angle)
}

/// Wide side of a dovetail from its narrow side: narrow width + 2 · depth / tan(flank angle).
///
/// Wide at the top of a male and at the floor of a female dovetail, between sharp corners.
#[formula(
    source = "Plane geometry",
    inverse(narrow_width = dovetail_wide_width - 2.0 * depth / tan_degrees(flank_angle)),
    inverse(depth = 0.5 * (dovetail_wide_width - narrow_width) * tan_degrees(flank_angle)),
    inverse(flank_angle = atan_degrees(2.0 * depth / (dovetail_wide_width - narrow_width)))
)]
pub fn dovetail_wide_width(
    /// Width between the corners of the narrow side.
    #[positive]
    #[increasing]
    narrow_width: Length,
    /// Depth of the dovetail.
    #[positive]
    #[increasing]
    depth: Length,
    #[below(90.0)]
    #[decreasing]
    flank_angle: Angle,
) -> Length {
    narrow_width + 2.0 * depth / tan_degrees(flank_angle)
}

/// Height of the top of a pin in a vee groove over the face.
///
/// d/2 · (1 + 1 / sin(vee angle / 2)) - width / (2 tan(vee angle / 2)), where d is the diameter of the pin;
/// negative for a pin below the face. The edges are sharp, and the groove is square to the face. On a pin of
/// width / cos(vee angle / 2) the edges of the groove begin to bear.
#[formula(
    source = "Plane geometry",
    rule(
        pin_diameter * cos_degrees(0.5 * vee_angle) <= vee_width,
        "vee_width must be at least pin_diameter times the cosine of half the vee_angle"
    ),
    inverse(vee_width = vee_width_at(vee_pin_height, vee_angle, pin_diameter)),
    inverse(vee_angle = vee_angle_at(vee_pin_height, vee_width, pin_diameter)),
    inverse(pin_diameter = pin_diameter_at(vee_pin_height, vee_angle, vee_width))
)]
pub fn vee_pin_height(
    /// Width of the groove at the face.
    #[positive]
    #[decreasing]
    vee_width: Length,
    #[increasing] vee_angle: Angle,
    #[increasing] pin_diameter: Length,
) -> Length {
    let [sine, cosine] = half_vee(vee_angle);
    (pin_diameter * (1.0 + sine) - vee_width * cosine) / (2.0 * sine)
}

/// Width of a vee groove at the face, from the height of a pin in it.
///
/// (d (1 + sin(vee angle / 2)) - 2 · height · sin(vee angle / 2)) / cos(vee angle / 2), where d is the diameter of
/// the pin.
#[formula(
    source = "Plane geometry",
    rule(
        2.0 * pin_height <= pin_diameter * (1.0 + sin_degrees(0.5 * vee_angle)),
        "pin_height must be such that pin_diameter touches the flanks at vee_angle"
    ),
    inverse(pin_height = vee_pin_height_base(vee_width_from_pin, vee_angle, pin_diameter)),
    inverse(vee_angle = vee_angle_at(pin_height, vee_width_from_pin, pin_diameter)),
    inverse(pin_diameter = pin_diameter_at(pin_height, vee_angle, vee_width_from_pin))
)]
pub fn vee_width_from_pin(
    /// Height of the top of the pin over the face; negative below it.
    #[decreasing]
    pin_height: Length,
    #[increasing] vee_angle: Angle,
    #[increasing] pin_diameter: Length,
) -> Length {
    vee_width_at(pin_height, vee_angle, pin_diameter)
}

/// Sine and cosine of half the angle between the flanks.
fn half_vee(vee_angle: f64) -> [f64; 2] {
    [sin_degrees(0.5 * vee_angle), cos_degrees(0.5 * vee_angle)]
}

fn vee_width_at(pin_height: f64, vee_angle: f64, pin_diameter: f64) -> f64 {
    let [sine, cosine] = half_vee(vee_angle);
    (pin_diameter * (1.0 + sine) - 2.0 * sine * pin_height) / cosine
}

fn pin_diameter_at(pin_height: f64, vee_angle: f64, vee_width: f64) -> f64 {
    let [sine, cosine] = half_vee(vee_angle);
    (2.0 * sine * pin_height + vee_width * cosine) / (1.0 + sine)
}

/// Angle at which a pin stands so high in a vee of that width: a tangent from the edge to the pin.
fn vee_angle_at(pin_height: f64, vee_width: f64, pin_diameter: f64) -> f64 {
    // Ratios, whose squares neither overflow nor vanish.
    let scale = pin_height.abs().max(vee_width).max(pin_diameter);
    let [pin_height, vee_width, pin_diameter] = [pin_height, vee_width, pin_diameter].map(|x| x / scale);
    let rise = 2.0 * pin_height - pin_diameter;
    let tangent = (vee_width * vee_width + 4.0 * pin_height * (pin_height - pin_diameter)).sqrt();
    // The sum of two angles, which nearly cancel in a narrow vee, as one.
    let (across, along) =
        (rise * pin_diameter + vee_width * tangent, vee_width * pin_diameter - rise * tangent);
    2.0 * atan2_degrees(across, along)
}

/// Angle of a vee groove from two pins: 2 asin(D / (2 · height difference - D)).
///
/// D is the difference of the pins' diameters, and the height difference is that of their tops.
#[formula(
    source = "Plane geometry; common practice of toolmakers",
    rule(large_pin_diameter > small_pin_diameter, "large_pin_diameter must be greater than small_pin_diameter"),
    rule(
        height_difference > large_pin_diameter - small_pin_diameter,
        "height_difference must be greater than large_pin_diameter minus small_pin_diameter"
    ),
    inverse(height_difference
        = 0.5 * (large_pin_diameter - small_pin_diameter) / pin_share(vee_angle_from_pins)),
    inverse(large_pin_diameter
        = small_pin_diameter + 2.0 * height_difference * pin_share(vee_angle_from_pins)),
    inverse(small_pin_diameter
        = large_pin_diameter - 2.0 * height_difference * pin_share(vee_angle_from_pins))
)]
pub fn vee_angle_from_pins(
    /// Diameter of the larger pin.
    #[positive]
    #[increasing]
    large_pin_diameter: Length,
    /// Diameter of the smaller pin.
    #[positive]
    #[decreasing]
    small_pin_diameter: Length,
    /// By how much the top of the larger pin stands higher.
    #[positive]
    #[decreasing]
    height_difference: Length,
) -> Angle {
    let difference = large_pin_diameter - small_pin_diameter;
    2.0 * asin_degrees(difference / (2.0 * height_difference - difference))
}

/// Radius of a pin in a vee over the height of its top from the root: sin / (1 + sin) of the half angle.
fn pin_share(vee_angle: f64) -> f64 {
    let [sine, _] = half_vee(vee_angle);
    on_branch(vee_angle <= 180.0, sine / (1.0 + sine))
}

/// Measurement over two pins in a vee groove round a shaft: outside diameter + 2 · height of a pin.
///
/// The pins lie across the shaft on opposite sides, and the height is that of `vee_pin_height`.
#[formula(
    source = "Plane geometry",
    rule(
        pin_diameter * cos_degrees(0.5 * vee_angle) <= vee_width,
        "vee_width must be at least pin_diameter times the cosine of half the vee_angle"
    ),
    rule(
        vee_width < outside_diameter * tan_degrees(0.5 * vee_angle),
        "vee_width and vee_angle must leave a core of the outside_diameter"
    ),
    inverse(outside_diameter
        = vee_groove_over_pins - 2.0 * vee_pin_height_base(vee_width, vee_angle, pin_diameter)),
    inverse(vee_angle = vee_angle_at(0.5 * (vee_groove_over_pins - outside_diameter), vee_width, pin_diameter)),
    inverse(pin_diameter = pin_diameter_at(0.5 * (vee_groove_over_pins - outside_diameter), vee_angle, vee_width)),
    inverse(vee_width
        = vee_width_at(0.5 * (vee_groove_over_pins - outside_diameter), vee_angle, pin_diameter))
)]
pub fn vee_groove_over_pins(
    /// Diameter of the shaft beside the groove.
    #[positive]
    #[increasing]
    outside_diameter: Length,
    #[decreasing] vee_width: Length,
    #[increasing] vee_angle: Angle,
    #[increasing] pin_diameter: Length,
) -> Length {
    outside_diameter + 2.0 * vee_pin_height_base(vee_width, vee_angle, pin_diameter)
}

/// Measurement between two balls in a vee groove round a bore: bore diameter - 2 · height of a ball.
///
/// The height is that of `vee_pin_height`. The flanks of the groove are cones, and touch a ball in its axial
/// plane alone, as the formula has it, where the bore is larger than the ball.
#[formula(
    source = "Plane geometry",
    rule(
        ball_diameter * cos_degrees(0.5 * vee_angle) <= vee_width,
        "vee_width must be at least ball_diameter times the cosine of half the vee_angle"
    ),
    rule(
        2.0 * vee_pin_height_base(vee_width, vee_angle, ball_diameter) < bore_diameter,
        "bore_diameter must leave a gap between balls of ball_diameter at vee_width and vee_angle"
    ),
    inverse(bore_diameter
        = vee_groove_between_balls + 2.0 * vee_pin_height_base(vee_width, vee_angle, ball_diameter)),
    inverse(vee_angle = vee_angle_at(0.5 * (bore_diameter - vee_groove_between_balls), vee_width, ball_diameter)),
    inverse(ball_diameter = pin_diameter_at(0.5 * (bore_diameter - vee_groove_between_balls), vee_angle, vee_width)),
    inverse(vee_width = vee_width_at(0.5 * (bore_diameter - vee_groove_between_balls), vee_angle, ball_diameter))
)]
pub fn vee_groove_between_balls(
    /// Diameter of the bore beside the groove.
    #[positive]
    #[increasing]
    bore_diameter: Length,
    #[increasing] vee_width: Length,
    #[decreasing] vee_angle: Angle,
    /// Diameter of the balls.
    #[positive]
    #[decreasing]
    ball_diameter: Length,
) -> Length {
    bore_diameter - 2.0 * vee_pin_height_base(vee_width, vee_angle, ball_diameter)
}

/// Diameter of a bore from two equal balls in it, one upon the other: d + √(d² - rise²).
///
/// Here d is the diameter of the balls, and the rise that of the top of the upper ball over the top of the lower
/// one, which rests on the floor. Each ball touches the wall, opposite the other.
#[formula(
    source = "Plane geometry; common practice of toolmakers",
    rule(rise <= ball_diameter, "rise must be at most ball_diameter"),
    inverse(ball_diameter = on_branch(
 rise <= bore_from_two_balls, 0.5 * bore_from_two_balls + 0.5 * rise * (rise / bore_from_two_balls))),
    inverse(rise = on_branch(
 ball_diameter <= bore_from_two_balls, (bore_from_two_balls * (2.0 * ball_diameter - bore_from_two_balls)).sqrt()))
)]
pub fn bore_from_two_balls(
    /// Diameter of each ball.
    #[positive]
    #[increasing]
    ball_diameter: Length,
    /// Height of the top of the upper ball over the top of the lower one.
    #[non_negative]
    #[decreasing]
    rise: Length,
) -> Length {
    let rise = rise / ball_diameter;
    ball_diameter * (1.0 + ((1.0 - rise) * (1.0 + rise)).sqrt())
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &MALE_DOVETAIL_OVER_PINS,
    &MALE_DOVETAIL_WIDTH,
    &FEMALE_DOVETAIL_BETWEEN_PINS,
    &FEMALE_DOVETAIL_WIDTH,
    &DOVETAIL_WIDE_WIDTH,
    &VEE_PIN_HEIGHT,
    &VEE_WIDTH_FROM_PIN,
    &VEE_ANGLE_FROM_PINS,
    &VEE_GROOVE_OVER_PINS,
    &VEE_GROOVE_BETWEEN_BALLS,
    &BORE_FROM_TWO_BALLS,
];
