//! The cheapest tolerances of a chain.
use crate::guard::guard;
use crate::handle::{array, counted, elements, hand_over, handle};
use crate::stack::{TENTHS_DEFECTS, TENTHS_RSS, TENTHS_WORST_CASE, tenths_stack};
use crate::status::{Failure, tenths_status};
use tenths::Size;
use tenths::stack::{AllocatedTolerance, Allocation, CostCurve, FreeTolerance, Stack, StackError, Target};
use tenths_macros::export;

/// A cost of `fixed + scale / half_band ^ exponent`: the reciprocal power model.
pub const TENTHS_RECIPROCAL: i32 = 0;
/// A cost of `fixed + scale * exp(-exponent * half_band)`.
pub const TENTHS_EXPONENTIAL: i32 = 1;
/// Half bands and their costs, straight between them.
pub const TENTHS_POINTS: i32 = 2;

/// A contributor whose tolerance is to be chosen, its half bands in the unit of the stack. A half band is the ± of the
/// drawing. Set it with `tenths_choice_init`, then change what you need.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_choice {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_choice)`. It is the same in all structs of an
    /// array.
    pub struct_size: usize,
    /// The number of the contributor.
    pub number: usize,
    /// Cost that does not depend on the tolerance; not read of `TENTHS_POINTS`, nor are the next two.
    pub fixed: f64,
    /// Cost less the fixed one: of `TENTHS_RECIPROCAL` at a half band of 1, of `TENTHS_EXPONENTIAL` at none.
    pub scale: f64,
    /// The power of `TENTHS_RECIPROCAL`, mostly from 0.5 to 2; the rate of `TENTHS_EXPONENTIAL`.
    pub exponent: f64,
    /// The least half band that its process holds.
    pub least: f64,
    /// The greatest half band that its function allows; it may be infinite, where the stack alone bounds it.
    pub greatest: f64,
    /// Half bands of `TENTHS_POINTS` alone, each wider than the one before. The ends bound the choice.
    pub half_bands: *const f64,
    /// Their costs, which fall, and ever more slowly.
    pub costs: *const f64,
    /// How many points there are, 2 at least.
    pub points: usize,
    /// The curve: `TENTHS_RECIPROCAL`, `TENTHS_EXPONENTIAL` or `TENTHS_POINTS`.
    pub curve: i32,
}

/// The cheapest tolerances of a chain: made by `tenths_stack_allocate`, freed by `tenths_allocation_free`. Several
/// threads may read one at once.
#[export(allocation)]
pub struct tenths_allocation {
    allocation: Allocation,
}

/// Sets a choice of the reciprocal curve without a fixed cost for contributor 0, bounded by the stack alone; its scale
/// and its least half band have to be given.
///
/// Set `struct_size` before the call.
#[export(choice)]
pub(crate) fn choice_init() -> tenths_choice {
    tenths_choice {
        struct_size: size_of::<tenths_choice>(),
        number: 0,
        fixed: 0.0,
        scale: f64::NAN,
        exponent: 1.0,
        least: f64::NAN,
        greatest: f64::INFINITY,
        half_bands: std::ptr::null(),
        costs: std::ptr::null(),
        points: 0,
        curve: TENTHS_RECIPROCAL,
    }
}

/// The cheapest tolerances with which the closing dimension keeps within `half_band` of its middle, in the unit of the
/// stack.
///
/// `choices` has `count` contributors whose tolerances are to be chosen; the others keep theirs, and all keep the
/// middles of their limits. `closure` is `TENTHS_WORST_CASE`, `TENTHS_RSS`, or `TENTHS_DEFECTS` for all but a share
/// `rate` of the pieces, both sides together, where the closing dimension is normal and centred. `rate` lies from 0 to
/// 1, and is not used by the other two. Free the allocation with `tenths_allocation_free`; it is null on an error.
///
/// `TENTHS_BAD_FUNCTION` means a curve that is not valid or a target that cannot be kept; the message has the least
/// that can.
///
/// # Safety
/// `stack` is a chain; `choices` is valid for `count` structs and what they lead to; `allocation` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_allocate(
    stack: *const tenths_stack,
    choices: *const tenths_choice,
    count: usize,
    closure: i32,
    half_band: f64,
    rate: f64,
    allocation: *mut *mut tenths_allocation,
) -> tenths_status {
    let make = || {
        // SAFETY: the caller's promise.
        let stack = &unsafe { handle(stack, "stack") }?.stack;
        // SAFETY: the caller's promise.
        let choices = unsafe { read(choices, count, stack) }?;
        let target = target(closure, half_band, rate)?;
        Ok(tenths_allocation { allocation: stack.allocate(&choices, target)? })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(allocation, "allocation", make) })
}

/// What was chosen for a contributor, by its number from 0: `tenths_allocation_tolerance(allocation, 0, &tolerance)`.
#[export(tolerance)]
pub(crate) fn allocation_tolerance(
    allocation: &tenths_allocation,
    number: usize,
) -> Result<AllocatedTolerance, StackError> {
    Ok(allocation.allocation.tolerance(number)?.clone())
}

