//! Whether what names a characteristic can mean one of its kind.
use crate::document::Reference;
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::plan::document::*;
use crate::plan::evaluate::{CHARACTERISTICS, Evaluation, JOINT, OPERATIONS};

use CharacteristicKind::{AcrossFlats, Bore, Depth, Diameter, Length, Slot, Width};

impl CharacteristicKind {
    /// With its article, for messages.
    fn words(self) -> &'static str {
        match self {
            Diameter => "a diameter",
            Bore => "a bore",
            AcrossFlats => "a size across flats",
            Length => "a length",
            Width => "a width",
            Slot => "a slot",
            Depth => "a depth",
        }
    }
}

/// What an operation can make.
fn can_make(operation: &Operation) -> &'static [CharacteristicKind] {
    match operation {
        Operation::Saw(_) => &[Length],
        Operation::MillFlats(_) => &[AcrossFlats, Width, Length, Slot, Depth],
        // A bore is turned with a boring bar.
        Operation::Turn(_) => &[Diameter, Bore, Length, Width, Slot, Depth],
        Operation::Face(_) => &[Length, Width, Depth],
        Operation::Drill(_) | Operation::Tap(_) => &[Bore, Depth],
        Operation::Deburr(_) => &[Depth, Width],
        Operation::Knurl(_) => &[Diameter],
        Operation::Press(_) | Operation::Inspect(_) => &[],
    }
}

fn can_prove(gauge: GaugeKind) -> &'static [CharacteristicKind] {
    match gauge {
        GaugeKind::Plug => &[Bore],
        GaugeKind::Ring => &[Diameter],
        GaugeKind::Length => &[Length, Width, AcrossFlats, Slot, Depth],
    }
}

impl Evaluation<'_> {
    pub(super) fn judge_kinds(&mut self) {
        let document = self.document;
        for (index, operation) in document.operations.iter().enumerate() {
            let place = OPERATIONS.index(index);
            self.judge_makes(place, operation);
            match operation {
                Operation::Saw(saw) => {
                    let field = place.field("cut_length");
                    self.judge_named(field, saw.cut_length, &[Length], "parts are cut to a length");
                }
                Operation::MillFlats(mill) => {
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
        if let Some(
            Joint::PlainJoint(PlainJoint { shaft, .. }) | Joint::KnurledJoint(KnurledJoint { shaft, .. }),
        ) = document.joint
        {
            self.judge_named(JOINT.field("shaft"), shaft, &[Diameter], "the shaft of a joint is a diameter");
        }
        self.judge_gauges();
    }

    fn judge_makes(&mut self, place: Place<'_>, operation: &Operation) {
        let makes = place.field("makes");
        for (index, number) in operation.makes().iter().enumerate() {
            let Some(kind) = self.limits_of(number.0).map(|c| c.kind) else { continue };
            if !can_make(operation).contains(&kind) {
                let name = operation.name().replace('_', " ");
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
        let Document { characteristics, joint, .. } = self.document;
        let drawn =
            characteristics.iter().enumerate().filter_map(|(index, c)| Some((index, c.kind, c.gauge?)));
        for (index, kind, gauge) in drawn.filter(|(_, kind, gauge)| !can_prove(*gauge).contains(kind)) {
            self.wrong_gauge(CHARACTERISTICS.index(index).field("gauge"), gauge, kind.words());
        }
        let bore = joint.as_ref().and_then(|joint| joint.bore().1);
        if let Some(gauge) = bore.filter(|gauge| *gauge != GaugeKind::Plug) {
            self.wrong_gauge(JOINT.field("gauge"), gauge, "the bore of a hub");
        }
    }

    fn wrong_gauge(&mut self, place: Place<'_>, gauge: GaugeKind, what: &str) {
        let message = format!("a {} gauge does not fit {what}", gauge.name());
        let remedy = "take plugs for a bore, rings for a diameter, and a length gauge for the rest";
        self.find(FindingCode::WrongGauge, place, message, remedy);
    }
}
