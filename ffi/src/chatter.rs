//! Chatter: how deep a cut stays stable. The figures are starting points; a wrong grip, tool or guard is not judged here.
use crate::guard::{finite, guard, place, side, tenths_units};
use crate::handle::{handle, results, room};
use crate::status::{Failure, tenths_status};
use tenths::cutting::chatter::{
    ChatterCut, Engagement, MillingDirection, ResponsePoint, SpeedRange, Stability, StabilityError,
    StableCut, VibrationMode,
};
use tenths::quantity::{
    Angle, Compliance, Density, Frequency, Length, Modulus, SpindleSpeed, Stiffness, Stress,
};
use tenths::{Quantity, Units};
use tenths_macros::export;

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
#[export(chatter)]
pub struct tenths_chatter(pub(crate) Stability);

/// Sets the cut of one turning or boring tool with this specific cutting force. Set `struct_size` before the call.
#[export(cut)]
pub(crate) fn chatter_cut_init(specific_cutting_force: f64) -> Result<tenths_chatter_cut, Failure> {
    Ok(tenths_chatter_cut {
        struct_size: size_of::<tenths_chatter_cut>(),
        specific_cutting_force: finite(specific_cutting_force)?,
        force_angle: 0.0,
        entry_angle: f64::NAN,
        exit_angle: f64::NAN,
        radial_force_ratio: 0.3,
        teeth: 1,
        estimated: 0,
    })
}

/// The entry and exit angle of a side cut in milling, with the cutter's rim on one edge of the cut:
/// `tenths_side_cut_angles(TENTHS_METRIC, 10.0, 2.0, "down", &entry, &exit)`.
///
/// `milling` is `up` or `down`.
#[export(entry_angle, exit_angle)]
pub(crate) fn side_cut_angles(
    units: Units,
    cutter_diameter: f64,
    radial_width: f64,
    milling: &str,
) -> Result<[f64; 2], StabilityError> {
    let direction = MillingDirection::parse(milling)?;
    let [diameter, width] = [cutter_diameter, radial_width].map(|length| Length::new_in(length, units));
    Ok(match Engagement::side_cut(diameter, width, direction, 0.0, units)? {
        Engagement::Milling { entry_angle, exit_angle, .. } => {
            [entry_angle, exit_angle].map(|angle| angle.in_units(units))
        }
        Engagement::Continuous { .. } => [f64::NAN; 2],
    })
}

/// Estimate of a tool's first mode from its geometry, as `tenths_cantilever_mode` gives it, with a damping ratio, such as 0.02:
/// `tenths_make_tool_mode(TENTHS_METRIC, 10.0, 40.0, 600.0, 14.5, 0.0, 0.02, &mode)`.
#[export(mode)]
pub(crate) fn make_tool_mode(
    units: Units,
    diameter: f64,
    overhang: f64,
    modulus: f64,
    density: f64,
    bore: f64,
    damping_ratio: f64,
) -> Result<VibrationMode, StabilityError> {
    let [diameter, overhang, bore] = [diameter, overhang, bore].map(|number| Length::new_in(number, units));
    let (modulus, density) = (Modulus::new_in(modulus, units), Density::new_in(density, units));
    VibrationMode::of_tool(diameter, overhang, modulus, density, bore, damping_ratio)
}

/// A cut with modes of vibration in columns: frequency in Hz, stiffness, damping ratio.
///
/// `directions` are angles in degrees, NaN for a mode without one; `directions` may be null where none has one. Freed by
/// `tenths_chatter_free`.
#[export(chatter)]
pub(crate) fn chatter_new(
    units: Units,
    frequencies: &[f64],
    stiffnesses: &[f64],
    damping_ratios: &[f64],
    directions: Option<&[f64]>,
    cut: tenths_chatter_cut,
) -> Result<tenths_chatter, StabilityError> {
    let direction = |k: usize| directions.map(|angles| angles[k]).filter(|angle| !angle.is_nan());
    let mode = |k: usize| VibrationMode {
        frequency: Frequency::new_in(frequencies[k], units),
        stiffness: Stiffness::new_in(stiffnesses[k], units),
        damping_ratio: damping_ratios[k],
        direction: direction(k).map(Angle::degrees),
        estimated: cut.estimated != 0,
    };
    let modes: Vec<_> = (0..frequencies.len()).map(mode).collect();
    Ok(tenths_chatter(Stability::of_modes(&modes, &cut_of(&cut, units))?))
}

