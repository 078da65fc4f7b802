//! Descriptions of the formulas: enough for a table of contents or an input form.
//!
//! The texts are constants, which `texts.rs` makes of the records; the numbers are read from them.
use crate::formula::named;
use crate::guard::{guard, place, side, tenths_units};
use crate::status::{Failure, tenths_status};
use crate::texts;
use std::ffi::c_char;
use std::mem::offset_of;
use tenths::Formula;

/// What a formula is. Texts are constants, not to be freed. Set `struct_size` before the call.
#[repr(C)]
pub struct tenths_formula_info {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_formula_info)`.
    pub struct_size: usize,
    /// Its name.
    pub name: *const c_char,
    /// The heading that it stands under: `cutting: speed`.
    pub topic: *const c_char,
    /// What it means, in a sentence.
    pub summary: *const c_char,
    /// What it means at length; the summary is its first line.
    pub doc: *const c_char,
    /// Where it comes from: standard, edition and clause, or book and page.
    pub source: *const c_char,
    /// How many arguments it takes.
    pub arguments: usize,
    /// How many results it gives.
    pub outputs: usize,
    /// How many rules there are between its arguments.
    pub rules: usize,
    /// A caution if the result concerns safety; empty otherwise.
    pub caution: *const c_char,
}

/// What an argument of a formula is on one side. Texts are constants, not to be freed. Set `struct_size` before
/// the call.
#[repr(C)]
pub struct tenths_argument_info {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_argument_info)`.
    pub struct_size: usize,
    /// Its name.
    pub name: *const c_char,
    /// What it means.
    pub doc: *const c_char,
    /// Its quantity, such as `Length`.
    pub quantity: *const c_char,
    /// The unit of its numbers; empty for a plain number.
    pub unit: *const c_char,
    /// What it must be, in words with the unit: `greater than 0 in`.
    pub must_be: *const c_char,
    /// The value of an argument that is left out; NaN where `has_default` is 0.
    pub default_value: f64,
    /// The lower end of its domain, outside which there is no answer; minus infinity if any finite number is accepted.
    pub low: f64,
    /// The upper end; infinity if any finite number is accepted.
    pub high: f64,
    /// The lower end of the range that the source states, outside which an answer comes with advice; minus infinity
    /// where it states none.
    pub range_low: f64,
    /// The upper end; infinity where the source states none.
    pub range_high: f64,
    /// 1 where it has a default, else 0.
    pub has_default: i32,
    /// 1 where `low` itself belongs to the domain, else 0.
    pub low_included: i32,
    /// 1 where `high` itself belongs to the domain, else 0.
    pub high_included: i32,
    /// 1 where it must be a whole number, else 0.
    pub whole: i32,
    /// 1 where it is read as the shortest decimal that gives the number, and computed exactly, else 0.
    pub exact: i32,
    /// 1 where the formula can be solved for it, from one of its results at least, else 0.
    pub solvable: i32,
    /// The lower end of what is usual, outside which the number is most likely in another unit and an answer comes with
    /// advice; minus infinity where none is known.
    pub usual_low: f64,
    /// The upper end; infinity where none is known.
    pub usual_high: f64,
}

