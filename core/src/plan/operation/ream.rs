//! Reaming holes.
use super::prelude::*;
use super::tools::{HoleTool, Stroke, stroke};

objects! {
    /// Reams holes that are there.
    Ream {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The reamer.
        tool: HoleTool,
        /// Diameter of the hole before reaming.
        hole_diameter: DocumentNumber<Length> where Positive,
        /// Depth to which the hole is reamed at its full diameter.
        depth: DocumentNumber<Length> where Positive,
        /// Distance from where the feed begins to the surface.
        approach: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How far the full diameter runs out of the far side of a through hole.
        breakthrough: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How many holes.
        holes: u32 where Positive = 1,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }
}

impl Kind for Ream {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Bore, CharacteristicKind::Depth]
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::HOLE]
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(6)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let diameter = self.tool.diameter.value();
        let cut = Stroke {
            tool: &self.tool,
            diameter,
            travel: self.approach.value() + self.depth.value() + self.breakthrough.value(),
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            holes: self.holes,
        };
        let (mut figures, cutting) = stroke(work, place, &cut)?;
        let allowance = diameter - self.hole_diameter.value();
        figures.insert(2, work.plain::<Length>("allowance on the diameter", allowance));
        let name = ["Ream ", &several(self.holes, "hole"), " with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            count("holes", self.holes),
            work.stated("hole before", self.hole_diameter),
            work.stated("reamer diameter", self.tool.diameter),
            work.stated("depth at full diameter", self.depth),
        ]
    }
}
