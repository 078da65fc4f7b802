//! Tool life after Taylor, and the speeds, edges and costs that follow from it.
use crate::formula::Formula;
use crate::math::{ln, powf};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Taylor's constants for one tool, one metal and one kind of cut.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TaylorConstants {
    /// Taylor's exponent.
    pub taylor_n: Ratio,
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    pub taylor_c: SurfaceSpeed,
}

/// What a batch takes of cutting edges.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BatchEdges {
    /// Whole pieces that one edge lasts for.
    pub pieces_per_edge: Count,
    /// Edges for the batch, the last of which may be worn in part.
    pub edges: Count,
}

/// Time and cost of one piece.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PieceCost {
    /// Pieces that one edge lasts for.
    pub pieces_per_edge: Count,
    /// Time of a piece, with its share of a tool change.
    pub cycle_time: Time,
    /// Cost of a piece: machine and operator for that time, and its share of an edge.
    pub cost: Money,
}

/// Life of a cutting edge after Taylor: 1 min · (C / surface speed)^(1/n).
///
/// C and n hold for one tool, one metal, one feed and depth, one coolant, and one measure of wear, within the
/// speeds of the trials. At low speed a built-up edge shortens life against the formula. A small error of speed or
/// of n is a large one of life: with n = 0.2, a tenth more speed costs nearly two fifths of it.
#[formula(
    source = "F. W. Taylor, On the Art of Cutting Metals, 1907; ISO 3685:1993 for the trials (both from memory)",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(surface_speed = speed_for_tool_life_base(tool_life, taylor_c, taylor_n, unit_life)),
    inverse(taylor_c = surface_speed * powf(tool_life / unit_life, taylor_n))
)]
pub fn tool_life(
    /// Surface speed of the cut.
    #[positive]
    #[decreasing]
    surface_speed: SurfaceSpeed,
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    /// Taylor's exponent: 0.1 or so for high-speed steel, 0.2 to 0.4 for carbide, to 0.7 for ceramic.
    #[within(0.0, 1.0)]
    #[above(0.0)]
    #[range(0.05, 0.8)]
    taylor_n: Ratio,
) -> Time {
    unit_life * powf(taylor_c / surface_speed, 1.0 / taylor_n)
}

/// Surface speed at which an edge lasts a wanted life, after Taylor: C / (life / 1 min)^n.
///
/// What holds for `tool_life` holds for it.
#[formula(
    source = "F. W. Taylor, On the Art of Cutting Metals, 1907 (from memory)",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(tool_life = tool_life_base(speed_for_tool_life, taylor_c, taylor_n, unit_life)),
    inverse(taylor_c = speed_for_tool_life * powf(tool_life / unit_life, taylor_n))
)]
pub fn speed_for_tool_life(
    /// Life wanted, as time in the cut.
    #[positive]
    #[decreasing]
    tool_life: Time,
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    #[like(tool_life)] taylor_n: Ratio,
) -> SurfaceSpeed {
    taylor_c * powf(tool_life / unit_life, -taylor_n)
}

/// Taylor's constants from two trials: n = ln(V₁ / V₂) / ln(T₂ / T₁), C = V₁ · (T₁ / 1 min)^n.
///
/// Two trials tell nothing of their own scatter. Fit several where the figures must bear weight, and take speeds
/// well apart.
#[formula(
    source = "The line through two points of Taylor's law on logarithmic paper; common practice",
    constant(unit_life: Time = Time::minutes(1.0)),
    rule(
        (first_surface_speed - second_surface_speed) * (second_life - first_life) > 0.0,
        "first_life and second_life must be in the reverse order of first_surface_speed and second_surface_speed"
    )
)]
pub fn taylor_from_trials(
    /// Surface speed of the first trial.
    #[positive]
    first_surface_speed: SurfaceSpeed,
    /// Life of the edge in the first trial.
    #[positive]
    first_life: Time,
    /// Surface speed of the second trial.
    #[positive]
    second_surface_speed: SurfaceSpeed,
    /// Life of the edge in the second trial.
    #[positive]
    second_life: Time,
) -> TaylorConstants {
    let taylor_n = ln(first_surface_speed / second_surface_speed) / ln(second_life / first_life);
    BareTaylorConstants { taylor_n, taylor_c: first_surface_speed * powf(first_life / unit_life, taylor_n) }
}

