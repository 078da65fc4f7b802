//! Pressing the hub of the joint on.
use super::prelude::*;

objects! {
    /// Presses the hub of the joint on.
    ///
    /// Caution: pressing can burst a hub or throw a part, and heating can burn. Stand clear behind a guard, keep the part
    /// in line, and stop where the force rises above the one expected.
    Press {
        /// The force that the press can give.
        capacity: Option<DocumentNumber<Force>> where Positive,
        /// The time for a part.
        time: DocumentNumber<Time> where NonNegative,
    }
}

impl Kind for Press {
    fn cautions(&self) -> &'static [&'static str] {
        &[caution::PRESS, caution::JOINT]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        Ok(Done { name: "Press the hub on".into(), figures: vec![], minutes: self.time.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let length = work.joint.map(|joint| work.stated("length of contact", joint.length()));
        let capacity = self.capacity.map(|force| work.stated("force of the press, at most", force));
        length.into_iter().chain(capacity).collect()
    }
}
