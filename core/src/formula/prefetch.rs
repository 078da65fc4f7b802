//! Memory called into the cache before a batch needs it.
//!
//! A processor computes on while some lines of memory are on their way, but waits where it is asked for more of them
//! than it can keep in mind. So the kernel runs in short pieces, and with each as many rows of the next block are
//! called. Over a table larger than the cache the arithmetic then hides most of the time that memory takes.
#![allow(unsafe_code)]
use super::code::{BLOCK, Code, MAX_INPUTS, MAX_OUTPUTS};
use super::column::{Column, ColumnMut, WORD};
use crate::quantity::Units;
use crate::simd::{LINE, call_line};

/// Elements of a contiguous column in one line.
const LINE_ROWS: usize = LINE / size_of::<f64>();
/// Lines called at a time: about as many as the first two caches of a core can await.
const LINES_AWAITED: usize = 48;
/// What the second cache of a core holds at least, in bytes: a smaller table is likely to be there already.
const SECOND_CACHE: usize = 1 << 18;
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
        if rows.saturating_mul((xs.len() + ys.len()) * size_of::<f64>()) <= SECOND_CACHE {
            return ahead;
        }
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

#[cfg(test)]
mod tests {
    use super::SECOND_CACHE;
    use crate::cutting::{milling_cut::MILLING_CUT, speed::SURFACE_SPEED};
    use crate::formula::Formula;
    use crate::quantity::Units::Metric;

    /// Whatever the rows before the first line of memory, and whether the last block is whole.
    #[test]
    fn large_tables_give_the_bits_of_single_rows() {
        const CUT: [f64; 14] =
            [20.0, 4.0, 3000.0, 0.1, 8.0, 5.0, 1700.0, 0.25, 60.0, 2.0, 1.0, 0.01, 1.1, 0.8];
        let cases: [(&Formula, &[f64]); 2] = [(&MILLING_CUT, &CUT), (&SURFACE_SPEED, &[20.0, 3000.0])];
        for (formula, first) in cases {
            let rows = SECOND_CACHE / size_of::<f64>() / (first.len() + formula.outputs.len()) + 300;
            // Teeth stay whole.
            let varied = |x: f64, row: usize| if x == 4.0 { x } else { x * (1.0 - 1e-6 * row as f64) };
            let column = |x: &f64| (0..rows).map(|row| varied(*x, row)).collect::<Vec<_>>();
            let columns: Vec<Vec<f64>> = first.iter().map(column).collect();
            for skipped in [0, 1, 6] {
                let xs: Vec<&[f64]> = columns.iter().map(|x| &x[skipped..]).collect();
                let mut ys = vec![vec![0.0; rows - skipped]; formula.outputs.len()];
                let mut views: Vec<&mut [f64]> = ys.iter_mut().map(Vec::as_mut_slice).collect();
                let met = formula.batch(Metric, &xs, &mut views).unwrap();
                assert!(!met.refused);
                for row in 0..rows - skipped {
                    let x: Vec<f64> = xs.iter().map(|x| x[row]).collect();
                    let mut alone = vec![0.0; ys.len()];
                    formula.call(Metric, &x, &mut alone).unwrap();
                    assert!(ys.iter().zip(&alone).all(|(y, alone)| y[row].to_bits() == alone.to_bits()));
                }
            }
        }
    }
}
