//! What to buy: bars for a quantity, the length of stock, the size that cleans up, and what stock costs.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Bars for a quantity of good pieces.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BarsNeeded {
    /// Pieces to start, so that enough of them are good.
    pub starts: Count,
    /// Bars to buy, the last of which may be cut in part.
    pub bars: Count,
}

/// A part of a count that is rounding of the division, not a piece.
const ROUNDING: f64 = 1e-12;

/// Bars for a quantity of good pieces: starts = quantity / yield and bars = starts / parts per bar, each rounded up.
///
/// A quotient within a part in 10¹² of a whole number is taken as that number: 190 good pieces at a yield of 0.95 are 200
/// starts. `parts_per_bar` counts the parts; its length is the one it is given, so give it the upper limit of the
/// length where parts may come out long.
#[formula(source = "Common practice, no source")]
pub fn bars_needed(
    #[increasing(starts, bars)] quantity: Count,
    /// Parts that a bar gives, as `parts_per_bar` counts them.
    #[at_least(1.0)]
    #[whole]
    #[decreasing(bars)]
    parts_per_bar: Count,
    /// The share of pieces that come out good: 0.95 for one scrapped in twenty.
    #[positive]
    #[at_most(1.0)]
    #[range(0.5, ..)]
    #[default(1.0)]
    #[decreasing(starts, bars)]
    yield_share: Ratio,
) -> BarsNeeded {
    let starts = (quantity / yield_share * (1.0 - ROUNDING)).ceil();
    BareBarsNeeded { starts, bars: (starts / parts_per_bar * (1.0 - ROUNDING)).ceil() }
}

/// Length of stock for a quantity: quantity · (part length + facing allowance + kerf) · (1 + loss allowance).
///
/// A rough figure for an inquiry, where the length of the bars is not known yet. The allowance covers bar ends and scrap:
/// in screw machine work 5 % or so for parts to 2 in, 6.5 % to 3 in, 8.5 % to 4 in and 10 % above.
#[formula(
    source = "Common practice, no source",
    inverse(quantity = stock_length / ((part_length + facing_allowance + kerf) * (1.0 + loss_allowance)))
)]
pub fn stock_length(
    #[increasing] quantity: Count,
    /// Length that a part is finished to.
    #[positive]
    #[increasing]
    part_length: Length,
    #[increasing] kerf: Length,
    /// What facing takes off both ends of a part.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    facing_allowance: Length,
    /// What is bought beyond the length of the parts and cuts, as a share of it.
    #[non_negative]
    #[range(.., 0.5)]
    #[default(0.0)]
    #[increasing]
    loss_allowance: Ratio,
) -> Length {
    quantity * (part_length + facing_allowance + kerf) * (1.0 + loss_allowance)
}

/// Least bar that cleans up: (finish diameter + 2 · surface depth + out of round + 2 · bow) / (1 - 2 · surface share).
///
/// A bar that is bow out of straight in the middle of the length that is held, and held at its ends, runs out there by
/// twice the bow. Scale, seams and the skin that has lost its carbon are the surface depth, on each side; mills give it in
/// a depth or as a share of the diameter, 0.016 for one hot-rolled grade. The bar at its lower limit must still be this
/// large: `next_bar_size` compares its lower limit.
#[formula(
    source = "Geometry; the allowances are those of the bar's maker",
    inverse(
        finish_diameter =
            cleanup_diameter * (1.0 - 2.0 * surface_share) - 2.0 * surface_depth - out_of_round - 2.0 * bow
    )
)]
pub fn cleanup_diameter(
    /// Finished diameter that is to clean up all round.
    #[positive]
    #[increasing]
    finish_diameter: Length,
    /// Depth of scale, seams and lost carbon, on each side.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    surface_depth: Length,
    /// Difference of the largest and the smallest diameter of a section.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    out_of_round: Length,
    /// How far the bar is from straight over the length that is held.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    bow: Length,
    /// Depth of the surface that is to come off, on each side, as a share of the diameter of the bar.
    #[non_negative]
    #[below(0.5)]
    #[range(.., 0.1)]
    #[default(0.0)]
    #[increasing]
    surface_share: Ratio,
) -> Length {
    (finish_diameter + 2.0 * surface_depth + out_of_round + 2.0 * bow) / (1.0 - 2.0 * surface_share)
}

/// What a bar costs.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct BarPrice {
    /// Price of the bar.
    pub each: Money,
    /// Price of a metre or a foot of it.
    pub per_length: PricePerLength,
    /// Price of a kilogram or a pound of it.
    pub per_mass: PricePerMass,
}

/// Price of a bar: piece price + length price · length + mass price · mass.
///
/// Bars are sold by the piece, by length, by mass, or by several of them together. Prices that are left out are zero. A charge for each cut or bar goes into the piece price.
#[formula(source = "Common practice, no source")]
pub fn bar_price(
    /// Length of the bar that is sold.
    #[positive]
    length: Length,
    /// Mass of the bar, as `bar_mass` gives it.
    #[positive]
    mass: Mass,
    /// Price of each bar.
    #[non_negative]
    #[default(0.0)]
    #[increasing(each, per_length, per_mass)]
    piece_price: Money,
    /// Price of a length of bar.
    #[non_negative]
    #[default(0.0)]
    #[increasing(each, per_length, per_mass)]
    length_price: PricePerLength,
    /// Price of a mass of metal.
    #[non_negative]
    #[default(0.0)]
    #[increasing(each, per_length, per_mass)]
    mass_price: PricePerMass,
) -> BarPrice {
    let each = piece_price + length_price * length + mass_price * mass;
    BareBarPrice { each, per_length: each / length, per_mass: each / mass }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&BARS_NEEDED, &STOCK_LENGTH, &CLEANUP_DIAMETER, &BAR_PRICE];
