//! Linear chains of dimensions. Sizes come in as numbers or drawing notation; the worst case goes out in picometres.
use crate::distribution::{distribution, tenths_distribution};
use crate::guard::{guard, place, text};
use crate::handle::{array, copy, counted, handle, results};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::stack::{
    Band, Closure, Contributor, ContributorKey, Distribution, MeanShift, SpreadWithin, Stack, StackError,
    Statistics,
};
use tenths::{Limits, Size, Units};
use tenths_macros::export;

/// A chain of dimensions, which its closing dimension is the sum of: made by `tenths_stack_new`, freed by
/// `tenths_stack_free`. Several threads may read one at once; while one changes or frees it, no other may use it.
#[export(stack)]
pub struct tenths_stack {
    pub(crate) stack: Stack,
}

/// A dimension in a chain, its numbers in the unit of the stack. Set by `tenths_contributor_init`, then change what is
/// to be different.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_contributor {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_contributor)`.
    pub struct_size: usize,
    /// Its name, which is copied and which others may share.
    pub name: *const c_char,
    /// Its nominal size. This and the deviations are read as the shortest decimals that give the numbers, exactly.
    pub nominal: f64,
    /// The upper deviation with its sign: 0.021 of 25 +0.021/0.
    pub plus: f64,
    /// The lower deviation with its sign: -0.011 of 12 +0/-0.011.
    pub minus: f64,
    /// How much the closing dimension grows by one unit of it: 1, -1, 0.5 for a radius of a diameter.
    pub sensitivity: f64,
    /// How it spreads; null for normal with Cp = 1.
    pub distribution: *const tenths_distribution,
    /// How many pieces like it, each of its own size, stand in the chain.
    pub count: u32,
}

/// Every process is centred, with the standard deviation of its short term.
pub const TENTHS_CENTRED: i32 = 0;
/// Processes wander from batch to batch, which widens the spread: the half band over 3 Cpk.
pub const TENTHS_DYNAMIC: i32 = 1;
/// Processes stay off their middles, all to the same side: the mean moves by the sum of the shifts.
pub const TENTHS_STATIC: i32 = 2;

/// Every combination of parts within their limits has to keep within those of the closing dimension.
pub const TENTHS_WORST_CASE: i32 = 0;
/// The root of the sum of the squared tolerances has to keep within those limits.
pub const TENTHS_RSS: i32 = 1;
/// All but a share of the pieces have to keep within them, by the distributions of the contributors.
pub const TENTHS_DEFECTS: i32 = 2;

/// Makes a chain without contributors, whose numbers are in inches or millimetres.
#[export(stack)]
pub(crate) fn stack_new(units: Units) -> tenths_stack {
    tenths_stack { stack: Stack::new(units) }
}

/// Sets a contributor that occurs once, adds its whole size, and has neither name nor size yet.
///
/// Set `struct_size` before the call.
#[export(contributor)]
pub(crate) fn contributor_init() -> tenths_contributor {
    tenths_contributor {
        struct_size: size_of::<tenths_contributor>(),
        name: std::ptr::null(),
        nominal: f64::NAN,
        plus: 0.0,
        minus: 0.0,
        sensitivity: 1.0,
        distribution: std::ptr::null(),
        count: 1,
    }
}

/// Adds a contributor. They are numbered from 0 in the order in which they were added.
#[export]
pub(crate) fn stack_add(stack: &mut tenths_stack, contributor: tenths_contributor) -> Result<(), Failure> {
    let given = contributor;
    // SAFETY: the caller's promises.
    let (name, distribution) = unsafe { (text(given.name, "name")?, distribution(given.distribution)?) };
    let units = stack.stack.units();
    let size = |number| Size::from_float(number, units);
    let limits = || Limits::with_deviations(size(given.nominal)?, size(given.plus)?, size(given.minus)?);
    let limits = limits().map_err(|error| StackError::Limits { name: name.into(), error })?;
    let made = Contributor::new(name, limits).sensitivity(given.sensitivity).count(given.count);
    stack.stack.add(made.distribution(distribution))?;
    Ok(())
}

