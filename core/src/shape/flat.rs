//! Flats on a round bar.
use super::on_branch;
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Depth of cut that leaves a flat: diameter - remaining.
///
/// A drawing mostly gives the size from the flat to the far side of the bar, since that is what a micrometer
/// reads. A flat past the centre is a flat too.
#[formula(
    source = "Common practice; geometry of the circle",
    rule(remaining <= diameter, "remaining must be at most diameter"),
    inverse(diameter = flat_depth + remaining),
    inverse(remaining = diameter - flat_depth)
)]
pub fn flat_depth(
    #[term(bar_diameter)]
    #[increasing]
    diameter: Length,
    #[decreasing] remaining: Length,
) -> Length {
    diameter - remaining
}

/// Width of a flat on a round bar, across the flat: 2 · √((diameter - remaining) · remaining).
///
/// The chord of a circle. It is widest, the diameter itself, where half the diameter remains.
#[formula(
    source = "Common practice; geometry of the circle",
    rule(remaining <= diameter, "remaining must be at most diameter"),
    inverse(diameter = remaining + flat_width * flat_width / (4.0 * remaining))
)]
pub fn flat_width(
    #[term(bar_diameter)]
    #[increasing]
    diameter: Length,
    remaining: Length,
) -> Length {
    2.0 * ((diameter - remaining) * remaining).sqrt()
}

/// Height that remains of a round bar under a flat of a given width: (diameter + √(diameter² - width²)) / 2.
///
/// Of the flat on the near side of the centre; one as wide on the far side leaves the rest of the diameter.
#[formula(
    source = "Common practice; geometry of the circle",
    rule(width <= diameter, "width must be at most diameter"),
    inverse(diameter = on_branch(
 width <= 2.0 * flat_remaining, flat_remaining + 0.25 * width * (width / flat_remaining))),
    inverse(width = on_branch(diameter <= 2.0 * flat_remaining, flat_width_base(diameter, flat_remaining)))
)]
pub fn flat_remaining(
    #[term(bar_diameter)]
    #[increasing]
    diameter: Length,
    /// Width of the flat, across it.
    #[non_negative]
    #[decreasing]
    width: Length,
) -> Length {
    let width = width / diameter;
    0.5 * diameter * (1.0 + ((1.0 - width) * (1.0 + width)).sqrt())
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&FLAT_DEPTH, &FLAT_WIDTH, &FLAT_REMAINING];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_remains_beyond_the_bar() {
        let error = flat_width(Length::millimetres(20.0), Length::millimetres(20.5)).unwrap_err();
        let text = "flat_width: remaining must be at most diameter (diameter = 20 mm, remaining = 20.5 mm)";
        assert_eq!(error.to_string(), text);
        let error = flat_depth(Length::millimetres(20.0), Length::millimetres(0.0)).unwrap_err();
        assert_eq!(error.to_string(), "flat_depth: remaining must be greater than 0 mm, not 0 mm");
    }

    // A flat that touches the bar has neither depth nor width: geometry.
    #[test]
    fn the_whole_bar_may_remain() {
        let bar = Length::inches(0.5);
        assert_eq!(flat_depth(bar, bar).unwrap(), Length::inches(0.0));
        assert_eq!(flat_width(bar, bar).unwrap(), Length::inches(0.0));
    }
}
