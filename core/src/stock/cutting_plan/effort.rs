//! How much a search may still do.
use std::cell::Cell;

/// What is left of the work that a search may do, in steps of some nanoseconds, and a check that may end it sooner.
/// The check is given the steps that were done since it was last asked.
pub(super) struct Effort<'a> {
    left: Cell<u64>,
    unchecked: Cell<u64>,
    ended: Cell<bool>,
    goes_on: &'a dyn Fn(u64) -> bool,
}

/// Steps between two checks: a millisecond or so.
const STEPS_A_CHECK: u64 = 100_000;

impl<'a> Effort<'a> {
    pub fn new(limit: u64, goes_on: &'a dyn Fn(u64) -> bool) -> Self {
        Self { left: Cell::new(limit), unchecked: Cell::new(0), ended: Cell::new(limit == 0), goes_on }
    }

    /// Draws on what is left, and says whether the search goes on.
    pub fn spend(&self, steps: u64) -> bool {
        self.left.set(self.left.get().saturating_sub(steps));
        let unchecked = self.unchecked.get() + steps;
        if unchecked >= STEPS_A_CHECK {
            self.unchecked.set(0);
            if !(self.goes_on)(unchecked) {
                self.ended.set(true);
            }
        } else {
            self.unchecked.set(unchecked);
        }
        if self.left.get() == 0 {
            self.ended.set(true);
        }
        !self.ended.get()
    }

    /// Whether the search has to end.
    pub fn has_ended(&self) -> bool {
        self.ended.get()
    }
}
