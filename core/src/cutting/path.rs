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

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&INSIDE_ARC_FEED_RATE, &OUTSIDE_ARC_FEED_RATE];

#[cfg(test)]
mod tests {
    use super::*;

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
