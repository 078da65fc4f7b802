//! Samples, whole or in numbered blocks that several machines draw.
use crate::describe::fill;
use crate::guard::{guard, place};
use crate::handle::{answer, array, copy, free, given, hand_over, handle, results};
use crate::object::write;
use crate::objects::tenths_fraction;
use crate::stack::tenths_stack;
use crate::status::{Failure, tenths_status};
use crate::watch::{tenths_watch, watch};
use tenths::stack::{Blocks, Sample, Sampling};
use tenths::{Units, Watch};

/// How many samples to take, and of which stream. Set it with `tenths_sampling_init`, then change what you need.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_sampling {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_sampling)`.
    pub struct_size: usize,
    /// How many samples, from 1 to 2^34. Up to 2^24 all values are kept, so that percentiles are exact.
    pub count: u64,
    /// Any number: the same one gives the same sample, with the same bits.
    pub seed: u64,
    /// Lower limit, below which values are counted, in the unit of what is sampled. It may be minus infinity.
    pub lower: f64,
    /// Upper limit, above which values are counted. It may be infinity.
    pub upper: f64,
    /// How many threads share the work; 0 stands for as many as the machine runs at once, and where the function is one
    /// of the caller's for a single one. The result does not depend on it.
    pub threads: u32,
    /// By what the work is watched, which can stop it; null for nothing.
    pub watch: *const tenths_watch,
}

/// A sample: freed by `tenths_sample_free`. Several threads may read one at once.
pub struct tenths_sample {
    sample: Sample,
}

/// Some of the blocks of a sample: freed by `tenths_blocks_free`. Several threads may read them at once.
pub struct tenths_blocks {
    blocks: Blocks,
}

/// The statistics of a sample, in the unit of what was sampled. Set `struct_size` before the call. Its numbers are NaN on an
/// error. Intervals are Wilson's, of 95 percent confidence.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_summary {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_summary)`.
    pub struct_size: usize,
    /// Mean.
    pub mean: f64,
    /// Standard error of the mean.
    pub mean_error: f64,
    /// Standard deviation, over the count less one; NaN for a single value.
    pub sigma: f64,
    /// Standard error of the standard deviation, for a law of this kurtosis.
    pub sigma_error: f64,
    /// Third standardised moment, zero for a symmetrical law; NaN where nothing spreads.
    pub skewness: f64,
    /// Fourth standardised moment, 3 for a normal law; NaN where nothing spreads.
    pub kurtosis: f64,
    /// The least value.
    pub minimum: f64,
    /// The greatest value.
    pub maximum: f64,
    /// Share of the pieces below the lower limit.
    pub fraction_below: f64,
    /// Lower end of an interval that holds that share.
    pub fraction_below_lower: f64,
    /// Upper end of an interval that holds that share.
    pub fraction_below_upper: f64,
    /// Share of the pieces above the upper limit.
    pub fraction_above: f64,
    /// Lower end of an interval that holds that share.
    pub fraction_above_lower: f64,
    /// Upper end of an interval that holds that share.
    pub fraction_above_upper: f64,
    /// Share of the pieces outside the limits, those without a value among them.
    pub fraction_out: f64,
    /// Lower end of an interval that holds that share.
    pub fraction_out_lower: f64,
    /// Upper end of an interval that holds that share.
    pub fraction_out_upper: f64,
    /// How many samples were taken, those without a value too.
    pub count: u64,
    /// How many samples have no value, because the function is not defined there.
    pub undefined: u64,
    /// How many values are kept for `tenths_sample_values`: all that are defined, or none of a sample of more than
    /// 2^24.
    pub kept: u64,
}

/// Sets a sampling of `count` values of the stream `seed`, without limits. Set `struct_size` before the call.
///
/// # Safety
/// `sampling->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sampling_init(
    count: u64,
    seed: u64,
    sampling: *mut tenths_sampling,
) -> tenths_status {
    let struct_size = size_of::<tenths_sampling>();
    let (lower, upper) = (f64::NEG_INFINITY, f64::INFINITY);
    let watch = std::ptr::null();
    let made = tenths_sampling { struct_size, count, seed, lower, upper, threads: 0, watch };
    // SAFETY: the caller's promise.
    guard(|| unsafe { fill(sampling, "tenths_sampling", made) })
}

/// How many blocks a sample has: one for each 16384 values that were begun.
///
/// # Safety
/// `sampling->struct_size` is set to the size of the struct; `blocks` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sampling_blocks(
    sampling: *const tenths_sampling,
    blocks: *mut u64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (blocks, (sampling, _)) = unsafe { (place(blocks, "blocks")?, self::sampling(sampling)?) };
        *blocks = sampling.blocks();
        Ok(())
    })
}

