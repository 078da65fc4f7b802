//! Bar stock: its mass, what to buy, how many parts a bar gives, and how to cut what is wanted from the fewest or the
//! cheapest bars.
pub mod bar;
mod bar_order;
mod bar_size;
pub mod buying;
pub mod cutting_plan;
mod error;
pub mod form;
mod machine_load;
mod make_or_buy;
pub mod mass;
mod shared_plan;

pub use bar::*;
pub use bar_order::{BarCut, BarOrder, bars_to_buy};
pub use bar_size::{BarSize, SizesSeen, bar_sizes, next_bar_size};
pub use buying::{BarPrice, BarsNeeded, bar_price, bars_needed, cleanup_diameter, stock_length};
pub use cutting_plan::{
    CutLength, CuttingBar, CuttingError, CuttingLayout, CuttingObjective, CuttingOptions, CuttingPlan,
    OrderedPiece, cutting_plan,
};
pub use error::StockError;
pub use form::{BarForm, bar_mass, bar_mass_per_length};
pub use machine_load::{MachineLoad, MachineLoadRow, MachineOrder, machine_load};
pub use make_or_buy::{BreakEven, MakeOrBuy, Supply, SupplyRow, make_or_buy};
pub use mass::{flat_bar_mass, hexagon_bar_mass, plate_mass, round_bar_mass, square_bar_mass, tube_mass};
pub use shared_plan::{CuttingOrder, OrderCut, OrderShare, SharedCuttingPlan, shared_cutting_plan};
