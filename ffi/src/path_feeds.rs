//! Feeds along a toolpath. The figures are starting points; a wrong grip, tool or guard is not judged here.
use crate::describe::fill;
use crate::guard::{document, finite, guard, side, tenths_units};
use crate::handle::{array, given, results};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::cutting::machine::Machine;
use tenths::cutting::path_feeds::{FeedBound, PathColumns, PathCut, path_feeds_into};
use tenths::quantity::{
    Acceleration, Angle, FeedRate, Force, Length, Power, SpindleSpeed, Stiffness, Stress,
};
use tenths::{Quantity, Units};

/// What bounds the feed of a segment: `TENTHS_FEED_BOUND_CHIP_THICKNESS` to `TENTHS_FEED_BOUND_ACCELERATION`.
pub type tenths_feed_bound = i32;

/// The largest chip thickness.
pub const TENTHS_FEED_BOUND_CHIP_THICKNESS: tenths_feed_bound = 0;
/// The force on the cutter.
pub const TENTHS_FEED_BOUND_FORCE: tenths_feed_bound = 1;
/// The deflection of the cutter.
pub const TENTHS_FEED_BOUND_DEFLECTION: tenths_feed_bound = 2;
/// The power at the cutter.
pub const TENTHS_FEED_BOUND_POWER: tenths_feed_bound = 3;
/// The greatest feed rate of the machine.
pub const TENTHS_FEED_BOUND_FEED_RATE: tenths_feed_bound = 4;
/// The acceleration across a curved path.
pub const TENTHS_FEED_BOUND_CURVE: tenths_feed_bound = 5;
/// The acceleration from one segment to the next.
pub const TENTHS_FEED_BOUND_ACCELERATION: tenths_feed_bound = 6;

// The core numbers its bounds alike.
const _: () = assert!(
    TENTHS_FEED_BOUND_CHIP_THICKNESS == FeedBound::ChipThickness as i32
        && TENTHS_FEED_BOUND_FORCE == FeedBound::Force as i32
        && TENTHS_FEED_BOUND_DEFLECTION == FeedBound::Deflection as i32
        && TENTHS_FEED_BOUND_POWER == FeedBound::Power as i32
        && TENTHS_FEED_BOUND_FEED_RATE == FeedBound::FeedRate as i32
        && TENTHS_FEED_BOUND_CURVE == FeedBound::Curve as i32
        && TENTHS_FEED_BOUND_ACCELERATION == FeedBound::Acceleration as i32
);

/// A milling cut along a path: set by `tenths_path_cut_init`, then changed. A limit that is NaN does not bind.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_path_cut {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_path_cut)`.
    pub struct_size: usize,
    /// Diameter of the cutter.
    pub cutter_diameter: f64,
    /// Spindle speed.
    pub spindle_speed: f64,
    /// Largest chip thickness wanted.
    pub chip_thickness: f64,
    /// Specific cutting force of the material at a chip 1 mm thick.
    pub kc11: f64,
    /// Its exponent.
    pub mc: f64,
    /// Entering angle in degrees: 90.
    pub entering_angle: f64,
    /// Chip thickness below which the teeth rub: NaN.
    pub least_chip_thickness: f64,
    /// Greatest force on the cutter: that of one tooth in its thickest chip, for as many teeth as are in the cut at once: NaN.
    pub greatest_force: f64,
    /// Stiffness of the cutter at its tip, together with a greatest deflection: NaN.
    pub stiffness: f64,
    /// Greatest deflection of the cutter under that force: NaN.
    pub greatest_deflection: f64,
    /// Greatest mean power at the cutter: NaN.
    pub greatest_power: f64,
    /// Greatest feed rate of the machine: NaN.
    pub greatest_feed_rate: f64,
    /// Greatest acceleration along the path and across it: NaN.
    pub acceleration: f64,
    /// Feed rate at which the path is entered: 0. It counts with an acceleration.
    pub start_feed_rate: f64,
    /// Feed rate at which the path is left, at most: 0. It counts with an acceleration.
    pub end_feed_rate: f64,
    /// Number of teeth of the cutter.
    pub teeth: u32,
    /// Lowest feed rate of the machine, below which a segment is refused: NaN.
    pub least_feed_rate: f64,
}

