//! Functions whose inputs vary: one of the caller's, or any formula of the library.
use crate::describe::fill;
use crate::distribution::{distribution, tenths_distribution};
use crate::formula::named;
use crate::guard::{guard, place, side, tenths_units, text};
use crate::handle::{elements, free, hand_over, handle};
use crate::object::write;
use crate::objects::{tenths_extremes, tenths_moments};
use crate::sample::{sampling, tenths_blocks, tenths_sample, tenths_sampling};
use crate::status::{Failure, tenths_status};
use std::ffi::{c_char, c_void};
use tenths::Units;
use tenths::Watch;
use tenths::stack::{Function, Input, MAX_INPUTS, Propagation, Sampling, StackError};

/// A function of the caller's: its value for a row of inputs, NaN if it has none.
///
/// It is called from the thread that calls the library, and from others only where `threads` of the sampling is more
/// than 1. It must not throw an exception or use longjmp, and must not change or free the propagation that calls it.
pub type tenths_function = Option<unsafe extern "C" fn(inputs: *const f64, context: *mut c_void) -> f64>;

/// A function, and inputs that vary: made by `tenths_propagate`, `tenths_formula_propagate` or
/// `tenths_vector_loop_propagate`, freed by `tenths_propagation_free`. Several threads may read one at once if the
/// function allows for it; while one changes or frees it, no other may use it.
pub struct tenths_propagation {
    propagation: AnyPropagation,
    /// What a sampling that names no count of threads gets.
    threads: usize,
}

impl From<AnyPropagation> for tenths_propagation {
    /// One of the library's own functions.
    fn from(propagation: AnyPropagation) -> Self {
        tenths_propagation { propagation, threads: 0 }
    }
}

/// A number that varies. Set it with `tenths_input_init`, then change what you need.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_input {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_input)`. It is the same in all structs of an
    /// array.
    pub struct_size: usize,
    /// Its name, which is copied; of a formula that of its argument.
    pub name: *const c_char,
    /// Its nominal value.
    pub nominal: f64,
    /// The upper deviation with its sign.
    pub plus: f64,
    /// The lower deviation with its sign.
    pub minus: f64,
    /// How it spreads; null for normal with Cp = 1.
    pub distribution: *const tenths_distribution,
}

/// Sets an input without name and value that does not vary yet. Set `struct_size` before the call.
///
/// # Safety
/// `input->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_input_init(input: *mut tenths_input) -> tenths_status {
    let made = tenths_input {
        struct_size: size_of::<tenths_input>(),
        name: std::ptr::null(),
        nominal: f64::NAN,
        plus: 0.0,
        minus: 0.0,
        distribution: std::ptr::null(),
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { fill(input, "tenths_input", made) })
}

/// A function of the caller's and its `count` inputs, at most 64, in the order in which the function takes them.
///
/// `context` is handed to it at each call, and may be null. Free the propagation with `tenths_propagation_free`; it is
/// null on an error.
///
/// # Safety
/// `function` does what `tenths_function` says for as long as the propagation is used; `inputs` is valid for `count`
/// structs; `propagation` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagate(
    function: tenths_function,
    context: *mut c_void,
    inputs: *const tenths_input,
    count: usize,
    propagation: *mut *mut tenths_propagation,
) -> tenths_status {
    let make = || {
        let function = function.ok_or(Failure::Null("function"))?;
        // SAFETY: the caller's promise.
        let inputs = unsafe { read(inputs, count) }?;
        let propagation = Propagation::new(Callback { function, context }, inputs)?.boxed();
        Ok(tenths_propagation { propagation, threads: 1 })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(propagation, "propagation", make) })
}

/// An output of the formula called `name` whose arguments vary: `count` inputs with the names of arguments, in any
/// order, in the units of a side. An argument without an input takes its default.
///
/// `output` may be null where the formula has one result. Free the propagation with `tenths_propagation_free`; it is
/// null on an error.
///
/// # Safety
/// The texts end with a NUL; `inputs` is valid for `count` structs; `propagation` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_propagate(
    name: *const c_char,
    units: tenths_units,
    output: *const c_char,
    inputs: *const tenths_input,
    count: usize,
    propagation: *mut *mut tenths_propagation,
) -> tenths_status {
    let make = || {
        // SAFETY: the caller's promises.
        let (formula, inputs) = unsafe { (named(name)?, read(inputs, count)?) };
        let output = match output.is_null() {
            true => None,
            // SAFETY: the caller's promise.
            false => Some(unsafe { text(output, "output") }?),
        };
        Ok(formula.propagate(side(units)?, output, inputs)?.boxed().into())
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(propagation, "propagation", make) })
}

/// How many inputs a propagation has, of a formula as many as arguments; 0 for null.
///
/// # Safety
/// `propagation` is null or came from this library.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_inputs(propagation: *const tenths_propagation) -> usize {
    // SAFETY: the caller's promise.
    unsafe { propagation.as_ref() }.map_or(0, |propagation| propagation.propagation.inputs().len())
}

/// Correlates two normal inputs, by their numbers from 0 and their coefficient of correlation, from -1 to 1.
///
/// Coefficients that contradict one another are found in use.
///
/// # Safety
/// `propagation` came from this library.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_correlate(
    propagation: *mut tenths_propagation,
    one: usize,
    other: usize,
    coefficient: f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let propagation = unsafe { place(propagation, "propagation") }?;
        propagation.propagation.correlate(one, other, coefficient)?;
        Ok(())
    })
}

/// The value at the nominal inputs; NaN on an error.
///
/// # Safety
/// `propagation` came from this library; `value` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_nominal(
    propagation: *const tenths_propagation,
    value: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let value = unsafe { place(value, "value") }?;
        *value = f64::NAN;
        // SAFETY: the caller's promise.
        *value = unsafe { handle(propagation, "propagation") }?.propagation.nominal()?;
        Ok(())
    })
}

