//! Terms of milling, turning and facing, and of the forces of every cut.
use proc_macro2::TokenStream;
use quote::quote;

pub(super) fn terms() -> TokenStream {
    quote! {
        /// Diameter of the workpiece in turning, of the tool in milling and drilling.
        #[positive] cutting_diameter: Length,
        /// Spindle speed.
        #[non_negative] spindle_speed: SpindleSpeed,
        /// Greatest spindle speed.
        #[positive] spindle_limit: SpindleSpeed,
        /// Surface speed at the cut.
        #[non_negative] surface_speed: SurfaceSpeed,
        /// Surface speed wanted.
        #[positive] wanted_surface_speed: SurfaceSpeed,
        /// Feed rate of the table or tool.
        #[non_negative] feed_rate: FeedRate,
        /// Feed per revolution.
        #[non_negative] feed_per_revolution: Length,
        /// Length of a pass, with approach and overrun.
        #[non_negative] travel: Length,

        /// Diameter of the cutter at its cutting edges.
        #[positive] cutter_diameter: Length,
        /// Diameter of the shank.
        #[positive] shank_diameter: Length,
        /// Diameter of the ball.
        #[positive] ball_diameter: Length,
        /// Number of teeth of the cutter.
        #[positive] #[whole] teeth: Count,
        /// Number of teeth of the cutter that follow one another in the same cut.
        #[positive] #[whole] effective_teeth: Count,
        /// Chip load, the advance between one tooth and the next.
        #[non_negative] chip_load: Length,
        /// Largest chip thickness wanted.
        #[non_negative] wanted_chip_thickness: Length,
        /// Width of cut across the axis and the feed.
        #[non_negative] radial_width: Length,
        /// Width of cut across the feed, centred on the cutter.
        #[non_negative] centred_width: Length,
        /// Depth of cut along the axis of the cutter.
        #[non_negative] axial_depth: Length,
        /// Distance of the middle of the cut from the cutter's axis, on either side.
        offset: Length,
        /// Entering angle, from the machined surface to the edge: 90° is a square shoulder.
        #[positive] #[at_most(90.0)] #[default(90.0)] entering_angle: Angle,
        /// Depth gained along the ramp.
        #[positive] ramp_depth: Length,
        /// Feed rate wanted of the cutting edge along the contour.
        #[non_negative] contour_feed_rate: FeedRate,
        /// Radius of the finished arc.
        #[positive] arc_radius: Length,
        /// Curvature of the finished contour, one over its radius: positive inside an arc, negative outside, 0 on a straight
        /// line.
        contour_curvature: Curvature,

        /// Diameter of the workpiece.
        #[positive] workpiece_diameter: Length,
        /// Diameter before the cut in turning, after it in boring.
        #[positive] cut_diameter: Length,
        /// Bore of the workpiece; zero for a solid one.
        #[non_negative] #[default(0.0)] workpiece_bore: Length,
        /// Modulus of elasticity of the workpiece.
        #[positive] workpiece_modulus: Modulus,
        /// Diameter before the first pass.
        #[non_negative] start_diameter: Length,
        /// Diameter after the last pass.
        #[non_negative] finish_diameter: Length,
        /// Depth of cut, on the radius.
        #[non_negative] depth_on_radius: Length,
        /// Number of passes.
        #[non_negative] #[whole] passes: Count,
        /// Nose radius of the tool.
        #[positive] nose_radius: Length,
        /// Entering angle, from the finished surface to the edge.
        #[positive] #[below(180.0)] #[default(90.0)] turning_entering_angle: Angle,
        /// Feed per revolution, across the axis.
        #[positive] facing_feed: Length,
        /// Diameter at which the tool begins to cut.
        #[positive] outer_diameter: Length,
        /// Diameter at which the cut ends; zero for the centre.
        #[non_negative] #[default(0.0)] inner_diameter: Length,
        /// Force across the bar: the passive force for the diameter.
        #[non_negative] passive_force: Force,

        /// Specific cutting force of the material at a chip 1 mm thick.
        #[positive] kc11: Stress,
        /// Exponent of the material, 0.14 to 0.36 for most.
        #[within(0.0, 1.0)] #[range(0.1, 0.4)] mc: Ratio,
        /// Specific cutting force.
        #[non_negative] specific_cutting_force: Stress,
        /// Rake angle of the tool.
        #[within(-30.0, 30.0)] #[default(0.0)] rake_angle: Angle,
        /// Rake angle that the figures of the material hold for.
        #[within(-30.0, 30.0)] #[range(0.0, 6.0)] #[default(0.0)] reference_rake: Angle,
        /// By what share the force falls with each degree of rake.
        #[within(0.0, 0.015)] #[range(0.01, 0.015)] #[default(0.01)] change_per_degree: Ratio,
        /// Force of the worn tool over that of a sharp one: 1.1 for finishing, 1.3 for common roughing, up to 2 for heavy
        /// roughing.
        #[positive] #[range(1.0, 2.0)] #[default(1.0)] wear_factor: Ratio,
        /// Main cutting force, along the motion of the edge.
        #[non_negative] cutting_force: Force,
        /// Volume of metal removed in unit time.
        #[non_negative] removal_rate: RemovalRate,
        /// Power for unit removal rate.
        #[non_negative] unit_power: UnitPower,
        /// Power at the cutter.
        #[non_negative] cutting_power: Power,
        /// Efficiency of the drive: about 0.75 to 0.8 through gears, 0.9 through a belt.
        #[positive] #[at_most(1.0)] #[range(0.6, 0.95)] efficiency: Ratio,

        /// Greatest operating speed marked on the wheel.
        #[positive] rated_wheel_speed: SurfaceSpeed,
        /// Number of passes: `grinding_passes`.
        #[positive] #[whole] grinding_passes: Count,
        /// Number of jaws.
        #[positive] #[whole] jaws: Count,
        /// Mass of one jaw, with its screws and nuts.
        #[non_negative] jaw_mass: Mass,
        /// Distance of the jaw's centre of gravity from the axis.
        #[non_negative] jaw_radius: Length,
        /// Outside diameter of the bar.
        #[positive] bar_outer_diameter: Length,
        /// Bore of a tube; zero for a solid bar.
        #[non_negative] #[default(0.0)] bore: Length,
        /// Modulus of elasticity: 205 GPa or so for steel.
        #[positive] modulus: Modulus,
        /// Density: 7.85 g/cm³ or so for steel.
        #[positive] density: Density,
        /// Speed of the band.
        #[positive] band_speed: SurfaceSpeed,
        /// Area of the cross-section that the blade cuts through.
        #[non_negative] area: Area,
        /// Pitch of the blade's teeth.
        #[positive] tooth_pitch: Length,
        /// Heat capacity of unit volume, density times specific heat: about 3.7 J/(cm³·K) for steel, 2.4 for aluminium, 3.4 for
        /// brass.
        #[positive] heat_capacity: HeatCapacity,
        /// Width of the cut.
        #[non_negative] kerf: Length,
    }
}
