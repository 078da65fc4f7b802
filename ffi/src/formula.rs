//! Checks and remarks for formulas by name: and the one way in which every exported formula runs.
use crate::guard::{guard, guarded, place, report, report_refusal, side, tenths_units, text};
use crate::status::{Failure, TENTHS_OK, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use std::mem::offset_of;
use tenths::formula::{Advice, MAX_INPUTS, MAX_OUTPUTS};
use tenths::registry::find_or_nearest;
use tenths::{Formula, Units};

/// What every struct of numbers looks like: its size as the caller knows it, then `N` numbers.
#[repr(C)]
pub(crate) struct Numbers<const N: usize> {
    struct_size: usize,
    values: [f64; N],
}

/// Where the numbers of a struct stand that both the caller and the library know, and how many: at least `first`.
///
/// # Safety
/// `numbers` is null or valid for as many bytes as its `struct_size` says.
unsafe fn known<const N: usize>(
    numbers: *mut Numbers<N>,
    what: &'static str,
    first: usize,
) -> Result<(*mut f64, usize), Failure> {
    if numbers.is_null() {
        return Err(Failure::Null(what));
    }
    let before = offset_of!(Numbers<N>, values);
    // SAFETY: `struct_size` comes first. No reference is made to the whole struct, which may be shorter.
    let got = unsafe { numbers.cast::<usize>().read() };
    let least = before + first * size_of::<f64>();
    if got < least {
        return Err(Failure::StructSize { what, least, got });
    }
    let count = ((got - before) / size_of::<f64>()).min(N);
    // SAFETY: the caller's promise.
    Ok((unsafe { (&raw mut (*numbers).values).cast() }, count))
}

/// A formula of plain numbers and one result.
///
/// # Safety
/// `result` is null or writable.
#[inline(never)] // one for each count of arguments
pub(crate) unsafe fn plain<const N: usize>(
    formula: &'static Formula,
    units: tenths_units,
    arguments: [f64; N],
    result: *mut f64,
) -> tenths_status {
    guarded(|| {
        // SAFETY: the caller's promise.
        let Some(result) = (unsafe { result.as_mut() }) else { return report(Failure::Null(formula.name)) };
        *result = f64::NAN;
        let units = match side(units) {
            Ok(units) => units,
            Err(failure) => return report(failure),
        };
        match formula.answer(units, &arguments) {
            Ok(answer) => {
                *result = answer;
                TENTHS_OK
            }
            Err(refusal) => report_refusal(formula, units, refusal, &arguments),
        }
    })
}

/// A call of a formula, whose refusal takes no memory until somebody asks for the message.
#[inline(always)]
fn attempt(
    formula: &'static Formula,
    units: Units,
    arguments: &[f64],
    results: &mut [f64],
) -> Result<Advice, Failure> {
    formula
        .attempt(units, arguments, results)
        .map_err(|refusal| Failure::refused(formula, units, refusal, arguments))
}

/// Sets the arguments of an input struct to their defaults, and to NaN where there is none.
///
/// # Safety
/// `input` is null or valid for as many bytes as its `struct_size` says.
pub(crate) unsafe fn init<const N: usize>(
    formula: &Formula,
    units: tenths_units,
    input: *mut Numbers<N>,
    first: usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let (values, count) = unsafe { known(input, "input", first) }?;
        let units = side(units);
        for (k, argument) in formula.arguments.iter().enumerate().take(count) {
            let default = units.as_ref().ok().and_then(|&units| argument.default(units));
            // SAFETY: `k < count`.
            unsafe { values.add(k).write(default.unwrap_or(f64::NAN)) };
        }
        units.map(drop)
    })
}

/// A formula with an input struct and one result.
///
/// # Safety
/// Each pointer is null or valid, structs for as many bytes as their `struct_size` says.
pub(crate) unsafe fn single<const N: usize>(
    formula: &'static Formula,
    units: tenths_units,
    input: *const Numbers<N>,
    first: usize,
    result: *mut f64,
    advice: *mut u32,
) -> tenths_status {
    guard(|| match result.is_null() {
        true => Err(Failure::Null(formula.name)),
        // SAFETY: the caller's promise.
        false => unsafe { run(formula, units, input, first, (result, 1), advice) },
    })
}

/// A formula with an input and an output struct.
///
/// # Safety
/// Each pointer is null or valid, structs for as many bytes as their `struct_size` says.
pub(crate) unsafe fn several<const N: usize, const O: usize>(
    formula: &'static Formula,
    units: tenths_units,
    (input, first_input): (*const Numbers<N>, usize),
    (output, first_output): (*mut Numbers<O>, usize),
    advice: *mut u32,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let results = unsafe { known(output, "output", first_output) }?;
        // SAFETY: the caller's promise.
        unsafe { run(formula, units, input, first_input, results, advice) }
    })
}

