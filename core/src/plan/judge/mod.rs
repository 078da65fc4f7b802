//! Whether the work that is planned can be done and makes what the drawing asks for. A room for each concern: what one
//! operation meets on the workpiece is judged on one walk along the operations, which carries its state.
mod capability;
mod condition;
mod coverage;
mod extent;
mod features;
mod held;
mod holes;
mod kinds;
mod order;
mod outside;
mod sizes;
mod tolerance;

use super::evaluation::{Evaluation, OPERATIONS};
use super::operation::Operation;
use super::workpiece::Workpiece;

/// An operation on the walk.
#[derive(Clone, Copy)]
struct Stop<'d> {
    /// Its place in the order of the work, from 0.
    index: usize,
    operation: &'d Operation,
}

impl Evaluation<'_> {
    pub(super) fn judge_plan(&mut self, operations: &[Operation]) {
        self.judge_kinds(operations);
        self.judge_order(operations);
        let mut piece = Workpiece::new(self.bar.limits.upper(), self.sawn);
        for (index, operation) in operations.iter().enumerate() {
            let (stop, place) = (Stop { index, operation }, OPERATIONS.index(index));
            self.judge_sizes(place, operation);
            self.judge_extent(place, operation, &piece);
            self.judge_held(place, operation, &piece);
            self.judge_condition(stop, place, &mut piece);
            self.judge_features(stop, place, &mut piece);
            self.judge_outside(stop, place, &mut piece);
            self.judge_holes(stop, place, &mut piece);
            self.judge_tolerance(place, operation);
        }
        self.judge_leaving(&piece);
        self.judge_length(operations);
        self.judge_contact();
        self.judge_coverage(operations);
        self.judge_capability();
    }
}
