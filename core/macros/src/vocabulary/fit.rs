//! Terms of pressed and shrunk joints.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Diameter of the joint.
        #[positive] joint_diameter: Length,
        /// Length of contact.
        #[positive] contact_length: Length,
        /// Outside diameter of the hub.
        #[positive] hub_outer_diameter: Length,
        /// Bore of the shaft; zero for a solid one.
        #[non_negative] #[default(0.0)] shaft_bore: Length,
        /// Diameter of the bore.
        #[positive] bore_diameter: Length,
        /// Greatest interference on the diameter, before assembly.
        #[non_negative] joining_interference: Length,
        /// Clearance on the diameter that joining needs.
        #[non_negative] joining_clearance: Length,
        /// Modulus of elasticity of the hub.
        #[positive] hub_modulus: Modulus,
        /// Poisson's ratio of the hub.
        #[within(0.0, 0.5)] hub_poisson: Ratio,
        /// Modulus of elasticity of the shaft.
        #[positive] shaft_modulus: Modulus,
        /// Poisson's ratio of the shaft.
        #[within(0.0, 0.5)] shaft_poisson: Ratio,
        /// Yield strength of the hub.
        #[positive] hub_yield: Stress,
        /// Yield strength of the shaft.
        #[positive] shaft_yield: Stress,
        /// Pressure between hub and shaft.
        #[non_negative] joint_pressure: Stress,
        /// Coefficient of friction: the least likely one for what the joint holds, the greatest for what pressing it takes.
        #[non_negative] #[range(.., 1.0)] friction: Ratio,
        /// Mean peak-to-valley roughness of the bore; zero to neglect it.
        #[non_negative] #[default(0.0)] hub_roughness: RoughnessRz,
        /// Mean peak-to-valley roughness of the shaft; zero to neglect it.
        #[non_negative] #[default(0.0)] shaft_roughness: RoughnessRz,
        /// Share of the roughness that flattens.
        #[non_negative] #[range(0.0, 1.0)] #[default(0.8)] roughness_coefficient: Ratio,
        /// Coefficient of expansion of the hub.
        #[non_negative] hub_expansion: ExpansionCoefficient,
        /// Coefficient of expansion of the shaft.
        #[non_negative] shaft_expansion: ExpansionCoefficient,
        /// Density of the hub.
        #[positive] hub_density: Density,
        /// Density of the shaft.
        #[positive] shaft_density: Density,
        /// Temperature of the room, at which the parts were measured.
        #[above(Temperature::celsius(-273.15))] #[default(Temperature::celsius(20.0))] room_temperature: Temperature,
    }
}
