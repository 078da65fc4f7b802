//! Drilling holes in solid metal.
use super::prelude::*;
use super::tools::{EFFICIENCY, UNKNOWN, judge_power};
use crate::cutting::drilling_cut::DRILLING_CUT;

objects! {
    /// Drills holes in solid metal.
    Drill {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The drill.
        tool: DrillTool,
        /// Depth of a hole at its full diameter; the thickness of the work for a through hole.
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
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A drill, with what its maker recommends for the material.
    DrillTool {
        /// What it is.
        name: String,
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// Included angle of its point.
        point_angle: DocumentNumber<Angle> where BelowStraight = DocumentNumber::new(118.0),
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }
}

impl Kind for Drill {
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

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(9)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let known = work.material.cutting_force(work.units);
        let [kc11, mc] = known.unwrap_or(UNKNOWN);
        let tool = &self.tool;
        let x = [
            self.spindle_speed.value(),
            tool.diameter.value(),
            self.feed_per_revolution.value(),
            self.depth.value(),
            kc11,
            mc,
            tool.point_angle.value(),
            self.approach.value(),
            self.breakthrough.value(),
            0.5,
            1.0,
            EFFICIENCY,
        ];
        let y = work.results(place, &DRILLING_CUT, &x)?;
        let told = |name, output| work.output(&DRILLING_CUT, name, output, &y);
        let mut figures = Vec::with_capacity(9);
        figures.extend([told("surface speed", 0), told("feed rate", 1), told("removal rate", 4)]);
        if known.is_some() {
            figures.extend([told("torque", 5), told("thrust, at least", 6), told("motor power", 8)]);
        }
        figures.push(told("travel", 9));
        work.judge(place.field("spindle_speed"), &mut figures[0], &tool.surface_speed);
        if known.is_some() {
            judge_power(work, place, &figures[5], self.motor_power);
        }
        let cutting = y[10] * f64::from(self.holes);
        figures.push(work.time(cutting));
        let name = ["Drill ", &several(self.holes, "hole"), " with ", &tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            count("holes", self.holes),
            work.stated("hole diameter", self.tool.diameter),
            work.stated("depth at full diameter", self.depth),
            work.stated("approach", self.approach),
            work.stated("breakthrough", self.breakthrough),
        ]
    }
}
