//! Memory called into the cache before a batch needs it.
//!
//! A processor computes on while some lines of memory are on their way, but waits where it is asked for more of them
//! than it can keep in mind. So the kernel runs in short pieces, and with each as many rows of the next block are
//! called. Over a table larger than the cache the arithmetic then hides most of the time that memory takes.
#![allow(unsafe_code)]
use super::code::{BLOCK, Code, MAX_INPUTS, MAX_OUTPUTS};
use super::column::{Column, ColumnMut, WORD};
use crate::quantity::Units;
use crate::wide::{LINE, call_line};

/// Elements of a contiguous column in one line.
const LINE_ROWS: usize = LINE / size_of::<f64>();
/// Lines called at a time: about as many as the first two caches of a core can await.
const LINES_AWAITED: usize = 48;
/// The shortest piece: a call of the kernel takes as long as a few rows.
const SHORTEST: usize = 2 * LINE_ROWS;

/// The contiguous columns of a batch, and how far to go in them at a time.
pub(super) struct Ahead {
    columns: [*const u8; MAX_INPUTS + MAX_OUTPUTS],
    count: usize,
    rows: usize,
    /// Rows of a piece.
    piece: usize,
}

impl Ahead {
    /// For columns of so many rows. Others than contiguous ones are left to the processor, which sees a steady step.
    pub(super) fn of(xs: &[Column], ys: &[ColumnMut], rows: usize) -> Ahead {
        let mut ahead =
            Ahead { columns: [std::ptr::null(); MAX_INPUTS + MAX_OUTPUTS], count: 0, rows, piece: BLOCK };
        let inputs = xs.iter().map(|x| (x.at, x.step));
        let outputs = ys.iter().map(|y| (y.at.cast_const(), y.step));
        for ((at, _), to) in inputs.chain(outputs).filter(|(_, step)| *step == WORD).zip(&mut ahead.columns) {
            *to = at;
            ahead.count += 1;
        }
        let rows_awaited = LINES_AWAITED / ahead.count.max(1) * LINE_ROWS;
        ahead.piece = (rows_awaited / SHORTEST * SHORTEST).clamp(SHORTEST, BLOCK);
        ahead
    }

    /// Rows of the first block, so that later ones start where a line does: most large columns lie alike in theirs.
    pub(super) fn first_block(&self) -> usize {
        BLOCK - self.columns[0] as usize % LINE / size_of::<f64>()
    }

    /// Runs the code of a formula on a block, and calls the rows from `next` on.
    ///
    /// # Safety
    /// As for [`Code::block`].
    #[inline(always)]
    #[allow(clippy::too_many_arguments)]
    pub(super) unsafe fn run(
        &self,
        next: usize,
        code: &Code,
        units: Units,
        x: *const f64,
        y: *mut f64,
        n: usize,
        set: usize,
    ) {
        for row in (0..n).step_by(self.piece) {
            if next + row < self.rows {
                self.call(next + row);
            }
            // SAFETY: the caller's promise; `row < n <= BLOCK`, and columns lie `BLOCK` apart.
            unsafe { code.block(units, x.add(row), y.add(row), self.piece.min(n - row), set) };
        }
    }

    /// Calls a piece of every column.
    #[inline(always)]
    fn call(&self, row: usize) {
        for line in (row..row + self.piece).step_by(LINE_ROWS) {
            for column in &self.columns[..self.count] {
                call_line(column.wrapping_add(line * size_of::<f64>()));
            }
        }
    }
}
