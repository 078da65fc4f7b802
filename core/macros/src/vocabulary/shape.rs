//! Terms of flats, polygons, keyseats, tapers, arcs, grooves and knurls.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Diameter of the bar.
        #[positive] bar_diameter: Length,
        /// What remains of it, from the flat to the far side of the bar.
        #[positive] remaining: Length,
        /// Number of sides.
        #[whole] #[within(3.0, 1000.0)] sides: Count,
        /// Number of sides, even.
        #[whole] #[within(4.0, 1000.0)] even_sides: Count,
        /// Distance across flats.
        #[positive] across_flats: Length,
        /// Distance across corners, or the diameter of the bar.
        #[positive] across_corners: Length,
        /// Diameter of the shaft.
        #[positive] shaft_diameter: Length,
        /// Width of the key.
        #[positive] key_width: Length,
        /// Height of the key; of a square key its width.
        #[positive] key_height: Length,
        /// Change of the diameter over the length.
        #[positive] taper: Ratio,
        /// Diameter at the large end.
        #[positive] large_diameter: Length,
        /// Diameter at the small end; zero for a point.
        #[non_negative] small_diameter: Length,
        /// Distance between the ends, along the axis.
        #[positive] taper_length: Length,
        /// Included angle of the cone.
        #[positive] #[below(180.0)] cone_angle: Angle,
        /// Distance between the axes of the rolls.
        #[positive] sine_bar_length: Length,
        /// Angle between bar and plate.
        #[within(0.0, 90.0)] sine_bar_angle: Angle,
        /// Radius of the arc.
        #[positive] radius: Length,
        /// Angle of the arc at its centre.
        #[within(0.0, 360.0)] arc_angle: Angle,
        /// Straight distance between the ends of the arc.
        #[non_negative] chord: Length,
        /// Height of the arc over its chord.
        #[non_negative] sagitta: Length,
        /// Diameter of the circle through the centres of the holes.
        #[positive] bolt_circle_diameter: Length,
        /// Number of holes on the circle, evenly spaced.
        #[positive] #[whole] holes: Count,
        /// Angle between flank and floor.
        #[positive] #[at_most(90.0)] flank_angle: Angle,
        /// Diameter of each pin.
        #[positive] pin_diameter: Length,
        /// Angle between the flanks.
        #[positive] #[below(180.0)] vee_angle: Angle,
        /// Width of the groove at that diameter.
        #[positive] vee_width: Length,

        /// Diameter of the blank.
        #[positive] blank_diameter: Length,
        /// Pitch of the teeth, measured square to the grooves.
        #[positive] pitch: Length,
        /// Included angle of the groove: 90 in DIN 82, or 105 on request.
        #[positive] #[below(180.0)] #[range(70.0, 105.0)] #[default(90.0)] profile_angle: Angle,
        /// Angle between the grooves and the axis, whichever way they turn: 0 for a straight knurl, mostly 30 for diagonal
        /// and diamond ones.
        #[non_negative] #[below(90.0)] #[default(0.0)] helix_angle: Angle,
    }
}
