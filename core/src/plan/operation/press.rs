//! Pressing the hub of a joint on.
use super::prelude::*;
use crate::plan::joints::joint_named;

objects! {
    /// Presses the hub of a joint on.
    ///
    /// Caution: pressing can burst a hub or throw a part, and heating can burn. Stand clear behind a guard, keep the part
    /// in line, and stop where the force rises above the one expected.
    Press {
        /// The name of the joint that it makes; without it the only one.
        joint: Option<String>,
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
        let name = match &self.joint {
            Some(joint) => ["Press the hub on: ", joint].concat(),
            None => "Press the hub on".into(),
        };
        Ok(Done { name, figures: vec![], minutes: self.time.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let joint = joint_named(&work.joints, self.joint.as_deref());
        let length = joint.map(|placed| work.stated("length of contact", placed.joint.length()));
        let capacity = self.capacity.map(|force| work.stated("force of the press, at most", force));
        length.into_iter().chain(capacity).collect()
    }
}
