//! Terms of position tolerances and of inspection.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Diameter of the fastener at maximum material condition: its upper limit.
        #[positive] fastener: Length,
        /// Diameter of the clearance hole at maximum material condition: its lower limit.
        #[positive] clearance_hole: Length,
        /// Position tolerance of the clearance hole at maximum material condition, a diameter.
        #[non_negative] clearance_tolerance: Length,
        /// Position tolerance of the threaded or tight hole, a diameter.
        #[non_negative] threaded_tolerance: Length,
        /// Greatest thickness of the part with the clearance hole, or greatest projection of the fastener.
        #[non_negative] projection: Length,
        /// Least depth of the thread, or least thickness of the part that holds the fastener.
        #[positive] thread_engagement: Length,
        /// Position tolerance, a diameter.
        #[non_negative] position_tolerance: Length,
        /// Position tolerance at MMC, a diameter; it may be zero.
        #[non_negative] tolerance_at_mmc: Length,
        /// Position tolerance at LMC, a diameter; it may be zero.
        #[non_negative] tolerance_at_lmc: Length,
        /// Lower limit of size of the hole: MMC.
        #[positive] smallest_hole: Length,
        /// Upper limit of size of the hole: LMC.
        #[positive] largest_hole: Length,
        /// Lower limit of size of the shaft: LMC.
        #[positive] smallest_shaft: Length,
        /// Upper limit of size of the shaft: MMC.
        #[positive] largest_shaft: Length,

        /// Upper limit less lower limit.
        #[positive] size_tolerance: Length,
        /// Standard deviation of the sizes of parts.
        #[positive] process_deviation: Length,
        /// Mean size of the parts less the middle of the limits.
        #[default(0.0)] process_offset: Length,
        /// Standard uncertainty of a measured size.
        #[positive] measurement_uncertainty: Length,
        /// By how much the limits are drawn in for acceptance at each end; negative where they are drawn out.
        #[default(0.0)] guard_band: Length,

        /// Cpk that is to be shown.
        #[positive] required_capability: Ratio,
        /// Readings in the sample.
        #[at_least(2.0)] #[whole] #[range(20.0, ..)] capability_readings: Count,
        /// Confidence, on one side.
        #[at_least(0.5)] #[below(1.0)] #[default(0.95)] confidence: Ratio,
        /// Bad ones among them.
        #[non_negative] #[whole] #[at_most(1000.0)] #[default(0.0)] bad_pieces: Count,
    }
}
