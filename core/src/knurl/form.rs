//! How a straight or diagonal knurl takes form: its teeth short of full form, and on a bar of few teeth.
use super::{knurl_growth_base, slenderness};
use crate::formula::Formula;
use crate::math::{sin_degrees, tan_degrees};
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// A knurl short of full form.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PartKnurl {
    /// How far the crests rise above the blank, on the radius.
    pub crest_rise: Length,
    /// Growth in diameter, twice the rise.
    pub growth: Length,
    /// Width of the land that is left on each crest.
    pub land_width: Length,
}

/// Growth and land of a straight or diagonal knurl that is pressed in to a part of its depth.
///
/// What the grooves displace rises evenly between them: with k = tan(profile angle / 2) and the land √(t · (t - 4 k ·
/// penetration)) of a pitch t, the rise is 2 k · penetration² / (t - 2 k · penetration + land). At full form the
/// penetration is a quarter of pitch / k, half the height of the tooth, and the land is gone; no more is possible.
///
/// For sharp rolls on a blank that is large against the pitch, with no flow along the axis: an estimate. Against the
/// tables of the standards the model at full form is within 1 percent of DIN 82 and up to 9 percent above ASME B94.6.
#[formula(
    source = "Volume conservation, own derivation: grooves of k · penetration² fill the room between the teeth",
    rule(
        4.0 * tan_degrees(0.5 * profile_angle) * penetration <= pitch,
        "penetration must be at most a quarter of pitch / tan(profile_angle / 2), which is full form"
    )
)]
pub fn part_knurl(
    /// How far the teeth of the roll go below the surface of the blank, on the radius.
    #[non_negative]
    #[increasing(crest_rise, growth)]
    #[decreasing(land_width)]
    penetration: Length,
    #[increasing(land_width)]
    #[decreasing(crest_rise, growth)]
    pitch: Length,
    #[increasing(crest_rise, growth)]
    #[decreasing(land_width)]
    profile_angle: Angle,
) -> PartKnurl {
    // Of the whole penetration, from 0 to 1.
    let share = 4.0 * tan_degrees(0.5 * profile_angle) * penetration / pitch;
    let land = (1.0 - share).max(0.0).sqrt();
    let crest_rise = 0.5 * penetration * share / (1.0 - 0.5 * share + land);
    BarePartKnurl { crest_rise, growth: 2.0 * crest_rise, land_width: pitch * land }
}

/// Depth of penetration of a roll at full form: half the height of the tooth, less what the rounding of its tip takes.
///
/// Half the sharp tooth is pitch / (4 · tan(profile angle / 2)); a tip of radius r falls short of it by
/// r · (1 / sin(profile angle / 2) - 1). It is the depth of the groove below the blank.
#[formula(
    source = "Volume conservation and geometry; gives the groove depths of JIS B 0951:1962",
    rule(
        knurl_depth(pitch, tip_radius, profile_angle) > 0.0,
        "tip_radius must leave a groove at pitch and profile_angle"
    ),
    inverse(pitch = 2.0 * (full_penetration + tip_radius * rounding(profile_angle)) / slenderness(profile_angle))
)]
pub fn full_penetration(
    #[increasing] pitch: Length,
    /// Radius at the tip of the roll's teeth, which is that at the bottom of the groove.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    tip_radius: Length,
    profile_angle: Angle,
) -> Length {
    knurl_depth(pitch, tip_radius, profile_angle)
}

/// 1 / sin(profile angle / 2) - 1, whose digits a flat angle would otherwise cancel: 1 - cos x is 2 · sin²(x / 2).
#[inline(always)]
fn rounding(profile_angle: f64) -> f64 {
    let half = sin_degrees(0.5 * (90.0 - 0.5 * profile_angle));
    2.0 * half * half / sin_degrees(0.5 * profile_angle)
}

#[inline(always)]
fn knurl_depth(pitch: f64, tip_radius: f64, profile_angle: f64) -> f64 {
    0.5 * knurl_growth_base(pitch, profile_angle) - tip_radius * rounding(profile_angle)
}

/// A knurl at full form on a round bar.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RoundKnurl {
    /// Diameter over the crests: teeth · pitch / π.
    pub crest_diameter: Length,
    /// Diameter of the blank that gives it.
    pub blank_diameter: Length,
    /// Diameter at the bottom of the grooves.
    pub root_diameter: Length,
    /// Growth in diameter.
    pub growth: Length,
}

