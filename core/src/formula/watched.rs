//! Batches of so many rows that they are watched, and that threads may share.
#![allow(unsafe_code)]
use super::batch::{Met, Row};
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::column::{Column, ColumnMut, NOWHERE, NOWHERE_MUT, WORD, tangled};
use super::record::Formula;
use crate::Error;
use crate::parallel::{on_threads, threads_for};
use crate::quantity::Units;
use crate::watch::{Steps, Stopped, Watch};
use std::sync::atomic::{AtomicUsize, Ordering};

/// Rows that a thread computes before it looks whether the work goes on, and takes others.
const PIECE: usize = 1 << 15;

impl Formula {
    /// [`Formula::batch`] under a watch, which can stop it and is told how far it is. Of stopped work the rows at the
    /// front are written.
    ///
    /// # Errors
    /// As [`Formula::batch`], and [`Error::Stopped`].
    pub fn batch_watched(
        &self,
        units: Units,
        xs: &[&[f64]],
        ys: &mut [&mut [f64]],
        watch: &Watch,
    ) -> Result<Met, Error> {
        self.batch_on_threads(units, xs, ys, 1, watch)
    }

    /// [`Formula::batch_watched`] on several threads, to the same bits; zero stands for as many as the machine runs at
    /// once. Memory, which threads share, limits a formula of little arithmetic.
    ///
    /// ```
    /// use tenths::{Units, Watch, find};
    /// let speed = find("surface_speed").ok_or("no such formula")?;
    /// let (diameters, spindle_speeds) = (vec![50.0; 100_000], vec![800.0; 100_000]);
    /// let mut speeds = vec![0.0; 100_000];
    /// let columns: [&[f64]; 2] = [&diameters, &spindle_speeds];
    /// speed.batch_on_threads(Units::Metric, &columns, &mut [&mut speeds], 2, &Watch::new())?;
    /// assert!((speeds[99_999] - 125.66).abs() < 0.01);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// As [`Formula::batch_watched`].
    pub fn batch_on_threads(
        &self,
        units: Units,
        xs: &[&[f64]],
        ys: &mut [&mut [f64]],
        threads: usize,
        watch: &Watch,
    ) -> Result<Met, Error> {
        let rows = ys.first().map_or(0, |y| y.len());
        // An empty batch finds columns that are too few or too many.
        let mut none: Vec<&mut [f64]> = ys.iter().map(|_| &mut [][..]).collect();
        self.batch(units, &xs.iter().map(|_| &[][..]).collect::<Vec<_>>(), &mut none)?;
        let lengths = xs.iter().map(|x| x.len()).chain(ys.iter().map(|y| y.len()));
        if let Some(got) = lengths.into_iter().find(|&n| n != rows) {
            return Err(Error::Count {
                formula: self.name,
                what: "rows in every column",
                expected: rows,
                got,
            });
        }
        let from: Vec<_> = xs.iter().map(|x| Column { at: x.as_ptr().cast(), step: WORD }).collect();
        let to: Vec<_> = ys.iter_mut().map(|y| ColumnMut { at: y.as_mut_ptr().cast(), step: WORD }).collect();
        // SAFETY: the slices are valid for `rows` aligned elements, and exclusive ones overlap nothing.
        let met = unsafe { self.batch_raw_watched(units, &from, &to, rows, None, threads, (watch, &mut 0)) };
        Ok(met?)
    }

    /// [`Formula::batch_raw`] under a watch, on several threads, which may tell of rows in any order. `reached` is set to
    /// how many rows at the front are written, also of stopped work.
    ///
    /// # Errors
    /// [`Stopped`].
    ///
    /// # Safety
    /// As [`Formula::batch_raw`].
    #[allow(clippy::too_many_arguments)]
    pub unsafe fn batch_raw_watched(
        &self,
        units: Units,
        xs: &[Column],
        ys: &[ColumnMut],
        rows: usize,
        tell: Option<&(dyn Fn(Row) + Sync)>,
        threads: usize,
        (watch, reached): (&Watch, &mut usize),
    ) -> Result<Met, Stopped> {
        let (steps, next) = (Steps::new(watch, rows as u64), AtomicUsize::new(0));
        let work = Share {
            formula: self,
            units,
            columns: Columns { xs, ys },
            rows,
            tell,
            next: &next,
            steps: &steps,
        };
        let threads = threads_for(threads, rows.div_ceil(PIECE) as u64);
        // Where an output runs into an input, the order of rows matters.
        let threads = if threads > 1 && tangled(xs, ys, rows) { 1 } else { threads };
        // SAFETY: the caller's promise; each row is computed by one thread.
        let met = on_threads(threads, &|| unsafe { work.run() });
        // Whoever takes rows computes them before it looks whether the work goes on.
        *reached = next.into_inner().saturating_mul(PIECE).min(rows);
        steps.end()?;
        Ok(met?.into_iter().fold(Met::default(), Met::and))
    }
}

