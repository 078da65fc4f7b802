//! Chatter: how deep a cut stays stable. The figures are starting points; a wrong grip, tool or guard is not judged here.
use crate::describe::fill;
use crate::guard::{finite, guard, place, side, tenths_units, text};
use crate::handle::{array, counted, free, given, hand_over, handle, results, room};
use crate::object::write;
use crate::objects::{tenths_stability, tenths_stable_cut, tenths_vibration_mode};
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::cutting::chatter::{
    ChatterCut, Engagement, MillingDirection, ResponsePoint, SpeedRange, Stability, VibrationMode,
};
use tenths::quantity::{
    Angle, Compliance, Density, Frequency, Length, Modulus, SpindleSpeed, Stiffness, Stress,
};
use tenths::{Quantity, Units};

/// How edges meet the work: set by `tenths_chatter_cut_init`, then changed.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chatter_cut {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_chatter_cut)`.
    pub struct_size: usize,
    /// Specific cutting force: in turning that of the whole force, in milling the tangential one.
    pub specific_cutting_force: f64,
    /// Angle of the force from the chip's thickness in turning and boring: 0, the worst case.
    pub force_angle: f64,
    /// Where a tooth enters, in degrees from the normal of the feed: NaN, which stands for turning and boring.
    pub entry_angle: f64,
    /// Where a tooth leaves, in degrees: NaN.
    pub exit_angle: f64,
    /// Radial force over tangential force in milling: 0.3.
    pub radial_force_ratio: f64,
    /// Number of teeth: 1.
    pub teeth: u32,
    /// 1 where the modes are estimated and not measured, otherwise 0, which the results tell.
    pub estimated: i32,
}

/// A cut with what vibrates in it: the limits of stability by spindle speed.
pub struct tenths_chatter(pub(crate) Stability);

/// Sets the cut of one turning or boring tool with this specific cutting force. Set `struct_size` before the call.
///
/// # Safety
/// `cut` is null or valid for as many bytes as its `struct_size` says.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_cut_init(
    specific_cutting_force: f64,
    cut: *mut tenths_chatter_cut,
) -> tenths_status {
    guard(|| {
        let usual = tenths_chatter_cut {
            struct_size: size_of::<tenths_chatter_cut>(),
            specific_cutting_force: finite(specific_cutting_force)?,
            force_angle: 0.0,
            entry_angle: f64::NAN,
            exit_angle: f64::NAN,
            radial_force_ratio: 0.3,
            teeth: 1,
            estimated: 0,
        };
        // SAFETY: the caller's promise.
        unsafe { fill(cut, "cut", usual) }
    })
}

/// The entry and exit angle of a side cut in milling, with the cutter's rim on one edge of the cut:
/// `tenths_side_cut_angles(TENTHS_METRIC, 10.0, 2.0, "down", &entry, &exit)`.
///
/// `milling` is `up` or `down`.
///
/// # Safety
/// `milling` ends with a NUL; the places are null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_side_cut_angles(
    units: tenths_units,
    cutter_diameter: f64,
    radial_width: f64,
    milling: *const c_char,
    entry_angle: *mut f64,
    exit_angle: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (entry, exit) = unsafe { (results(entry_angle, 1)?, results(exit_angle, 1)?) };
        let entry = entry.ok_or(Failure::Null("entry_angle"))?;
        let exit = exit.ok_or(Failure::Null("exit_angle"))?;
        let units = side(units)?;
        // SAFETY: the caller's promise.
        let direction = MillingDirection::parse(unsafe { text(milling, "milling") }?)?;
        let [diameter, width] = [cutter_diameter, radial_width].map(|length| Length::new_in(length, units));
        let engagement = Engagement::side_cut(diameter, width, direction, 0.0, units)?;
        if let Engagement::Milling { entry_angle, exit_angle, .. } = engagement {
            (entry[0], exit[0]) = (entry_angle.in_units(units), exit_angle.in_units(units));
        }
        Ok(())
    })
}

