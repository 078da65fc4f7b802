//! Terms of clamping: forces on the work, friction, safety.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Force of the clamps on the work, all together.
        #[positive] clamp_force: Force,
        /// Force of the cut along the face that holds the work: the root of the squares of its two parts.
        #[non_negative] side_force: Force,
        /// Force of the cut away from the face that the work rests on; one toward it is not counted, since it goes with
        /// the cut.
        #[non_negative] #[default(0.0)] lifting_force: Force,
        /// Coefficient of friction between work and clamp: about 0.1 to 0.2 for steel on steel, 0.2 to 0.45 for serrated
        /// jaws. Oil and coolant lower it.
        #[positive] #[at_most(2.0)] #[range(0.05, 0.5)] holding_friction: Ratio,
        /// Faces that share the friction: 1 for the rest alone, 2 for both jaws of a vice, or where the clamps resist too.
        #[positive] #[whole] #[default(1.0)] friction_faces: Count,
        /// Safety factor wanted, on the forces of the cut: 2 or more, and more for interrupted cuts and worn tools.
        #[positive] #[range(1.5, 6.0)] #[default(2.0)] wanted_safety: Ratio,
        /// Force of the cut about the axis of the work.
        #[non_negative] turning_cut_force: Force,
        /// Diameter at which that force acts.
        #[positive] force_diameter: Length,
        /// Diameter at which the jaws grip.
        #[positive] grip_diameter: Length,
        /// Force of the cut along the axis of the work.
        #[non_negative] #[default(0.0)] axial_force: Force,
        /// Grip at rest, of all jaws together.
        #[positive] gripping_force: Force,
        /// Grip that speed takes away: `jaw_centrifugal_force` of a chuck that grips on the outside.
        #[non_negative] #[default(0.0)] grip_lost: Force,
        /// Included angle of the V.
        #[positive] #[below(180.0)] #[default(90.0)] vee_block_angle: Angle,
        /// Modulus of elasticity of the one: 205 GPa or so for steel.
        #[positive] contact_modulus: Modulus,
        /// Poisson's ratio of the one: about 0.29 for steel.
        #[non_negative] #[at_most(0.5)] contact_poisson: Ratio,
        /// Modulus of elasticity of the other.
        #[positive] other_modulus: Modulus,
        /// Poisson's ratio of the other.
        #[non_negative] #[at_most(0.5)] other_poisson: Ratio,
        /// Force that presses them together.
        #[positive] contact_force: Force,
        /// Length of the line of contact.
        #[positive] contact_line: Length,
        /// Diameter of the ball, twice the radius of the dome.
        #[positive] dome_diameter: Length,
        /// Tightening torque.
        #[non_negative] tightening_torque: Torque,
        /// Height of the seat's wall above its floor.
        #[non_negative] seat_depth: Length,
        /// Distance of the pin from the centre of the cam.
        #[non_negative] cam_eccentricity: Length,
        /// Radius of the cam.
        #[positive] cam_radius: Length,
        /// Angle of the centre below the level of the pin, when clamped.
        #[within(-90.0, 90.0)] cam_angle: Angle,
        /// Coefficient of friction on the slope.
        #[non_negative] #[at_most(2.0)] slope_friction: Ratio,
        /// Coefficient of friction on the other face.
        #[non_negative] #[at_most(2.0)] base_friction: Ratio,
        /// Yield strength of the softer of the two.
        #[positive] softer_yield_strength: Stress,
    }
}
