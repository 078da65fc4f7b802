//! Hexagons, squares and other regular polygons with an even number of sides.
//!
//! The distance across corners of the largest polygon that a round bar gives is the diameter of the bar.
use crate::formula::Formula;
use crate::math::{cos_degrees, tan_degrees};
use crate::quantity::*;
use std::f64::consts::SQRT_2;
use tenths_macros::formula;

/// Across corners over across flats of a hexagon: 1 / cos 30° = 2/√3.
const HEXAGON: f64 = 1.154_700_538_379_251_5;

/// Distance across the corners of a hexagon: across flats / cos 30° = 1.154701 · across flats.
///
/// Also the diameter of the round bar from which the hexagon can be milled with sharp corners.
#[formula(source = "Geometry of the hexagon", inverse(across_flats = hexagon_across_corners / HEXAGON))]
pub fn hexagon_across_corners(#[increasing] across_flats: Length) -> Length {
    HEXAGON * across_flats
}

/// Distance across the flats of a hexagon: across corners · cos 30° = 0.866025 · across corners.
///
/// Of the largest hexagon that a round bar gives, where across corners is the diameter of the bar.
#[formula(source = "Geometry of the hexagon", inverse(across_corners = HEXAGON * hexagon_across_flats))]
pub fn hexagon_across_flats(#[increasing] across_corners: Length) -> Length {
    across_corners / HEXAGON
}

/// Distance across the corners of a square: √2 · across flats = 1.414214 · across flats.
///
/// Also the diameter of the round bar from which the square can be milled with sharp corners.
#[formula(source = "Geometry of the square", inverse(across_flats = square_across_corners / SQRT_2))]
pub fn square_across_corners(
    /// Distance across flats, the side of the square.
    #[positive]
    #[increasing]
    across_flats: Length,
) -> Length {
    SQRT_2 * across_flats
}

/// Distance across the flats of a square: across corners / √2 = 0.707107 · across corners.
///
/// Of the largest square that a round bar gives, where across corners is the diameter of the bar.
#[formula(source = "Geometry of the square", inverse(across_corners = SQRT_2 * square_across_flats))]
pub fn square_across_flats(#[increasing] across_corners: Length) -> Length {
    across_corners / SQRT_2
}

/// Distance across the corners of a regular polygon: across flats / cos(180° / sides).
///
/// The number of sides is even, so that flats lie opposite each other, and corners too.
#[formula(
    source = "Geometry of the regular polygon",
    rule((0.5 * sides).trunc() == 0.5 * sides, "sides must be even"),
    inverse(across_flats = polygon_across_corners * cos_degrees(180.0 / sides))
)]
pub fn polygon_across_corners(
    #[increasing] across_flats: Length,
    #[term(even_sides)]
    #[decreasing]
    sides: Count,
) -> Length {
    across_flats / cos_degrees(180.0 / sides)
}

/// Distance across the flats of a regular polygon: across corners · cos(180° / sides).
///
/// Of the largest polygon that a round bar gives, where across corners is the diameter of the bar. The number
/// of sides is even.
#[formula(
    source = "Geometry of the regular polygon",
    rule((0.5 * sides).trunc() == 0.5 * sides, "sides must be even"),
    inverse(across_corners = polygon_across_flats / cos_degrees(180.0 / sides))
)]
pub fn polygon_across_flats(
    #[increasing] across_corners: Length,
    #[term(even_sides)]
    #[increasing]
    sides: Count,
) -> Length {
    across_corners * cos_degrees(180.0 / sides)
}

/// Length of a side of a regular polygon: across flats · tan(180° / sides).
///
/// With an odd number of sides, across flats is twice the distance from the centre to a flat.
#[formula(
    source = "Geometry of the regular polygon",
    inverse(across_flats = polygon_side / tan_degrees(180.0 / sides))
)]
pub fn polygon_side(#[increasing] across_flats: Length, #[decreasing] sides: Count) -> Length {
    across_flats * tan_degrees(180.0 / sides)
}

/// Area of a regular polygon: sides / 4 · across flats² · tan(180° / sides).
///
/// The section of hexagonal or square bar, for its weight. With an odd number of sides, across flats is twice
/// the distance from the centre to a flat.
#[formula(
    source = "Geometry of the regular polygon",
    inverse(across_flats = 2.0 * (polygon_area / (sides * tan_degrees(180.0 / sides))).sqrt())
)]
pub fn polygon_area(#[increasing] across_flats: Length, #[decreasing] sides: Count) -> Area {
    0.25 * sides * tan_degrees(180.0 / sides) * across_flats * across_flats
}

/// Depth of cut of each of two opposite flats on a round bar: (diameter - across flats) / 2.
///
/// As for a hexagon indexed on a round bar, each side milled to the same depth below the bar.
#[formula(
    source = "Common practice; geometry of the circle",
    rule(across_flats <= diameter, "across_flats must be at most diameter"),
    inverse(diameter = across_flats + 2.0 * opposite_flat_depth),
    inverse(across_flats = diameter - 2.0 * opposite_flat_depth)
)]
pub fn opposite_flat_depth(
    #[term(bar_diameter)]
    #[increasing]
    diameter: Length,
    /// Distance across the finished flats.
    #[positive]
    #[decreasing]
    across_flats: Length,
) -> Length {
    0.5 * (diameter - across_flats)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &HEXAGON_ACROSS_CORNERS,
    &HEXAGON_ACROSS_FLATS,
    &SQUARE_ACROSS_CORNERS,
    &SQUARE_ACROSS_FLATS,
    &POLYGON_ACROSS_CORNERS,
    &POLYGON_ACROSS_FLATS,
    &POLYGON_SIDE,
    &POLYGON_AREA,
    &OPPOSITE_FLAT_DEPTH,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_odd_polygon_has_no_opposite_flats() {
        let error = polygon_across_corners(Length::millimetres(17.0), Count::new(5.0)).unwrap_err();
        assert_eq!(error.to_string(), "polygon_across_corners: sides must be even (sides = 5)");
    }

    // The named polygons are those of the general formula: geometry.
    #[test]
    fn hexagon_and_square_are_polygons() {
        let flats = Length::millimetres(17.0);
        for (sides, named) in
            [(6.0, hexagon_across_corners(flats).unwrap()), (4.0, square_across_corners(flats).unwrap())]
        {
            let general = polygon_across_corners(flats, Count::new(sides)).unwrap();
            assert!((general.metric() - named.metric()).abs() <= 1e-14, "{sides}");
        }
    }
}