/// Adds a contributor in drawing notation: `tenths_stack_add_text(stack, "housing", "1.420 ±.005 in", 1.0, NULL)`.
///
/// A class of ISO 286 such as `25 H7` is accepted. The `name` is any text, which is copied and which others may have
/// too. `distribution` may be null for normal with Cp = 1.
#[export]
pub(crate) fn stack_add_text(
    stack: &mut tenths_stack,
    name: &str,
    limits: &str,
    sensitivity: f64,
    distribution: Distribution,
) -> Result<(), StackError> {
    let limits = Limits::parse(limits).map_err(|error| StackError::Limits { name: name.into(), error })?;
    stack.stack.add(Contributor::new(name, limits).sensitivity(sensitivity).distribution(distribution))?;
    Ok(())
}

/// How many contributors there are; 0 for null.
///
/// # Safety
/// `stack` is null or a chain.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_count(stack: *const tenths_stack) -> usize {
    // SAFETY: the caller's promise.
    unsafe { stack.as_ref() }.map_or(0, |stack| stack.stack.contributors().len())
}

/// The number of the one contributor of a name: `tenths_stack_find(stack, "housing", &number)`.
///
/// The status is `TENTHS_UNKNOWN_NAME` if none has the name, `TENTHS_AMBIGUOUS_NAME` if several have.
#[export(number)]
pub(crate) fn stack_find(stack: &tenths_stack, name: &str) -> Result<usize, StackError> {
    stack.stack.place(name)
}

/// Correlates two normal contributors that occur once each, by their coefficient of correlation, from -1 to 1.
///
/// Coefficients that contradict one another are found when the stack is evaluated.
#[export]
pub(crate) fn stack_correlate(
    stack: &mut tenths_stack,
    one: usize,
    other: usize,
    coefficient: f64,
) -> Result<(), StackError> {
    stack.stack.correlate(one, other, coefficient)?;
    Ok(())
}

/// Sets the standard deviations and correlations of `count` contributors by their covariance matrix of `count` rows,
/// in squares of the unit of the stack. They become normal, with the means that they had.
///
/// `numbers` holds the numbers of the contributors. On an error nothing changes.
///
/// # Safety
/// `stack` is a chain; `numbers` is valid for `count` numbers, `matrix` for their square.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_covariance(
    stack: *mut tenths_stack,
    numbers: *const usize,
    count: usize,
    matrix: *const f64,
) -> tenths_status {
    guard(|| {
        let square = count.checked_mul(count).ok_or(Failure::Length(count))?;
        // SAFETY: the caller's promise.
        let stack = unsafe { place(stack, "stack") }?;
        // More than there are would make a slice that memory cannot hold.
        if count > stack.stack.contributors().len() {
            counted("contributors", stack.stack.contributors().len(), count)?;
        }
        // SAFETY: the caller's promise.
        let (numbers, matrix) =
            unsafe { (array(numbers, count, "numbers")?, array(matrix, square, "matrix")?) };
        let places: Vec<ContributorKey> =
            numbers.iter().map(|number| ContributorKey::Number(*number)).collect();
        stack.stack.covariance(&places, matrix)?;
        Ok(())
    })
}

/// The limits of the closing dimension for any parts within theirs, in picometres: exact, and rounded outward where a
/// sensitivity leaves part of one.
#[export(limits)]
pub(crate) fn stack_worst_case(stack: &tenths_stack) -> Result<Limits, StackError> {
    stack.stack.worst_case()
}

/// The root of the sum of the squared tolerances, about the sum of the middles of all limits. Distributions do not
/// matter.
#[export(band)]
pub(crate) fn stack_rss(stack: &tenths_stack) -> Result<Band, StackError> {
    stack.stack.rss()
}

/// `tenths_stack_rss` times a factor for processes that spread more than in theory; 1.5 is Bender's.
#[export(band)]
pub(crate) fn stack_inflated_rss(stack: &tenths_stack, factor: f64) -> Result<Band, StackError> {
    stack.stack.inflated_rss(factor)
}

/// The mean of worst case and root of the sum of squares, after Spotts.
#[export(band)]
pub(crate) fn stack_spotts(stack: &tenths_stack) -> Result<Band, StackError> {
    stack.stack.spotts()
}

