//! Whether the operations stand in an order in which they can be done.
use crate::finding::{FindingCode, Severity};
use crate::plan::evaluation::{Evaluation, JOINT, OPERATIONS};
use crate::plan::operation::{Operation, Work};

impl Evaluation<'_> {
    pub(super) fn judge_order(&mut self, operations: &[Operation]) {
        self.judge_sawing(operations);
        self.judge_pressing(operations);
    }

    /// One operation cuts the parts off, and a saw does it first. A lathe parts off at the end of its work.
    fn judge_sawing(&mut self, operations: &[Operation]) {
        let cuts_off = |operation: &Operation| matches!(operation.work, Work::Saw(_) | Work::PartOff(_));
        let Some(first) = operations.iter().position(cuts_off) else {
            let message = "no operation cuts the parts off the bar, so parts and bars are not counted".into();
            let remedy = "add a `saw` or a `part_off` operation";
            self.find(FindingCode::NotSawn, OPERATIONS, message, remedy);
            return;
        };
        let number = self.number(first);
        for (index, operation) in operations.iter().enumerate().take(first) {
            // A hub cannot be pressed on a part that is still the bar.
            let severity = match (&operation.work, &operations[first].work) {
                (Work::Press(_), _) => Severity::Error,
                (_, Work::PartOff(_)) => continue,
                _ => Severity::Warning,
            };
            let message = format!(
                "this work comes before operation {number} cuts the parts off: it is done on the whole bar"
            );
            let remedy = "move the saw before it";
            self.find((FindingCode::BeforeSawing, severity), OPERATIONS.index(index), message, remedy);
        }
        for (index, _) in
            operations.iter().enumerate().skip(first + 1).filter(|(_, operation)| cuts_off(operation))
        {
            let message = format!(
                "operation {number} has already cut the parts off, and the bars are counted from that"
            );
            let remedy = "keep one operation that cuts them off";
            self.find(FindingCode::SawnTwice, OPERATIONS.index(index), message, remedy);
        }
    }

    /// One press where there is a joint, and after its shaft is made.
    fn judge_pressing(&mut self, operations: &[Operation]) {
        let mut presses = operations.iter().enumerate().filter(|(_, own)| matches!(own.work, Work::Press(_)));
        let Some((first, _)) = presses.next() else {
            if self.joint.is_some() {
                let message = "no operation presses the hub on".into();
                let remedy = "add a `press` operation, or remove the joint";
                self.find(FindingCode::NotPressed, JOINT, message, remedy);
            }
            return;
        };
        for (index, _) in presses {
            let message = format!("operation {} has already pressed the hub on", self.number(first));
            let remedy = "keep one `press` operation";
            self.find(FindingCode::PressedTwice, OPERATIONS.index(index), message, remedy);
        }
        let place = OPERATIONS.index(first);
        let shaft = match self.joint {
            Some(joint) => joint.shaft().0,
            None => {
                let message = "the plan has no joint, and there is no hub to press on".into();
                let remedy = "describe the hub and its fit in `joint`, or remove the `press` operation";
                return self.find(FindingCode::PressWithoutJoint, place, message, remedy);
            }
        };
        if let Some(maker) = self.makers(shaft).last().filter(|&maker| maker > first) {
            let maker = self.number(maker);
            let message =
                format!("the hub is pressed on before operation {maker} makes its seat, number {shaft}");
            let remedy = format!("press after operation {maker}");
            self.find(FindingCode::PressedBeforeMade, place, message, remedy);
        }
    }
}
