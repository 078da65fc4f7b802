//! Inspecting parts.
use super::prelude::*;

objects! {
    /// Inspects parts.
    Inspect {
        /// The characteristics that it looks at.
        checks: Vec<Reference>,
        /// Inspect one part in every this many; 1 inspects all.
        every: u32 where Positive = 1,
        /// The time for an inspected part.
        time: DocumentNumber<Time> where NonNegative,
    }
}

impl Kind for Inspect {
    fn checks(&self) -> &[Reference] {
        &self.checks
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let name = match self.every {
            1 => "Inspect every part".into(),
            every => format!("Inspect one part in every {every}"),
        };
        Ok(Done { name, figures: vec![], minutes: self.time.value() / f64::from(self.every) })
    }
}
