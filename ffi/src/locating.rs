//! Locators of a part: what they hold, and how their errors move it. Coordinates are in the units of the call.
use crate::guard::{guard, side, tenths_units};
use crate::handle::{array, copy, results};
use crate::object::write;
use crate::objects::tenths_locating;
use crate::status::{Failure, tenths_status};
use tenths::Units;
use tenths::workholding::{Clamp, Locating, LocatingError, Locator, MAX_CLAMPED, MAX_LOCATORS};

type Vector = [f64; 3];

/// Three numbers for each of `count` points.
///
/// # Safety
/// `rows` is null or valid for 3 · `count` numbers.
unsafe fn vectors(rows: *const f64, count: usize, name: &'static str) -> Result<Vec<Vector>, Failure> {
    // SAFETY: the caller's promise.
    let numbers = unsafe { array(rows, count.saturating_mul(3), name) }?;
    Ok(numbers.as_chunks::<3>().0.to_vec())
}

/// # Safety
/// `vector` is null or valid for 3 numbers.
unsafe fn vector(vector: *const f64, name: &'static str) -> Result<Vector, Failure> {
    // SAFETY: the caller's promise.
    let numbers = unsafe { array(vector, 3, name) }?;
    Ok(std::array::from_fn(|k| numbers[k]))
}

/// # Safety
/// `positions` and `normals` are null or valid for 3 · `count` numbers.
unsafe fn locators_of(
    positions: *const f64,
    normals: *const f64,
    count: usize,
) -> Result<Vec<Locator>, Failure> {
    if count > MAX_LOCATORS {
        return Err(LocatingError::TooMany { count }.into());
    }
    // SAFETY: the caller's promises.
    let (positions, normals) =
        unsafe { (vectors(positions, count, "positions")?, vectors(normals, count, "normals")?) };
    let pairs = positions.into_iter().zip(normals);
    Ok(pairs.map(|(position, normal)| Locator { position, normal }).collect())
}

/// What locators hold of a part, which motions they leave, and whether clamps press it on every locator.
///
/// `positions` and `normals` have three numbers for each of `count` locators; a normal points from the locator into the part,
/// and its length does not matter. `clamp_positions` and `clamp_normals`, the directions in which they push, are the same of
/// `clamps` clamps; `clamp_positions` may be null, and `clamp_normals` may be null, where there are no clamps. `clamp_forces`
/// may be null for clamps that press alike. `friction` is that at all contacts, 0 for none.
///
/// # Safety
/// `positions` and `normals` are null or valid for 3 · `count` numbers, `clamp_positions` and `clamp_normals` for
/// 3 · `clamps`, and `clamp_forces` for `clamps`; `locating->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_locating(
    units: tenths_units,
    positions: *const f64,
    normals: *const f64,
    count: usize,
    clamp_positions: *const f64,
    clamp_normals: *const f64,
    clamp_forces: *const f64,
    clamps: usize,
    friction: f64,
    locating: *mut tenths_locating,
) -> tenths_status {
    guard(|| {
        let side = side(units);
        let shown = side.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = side?;
            // SAFETY: the caller's promises.
            let locators = unsafe { locators_of(positions, normals, count) }?;
            if clamps > MAX_CLAMPED {
                return Err(LocatingError::TooManyClamped { locators: count, clamps }.into());
            }
            let clamps = match clamps {
                0 => vec![],
                // SAFETY: the caller's promises.
                _ => unsafe { clamps_of(clamp_positions, clamp_normals, clamp_forces, clamps) }?,
            };
            Ok(Locating::new(&locators, &clamps, Some(friction), units)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(locating, "locating", shown, made) }
    })
}

/// # Safety
/// As for [`tenths_make_locating`].
unsafe fn clamps_of(
    positions: *const f64,
    normals: *const f64,
    forces: *const f64,
    count: usize,
) -> Result<Vec<Clamp>, Failure> {
    // SAFETY: the caller's promises.
    let (positions, normals) =
        unsafe { (vectors(positions, count, "clamp_positions")?, vectors(normals, count, "clamp_normals")?) };
    let forces = match forces.is_null() {
        true => vec![1.0; count],
        // SAFETY: the caller's promise.
        false => unsafe { array(forces, count, "clamp_forces") }?.to_vec(),
    };
    let all = positions.into_iter().zip(normals).zip(forces);
    Ok(all.map(|((position, normal), force)| Clamp { position, normal, force }).collect())
}

