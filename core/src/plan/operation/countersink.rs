//! Countersinking holes.
use super::center_drill::within_tool;
use super::prelude::*;
use super::tools::{HoleTool, Stroke, stroke};
use crate::cutting::countersink::COUNTERSINK_DEPTH;

objects! {
    /// Countersinks holes.
    Countersink {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The countersink.
        tool: HoleTool,
        /// Included angle of the countersink.
        included_angle: DocumentNumber<Angle> where BelowStraight = DocumentNumber::new(90.0),
        /// Diameter at the surface.
        diameter: DocumentNumber<Length> where Positive,
        /// Diameter of the hole.
        hole_diameter: DocumentNumber<Length> where Positive,
        /// Distance from where the feed begins to the first touch.
        approach: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How many holes.
        holes: u32 where Positive = 1,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        diameter, tool => within_tool;
        diameter, hole_diameter => around_hole;
    }
}

fn around_hole(diameter: &DocumentNumber<Length>, hole: &DocumentNumber<Length>) -> Option<String> {
    let (diameter, hole) = (diameter.value(), hole.value());
    (diameter <= hole).then(|| format!("a countersink of {diameter} must be wider than its hole, {hole}"))
}

impl Kind for Countersink {
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

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let x = [self.diameter.value(), self.included_angle.value(), self.hole_diameter.value()];
        let depth = work.figure(place, "depth of the countersink", &COUNTERSINK_DEPTH, &x)?;
        let cut = Stroke {
            tool: &self.tool,
            diameter: self.diameter.value(),
            travel: self.approach.value() + depth.value,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            holes: self.holes,
        };
        let (mut figures, cutting) = stroke(work, place, &cut)?;
        figures.insert(2, depth);
        let name = ["Countersink ", &several(self.holes, "hole"), " with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            count("holes", self.holes),
            work.stated("diameter at the surface", self.diameter),
            work.stated("included angle", self.included_angle),
        ]
    }
}
