//! Columns of a batch: reading them into base units with the checks of an argument, and writing them in shop units.
#![allow(unsafe_code)]
use crate::quantity::Unit;
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

impl Column {
    /// The column from one of its rows on.
    pub fn from_row(self, row: usize) -> Column {
        Column { at: self.at.wrapping_offset(row as isize * self.step), ..self }
    }
}

impl ColumnMut {
    /// The column from one of its rows on; one that is not wanted stays so.
    pub fn from_row(self, row: usize) -> ColumnMut {
        if self.at.is_null() {
            return self;
        }
        ColumnMut { at: self.at.wrapping_offset(row as isize * self.step), ..self }
    }
}

/// The step of contiguous elements.
pub(super) const WORD: isize = size_of::<f64>() as isize;
/// An argument that is not there.
pub(super) const NOWHERE: Column = Column { at: std::ptr::null(), step: 0 };
/// An output that is not wanted.
pub(super) const NOWHERE_MUT: ColumnMut = ColumnMut { at: std::ptr::null_mut(), step: 0 };

/// Reads a column in shop units into base units, and tells whether all lies between two ends, and is whole where `WHOLE`
/// asks for it.
///
/// # Safety
/// The column is valid for as many elements as there is room.
#[inline(always)]
pub(super) unsafe fn read<const WHOLE: bool>(
    at: *const u8,
    step: isize,
    unit: &Unit,
    (low, high): (f64, f64),
    to: &mut [MaybeUninit<f64>],
) -> bool {
    let mut inside = true;
    let mut take = |to: &mut MaybeUninit<f64>, reading: f64| {
        let x = unit.to_base(reading);
        inside &= (low <= x) & (x <= high) & (!WHOLE | (x.trunc() == x));
        to.write(x);
    };
    if step == WORD {
        // SAFETY: contiguous elements.
        let from = unsafe { std::slice::from_raw_parts(at.cast::<f64>(), to.len()) };
        to.iter_mut().zip(from).for_each(|(to, &reading)| take(to, reading));
    } else {
        for (row, to) in to.iter_mut().enumerate() {
            // SAFETY: the caller's promise.
            take(to, unsafe { at.offset(row as isize * step).cast::<f64>().read() });
        }
    }
    inside
}

/// Writes a column in shop units; tells whether all its numbers are finite there.
///
/// # Safety
/// The column is valid for `start + y.len()` elements.
#[inline(always)]
pub(super) unsafe fn write<const WIDE: bool>(
    column: ColumnMut,
    start: usize,
    unit: &Unit,
    y: &[f64],
) -> bool {
    // SAFETY: the caller's promise.
    let at = unsafe { column.at.offset(start as isize * column.step) };
    if column.step == WORD {
        // SAFETY: contiguous elements, which the block does not overlap.
        let to = unsafe { std::slice::from_raw_parts_mut(at.cast::<f64>(), y.len()) };
        return readings_of::<WIDE>(unit, y, to);
    }
    let mut told = true;
    for (row, &y) in y.iter().enumerate() {
        told &= unit.can_represent(y);
        // SAFETY: the caller's promise.
        unsafe { at.offset(row as isize * column.step).cast::<f64>().write(unit.from_base(y)) };
    }
    told
}

/// Numbers in shop units; tells whether all are finite there.
#[inline(always)]
fn readings_of<const WIDE: bool>(unit: &Unit, y: &[f64], to: &mut [f64]) -> bool {
    let mut told = true;
    // Divisions take longer than the rest of the block.
    if unit.scale == 1.0 {
        for (to, &y) in to.iter_mut().zip(y) {
            told &= unit.can_represent(y);
            *to = y;
        }
        return told;
    }
    if WIDE && divide_fused(unit.scale, y, to) {
        return true;
    }
    for (to, &y) in to.iter_mut().zip(y) {
        told &= unit.can_represent(y);
        *to = unit.from_base(y);
    }
    told
}

/// Quotients by a scale to the bits of a division, by its reciprocal and fused products; whether that holds.
///
/// The remainder of a quotient that is off by an ulp or two is exact, and the quotient corrected by it is the nearest
/// number to the true one (P. Markstein, IA-64 and Elementary Functions, 2000, chapter 8; from memory), as long as no
/// number comes near overflow or underflow.
#[inline(always)]
fn divide_fused(scale: f64, y: &[f64], to: &mut [f64]) -> bool {
    const FAR_FROM_ENDS: (f64, f64) = (1e-280, 1e280);
    let (low, high) = FAR_FROM_ENDS;
    if !(1e-20..=1e20).contains(&scale) {
        return false;
    }
    let reciprocal = 1.0 / scale;
    let mut usual = true;
    for (to, &y) in to.iter_mut().zip(y) {
        usual &= (low <= y.abs()) & (y.abs() <= high);
        let near = y * reciprocal;
        let remainder = (-near).mul_add(scale, y);
        *to = remainder.mul_add(reciprocal, near);
    }
    usual
}

/// Whether an output runs into an input other than exactly upon it, or into another output.
pub(super) fn tangled(xs: &[Column], ys: &[ColumnMut], rows: usize) -> bool {
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const UNIT: Unit = Unit { label: "", spellings: &[], scale: 1.0 };

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]

        // Random fractions over every size, and the same beside whole readings, where rounding is closest to a tie.
        #[test]
        fn fused_quotients_are_those_of_a_division(
            fraction in 1.0..2.0f64, power in -900i64..900, whole in 1..1i64 << 53,
            scale in prop::sample::select(vec![1000.0, 12.0, 100.0, 396_000.0, 6e7, 6e4, 1e6, 1e-6, 1e-3, 1.0 / 60.0]),
            off in -2i64..=2,
        ) {
            let large = fraction * f64::from_bits(((1023 + power) as u64) << 52);
            let near = whole as f64 * scale;
            let near = f64::from_bits(near.to_bits().wrapping_add_signed(off));
            let y = [large, -large, near, -near];
            let mut quotients = [0.0; 4];
            prop_assert!(divide_fused(scale, &y, &mut quotients));
            prop_assert_eq!(quotients, y.map(|y| y / scale));
        }
    }

    #[test]
    fn numbers_near_the_ends_are_left_to_the_division() {
        for y in [0.0, -0.0, 1e-300, 5e-324, 1e300, f64::MAX, f64::INFINITY, f64::NAN] {
            assert!(!divide_fused(1000.0, &[1.0, y], &mut [0.0; 2]), "{y}");
            let (mut told, unit) = ([7.0; 2], Unit { scale: 1000.0, ..UNIT });
            assert_eq!(readings_of::<true>(&unit, &[1.0, y], &mut told), y.is_finite());
            assert_eq!(told.map(f64::to_bits), [1e-3, y / 1000.0].map(f64::to_bits), "{y}");
        }
    }
}