/// The cost of all pieces whose tolerances were chosen, and the saving: what a little more half band of the closing
/// dimension would save, for its unit. Each of `cost` and `saving` may be null. NaN on an error.
#[export(cost?, saving?)]
pub(crate) fn allocation_cost(allocation: &tenths_allocation) -> Result<[f64; 2], Failure> {
    Ok([allocation.allocation.cost, allocation.allocation.saving])
}

/// A copy of the chain with the tolerances that were chosen, about the middles that it has, their half bands rounded
/// down to whole steps such as `0.001 mm`. Free it with `tenths_stack_free`; it is null on an error.
#[export(applied)]
pub(crate) fn allocation_apply(
    allocation: &tenths_allocation,
    stack: &tenths_stack,
    step: Size,
) -> Result<tenths_stack, StackError> {
    Ok(tenths_stack { stack: allocation.allocation.apply(&stack.stack, step)? })
}

/// The factor by which all tolerances but `count` fixed ones can be widened, or must be narrowed, for the closing
/// dimension to keep within `half_band` of its middle: proportional scaling.
///
/// `fixed` has the numbers of contributors, and may be null for none. `closure` is `TENTHS_WORST_CASE` or `TENTHS_RSS`.
/// NaN on an error.
#[export(factor)]
pub(crate) fn stack_proportional_factor(
    stack: &tenths_stack,
    fixed: Option<&[usize]>,
    count: usize,
    closure: i32,
    half_band: f64,
) -> Result<f64, Failure> {
    let stack = &stack.stack;
    at_most(count, stack)?;
    if fixed.is_none() && count > 0 {
        return Err(Failure::Null("fixed"));
    }
    let mut marks = vec![false; stack.contributors().len()];
    for number in fixed.unwrap_or_default() {
        marks[stack.place(*number)?] = true;
    }
    let target = match closure {
        TENTHS_WORST_CASE => Target::WorstCase(half_band),
        TENTHS_RSS => Target::Rss(half_band),
        other => return Err(Failure::Choice { what: "closure", last: TENTHS_RSS, got: other }),
    };
    Ok(stack.proportional_factor(&marks, target)?)
}

fn target(closure: i32, half_band: f64, rate: f64) -> Result<Target, Failure> {
    match closure {
        _ if !(0.0..=1.0).contains(&rate) => Err(Failure::Rate(rate)),
        TENTHS_WORST_CASE => Ok(Target::WorstCase(half_band)),
        TENTHS_RSS => Ok(Target::Rss(half_band)),
        TENTHS_DEFECTS => Ok(Target::Defects { half_band, rate }),
        other => Err(Failure::Choice { what: "closure", last: TENTHS_DEFECTS, got: other }),
    }
}

/// Whether there are no more numbers than contributors.
fn at_most(count: usize, stack: &Stack) -> Result<(), Failure> {
    let contributors = stack.contributors().len();
    if count > contributors { counted("contributors", contributors, count) } else { Ok(()) }
}

/// A place for each contributor, with the choices that there are.
///
/// # Safety
/// `pointer` is null or valid for `count` structs and what they lead to.
unsafe fn read(
    pointer: *const tenths_choice,
    count: usize,
    stack: &Stack,
) -> Result<Vec<Option<FreeTolerance>>, Failure> {
    at_most(count, stack)?;
    let mut choices = vec![None; stack.contributors().len()];
    // SAFETY: the caller's promise.
    for given in unsafe { elements(pointer, count, "tenths_choice") }? {
        let place = stack.place(given.number)?;
        // SAFETY: the caller's promise.
        let cost = unsafe { curve(&given) }?;
        if choices[place].is_some() {
            let name = stack.contributors()[place].name.clone();
            return Err(StackError::AmbiguousName { name, count: 2 }.into());
        }
        choices[place] = Some(FreeTolerance { cost, least: given.least, greatest: given.greatest });
    }
    Ok(choices)
}

/// # Safety
/// The arrays of points are null or valid for their count.
unsafe fn curve(given: &tenths_choice) -> Result<CostCurve, Failure> {
    let (fixed, scale) = (given.fixed, given.scale);
    match given.curve {
        TENTHS_RECIPROCAL => Ok(CostCurve::Reciprocal { fixed, scale, power: given.exponent }),
        TENTHS_EXPONENTIAL => Ok(CostCurve::Exponential { fixed, scale, rate: given.exponent }),
        TENTHS_POINTS => {
            // SAFETY: the caller's promises.
            let (half_bands, costs) = unsafe {
                (
                    array(given.half_bands, given.points, "half_bands")?,
                    array(given.costs, given.points, "costs")?,
                )
            };
            Ok(CostCurve::Points(half_bands.iter().copied().zip(costs.iter().copied()).collect()))
        }
        other => Err(Failure::Choice { what: "curve", last: TENTHS_POINTS, got: other }),
    }
}
