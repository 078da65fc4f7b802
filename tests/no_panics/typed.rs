//! The function on quantities that each formula leaves in Rust.
use std::hint::black_box;
use std::panic::{AssertUnwindSafe, catch_unwind};
use tenths::quantity::Quantity;
use tenths::*;

/// Readings in metric base units that nobody expects.
const ODD: [f64; 11] =
    [0.0, -0.0, -1.0, 5e-324, 1e-9, 90.0, 1e9, f64::MAX, f64::NEG_INFINITY, f64::INFINITY, f64::NAN];

/// A function on quantities that is called with an odd value in each place in turn, and in all of them.
trait Typed<Parameters> {
    /// The first readings for which it panics.
    fn first_panic(&self) -> Option<Vec<f64>>;
}

/// The rows: the others are 1, then a half.
fn rows(count: usize) -> impl Iterator<Item = Vec<f64>> {
    let one_odd = move |x: f64, rest: f64| {
        (0..count).map(move |at| (0..count).map(|k| if k == at { x } else { rest }).collect())
    };
    let alone =
        ODD.into_iter().flat_map(move |x| [1.0, 0.5].into_iter().flat_map(move |rest| one_odd(x, rest)));
    alone.chain(ODD.into_iter().map(move |x| vec![x; count]))
}

macro_rules! callable_typed {
    ($($value:ident: $type:ident),*) => {
        impl<Body: Fn($($type),*) -> Answer, Answer, $($type: Quantity),*> Typed<($($type,)*)> for Body {
            fn first_panic(&self) -> Option<Vec<f64>> {
                rows([$(stringify!($value)),*].len()).find(|row| {
                    let call = || {
                        let mut readings = row.iter().copied();
                        $(let $value = $type::from_metric(readings.next().unwrap_or(f64::NAN));)*
                        drop(black_box(self($($value),*)));
                    };
                    catch_unwind(AssertUnwindSafe(call)).is_err()
                })
            }
        }
    };
}
callable_typed!(a: A);
callable_typed!(a: A, b: B);
callable_typed!(a: A, b: B, c: C);
callable_typed!(a: A, b: B, c: C, d: D);
callable_typed!(a: A, b: B, c: C, d: D, e: E);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M, n: N);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M, n: N, o: O);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M, n: N, o: O, p: P);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M, n: N, o: O, p: P, q: Q);
callable_typed!(a: A, b: B, c: C, d: D, e: E, f: F, g: G, h: H, i: I, j: J, k: K, l: L, m: M, n: N, o: O, p: P, q: Q, r: R);

fn panics<P>(function: impl Typed<P>, name: &str) -> Option<String> {
    function.first_panic().map(|row| format!("{name}: {row:?}"))
}

/// The names of the functions listed by module, each with its panic if it has one.
macro_rules! typed {
    ($($($module:ident)::+: $($name:ident),+;)*) => {
        [$({
            use $($module)::+::{$($name),+};
            vec![$((stringify!($name), panics($name, stringify!($name)))),+]
        }),*]
        .concat()
    };
}

