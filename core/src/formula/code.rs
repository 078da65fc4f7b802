//! The compiled body of a formula: one row, and a block of rows for each instruction set.
#![allow(unsafe_code)]
use crate::quantity::Units;
use crate::simd::INSTRUCTION_SETS;

/// Greatest count of arguments and constants together.
pub const MAX_INPUTS: usize = 20;
/// Greatest count of outputs. With the inputs it stays within numpy's limit of 32 operands.
pub const MAX_OUTPUTS: usize = 12;
/// Rows per block. Columns of a block lie `BLOCK` apart.
pub(super) const BLOCK: usize = 128;

/// Written by `#[formula]` for a zero-sized type: `I` inputs (arguments, then constants) to `O` outputs.
#[doc(hidden)]
pub trait Body<const I: usize, const O: usize> {
    /// How many of its inputs, the last, are the same in every row.
    const CONSTANTS: usize;
    /// Whether the body is integer arithmetic on exact sizes.
    const EXACT: bool;
    /// One row in base units of a side; its first output is NaN where a rule fails.
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
    /// `n <= BLOCK` rows of `x` are initialised, and `set` came from [`crate::simd::instruction_set`].
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
    // SAFETY: `row < BLOCK`, and there are `I` input and `O` output columns.
    let input = |k: usize, row: usize| unsafe { *x.add(k * BLOCK + row) };
    // What follows from constants alone is then computed once.
    let first: [f64; I] = std::array::from_fn(|k| input(k, 0));
    for row in 0..n.min(BLOCK) {
        let inputs = std::array::from_fn(|k| if k < I - B::CONSTANTS { input(k, row) } else { first[k] });
        let outputs = B::run(units, inputs);
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
/// As for [`Code::block`], on a processor that has these features.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl")]
unsafe fn avx512<B: Body<I, O>, const I: usize, const O: usize>(
    units: Units,
    x: *const f64,
    y: *mut f64,
    n: usize,
) {
    // SAFETY: the caller's promise.
    unsafe { sweep::<B, I, O>(units, x, y, n) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formulas;
    use crate::simd::instruction_set;

    #[test]
    fn every_instruction_set_gives_the_bits_of_one_row() {
        // Fractions of a simple generator; the ends and other sizes are those of the laws.
        let mut state = 1u64;
        let mut draw = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1u64 << 53) as f64
        };
        for formula in formulas() {
            let (arguments, inputs) = (formula.arguments.len(), formula.code.inputs);
            for units in [Units::Inch, Units::Metric] {
                let mut x = [1.0; MAX_INPUTS * BLOCK];
                for (k, column) in x.chunks_exact_mut(BLOCK).take(inputs).enumerate() {
                    for x in column {
                        *x = match formula.arguments.get(k).map(|a| a.side(units).domain) {
                            None => formula.constants[k - arguments].value[units as usize],
                            Some(domain) => {
                                let low = domain.low().map_or(0.0, |(low, _)| low);
                                let high = domain.high().map_or(low + 40.0, |(high, _)| high);
                                let x = low + (high - low) * draw();
                                if domain.is_whole() { x.ceil() } else { x }
                            }
                        };
                    }
                }
                for set in 0..=instruction_set() {
                    let mut y = [0.0; MAX_OUTPUTS * BLOCK];
                    // SAFETY: all columns are initialised, and the processor has this set.
                    unsafe { formula.code.block(units, x.as_ptr(), y.as_mut_ptr(), BLOCK, set) };
                    for row in 0..BLOCK {
                        let one: [f64; MAX_INPUTS] = std::array::from_fn(|k| x[k * BLOCK + row]);
                        let mut expected = [0.0; MAX_OUTPUTS];
                        (formula.code.one)(units, &one, &mut expected);
                        for (k, expected) in expected[..formula.outputs.len()].iter().enumerate() {
                            let got = y[k * BLOCK + row];
                            let same =
                                got.to_bits() == expected.to_bits() || (got.is_nan() && expected.is_nan());
                            assert!(same, "{} row {row}: {got} for {expected}, set {set}", formula.name);
                        }
                    }
                }
            }
        }
    }
}