/// Life of an edge by speed, feed and depth: 1 min · (C / (V · (f / f₀)^a · (d / d₀)^b))^(1/n).
///
/// Taylor's law extended, V · T^n · f^a · d^b = C, with feed and depth over references f₀ and d₀, at which C holds.
/// Books print C for f and d in mm, which is a reference of 1 mm; those that print it for inches have a reference
/// of 1 in.
#[formula(
    source = "Taylor's law extended by feed and depth, as in P. C. Sharma, A Textbook of Production Engineering, \
              11th ed., example 14.4, p. 566",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(surface_speed = extended_speed_for_tool_life_base(
        tool_life_extended, feed_per_revolution, depth, taylor_c, taylor_n, feed_exponent, depth_exponent,
        reference_feed, reference_depth, unit_life
    )),
    inverse(taylor_c = surface_speed
        * powf(tool_life_extended / unit_life, taylor_n)
        * section_factor(feed_per_revolution / reference_feed, feed_exponent, depth / reference_depth, depth_exponent))
)]
pub fn tool_life_extended(
    /// Surface speed of the cut.
    #[positive]
    #[decreasing]
    surface_speed: SurfaceSpeed,
    /// Feed per revolution, in milling the chip load.
    #[positive]
    #[decreasing]
    feed_per_revolution: Length,
    /// Depth of cut.
    #[positive]
    #[decreasing]
    depth: Length,
    /// Taylor's C, the surface speed at which an edge lasts one minute at the reference feed and depth.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    /// Taylor's exponent.
    #[within(0.0, 1.0)]
    #[above(0.0)]
    #[range(0.05, 0.8)]
    taylor_n: Ratio,
    /// Exponent a of the feed.
    #[within(0.0, 2.0)]
    #[range(.., 1.0)]
    feed_exponent: Ratio,
    /// Exponent b of the depth, as a rule the smallest of the three effects.
    #[within(0.0, 2.0)]
    #[range(.., 1.0)]
    depth_exponent: Ratio,
    /// Feed at which C holds.
    #[positive]
    #[default(Length::millimetres(1.0))]
    #[increasing]
    reference_feed: Length,
    /// Depth at which C holds.
    #[positive]
    #[default(Length::millimetres(1.0))]
    #[increasing]
    reference_depth: Length,
) -> Time {
    let feed = feed_per_revolution / reference_feed;
    let factor = section_factor(feed, feed_exponent, depth / reference_depth, depth_exponent);
    unit_life * powf(taylor_c / surface_speed / factor, 1.0 / taylor_n)
}

/// Surface speed for a wanted life by feed and depth: C / ((T / 1 min)^n · (f / f₀)^a · (d / d₀)^b).
///
/// What holds for `tool_life_extended` holds for it.
#[formula(
    source = "Taylor's law extended by feed and depth, as in P. C. Sharma, A Textbook of Production Engineering, \
              11th ed., example 14.4, p. 566",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(tool_life = tool_life_extended_base(
        extended_speed_for_tool_life, feed_per_revolution, depth, taylor_c, taylor_n, feed_exponent, depth_exponent,
        reference_feed, reference_depth, unit_life
    ))
)]
pub fn extended_speed_for_tool_life(
    /// Life wanted, as time in the cut.
    #[positive]
    #[decreasing]
    tool_life: Time,
    /// Feed per revolution, in milling the chip load.
    #[positive]
    #[decreasing]
    feed_per_revolution: Length,
    /// Depth of cut.
    #[positive]
    #[decreasing]
    depth: Length,
    /// Taylor's C, the surface speed at which an edge lasts one minute at the reference feed and depth.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    #[like(tool_life_extended)] taylor_n: Ratio,
    #[like(tool_life_extended)] feed_exponent: Ratio,
    #[like(tool_life_extended)] depth_exponent: Ratio,
    #[like(tool_life_extended)]
    #[increasing]
    reference_feed: Length,
    #[like(tool_life_extended)]
    #[increasing]
    reference_depth: Length,
) -> SurfaceSpeed {
    let feed = feed_per_revolution / reference_feed;
    let factor = section_factor(feed, feed_exponent, depth / reference_depth, depth_exponent);
    taylor_c * powf(tool_life / unit_life, -taylor_n) / factor
}

