//! Whether the work that is planned can be done and makes what the drawing asks for, as far as the document tells by
//! itself. A room for each concern.
mod burrs;
mod capability;
mod coverage;
mod extent;
mod holes;
mod kinds;
mod order;
mod sizes;

use super::evaluation::Evaluation;
use super::operation::Operation;

impl Evaluation<'_> {
    pub(super) fn judge_plan(&mut self, operations: &[Operation]) {
        self.judge_kinds(operations);
        self.judge_order(operations);
        self.judge_sizes(operations);
        self.judge_extent(operations);
        self.judge_holes(operations);
        self.judge_burrs(operations);
        self.judge_coverage(operations);
        self.judge_capability();
    }
}