/// The columns of a batch.
#[derive(Clone, Copy)]
struct Columns<'a> {
    xs: &'a [Column],
    ys: &'a [ColumnMut],
}

// SAFETY: the threads read inputs, and each writes rows of its own.
unsafe impl Sync for Columns<'_> {}

/// What each thread does: it takes the next rows until there are no more.
struct Share<'a> {
    formula: &'a Formula,
    units: Units,
    columns: Columns<'a>,
    rows: usize,
    tell: Option<&'a (dyn Fn(Row) + Sync)>,
    /// The piece that nobody has taken yet.
    next: &'a AtomicUsize,
    steps: &'a Steps<'a>,
}

impl Share<'_> {
    /// # Safety
    /// As [`Formula::batch_raw`].
    unsafe fn run(&self) -> Result<Met, Stopped> {
        let mut met = Met::default();
        loop {
            let start = self.next.fetch_add(1, Ordering::Relaxed).saturating_mul(PIECE);
            if start >= self.rows {
                return Ok(met);
            }
            let count = PIECE.min(self.rows - start);
            // SAFETY: the caller's promise.
            met = met.and(unsafe { self.piece(start, count) });
            self.steps.count(count as u64)?;
        }
    }

    /// # Safety
    /// As [`Formula::batch_raw`].
    unsafe fn piece(&self, start: usize, count: usize) -> Met {
        let Columns { xs, ys } = self.columns;
        let (mut from, mut to) = ([NOWHERE; MAX_INPUTS], [NOWHERE_MUT; MAX_OUTPUTS]);
        from.iter_mut().zip(xs).for_each(|(from, x)| *from = x.from_row(start));
        to.iter_mut().zip(ys).for_each(|(to, y)| *to = y.from_row(start));
        let (from, to) = (&from[..xs.len().min(MAX_INPUTS)], &to[..ys.len().min(MAX_OUTPUTS)]);
        let mut told = self.tell.map(|tell| move |row: Row| tell(Row { number: start + row.number, ..row }));
        let tell = told.as_mut().map(|told| told as &mut dyn FnMut(Row));
        // SAFETY: the caller's promise for these rows.
        unsafe { self.formula.batch_raw(self.units, from, to, count, tell) }
    }
}

