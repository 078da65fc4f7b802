//! Whether burrs are off before a part is gauged or pressed.
use crate::finding::Severity;
use crate::plan::evaluation::{Evaluation, OPERATIONS};
use crate::plan::*;

impl Evaluation<'_> {
    /// A burr under a gauge or a micrometer is read as size, and it scores the bore of a hub.
    pub(super) fn judge_burrs(&mut self, operations: &[Operation]) {
        // The first operation that left burrs since the last deburring, and how many did.
        let mut burred: Option<(usize, usize)> = None;
        for (index, operation) in operations.iter().enumerate() {
            match &operation.work {
                Work::Saw(_) | Work::MillFlats(_) | Work::Drill(_) => {
                    let (first, count) = burred.unwrap_or((index, 0));
                    burred = Some((first, count + 1));
                }
                Work::Deburr(_) => burred = None,
                Work::Inspect(_) | Work::Press(_) => {
                    if let Some((first, count)) = burred.take() {
                        let then = match &operation.work {
                            Work::Press(_) => "presses the hub on",
                            _ => "inspects the parts",
                        };
                        self.still_burred(
                            first,
                            count,
                            &format!("before operation {} {then}", self.number(index)),
                        );
                    }
                }
                _ => {}
            }
        }
        if let Some((first, count)) = burred {
            self.still_burred(first, count, "before the parts leave");
        }
    }

    fn still_burred(&mut self, first: usize, count: usize, before: &str) {
        let who = match count {
            1 => "this operation leaves burrs".to_string(),
            2 => "this operation and a later one leave burrs".to_string(),
            _ => format!("this operation and {} later ones leave burrs", count - 1),
        };
        let message = format!("{who}, and no `deburr` operation breaks the edges {before}");
        let remedy = "deburr in between: a burr is gauged as size, and cuts hands";
        self.find(Severity::Warning, "not_deburred", OPERATIONS.index(first), message, remedy);
    }
}
