//! Figures of what is to be set at the machine, as a sheet there shows them.
use super::evaluation::Evaluation;
use super::sheet::Figure;
use crate::Size;
use crate::document::{DocumentNumber, Reference};
use crate::quantity::Length;

/// A count.
pub(super) fn count(name: &'static str, count: u32) -> Figure {
    Figure::counted(name, count)
}

impl Evaluation<'_> {
    /// A size.
    pub(super) fn size(&self, name: &'static str, size: Size) -> Figure {
        self.plain::<Length>(name, self.float(size))
    }

    /// A size less what cuts of a depth take off it; nothing beyond what a size can be.
    pub(super) fn less(&self, from: Size, depth: DocumentNumber<Length>, cuts: Option<u32>) -> Option<Size> {
        let depth = Size::from_float(depth.value(), self.units).ok()?;
        from.checked_sub(depth.checked_mul(cuts?.into())?)
    }

    /// The size that is left after passes of a depth on one or both sides; `None` if nothing is left.
    pub(super) fn left(&self, from: Size, depth: f64, sides: u32, passes: u32) -> Option<Size> {
        let depth = Size::from_float(depth, self.units).ok()?;
        let taken = depth.checked_mul(i64::from(sides) * i64::from(passes))?;
        from.checked_sub(taken).filter(|left| left.is_positive())
    }

    /// A size and what cuts of a depth add to it; nothing beyond what a size can be.
    pub(super) fn grown(&self, from: Size, depth: DocumentNumber<Length>, cuts: Option<u32>) -> Option<Size> {
        let depth = Size::from_float(depth.value(), self.units).ok()?;
        from.checked_add(depth.checked_mul(cuts?.into())?)
    }

    /// The limits of a characteristic with something more; nothing where they are not known.
    pub(super) fn limits_or(&self, number: Reference, names: [&'static str; 2], more: Size) -> Vec<Figure> {
        let limits = self.limits_of(number.0).map(|c| *c.limits);
        let ends = limits.and_then(|l| Some([l.lower().checked_add(more)?, l.upper().checked_add(more)?]));
        let ends = ends.into_iter().flatten();
        names.into_iter().zip(ends).map(|(name, size)| self.size(name, size)).collect()
    }
}
