//! The workpiece as it goes from operation to operation: what each one finds, and what it leaves.
mod features;
mod holes;
mod outside;

pub(super) use features::{Feature, FeatureKind, Met};
pub(super) use holes::{Hole, Holes};
pub use outside::End;
pub(super) use outside::{Outside, Step};

use super::evaluation::Sawn;
use crate::Size;
use std::collections::BTreeMap;

/// Rockwell hardness, scale C, from which common tools no longer cut: common practice, no source.
pub(super) const TOO_HARD: f64 = 45.0;

/// The state of the workpiece between two operations. Operations are counted from 0.
#[derive(Default)]
pub(super) struct Workpiece {
    /// Its length as cut off, less what faces have taken; nothing where no operation tells it.
    pub(super) length: Option<Size>,
    /// What is turned and ground on its outside.
    pub(super) outside: Outside,
    pub(super) holes: Holes,
    /// Threads and flats on the outside.
    pub(super) features: Vec<Feature>,
    /// The operation that knurled it last: the outside then stands above its blank.
    pub(super) knurled: Option<usize>,
    /// The first operation that left burrs since the last deburring, and how many did.
    pub(super) burrs: Option<(usize, usize)>,
    /// The operation that left scale on it.
    pub(super) scale: Option<usize>,
    /// The operation that hardened it, and the least hardness that it left.
    pub(super) hardened: Option<(usize, f64)>,
    /// Plated characteristics with the operations that plated them.
    pub(super) plated: BTreeMap<u32, usize>,
}

impl Workpiece {
    /// The blank: a bar of this size, from which parts are cut so long.
    pub(super) fn new(bar: Size, sawn: Option<Sawn>) -> Workpiece {
        let outside = Outside::new(bar);
        Workpiece { length: sawn.map(|sawn| sawn.length), outside, ..Workpiece::default() }
    }

    /// Takes a face off.
    pub(super) fn shorten(&mut self, taken: Option<Size>) {
        self.length = self.length.and_then(|length| length.checked_sub(taken?)).filter(|l| l.is_positive());
    }

    /// One more operation that leaves burrs.
    pub(super) fn burr(&mut self, index: usize) {
        let (first, count) = self.burrs.unwrap_or((index, 0));
        self.burrs = Some((first, count + 1));
    }
}