/// Samples the closing dimension of a chain. Free the sample with `tenths_sample_free`; it is null on an error.
///
/// # Safety
/// `stack` is a chain; `sampling->struct_size` is set to the size of the struct; `sample` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_sample(
    stack: *const tenths_stack,
    sampling: *const tenths_sampling,
    sample: *mut *mut tenths_sample,
) -> tenths_status {
    let draw = || {
        // SAFETY: the caller's promises.
        let (stack, (sampling, watch)) = unsafe { (handle(stack, "stack")?, self::sampling(sampling)?) };
        Ok(tenths_sample { sample: stack.stack.sample_watched(&sampling, &watch)? })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(sample, "sample", draw) })
}

/// Samples `count` of the blocks of a chain from number `first`, for `tenths_sample_fold`. Free them with
/// `tenths_blocks_free`; null on an error.
///
/// # Safety
/// As `tenths_stack_sample`; `blocks` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_stack_sample_blocks(
    stack: *const tenths_stack,
    sampling: *const tenths_sampling,
    first: u64,
    count: u64,
    blocks: *mut *mut tenths_blocks,
) -> tenths_status {
    let draw = || {
        // SAFETY: the caller's promises.
        let (stack, (sampling, watch)) = unsafe { (handle(stack, "stack")?, self::sampling(sampling)?) };
        Ok(tenths_blocks { blocks: stack.stack.sample_blocks_watched(&sampling, first, count, &watch)? })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(blocks, "blocks", draw) })
}

/// Folds all blocks of a sample into one, in `count` portions in any order: the sample has the same bits as if it were
/// drawn whole. The caller keeps and frees the portions.
///
/// The status is `TENTHS_BAD_SAMPLING` if blocks are missing, come twice, or are of other counts, seeds, limits, chains or
/// functions.
///
/// # Safety
/// `blocks` is valid for `count` portions; `sample` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_fold(
    blocks: *const *const tenths_blocks,
    count: usize,
    sample: *mut *mut tenths_sample,
) -> tenths_status {
    let fold = || {
        // SAFETY: the caller's promise.
        let portions = unsafe { array(blocks, count, "blocks") }?;
        // SAFETY: the caller's promise.
        let portion = |one: &*const tenths_blocks| Ok(unsafe { handle(*one, "blocks") }?.blocks.clone());
        let portions = portions.iter().map(portion).collect::<Result<Vec<_>, Failure>>()?;
        Ok(tenths_sample { sample: Sample::fold(portions)? })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(sample, "sample", fold) })
}

/// The number of the first of some blocks, and how many they are. Each of `first` and `count` may be null.
///
/// # Safety
/// `blocks` came from this library; `first` and `count` are null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_blocks_range(
    blocks: *const tenths_blocks,
    first: *mut u64,
    count: *mut u64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (blocks, first, count) = unsafe { (handle(blocks, "blocks")?, first.as_mut(), count.as_mut()) };
        if let Some(first) = first {
            *first = blocks.blocks.first();
        }
        if let Some(count) = count {
            *count = blocks.blocks.count();
        }
        Ok(())
    })
}

/// Writes blocks as bytes, which `tenths_blocks_from_bytes` reads on any machine.
///
/// `length` becomes how many bytes they are, and may be null. A null `buffer` only asks for that; if `capacity` is
/// less, nothing is written and the status is `TENTHS_BAD_LENGTH`.
///
/// # Safety
/// `blocks` came from this library; `buffer` is null or writable for `capacity` bytes; `length` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_blocks_to_bytes(
    blocks: *const tenths_blocks,
    buffer: *mut u8,
    capacity: usize,
    length: *mut usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (blocks, length) = unsafe { (&handle(blocks, "blocks")?.blocks, length.as_mut()) };
        if let Some(length) = length {
            *length = blocks.byte_count();
        }
        if capacity > isize::MAX as usize || !buffer.is_null() && capacity < blocks.byte_count() {
            return Err(Failure::Length(capacity));
        }
        if !buffer.is_null() {
            let bytes = blocks.to_bytes();
            // SAFETY: there is room for all of them.
            unsafe { std::ptr::copy_nonoverlapping(bytes.as_ptr(), buffer, bytes.len()) };
        }
        Ok(())
    })
}

