//! Centre drilling.
use super::prelude::*;
use super::tools::{HoleTool, Stroke, stroke};
use crate::cutting::countersink::CENTRE_DRILL_DEPTH;

objects! {
    /// Drills centres: for the point of a lathe centre, or to start a drill.
    CenterDrill {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The centre drill.
        tool: HoleTool,
        /// Diameter of its pilot.
        pilot_diameter: DocumentNumber<Length> where Positive,
        /// Length of its pilot.
        pilot_length: DocumentNumber<Length> where NonNegative,
        /// Included angle of its countersink.
        included_angle: DocumentNumber<Angle> where BelowStraight = DocumentNumber::new(60.0),
        /// Diameter of the centre at the surface.
        diameter: DocumentNumber<Length> where Positive,
        /// Distance from where the feed begins to the surface.
        approach: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How many centres.
        holes: u32 where Positive = 1,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        diameter, tool => within_tool;
        pilot_diameter, diameter => inside_centre;
    }
}

pub(super) fn within_tool(diameter: &DocumentNumber<Length>, tool: &HoleTool) -> Option<String> {
    let (asked, most) = (diameter.value(), tool.diameter.value());
    (asked > most).then(|| format!("a tool of {most} cannot cut a diameter of {asked}: use a larger one"))
}

fn inside_centre(pilot: &DocumentNumber<Length>, centre: &DocumentNumber<Length>) -> Option<String> {
    let (pilot, centre) = (pilot.value(), centre.value());
    (pilot >= centre).then(|| format!("the pilot, {pilot}, must be smaller than the centre, {centre}"))
}

impl Kind for CenterDrill {
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
        let x = [
            self.diameter.value(),
            self.pilot_diameter.value(),
            self.pilot_length.value(),
            self.included_angle.value(),
        ];
        let depth = work.figure(place, "depth of the tip", &CENTRE_DRILL_DEPTH, &x)?;
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
        let name = ["Drill ", &several(self.holes, "centre"), " with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            count("centres", self.holes),
            work.stated("diameter at the surface", self.diameter),
            work.stated("pilot diameter", self.pilot_diameter),
        ]
    }
}