/// Blank and growth of a straight knurl at full form on a round bar, where teeth stand apart on a circle.
///
/// The bar of N sharp teeth has the section of its blank: N · r_root · r_crest · sin(π/N) = π/4 · blank², with
/// r_root = r_crest · sin(profile angle / 2 - π/N) / sin(profile angle / 2). Growth is above that of `knurl_growth`: at
/// 90 degrees by 1 percent where the bar is 80 pitches across, and by a quarter where it is 4.
///
/// For sharp teeth without axial flow; real knurls stop short of full form, so take the growth as an upper bound and
/// roll a trial piece.
#[formula(
    source = "Volume conservation on the round, own derivation; the angle of the groove is held",
    rule(teeth * profile_angle > 360.0, "teeth must be more than 360° / profile_angle, or the grooves meet")
)]
pub fn round_knurl(
    /// Number of teeth.
    #[above(2.0)]
    #[whole]
    #[increasing(crest_diameter, blank_diameter, root_diameter)]
    teeth: Count,
    /// Pitch of the teeth over the crests.
    #[positive]
    #[increasing(crest_diameter, blank_diameter, root_diameter, growth)]
    pitch: Length,
    profile_angle: Angle,
) -> RoundKnurl {
    let half = 180.0 / teeth;
    let root_share = sin_degrees(0.5 * profile_angle - half) / sin_degrees(0.5 * profile_angle);
    let blank_share = (teeth / PI * sin_degrees(half) * root_share).sqrt();
    let crest_diameter = teeth * pitch / PI;
    BareRoundKnurl {
        crest_diameter,
        blank_diameter: crest_diameter * blank_share,
        root_diameter: crest_diameter * root_share,
        growth: pitch * (teeth / PI * (1.0 - blank_share)),
    }
}

/// Width of the land on teeth whose crests are turned off: pitch · the share of the height turned off.
///
/// For a knurl that is pressed into a bore, a works guideline asks that at least 2/3 of the height stay, so that the
/// land is at most 0.334 of the pitch.
#[formula(
    source = "Similar triangles; the limit is from a works guideline for DIN 82-RAA knurls as press-fit elements",
    inverse(turned_off = turned_land / pitch),
    inverse(pitch = turned_land / turned_off)
)]
pub fn turned_land(
    #[increasing] pitch: Length,
    /// Share of the tooth's height that is turned off or not formed.
    #[within(0.0, 1.0)]
    #[range(0.0, 0.334)]
    #[increasing]
    turned_off: Ratio,
) -> Length {
    pitch * turned_off
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PART_KNURL, &FULL_PENETRATION, &ROUND_KNURL, &TURNED_LAND];

#[cfg(test)]
mod tests {
    use super::*;

    // Conservation of volume: at full form no land is left, and the two halves make the sharp tooth.
    #[test]
    fn at_full_form_the_teeth_are_sharp() {
        let (pitch, depth) = (Length::millimetres(1.0), Length::millimetres(0.25));
        let knurl = part_knurl(depth, pitch, Angle::degrees(90.0)).unwrap();
        assert_eq!(knurl.land_width, Length::millimetres(0.0));
        assert_eq!(knurl.crest_rise, depth);
        let error = part_knurl(Length::millimetres(0.26), pitch, Angle::degrees(90.0)).unwrap_err();
        assert!(error.to_string().contains("which is full form"), "{error}");
    }

    // By mpmath in 40 digits, of the floats given.
    #[test]
    fn a_flat_profile_keeps_its_digits() {
        for (angle, pitch, tip_radius, depth) in [
            (179.99988, 1e-5, 1.0, 2.069_682_522_498_696e-12),
            (179.999_999, 1e-7, 1.0, 1.800_889_786_674_073e-16),
            (90.0, 1.0, 0.1, 0.208_578_643_762_690_5),
        ] {
            let [pitch, tip_radius] = [pitch, tip_radius].map(Length::millimetres);
            let got = full_penetration(pitch, tip_radius, Angle::degrees(angle)).unwrap();
            let share = got.in_units(Units::Metric) / depth;
            assert!((share - 1.0).abs() < 1e-13, "{angle}: {share}");
        }
    }
}