/// By what feed and depth divide the speed of Taylor's law.
#[inline(always)]
fn section_factor(feed: f64, feed_exponent: f64, depth: f64, depth_exponent: f64) -> f64 {
    powf(feed, feed_exponent) * powf(depth, depth_exponent)
}

/// Cost of an edge of an insert: insert / edges + holder / edges that the holder lasts for.
///
/// Fewer edges than the insert has go into use where some chip or are forgotten: count those that do.
#[formula(
    source = "Common practice, no source",
    inverse(insert_cost = (insert_edge_cost - holder_cost / holder_edges) * edges)
)]
pub fn insert_edge_cost(
    /// Price of an insert.
    #[non_negative]
    #[increasing]
    insert_cost: Money,
    /// Edges of an insert that go into use.
    #[within(1.0, 1000.0)]
    #[decreasing]
    edges: Count,
    /// Price of the holder with its spare parts.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    holder_cost: Money,
    /// Edges that the holder lasts for.
    #[positive]
    #[range(1.0, ..)]
    #[default(400.0)]
    #[decreasing]
    holder_edges: Count,
) -> Money {
    insert_cost / edges + holder_cost / holder_edges
}

/// Cost of an edge of a tool that is ground again: wear for each grinding + hourly rate · grinding time.
///
/// The change of the tool in the machine is apart: it is time of the machine.
#[formula(
    source = "P. C. Sharma, A Textbook of Production Engineering, 11th ed., example 14.2, p. 564",
    inverse(depreciation = reground_edge_cost - hourly_rate * regrind_time),
    inverse(regrind_time = (reground_edge_cost - depreciation) / hourly_rate)
)]
pub fn reground_edge_cost(
    /// What the tool loses in worth with each grinding.
    #[non_negative]
    #[increasing]
    depreciation: Money,
    /// Time of grinding it again.
    #[non_negative]
    #[increasing]
    regrind_time: Time,
    /// Cost of an hour of grinding.
    #[non_negative]
    #[increasing]
    hourly_rate: HourlyRate,
) -> Money {
    depreciation + hourly_rate * regrind_time
}

/// Life of an edge at which a piece costs least: (1/n - 1) · (change time + edge cost / hourly rate).
///
/// Handling and metal cost the same at any speed and stay out. The optimum is flat: a tenth of speed to either side
/// costs little. See `speed_for_least_cost` for the speed.
#[formula(
    source = "Machining economics on Taylor's law, as in M. P. Groover, Fundamentals of Modern Manufacturing",
    rule(
        tool_change_time > 0.0 || edge_cost > 0.0,
        "tool_change_time or edge_cost must be greater than 0"
    ),
    inverse(tool_change_time = tool_life_for_least_cost * (taylor_n / (1.0 - taylor_n)) - edge_cost / hourly_rate),
    inverse(edge_cost =
        (tool_life_for_least_cost * (taylor_n / (1.0 - taylor_n)) - tool_change_time) * hourly_rate)
)]
pub fn tool_life_for_least_cost(
    /// Taylor's exponent.
    #[above(0.0)]
    #[below(1.0)]
    #[range(0.05, 0.8)]
    #[decreasing]
    taylor_n: Ratio,
    /// Time of changing an edge in the machine.
    #[non_negative]
    #[increasing]
    tool_change_time: Time,
    /// Cost of an edge.
    #[non_negative]
    #[increasing]
    edge_cost: Money,
    /// Cost of an hour of machine and operator, overheads and all.
    #[positive]
    #[decreasing]
    hourly_rate: HourlyRate,
) -> Time {
    (1.0 - taylor_n) / taylor_n * (tool_change_time + edge_cost / hourly_rate)
}