/// How a point of the part moves in x, y and z when each of `count` locators is off by its error along its normal, to the
/// first order: `shift` gets three numbers.
///
/// It is an error where a motion that the locators leave moves the point, or where there are more locators than they stop
/// motions.
///
/// # Safety
/// `positions` and `normals` are null or valid for 3 · `count` numbers, `errors` for `count`, `at` for 3; `shift` is writable
/// for 3 numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_locating_shift(
    positions: *const f64,
    normals: *const f64,
    errors: *const f64,
    count: usize,
    at: *const f64,
    shift: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let out = unsafe { results(shift, 3) }?;
        if out.is_none() {
            return Err(Failure::Null("shift"));
        }
        // SAFETY: the caller's promises.
        let (locators, at) = unsafe { (locators_of(positions, normals, count)?, vector(at, "at")?) };
        // SAFETY: the caller's promise.
        let errors = unsafe { array(errors, count, "errors") }?;
        let made = Locating::new(&locators, &[], None, Units::Metric)?;
        copy(made.shift(errors, at)?, out);
        Ok(())
    })
}

/// How far a point of the part moves along a direction for each unit of error of each of `count` locators: `sensitivities`
/// gets `count` numbers, the sensitivities of the locators as contributors to a stack.
///
/// # Safety
/// `positions` and `normals` are null or valid for 3 · `count` numbers, `at` and `along` for 3; `sensitivities` is writable for
/// `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_locating_sensitivities(
    positions: *const f64,
    normals: *const f64,
    count: usize,
    at: *const f64,
    along: *const f64,
    sensitivities: *mut f64,
) -> tenths_status {
    guard(|| {
        if sensitivities.is_null() {
            return Err(Failure::Null("sensitivities"));
        }
        // SAFETY: the caller's promise.
        let out = unsafe { results(sensitivities, count) }?;
        // SAFETY: the caller's promises.
        let (locators, at, along) =
            unsafe { (locators_of(positions, normals, count)?, vector(at, "at")?, vector(along, "along")?) };
        let made = Locating::new(&locators, &[], None, Units::Metric)?;
        copy(made.sensitivities(at, along)?, out);
        Ok(())
    })
}

/// Writes a set of locators as positions and normals.
///
/// # Safety
/// `positions` and `normals` are null or writable for as many numbers as the set has, three for each locator.
unsafe fn hand_out(
    positions: *mut f64,
    normals: *mut f64,
    count: usize,
    made: impl FnOnce() -> Result<Vec<Locator>, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promises.
    let (places, directions) = unsafe { (results(positions, 3 * count)?, results(normals, 3 * count)?) };
    if places.is_none() {
        return Err(Failure::Null("positions"));
    }
    if directions.is_none() {
        return Err(Failure::Null("normals"));
    }
    let made = made()?;
    copy(made.iter().flat_map(|one| one.position), places);
    copy(made.iter().flat_map(|one| one.normal), directions);
    Ok(())
}

/// A line contact, such as a rail: two locators, at its ends.
///
/// # Safety
/// `start`, `end` and `normal` are null or valid for 3 numbers; `positions` and `normals` are writable for 6.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_line_contact(
    start: *const f64,
    end: *const f64,
    normal: *const f64,
    positions: *mut f64,
    normals: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        hand_out(positions, normals, 2, || {
            Ok(Locator::line(vector(start, "start")?, vector(end, "end")?, vector(normal, "normal")?)?)
        })
    })
}

/// A plane contact, such as three rest buttons: three locators, whose normal points to the side from which the points run
/// counter-clockwise.
///
/// # Safety
/// `points` is null or valid for 9 numbers; `positions` and `normals` are writable for 9.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plane_contact(
    points: *const f64,
    positions: *mut f64,
    normals: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        hand_out(positions, normals, 3, || {
            let points = vectors(points, 3, "points")?;
            Ok(Locator::plane(std::array::from_fn(|k| points[k]))?)
        })
    })
}

/// A round and a relieved pin in two holes: three locators, two at the round pin. `axis` is the direction of the pins.
///
/// # Safety
/// `round`, `relieved` and `axis` are null or valid for 3 numbers; `positions` and `normals` are writable for 9.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_two_pins(
    round: *const f64,
    relieved: *const f64,
    axis: *const f64,
    positions: *mut f64,
    normals: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        hand_out(positions, normals, 3, || {
            Ok(Locator::pins(vector(round, "round")?, vector(relieved, "relieved")?, vector(axis, "axis")?)?)
        })
    })
}

/// A V-block under a round bar: four locators, on both flanks at both ends. `start` and `end` are points of the bar's axis at
/// the ends of the block, `up` is where the V opens, `vee_angle` its included angle in degrees.
///
/// # Safety
/// `start`, `end` and `up` are null or valid for 3 numbers; `positions` and `normals` are writable for 12.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_vee_block(
    start: *const f64,
    end: *const f64,
    up: *const f64,
    diameter: f64,
    vee_angle: f64,
    positions: *mut f64,
    normals: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        hand_out(positions, normals, 4, || {
            let (start, end, up) = (vector(start, "start")?, vector(end, "end")?, vector(up, "up")?);
            Ok(Locator::vee_block(start, end, up, diameter, vee_angle)?)
        })
    })
}