#[test]
#[rustfmt::skip]
fn typed_functions_of_formulas() {
    let called = typed! {
        cutting::ball: ball_effective_diameter, tilted_ball_effective_diameter, bull_nose_effective_diameter,
            scallop_height, stepover_for_scallop, surface_stepover, feed_mark_height;
        cutting::chatter::tool_mode: cantilever_mode;
        cutting::heat: edge_temperature, heat_growth;
        cutting::path_feeds::engagement: arc_engagement;
        cutting::chip: chip_thickness_max, chip_thickness_mean, chip_load_for_chip_thickness,
            centred_chip_thickness_mean, offset_chip_thickness_max, offset_chip_thickness_mean,
            mean_entering_angle;
        cutting::countersink: countersink_depth, countersink_diameter, chamfer_depth, spot_drill_depth,
            centre_drill_depth;
        cutting::deflection: bar_deflection_chuck, bar_deflection_centres, bar_deflection_tailstock,
            boring_bar_deflection;
        cutting::drilling: drill_point_length, drilling_travel, drilling_removal_rate, drilling_time,
            peck_drilling_time, even_peck_depth, peck_count;
        cutting::drilling_cut: drilling_cut_for_target, drilling_cut;
        cutting::drilling_force: drilling_chip_thickness, drilling_torque, drilling_thrust,
            drilling_forces_by_work_factor, drilling_forces_by_material_constant,
            drilling_power_by_material_constant, drilling_force_range;
        cost: machine_running_time, machine_hour_rate, labour_hour_rate, rate_at_running_time,
            capital_recovery_factor, equipment_hour_rate, time_with_setup, setup_share, operation_cost, lot_time,
            tool_life_cost, route_break_even, learning_unit_time, learning_lot_time,
            learning_cumulative_average_time, learning_cumulative_average_lot_time, learning_units_to_target,
            learning_lot_midpoint, economic_order_quantity, economic_production_lot, price_by_markup,
            price_by_margin, margin_of_markup, markup_of_margin, minimum_charge, minimum_charge_by_mass;
        cutting::economics: insert_edge_cost, reground_edge_cost, tool_life_for_least_cost,
            speed_for_least_cost, tool_life_for_greatest_output, speed_for_greatest_output, batch_edges,
            piece_cost, piece_cost_continuous;
        cutting::engagement: engagement_angle, centred_engagement_angle, offset_engagement,
            axial_contact_ratio, teeth_engaged;
        cutting::entry: ramp_angle, ramp_length, entry_travel, helix_entry_angle, helix_entry_pitch;
        cutting::facing: facing_time, facing_time_constant_spindle, facing_passes, facing_removal_rate,
            parting_time;
        cutting::finish: roughness_ra, roughness_ra_mean, roughness_rt, roughness_rt_arc, roughness_rt_sharp,
            feed_for_roughness_ra, feed_for_roughness_rt, nose_feed_limit, nose_profile_feed, nose_depth;
        cutting::force: specific_cutting_force, specific_cutting_force_corrected, cutting_power,
            cutting_power_from_unit_power, specific_cutting_force_from_unit_power, motor_power,
            cutting_power_from_force, cutting_force_from_power, spindle_torque, spindle_power;
        cutting::grinding: grinding_wheel_speed, grinding_wheel_greatest_spindle_speed, centreless_feed_rate,
            grinding_passes, traverse_grinding_time, plunge_grinding_time, surface_grinding_time;
        cutting::milling: milling_removal_rate, face_approach, side_approach, milling_time, tooth_force,
            tool_deflection;
        cutting::milling_cut: milling_cut, milling_cut_for_target, face_milling_cut;
        cutting::moves: straight_move, smooth_move_time, rounded_corner, sharp_corner_feed_rate, curve_feed;
        cutting::path: inside_arc_feed_rate, outside_arc_feed_rate, arc_feed_rate;
        cutting::reaming: reaming_allowance, reaming_drill;
        cutting::rotation: chuck_speed_share, jaw_centrifugal_force, gripping_force_at_speed, whipping_speed,
            supported_whipping_speed;
        cutting::sawing: sawing_time, round_section_area, rectangular_tube_area, mean_sawing_width,
            saw_tooth_pitch, teeth_in_saw_cut, saw_pitch_limits, band_saw_feed_rate, band_saw_chip_load,
            kerf_mass;
        cutting::stepped_tool: stepped_tool_deflection;
        cutting::speed: surface_speed, spindle_speed, chip_load, feed_rate, feed_per_revolution;
        thread::profile: thread_pitch, thread_count, thread_lead, lead_angle, thread_heights,
            pitch_diameter, minor_diameter, root_diameter, root_diameter_sixth, thread_stress_area,
            thread_stress_area_unified;
        thread::tapping: tap_drill, percent_thread, tap_drill_five_eighths, forming_tap_drill,
            threading_feed_rate, tapping_time, threading_time, tap_torque;
        thread::wires: best_wire, wire_range, over_wires, pitch_diameter_from_wires,
            over_wires_with_lead;
        cutting::threading_infeed: threading_infeed, threading_infeed_light, threading_passes;
        cutting::time: cutting_time;
        cutting::tool_life: tool_life, speed_for_tool_life, taylor_from_trials, tool_life_extended,
            extended_speed_for_tool_life;
        cutting::turning: turning_passes, depth_per_pass, turning_removal_rate, ring_removal_rate,
            turning_time, turning_time_constant_speed, turning_chip_thickness, turning_chip_width;
        cutting::turning_cut: turning_cut_for_target, turning_cut;
        cutting::turning_force: turning_force, turning_force_components, turning_torque;
        joint::assembled: assembled_joint;
        joint::cylinder: press_stresses, yielding_interference, compound_tube;
        joint::press_joint: press_joint, required_interference, roughness_loss;
        joint::press_fit: press_fit, stepped_press_fit, press_force_at;
        joint::service: interference_lost_to_heat, loosening_rise, interference_lost_to_speed, release_speed;
        joint::shrink: joining_temperature, cooling_temperature;
        fit::statistics: fit_statistics;
        workholding::clamp: strap_clamp_force, cam_clamp_force, cam_locking_friction, toggle_clamp_force,
            wedge_clamp_force, wedge_locking_angle, cylinder_clamp_force, collet_clamp_force;
        workholding::grip: required_clamp_force, clamp_holding, required_grip, grip_holding, required_vee_force,
            vee_holding;
        workholding::pressure: bar_contact, ball_contact, bar_marking_force, ball_marking_force;
        workholding::ring: ring_in_jaws;
        workholding::screw: screw_preload, thread_clamp_force;
        workholding::seat: seat_margin, step_seat;
        workholding::vee: vee_seat, vee_shift, vee_grip;
        inspect::process::proof: capability_shown, capability_to_show, readings_to_show_capability, setup_pieces, good_share_shown;
        inspect::process::pre_control: pre_control_lines, pre_control_risks;
        inspect::process::wear: drift_per_part, parts_between_offsets, gauge_parts_left, gauge_life;
        inspect::risk: consumer_risk, producer_risk;
        inspect::temperature: length_at_20, temperature_uncertainty;
        knurl: knurl_growth, knurl_growth_raised, knurl_growth_indented;
        knurl::blank: knurl_teeth, knurl_blank, tracking_helix_angle, bump_knurl_blank;
        knurl::form: part_knurl, full_penetration, round_knurl, turned_land;
        knurl::joint: groove_fill, knurled_torque_bound, knurled_joint;
        shape::arc: sagitta, arc_radius, arc_angle, chord, arc_length, arc_length_from_chord,
            arc_length_from_sagitta, segment_area;
        shape::bolt_circle: bolt_circle_hole, bolt_circle_chord, bolt_circle_over_pins;
        shape::flat: flat_depth, flat_width, flat_remaining;
        shape::keyseat: keyseat_chord_height, keyseat_depth, shaft_keyseat_far_side, hub_keyseat_far_side,
            woodruff_keyseat_depth, woodruff_hub_depth;
        shape::over_pins: male_dovetail_over_pins, male_dovetail_width, female_dovetail_between_pins,
            female_dovetail_width, dovetail_wide_width, vee_pin_height, vee_width_from_pin,
            vee_angle_from_pins, vee_groove_over_pins, vee_groove_between_balls, bore_from_two_balls;
        shape::polygon: hexagon_across_corners, hexagon_across_flats, square_across_corners,
            square_across_flats, polygon_across_corners, polygon_across_flats, polygon_side, polygon_area,
            opposite_flat_depth;
        shape::sine_bar: sine_bar_stack, sine_bar_angle, sine_bar_angle_error;
        shape::taper: taper, taper_large_diameter, taper_small_diameter, taper_length, taper_per_foot,
            taper_from_per_foot, taper_ratio, taper_included_angle, taper_half_angle,
            taper_from_included_angle, taper_from_half_angle, tailstock_setover;
        position::condition: hole_boundaries_at_mmc, hole_boundaries_at_lmc, shaft_boundaries_at_mmc,
            shaft_boundaries_at_lmc, boundaries_regardless_of_size, hole_bonus_at_mmc, hole_bonus_at_lmc,
            shaft_bonus_at_mmc, shaft_bonus_at_lmc;
        position::fastener: floating_fastener_tolerance, floating_fastener_hole, fixed_fastener_tolerance,
            fixed_fastener_clearance_tolerance, fixed_fastener_hole, zone_at_projection,
            unprojected_fastener_hole, unprojected_fastener_tolerance, axis_shift;
        position::zone: position_error, round_zone, square_zone, minimum_wall_at_lmc, position_contribution,
            boundary_contribution, runout_contribution;
        stock: parts_per_bar, round_bar_mass, hexagon_bar_mass, square_bar_mass, tube_mass, flat_bar_mass,
            plate_mass, bars_needed, stock_length, cleanup_diameter, bar_price;
    };
    let panics: Vec<_> = called.iter().filter_map(|(_, panic)| panic.as_deref()).collect();
    assert!(panics.is_empty(), "{}", panics.join("\n"));
    let is_called = |name: &&str| called.iter().any(|(known, _)| known == name);
    let left_out: Vec<_> = formulas().map(|formula| formula.name).filter(|name| !is_called(name)).collect();
    assert!(left_out.is_empty(), "list these formulas in this test, under their modules: {left_out:?}");
}