/// Estimate of a tool's first mode from its geometry, as `tenths_cantilever_mode` gives it, with a damping ratio, such as 0.02:
/// `tenths_make_tool_mode(TENTHS_METRIC, 10.0, 40.0, 600.0, 14.5, 0.0, 0.02, &mode)`.
///
/// # Safety
/// `mode->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_tool_mode(
    units: tenths_units,
    diameter: f64,
    overhang: f64,
    modulus: f64,
    density: f64,
    bore: f64,
    damping_ratio: f64,
    mode: *mut tenths_vibration_mode,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            let length = |number| Length::new_in(number, units);
            Ok(VibrationMode::of_tool(
                length(diameter),
                length(overhang),
                Modulus::new_in(modulus, units),
                Density::new_in(density, units),
                length(bore),
                damping_ratio,
            )?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(mode, "mode", shown, made) }
    })
}

/// A cut with modes of vibration in columns: frequency in Hz, stiffness, damping ratio.
///
/// `directions` are angles in degrees, NaN for a mode without one; `directions` may be null where none has one. Freed by
/// `tenths_chatter_free`.
///
/// # Safety
/// The columns are null or valid for `count` numbers; `cut->struct_size` is set to the size of the struct; `chatter` is null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_new(
    units: tenths_units,
    frequencies: *const f64,
    stiffnesses: *const f64,
    damping_ratios: *const f64,
    directions: *const f64,
    count: usize,
    cut: *const tenths_chatter_cut,
    chatter: *mut *mut tenths_chatter,
) -> tenths_status {
    guard(|| {
        let made = || {
            let units = side(units)?;
            // SAFETY: the caller's promises.
            let (cut, frequencies, stiffnesses, damping, directions) = unsafe {
                (
                    given(cut, "cut")?,
                    array(frequencies, count, "frequencies")?,
                    array(stiffnesses, count, "stiffnesses")?,
                    array(damping_ratios, count, "damping_ratios")?,
                    if directions.is_null() { &[][..] } else { array(directions, count, "directions")? },
                )
            };
            let mode = |k: usize| VibrationMode {
                frequency: Frequency::new_in(frequencies[k], units),
                stiffness: Stiffness::new_in(stiffnesses[k], units),
                damping_ratio: damping[k],
                direction: directions
                    .get(k)
                    .filter(|angle| !angle.is_nan())
                    .map(|angle| Angle::degrees(*angle)),
                estimated: cut.estimated != 0,
            };
            let modes: Vec<_> = (0..count).map(mode).collect();
            Ok(tenths_chatter(Stability::of_modes(&modes, &cut_of(&cut, units))?))
        };
        // SAFETY: the caller's promise.
        unsafe { hand_over(chatter, "chatter", made) }
    })
}

/// A cut with a measured response in columns: rising frequencies in Hz, and real and imaginary parts of deflection over force
/// at the edge.
///
/// `real_across` and `imaginary_across` are those across the feed of a milling cut; `real_across` may be null and
/// `imaginary_across` may be null, both together: milling then takes both directions alike. Freed by `tenths_chatter_free`.
///
/// # Safety
/// As `tenths_chatter_new`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_from_response(
    units: tenths_units,
    frequencies: *const f64,
    real: *const f64,
    imaginary: *const f64,
    real_across: *const f64,
    imaginary_across: *const f64,
    count: usize,
    cut: *const tenths_chatter_cut,
    chatter: *mut *mut tenths_chatter,
) -> tenths_status {
    guard(|| {
        let made = || {
            let units = side(units)?;
            let across = !(real_across.is_null() && imaginary_across.is_null());
            // SAFETY: the caller's promises.
            let (cut, frequencies, real, imaginary) = unsafe {
                (
                    given(cut, "cut")?,
                    array(frequencies, count, "frequencies")?,
                    array(real, count, "real")?,
                    array(imaginary, count, "imaginary")?,
                )
            };
            // SAFETY: the caller's promise.
            let column = |pointer, name| unsafe { array(pointer, count, name) };
            let across = match across {
                true => {
                    Some((column(real_across, "real_across")?, column(imaginary_across, "imaginary_across")?))
                }
                false => None,
            };
            let compliance = |number: f64| Compliance::new_in(number, units);
            let point = |k: usize| ResponsePoint {
                frequency: Frequency::new_in(frequencies[k], units),
                real: compliance(real[k]),
                imaginary: compliance(imaginary[k]),
                real_across: across.map(|(real, _)| compliance(real[k])),
                imaginary_across: across.map(|(_, imaginary)| compliance(imaginary[k])),
            };
            let points: Vec<_> = (0..count).map(point).collect();
            Ok(tenths_chatter(Stability::of_response(&points, &cut_of(&cut, units))?))
        };
        // SAFETY: the caller's promise.
        unsafe { hand_over(chatter, "chatter", made) }
    })
}

