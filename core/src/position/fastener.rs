//! Position tolerances that let fasteners through: floating and fixed fasteners, with and without projected zones.
//!
//! A floating fastener passes through clearance holes in every part; a fixed one is held by a thread or a tight hole
//! in one of them. Holes and fasteners count at their maximum material condition: the smallest hole, the largest
//! fastener. The formulas give room for worst parts to go together without interference, and none beyond it.
use crate::formula::Formula;
use crate::math::tan_degrees;
use crate::quantity::*;
use tenths_macros::formula;

/// Position tolerance of each part under a floating fastener: clearance hole - fastener.
///
/// The diameter of the zone, for the clearance holes of each part. Parts with holes of other sizes have each their
/// own.
#[formula(
    source = "ASME Y14.5-2018, appendix B, floating fastener H = F + T (clause from memory)",
    rule(clearance_hole >= fastener, "clearance_hole must be at least fastener"),
    inverse(clearance_hole = fastener + floating_fastener_tolerance),
    inverse(fastener = clearance_hole - floating_fastener_tolerance)
)]
pub fn floating_fastener_tolerance(
    #[increasing] clearance_hole: Length,
    #[decreasing] fastener: Length,
) -> Length {
    clearance_hole - fastener
}

/// Smallest clearance hole for a floating fastener: fastener + position tolerance.
#[formula(
    source = "ASME Y14.5-2018, appendix B, floating fastener H = F + T (clause from memory)",
    inverse(fastener = floating_fastener_hole - tolerance),
    inverse(tolerance = floating_fastener_hole - fastener)
)]
pub fn floating_fastener_hole(
    #[increasing] fastener: Length,
    #[term(clearance_tolerance)]
    #[increasing]
    tolerance: Length,
) -> Length {
    fastener + tolerance
}

/// Position tolerance of each of two parts under a fixed fastener, shared equally: (clearance hole - fastener) / 2.
///
/// The diameter of the zone of the clearance hole, and of that of the threaded or tight hole, which must be a
/// projected zone as high as the other part is thick. Without one use `unprojected_fastener_tolerance`.
#[formula(
    source = "ASME Y14.5-2018, appendix B, fixed fastener with a projected zone H = F + 2T (clause from memory)",
    rule(clearance_hole >= fastener, "clearance_hole must be at least fastener"),
    inverse(clearance_hole = fastener + 2.0 * fixed_fastener_tolerance),
    inverse(fastener = clearance_hole - 2.0 * fixed_fastener_tolerance)
)]
pub fn fixed_fastener_tolerance(
    #[increasing] clearance_hole: Length,
    #[decreasing] fastener: Length,
) -> Length {
    0.5 * (clearance_hole - fastener)
}

/// Position tolerance left for the clearance hole: clearance hole - fastener - threaded tolerance.
///
/// For a fixed fastener whose threaded or tight hole has a projected zone. Negative by what the clearance falls short
/// of the tolerance of the threaded hole.
#[formula(
    source = "ASME Y14.5-2018, appendix B, fixed fastener with a projected zone H = F + T1 + T2 (clause from memory)",
    rule(clearance_hole >= fastener, "clearance_hole must be at least fastener"),
    inverse(clearance_hole = fixed_fastener_clearance_tolerance + fastener + threaded_tolerance),
    inverse(fastener = clearance_hole - threaded_tolerance - fixed_fastener_clearance_tolerance),
    inverse(threaded_tolerance = clearance_hole - fastener - fixed_fastener_clearance_tolerance)
)]
pub fn fixed_fastener_clearance_tolerance(
    #[increasing] clearance_hole: Length,
    #[decreasing] fastener: Length,
    #[decreasing] threaded_tolerance: Length,
) -> Length {
    clearance_hole - fastener - threaded_tolerance
}

/// Smallest clearance hole for a fixed fastener: fastener + both position tolerances.
///
/// The zone of the threaded or tight hole is a projected one. Without it use `unprojected_fastener_hole`.
#[formula(
    source = "ASME Y14.5-2018, appendix B, fixed fastener with a projected zone H = F + T1 + T2 (clause from memory)",
    inverse(fastener = fixed_fastener_hole - clearance_tolerance - threaded_tolerance),
    inverse(clearance_tolerance = fixed_fastener_hole - fastener - threaded_tolerance),
    inverse(threaded_tolerance = fixed_fastener_hole - fastener - clearance_tolerance)
)]
pub fn fixed_fastener_hole(
    #[increasing] fastener: Length,
    #[increasing] clearance_tolerance: Length,
    #[increasing] threaded_tolerance: Length,
) -> Length {
    fastener + clearance_tolerance + threaded_tolerance
}

/// Diameter of the zone of a fastener at the end of its projection: tolerance · (1 + 2 · projection / depth).
///
/// Without a projected zone the axis may lean from one edge of its zone to the other over the depth of the thread,
/// and goes on leaning over the projection.
#[formula(
    source = "Geometry of the axis; ASME Y14.5-2018, appendix B, the factor of T2 where no projected zone is used \
              (clause from memory)",
    inverse(tolerance = zone_at_projection / (1.0 + 2.0 * projection / thread_depth)),
    inverse(projection = 0.5 * thread_depth * (zone_at_projection / tolerance - 1.0)),
    inverse(thread_depth = 2.0 * projection / (zone_at_projection / tolerance - 1.0))
)]
pub fn zone_at_projection(
    #[term(threaded_tolerance)]
    #[increasing]
    tolerance: Length,
    /// Greatest height of the fastener above the hole: the thickness of the other part, or the length of a stud.
    #[non_negative]
    #[increasing]
    projection: Length,
    #[term(thread_engagement)]
    #[decreasing]
    thread_depth: Length,
) -> Length {
    tolerance * (1.0 + 2.0 * projection / thread_depth)
}

