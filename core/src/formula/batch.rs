//! Many rows: the strided batch, which works in blocks that stay in the first cache.
#![allow(unsafe_code)]
use super::call::Refusal;
use super::check::Advice;
use super::code::BLOCK;
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::column::{Column, ColumnMut, NOWHERE, NOWHERE_MUT, WORD, read, tangled, write};
use super::domain::StatedRange;
use super::prefetch::Ahead;
use super::record::Formula;
use crate::Error;
use crate::quantity::Units;
use crate::simd::instruction_set;
use std::mem::MaybeUninit;

/// A row of a batch of which there is something to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its number, from zero.
    pub number: usize,
    /// Advice on its answer, or why it has none; a NaN among its arguments is a reason too.
    pub verdict: Result<Advice, Refusal>,
}

/// What is called for each row of which there is something to say, in their order.
type Tell<'a> = Option<&'a mut dyn FnMut(Row)>;

/// What a batch met on its way.
#[derive(Clone, Copy, Default, Debug, PartialEq, Eq)]
pub struct Met {
    /// A row without an answer though none of its numbers was NaN: what numpy calls invalid.
    pub refused: bool,
    /// What somewhere lies outside the range that the source states.
    pub advice: Advice,
}

/// The block that a batch works on: columns in base units, so laid that a wide register fills from one line.
#[repr(align(64))]
struct Block {
    x: [MaybeUninit<f64>; MAX_INPUTS * BLOCK],
    y: [MaybeUninit<f64>; MAX_OUTPUTS * BLOCK],
}

impl Block {
    /// The first `n` rows of input `k`.
    ///
    /// # Safety
    /// They have been written.
    unsafe fn input(&mut self, k: usize, n: usize) -> &mut [f64] {
        // SAFETY: the caller's promise; MaybeUninit has the layout of what it holds.
        unsafe { &mut *(std::ptr::from_mut(&mut self.x[k * BLOCK..][..n]) as *mut [f64]) }
    }

    /// The first `n` rows of output `k`.
    ///
    /// # Safety
    /// They have been written.
    unsafe fn output(&mut self, k: usize, n: usize) -> &mut [f64] {
        // SAFETY: as for `input`.
        unsafe { &mut *(std::ptr::from_mut(&mut self.y[k * BLOCK..][..n]) as *mut [f64]) }
    }

    /// One row of inputs.
    ///
    /// # Safety
    /// It has been written in the first `inputs` columns.
    unsafe fn row(&self, row: usize, inputs: usize) -> [f64; MAX_INPUTS] {
        let mut x = [0.0; MAX_INPUTS];
        for (k, x) in x[..inputs].iter_mut().enumerate() {
            // SAFETY: the caller's promise.
            *x = unsafe { self.x[k * BLOCK + row].assume_init() };
        }
        x
    }
}

impl Formula {
    /// Many rows at once: columns in shop units of a side, one an argument, into one an output.
    ///
    /// A row without an answer is NaN in every output; the others are the bits that [`Formula::call`] gives.
    ///
    /// # Errors
    /// [`Error::Count`] where the columns are too few, too many or of unequal length.
    pub fn batch(&self, units: Units, xs: &[&[f64]], ys: &mut [&mut [f64]]) -> Result<Met, Error> {
        self.batch_slices(units, xs, ys, None)
    }

    /// [`Formula::batch`] that tells of every row without an answer, and of every row with advice.
    ///
    /// # Errors
    /// As [`Formula::batch`].
    pub fn batch_telling(
        &self,
        units: Units,
        xs: &[&[f64]],
        ys: &mut [&mut [f64]],
        tell: &mut dyn FnMut(Row),
    ) -> Result<Met, Error> {
        self.batch_slices(units, xs, ys, Some(tell))
    }