/// Surface speed at which a piece costs least: C / (life at least cost / 1 min)^n.
///
/// The life is that of `tool_life_for_least_cost`. It is reckoned for one tool that cuts alone, and its life in
/// time of cut. Take it only within the speeds for which C and n hold, and that machine, chuck and work allow.
#[formula(
    source = "Machining economics on Taylor's law, as in M. P. Groover, Fundamentals of Modern Manufacturing",
    constant(unit_life: Time = Time::minutes(1.0)),
    rule(
        tool_change_time > 0.0 || edge_cost > 0.0,
        "tool_change_time or edge_cost must be greater than 0"
    ),
    inverse(taylor_c = speed_for_least_cost
        * powf(tool_life_for_least_cost_base(taylor_n, tool_change_time, edge_cost, hourly_rate) / unit_life, taylor_n))
)]
pub fn speed_for_least_cost(
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    #[like(tool_life_for_least_cost)] taylor_n: Ratio,
    /// Time of changing an edge in the machine.
    #[non_negative]
    #[decreasing]
    tool_change_time: Time,
    /// Cost of an edge.
    #[non_negative]
    #[decreasing]
    edge_cost: Money,
    /// Cost of an hour of machine and operator, overheads and all.
    #[positive]
    #[increasing]
    hourly_rate: HourlyRate,
) -> SurfaceSpeed {
    let life = tool_life_for_least_cost_base(taylor_n, tool_change_time, edge_cost, hourly_rate);
    speed_for_tool_life_base(life, taylor_c, taylor_n, unit_life)
}

/// Life of an edge at which most pieces are made in unit time: (1/n - 1) · change time.
#[formula(
    source = "Machining economics on Taylor's law, as in M. P. Groover, Fundamentals of Modern Manufacturing",
    inverse(tool_change_time = tool_life_for_greatest_output * (taylor_n / (1.0 - taylor_n)))
)]
pub fn tool_life_for_greatest_output(
    #[like(tool_life_for_least_cost)]
    #[decreasing]
    taylor_n: Ratio,
    /// Time of changing an edge in the machine.
    #[positive]
    #[increasing]
    tool_change_time: Time,
) -> Time {
    (1.0 - taylor_n) / taylor_n * tool_change_time
}

/// Surface speed at which most pieces are made in unit time: C / (life at greatest output / 1 min)^n.
///
/// It is higher than that of least cost, since edges are for nothing in it. Between the two, a piece costs more and
/// comes sooner. Take it only within the speeds for which C and n hold, and that machine, chuck and work allow.
#[formula(
    source = "Machining economics on Taylor's law; A. Ghosh and A. K. Mallik, Manufacturing Science, example 4.28, \
              p. 271",
    constant(unit_life: Time = Time::minutes(1.0)),
    inverse(taylor_c = speed_for_greatest_output
        * powf(tool_life_for_greatest_output_base(taylor_n, tool_change_time) / unit_life, taylor_n))
)]
pub fn speed_for_greatest_output(
    /// Taylor's C, the surface speed at which an edge lasts one minute.
    #[positive]
    #[increasing]
    taylor_c: SurfaceSpeed,
    #[like(tool_life_for_least_cost)] taylor_n: Ratio,
    /// Time of changing an edge in the machine.
    #[positive]
    #[decreasing]
    tool_change_time: Time,
) -> SurfaceSpeed {
    let life = tool_life_for_greatest_output_base(taylor_n, tool_change_time);
    speed_for_tool_life_base(life, taylor_c, taylor_n, unit_life)
}

/// How much a life may lack and still count for one piece more: what rounding of decimals makes, and no wear shows.
const ROUNDING: f64 = 1e-12;

