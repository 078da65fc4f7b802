//! Mass of bars, tubes and plates: section times length times density.
use crate::cutting::sawing::round_section_area_base;
use crate::formula::Formula;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::formula;

/// Area of a hexagon over its square across flats: √3 / 2.
const HEXAGON_SECTION: f64 = 0.866_025_403_784_438_6;

/// Mass of a round bar: π / 4 · diameter² · length · density.
#[formula(
    source = "Volume times density",
    inverse(diameter = (round_bar_mass / (0.25 * PI * length * density)).sqrt()),
    inverse(length = round_bar_mass / (0.25 * PI * diameter * diameter * density))
)]
pub fn round_bar_mass(
    /// Diameter of the round bar.
    #[positive]
    #[increasing]
    diameter: Length,
    #[term(bar_mass_length)]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    round_section_area_base(diameter, 0.0) * length * density
}

/// Mass of a hexagon bar: √3 / 2 · across flats² · length · density.
#[formula(
    source = "Volume times density",
    inverse(across_flats = (hexagon_bar_mass / (HEXAGON_SECTION * length * density)).sqrt()),
    inverse(length = hexagon_bar_mass / (HEXAGON_SECTION * across_flats * across_flats * density))
)]
pub fn hexagon_bar_mass(
    #[increasing] across_flats: Length,
    #[term(bar_mass_length)]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    HEXAGON_SECTION * across_flats * across_flats * length * density
}

/// Mass of a square bar: across flats² · length · density. Rounded corners are left out.
#[formula(
    source = "Volume times density",
    inverse(across_flats = (square_bar_mass / (length * density)).sqrt()),
    inverse(length = square_bar_mass / (across_flats * across_flats * density))
)]
pub fn square_bar_mass(
    /// Side of the square bar, its distance across flats.
    #[positive]
    #[increasing]
    across_flats: Length,
    #[term(bar_mass_length)]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    across_flats * across_flats * length * density
}

/// Mass of a round tube: π · wall · (outside diameter - wall) · length · density.
#[formula(
    source = "Volume times density",
    rule(2.0 * wall < outside_diameter, "wall must be less than half of outside_diameter"),
    inverse(outside_diameter = tube_mass / (PI * wall * length * density) + wall),
    inverse(length = tube_mass / (PI * wall * (outside_diameter - wall) * density))
)]
pub fn tube_mass(
    /// Outside diameter of the tube.
    #[positive]
    #[increasing]
    outside_diameter: Length,
    /// Thickness of the tube's wall.
    #[positive]
    #[increasing]
    wall: Length,
    #[term(bar_mass_length)]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    // Not by the bore: the difference of two near diameters would lose digits of a thin wall.
    PI * wall * (outside_diameter - wall) * length * density
}

/// Mass of a flat bar: width · thickness · length · density. Rounded edges are left out.
///
/// A thickness above the width is taken: the bar is then named by its other side.
#[formula(
    source = "Volume times density",
    inverse(thickness = flat_bar_mass / (width * length * density)),
    inverse(length = flat_bar_mass / (width * thickness * density))
)]
pub fn flat_bar_mass(
    /// Width of the flat bar.
    #[positive]
    #[increasing]
    width: Length,
    /// Thickness of the flat bar.
    #[positive]
    #[increasing]
    thickness: Length,
    #[term(bar_mass_length)]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    width * thickness * length * density
}

/// Mass of a plate: thickness · width · length · density.
#[formula(
    source = "Volume times density",
    inverse(thickness = plate_mass / (width * length * density)),
    inverse(width = plate_mass / (thickness * length * density)),
    inverse(length = plate_mass / (thickness * width * density))
)]
pub fn plate_mass(
    /// Thickness of the plate.
    #[positive]
    #[increasing]
    thickness: Length,
    /// Width of the plate.
    #[positive]
    #[increasing]
    width: Length,
    /// Length of the plate.
    #[positive]
    #[increasing]
    length: Length,
    #[increasing] density: Density,
) -> Mass {
    flat_bar_mass_base(width, thickness, length, density)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&ROUND_BAR_MASS, &HEXAGON_BAR_MASS, &SQUARE_BAR_MASS, &TUBE_MASS, &FLAT_BAR_MASS, &PLATE_MASS];
