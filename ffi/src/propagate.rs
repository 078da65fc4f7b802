//! Functions whose inputs vary: one of the caller's, or any formula of the library.
use crate::distribution::{distribution, tenths_distribution};
use crate::guard::text;
use crate::handle::elements;
use crate::sample::{Drawn, tenths_blocks, tenths_sample};
use crate::status::Failure;
use std::ffi::{c_char, c_void};
use tenths::stack::{Extremes, Function, Input, MAX_INPUTS, Moments, Propagation, Sampling, StackError};
use tenths::{Formula, Units};
use tenths_macros::export;

/// What varies, as a parameter of a function under `#[export]`; its export takes the count beside it.
pub(crate) type Inputs = Vec<Input>;

/// A function of the caller's: its value for a row of inputs, NaN if it has none.
///
/// It is called from the thread that calls the library, and from others only where `threads` of the sampling is more
/// than 1. It must not throw an exception or use longjmp, and must not change or free the propagation that calls it.
pub type tenths_function = Option<unsafe extern "C" fn(inputs: *const f64, context: *mut c_void) -> f64>;

/// A function, and inputs that vary: made by `tenths_propagate`, `tenths_formula_propagate` or
/// `tenths_vector_loop_propagate`, freed by `tenths_propagation_free`. Several threads may read one at once if the
/// function allows for it; while one changes or frees it, no other may use it.
#[export(propagation)]
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
#[export(input)]
pub(crate) fn input_init() -> tenths_input {
    tenths_input {
        struct_size: size_of::<tenths_input>(),
        name: std::ptr::null(),
        nominal: f64::NAN,
        plus: 0.0,
        minus: 0.0,
        distribution: std::ptr::null(),
    }
}

/// A function of the caller's and its `count` inputs, at most 64, in the order in which the function takes them.
///
/// `context` is handed to it at each call, and may be null. Free the propagation with `tenths_propagation_free`; it is
/// null on an error.
///
/// # Safety
/// `function` does what `tenths_function` says for as long as the propagation is used; `inputs` is valid for `count`
/// structs; `propagation` is writable.
#[export(propagation)]
pub(crate) unsafe fn propagate(
    function: tenths_function,
    context: *mut c_void,
    inputs: Inputs,
) -> Result<tenths_propagation, Failure> {
    let function = function.ok_or(Failure::Null("function"))?;
    let propagation = Propagation::new(Callback { function, context }, inputs)?.boxed();
    Ok(tenths_propagation { propagation, threads: 1 })
}

/// An output of the formula called `name` whose arguments vary: `count` inputs with the names of arguments, in any
/// order, in the units of a side. An argument without an input takes its default.
///
/// `output` may be null where the formula has one result. Free the propagation with `tenths_propagation_free`; it is
/// null on an error.
#[export(propagation)]
pub(crate) fn formula_propagate(
    name: &'static Formula,
    units: Units,
    output: Option<&str>,
    inputs: Inputs,
) -> Result<tenths_propagation, StackError> {
    Ok(name.propagate(units, output, inputs)?.boxed().into())
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
#[export]
pub(crate) fn propagation_correlate(
    propagation: &mut tenths_propagation,
    one: usize,
    other: usize,
    coefficient: f64,
) -> Result<(), StackError> {
    propagation.propagation.correlate(one, other, coefficient)?;
    Ok(())
}

/// The value at the nominal inputs; NaN on an error.
#[export(value)]
pub(crate) fn propagation_nominal(propagation: &tenths_propagation) -> Result<f64, StackError> {
    propagation.propagation.nominal()
}

/// Least and greatest value for any inputs within their limits, and the inputs with two limits that give them.
///
/// If `monotonic` is 1 for all of them, the extremes lie at corners of the box; otherwise they were searched for, and a
/// peak much narrower than an eighth of the box may be missed.
#[export(extremes)]
pub(crate) fn propagation_extremes(propagation: &tenths_propagation) -> Result<Extremes, StackError> {
    propagation.propagation.extremes()
}

/// Mean and standard deviation by first and second derivatives, with what each input that spreads contributes.
#[export(moments)]
pub(crate) fn propagation_moments(propagation: &tenths_propagation) -> Result<Moments, StackError> {
    propagation.propagation.moments()
}

/// Samples a function whose inputs vary. Samples where it is undefined are counted, and it is an error if all are.
///
/// A function of the caller's is called from this thread alone where `threads` of the sampling is 0 or 1. Free the
/// sample with `tenths_sample_free`; it is null on an error.
#[export(sample)]
pub(crate) fn propagation_sample(
    propagation: &tenths_propagation,
    sampling: Drawn,
) -> Result<tenths_sample, StackError> {
    let (sampling, watch) = (propagation.on_threads(sampling.0), sampling.1);
    Ok(propagation.propagation.sample_watched(&sampling, &watch)?.into())
}

/// Samples `count` of the blocks from number `first`, for `tenths_sample_fold`, otherwise as
/// `tenths_propagation_sample`. Free them with `tenths_blocks_free`; null on an error.
#[export(blocks)]
pub(crate) fn propagation_sample_blocks(
    propagation: &tenths_propagation,
    sampling: Drawn,
    first: u64,
    count: u64,
) -> Result<tenths_blocks, StackError> {
    let (sampling, watch) = (propagation.on_threads(sampling.0), sampling.1);
    Ok(propagation.propagation.sample_blocks_watched(&sampling, first, count, &watch)?.into())
}

impl tenths_propagation {
    /// The function and its inputs.
    pub(crate) fn model(&self) -> &AnyPropagation {
        &self.propagation
    }

    /// A sampling on as many threads as this takes where the caller does not say.
    pub(crate) fn on_threads(&self, sampling: Sampling) -> Sampling {
        let threads = if sampling.threads == 0 { self.threads } else { sampling.threads };
        Sampling { threads, ..sampling }
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
pub(crate) unsafe fn inputs(pointer: *const tenths_input, count: usize) -> Result<Inputs, Failure> {
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
