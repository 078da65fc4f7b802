//! Sawing: sections, teeth in the cut, feed, time and kerf.
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Time of one saw cut: area of the cross-section / sawing rate.
///
/// The sawing rate is a figure of the saw and blade maker for the material and the section; clamping,
/// approach and return of the blade come on top.
#[formula(
    source = "Common practice; area over area in unit time",
    inverse(area = sawing_time * sawing_rate),
    inverse(sawing_rate = area / sawing_time)
)]
pub fn sawing_time(
    #[increasing] area: Area,
    /// Area sawn in unit time.
    #[positive]
    #[decreasing]
    sawing_rate: SawingRate,
) -> Time {
    area / sawing_rate
}

/// Area of a round bar or tube: π / 4 · (diameter² - bore²).
#[formula(source = "Plane geometry", rule(bore < diameter, "bore must be less than diameter"))]
pub fn round_section_area(
    /// Outside diameter.
    #[positive]
    #[increasing]
    diameter: Length,
    #[decreasing] bore: Length,
) -> Area {
    0.25 * PI * (diameter - bore) * (diameter + bore)
}

/// Area of a square or rectangular bar or tube: width · height less that of its hollow.
///
/// A wall of half the lesser side makes it solid. Rounded corners are left out.
#[formula(
    source = "Plane geometry",
    rule(
        2.0 * wall <= width && 2.0 * wall <= height,
        "wall must be at most half of width and of height"
    )
)]
pub fn rectangular_tube_area(
    /// Outside width.
    #[positive]
    #[increasing]
    width: Length,
    /// Outside height.
    #[positive]
    #[increasing]
    height: Length,
    /// Thickness of the wall.
    #[positive]
    #[increasing]
    wall: Length,
) -> Area {
    2.0 * wall * (width + height - 2.0 * wall)
}

/// Mean width of a section across the blade: area / height.
///
/// For tubes and shapes the teeth in the cut are judged by it.
#[formula(
    source = "Common practice, no source",
    inverse(area = mean_sawing_width * height),
    inverse(height = area / mean_sawing_width)
)]
pub fn mean_sawing_width(
    #[increasing] area: Area,
    /// Height of the section along the feed of the blade.
    #[positive]
    #[decreasing]
    height: Length,
) -> Length {
    area / height
}

/// Pitch of a saw blade's teeth: length / teeth in that length, 1 in by default.
///
/// Of a blade with a variable pitch, such as 4/6, take the mean number of teeth.
#[formula(
    source = "Definition",
    inverse(teeth = length / saw_tooth_pitch),
    inverse(length = saw_tooth_pitch * teeth)
)]
pub fn saw_tooth_pitch(
    /// Number of teeth in the length: teeth per inch for an inch.
    #[positive]
    #[decreasing]
    teeth: Ratio,
    /// Length that they are counted in.
    #[positive]
    #[default(Length::inches(1.0))]
    #[increasing]
    length: Length,
) -> Length {
    length / teeth
}

/// Number of teeth in the cut: width of the section / tooth pitch.
///
/// The common rule asks for 3 at least, or teeth are stripped, and for 24 at most, or the gullets overflow.
#[formula(
    source = "Three-tooth rule: at least 3 and at most 24 teeth in the cut; common practice, no source",
    inverse(width = teeth_in_saw_cut * tooth_pitch),
    inverse(tooth_pitch = width / teeth_in_saw_cut)
)]
pub fn teeth_in_saw_cut(
    /// Width of the section across the blade.
    #[positive]
    #[increasing]
    width: Length,
    #[decreasing] tooth_pitch: Length,
) -> Ratio {
    width / tooth_pitch
}

/// Finest and coarsest tooth pitch that a section bears.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct SawPitchLimits {
    /// Finest pitch: with a finer one more than the most teeth are in the cut.
    pub finest_pitch: Length,
    /// Coarsest pitch: with a coarser one fewer than the least teeth are in the cut.
    pub coarsest_pitch: Length,
}

