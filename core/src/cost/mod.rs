//! What work costs: pieces to start, the rate of a machine hour, learning, lots and prices.
pub mod learning;
pub mod lot;
pub mod lot_size;
pub mod machine_rate;
pub mod price;
mod starts;
mod tiers;

pub use learning::{
    LotMidpoint, UnitsToTarget, learning_cumulative_average_lot_time, learning_cumulative_average_time,
    learning_lot_midpoint, learning_lot_time, learning_unit_time, learning_units_to_target,
};
pub use lot::{
    LotTime, RouteBreakEven, lot_time, operation_cost, route_break_even, setup_share, time_with_setup,
    tool_life_cost,
};
pub use lot_size::{OrderQuantity, ProductionLot, economic_order_quantity, economic_production_lot};
pub use machine_rate::{
    EquipmentHour, MachineHour, YearOfMachine, capital_recovery_factor, equipment_hour_rate,
    labour_hour_rate, machine_hour_rate, machine_running_time, rate_at_running_time,
};
pub use price::{
    margin_of_markup, markup_of_margin, minimum_charge, minimum_charge_by_mass, price_by_margin,
    price_by_markup,
};
pub(crate) use starts::starts;
pub use starts::{MAX_PIECES, StartError, StartQuantities, StartRule, start_quantities};
pub use tiers::{
    DiscountScheme, DiscountedOrder, MAX_TIERS, OrderTier, PriceTier, QuantityBreak, TierError,
    discounted_order, quantity_breaks,
};
