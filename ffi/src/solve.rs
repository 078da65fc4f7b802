//! Formulas solved for an argument.
use crate::formula::asked;
use crate::guard::{guard, side, tenths_units, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;

/// Solves the formula called `name` for one of its arguments: `result` becomes the value of `argument` for which
/// `output` becomes `wanted`.
///
/// `output` may be null where the formula has one result. `arguments` holds `count` numbers: all arguments of the
/// formula, in order. The number for the argument to solve for is ignored.
///
/// The status is `TENTHS_UNSOLVABLE` if the argument is unknown, is a count, or is not known to move the result one way,
/// or if no value of it gives the wanted result; the message says which.
///
/// # Safety
/// Each pointer is null or valid; texts end with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_solve(
    name: *const c_char,
    units: tenths_units,
    argument: *const c_char,
    output: *const c_char,
    wanted: f64,
    arguments: *const f64,
    count: usize,
    result: *mut f64,
) -> tenths_status {
    guard(|| {
        if result.is_null() {
            return Err(Failure::Null("result"));
        }
        let solve = || {
            // SAFETY: the caller's promise.
            let (formula, given) = unsafe { asked(name, arguments, count) }?;
            // SAFETY: the caller's promise.
            let argument = unsafe { text(argument, "argument") }?;
            let output = match output.is_null() {
                true => None,
                // SAFETY: the caller's promise.
                false => Some(unsafe { text(output, "output") }?),
            };
            Ok(formula.solve_for(side(units)?, argument, output, wanted, given)?)
        };
        let solved = solve();
        // Written last, since a caller may let it overwrite an argument.
        // SAFETY: the caller's promise.
        unsafe { result.write(*solved.as_ref().unwrap_or(&f64::NAN)) };
        solved.map(drop)
    })
}