/// Reads what `tenths_blocks_to_bytes` wrote. Free the blocks with `tenths_blocks_free`; null on an error.
///
/// The status is `TENTHS_BAD_BLOCKS` if the bytes are cut off or changed, of another version, or not blocks at all.
///
/// # Safety
/// `bytes` is valid for `length` bytes; `blocks` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_blocks_from_bytes(
    bytes: *const u8,
    length: usize,
    blocks: *mut *mut tenths_blocks,
) -> tenths_status {
    let read = || {
        // SAFETY: the caller's promise.
        let bytes = unsafe { array(bytes, length, "bytes") }?;
        Ok(tenths_blocks { blocks: Blocks::from_bytes(bytes)? })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(blocks, "blocks", read) })
}

/// Frees blocks. Does nothing if null.
///
/// # Safety
/// `blocks` is null or came from this library and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_blocks_free(blocks: *mut tenths_blocks) {
    // SAFETY: the caller's promise.
    unsafe { free(blocks) };
}

/// Mean, spread, shape, extremes and shares beyond the limits.
///
/// # Safety
/// `sample` came from this library; `summary->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_summary(
    sample: *const tenths_sample,
    summary: *mut tenths_summary,
) -> tenths_status {
    // SAFETY: the caller's promise.
    let made = || Ok(summarised(&unsafe { handle(sample, "sample") }?.sample));
    // SAFETY: the caller's promise.
    guard(|| unsafe { answer(summary, "tenths_summary", UNKNOWN, made) })
}

/// Share of the pieces below any number, with an interval of 95 percent confidence. Of more than 2^24 samples the values
/// are not kept: give the number as a limit of the sampling instead.
///
/// # Safety
/// `sample` came from this library; `fraction->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_fraction_under(
    sample: *const tenths_sample,
    number: f64,
    fraction: *mut tenths_fraction,
) -> tenths_status {
    // SAFETY: the caller's promise.
    let made = || Ok(unsafe { handle(sample, "sample") }?.sample.fraction_under(number)?);
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(fraction, "tenths_fraction", Units::Metric, made) })
}

/// Share of the pieces outside the limits, those without a value among them, with an interval of another confidence,
/// which lies between 0 and 1.
///
/// # Safety
/// `sample` came from this library; `fraction->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_fraction_out(
    sample: *const tenths_sample,
    confidence: f64,
    fraction: *mut tenths_fraction,
) -> tenths_status {
    let made = || {
        // SAFETY: the caller's promise.
        let sample = unsafe { handle(sample, "sample") }?;
        let is_confidence = 0.0 < confidence && confidence < 1.0;
        if !is_confidence {
            return Err(Failure::Confidence(confidence));
        }
        Ok(sample.sample.fraction_out_at(confidence))
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(fraction, "tenths_fraction", Units::Metric, made) })
}

/// The values that each of `count` percentages of the sample do not exceed, and by how much they may be off either way:
/// 0 where all values were kept. NaN on an error. `errors` may be null, and so may `watch`, which is for many percentages
/// of a large sample.
///
/// # Safety
/// `sample` came from this library; the arrays are valid for `count` numbers; `watch` is null or tells its size.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_percentiles(
    sample: *const tenths_sample,
    percents: *const f64,
    count: usize,
    values: *mut f64,
    errors: *mut f64,
    watch: *const tenths_watch,
) -> tenths_status {
    guard(|| {
        // All is read before anything is written, since a caller may let values overwrite percentages.
        // SAFETY: the caller's promise.
        let percents = unsafe { array(percents, count, "percents") }.map(<[f64]>::to_vec);
        let is_wanted = !values.is_null();
        // SAFETY: the caller's promises.
        let (values, errors) = unsafe { (results(values, count), results(errors, count)) };
        if !is_wanted {
            return Err(Failure::Null("values"));
        }
        // SAFETY: the caller's promises.
        let (sample, watch) = unsafe { (handle(sample, "sample")?, self::watch(watch)?) };
        let made = sample.sample.percentiles_watched(&percents?, &watch)?;
        copy(made.iter().map(|percentile| percentile.value), values?);
        copy(made.iter().map(|percentile| percentile.error), errors?);
        Ok(())
    })
}

