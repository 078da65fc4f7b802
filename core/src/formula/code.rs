//! The compiled body of a formula: one row, and a block of rows for each instruction set.
#![allow(unsafe_code)]
use crate::quantity::Units;
use crate::wide::INSTRUCTION_SETS;

/// Greatest count of arguments and constants together.
pub const MAX_INPUTS: usize = 20;
/// Greatest count of outputs. With the inputs it stays within numpy's limit of 32 operands.
pub const MAX_OUTPUTS: usize = 12;
/// Rows per block. Columns of a block lie `BLOCK` apart.
pub(super) const BLOCK: usize = 128;

/// Written by `#[formula]` for a zero-sized type: `I` inputs (arguments, then constants) to `O` outputs.
#[doc(hidden)]
pub trait Body<const I: usize, const O: usize> {
    /// Whether the body is integer arithmetic on exact sizes.
    const EXACT: bool;
    /// One row in base units of a side; NaN where a rule fails.
    fn run(units: Units, x: [f64; I]) -> [f64; O];
}

/// `x` holds the input columns and `y` the output columns of a block, of which `n` rows are set.
type Kernel = unsafe fn(units: Units, x: *const f64, y: *mut f64, n: usize);

/// The two ways to run a body.
#[doc(hidden)]
pub struct Code {
    inputs: usize,
    outputs: usize,
    pub(super) one: fn(Units, &[f64], &mut [f64]),
    many: [Kernel; INSTRUCTION_SETS],
    pub(super) exact: bool,
}

impl Code {
    /// The code of a body.
    pub const fn of<B: Body<I, O>, const I: usize, const O: usize>() -> Code {
        const { assert!(I <= MAX_INPUTS && O <= MAX_OUTPUTS) };
        Code {
            inputs: I,
            outputs: O,
            one: one::<B, I, O>,
            many: [
                plain::<B, I, O>,
                #[cfg(target_arch = "x86_64")]
                avx2::<B, I, O>,
                #[cfg(target_arch = "x86_64")]
                avx512::<B, I, O>,
            ],
            exact: B::EXACT,
        }
    }

    /// Whether the body has as many inputs and outputs as its record says.
    #[inline(always)]
    pub(super) fn fits(&self, inputs: usize, outputs: usize) -> bool {
        self.inputs == inputs && self.outputs == outputs
    }

    /// Runs a block on the widest instruction set that `set` stands for.
    ///
    /// # Safety
    /// `x` and `y` point to as many columns of [`BLOCK`] as the body has inputs and outputs, the first
    /// `n <= BLOCK` rows of `x` are initialised, and `set` came from [`crate::wide::instruction_set`].
    #[inline(always)]
    pub(super) unsafe fn block(&self, units: Units, x: *const f64, y: *mut f64, n: usize, set: usize) {
        // SAFETY: the caller's promise is the kernel's.
        unsafe { (self.many[set])(units, x, y, n) }
    }
}

fn one<B: Body<I, O>, const I: usize, const O: usize>(units: Units, x: &[f64], y: &mut [f64]) {
    if let (Some(x), Some(y)) = (x.first_chunk::<I>(), y.first_chunk_mut::<O>()) {
        *y = B::run(units, *x);
    }
}

/// # Safety
/// As for [`Code::block`].
#[inline(always)]
unsafe fn sweep<B: Body<I, O>, const I: usize, const O: usize>(
    units: Units,
    x: *const f64,
    y: *mut f64,
    n: usize,
) {
    for row in 0..n.min(BLOCK) {
        // SAFETY: `row < BLOCK`, and there are `I` input and `O` output columns.
        let outputs = B::run(units, std::array::from_fn(|k| unsafe { *x.add(k * BLOCK + row) }));
        for (k, output) in outputs.into_iter().enumerate() {
            // SAFETY: as above.
            unsafe { *y.add(k * BLOCK + row) = output }
        }
    }
}

/// # Safety
/// As for [`Code::block`].
unsafe fn plain<B: Body<I, O>, const I: usize, const O: usize>(
    units: Units,
    x: *const f64,
    y: *mut f64,
    n: usize,
) {
    // SAFETY: the caller's promise.
    unsafe { sweep::<B, I, O>(units, x, y, n) }
}

/// The same arithmetic in wider registers: Rust never contracts `a * b + c`, so the bits are the same.
///
/// # Safety
/// As for [`Code::block`], on a processor that has AVX2.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
unsafe fn avx2<B: Body<I, O>, const I: usize, const O: usize>(
    units: Units,
    x: *const f64,
    y: *mut f64,
    n: usize,
) {
    // SAFETY: the caller's promise.
    unsafe { sweep::<B, I, O>(units, x, y, n) }
}

/// # Safety
/// As for [`Code::block`], on a processor that has these parts of AVX-512.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl,avx512bw")]
unsafe fn avx512<B: Body<I, O>, const I: usize, const O: usize>(
    units: Units,
    x: *const f64,
    y: *mut f64,
    n: usize,
) {
    // SAFETY: the caller's promise.
    unsafe { sweep::<B, I, O>(units, x, y, n) }
}