/// Runs a formula into the results that the caller knows, and they are NaN on a failure.
///
/// All is read before anything is written, since a caller may let results overwrite arguments.
///
/// # Safety
/// `input` is null or valid for as many bytes as its `struct_size` says, `results` for as many numbers as it
/// counts, `advice` null or writable.
unsafe fn run<const N: usize>(
    formula: &'static Formula,
    units: tenths_units,
    input: *const Numbers<N>,
    first: usize,
    (results, count): (*mut f64, usize),
    advice: *mut u32,
) -> Result<(), Failure> {
    let mut all = [f64::NAN; MAX_OUTPUTS];
    // SAFETY: the caller's promise.
    let given = side(units).and_then(|units| Ok((units, unsafe { read(formula, units, input, first) }?)));
    let answer = given.and_then(|(units, arguments)| {
        attempt(formula, units, &arguments, &mut all[..formula.outputs.len()])
    });
    for (k, value) in all.into_iter().enumerate().take(count) {
        // SAFETY: `k < count`.
        unsafe { results.add(k).write(value) };
    }
    if !advice.is_null() {
        // SAFETY: the caller's promise.
        unsafe { advice.write(answer.as_ref().map_or(0, |advice| advice.0)) };
    }
    answer.map(drop)
}

/// The arguments in an input struct; those that the caller's version does not know have their default.
///
/// # Safety
/// `input` is null or valid for as many bytes as its `struct_size` says.
unsafe fn read<const N: usize>(
    formula: &Formula,
    units: Units,
    input: *const Numbers<N>,
    first: usize,
) -> Result<[f64; N], Failure> {
    // SAFETY: the caller's promise; nothing is written.
    let (values, count) = unsafe { known(input.cast_mut(), "input", first) }?;
    let mut arguments = [f64::NAN; N];
    for (k, (to, argument)) in arguments.iter_mut().zip(formula.arguments).enumerate() {
        *to = match k < count {
            // SAFETY: `k < count`.
            true => unsafe { values.add(k).read() },
            false => argument.default(units).unwrap_or(f64::NAN),
        };
    }
    Ok(arguments)
}

/// The formula of a name.
///
/// # Safety
/// `name` is null or leads to text that ends with a NUL.
pub(crate) unsafe fn named(name: *const c_char) -> Result<&'static Formula, Failure> {
    // SAFETY: the caller's promise.
    let name = unsafe { text(name, "name") }?;
    Ok(find_or_nearest(name)?)
}

/// The formula of a name, and the numbers for its arguments.
///
/// # Safety
/// `name` is null or leads to text that ends with a NUL; `arguments` is null or valid for `count` numbers.
pub(crate) unsafe fn asked<'a>(
    name: *const c_char,
    arguments: *const f64,
    count: usize,
) -> Result<(&'static Formula, &'a [f64]), Failure> {
    // SAFETY: the caller's promise.
    let formula = unsafe { named(name) }?;
    if arguments.is_null() {
        return Err(Failure::Null("arguments"));
    }
    // No formula takes more, and a wrong count must not make a slice that memory cannot hold.
    let count = count.min(MAX_INPUTS + 1);
    // SAFETY: the caller's promise.
    Ok((formula, unsafe { std::slice::from_raw_parts(arguments, count) }))
}

/// The bit of advice for result 0 of a formula; those of the others follow it.
pub const TENTHS_ADVICE_RESULTS: u32 = 20;
const _: () = assert!(TENTHS_ADVICE_RESULTS as usize == MAX_INPUTS);

/// Checks numbers for the formula called `name` without keeping its result.
///
/// `arguments` holds `count` numbers: all arguments of the formula, in order. Bit k of `advice` (which may be null) is
/// set if argument k is outside the range that the source states or outside what is usual, and bit
/// `TENTHS_ADVICE_RESULTS` + k if result k is.
///
/// # Safety
/// Each pointer is null or valid.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_check(
    name: *const c_char,
    units: tenths_units,
    arguments: *const f64,
    count: usize,
    advice: *mut u32,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let mut advice = unsafe { advice.as_mut() };
        if let Some(advice) = advice.as_deref_mut() {
            *advice = 0;
        }
        // SAFETY: the caller's promise.
        let (formula, arguments) = unsafe { asked(name, arguments, count) }?;
        let mut results = [f64::NAN; MAX_OUTPUTS];
        let concerned = attempt(formula, side(units)?, arguments, &mut results[..formula.outputs.len()])?;
        if let Some(advice) = advice {
            *advice = concerned.0;
        }
        Ok(())
    })
}

/// The advice of `tenths_formula_check` in words, one line for each argument or result concerned; empty if there is none.
///
/// The text is freed by `tenths_text_free`; it is null on an error.
///
/// # Safety
/// Each pointer is null or valid.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_remarks(
    name: *const c_char,
    units: tenths_units,
    arguments: *const f64,
    count: usize,
    remarks: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let to = unsafe { place(remarks, "remarks") }?;
        *to = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let (formula, arguments) = unsafe { asked(name, arguments, count) }?;
        let lines = formula.check(side(units)?, arguments)?;
        *to = give(lines.iter().map(|line| format!("{line}\n")).collect());
        Ok(())
    })
}
