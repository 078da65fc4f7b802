//! Work that changes the metal or its surface: heat treatment, plating, washing.
use super::prelude::*;

objects! {
    /// Heat-treats parts.
    ///
    /// Caution: hot parts and quenching burn, and oil catches fire. Follow the maker of the steel, and prove hardness and
    /// size after it.
    HeatTreat {
        /// What is done: `harden and temper`.
        name: String,
        /// The Rockwell hardness, scale C, that it leaves.
        hardness: Option<Range<Ratio>> where Positive,
        /// Whether it leaves scale on the surface.
        leaves_scale: bool = true,
        /// The time for a batch.
        time: DocumentNumber<Time> where NonNegative,
        /// Parts in a batch.
        batch: u32 where Positive = 1,
    }

    /// Plates or coats parts.
    ///
    /// Caution: plating baths poison and burn, and hard steel may turn brittle in them. Leave it to a licensed shop, and
    /// bake as the standard of the plating says.
    Plate {
        /// What is put on: `zinc, 8 µm at least`.
        name: String,
        /// The characteristics whose surfaces are plated.
        plates: Vec<Reference> = Vec::new(),
        /// The time for a batch.
        time: DocumentNumber<Time> where NonNegative,
        /// Parts in a batch.
        batch: u32 where Positive = 1,
    }

    /// Washes parts.
    Wash {
        /// What with.
        agent: Option<String>,
        /// The time for a batch.
        time: DocumentNumber<Time> where NonNegative,
        /// Parts in a batch.
        batch: u32 where Positive = 1,
    }
}

/// The time of a batch shared by its parts; the last batch of a lot may be smaller, and takes as long.
fn shared(time: DocumentNumber<Time>, batch: u32, work: &Evaluation<'_>) -> f64 {
    let batches = work.quantity.div_ceil(batch.max(1));
    time.value() * f64::from(batches) / f64::from(work.quantity.max(1))
}

impl Kind for HeatTreat {
    fn cautions(&self) -> &'static [&'static str] {
        &[caution::HEAT]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let minutes = shared(self.time, self.batch, work);
        Ok(Done { name: ["Heat-treat: ", &*self.name].concat(), figures: vec![], minutes })
    }

    fn settings(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let end = |name, value| Figure::new(name, value, "HRC");
        let hardness = self.hardness.iter().flat_map(|hardness| {
            [
                end("hardness, least", hardness.lower.value()),
                end("hardness, greatest", hardness.upper.value()),
            ]
        });
        hardness.chain([count("parts in a batch", self.batch)]).collect()
    }
}

impl Kind for Plate {
    fn cautions(&self) -> &'static [&'static str] {
        &[caution::PLATE]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let minutes = shared(self.time, self.batch, work);
        Ok(Done { name: ["Plate: ", &*self.name].concat(), figures: vec![], minutes })
    }

    fn settings(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        vec![count("parts in a batch", self.batch)]
    }
}

impl Kind for Wash {
    fn cautions(&self) -> &'static [&'static str] {
        &[caution::WASH]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let name = self.agent.as_ref().map_or("Wash".into(), |agent| ["Wash with ", agent].concat());
        Ok(Done { name, figures: vec![], minutes: shared(self.time, self.batch, work) })
    }

    fn settings(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        vec![count("parts in a batch", self.batch)]
    }
}
