//! The holes of the workpiece, by their diameters.
use std::collections::BTreeMap;

/// How much larger than its drill a hole may be stated: common practice, no source.
const OVERSIZE: f64 = 1.03;

/// Holes of one diameter.
#[derive(Clone, Copy)]
pub(in crate::plan) struct Hole {
    pub(in crate::plan) diameter: f64,
    pub(in crate::plan) depth: f64,
    /// Where the tool starts above the surface.
    pub(in crate::plan) approach: f64,
    /// How far the full diameter runs out of the far side; zero for a blind hole.
    pub(in crate::plan) breakthrough: f64,
    pub(in crate::plan) count: u64,
    /// The operation that made them last, counted from 0.
    pub(in crate::plan) index: usize,
}

/// Holes by the bits of their diameter, which is positive: these stand in its order.
#[derive(Default)]
pub(in crate::plan) struct Holes {
    by_diameter: BTreeMap<u64, Hole>,
    last: Option<Hole>,
}

impl Holes {
    /// Adds holes to those of the same diameter.
    pub(in crate::plan) fn add(&mut self, hole: Hole) {
        let own = self.by_diameter.entry(hole.diameter.to_bits()).or_insert(Hole { count: 0, ..hole });
        *own = Hole { count: own.count + hole.count, ..hole };
        self.last = Some(hole);
    }

    /// The holes that a stated diameter means: a drill cuts its own or a little more.
    pub(in crate::plan) fn of(&self, diameter: f64) -> Option<Hole> {
        let (_, found) = self.by_diameter.range(..=diameter.to_bits()).next_back()?;
        (diameter <= found.diameter * OVERSIZE).then_some(*found)
    }

    /// Those that the last operation in holes made.
    pub(in crate::plan) fn last(&self) -> Option<Hole> {
        self.last
    }

    /// Makes some of the holes larger; as many as there are keep their depth and their far side.
    pub(in crate::plan) fn enlarge(&mut self, old: Hole, new: Hole) {
        let key = old.diameter.to_bits();
        match self.by_diameter.get_mut(&key) {
            Some(own) if own.count > new.count => own.count -= new.count,
            _ => drop(self.by_diameter.remove(&key)),
        }
        self.add(new);
    }
}
