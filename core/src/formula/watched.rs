//! Batches of so many rows that they are watched.
#![allow(unsafe_code)]
use super::batch::{Met, Row};
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::column::{Column, ColumnMut, NOWHERE, NOWHERE_MUT};
use super::record::Formula;
use crate::Error;
use crate::quantity::Units;
use crate::watch::{Steps, Stopped, Watch};

/// Rows that are computed before it is seen whether the work goes on.
const PIECE: usize = 1 << 16;

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
        let rows = ys.first().map_or(0, |y| y.len());
        // An empty batch finds columns that are too few or too many.
        let mut met =
            self.batch(units, &xs.iter().map(|_| &[][..]).collect::<Vec<_>>(), &mut columns(ys, 0..0))?;
        let lengths = xs.iter().map(|x| x.len()).chain(ys.iter().map(|y| y.len()));
        if let Some(got) = lengths.into_iter().find(|&n| n != rows) {
            return Err(Error::Count {
                formula: self.name,
                what: "rows in every column",
                expected: rows,
                got,
            });
        }
        let steps = Steps::new(watch, rows as u64);
        for start in (0..rows).step_by(PIECE) {
            let piece = start..rows.min(start + PIECE);
            let xs: Vec<&[f64]> = xs.iter().map(|x| &x[piece.clone()]).collect();
            met = met.and(self.batch(units, &xs, &mut columns(ys, piece.clone()))?);
            steps.count(piece.len() as u64)?;
        }
        steps.end()?;
        Ok(met)
    }

    /// [`Formula::batch_raw`] under a watch. `reached` is set to how many rows are written, also of stopped work.
    ///
    /// # Errors
    /// [`Stopped`].
    ///
    /// # Safety
    /// As [`Formula::batch_raw`].
    pub unsafe fn batch_raw_watched(
        &self,
        units: Units,
        xs: &[Column],
        ys: &[ColumnMut],
        rows: usize,
        mut tell: Option<&mut dyn FnMut(Row)>,
        (watch, reached): (&Watch, &mut usize),
    ) -> Result<Met, Stopped> {
        *reached = 0;
        let (steps, mut met) = (Steps::new(watch, rows as u64), Met::default());
        for start in (0..rows).step_by(PIECE) {
            let count = PIECE.min(rows - start);
            let (mut from, mut to) = ([NOWHERE; MAX_INPUTS], [NOWHERE_MUT; MAX_OUTPUTS]);
            from.iter_mut().zip(xs).for_each(|(from, x)| *from = x.from_row(start));
            to.iter_mut().zip(ys).for_each(|(to, y)| *to = y.from_row(start));
            let (from, to) = (&from[..xs.len().min(MAX_INPUTS)], &to[..ys.len().min(MAX_OUTPUTS)]);
            let mut told =
                tell.as_mut().map(|tell| move |row: Row| tell(Row { number: start + row.number, ..row }));
            let tell = told.as_mut().map(|told| told as &mut dyn FnMut(Row));
            // SAFETY: the caller's promise for these rows.
            met = met.and(unsafe { self.batch_raw(units, from, to, count, tell) });
            *reached += count;
            steps.count(count as u64)?;
        }
        steps.end()?;
        Ok(met)
    }
}

impl Met {
    /// What two batches met.
    fn and(self, other: Met) -> Met {
        Met { refused: self.refused || other.refused, advice: self.advice | other.advice }
    }
}

/// Some rows of every column.
fn columns<'y>(ys: &'y mut [&mut [f64]], rows: std::ops::Range<usize>) -> Vec<&'y mut [f64]> {
    ys.iter_mut().map(|y| &mut y[rows.clone()]).collect()
}