/// A cut with a measured response in columns: rising frequencies in Hz, and real and imaginary parts of deflection over force
/// at the edge.
///
/// `real_across` and `imaginary_across` are those across the feed of a milling cut; `real_across` may be null and
/// `imaginary_across` may be null, both together: milling then takes both directions alike. Freed by `tenths_chatter_free`.
#[export(chatter)]
pub(crate) fn chatter_from_response(
    units: Units,
    frequencies: &[f64],
    real: &[f64],
    imaginary: &[f64],
    real_across: Option<&[f64]>,
    imaginary_across: Option<&[f64]>,
    cut: tenths_chatter_cut,
) -> Result<tenths_chatter, Failure> {
    let across = match (real_across, imaginary_across) {
        (None, None) => None,
        (Some(real), Some(imaginary)) => Some((real, imaginary)),
        (None, _) => return Err(Failure::Null("real_across")),
        (_, None) => return Err(Failure::Null("imaginary_across")),
    };
    let compliance = |number: f64| Compliance::new_in(number, units);
    let point = |k: usize| ResponsePoint {
        frequency: Frequency::new_in(frequencies[k], units),
        real: compliance(real[k]),
        imaginary: compliance(imaginary[k]),
        real_across: across.map(|(real, _)| compliance(real[k])),
        imaginary_across: across.map(|(_, imaginary)| compliance(imaginary[k])),
    };
    let points: Vec<_> = (0..frequencies.len()).map(point).collect();
    Ok(tenths_chatter(Stability::of_response(&points, &cut_of(&cut, units))?))
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

/// The critical depth and what it was worked out from.
#[export(stability)]
pub(crate) fn chatter_stability(chatter: &tenths_chatter, _units: Units) -> Stability {
    chatter.0.clone()
}

/// The deepest stable cut at each of some spindle speeds: infinite where no vibration is steady.
#[export(depths[count])]
pub(crate) fn chatter_depths(
    chatter: &tenths_chatter,
    units: Units,
    spindle_speeds: &[f64],
) -> Result<Vec<f64>, StabilityError> {
    let depth = |&speed: &f64| {
        let depth = chatter.0.depth(SpindleSpeed::new_in(speed, units))?;
        Ok(depth.in_units(units))
    };
    spindle_speeds.iter().map(depth).collect()
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
#[export(cut)]
pub(crate) fn chatter_nearest_stable_speed(
    chatter: &tenths_chatter,
    units: Units,
    depth: f64,
    spindle_speed: f64,
    least_speed: f64,
    greatest_speed: f64,
) -> Result<StableCut, StabilityError> {
    let (depth, speed) = (Length::new_in(depth, units), SpindleSpeed::new_in(spindle_speed, units));
    chatter.0.nearest_stable_speed(depth, speed, range(least_speed, greatest_speed, units))
}

/// The deepest stable cut at spindle speeds from `least_speed` to `greatest_speed`:
/// `tenths_chatter_deepest(chatter, TENTHS_METRIC, 0.0, 0.0, &cut)`; 0 and 0 stand for those of the first lobes.
#[export(cut)]
pub(crate) fn chatter_deepest(
    chatter: &tenths_chatter,
    units: Units,
    least_speed: f64,
    greatest_speed: f64,
) -> Result<StableCut, StabilityError> {
    chatter.0.deepest(range(least_speed, greatest_speed, units))
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
#[export(svg)]
pub(crate) fn chatter_svg(
    chatter: &tenths_chatter,
    least_speed: f64,
    greatest_speed: f64,
) -> Result<String, StabilityError> {
    chatter.0.to_svg(range(least_speed, greatest_speed, Units::Metric))
}
