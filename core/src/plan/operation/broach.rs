//! Broaching and shaping by the rate of the stroke.
use super::prelude::*;
use crate::cutting::time::CUTTING_TIME;

objects! {
    /// Broaches or shapes: strokes of a tool at a rate.
    Broach {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// What with.
        tool: String,
        /// Length of a stroke.
        stroke: DocumentNumber<Length> where Positive,
        /// Rate of the cutting stroke.
        cutting_rate: DocumentNumber<FeedRate> where Positive,
        /// Rate of the return; without it that of the cut.
        return_rate: Option<DocumentNumber<FeedRate>> where Positive,
        /// Strokes: one for a broach, many for a shaper or a slotter.
        strokes: u32 where Positive = 1,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }
}

impl Kind for Broach {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{AcrossFlats, Bore, Depth, Slot, Width};
        &[Bore, Slot, AcrossFlats, Width, Depth]
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::BROACH]
    }

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(6)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let (stroke, rate) = (self.stroke.value(), self.cutting_rate.value());
        let back = self.return_rate.map_or(rate, DocumentNumber::value);
        let [there, ..] = work.results(place, &CUTTING_TIME, &[stroke, rate])?;
        let [back, ..] = work.results(place, &CUTTING_TIME, &[stroke, back])?;
        let cutting = (there + back) * f64::from(self.strokes);
        let what = if self.strokes == 1 { "Broach with " } else { "Shape with " };
        let minutes = cutting + self.handling.value();
        Ok(Done { name: [what, &*self.tool].concat(), figures: vec![work.time(cutting)], minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        vec![
            work.stated("rate of the stroke", self.cutting_rate),
            work.stated("length of a stroke", self.stroke),
            count("strokes", self.strokes),
        ]
    }
}
