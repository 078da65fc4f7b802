//! What tool life costs: edges, the speeds for least cost and for greatest output, and the cost of a piece.
use super::tool_life::speed_for_tool_life_base;
use crate::formula::Formula;
use crate::math::powf;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

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

/// Life of an edge at the least cost of a piece: (1/n - 1) · (change time + edge cost / hourly rate).
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
    #[below(1.0)]
    #[decreasing]
    taylor_n: Ratio,
    #[increasing] tool_change_time: Time,
    #[increasing] edge_cost: Money,
    #[positive]
    #[decreasing]
    hourly_rate: HourlyRate,
) -> Time {
    (1.0 - taylor_n) / taylor_n * (tool_change_time + edge_cost / hourly_rate)
}

/// Surface speed for the least cost of a piece: C / (life at least cost / 1 min)^n.
///
/// The life is that of `tool_life_for_least_cost`. It is calculated for one tool that cuts alone, and its life in
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
    #[increasing] taylor_c: SurfaceSpeed,
    #[below(1.0)] taylor_n: Ratio,
    #[decreasing] tool_change_time: Time,
    #[decreasing] edge_cost: Money,
    #[positive]
    #[increasing]
    hourly_rate: HourlyRate,
) -> SurfaceSpeed {
    let life = tool_life_for_least_cost_base(taylor_n, tool_change_time, edge_cost, hourly_rate);
    speed_for_tool_life_base(life, taylor_c, taylor_n, unit_life)
}

/// Life of an edge at the greatest output of pieces: (1/n - 1) · change time.
#[formula(
    source = "Machining economics on Taylor's law, as in M. P. Groover, Fundamentals of Modern Manufacturing",
    inverse(tool_change_time = tool_life_for_greatest_output * (taylor_n / (1.0 - taylor_n)))
)]
pub fn tool_life_for_greatest_output(
    #[below(1.0)]
    #[decreasing]
    taylor_n: Ratio,
    #[positive]
    #[increasing]
    tool_change_time: Time,
) -> Time {
    (1.0 - taylor_n) / taylor_n * tool_change_time
}

/// Surface speed for the greatest output of pieces: C / (life at greatest output / 1 min)^n.
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
    #[increasing] taylor_c: SurfaceSpeed,
    #[below(1.0)] taylor_n: Ratio,
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
    #[increasing(pieces_per_edge)]
    #[decreasing(edges)]
    tool_life: Time,
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
    #[decreasing(pieces_per_edge)] cutting_time: Time,
    #[increasing(pieces_per_edge)] tool_life: Time,
    #[increasing(cycle_time, cost)] handling_time: Time,
    #[increasing(cycle_time, cost)] tool_change_time: Time,
    #[increasing(cost)] edge_cost: Money,
    #[increasing(cost)] hourly_rate: HourlyRate,
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
    #[decreasing(pieces_per_edge)]
    #[increasing(cycle_time, cost)]
    cutting_time: Time,
    #[increasing(pieces_per_edge)]
    #[decreasing(cycle_time, cost)]
    tool_life: Time,
    #[increasing(cycle_time, cost)] handling_time: Time,
    #[increasing(cycle_time, cost)] tool_change_time: Time,
    #[increasing(cost)] edge_cost: Money,
    #[increasing(cost)] hourly_rate: HourlyRate,
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
    use super::super::tool_life::TOOL_LIFE;
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
