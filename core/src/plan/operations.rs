//! The operations of a plan as its sheet shows them.
use super::caution;
use super::evaluation::{Evaluation, OPERATIONS};
use super::operation::{Done, Operation};
use super::sheet::{Figure, Figures, OperationLines};
use crate::document::{DocumentError, Reference};

/// What is to be set, then what was computed; a figure that is set is not shown twice.
fn all_figures(settings: Vec<Figure>, computed: Vec<Figure>) -> Figures {
    let mut figures: Figures = settings.into_iter().map(|figure| Figure { set: true, ..figure }).collect();
    for figure in computed {
        if figures.iter().all(|set| set.name != figure.name) {
            figures.push(figure);
        }
    }
    figures
}

impl Evaluation<'_> {
    pub(super) fn operation(
        &mut self,
        index: usize,
        operation: &Operation,
    ) -> Result<OperationLines, DocumentError> {
        let place = OPERATIONS.index(index);
        let (common, kind) = (&operation.common, operation.work.kind());
        let Done { name, mut figures, minutes } = kind.evaluate(self, place)?;
        if let Some(held) = kind.holding() {
            let place = place.field("holding");
            let cut = kind.forces(self, place, &figures)?;
            self.judge_holding(place, held, cut.as_ref(), &mut figures)?;
            if let Some(cut) = cut.filter(|_| kind.bends_work()) {
                self.judge_bending(place, kind.makes(), held, &cut, &mut figures)?;
            }
        }
        let numbers = |references: &[Reference]| references.iter().map(|r| r.0).collect::<Vec<_>>();
        Ok(OperationLines {
            number: self.number(index),
            kind: operation.work.name().into(),
            name,
            machine: common.machine.clone(),
            station: common.station.clone(),
            reason: common.reason.clone(),
            setup: common.setup.value(),
            scrap: common.scrap.value(),
            characteristics: [numbers(kind.makes()), numbers(kind.checks())].concat(),
            tool: kind.tool().map(Into::into),
            holding: self.held(kind),
            coolant: common.coolant.clone(),
            figures: all_figures(kind.settings(self, place), figures),
            minutes_per_part: minutes,
            cautions: caution::of_operation(
                kind.cautions(),
                kind.holding().is_some(),
                kind.makes_chips(),
                self.material,
            ),
        })
    }
}
