//! Terms of drilling, reaming and countersinking.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Diameter of the drill.
        #[positive] drill_diameter: Length,
        /// Included angle of the point; 180° is a flat one.
        #[positive] #[at_most(180.0)] #[default(118.0)] point_angle: Angle,
        /// Depth of the hole at its full diameter; the thickness of the work for a through hole.
        #[non_negative] hole_depth: Length,
        /// Depth of the tip below the surface at the end.
        #[non_negative] tip_depth: Length,
        /// Distance from where the feed begins to the surface.
        #[non_negative] #[default(0.0)] approach: Length,
        /// How far the full diameter runs out of the far side of a through hole.
        #[non_negative] #[default(0.0)] breakthrough: Length,
        /// Diameter of the hole that is there already; zero for drilling from the solid.
        #[non_negative] #[default(0.0)] pilot_diameter: Length,
        /// Feed rate of the drill.
        #[non_negative] drill_feed_rate: FeedRate,
        /// Specific cutting force at the chip thickness of the drill.
        #[non_negative] drilling_specific_force: Stress,
        /// Thrust over what the specific cutting force would give alone: `drilling_thrust`.
        #[positive] #[range(0.5, 0.7)] #[default(0.5)] thrust_factor: Ratio,
        /// Constant K of the material: 1 for grey iron of 177 HB, 2.22 for low-carbon steel S20C.
        #[positive] material_constant: Ratio,
        /// Diameter of the hole.
        #[positive] hole_diameter: Length,
        /// Diameter of the finished hole.
        #[positive] finished_hole_diameter: Length,
        /// Diameter of the countersink at the surface.
        #[positive] countersink_diameter: Length,
        /// Diameter of the hole, or of the flat tip of the tool; zero for a sharp point.
        #[non_negative] #[default(0.0)] countersunk_hole_diameter: Length,
    }
}