/// Finest and coarsest pitch of a blade for a section, by the least and most teeth in the cut.
///
/// The finest is greatest width / most teeth, the coarsest least width / least teeth. A round bar is judged
/// at its diameter by common practice, though its width begins at nothing: feed gently there. Where the
/// finest comes out coarser than the coarsest, no single pitch suits both widths: turn the section, or mind
/// the thin wall first.
#[formula(
    source = "Three-tooth rule: at least 3 and at most 24 teeth in the cut; common practice, no source",
    rule(least_width <= greatest_width, "least_width must be at most greatest_width"),
    rule(least_teeth <= most_teeth, "least_teeth must be at most most_teeth")
)]
pub fn saw_pitch_limits(
    /// Least width of the section across the blade: the wall of a tube.
    #[positive]
    #[increasing(coarsest_pitch)]
    least_width: Length,
    /// Greatest width of the section across the blade.
    #[positive]
    #[increasing(finest_pitch)]
    greatest_width: Length,
    /// Least number of teeth in the cut.
    #[positive]
    #[default(3.0)]
    #[decreasing(coarsest_pitch)]
    least_teeth: Count,
    /// Greatest number of teeth in the cut.
    #[positive]
    #[default(24.0)]
    #[decreasing(finest_pitch)]
    most_teeth: Count,
) -> SawPitchLimits {
    BareSawPitchLimits {
        finest_pitch: greatest_width / most_teeth,
        coarsest_pitch: least_width / least_teeth,
    }
}

/// Feed rate of a band saw: band speed / tooth pitch · chip load.
///
/// The speed of the band itself, or of the rim of a circular blade, is `surface_speed` of its wheel or
/// blade. A circular blade feeds by `feed_rate`.
#[formula(
    source = "Kinematics; H. Jack, Engineer on a Disk, sawing",
    inverse(band_speed = band_saw_feed_rate * (tooth_pitch / chip_load)),
    inverse(tooth_pitch = band_speed * (chip_load / band_saw_feed_rate))
)]
pub fn band_saw_feed_rate(
    #[increasing] band_speed: SurfaceSpeed,
    #[decreasing] tooth_pitch: Length,
    /// Chip load, the feed of each tooth.
    #[positive]
    #[increasing]
    chip_load: Length,
) -> FeedRate {
    band_speed * (chip_load / tooth_pitch)
}

/// Chip load of a band saw, the feed of each tooth: feed rate · tooth pitch / band speed.
#[formula(
    source = "Kinematics; common practice",
    inverse(feed_rate = band_saw_chip_load * (band_speed / tooth_pitch)),
    inverse(band_speed = feed_rate * (tooth_pitch / band_saw_chip_load)),
    inverse(tooth_pitch = band_speed * (band_saw_chip_load / feed_rate))
)]
pub fn band_saw_chip_load(
    /// Feed rate of the head.
    #[positive]
    #[increasing]
    feed_rate: FeedRate,
    #[decreasing] band_speed: SurfaceSpeed,
    #[increasing] tooth_pitch: Length,
) -> Length {
    tooth_pitch * (feed_rate / band_speed)
}

/// Mass of metal that saw cuts turn into chips: area · kerf · density · cuts.
#[formula(
    source = "Volume times density; common practice",
    inverse(kerf = kerf_mass / (area * density * cuts))
)]
pub fn kerf_mass(
    #[positive]
    #[increasing]
    area: Area,
    #[positive]
    #[increasing]
    kerf: Length,
    /// Density of the material.
    #[positive]
    density: Density,
    /// Number of cuts.
    #[positive]
    #[whole]
    #[default(1.0)]
    #[increasing]
    cuts: Count,
) -> Mass {
    area * kerf * density * cuts
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &SAWING_TIME,
    &ROUND_SECTION_AREA,
    &RECTANGULAR_TUBE_AREA,
    &MEAN_SAWING_WIDTH,
    &SAW_TOOTH_PITCH,
    &TEETH_IN_SAW_CUT,
    &SAW_PITCH_LIMITS,
    &BAND_SAW_FEED_RATE,
    &BAND_SAW_CHIP_LOAD,
    &KERF_MASS,
];
