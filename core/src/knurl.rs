//! Knurls: how much they raise a diameter, blanks on which their teeth track, and knurled joints.
//!
//! Forming moves metal and makes none: what the grooves displace rises between them. At full form the teeth
//! are sharp, and the surface of the blank lies at their mean height, so the crests stand
//! (tooth height - mean height) above it. On the flat that mean is 1/2 of the tooth height for grooves one
//! way, 1/3 for grooves two ways with the points raised, and 2/3 with the points indented.
pub mod blank;
pub mod form;
pub mod joint;
mod standard;
mod table;

pub use blank::{KNURL_TEETH, knurl_teeth};
pub use standard::{Knurl, KnurlError, KnurlTolerance};
pub use table::KnurlPattern;

use crate::formula::Formula;
use crate::math::tan_degrees;
use crate::quantity::*;
use tenths_macros::formula;

/// Height of a sharp tooth for each unit of pitch.
#[inline(always)]
fn slenderness(profile_angle: f64) -> f64 {
    0.5 / tan_degrees(0.5 * profile_angle)
}

/// Growth in diameter of a straight or diagonal knurl: pitch / (2 · tan(profile angle / 2)).
///
/// It is the height of the sharp tooth. For the blank, subtract it from the diameter over the crests.
///
/// For sharp teeth at full form, on a blank that is large against the pitch. Real knurls have rounded teeth
/// and stop short of full form, so take it as an upper bound and roll a trial piece. On a round blank of few
/// teeth full form grows a little more, at 90 degrees by about 1.45 / teeth of the pitch.
#[formula(
    source = "Volume conservation at full form; DIN 82:1973 has 0.5 · pitch at 90 degrees for its forms RAA, RBL and RBR (from memory)",
    inverse(pitch = knurl_growth / (slenderness(profile_angle)))
)]
pub fn knurl_growth(#[increasing] pitch: Length, #[decreasing] profile_angle: Angle) -> Length {
    pitch * slenderness(profile_angle)
}

/// Growth in diameter of a diamond knurl with raised points: 4/3 of the height of the sharp tooth.
///
/// The height of the sharp tooth is pitch / (2 · tan(profile angle / 2)), with the same pitch both ways.
///
/// For sharp teeth at full form, on a blank that is large against the pitch. Real knurls have rounded teeth
/// and stop short of full form, so take it as an upper bound and roll a trial piece. On a round blank of few
/// teeth full form grows a little more.
#[formula(
    source = "Volume conservation at full form; DIN 82:1973 has 0.67 · pitch at 90 degrees for its forms RGE and RKE (from memory)",
    inverse(pitch = knurl_growth_raised / ((4.0 / 3.0) * slenderness(profile_angle)))
)]
pub fn knurl_growth_raised(#[increasing] pitch: Length, #[decreasing] profile_angle: Angle) -> Length {
    (4.0 / 3.0) * pitch * slenderness(profile_angle)
}

/// Growth in diameter of a diamond knurl with indented points: 2/3 of the height of the sharp tooth.
///
/// The height of the sharp tooth is pitch / (2 · tan(profile angle / 2)), with the same pitch both ways.
///
/// For sharp teeth at full form, on a blank that is large against the pitch. Real knurls have rounded teeth
/// and stop short of full form, so take it as an upper bound and roll a trial piece. On a round blank of few
/// teeth full form grows a little more.
#[formula(
    source = "Volume conservation at full form; DIN 82:1973, section 2.4, has 0.33 · pitch at 90 degrees for its form RKV",
    inverse(pitch = knurl_growth_indented / ((2.0 / 3.0) * slenderness(profile_angle)))
)]
pub fn knurl_growth_indented(#[increasing] pitch: Length, #[decreasing] profile_angle: Angle) -> Length {
    (2.0 / 3.0) * pitch * slenderness(profile_angle)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&KNURL_GROWTH, &KNURL_GROWTH_RAISED, &KNURL_GROWTH_INDENTED];

#[cfg(test)]
mod tests {
    use super::*;

    // A profile of 180 degrees has no tooth, and one of 0 no groove.
    #[test]
    fn a_groove_has_an_angle() {
        let growth = |angle| knurl_growth(Length::millimetres(1.0), Angle::degrees(angle));
        let need = "knurl_growth: profile_angle must be greater than 0° and less than 180°";
        assert_eq!(growth(180.0).unwrap_err().to_string(), format!("{need}, not 180°"));
        assert_eq!(growth(0.0).unwrap_err().to_string(), format!("{need}, not 0°"));
    }
}