/// What a result of a formula is on one side. Texts are constants, not to be freed. Set `struct_size` before the
/// call.
#[repr(C)]
pub struct tenths_output_info {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_output_info)`.
    pub struct_size: usize,
    /// Its name, which for a single one is that of the formula.
    pub name: *const c_char,
    /// What it means.
    pub doc: *const c_char,
    /// Its quantity, such as `SurfaceSpeed`.
    pub quantity: *const c_char,
    /// The unit of its numbers; empty for a plain number.
    pub unit: *const c_char,
    /// The lower end of the range that the source states, outside which it comes with advice; minus infinity where it
    /// states none.
    pub range_low: f64,
    /// The upper end; infinity where the source states none.
    pub range_high: f64,
}

/// Number of formulas.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_formula_count() -> usize {
    tenths::formulas().count()
}

/// Name of a formula: a constant text, not to be freed; null past the last. Those of one topic stand together.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_formula_name(index: usize) -> *const c_char {
    tenths::formulas().nth(index).map_or(std::ptr::null(), |formula| texts::of_formula(formula).name.as_ptr())
}

/// Describes the formula called `name`.
///
/// # Safety
/// `name` ends with a NUL; `info` is valid for as many bytes as its `struct_size` says.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_describe(
    name: *const c_char,
    info: *mut tenths_formula_info,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let formula = unsafe { named(name) }?;
        let texts = texts::of_formula(formula);
        let made = tenths_formula_info {
            struct_size: size_of::<tenths_formula_info>(),
            name: texts.name.as_ptr(),
            topic: texts.topic.as_ptr(),
            summary: texts.summary.as_ptr(),
            doc: texts.doc.as_ptr(),
            source: texts.source.as_ptr(),
            arguments: formula.arguments.len(),
            outputs: formula.outputs.len(),
            rules: formula.rules.len(),
            caution: texts.caution.as_ptr(),
        };
        // SAFETY: the caller's promise.
        unsafe { fill_grown(info, "tenths_formula_info", offset_of!(tenths_formula_info, caution), made) }
    })
}

/// Describes argument number `index`, from 0 up, of the formula called `name` on one side.
///
/// # Safety
/// As `tenths_formula_describe`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_argument(
    name: *const c_char,
    index: usize,
    units: tenths_units,
    info: *mut tenths_argument_info,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let formula = unsafe { named(name) }?;
        let argument = at(formula, "arguments", formula.arguments, index)?;
        let texts = texts::of_argument(formula, index);
        let units = side(units)?;
        let (unit, side) = (argument.unit(units), argument.side(units));
        let end = |end: Option<(f64, bool)>, none: f64| {
            end.map_or((none, 0), |(base, closed)| (unit.from_base(base), i32::from(closed)))
        };
        let (low, low_included) = end(side.domain.low(), f64::NEG_INFINITY);
        let (high, high_included) = end(side.domain.high(), f64::INFINITY);
        let default = argument.default(units);
        let made = tenths_argument_info {
            struct_size: size_of::<tenths_argument_info>(),
            name: texts.name.as_ptr(),
            doc: texts.doc.as_ptr(),
            quantity: texts.quantity.as_ptr(),
            unit: texts.units[units as usize].as_ptr(),
            must_be: texts::of_need(argument, units).as_ptr(),
            default_value: default.unwrap_or(f64::NAN),
            low,
            high,
            range_low: unit.from_base(side.range.0),
            range_high: unit.from_base(side.range.1),
            has_default: i32::from(default.is_some()),
            low_included,
            high_included,
            whole: i32::from(side.domain.is_whole()),
            exact: i32::from(argument.exact),
            solvable: i32::from(formula.is_solvable(index)),
            usual_low: unit.from_base(side.usual.0),
            usual_high: unit.from_base(side.usual.1),
        };
        // SAFETY: the caller's promise.
        unsafe { fill_grown(info, "tenths_argument_info", offset_of!(tenths_argument_info, usual_low), made) }
    })
}

/// Describes result number `index`, from 0 up, of the formula called `name` on one side.
///
/// # Safety
/// As `tenths_formula_describe`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_output(
    name: *const c_char,
    index: usize,
    units: tenths_units,
    info: *mut tenths_output_info,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let formula = unsafe { named(name) }?;
        let output = at(formula, "results", formula.outputs, index)?;
        let (texts, units) = (texts::of_output(formula, index), side(units)?);
        let (unit, range) = (output.kind.unit(units), output.range(units));
        let made = tenths_output_info {
            struct_size: size_of::<tenths_output_info>(),
            name: texts.name.as_ptr(),
            doc: texts.doc.as_ptr(),
            quantity: texts.quantity.as_ptr(),
            unit: texts.units[units as usize].as_ptr(),
            range_low: unit.from_base(range.0),
            range_high: unit.from_base(range.1),
        };
        // SAFETY: the caller's promise.
        unsafe { fill_grown(info, "tenths_output_info", offset_of!(tenths_output_info, range_low), made) }
    })
}

/// Rule number `index`, from 0 up, between the arguments of the formula called `name`: a constant text, not
/// to be freed.
///
/// # Safety
/// `name` ends with a NUL; `rule` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_rule(
    name: *const c_char,
    index: usize,
    rule: *mut *const c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let rule = unsafe { place(rule, "rule") }?;
        *rule = std::ptr::null();
        // SAFETY: the caller's promise.
        let formula = unsafe { named(name) }?;
        at(formula, "rules", formula.rules, index)?;
        *rule = texts::of_rule(formula, index).as_ptr();
        Ok(())
    })
}

fn at<T>(
    formula: &Formula,
    what: &'static str,
    list: &'static [T],
    index: usize,
) -> Result<&'static T, Failure> {
    let missing = Failure::Index { formula: formula.name, what, count: list.len(), index };
    list.get(index).ok_or(missing)
}

/// Writes a struct whose size comes first, and leaves what the caller has beyond it.
///
/// # Safety
/// `info` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn fill<T>(info: *mut T, what: &'static str, made: T) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    unsafe { fill_grown(info, what, size_of::<T>(), made) }
}

/// [`fill`] for a struct that has got more fields: in its first version it had `least` bytes, and a caller of that
/// version gets no more.
///
/// # Safety
/// As for [`fill`].
pub(crate) unsafe fn fill_grown<T>(
    info: *mut T,
    what: &'static str,
    least: usize,
    made: T,
) -> Result<(), Failure> {
    if info.is_null() {
        return Err(Failure::Null(what));
    }
    // SAFETY: the size stands first in every version of the struct.
    let got = unsafe { info.cast::<usize>().read() };
    if got < least {
        return Err(Failure::StructSize { what, least, got });
    }
    // SAFETY: the caller has room for so many bytes, and ours are read as they are, padding included.
    unsafe {
        std::ptr::from_ref(&made).cast::<u8>().copy_to_nonoverlapping(info.cast(), got.min(size_of::<T>()));
        info.cast::<usize>().write(got);
    }
    Ok(())
}
