//! Terms of threads and tapping.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Major diameter, the nominal one of the thread.
        #[positive] major_diameter: Length,
        /// Distance from one thread to the next along the axis.
        #[positive] thread_pitch: Length,
        /// Pitch diameter of the screw.
        #[positive] pitch_diameter: Length,
        /// Number of starts.
        #[positive] #[whole] #[default(1.0)] starts: Count,
        /// Full depth of the thread, on the radius.
        #[non_negative] thread_depth: Length,
        /// Diameter of the wires.
        #[positive] wire_diameter: Length,
        /// Diameter of the hole before tapping.
        #[positive] tapping_hole_diameter: Length,
    }
}
