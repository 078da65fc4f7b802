//! Time and cost of a lot: the share of setting up, cycles of several pieces, regrinds, breaking even.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Time for a piece with its share of setting up: set-up time / quantity + cycle time.
#[formula(
    source = "M. P. Groover, Automation, Production Systems and CIM, batch production (from memory)",
    inverse(setup_time = (time_with_setup - cycle_time) * quantity),
    inverse(cycle_time = time_with_setup - setup_time / quantity)
)]
pub fn time_with_setup(
    #[term(lot_setup_time)]
    #[increasing]
    setup_time: Time,
    #[term(piece_time)]
    #[increasing]
    cycle_time: Time,
    #[term(lot_quantity)]
    #[decreasing]
    quantity: Count,
) -> Time {
    setup_time / quantity + cycle_time
}

/// Share of setting up in the time of a lot: set-up time / (set-up time + quantity · cycle time).
#[formula(source = "Common practice, no source")]
pub fn setup_share(
    #[term(lot_setup_time)] setup_time: Time,
    /// Time for each piece, set-up apart.
    #[positive]
    cycle_time: Time,
    #[term(lot_quantity)] quantity: Count,
) -> Ratio {
    setup_time / (setup_time + quantity * cycle_time)
}

/// Cost of an operation for a piece: hourly rate · time with its share of setting up + tools.
#[formula(
    source = "M. P. Groover, Automation, Production Systems and CIM, cost of a piece (from memory)",
    inverse(tooling_cost = operation_cost - hourly_rate * (setup_time / quantity + cycle_time))
)]
pub fn operation_cost(
    #[term(lot_setup_time)]
    #[increasing]
    setup_time: Time,
    #[term(piece_time)]
    #[increasing]
    cycle_time: Time,
    #[term(lot_quantity)]
    #[decreasing]
    quantity: Count,
    #[increasing] hourly_rate: HourlyRate,
    /// Tools for each piece.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    tooling_cost: Money,
) -> Money {
    hourly_rate * (setup_time / quantity + cycle_time) + tooling_cost
}

/// Times of a lot whose cycles make several pieces.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct LotTime {
    /// Time of a cycle, with its share of a change of trays.
    pub cycle_time: Time,
    /// Time of the lot.
    pub lot_time: Time,
    /// Time for a piece, setting up included.
    pub time_each: Time,
}

/// Time of a lot in cycles of several pieces: set-up + quantity / pieces in a cycle · cycle time.
///
/// A cycle is processing, handling, and its share of a change of trays.
#[formula(source = "M. P. Groover, Automation, Production Systems and CIM, batch production (from memory)")]
pub fn lot_time(
    #[term(lot_setup_time)]
    #[increasing(lot_time, time_each)]
    setup_time: Time,
    /// Time in the machine for a cycle.
    #[non_negative]
    #[increasing(cycle_time, lot_time, time_each)]
    processing_time: Time,
    /// Time to load and unload for a cycle.
    #[non_negative]
    #[increasing(cycle_time, lot_time, time_each)]
    handling_time: Time,
    #[term(lot_quantity)] quantity: Count,
    /// Pieces that a cycle makes.
    #[at_least(1.0)]
    #[default(1.0)]
    pieces_per_cycle: Count,
    /// Time to change a tray of pieces.
    #[non_negative]
    #[default(0.0)]
    #[increasing(cycle_time, lot_time, time_each)]
    tray_change_time: Time,
    /// Pieces of a tray.
    #[at_least(1.0)]
    #[default(1.0)]
    pieces_per_tray: Count,
) -> LotTime {
    let cycle_time = processing_time + handling_time + tray_change_time * pieces_per_cycle / pieces_per_tray;
    let lot_time = setup_time + quantity / pieces_per_cycle * cycle_time;
    BareLotTime { cycle_time, lot_time, time_each: lot_time / quantity }
}

/// Cost of one life of a tool that is ground again: (price + regrinds · price of a regrind) / (regrinds + 1).
///
/// `reground_edge_cost` is the same from what the tool loses in worth with each grinding.
#[formula(
    source = "M. P. Groover, Fundamentals of Modern Manufacturing, cost of a cutting edge (from memory)",
    inverse(price = tool_life_cost * (regrinds + 1.0) - regrinds * regrind_price)
)]
pub fn tool_life_cost(
    /// Price of the tool.
    #[non_negative]
    #[increasing]
    price: Money,
    /// How often it is ground again.
    #[non_negative]
    regrinds: Count,
    /// Price of a regrind.
    #[non_negative]
    #[increasing]
    regrind_price: Money,
) -> Money {
    (price + regrinds * regrind_price) / (regrinds + 1.0)
}

/// Where two ways to make a part cost the same.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct RouteBreakEven {
    /// The quantity at which both cost the same, seldom a whole number.
    pub quantity: Count,
    /// What that quantity costs.
    pub cost: Money,
    /// The least whole quantity at which the second way costs less.
    pub cheaper_from: Count,
}

/// Break-even of two ways to make a part: (fixed cost 2 - fixed cost 1) / (cost each 1 - cost each 2).
///
/// The second way costs more once and less for each piece. Exactly at a whole break-even quantity both cost the same, and
/// the second is cheaper from the next piece on; a quotient within a part in 10¹² of a whole number is taken as that number.
#[formula(
    source = "Common practice, no source",
    rule(each_1 > each_2, "each_1 must be greater than each_2: the second way must cost less for each piece"),
    rule(fixed_2 >= fixed_1, "fixed_2 must be at least fixed_1: the second way costs more once")
)]
pub fn route_break_even(
    /// What the first way costs once.
    #[non_negative]
    #[decreasing(quantity)]
    fixed_1: Money,
    /// What each piece costs in the first way.
    #[non_negative]
    #[decreasing(quantity)]
    each_1: Money,
    /// What the second way costs once.
    #[non_negative]
    #[increasing(quantity)]
    fixed_2: Money,
    /// What each piece costs in the second way.
    #[non_negative]
    #[increasing(quantity)]
    each_2: Money,
) -> RouteBreakEven {
    let quantity = (fixed_2 - fixed_1) / (each_1 - each_2);
    BareRouteBreakEven {
        quantity,
        cost: fixed_1 + each_1 * quantity,
        cheaper_from: (quantity * (1.0 + ROUNDING)).floor() + 1.0,
    }
}

/// A part of a count that is rounding of the division, not a piece.
const ROUNDING: f64 = 1e-12;

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&TIME_WITH_SETUP, &SETUP_SHARE, &OPERATION_COST, &LOT_TIME, &TOOL_LIFE_COST, &ROUTE_BREAK_EVEN];