impl Met {
    /// What two batches met.
    fn and(self, other: Met) -> Met {
        Met { refused: self.refused || other.refused, advice: self.advice | other.advice }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::milling_cut::MILLING_CUT;
    use crate::formula::Advice;
    use crate::quantity::Units::Metric;
    use std::ops::ControlFlow;
    use std::sync::Mutex;

    const ROWS: usize = 3 * PIECE + 77;

    /// Cuts of which every hundredth has no answer, another one advice.
    fn cuts() -> Vec<Vec<f64>> {
        const CUT: [f64; 14] =
            [20.0, 4.0, 3000.0, 0.1, 8.0, 5.0, 1700.0, 0.25, 60.0, 2.0, 1.0, 0.01, 1.1, 0.8];
        let varied = |k: usize, row: usize| match (k, row % 100) {
            (1, _) => CUT[k],
            (0, 3) => -1.0,
            (9, 4) => 60.0,
            _ => CUT[k] * (1.0 - 1e-6 * row as f64),
        };
        (0..CUT.len()).map(|k| (0..ROWS).map(|row| varied(k, row)).collect()).collect()
    }

    #[test]
    fn threads_change_no_bit_and_tell_of_the_same_rows() {
        let columns = cuts();
        let xs: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
        let empty = || vec![vec![7.0; ROWS]; MILLING_CUT.outputs.len()];
        let bits = |ys: Vec<Vec<f64>>| ys.concat().into_iter().map(f64::to_bits).collect::<Vec<_>>();
        let (mut ys, mut told) = (empty(), vec![]);
        let mut views: Vec<&mut [f64]> = ys.iter_mut().map(Vec::as_mut_slice).collect();
        let met = MILLING_CUT.batch_telling(Metric, &xs, &mut views, &mut |row| told.push(row)).unwrap();
        assert!(met.refused && met.advice != Advice::default());
        let plain = bits(ys);
        for threads in [0, 1, 2, 3, 64] {
            let mut ys = empty();
            let mut views: Vec<&mut [f64]> = ys.iter_mut().map(Vec::as_mut_slice).collect();
            let watch = Watch::new();
            let shared = MILLING_CUT.batch_on_threads(Metric, &xs, &mut views, threads, &watch).unwrap();
            assert_eq!(shared.refused, met.refused);
            assert!(bits(ys) == plain, "{threads} threads");

            let mut ys = empty();
            let from: Vec<_> = xs.iter().map(|x| Column { at: x.as_ptr().cast(), step: WORD }).collect();
            let to: Vec<_> =
                ys.iter_mut().map(|y| ColumnMut { at: y.as_mut_ptr().cast(), step: WORD }).collect();
            let (rows, mut reached) = (Mutex::new(vec![]), 0);
            let tell = |row| rows.lock().unwrap().push(row);
            // SAFETY: the columns have so many rows.
            let telling = unsafe {
                let asked = (&watch, &mut reached);
                MILLING_CUT.batch_raw_watched(Metric, &from, &to, ROWS, Some(&tell), threads, asked)
            };
            assert_eq!((telling, reached), (Ok(met), ROWS));
            let mut rows = rows.into_inner().unwrap();
            rows.sort_by_key(|row: &Row| row.number);
            assert_eq!(rows, told);
        }
    }

    /// A running product: each row takes what the row before it gave.
    #[test]
    fn rows_that_need_their_order_keep_it() {
        use crate::cutting::speed::SURFACE_SPEED;
        let run = |threads| {
            let (mut numbers, other) = (vec![1.0; ROWS + 1], vec![318.3; ROWS]);
            numbers[0] = 900.0;
            let at = numbers.as_mut_ptr();
            let xs = [Column { at: at.cast(), step: WORD }, Column { at: other.as_ptr().cast(), step: WORD }];
            let ys = [ColumnMut { at: at.wrapping_add(1).cast(), step: WORD }];
            // SAFETY: `numbers` has a row more than there are.
            unsafe {
                let asked = (&Watch::new(), &mut 0);
                SURFACE_SPEED.batch_raw_watched(Metric, &xs, &ys, ROWS, None, threads, asked).unwrap();
            }
            numbers.into_iter().map(f64::to_bits).collect::<Vec<_>>()
        };
        assert!(run(1) == run(4));
    }

    #[test]
    fn what_is_reached_of_stopped_work_is_written() {
        use crate::cutting::speed::SURFACE_SPEED;
        for threads in [1, 3] {
            let stop = |_| ControlFlow::Break(());
            let (watch, mut reached, mut y) = (Watch::telling(stop), 0, vec![7.0; ROWS]);
            let x = vec![30.0; ROWS];
            let xs = [Column { at: x.as_ptr().cast(), step: WORD }; 2];
            let ys = [ColumnMut { at: y.as_mut_ptr().cast(), step: WORD }];
            // SAFETY: the columns have so many rows.
            let stopped = unsafe {
                SURFACE_SPEED.batch_raw_watched(Metric, &xs, &ys, ROWS, None, threads, (&watch, &mut reached))
            };
            assert_eq!(stopped, Err(Stopped));
            assert!((PIECE..=ROWS).contains(&reached), "{reached}");
            assert!(y[..reached].iter().all(|y| *y != 7.0) && y[reached..].iter().all(|y| *y == 7.0));
        }
    }
}
