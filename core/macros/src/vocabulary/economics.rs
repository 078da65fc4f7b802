//! Terms of tool life and cost.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Surface speed at which an edge lasts one minute: Taylor's C.
        #[positive] taylor_c: SurfaceSpeed,
        /// Surface speed at which an edge lasts one minute at the reference feed and depth: Taylor's C.
        #[positive] extended_taylor_c: SurfaceSpeed,
        /// Taylor's exponent: 0.1 or so for high-speed steel, 0.2 to 0.4 for carbide, to 0.7 for ceramic.
        #[positive] #[at_most(1.0)] #[range(0.05, 0.8)] taylor_n: Ratio,
        /// Feed per revolution, in milling the chip load.
        #[positive] feed: Length,
        /// Depth of cut.
        #[positive] depth_of_cut: Length,
        /// Exponent a of the feed.
        #[within(0.0, 2.0)] #[range(.., 1.0)] feed_exponent: Ratio,
        /// Exponent b of the depth, as a rule the smallest of the three effects.
        #[within(0.0, 2.0)] #[range(.., 1.0)] depth_exponent: Ratio,
        /// Feed at which C holds.
        #[positive] #[default(Length::millimetres(1.0))] reference_feed: Length,
        /// Depth at which C holds.
        #[positive] #[default(Length::millimetres(1.0))] reference_depth: Length,
        /// Life of an edge, as time in the cut.
        #[positive] tool_life: Time,
        /// Life wanted, as time in the cut.
        #[positive] wanted_tool_life: Time,
        /// Time of changing an edge in the machine.
        #[non_negative] tool_change_time: Time,
        /// Cost of an edge.
        #[non_negative] edge_cost: Money,
        /// Time in the cut for each piece.
        #[positive] cutting_time: Time,
        /// Time of loading, unloading and moves in air for each piece.
        #[non_negative] handling_time: Time,
        /// Cost of an hour of machine and operator, overheads and all.
        #[non_negative] hourly_rate: HourlyRate,
        /// Time of the first piece.
        #[positive] first_time: Time,
        /// Rate of learning: what the time comes to when the quantity doubles, 0.8 for a curve of 80 percent.
        #[within(0.5, 1.0)] #[range(0.65, 1.0)] learning_rate: Ratio,
        /// The piece, counted from 1.
        #[within(1.0, 1e9)] #[whole] unit: Count,
        /// First piece of the lot, counted from 1.
        #[within(1.0, 1e9)] #[whole] first_unit: Count,
        /// Last piece of the lot.
        #[within(1.0, 1e9)] #[whole] last_unit: Count,
        /// Pieces wanted in a year.
        #[positive] annual_demand: Count,
        /// What a year of stock of a piece costs.
        #[positive] holding_cost: Money,
        /// What an order or a set-up costs.
        #[positive] order_cost: Money,
        /// Interest in a year, as a share.
        #[within(0.0, 10.0)] #[range(.., 0.5)] interest_share: Ratio,
        /// Time to set up for the lot.
        #[non_negative] lot_setup_time: Time,
        /// Time for each piece.
        #[non_negative] piece_time: Time,
        /// Pieces of the lot.
        #[at_least(1.0)] lot_quantity: Count,
        /// Wage for an hour.
        #[non_negative] hourly_wage: HourlyRate,
        /// What it costs.
        #[non_negative] cost_of_piece: Money,
        /// What is added, as a share of the cost.
        #[non_negative] markup_share: Ratio,
        /// The share of the price that is not cost.
        #[non_negative] #[below(1.0)] margin_share: Ratio,
        /// The least that a lot is charged.
        #[non_negative] minimum_charge: Money,
        /// Running time in a year, as `machine_running_time` gives it.
        #[positive] running_time: Time,
        /// Life in years.
        #[within(0.01, 1000.0)] #[range(1.0, 50.0)] life_years: Ratio,
    }
}
