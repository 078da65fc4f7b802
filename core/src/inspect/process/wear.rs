//! Wear of tools and gauges: what it does to sizes, and how many parts it allows.
use crate::formula::Formula;
use crate::math::tan_degrees;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Drift of a turned diameter from part to part by wear of the edge.
///
/// It is 2 · wear land · tan(clearance angle) · cutting time / tool life. Outside diameters grow, bores shrink; a face moves by half of it. The wear is spread evenly over the life, which holds
/// between the quick start and the quick end of it. `tool_life` gives the life after Taylor. Heat, deflection and a built-up
/// edge move sizes too: readings in order tell more, by `tool_drift`.
#[formula(
    source = "Geometry: a flat wear land square to the work, measured from the first edge as in ISO 3685 (from memory)"
)]
pub fn drift_per_part(
    /// Mean width of the wear land on the flank at the end of the life: often 0.3 mm (0.012 in).
    #[non_negative]
    #[increasing]
    wear_land: Length,
    /// Clearance angle of the edge as it stands in the machine.
    #[positive]
    #[below(90.0)]
    #[range(2.0, 20.0)]
    #[increasing]
    clearance_angle: Angle,
    #[increasing] cutting_time: Time,
    #[decreasing] tool_life: Time,
) -> Length {
    2.0 * wear_land * tan_degrees(clearance_angle) * (cutting_time / tool_life)
}

/// How a tool that wears is set.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct OffsetPlan {
    /// Parts from one setting of the tool to the next.
    pub parts: Count,
    /// How far from the middle of the limits the first part is to be, against the drift.
    pub first_part: Length,
    /// How far the sizes may move in between; also by how much the tool is set back.
    pub travel: Length,
}

/// Parts between offsets of a tool that wears: what the tolerance leaves beside the spread, over the drift.
///
/// The mean moves from first_part on one side of the middle to as far on the other, and stays three deviations times the
/// required capability from both limits. A tolerance that the spread uses up leaves one part: the mean must not move at all.
#[formula(
    source = "Common practice",
    rule(
        6.0 * required_capability * process_deviation <= tolerance,
        "tolerance must be at least six process_deviation times required_capability"
    )
)]
pub fn parts_between_offsets(
    #[term(size_tolerance)]
    #[increasing(parts, first_part, travel)]
    tolerance: Length,
    /// Standard deviation of the sizes about the drift.
    #[non_negative]
    #[decreasing(parts, first_part, travel)]
    process_deviation: Length,
    /// Drift from one part to the next, without its sign.
    #[positive]
    #[decreasing(parts)]
    drift_per_part: Length,
    #[default(1.0)]
    #[decreasing(parts, first_part, travel)]
    required_capability: Ratio,
) -> OffsetPlan {
    let travel = tolerance - 6.0 * required_capability * process_deviation;
    BareOffsetPlan { parts: 1.0 + whole_steps(travel / drift_per_part), first_part: 0.5 * travel, travel }
}

/// Parts that a gauge still measures before it reaches its wear limit, by what it has worn so far.
///
/// Parts so far · (present size - wear limit) / (new size - present size); for plugs, which wear smaller, and rings, which
/// wear larger. Wear follows the metal and how the gauge is used, so check it at half of the figure. Below zero it is worn out
/// already: the answer is 0.
#[formula(
    source = "Common practice: wear in proportion to the parts measured",
    rule(
        (new_size - present_size) * (new_size - wear_limit) > 0.0,
        "present_size and wear_limit must differ from new_size to the same side"
    )
)]
pub fn gauge_parts_left(
    /// Size of the gauge when it was new.
    #[positive]
    new_size: Length,
    /// Size that it has now.
    #[positive]
    present_size: Length,
    /// Size at which it must be withdrawn.
    #[positive]
    wear_limit: Length,
    /// Parts that it has measured so far.
    #[positive]
    #[whole]
    #[increasing]
    parts: Count,
) -> Count {
    let steps = whole_steps(parts * ((present_size - wear_limit) / (new_size - present_size)));
    if steps > 0.0 { steps } else { 0.0 }
}

/// Parts that a new gauge measures before it has used up its allowance for wear.
#[formula(source = "Common practice: wear in proportion to the parts measured")]
pub fn gauge_life(
    /// What the gauge may wear, from its new size to its wear limit.
    #[non_negative]
    #[increasing]
    wear_allowance: Length,
    /// What it wears for every thousand parts.
    #[positive]
    #[decreasing]
    wear_per_thousand: Length,
) -> Count {
    whole_steps(1000.0 * (wear_allowance / wear_per_thousand))
}

/// The steps rounded down, after allowing 1e-9 for rounding.
pub(super) fn whole_steps(steps: f64) -> f64 {
    (steps + 1e-9 * steps.abs()).floor()
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&DRIFT_PER_PART, &PARTS_BETWEEN_OFFSETS, &GAUGE_PARTS_LEFT, &GAUGE_LIFE];