/// Whole pieces within the life of an edge, where 0.3 min hold three of 0.1 min.
#[inline(always)]
fn whole_pieces(tool_life: f64, cutting_time: f64) -> f64 {
    (tool_life / cutting_time * (1.0 + ROUNDING)).floor()
}

/// Whole pieces that an edge lasts for, and the edges that a batch takes.
///
/// An edge is changed between pieces: pieces for each edge are life / cutting time, less what is left over. A life
/// that lacks a millionth of a millionth of the last piece, as decimals in binary do, holds it.
#[formula(
    source = "Whole pieces for each edge, as in M. P. Groover, Fundamentals of Modern Manufacturing (from memory)",
    rule(whole_pieces(tool_life, cutting_time) >= 1.0, "tool_life must be at least cutting_time")
)]
pub fn batch_edges(
    /// Life of an edge, as time in the cut.
    #[positive]
    #[increasing(pieces_per_edge)]
    #[decreasing(edges)]
    tool_life: Time,
    /// Time in the cut for each piece.
    #[positive]
    #[decreasing(pieces_per_edge)]
    #[increasing(edges)]
    cutting_time: Time,
    /// Pieces of the batch.
    #[non_negative]
    #[whole]
    #[increasing(edges)]
    pieces: Count,
) -> BatchEdges {
    let pieces_per_edge = whole_pieces(tool_life, cutting_time);
    BareBatchEdges { pieces_per_edge, edges: (pieces / pieces_per_edge).ceil() }
}

/// Time and cost of a piece, where an edge is changed after whole pieces.
///
/// Cycle time is handling + cutting + change time / pieces per edge; cost is hourly rate · cycle time + edge cost /
/// pieces per edge. Metal, setting-up and other tools come on top. An edge that does not last for one piece is
/// refused.
#[formula(
    source = "Machining economics with whole pieces for each edge, as in M. P. Groover, Fundamentals of Modern \
              Manufacturing (from memory)",
    rule(whole_pieces(tool_life, cutting_time) >= 1.0, "tool_life must be at least cutting_time")
)]
pub fn piece_cost(
    // Cycle time and cost rise with the first of these and fall with the second, yet in leaps, which nothing can be
    // solved back from.
    /// Time in the cut for each piece.
    #[positive]
    #[decreasing(pieces_per_edge)]
    cutting_time: Time,
    /// Life of an edge, as time in the cut.
    #[positive]
    #[increasing(pieces_per_edge)]
    tool_life: Time,
    /// Time of loading, unloading and moves in air for each piece.
    #[non_negative]
    #[increasing(cycle_time, cost)]
    handling_time: Time,
    /// Time of changing an edge in the machine.
    #[non_negative]
    #[increasing(cycle_time, cost)]
    tool_change_time: Time,
    /// Cost of an edge.
    #[non_negative]
    #[increasing(cost)]
    edge_cost: Money,
    /// Cost of an hour of machine and operator, overheads and all.
    #[non_negative]
    #[increasing(cost)]
    hourly_rate: HourlyRate,
) -> PieceCost {
    let pieces_per_edge = whole_pieces(tool_life, cutting_time);
    piece(pieces_per_edge, cutting_time, handling_time, tool_change_time, edge_cost, hourly_rate)
}

/// Time and cost of a piece, where an edge is worn out to the last, if need be within a piece.
///
/// As `piece_cost`, with pieces per edge = life / cutting time, whole or not: the smooth curve whose least cost
/// `speed_for_least_cost` finds.
#[formula(
    source = "Machining economics on Taylor's law, as in M. P. Groover, Fundamentals of Modern Manufacturing"
)]
pub fn piece_cost_continuous(
    /// Time in the cut for each piece.
    #[positive]
    #[decreasing(pieces_per_edge)]
    #[increasing(cycle_time, cost)]
    cutting_time: Time,
    /// Life of an edge, as time in the cut.
    #[positive]
    #[increasing(pieces_per_edge)]
    #[decreasing(cycle_time, cost)]
    tool_life: Time,
    /// Time of loading, unloading and moves in air for each piece.
    #[non_negative]
    #[increasing(cycle_time, cost)]
    handling_time: Time,
    /// Time of changing an edge in the machine.
    #[non_negative]
    #[increasing(cycle_time, cost)]
    tool_change_time: Time,
    /// Cost of an edge.
    #[non_negative]
    #[increasing(cost)]
    edge_cost: Money,
    /// Cost of an hour of machine and operator, overheads and all.
    #[non_negative]
    #[increasing(cost)]
    hourly_rate: HourlyRate,
) -> PieceCost {
    let pieces_per_edge = tool_life / cutting_time;
    piece(pieces_per_edge, cutting_time, handling_time, tool_change_time, edge_cost, hourly_rate)
}