    /// One output of [`Formula::batch`], by its place; the others are not written.
    ///
    /// # Errors
    /// As [`Formula::batch`].
    pub(crate) fn batch_output(
        &self,
        units: Units,
        xs: &[&[f64]],
        output: usize,
        y: &mut [f64],
    ) -> Result<Met, Error> {
        let count = |what, expected, got| Error::Count { formula: self.name, what, expected, got };
        let (arguments, outputs) = (self.arguments.len(), self.outputs.len());
        if xs.len() != arguments {
            return Err(count("arguments", arguments, xs.len()));
        }
        if output >= outputs {
            return Err(count("results", outputs, output + 1));
        }
        if let Some(x) = xs.iter().find(|x| x.len() != y.len()) {
            return Err(count("rows in every column", y.len(), x.len()));
        }
        let (mut from, mut to) = ([NOWHERE; MAX_INPUTS], [NOWHERE_MUT; MAX_OUTPUTS]);
        for (column, x) in from.iter_mut().zip(xs) {
            *column = Column { at: x.as_ptr().cast(), step: WORD };
        }
        to[output] = ColumnMut { at: y.as_mut_ptr().cast(), step: WORD };
        // SAFETY: the slices are valid for as many aligned elements, the exclusive one overlaps none, and null stands
        // for an output that is not wanted.
        Ok(unsafe { self.batch_raw(units, &from[..arguments], &to[..outputs], y.len(), None) })
    }

    fn batch_slices(
        &self,
        units: Units,
        xs: &[&[f64]],
        ys: &mut [&mut [f64]],
        tell: Tell,
    ) -> Result<Met, Error> {
        let count = |what, expected, got| Error::Count { formula: self.name, what, expected, got };
        if xs.len() != self.arguments.len() {
            return Err(count("arguments", self.arguments.len(), xs.len()));
        }
        if ys.len() != self.outputs.len() {
            return Err(count("results", self.outputs.len(), ys.len()));
        }
        let rows = ys.first().map_or(0, |y| y.len());
        let lengths = xs.iter().map(|x| x.len()).chain(ys.iter().map(|y| y.len()));
        if let Some(other) = lengths.into_iter().find(|&n| n != rows) {
            return Err(count("rows in every column", rows, other));
        }
        let (mut from, mut to) = ([NOWHERE; MAX_INPUTS], [NOWHERE_MUT; MAX_OUTPUTS]);
        for (column, x) in from.iter_mut().zip(xs) {
            *column = Column { at: x.as_ptr().cast(), step: WORD };
        }
        for (column, y) in to.iter_mut().zip(ys.iter_mut()) {
            *column = ColumnMut { at: y.as_mut_ptr().cast(), step: WORD };
        }
        // SAFETY: the slices are valid for `rows` aligned elements, and exclusive ones overlap nothing.
        Ok(unsafe { self.batch_raw(units, &from[..xs.len()], &to[..ys.len()], rows, tell) })
    }

    /// [`Formula::batch`] over strided columns, which may overlap: rows are computed as if one by one, in order.
    ///
    /// Columns that are too few or too many are a caller's mistake, for which nothing is written.
    ///
    /// # Safety
    /// Every column must be valid for `rows` aligned `f64` at its step, save one to write that is null.
    pub unsafe fn batch_raw(
        &self,
        units: Units,
        xs: &[Column],
        ys: &[ColumnMut],
        rows: usize,
        tell: Tell,
    ) -> Met {
        // The columns must be those of the body too: the fields of a record are public, and may have been mixed.
        let fits = self.code.fits(self.arguments.len() + self.constants.len(), self.outputs.len());
        if rows == 0 || !fits || xs.len() != self.arguments.len() || ys.len() != self.outputs.len() {
            return Met::default();
        }
        let set = instruction_set();
        #[cfg(target_arch = "x86_64")]
        if set > 0 {
            // SAFETY: the caller's promise, and the processor has the features.
            return unsafe {
                match set {
                    1 => drive_avx2(self, units, xs, ys, rows, tell, set),
                    _ => drive_avx512(self, units, xs, ys, rows, tell, set),
                }
            };
        }
        // SAFETY: the caller's promise.
        unsafe { drive::<false>(self, units, xs, ys, rows, tell, set) }
    }
}