/// Counts in so many equal bins from the least to the greatest value, and the `bins + 1` ends of the bins.
///
/// There may be 100 000 bins. `ends` may be null, and is NaN on an error.
///
/// # Safety
/// `sample` came from this library; `counts` is writable for `bins` counts, `ends` null or so for one number more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_histogram(
    sample: *const tenths_sample,
    bins: usize,
    counts: *mut u64,
    ends: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (ends, sample) = unsafe { (results(ends, bins.saturating_add(1))?, handle(sample, "sample")?) };
        if counts.is_null() {
            return Err(Failure::Null("counts"));
        }
        let (found, limits) = sample.sample.histogram(bins)?;
        // SAFETY: the caller's promise: there are as many as bins.
        unsafe { std::ptr::copy_nonoverlapping(found.as_ptr(), counts, found.len()) };
        copy(limits, ends);
        Ok(())
    })
}

/// Copies `count` of the values that were kept, from number `first`, in the order in which they were drawn.
///
/// The status is `TENTHS_BAD_INDEX` if there are fewer: `kept` of `tenths_sample_summary` is how many there are.
/// NaN on an error.
///
/// # Safety
/// `sample` came from this library; `values` is writable for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_values(
    sample: *const tenths_sample,
    first: usize,
    count: usize,
    values: *mut f64,
) -> tenths_status {
    guard(|| {
        if values.is_null() {
            return Err(Failure::Null("values"));
        }
        // SAFETY: the caller's promises.
        let (values, sample) = unsafe { (results(values, count)?, handle(sample, "sample")?) };
        let kept = sample.sample.values();
        let wanted = first.checked_add(count).and_then(|end| kept.get(first..end));
        let wanted = wanted.ok_or(Failure::Values { first, count, kept: kept.len() })?;
        if let Some(values) = values {
            values.copy_from_slice(wanted);
        }
        Ok(())
    })
}

/// Frees a sample. Does nothing if null.
///
/// # Safety
/// `sample` is null or came from this library and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sample_free(sample: *mut tenths_sample) {
    // SAFETY: the caller's promise.
    unsafe { free(sample) };
}

impl From<Sample> for tenths_sample {
    fn from(sample: Sample) -> Self {
        tenths_sample { sample }
    }
}

impl From<Blocks> for tenths_blocks {
    fn from(blocks: Blocks) -> Self {
        tenths_blocks { blocks }
    }
}

/// A sampling and its watch as the caller gave them.
///
/// # Safety
/// `pointer` is null or leads to a struct that begins with its size; its watch is null or such a struct.
pub(crate) unsafe fn sampling(
    pointer: *const tenths_sampling,
) -> Result<(Sampling, Watch<'static>), Failure> {
    // SAFETY: the caller's promise.
    let given = unsafe { given(pointer, "tenths_sampling") }?;
    let sampling = Sampling {
        count: given.count,
        seed: given.seed,
        limits: (given.lower, given.upper),
        threads: given.threads as usize,
    };
    // SAFETY: the caller's promise.
    Ok((sampling, unsafe { watch(given.watch) }?))
}

fn summarised(sample: &Sample) -> tenths_summary {
    let (below, above, out) = (sample.fraction_below(), sample.fraction_above(), sample.fraction_out());
    tenths_summary {
        struct_size: size_of::<tenths_summary>(),
        mean: sample.mean(),
        mean_error: sample.mean_error(),
        sigma: sample.sigma(),
        sigma_error: sample.sigma_error(),
        skewness: sample.skewness(),
        kurtosis: sample.kurtosis(),
        minimum: sample.minimum(),
        maximum: sample.maximum(),
        fraction_below: below.value,
        fraction_below_lower: below.lower,
        fraction_below_upper: below.upper,
        fraction_above: above.value,
        fraction_above_lower: above.lower,
        fraction_above_upper: above.upper,
        fraction_out: out.value,
        fraction_out_lower: out.lower,
        fraction_out_upper: out.upper,
        count: sample.count(),
        undefined: sample.undefined(),
        kept: sample.values().len() as u64,
    }
}

const UNKNOWN: tenths_summary = tenths_summary {
    struct_size: size_of::<tenths_summary>(),
    mean: f64::NAN,
    mean_error: f64::NAN,
    sigma: f64::NAN,
    sigma_error: f64::NAN,
    skewness: f64::NAN,
    kurtosis: f64::NAN,
    minimum: f64::NAN,
    maximum: f64::NAN,
    fraction_below: f64::NAN,
    fraction_below_lower: f64::NAN,
    fraction_below_upper: f64::NAN,
    fraction_above: f64::NAN,
    fraction_above_lower: f64::NAN,
    fraction_above_upper: f64::NAN,
    fraction_out: f64::NAN,
    fraction_out_lower: f64::NAN,
    fraction_out_upper: f64::NAN,
    count: 0,
    undefined: 0,
    kept: 0,
};