/// Sets a cut without limits but its chip thickness: `tenths_path_cut_init(10.0, 3, 6000.0, 0.05, 1700.0, 0.25, &cut)`. Set
/// `struct_size` before the call.
///
/// # Safety
/// `cut` is null or valid for as many bytes as its `struct_size` says.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_path_cut_init(
    cutter_diameter: f64,
    teeth: u32,
    spindle_speed: f64,
    chip_thickness: f64,
    kc11: f64,
    mc: f64,
    cut: *mut tenths_path_cut,
) -> tenths_status {
    guard(|| {
        let usual = tenths_path_cut {
            struct_size: size_of::<tenths_path_cut>(),
            cutter_diameter: finite(cutter_diameter)?,
            spindle_speed: finite(spindle_speed)?,
            chip_thickness: finite(chip_thickness)?,
            kc11: finite(kc11)?,
            mc: finite(mc)?,
            entering_angle: 90.0,
            least_chip_thickness: f64::NAN,
            greatest_force: f64::NAN,
            stiffness: f64::NAN,
            greatest_deflection: f64::NAN,
            greatest_power: f64::NAN,
            greatest_feed_rate: f64::NAN,
            acceleration: f64::NAN,
            start_feed_rate: 0.0,
            end_feed_rate: 0.0,
            teeth,
            least_feed_rate: f64::NAN,
        };
        // SAFETY: the caller's promise.
        unsafe { fill(cut, "cut", usual) }
    })
}

fn cut_of(cut: &tenths_path_cut, units: Units) -> PathCut {
    fn limit<Q: Quantity>(number: f64, units: Units) -> Option<Q> {
        (!number.is_nan()).then(|| Q::new_in(number, units))
    }
    PathCut {
        cutter_diameter: Length::new_in(cut.cutter_diameter, units),
        teeth: cut.teeth,
        spindle_speed: SpindleSpeed::new_in(cut.spindle_speed, units),
        chip_thickness: Length::new_in(cut.chip_thickness, units),
        least_chip_thickness: limit(cut.least_chip_thickness, units),
        kc11: Stress::new_in(cut.kc11, units),
        mc: cut.mc,
        entering_angle: Angle::degrees(cut.entering_angle),
        greatest_force: limit::<Force>(cut.greatest_force, units),
        stiffness: limit::<Stiffness>(cut.stiffness, units),
        greatest_deflection: limit(cut.greatest_deflection, units),
        greatest_power: limit::<Power>(cut.greatest_power, units),
        least_feed_rate: limit(cut.least_feed_rate, units),
        greatest_feed_rate: limit(cut.greatest_feed_rate, units),
        acceleration: limit::<Acceleration>(cut.acceleration, units),
        start_feed_rate: FeedRate::new_in(cut.start_feed_rate, units),
        end_feed_rate: FeedRate::new_in(cut.end_feed_rate, units),
        units,
    }
}

/// Brings the limits of a cut within those of a machine: power and torque by its curve at the spindle speed, feed rates and
/// acceleration: `tenths_path_cut_on_machine(TENTHS_METRIC, machine, length, 0.8, &cut)`.
///
/// `machine` is a JSON document of `length` bytes as `tenths_limit_to_machine` takes it. `efficiency` is the share of the
/// motor's power that reaches the cutter. On an error the cut stays as it was.
///
/// # Safety
/// `machine` is readable for `length` bytes; `cut->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_path_cut_on_machine(
    units: tenths_units,
    machine: *const c_char,
    length: usize,
    efficiency: f64,
    cut: *mut tenths_path_cut,
) -> tenths_status {
    guard(|| {
        let units = side(units)?;
        // SAFETY: the caller's promises.
        let (document, told) = unsafe { (document(machine, length, "machine")?, given(cut, "cut")?) };
        let machine = Machine::from_json(document).map_err(Failure::Machine)?;
        let on = cut_of(&told, units).on_machine(&machine, efficiency)?;
        fn number<Q: Quantity>(limit: Option<Q>, units: Units) -> f64 {
            limit.map_or(f64::NAN, |limit| limit.in_units(units))
        }
        let made = tenths_path_cut {
            greatest_power: number(on.greatest_power, units),
            least_feed_rate: number(on.least_feed_rate, units),
            greatest_feed_rate: number(on.greatest_feed_rate, units),
            acceleration: number(on.acceleration, units),
            ..told
        };
        // SAFETY: the caller's promise.
        unsafe { fill(cut, "cut", made) }
    })
}