#[inline(always)]
fn piece(
    pieces_per_edge: f64,
    cutting_time: f64,
    handling_time: f64,
    tool_change_time: f64,
    edge_cost: f64,
    hourly_rate: f64,
) -> BarePieceCost {
    let cycle_time = handling_time + cutting_time + tool_change_time / pieces_per_edge;
    BarePieceCost {
        pieces_per_edge,
        cycle_time,
        cost: hourly_rate * cycle_time + edge_cost / pieces_per_edge,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &TOOL_LIFE,
    &SPEED_FOR_TOOL_LIFE,
    &TAYLOR_FROM_TRIALS,
    &TOOL_LIFE_EXTENDED,
    &EXTENDED_SPEED_FOR_TOOL_LIFE,
    &INSERT_EDGE_COST,
    &REGROUND_EDGE_COST,
    &TOOL_LIFE_FOR_LEAST_COST,
    &SPEED_FOR_LEAST_COST,
    &TOOL_LIFE_FOR_GREATEST_OUTPUT,
    &SPEED_FOR_GREATEST_OUTPUT,
    &BATCH_EDGES,
    &PIECE_COST,
    &PIECE_COST_CONTINUOUS,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    fn pieces(tool_life: f64, cutting_time: f64) -> Option<f64> {
        let mut y = [0.0; 2];
        BATCH_EDGES.call(Units::Metric, &[tool_life, cutting_time, 10.0], &mut y).ok().map(|_| y[0])
    }

    // Counted in decimals by hand.
    #[test]
    fn an_edge_that_just_lasts_counts() {
        assert_eq!(pieces(45.0, 15.0), Some(3.0));
        assert_eq!(pieces(0.3, 0.1), Some(3.0));
        assert_eq!(pieces(4.35, 0.29), Some(15.0));
        assert_eq!(pieces(44.999, 15.0), Some(2.0));
        assert_eq!(pieces(0.99, 1.0), None);
    }

    // The optimum is where the curve of cost is lowest, whatever its formula: by search over speeds.
    #[test]
    fn the_speed_for_least_cost_has_the_lowest_cost() {
        let (n, c, change, edge, rate) = (0.25, 300.0, 3.0, 4.0, 60.0);
        let cost = |speed: f64| {
            let (mut life, mut y) = ([0.0], [0.0; 3]);
            TOOL_LIFE.call(Units::Metric, &[speed, c, n], &mut life).unwrap();
            let x = [600.0 / speed, life[0], 1.0, change, edge, rate];
            PIECE_COST_CONTINUOUS.call(Units::Metric, &x, &mut y).unwrap();
            (y[1], y[2])
        };
        let speeds = || (1000..3000).map(|k| f64::from(k) * 0.1);
        let least = |of: &dyn Fn(f64) -> f64| speeds().min_by(|a, b| of(*a).total_cmp(&of(*b))).unwrap();
        let mut y = [0.0];
        SPEED_FOR_LEAST_COST.call(Units::Metric, &[c, n, change, edge, rate], &mut y).unwrap();
        assert!((y[0] - least(&|speed| cost(speed).1)).abs() < 0.1, "{}", y[0]);
        SPEED_FOR_GREATEST_OUTPUT.call(Units::Metric, &[c, n, change], &mut y).unwrap();
        assert!((y[0] - least(&|speed| cost(speed).0)).abs() < 0.1, "{}", y[0]);
    }
}
