//! Whether what names a characteristic can mean one of its kind.
use crate::document::Reference;
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::plan::characteristic::{CharacteristicKind, GaugeKind};
use crate::plan::evaluation::{CHARACTERISTICS, Evaluation, OPERATIONS};
use crate::plan::operation::{Operation, Work};

use CharacteristicKind::{AcrossFlats, Bore, Depth, Diameter, Length, Slot, Width};

fn can_prove(gauge: GaugeKind) -> &'static [CharacteristicKind] {
    match gauge {
        GaugeKind::Plug => &[Bore],
        GaugeKind::Ring => &[Diameter],
        GaugeKind::Length => &[Length, Width, AcrossFlats, Slot, Depth],
    }
}

impl Evaluation<'_> {
    pub(super) fn judge_kinds(&mut self, operations: &[Operation]) {
        for (index, operation) in operations.iter().enumerate() {
            let place = OPERATIONS.index(index);
            self.judge_makes(place, operation);
            match &operation.work {
                Work::Saw(saw) => {
                    let field = place.field("cut_length");
                    self.judge_named(field, saw.cut_length, &[Length], "parts are cut to a length");
                }
                Work::MillFlats(mill) => {
                    let field = place.field("across");
                    self.judge_named(
                        field,
                        mill.across,
                        &[AcrossFlats, Width],
                        "flats are milled to a size across them",
                    );
                }
                _ => {}
            }
        }
        for placed in self.joints.clone() {
            self.judge_named(
                placed.place.field("shaft"),
                placed.joint.shaft(),
                &[Diameter],
                "the shaft of a joint is a diameter",
            );
        }
        self.judge_gauges();
    }

    fn judge_makes(&mut self, place: Place<'_>, operation: &Operation) {
        let makes = place.field("makes");
        for (index, number) in operation.makes().iter().enumerate() {
            let Some(kind) = self.limits_of(number.0).map(|c| c.kind) else { continue };
            if !operation.work.kind().can_make().contains(&kind) {
                let name = operation.work.name().replace('_', " ");
                let message = format!("a {name} operation cannot make number {}, {}", number.0, kind.words());
                let remedy = "name the number in the `makes` of the operation that cuts it";
                self.find(FindingCode::CannotMake, makes.index(index), message, remedy);
            }
        }
    }

    fn judge_named(&mut self, place: Place<'_>, named: Reference, kinds: &[CharacteristicKind], why: &str) {
        let Some(kind) = self.limits_of(named.0).map(|c| c.kind).filter(|kind| !kinds.contains(kind)) else {
            return;
        };
        let message = format!("{why}, and number {} is {}", named.0, kind.words());
        let remedy = format!("name the number of {}", kinds[0].words());
        self.find(FindingCode::WrongKind, place, message, remedy);
    }

    fn judge_gauges(&mut self) {
        let drawn =
            self.characteristics.iter().enumerate().filter_map(|(index, c)| Some((index, c.kind, c.gauge?)));
        for (index, kind, gauge) in drawn.filter(|(_, kind, gauge)| !can_prove(*gauge).contains(kind)) {
            self.wrong_gauge(CHARACTERISTICS.index(index).field("gauge"), gauge, kind.words());
        }
        for placed in self.joints.clone() {
            if let Some(gauge) = placed.joint.bore().1.filter(|gauge| *gauge != GaugeKind::Plug) {
                self.wrong_gauge(placed.place.field("gauge"), gauge, "the bore of a hub");
            }
        }
    }

    fn wrong_gauge(&mut self, place: Place<'_>, gauge: GaugeKind, what: &str) {
        let message = format!("a {} gauge does not fit {what}", gauge.name());
        let remedy = "take plugs for a bore, rings for a diameter, and a length gauge for the rest";
        self.find(FindingCode::WrongGauge, place, message, remedy);
    }
}