fn cut_of(cut: &tenths_chatter_cut, units: Units) -> ChatterCut {
    let engagement = match cut.entry_angle.is_nan() && cut.exit_angle.is_nan() {
        true => Engagement::Continuous { force_angle: Angle::degrees(cut.force_angle) },
        false => Engagement::Milling {
            entry_angle: Angle::degrees(cut.entry_angle),
            exit_angle: Angle::degrees(cut.exit_angle),
            radial_force_ratio: cut.radial_force_ratio,
        },
    };
    let specific_cutting_force = Stress::new_in(cut.specific_cutting_force, units);
    ChatterCut { specific_cutting_force, teeth: cut.teeth, engagement, units }
}

/// Frees it. Does nothing if null.
///
/// # Safety
/// `chatter` is null or came from this library and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_free(chatter: *mut tenths_chatter) {
    // SAFETY: the caller's promise.
    unsafe { free(chatter) }
}

/// The critical depth and what it was worked out from.
///
/// # Safety
/// `chatter` is null or came from this library; `stability->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_stability(
    chatter: *const tenths_chatter,
    units: tenths_units,
    stability: *mut tenths_stability,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            units?;
            // SAFETY: the caller's promise.
            Ok(unsafe { handle(chatter, "chatter") }?.0.clone())
        };
        // SAFETY: the caller's promise.
        unsafe { write(stability, "stability", shown, made) }
    })
}

/// The deepest stable cut at each of some spindle speeds: infinite where no vibration is steady.
///
/// # Safety
/// `chatter` is null or came from this library; `spindle_speeds` and `depths` are null or valid for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_depths(
    chatter: *const tenths_chatter,
    units: tenths_units,
    spindle_speeds: *const f64,
    count: usize,
    depths: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let to = unsafe { results(depths, count) }?;
        let units = side(units)?;
        // SAFETY: the caller's promises.
        let (chatter, speeds) =
            unsafe { (handle(chatter, "chatter")?, array(spindle_speeds, count, "spindle_speeds")?) };
        let to = match to {
            Some(to) => to,
            None if count == 0 => return Ok(()),
            None => return Err(Failure::Null("depths")),
        };
        counted("depths", speeds.len(), to.len())?;
        for (to, &speed) in to.iter_mut().zip(speeds) {
            *to = chatter.0.depth(SpindleSpeed::new_in(speed, units))?.in_units(units);
        }
        Ok(())
    })
}

/// The speeds of a range; zero and zero stand for those of the first lobes.
fn range(least: f64, greatest: f64, units: Units) -> Option<SpeedRange> {
    let speed = |number| SpindleSpeed::new_in(number, units);
    (least != 0.0 || greatest != 0.0).then(|| SpeedRange { least: speed(least), greatest: speed(greatest) })
}

