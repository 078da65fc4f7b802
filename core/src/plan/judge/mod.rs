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

use super::evaluate::Evaluation;

impl Evaluation<'_> {
    pub(super) fn judge_plan(&mut self) {
        self.judge_kinds();
        self.judge_order();
        self.judge_sizes();
        self.judge_extent();
        self.judge_holes();
        self.judge_burrs();
        self.judge_coverage();
        self.judge_capability();
    }
}