/// Shares of the tolerances that the means may be off by add up, and the rest is the root of the sum of squares, after
/// Greenwood and Chase. `shares` has `count` numbers from 0 to 1, one for each contributor.
#[export(band)]
pub(crate) fn stack_estimated_mean_shift(stack: &tenths_stack, shares: &[f64]) -> Result<Band, Failure> {
    counted("contributors", stack.stack.contributors().len(), shares.len())?;
    Ok(stack.stack.estimated_mean_shift(shares)?)
}

/// Exact mean, standard deviation, skewness and kurtosis of the closing dimension by the distributions of the
/// contributors and their correlations.
#[export(statistics)]
pub(crate) fn stack_statistics(stack: &tenths_stack) -> Result<Statistics, StackError> {
    stack.stack.statistics()
}

/// Mean and standard deviation of the closing dimension, with processes off their middles as `shift` says, and how
/// they stand to a lower and an upper limit.
///
/// `shift` is `TENTHS_CENTRED`, `TENTHS_DYNAMIC` or `TENTHS_STATIC`, after Harry and Stewart. Each of `lower` and
/// `upper` may be infinite, where there is no such limit.
#[export(spread)]
pub(crate) fn stack_spread(
    stack: &tenths_stack,
    shift: i32,
    lower: f64,
    upper: f64,
) -> Result<SpreadWithin, Failure> {
    let shift = match shift {
        TENTHS_CENTRED => MeanShift::Centred,
        TENTHS_DYNAMIC => MeanShift::Dynamic,
        TENTHS_STATIC => MeanShift::Static,
        other => return Err(Failure::Choice { what: "shift", last: TENTHS_STATIC, got: other }),
    };
    Ok(stack.stack.spread(shift)?.within(lower, upper)?)
}

/// The share of each contributor, in percent: of the sum of the squared tolerances, of the variance by the
/// distributions (negative where correlations make it so), and of the worst case.
///
/// Each array holds `count` numbers, one for each contributor; any of `rss`, `variance` and `worst_case` may be null.
/// NaN on an error.
///
/// # Safety
/// `stack` is a chain; the arrays are null or writable for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_contributions(
    stack: *const tenths_stack,
    rss: *mut f64,
    variance: *mut f64,
    worst_case: *mut f64,
    count: usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let arrays = unsafe { [rss, variance, worst_case].map(|array| results(array, count)) };
        // SAFETY: the caller's promise.
        let stack = &unsafe { handle(stack, "stack") }?.stack;
        let [rss, variance, worst_case] = arrays;
        let (rss, variance, worst_case) = (rss?, variance?, worst_case?);
        counted("contributors", stack.contributors().len(), count)?;
        let made = stack.contributions()?;
        copy(made.iter().map(|one| one.rss), rss);
        copy(made.iter().map(|one| one.variance), variance);
        copy(made.iter().map(|one| one.worst_case), worst_case);
        Ok(())
    })
}

/// The greatest tolerance, in picometres, that contributor `number` could have about its middle, with which the closing
/// dimension still keeps within `limits`, such as `0.05..0.35 mm`.
///
/// Its limits go in or out by as much at either end, so that it is even or odd as the tolerance that it has; it is
/// never more than what closes. `closure` is `TENTHS_WORST_CASE` or `TENTHS_RSS`. `tolerance` becomes -1 where the
/// closing dimension does not keep within them even without this tolerance, where the contributor has no sensitivity,
/// and on an error.
///
/// # Safety
/// `stack` is a chain; `limits` ends with a NUL; `tolerance` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_greatest_tolerance(
    stack: *const tenths_stack,
    number: usize,
    limits: *const c_char,
    closure: i32,
    tolerance: *mut i64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (tolerance, stack, limits) =
            unsafe { (place(tolerance, "tolerance")?, handle(stack, "stack"), text(limits, "limits")) };
        *tolerance = -1;
        let closure = match closure {
            TENTHS_WORST_CASE => Closure::WorstCase,
            TENTHS_RSS => Closure::Rss,
            other => return Err(Failure::Choice { what: "closure", last: TENTHS_RSS, got: other }),
        };
        let greatest = stack?.stack.greatest_tolerance(number, &Limits::parse(limits?)?, closure)?;
        *tolerance = greatest.map_or(-1, Size::picometres);
        Ok(())
    })
}