/// Smallest clearance hole for a fixed fastener without a projected zone.
///
/// Fastener + clearance tolerance + threaded tolerance · (1 + 2 · projection / depth): the hole lets a fastener
/// through that leans as far as the zone of the threaded hole allows.
#[formula(
    source = "ASME Y14.5-2018, appendix B, fixed fastener without a projected zone H = F + T1 + T2 (1 + 2P/D) \
              (clause from memory)",
    inverse(
        fastener = unprojected_fastener_hole
            - clearance_tolerance
            - zone_at_projection_base(threaded_tolerance, projection, thread_depth)
    ),
    inverse(
        clearance_tolerance = unprojected_fastener_hole
            - fastener
            - zone_at_projection_base(threaded_tolerance, projection, thread_depth)
    ),
    inverse(
        threaded_tolerance = (unprojected_fastener_hole - fastener - clearance_tolerance)
            / (1.0 + 2.0 * projection / thread_depth)
    ),
    inverse(
        projection = 0.5
            * thread_depth
            * ((unprojected_fastener_hole - fastener - clearance_tolerance) / threaded_tolerance - 1.0)
    ),
    inverse(
        thread_depth = 2.0 * projection
            / ((unprojected_fastener_hole - fastener - clearance_tolerance) / threaded_tolerance - 1.0)
    )
)]
pub fn unprojected_fastener_hole(
    #[increasing] fastener: Length,
    #[increasing] clearance_tolerance: Length,
    #[increasing] threaded_tolerance: Length,
    #[increasing] projection: Length,
    #[term(thread_engagement)]
    #[decreasing]
    thread_depth: Length,
) -> Length {
    fastener + clearance_tolerance + zone_at_projection_base(threaded_tolerance, projection, thread_depth)
}

/// Position tolerance of each of two parts under a fixed fastener without a projected zone, shared equally.
///
/// (clearance hole - fastener) / (2 + 2 · projection / depth).
#[formula(
    source = "ASME Y14.5-2018, appendix B, fixed fastener without a projected zone H = F + T1 + T2 (1 + 2P/D) \
              (clause from memory), with T1 = T2",
    rule(clearance_hole >= fastener, "clearance_hole must be at least fastener"),
    inverse(clearance_hole = fastener + unprojected_fastener_tolerance * (2.0 + 2.0 * projection / thread_depth)),
    inverse(fastener = clearance_hole - unprojected_fastener_tolerance * (2.0 + 2.0 * projection / thread_depth)),
    inverse(
        projection =
            thread_depth * (0.5 * (clearance_hole - fastener) / unprojected_fastener_tolerance - 1.0)
    ),
    inverse(
        thread_depth =
            projection / (0.5 * (clearance_hole - fastener) / unprojected_fastener_tolerance - 1.0)
    )
)]
pub fn unprojected_fastener_tolerance(
    #[increasing] clearance_hole: Length,
    #[decreasing] fastener: Length,
    #[decreasing] projection: Length,
    #[term(thread_engagement)]
    #[increasing]
    thread_depth: Length,
) -> Length {
    (clearance_hole - fastener) / (2.0 + 2.0 * projection / thread_depth)
}

/// Offset of a leaning axis at a given height: height · tan(angle).
#[formula(
    source = "Geometry: the right triangle of height and angle",
    inverse(height = axis_shift / tan_degrees(angle))
)]
pub fn axis_shift(
    /// Height above the place where the axis is true, such as the projection of a fastener.
    #[non_negative]
    #[increasing]
    height: Length,
    /// Angle between the axis and its true direction.
    #[non_negative]
    #[below(90.0)]
    #[increasing]
    angle: Angle,
) -> Length {
    height * tan_degrees(angle)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &FLOATING_FASTENER_TOLERANCE,
    &FLOATING_FASTENER_HOLE,
    &FIXED_FASTENER_TOLERANCE,
    &FIXED_FASTENER_CLEARANCE_TOLERANCE,
    &FIXED_FASTENER_HOLE,
    &ZONE_AT_PROJECTION,
    &UNPROJECTED_FASTENER_HOLE,
    &UNPROJECTED_FASTENER_TOLERANCE,
    &AXIS_SHIFT,
];

#[cfg(test)]
mod tests {
    use super::*;

    // By the meaning of the words: a hole smaller than the fastener lets nothing through.
    #[test]
    fn a_hole_smaller_than_its_fastener_has_no_tolerance() {
        let [hole, fastener] = [6.0, 6.6].map(Length::millimetres);
        let need = "clearance_hole must be at least fastener";
        for refused in [floating_fastener_tolerance(hole, fastener), fixed_fastener_tolerance(hole, fastener)]
        {
            assert!(refused.unwrap_err().to_string().contains(need));
        }
        assert_eq!(floating_fastener_tolerance(hole, hole).map(Length::metric), Ok(0.0));
    }
}
