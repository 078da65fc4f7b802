//! Learning in a quote: the running time of an operation falls as the pieces of a lot add up.
use super::super::operation::Operation;
use super::super::rates::{LearningModel, LearningRate, Rates};
use crate::cost::learning::{learning_cumulative_average_lot_time, learning_lot_time, learning_unit_time};
use crate::document::fault::{FaultKind, Faults, Place};
use crate::money::Exact;
use crate::quantity::{Count, Quantity, Ratio, Time};
use std::collections::BTreeMap;

/// How the time of an operation falls.
#[derive(Clone, Copy)]
pub(super) struct Learning {
    model: LearningModel,
    rate: f64,
    /// The piece that takes the planned time.
    planned_piece: f64,
    /// Pieces made before the lot.
    made_before: f64,
}

/// Which entry of the rates holds for an operation: the first that names its number or its kind.
pub(super) struct LearningTable<'r> {
    entries: &'r [LearningRate],
    by_number: BTreeMap<u64, usize>,
    by_kind: BTreeMap<&'r str, usize>,
}

impl<'r> LearningTable<'r> {
    pub(super) fn new(rates: &'r Rates) -> LearningTable<'r> {
        let entries = &rates.learning;
        let (mut by_number, mut by_kind) = (BTreeMap::new(), BTreeMap::new());
        for (index, entry) in entries.iter().enumerate() {
            for number in &entry.operations {
                by_number.entry(u64::from(*number)).or_insert(index);
            }
            for kind in &entry.kinds {
                by_kind.entry(kind.as_str()).or_insert(index);
            }
        }
        LearningTable { entries, by_number, by_kind }
    }

    pub(super) fn of(&self, kind: &str, number: u64) -> Option<Learning> {
        let found = [self.by_number.get(&number), self.by_kind.get(kind)];
        let LearningRate { model, rate, planned_piece, made_before, .. } =
            self.entries.get(*found.into_iter().flatten().min()?)?;
        Some(Learning {
            model: *model,
            rate: rate.value(),
            planned_piece: (*planned_piece).into(),
            made_before: (*made_before).into(),
        })
    }
}

impl Learning {
    /// Minutes of a lot whose planned piece takes so many; nothing where a number is beyond the formulas.
    ///
    /// The time of the first piece follows from the planned one; in both models by the same power, of that piece or of the
    /// mean up to it.
    pub(super) fn lot(self, planned: Exact, count: u64) -> Option<Exact> {
        let rate = Ratio::new(self.rate);
        let share = learning_unit_time(Time::minutes(1.0), rate, Count::new(self.planned_piece)).ok()?;
        let first = Time::minutes(planned.to_f64() / share.metric());
        let (from, to) = (self.made_before + 1.0, self.made_before + count as f64);
        let [from, to] = [from, to].map(Count::new);
        let lot = match self.model {
            LearningModel::Unit => learning_lot_time(first, rate, to, from),
            LearningModel::CumulativeAverage => learning_cumulative_average_lot_time(first, rate, to, from),
        };
        Some(Exact::of_float(lot.ok()?.metric()))
    }

    /// `learning by unit at 90 percent`.
    pub(super) fn words(self) -> String {
        let model = match self.model {
            LearningModel::Unit => "unit",
            LearningModel::CumulativeAverage => "cumulative average",
        };
        let percent = format!("{:.4}", 100.0 * self.rate);
        let percent = percent.trim_end_matches('0').trim_end_matches('.');
        format!("learning by {model} at {percent} percent")
    }
}

/// Notes learning of operations whose batches take their time however often they are run, and numbers that no operation has.
pub(super) fn check_learning(
    operations: &[Operation],
    numbers: &[u64],
    rates: &Rates,
    at: Place<'_>,
    faults: &mut Faults,
) {
    let list = at.field("learning");
    for (index, entry) in rates.learning.iter().enumerate() {
        let place = list.index(index);
        let named = place.field("operations");
        for (position, number) in entry.operations.iter().enumerate() {
            // Numbers rise.
            let found = numbers.binary_search(&u64::from(*number)).ok();
            let Some(operation) = found.and_then(|found| operations.get(found)) else {
                faults.add(FaultKind::NotThere, named.index(position), || {
                    format!("no operation has the number {number}; expected one as the process sheet writes it, e.g. {}", numbers.first().unwrap_or(&10))
                });
                continue;
            };
            if takes_batches(operation.work.name()) {
                faults.add(FaultKind::Conflict, named.index(position), || batches(operation.work.name()));
            }
        }
        for (position, kind) in entry.kinds.iter().enumerate().filter(|(_, kind)| takes_batches(kind)) {
            faults.add(FaultKind::Conflict, place.field("kinds").index(position), || batches(kind));
        }
    }
}

fn takes_batches(kind: &str) -> bool {
    matches!(kind, "heat_treat" | "plate" | "wash")
}

fn batches(kind: &str) -> String {
    format!("a batch of `{kind}` takes its time however often it is run: remove it from `learning`")
}
