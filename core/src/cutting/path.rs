//! The feed of a tool whose centre runs on another path than its cutting edge.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Feed rate of the centre of a cutter on an inside arc: feed rate · (R - r) / R.
///
/// R is the radius of the finished arc and r that of the cutter. The centre runs on the smaller arc, so it must
/// go slower for the cutting edge to feed along the contour at the feed rate wanted. A control that is told the
/// path of the centre takes this figure; one that holds the feed at the contour by itself does not need it.
#[formula(
    source = "Sandvik Coromant, threading guide, technical reference, p. 117, for internal threads; geometry of \
              the circle",
    rule(2.0 * arc_radius > cutter_diameter, "arc_radius must be greater than half of cutter_diameter"),
    inverse(feed_rate = inside_arc_feed_rate / (1.0 - cutter_diameter / (2.0 * arc_radius)))
)]
pub fn inside_arc_feed_rate(
    #[term(contour_feed_rate)]
    #[increasing]
    feed_rate: FeedRate,
    #[increasing] arc_radius: Length,
    #[decreasing] cutter_diameter: Length,
) -> FeedRate {
    feed_rate * (1.0 - cutter_diameter / (2.0 * arc_radius))
}

/// Feed rate of the centre of a cutter on an outside arc: feed rate · (R + r) / R.
///
/// R is the radius of the finished arc and r that of the cutter. The centre runs on the larger arc and may go
/// faster than the cutting edge feeds along the contour. Round a small corner the figure grows beyond what a
/// machine can follow: its own limits come first.
#[formula(
    source = "Sandvik Coromant, threading guide, technical reference, p. 117, for external threads; geometry of \
              the circle",
    inverse(feed_rate = outside_arc_feed_rate / (1.0 + cutter_diameter / (2.0 * arc_radius)))
)]
pub fn outside_arc_feed_rate(
    #[term(contour_feed_rate)]
    #[increasing]
    feed_rate: FeedRate,
    #[decreasing] arc_radius: Length,
    #[increasing] cutter_diameter: Length,
) -> FeedRate {
    feed_rate * (1.0 + cutter_diameter / (2.0 * arc_radius))
}

/// Feed rate of the centre of a cutter on any arc or line: feed rate · (1 - curvature · cutter diameter / 2).
///
/// The curvature is that of the finished contour, so that one call serves all moves of a toolpath: inside an arc it is
/// one over the radius and the centre goes slower, outside an arc minus that and the centre goes faster, and on a
/// straight line it is zero.
#[formula(
    source = "Sandvik Coromant, threading guide, technical reference, p. 117, for both kinds of arc; geometry of the \
              circle",
    rule(
        contour_curvature * cutter_diameter < 2.0,
        "contour_curvature must be less than 2 / cutter_diameter: the cutter must fit inside the arc"
    ),
    inverse(feed_rate = arc_feed_rate / (1.0 - 0.5 * contour_curvature * cutter_diameter))
)]
pub fn arc_feed_rate(
    #[term(contour_feed_rate)]
    #[increasing]
    feed_rate: FeedRate,
    #[decreasing] contour_curvature: Curvature,
    cutter_diameter: Length,
) -> FeedRate {
    feed_rate * (1.0 - 0.5 * (contour_curvature * cutter_diameter))
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&INSIDE_ARC_FEED_RATE, &OUTSIDE_ARC_FEED_RATE, &ARC_FEED_RATE];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_formula_serves_lines_and_both_kinds_of_arc() {
        let (feed, cutter) = (FeedRate::millimetres_per_minute(500.0), Length::millimetres(12.0));
        let at = |curvature| arc_feed_rate(feed, Curvature::per_millimetre(curvature), cutter);
        assert_eq!(at(0.0), Ok(feed));
        for radius in [7.0, 25.0, 1000.0] {
            let arc = Length::millimetres(radius);
            let near = |a: FeedRate, b: FeedRate| (a.base() / b.base() - 1.0).abs() < 1e-15;
            assert!(near(at(1.0 / radius).unwrap(), inside_arc_feed_rate(feed, arc, cutter).unwrap()));
            assert!(near(at(-1.0 / radius).unwrap(), outside_arc_feed_rate(feed, arc, cutter).unwrap()));
        }
        assert!(matches!(at(1.0 / 6.0), Err(crate::Error::Rule { .. })));
    }

    #[test]
    fn an_infinite_radius_is_not_called_negative() {
        let feed = FeedRate::millimetres_per_minute(500.0);
        let error = inside_arc_feed_rate(feed, Length::millimetres(f64::INFINITY), Length::millimetres(12.0));
        let text = "inside_arc_feed_rate: arc_radius must be finite and greater than 0 mm, not inf mm";
        assert_eq!(error.unwrap_err().to_string(), text);
    }

    // A cutter as large as the arc stands still and leaves its own shape: geometry.
    #[test]
    fn a_cutter_must_fit_the_inside_arc() {
        let feed = FeedRate::millimetres_per_minute(500.0);
        let error =
            inside_arc_feed_rate(feed, Length::millimetres(6.0), Length::millimetres(12.0)).unwrap_err();
        let text = "inside_arc_feed_rate: arc_radius must be greater than half of cutter_diameter \
                    (arc_radius = 6 mm, cutter_diameter = 12 mm)";
        assert_eq!(error.to_string(), text);
        assert!(outside_arc_feed_rate(feed, Length::millimetres(6.0), Length::millimetres(12.0)).is_ok());
    }
}