/// # Safety
/// As for [`Formula::batch_raw`], on a processor that has these features.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2,fma")]
unsafe fn drive_avx2(
    formula: &Formula,
    units: Units,
    xs: &[Column],
    ys: &[ColumnMut],
    rows: usize,
    tell: Tell,
    set: usize,
) -> Met {
    // SAFETY: the caller's promise.
    unsafe { drive::<true>(formula, units, xs, ys, rows, tell, set) }
}

/// # Safety
/// As for [`Formula::batch_raw`], on a processor that has these features.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl")]
unsafe fn drive_avx512(
    formula: &Formula,
    units: Units,
    xs: &[Column],
    ys: &[ColumnMut],
    rows: usize,
    tell: Tell,
    set: usize,
) -> Met {
    // SAFETY: the caller's promise.
    unsafe { drive::<true>(formula, units, xs, ys, rows, tell, set) }
}

/// # Safety
/// As for [`Formula::batch_raw`]; `set` came from [`instruction_set`]. `WIDE` where there is AVX2 and fused
/// products are quick.
#[inline(always)]
unsafe fn drive<const WIDE: bool>(
    formula: &Formula,
    units: Units,
    xs: &[Column],
    ys: &[ColumnMut],
    rows: usize,
    tell: Tell,
    set: usize,
) -> Met {
    let (mut met, mut tell) = (Met::default(), tell);
    let mut block = Block {
        x: [MaybeUninit::uninit(); MAX_INPUTS * BLOCK],
        y: [MaybeUninit::uninit(); MAX_OUTPUTS * BLOCK],
    };
    // Where an output runs into an input, as numpy's accumulate makes it, the order of rows matters.
    let step = if tangled(xs, ys, rows) { 1 } else { BLOCK };
    let fill = step.min(rows);
    for (k, constant) in formula.constants.iter().enumerate() {
        block.x[(xs.len() + k) * BLOCK..][..fill].fill(MaybeUninit::new(constant.value[units as usize]));
    }
    // Repeated inputs are read once, unless an output may change them on the way.
    let fixed = |k: usize| xs[k].step == 0 && step > 1;
    let mut repeated = Met::default();
    for k in (0..xs.len()).filter(|&k| fixed(k)) {
        // SAFETY: the caller's promise.
        unsafe { gather(formula, units, k, xs[k], 0, fill, &mut block, &mut repeated) };
    }
    let ahead = if step > 1 { Ahead::of(xs, ys, rows) } else { Ahead::of(&[], &[], rows) };
    let (mut start, mut end) = (0, fill.min(ahead.first_block()));
    while start < rows {
        let n = end - start;
        let mut here = repeated;
        for k in (0..xs.len()).filter(|&k| !fixed(k)) {
            // SAFETY: the caller's promise.
            unsafe { gather(formula, units, k, xs[k], start, n, &mut block, &mut here) };
        }
        let (x, y) = (block.x.as_ptr().cast(), block.y.as_mut_ptr().cast());
        // SAFETY: all inputs of the block are written, and `set` is this processor's.
        unsafe { ahead.run(end, &formula.code, units, x, y, n, set) };
        // SAFETY: the kernel has written `n` rows of every output; the caller's promise for the columns.
        let (finite, mut advice) = unsafe { scatter::<WIDE>(formula, units, ys, start, &mut block, n) };
        if here.refused || !finite || (tell.is_some() && here.advice | advice != Advice::default()) {
            // SAFETY: inputs and outputs of `n` rows are written. Rows without an answer have become NaN then.
            unsafe {
                met.refused |= judge_rows(formula, units, &mut block, start, n, &mut tell);
                (_, advice) = scatter::<WIDE>(formula, units, ys, start, &mut block, n);
            }
        }
        met.advice |= here.advice | advice;
        (start, end) = (end, rows.min(end + step));
    }
    met
}