/// The feed of each segment of a path within every limit, what bounds it, and the time.
///
/// The segments are columns of `count` numbers: length and curvature of the path of the cutter's centre, positive inside an arc
/// and negative outside, radial width and axial depth; `curvatures` may be null for straight lines. Feeds, largest chips and
/// times of the segments are written; `chip_thicknesses` may be null, `bounds` may be null, `times` may be null where they are
/// not wanted. `total_time` is in minutes, and `rubbing` counts segments whose chip is thinner than the least; `rubbing` may be
/// null. The path is taken as smooth: corners are not judged. On an error feeds are NaN.
///
/// # Safety
/// The columns are null or valid for `count` elements and do not overlap; `cut->struct_size` is set to the size of the struct;
/// `total_time` and `rubbing` are null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_path_feeds(
    units: tenths_units,
    cut: *const tenths_path_cut,
    lengths: *const f64,
    curvatures: *const f64,
    radial_widths: *const f64,
    axial_depths: *const f64,
    count: usize,
    feed_rates: *mut f64,
    chip_thicknesses: *mut f64,
    bounds: *mut tenths_feed_bound,
    times: *mut f64,
    total_time: *mut f64,
    rubbing: *mut usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (feeds, chips, times, total, rubs) = unsafe {
            (
                results(feed_rates, count),
                results(chip_thicknesses, count),
                results(times, count),
                results(total_time, 1)?,
                rubbing.as_mut(),
            )
        };
        let (feeds, chips, times) = (feeds?, chips?, times?);
        let total = total.ok_or(Failure::Null("total_time"))?;
        let units = side(units)?;
        // SAFETY: the caller's promises.
        let (cut, lengths, widths, depths) = unsafe {
            (
                given(cut, "cut")?,
                array(lengths, count, "lengths")?,
                array(radial_widths, count, "radial_widths")?,
                array(axial_depths, count, "axial_depths")?,
            )
        };
        let feeds = match feeds {
            Some(feeds) => feeds,
            None if count == 0 => &mut [],
            None => return Err(Failure::Null("feed_rates")),
        };
        // What the caller leaves out is worked out beside.
        let (mut straight, mut own_chips, mut own_times, mut own_bounds) = (vec![], vec![], vec![], vec![]);
        let curvatures = match curvatures.is_null() {
            true => {
                straight.resize(count, 0.0);
                &straight
            }
            // SAFETY: the caller's promise.
            false => unsafe { array(curvatures, count, "curvatures") }?,
        };
        let chips = chips.unwrap_or_else(|| {
            own_chips.resize(count, 0.0);
            &mut own_chips
        });
        let times = times.unwrap_or_else(|| {
            own_times.resize(count, 0.0);
            &mut own_times
        });
        let bounds = match bounds.is_null() {
            true => {
                own_bounds.resize(count, 0);
                &mut own_bounds[..]
            }
            // SAFETY: the caller's promise, and the columns before have proved that a slice can be so long.
            false => unsafe { std::slice::from_raw_parts_mut(bounds, count) },
        };
        let path = PathColumns { lengths, curvatures, radial_widths: widths, axial_depths: depths };
        match path_feeds_into(&cut_of(&cut, units), &path, feeds, chips, bounds, times) {
            Ok(totals) => {
                total[0] = totals.time;
                if let Some(rubs) = rubs {
                    *rubs = totals.rubbing;
                }
                Ok(())
            }
            Err(error) => {
                [feeds, chips, times].into_iter().for_each(|column| column.fill(f64::NAN));
                Err(error.into())
            }
        }
    })
}
