//! Vector loops in the plane.
use crate::guard::guard;
use crate::handle::{array, copy, handle, results};
use crate::propagate::{Inputs, tenths_propagation};
use crate::status::{Failure, tenths_status};
use tenths::stack::{MAX_INPUTS, StackError, VectorLoop};
use tenths_macros::export;

/// Vectors head to tail that close, with two unknowns: made by `tenths_vector_loop_new`, freed by
/// `tenths_vector_loop_free`. Several threads may read one at once; while one changes or frees it, no other may use it.
#[export(vector_loop)]
pub struct tenths_vector_loop {
    vector_loop: VectorLoop,
}

/// Makes a loop without vectors, whose unknowns are two lengths or angles:
/// `tenths_vector_loop_new("phi", 5.0, "b", 4.0, &clutch)`.
///
/// Each has a guess near its value, an angle in degrees: of several solutions the one near the guesses is found. A name
/// has letters, digits and underscores, and does not begin with a digit.
#[export(vector_loop)]
pub(crate) fn vector_loop_new(
    one: &str,
    guess_of_one: f64,
    other: &str,
    guess_of_other: f64,
) -> Result<tenths_vector_loop, StackError> {
    let mut vector_loop = VectorLoop::new();
    vector_loop.unknown(one, guess_of_one)?.unknown(other, guess_of_other)?;
    Ok(tenths_vector_loop { vector_loop })
}

/// Adds a vector by its length and the angle of its direction in degrees, from the first axis toward the second:
/// `tenths_vector_loop_link(clutch, "e", "270 - phi")`.
///
/// Each is a number such as `27.645`, a name, or a sum of the two such as `0.5 d`. A number is written without a power
/// of ten. Names that are not unknowns become inputs, in the order in which they first stand, the length before the
/// angle; a name may stand at several vectors.
#[export]
pub(crate) fn vector_loop_link(
    vector_loop: &mut tenths_vector_loop,
    length: &str,
    angle: &str,
) -> Result<(), StackError> {
    vector_loop.vector_loop.link(length, angle)?;
    Ok(())
}

/// How many inputs a loop has; 0 for null.
///
/// # Safety
/// `vector_loop` is null or came from this library.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_vector_loop_inputs(vector_loop: *const tenths_vector_loop) -> usize {
    // SAFETY: the caller's promise.
    unsafe { vector_loop.as_ref() }.map_or(0, |around| around.vector_loop.inputs().len())
}

/// Both unknowns, in the order in which they were named, for `count` inputs in the order of the loop.
///
/// `values` may be null where there are none. The status is `TENTHS_UNDEFINED` if the loop does not close from the guesses.
/// Each of `one` and `other` may be null. NaN on an error.
///
/// # Safety
/// `vector_loop` came from this library; `values` is null or valid for `count` numbers; `one` and `other` are null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_vector_loop_solve(
    vector_loop: *const tenths_vector_loop,
    values: *const f64,
    count: usize,
    one: *mut f64,
    other: *mut f64,
) -> tenths_status {
    guard(|| {
        let values = match count {
            0 => Ok(vec![]),
            // All is read before anything is written, since a caller may let results overwrite values.
            // SAFETY: the caller's promise.
            1..=MAX_INPUTS => unsafe { array(values, count, "values") }.map(<[f64]>::to_vec),
            _ => Err(too_many(count)),
        };
        // SAFETY: the caller's promises.
        let [one, other] = unsafe { [one, other].map(|number| results(number, 1)) };
        // SAFETY: the caller's promise.
        let around = unsafe { handle(vector_loop, "vector_loop") }?;
        let found = around.vector_loop.solve(&values?)?;
        copy([found[0]], one?);
        copy([found[1]], other?);
        Ok(())
    })
}

/// An unknown of a loop whose `count` inputs vary, given by their names in any order, lengths in one unit and angles in
/// degrees: `tenths_vector_loop_propagate(clutch, "phi", inputs, 3, &propagation)`.
///
/// Free the propagation with `tenths_propagation_free`; it is null on an error. It does not need the loop any more, and
/// has its inputs in the order of the loop.
#[export(propagation)]
pub(crate) fn vector_loop_propagate(
    vector_loop: &tenths_vector_loop,
    unknown: &str,
    inputs: Inputs,
) -> Result<tenths_propagation, StackError> {
    Ok(vector_loop.vector_loop.propagate(unknown, inputs)?.boxed().into())
}

fn too_many(count: usize) -> Failure {
    StackError::HowMany { what: "inputs", need: format!("there are at most {MAX_INPUTS}"), got: count }.into()
}