/// The spindle speed nearest to the one given at which a cut of this depth is stable, and the limit there:
/// `tenths_chatter_nearest_stable_speed(chatter, TENTHS_METRIC, 0.9, 9000.0, 0.0, 0.0, &cut)`.
///
/// Speeds from `least_speed` to `greatest_speed` are looked at; 0 and 0 stand for those of the first lobes.
///
/// # Safety
/// `chatter` is null or came from this library; `cut->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_nearest_stable_speed(
    chatter: *const tenths_chatter,
    units: tenths_units,
    depth: f64,
    spindle_speed: f64,
    least_speed: f64,
    greatest_speed: f64,
    cut: *mut tenths_stable_cut,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            // SAFETY: the caller's promise.
            let chatter = unsafe { handle(chatter, "chatter") }?;
            let (depth, speed) = (Length::new_in(depth, units), SpindleSpeed::new_in(spindle_speed, units));
            Ok(chatter.0.nearest_stable_speed(depth, speed, range(least_speed, greatest_speed, units))?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(cut, "cut", shown, made) }
    })
}

/// The deepest stable cut at spindle speeds from `least_speed` to `greatest_speed`:
/// `tenths_chatter_deepest(chatter, TENTHS_METRIC, 0.0, 0.0, &cut)`; 0 and 0 stand for those of the first lobes.
///
/// # Safety
/// `chatter` is null or came from this library; `cut->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_deepest(
    chatter: *const tenths_chatter,
    units: tenths_units,
    least_speed: f64,
    greatest_speed: f64,
    cut: *mut tenths_stable_cut,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            // SAFETY: the caller's promise.
            let chatter = unsafe { handle(chatter, "chatter") }?;
            Ok(chatter.0.deepest(range(least_speed, greatest_speed, units))?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(cut, "cut", shown, made) }
    })
}

/// The points of the lobes in a range of spindle speeds, those of each lobe in a row: 0 and 0 stand for the first lobes, as in
/// `tenths_chatter_lobes(chatter, TENTHS_METRIC, 0.0, 0.0, NULL, NULL, NULL, 0, &count)`.
///
/// `count` tells how many points there are; as many as `capacity` are written. Each column may be left out: `lobes` may be null,
/// `spindle_speeds` may be null, `depths` may be null.
///
/// # Safety
/// `chatter` is null or came from this library; the columns are null or writable for `capacity` elements, `count` is null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_lobes(
    chatter: *const tenths_chatter,
    units: tenths_units,
    least_speed: f64,
    greatest_speed: f64,
    lobes: *mut u32,
    spindle_speeds: *mut f64,
    depths: *mut f64,
    capacity: usize,
    count: *mut usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (speeds, depths) = unsafe { (results(spindle_speeds, capacity), results(depths, capacity)) };
        let (speeds, depths) = (speeds?, depths?);
        // SAFETY: the caller's promises.
        let (count, lobes) = unsafe { (place(count, "count")?, room(lobes, capacity)?) };
        *count = 0;
        let units = side(units)?;
        // SAFETY: the caller's promise.
        let chatter = unsafe { handle(chatter, "chatter") }?;
        let points = chatter.0.lobes(range(least_speed, greatest_speed, units))?;
        *count = points.len();
        for (to, point) in lobes.into_iter().flatten().zip(&points) {
            to.write(point.lobe);
        }
        let column = |of: fn(f64, f64) -> f64, to: Option<&mut [f64]>| {
            for (to, point) in to.into_iter().flatten().zip(&points) {
                *to = of(point.spindle_speed.in_units(units), point.depth.in_units(units));
            }
        };
        column(|speed, _| speed, speeds);
        column(|_, depth| depth, depths);
        Ok(())
    })
}

/// The limit of stability as a picture, SVG: 0 and 0 stand for the spindle speeds of the first lobes, as in
/// `tenths_chatter_svg(chatter, 0.0, 0.0, &svg)`. The text is freed by `tenths_text_free`, and null on an error.
///
/// # Safety
/// `chatter` is null or came from this library; `svg` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_chatter_svg(
    chatter: *const tenths_chatter,
    least_speed: f64,
    greatest_speed: f64,
    svg: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let svg = unsafe { place(svg, "svg") }?;
        *svg = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let chatter = unsafe { handle(chatter, "chatter") }?;
        *svg = give(chatter.0.to_svg(range(least_speed, greatest_speed, Units::Metric))?);
        Ok(())
    })
}