/// Reads `n` elements of argument `k` into the block; notes whether one is outside its domain or stated range.
///
/// # Safety
/// The column is valid for `start + n` elements.
#[inline(always)]
#[allow(clippy::too_many_arguments)]
unsafe fn gather(
    formula: &Formula,
    units: Units,
    k: usize,
    column: Column,
    start: usize,
    n: usize,
    block: &mut Block,
    met: &mut Met,
) {
    let argument = &formula.arguments[k];
    let (unit, side) = (*argument.unit(units), *argument.side(units));
    // SAFETY: the caller's promise.
    let at = unsafe { column.at.offset(start as isize * column.step) };
    let to = &mut block.x[k * BLOCK..][..n];
    // SAFETY: the caller's promise.
    let ordinary = unsafe {
        match side.domain.is_whole() {
            true => read::<true>(at, column.step, &unit, side.ordinary(), to),
            false => read::<false>(at, column.step, &unit, side.ordinary(), to),
        }
    };
    if ordinary {
        return;
    }
    // SAFETY: just written.
    let x = unsafe { block.input(k, n) };
    let (mut sound, mut outside) = (true, false);
    for &x in &*x {
        // NaN is no advice, and neither is a row that will be refused.
        let holds = side.domain.holds(x);
        sound &= holds;
        outside |= holds & side.advises(x);
    }
    met.advice |= Advice::argument(k, outside);
    met.refused |= !sound;
}

/// Writes the outputs of a block, in shop units, into the columns that are wanted; tells whether all are finite there,
/// and which somewhere lie outside a stated range.
///
/// # Safety
/// The kernel has written `n` rows of every output, and the columns that are not null are valid for `start + n`.
#[inline(always)]
unsafe fn scatter<const WIDE: bool>(
    formula: &Formula,
    units: Units,
    ys: &[ColumnMut],
    start: usize,
    block: &mut Block,
    n: usize,
) -> (bool, Advice) {
    let (mut told, mut advice) = (true, Advice::default());
    // A plain loop, since a closure would be compiled without the features of the function that it is in.
    for (k, (to, output)) in ys.iter().zip(formula.outputs).enumerate() {
        let unit = output.kind.unit(units);
        // SAFETY: the caller's promise.
        let y = unsafe { block.output(k, n) };
        if to.at.is_null() {
            told &= y.iter().fold(true, |told, &y| told & unit.can_represent(y));
        } else {
            // SAFETY: the caller's promise.
            told &= unsafe { write::<WIDE>(*to, start, unit, y) };
        }
        let range = output.range(units);
        if *range != StatedRange::EVERYWHERE {
            advice |= Advice::output(k, y.iter().fold(false, |outside, &y| outside | range.misses(y)));
        }
    }
    (told, advice)
}

/// Judges the rows of a block one by one: writes NaN into those that have no answer, and tells what there is to
/// tell. Gives whether a row without an answer came without a NaN.
///
/// # Safety
/// All inputs and outputs of `n` rows are written.
#[cold]
#[inline(never)]
unsafe fn judge_rows(
    formula: &Formula,
    units: Units,
    block: &mut Block,
    start: usize,
    n: usize,
    tell: &mut Tell,
) -> bool {
    let (arguments, outputs) = (formula.arguments.len(), formula.outputs.len());
    let mut refused = false;
    for row in 0..n {
        // SAFETY: the caller's promise.
        let x = unsafe { block.row(row, arguments) };
        let mut y = [0.0; MAX_OUTPUTS];
        for (k, y) in y[..outputs].iter_mut().enumerate() {
            // SAFETY: the caller's promise.
            *y = unsafe { block.output(k, n)[row] };
        }
        let verdict = formula.judge(units, &x, &y);
        if verdict.is_err() {
            refused |= !x[..arguments].iter().any(|x| x.is_nan());
            for k in 0..outputs {
                // SAFETY: the caller's promise.
                unsafe { block.output(k, n)[row] = f64::NAN };
            }
        }
        if let Some(tell) = tell.as_mut().filter(|_| verdict != Ok(Advice::default())) {
            tell(Row { number: start + row, verdict });
        }
    }
    refused
}
