//! Whether the operations stand in an order in which they can be done.
use crate::finding::{FindingCode, Severity};
use crate::plan::document::Document;
use crate::plan::evaluation::{Evaluation, OPERATIONS};
use crate::plan::joints::{PlacedJoint, joint_named};
use crate::plan::operation::{Operation, Work};

impl Evaluation<'_> {
    pub(super) fn judge_order(&mut self, operations: &[Operation]) {
        self.judge_sawing(operations);
        self.judge_joining(operations);
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
                (Work::Press(_) | Work::Shrink(_), _) => Severity::Error,
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

    /// Each joint is made once, after its shaft.
    fn judge_joining(&mut self, operations: &[Operation]) {
        let joins: Vec<(usize, Option<&str>)> = operations
            .iter()
            .enumerate()
            .filter_map(|(index, own)| Some((index, Document::joins(own)?)))
            .collect();
        if self.joints.is_empty() {
            for &(index, _) in &joins {
                let message = "the plan has no joint, and there is no hub to join".into();
                let remedy = "describe the hub and its fit in `joint`, or remove the operation";
                self.find(FindingCode::PressWithoutJoint, OPERATIONS.index(index), message, remedy);
            }
        }
        for placed in self.joints.clone() {
            let is_own = |name| {
                joint_named(&self.joints, name).is_some_and(|own| std::ptr::eq(own.joint, placed.joint))
            };
            let own: Vec<usize> = joins.iter().filter(|join| is_own(join.1)).map(|join| join.0).collect();
            self.judge_joined(placed, &own);
        }
    }

    fn judge_joined(&mut self, placed: PlacedJoint<'_>, joins: &[usize]) {
        let hub = placed.hub();
        let Some((&first, others)) = joins.split_first() else {
            let message = format!("no operation presses or shrinks {hub} on");
            let remedy = "add a `press` or a `shrink` operation, or remove the joint";
            return self.find(FindingCode::NotPressed, placed.place, message, remedy);
        };
        for &index in others {
            let message = format!("operation {} has already put {hub} on", self.number(first));
            let remedy = "keep one operation that joins it";
            self.find(FindingCode::PressedTwice, OPERATIONS.index(index), message, remedy);
        }
        let shaft = placed.joint.shaft().0;
        if let Some(maker) = self.makers(shaft).last().filter(|&maker| maker > first) {
            let maker = self.number(maker);
            let message = format!("{hub} is put on before operation {maker} makes its seat, number {shaft}");
            let remedy = format!("join it after operation {maker}");
            self.find(FindingCode::PressedBeforeMade, OPERATIONS.index(first), message, remedy);
        }
    }
}
