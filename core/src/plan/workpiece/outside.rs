//! The outside of the workpiece: the diameters that are turned on it, along its axis where a plan says how far.
use crate::Size;
use crate::document::form::*;

choices! {
    /// An end of the part.
    End {
        /// The one that the plan takes first.
        First = "first",
        /// The other one.
        Second = "second",
    }
}

/// A turned or ground step, from an end of the part.
#[derive(Clone, Copy)]
pub(in crate::plan) struct Step {
    pub(in crate::plan) end: End,
    /// How far it reaches from its end.
    pub(in crate::plan) length: Size,
    pub(in crate::plan) diameter: Size,
    /// The operation, counted from 0.
    pub(in crate::plan) index: usize,
}

/// The diameters of the outside.
#[derive(Default)]
pub(in crate::plan) struct Outside {
    bar: Size,
    /// Steps whose place is known.
    steps: Vec<Step>,
    /// All diameters that cuts have left, wherever they are.
    left: Vec<Size>,
    /// Those of cuts whose place is not known.
    unplaced: Vec<Size>,
}

impl Outside {
    pub(super) fn new(bar: Size) -> Outside {
        Outside { bar, ..Outside::default() }
    }

    /// Notes a diameter that a cut has left.
    pub(in crate::plan) fn leave(&mut self, diameter: Size, step: Option<Step>) {
        self.left.push(diameter);
        if step.is_none() {
            self.unplaced.push(diameter);
        }
        if let Some(step) = step {
            // What is cut smaller and at least as far leaves nothing of an older step.
            let stays =
                |old: &Step| old.end != step.end || old.length > step.length || old.diameter < step.diameter;
            self.steps.retain(stays);
            self.steps.push(step);
        }
    }

    /// Whether the bar or a cut before has left about this diameter: within a tenth of it.
    pub(in crate::plan) fn has(&self, diameter: Size) -> bool {
        let near = |one: &Size| {
            let apart = one.picometres().abs_diff(diameter.picometres());
            apart <= diameter.picometres().unsigned_abs() / 10
        };
        near(&self.bar) || self.left.iter().any(near)
    }

    /// The step that already has this diameter or a smaller one from this end at least so far.
    pub(in crate::plan) fn covers(&self, end: End, length: Size, diameter: Size) -> Option<Step> {
        let is_cut = |step: &&Step| step.end == end && step.length >= length && step.diameter <= diameter;
        self.steps.iter().find(is_cut).copied()
    }

    /// The diameter so far from an end, and the operation that left it where it is not the bar.
    pub(in crate::plan) fn at(&self, end: End, length: Size) -> (Size, Option<usize>) {
        let over = self.steps.iter().filter(|step| step.end == end && step.length >= length);
        let least = over.min_by_key(|step| step.diameter);
        least.map_or((self.bar, None), |step| (step.diameter, Some(step.index)))
    }

    /// Whether a cut whose place is not known has left such a diameter.
    pub(in crate::plan) fn left_somewhere(&self, is_meant: impl Fn(Size) -> bool) -> bool {
        self.unplaced.iter().any(|left| is_meant(*left))
    }

    /// The longest step from the other end.
    pub(in crate::plan) fn opposite(&self, end: End) -> Option<Step> {
        self.steps.iter().filter(|step| step.end != end).max_by_key(|step| step.length).copied()
    }
}
