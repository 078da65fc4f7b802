//! Many rows: the strided batch, which works in blocks that stay in the first cache.
#![allow(unsafe_code)]
use super::code::BLOCK;
use super::{Advice, Formula, MAX_INPUTS, MAX_OUTPUTS, Refusal};
use crate::Error;
use crate::quantity::{Unit, Units};
use crate::wide::instruction_set;
use std::mem::MaybeUninit;

/// A strided column of `f64` to read: its first element, and the step in bytes.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// The first element.
    pub at: *const u8,
    /// Bytes from one element to the next; zero repeats the first.
    pub step: isize,
}

/// A strided column of `f64` to write.
#[derive(Clone, Copy, Debug)]
pub struct ColumnMut {
    /// The first element; null where the output is not wanted.
    pub at: *mut u8,
    /// Bytes from one element to the next.
    pub step: isize,
}

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
    /// Arguments, by bit, that somewhere lie outside the range that the source states.
    pub advice: u32,
}

/// The block that a batch works on: columns in base units.
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
            return unsafe { drive_avx2(self, units, xs, ys, rows, tell, set) };
        }
        // SAFETY: the caller's promise.
        unsafe { drive(self, units, xs, ys, rows, tell, set) }
    }
}

const WORD: isize = size_of::<f64>() as isize;
const NOWHERE: Column = Column { at: std::ptr::null(), step: 0 };
const NOWHERE_MUT: ColumnMut = ColumnMut { at: std::ptr::null_mut(), step: 0 };

/// # Safety
/// As for [`Formula::batch_raw`], on a processor that has AVX2.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
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
    unsafe { drive(formula, units, xs, ys, rows, tell, set) }
}

/// # Safety
/// As for [`Formula::batch_raw`]; `set` came from [`instruction_set`].
#[inline(always)]
unsafe fn drive(
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
    let mut start = 0;
    while start < rows {
        let n = step.min(rows - start);
        let mut here = repeated;
        for k in (0..xs.len()).filter(|&k| !fixed(k)) {
            // SAFETY: the caller's promise.
            unsafe { gather(formula, units, k, xs[k], start, n, &mut block, &mut here) };
        }
        met.advice |= here.advice;
        // SAFETY: all inputs of the block are written, and `set` is this processor's.
        unsafe { formula.code.block(units, block.x.as_ptr().cast(), block.y.as_mut_ptr().cast(), n, set) };
        let finite = formula.outputs.iter().enumerate().all(|(k, output)| {
            let unit = *output.kind.unit(units);
            // SAFETY: the kernel has written `n` rows of every output.
            unsafe { block.output(k, n).iter().fold(true, |fine, &y| fine & unit.can_tell(y)) }
        });
        if here.refused || !finite || (here.advice != 0 && tell.is_some()) {
            // SAFETY: inputs and outputs of `n` rows are written.
            met.refused |= unsafe { judge_rows(formula, units, &mut block, start, n, &mut tell) };
        }
        for (k, (to, output)) in
            ys.iter().zip(formula.outputs).enumerate().filter(|(_, (to, _))| !to.at.is_null())
        {
            // SAFETY: the kernel has written `n` rows; the caller's promise for the column.
            unsafe { scatter(*to, start, output.kind.unit(units), block.output(k, n)) };
        }
        start += n;
    }
    met
}

/// Reads `n` elements of argument `k` into the block; notes whether one lies outside its domain or stated range.
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
    let mut sound = true;
    if column.step == WORD {
        // SAFETY: `n` contiguous elements.
        let from = unsafe { std::slice::from_raw_parts(at.cast::<f64>(), n) };
        for (to, &reading) in to.iter_mut().zip(from) {
            let x = unit.to_base(reading);
            sound &= side.domain.spans(x);
            to.write(x);
        }
    } else {
        for (row, to) in to.iter_mut().enumerate() {
            // SAFETY: the caller's promise.
            let reading = unsafe { at.offset(row as isize * column.step).cast::<f64>().read() };
            let x = unit.to_base(reading);
            sound &= side.domain.spans(x);
            to.write(x);
        }
    }
    // SAFETY: just written.
    let x = unsafe { block.input(k, n) };
    if side.domain.is_whole() {
        sound &= x.iter().fold(true, |whole, x| whole & (x.trunc() == *x));
    }
    let stated = side.range != super::EVERYWHERE;
    if stated && !x.iter().fold(true, |inside, &x| inside & side.in_range(x)) {
        // NaN is no advice, and neither is a row that will be refused.
        let outside = x.iter().any(|&x| side.domain.holds(x) && !side.in_range(x));
        met.advice |= u32::from(outside) << k;
    }
    met.refused |= !sound;
}

/// Writes a column in shop units.
///
/// # Safety
/// The column is valid for `start + y.len()` elements.
#[inline(always)]
unsafe fn scatter(column: ColumnMut, start: usize, unit: &Unit, y: &[f64]) {
    // SAFETY: the caller's promise.
    let at = unsafe { column.at.offset(start as isize * column.step) };
    if column.step == WORD {
        // SAFETY: contiguous elements, which the block does not overlap.
        let to = unsafe { std::slice::from_raw_parts_mut(at.cast::<f64>(), y.len()) };
        // A plain unit needs no division, which takes as long as the rest of the block.
        if unit.scale == 1.0 {
            to.copy_from_slice(y);
            return;
        }
        for (to, &y) in to.iter_mut().zip(y) {
            *to = unit.from_base(y);
        }
    } else {
        for (row, &y) in y.iter().enumerate() {
            // SAFETY: the caller's promise.
            unsafe { at.offset(row as isize * column.step).cast::<f64>().write(unit.from_base(y)) };
        }
    }
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

/// Whether an output runs into an input other than exactly upon it, or into another output.
fn tangled(xs: &[Column], ys: &[ColumnMut], rows: usize) -> bool {
    let span = |at: *const u8, step: isize| {
        let (first, last) = (at as isize, at as isize + step * (rows as isize - 1));
        (first.min(last), first.max(last) + WORD)
    };
    let meet = |a: (isize, isize), b: (isize, isize)| a.0 < b.1 && b.0 < a.1;
    let wanted = |y: &&ColumnMut| !y.at.is_null();
    ys.iter().enumerate().filter(|(_, y)| wanted(y)).any(|(j, y)| {
        let written = span(y.at, y.step);
        (y.step == 0 && rows > 1)
            || xs.iter().any(|x| {
                !(x.at == y.at.cast_const() && x.step == y.step) && meet(span(x.at, x.step), written)
            })
            || ys[..j].iter().filter(wanted).any(|z| meet(span(z.at, z.step), written))
    })
}
