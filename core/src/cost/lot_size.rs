//! How many to order or to make at a time.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// The quantity to order at a time, and what a year of ordering and stock then costs.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct OrderQuantity {
    /// The quantity of least cost, seldom a whole number.
    pub exact: Count,
    /// The whole quantity of least cost; of two that cost the same the smaller.
    pub quantity: Count,
    /// What orders and stock cost in a year with the whole quantity, the price of the pieces apart.
    pub annual_cost: Money,
    /// Orders in a year with it.
    pub orders: Count,
}

/// Economic order quantity: √(2 · demand · order cost / holding cost), and the cheaper of the whole numbers beside it.
#[formula(source = "J. Heizer and B. Render, Operations Management, economic order quantity (from memory)")]
pub fn economic_order_quantity(
    annual_demand: Count,
    order_cost: Money,
    holding_cost: Money,
) -> OrderQuantity {
    let square = 2.0 * annual_demand * order_cost / holding_cost;
    let exact = square.sqrt();
    let floor = exact.floor().max(1.0);
    // The next costs less where floor · (floor + 1) is below the square of the exact quantity.
    let quantity = if square > floor * (floor + 1.0) { floor + 1.0 } else { floor };
    BareOrderQuantity {
        exact,
        quantity,
        annual_cost: order_cost * annual_demand / quantity + 0.5 * holding_cost * quantity,
        orders: annual_demand / quantity,
    }
}

/// The quantity to make at a time where making takes its time, and what a year of set-ups and stock costs.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct ProductionLot {
    /// The quantity of least cost.
    pub lot: Count,
    /// Lots in a year.
    pub lots: Count,
    /// What set-ups cost in a year.
    pub annual_setup_cost: Money,
    /// What stock costs in a year: at the best lot the same.
    pub annual_stock_cost: Money,
    /// The greatest stock.
    pub greatest_stock: Count,
}

/// Economic production lot: √(2 · demand · set-up cost / (holding cost · (1 - demand / capacity))).
///
/// Pieces are used while the lot is still being made, so that the stock never reaches the whole lot.
#[formula(
    source = "J. Heizer and B. Render, Operations Management, production order quantity (from memory)",
    rule(annual_capacity > annual_demand, "annual_capacity must be greater than annual_demand")
)]
pub fn economic_production_lot(
    annual_demand: Count,
    #[term(order_cost)] setup_cost: Money,
    holding_cost: Money,
    /// Pieces that could be made in a year.
    #[positive]
    annual_capacity: Count,
) -> ProductionLot {
    let spare = 1.0 - annual_demand / annual_capacity;
    let lot = (2.0 * annual_demand * setup_cost / (holding_cost * spare)).sqrt();
    let greatest_stock = lot * spare;
    let lots = annual_demand / lot;
    BareProductionLot {
        lot,
        lots,
        annual_setup_cost: setup_cost * lots,
        annual_stock_cost: 0.5 * holding_cost * greatest_stock,
        greatest_stock,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&ECONOMIC_ORDER_QUANTITY, &ECONOMIC_PRODUCTION_LOT];