/// Least and greatest value for any inputs within their limits, and the inputs with two limits that give them.
///
/// If `monotonic` is 1 for all of them, the extremes lie at corners of the box; otherwise they were searched for, and a
/// peak much narrower than an eighth of the box may be missed.
///
/// # Safety
/// `propagation` came from this library; `extremes->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_extremes(
    propagation: *const tenths_propagation,
    extremes: *mut tenths_extremes,
) -> tenths_status {
    // SAFETY: the caller's promise.
    let made = || Ok(unsafe { handle(propagation, "propagation") }?.propagation.extremes()?);
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(extremes, "tenths_extremes", Units::Metric, made) })
}

/// Mean and standard deviation by first and second derivatives, with what each input that spreads contributes.
///
/// # Safety
/// `propagation` came from this library; `moments->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_moments(
    propagation: *const tenths_propagation,
    moments: *mut tenths_moments,
) -> tenths_status {
    // SAFETY: the caller's promise.
    let made = || Ok(unsafe { handle(propagation, "propagation") }?.propagation.moments()?);
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(moments, "tenths_moments", Units::Metric, made) })
}

/// Samples a function whose inputs vary. Samples where it is undefined are counted, and it is an error if all are.
///
/// A function of the caller's is called from this thread alone where `threads` of the sampling is 0 or 1. Free the
/// sample with `tenths_sample_free`; it is null on an error.
///
/// # Safety
/// `propagation` came from this library; `sampling->struct_size` is set to the size of the struct; `sample` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_sample(
    propagation: *const tenths_propagation,
    sampling: *const tenths_sampling,
    sample: *mut *mut tenths_sample,
) -> tenths_status {
    let draw = || {
        // SAFETY: the caller's promises.
        let (propagation, sampling, watch) = unsafe { asked(propagation, sampling) }?;
        Ok(propagation.sample_watched(&sampling, &watch)?.into())
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(sample, "sample", draw) })
}

/// Samples `count` of the blocks from number `first`, for `tenths_sample_fold`, otherwise as
/// `tenths_propagation_sample`. Free them with `tenths_blocks_free`; null on an error.
///
/// # Safety
/// As `tenths_propagation_sample`; `blocks` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_sample_blocks(
    propagation: *const tenths_propagation,
    sampling: *const tenths_sampling,
    first: u64,
    count: u64,
    blocks: *mut *mut tenths_blocks,
) -> tenths_status {
    let draw = || {
        // SAFETY: the caller's promises.
        let (propagation, sampling, watch) = unsafe { asked(propagation, sampling) }?;
        Ok(propagation.sample_blocks_watched(&sampling, first, count, &watch)?.into())
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(blocks, "blocks", draw) })
}

/// Frees a propagation. Does nothing if null.
///
/// # Safety
/// `propagation` is null or came from this library and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_propagation_free(propagation: *mut tenths_propagation) {
    // SAFETY: the caller's promise.
    unsafe { free(propagation) };
}

impl tenths_propagation {
    /// The function and its inputs.
    pub(crate) fn model(&self) -> &AnyPropagation {
        &self.propagation
    }
}

pub(crate) type AnyPropagation = Propagation<Box<dyn Function + Send>>;

/// A function of the caller's.
struct Callback {
    function: unsafe extern "C" fn(*const f64, *mut c_void) -> f64,
    context: *mut c_void,
}

// SAFETY: it is called from other threads only where the caller asked for them, who vouches for the context.
unsafe impl Send for Callback {}
// SAFETY: as above.
unsafe impl Sync for Callback {}

impl Function for Callback {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        let mut row = [f64::NAN; MAX_INPUTS];
        for (k, value) in values.iter_mut().enumerate() {
            for (number, column) in row.iter_mut().zip(inputs) {
                *number = column[k];
            }
            // SAFETY: the promise of `tenths_propagate`.
            *value = unsafe { (self.function)(row.as_ptr(), self.context) };
        }
        Ok(())
    }
}

/// The inputs in an array of structs, each as long as the first says.
///
/// # Safety
/// `pointer` is null or valid for `count` structs.
pub(crate) unsafe fn read(pointer: *const tenths_input, count: usize) -> Result<Vec<Input>, Failure> {
    if count > MAX_INPUTS {
        return Err(StackError::HowMany {
            what: "inputs",
            need: format!("there are at most {MAX_INPUTS}"),
            got: count,
        }
        .into());
    }
    // SAFETY: the caller's promise.
    let structs = unsafe { elements(pointer, count, "tenths_input") }?;
    let input = |given: tenths_input| {
        // SAFETY: the caller's promise.
        let (name, distribution) = unsafe { (text(given.name, "name")?, distribution(given.distribution)?) };
        Ok(Input::new(name, given.nominal, given.plus, given.minus).distribution(distribution))
    };
    structs.into_iter().map(input).collect()
}

/// What is to be sampled, and how.
///
/// # Safety
/// As [`tenths_propagation_sample`].
pub(crate) unsafe fn asked<'a>(
    propagation: *const tenths_propagation,
    sampling: *const tenths_sampling,
) -> Result<(&'a AnyPropagation, Sampling, Watch<'static>), Failure> {
    // SAFETY: the caller's promises.
    let (propagation, (sampling, watch)) =
        unsafe { (handle(propagation, "propagation")?, self::sampling(sampling)?) };
    let threads = if sampling.threads == 0 { propagation.threads } else { sampling.threads };
    Ok((&propagation.propagation, Sampling { threads, ..sampling }, watch))
}
