//! Whether each characteristic is made once and inspected after that.
use crate::finding::{FindingCode, Severity};
use crate::plan::evaluation::{CHARACTERISTICS, Evaluation, OPERATIONS};
use crate::plan::operation::{Inspect, Operation, Work};

/// Numbers of characteristics with the operations that check them, counted from 0, in order.
type Checks = Vec<(u32, usize)>;

impl Evaluation<'_> {
    pub(super) fn judge_coverage(&mut self, operations: &[Operation]) {
        self.judge_makers();
        let mut checks = Checks::with_capacity(self.characteristics.len());
        let mut inspections = 0;
        for (index, operation) in operations.iter().enumerate() {
            if let Work::Inspect(inspect) = &operation.work {
                inspections += 1;
                self.judge_inspection(index, inspect);
                checks.extend(inspect.checks.iter().map(|number| (number.0, index)));
            }
        }
        if inspections == 0 {
            let message = "no operation inspects the parts".into();
            let remedy = "add an `inspect` operation that checks every characteristic";
            return self.find(FindingCode::NotInspected, OPERATIONS, message, remedy);
        }
        checks.sort_unstable();
        self.judge_checks(&checks, operations);
        for (index, c) in self.characteristics.iter().enumerate() {
            if checks.binary_search_by_key(&c.number, |check| check.0).is_err() {
                let message = format!("no operation inspects number {}", c.number);
                let remedy = "name it in the `checks` of an `inspect` operation";
                self.find(FindingCode::NotInspected, CHARACTERISTICS.index(index), message, remedy);
            }
        }
    }

    fn judge_inspection(&mut self, index: usize, inspect: &Inspect) {
        let place = OPERATIONS.index(index);
        let quantity = self.quantity;
        if inspect.checks.is_empty() {
            let message = "this inspection checks nothing".into();
            let remedy = "name characteristics in its `checks`";
            self.find(FindingCode::InspectsNothing, place.field("checks"), message, remedy);
        }
        if inspect.every > quantity {
            let message =
                format!("one part in every {} is inspected, and only {quantity} are made", inspect.every);
            let remedy = format!("inspect at least one part in every {quantity}");
            self.find(FindingCode::InspectsNoPart, place.field("every"), message, remedy);
        }
    }

    /// Of two operations that make a characteristic, the second undoes what the first has made.
    fn judge_makers(&mut self) {
        for index in 1..self.makers.len() {
            let [(number, first), (next, second)] = [self.makers[index - 1], self.makers[index]];
            if number == next {
                let message = match first == second {
                    true => format!("number {number} is named twice"),
                    false => format!("operation {} has already made number {number}", self.number(first)),
                };
                let remedy = "name it once, in the operation that finishes it";
                let place = OPERATIONS.index(second);
                self.find(FindingCode::MadeTwice, place.field("makes"), message, remedy);
            }
        }
    }

    /// What is checked has to be there.
    fn judge_checks(&mut self, checks: &Checks, operations: &[Operation]) {
        for of_number in checks.chunk_by(|one, next| one.0 == next.0) {
            let (number, check) = of_number[0];
            let Some(maker) = self.makers(number).last().filter(|&maker| maker > check) else { continue };
            let is_checked_later = of_number.iter().any(|later| later.1 > maker);
            let is_thread = matches!(
                operations.get(maker).map(|one| &one.work),
                Some(Work::TurnThread(_) | Work::Tap(_))
            );
            // Of a thread that is not cut yet there is nothing to measure.
            let is_nothing = is_thread && self.makers(number).next().is_some_and(|first| first > check);
            let severity = if is_checked_later && !is_nothing { Severity::Warning } else { Severity::Error };
            let maker = self.number(maker);
            let message = format!("number {number} is inspected before operation {maker} makes it");
            let remedy = format!("inspect it after operation {maker}");
            let place = OPERATIONS.index(check);
            self.find((FindingCode::InspectedBeforeMade, severity), place.field("checks"), message, remedy);
        }
    }
}
