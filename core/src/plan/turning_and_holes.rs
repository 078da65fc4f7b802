//! Operations on the lathe and in holes: turning, facing, drilling, tapping.
use super::document::*;
use super::evaluate::{Evaluation, minutes};
use super::operations::several;
use super::sheet::Figure;
use crate::Size;
use crate::cutting::drilling_cut::DRILLING_CUT;
use crate::cutting::speed::SURFACE_SPEED;
use crate::cutting::turning_cut::TURNING_CUT;
use crate::document::fault::Place;
use crate::document::{DocumentError, DocumentNumber, Reference};
use crate::finding::{FindingCode, beside};
use crate::formula::Formula;
use crate::quantity::{Length, Power, SpindleSpeed};
use crate::thread::tapping::{PERCENT_THREAD, TAPPING_TIME, THREADING_FEED_RATE};

/// What an operation comes to: its name, its figures, and minutes for a part.
type Done = (String, Vec<Figure>, f64);

/// kc1.1 and mc in the place of those of a material that has none: what depends on them is not told.
const UNKNOWN: [f64; 2] = [1.0, 0.25];
/// Of the drive, as the formulas of whole cuts take it where nothing is said.
const EFFICIENCY: f64 = 0.8;

/// A pass of a turning tool, along the axis or across it.
struct Pass<'d> {
    diameter: f64,
    depth: DocumentNumber<Length>,
    travel: f64,
    passes: u32,
    tool: &'d TurningTool,
    spindle_speed: DocumentNumber<SpindleSpeed>,
    feed: DocumentNumber<Length>,
    power: Option<DocumentNumber<Power>>,
    makes: &'d [Reference],
}

fn passes(count: u32) -> String {
    if count == 1 { String::new() } else { format!("in {count} passes ") }
}

impl Evaluation<'_> {
    /// The diameter at which a cut starts.
    pub(super) fn bar_or(&self, diameter: Option<Size>) -> Size {
        diameter.unwrap_or(self.document.bar.limits.upper())
    }

    pub(super) fn turn(&mut self, place: Place<'_>, turn: &Turn) -> Result<Done, DocumentError> {
        let diameter = self.bar_or(turn.diameter);
        let pass = Pass {
            diameter: self.float(diameter),
            depth: turn.depth,
            travel: turn.travel.value(),
            passes: turn.passes,
            tool: &turn.tool,
            spindle_speed: turn.spindle_speed,
            feed: turn.feed_per_revolution,
            power: turn.motor_power,
            makes: &turn.makes,
        };
        let (figures, cutting) = self.passes(place, &pass)?;
        Ok((
            ["Turn ", &passes(turn.passes), "with ", &turn.tool.name].concat(),
            figures,
            cutting + minutes(turn.handling),
        ))
    }

    pub(super) fn face(&mut self, place: Place<'_>, face: &Face) -> Result<Done, DocumentError> {
        let diameter = self.float(self.bar_or(face.diameter));
        let pass = Pass {
            diameter,
            depth: face.depth,
            travel: (0.5 * (diameter - self.float(face.inner_diameter))).max(0.0),
            passes: face.passes,
            tool: &face.tool,
            spindle_speed: face.spindle_speed,
            feed: face.feed_per_revolution,
            power: face.motor_power,
            makes: &face.makes,
        };
        let (figures, cutting) = self.passes(place, &pass)?;
        Ok((
            ["Face ", &passes(face.passes), "with ", &face.tool.name].concat(),
            figures,
            cutting + minutes(face.handling),
        ))
    }

    /// The figures of a cut on the lathe, and the time of all its passes.
    fn passes(&mut self, place: Place<'_>, pass: &Pass<'_>) -> Result<(Vec<Figure>, f64), DocumentError> {
        let known = self.document.material.cutting_force(self.units);
        let [kc11, mc] = known.unwrap_or(UNKNOWN);
        let (feed, radius) = (pass.feed.value(), pass.tool.nose_radius.value());
        let (spindle, depth) = (pass.spindle_speed.value(), pass.depth.value());
        let x = [
            spindle,
            pass.diameter,
            feed,
            depth,
            pass.travel,
            radius,
            kc11,
            mc,
            90.0,
            0.0,
            0.0,
            0.01,
            1.0,
            EFFICIENCY,
        ];
        let y = self.results(place, &TURNING_CUT, &x)?;
        let told = |name: &'static str, output| Figure {
            name: name.into(),
            ..self.output(&TURNING_CUT, output, &y)
        };
        let mut figures = Vec::with_capacity(8);
        figures.extend([told("surface speed", 0), told("feed rate", 1), told("removal rate", 2)]);
        if known.is_some() {
            figures.extend([told("cutting force", 5), told("motor power", 7)]);
        }
        figures.push(told("roughness Ra, theoretical", 10));
        self.judge(place.field("spindle_speed"), &mut figures[0], &pass.tool.surface_speed);
        if known.is_some() {
            self.judge_power(place, &figures[4], pass.power);
        }
        self.judge_finish(place, pass.makes, y[10]);
        let cutting = y[9] * f64::from(pass.passes);
        figures.push(self.time(cutting));
        Ok((figures, cutting))
    }

    /// One result of a formula as a figure.
    fn output(&self, formula: &Formula, output: usize, y: &[f64]) -> Figure {
        let unit = formula.outputs[output].kind.unit(self.units).label;
        Figure::new(formula.output_name(output), y[output], unit)
    }

    fn judge_power(&mut self, place: Place<'_>, asked: &Figure, given: Option<DocumentNumber<Power>>) {
        let Some(given) = given.map(DocumentNumber::value) else { return };
        if asked.value > given {
            let (shown, unit) = (beside(asked.value, given), &asked.unit);
            let message = format!("the cut needs {shown} {unit}, and the motor has {given} {unit}");
            let remedy = "use a smaller depth or feed, or a lower speed";
            self.find(FindingCode::MotorTooWeak, place.field("motor_power"), message, remedy);
        }
    }

    /// The feed marks alone must stay below the roughness that the drawing allows.
    fn judge_finish(&mut self, place: Place<'_>, makes: &[Reference], roughness: f64) {
        for number in makes {
            let asked = self.limits_of(number.0).and_then(|c| c.roughness).map(DocumentNumber::value);
            let Some(asked) = asked.filter(|&asked| roughness > asked) else { continue };
            let shown = beside(roughness, asked);
            let message = format!(
                "the feed marks alone are Ra {shown}, rougher than the {asked} that number {} allows",
                number.0
            );
            let remedy = "reduce the feed, or use a larger nose radius";
            self.find(FindingCode::FinishTooRough, place.field("feed_per_revolution"), message, remedy);
        }
    }

    pub(super) fn drill(&mut self, place: Place<'_>, drill: &Drill) -> Result<Done, DocumentError> {
        let known = self.document.material.cutting_force(self.units);
        let [kc11, mc] = known.unwrap_or(UNKNOWN);
        let tool = &drill.tool;
        let x = [
            drill.spindle_speed.value(),
            tool.diameter.value(),
            drill.feed_per_revolution.value(),
            drill.depth.value(),
            kc11,
            mc,
            tool.point_angle.value(),
            drill.approach.value(),
            drill.breakthrough.value(),
            0.5,
            1.0,
            EFFICIENCY,
        ];
        let y = self.results(place, &DRILLING_CUT, &x)?;
        let told = |name: &'static str, output| Figure {
            name: name.into(),
            ..self.output(&DRILLING_CUT, output, &y)
        };
        let mut figures = Vec::with_capacity(9);
        figures.extend([told("surface speed", 0), told("feed rate", 1), told("removal rate", 4)]);
        if known.is_some() {
            figures.extend([told("torque", 5), told("thrust, at least", 6), told("motor power", 8)]);
        }
        figures.push(told("travel", 9));
        self.judge(place.field("spindle_speed"), &mut figures[0], &tool.surface_speed);
        if known.is_some() {
            self.judge_power(place, &figures[5], drill.motor_power);
        }
        let cutting = y[10] * f64::from(drill.holes);
        figures.push(self.time(cutting));
        let name = ["Drill ", &several(drill.holes, "hole"), " with ", &tool.name].concat();
        Ok((name, figures, cutting + minutes(drill.handling)))
    }

    pub(super) fn tap(&mut self, place: Place<'_>, tap: &Tap) -> Result<Done, DocumentError> {
        let [nominal, pitch] = [tap.thread.nominal, tap.thread.pitch].map(|size| self.float(size));
        let spindle = tap.spindle_speed.value();
        let mut speed = self.figure(place, "surface speed", &SURFACE_SPEED, &[nominal, spindle])?;
        self.judge(place.field("spindle_speed"), &mut speed, &tap.tool.surface_speed);
        let feed = self.figure(place, "feed rate", &THREADING_FEED_RATE, &[spindle, pitch, 1.0])?;
        let hole = [nominal, pitch, tap.hole_diameter.value()];
        let mut percent =
            self.figure(place.field("hole_diameter"), "height of thread", &PERCENT_THREAD, &hole)?;
        percent.unit = "%".into();
        self.judge_percent(place.field("hole_diameter"), &percent);
        let x = [tap.travel.value(), pitch, spindle, tap.reverse_ratio.value()];
        let hole = self.figure(place, "time of a hole", &TAPPING_TIME, &x)?;
        let cutting = self.time(hole.value * f64::from(tap.holes));
        let total = cutting.value + minutes(tap.handling);
        let name = ["Tap ", &tap.thread.designation, " with ", &tap.tool.name].concat();
        Ok((name, vec![speed, feed, percent, cutting], total))
    }

    /// Common practice, no source: 60 to 75 percent for most work, 50 to 85 at the outside.
    fn judge_percent(&mut self, place: Place<'_>, percent: &Figure) {
        let (message, remedy) = match percent.value {
            ..50.0 => ("leaves a thread too shallow to hold", "drill smaller"),
            50.0..=85.0 => return,
            _ => ("leaves so much thread that the tap may break", "drill larger"),
        };
        let message = format!("the hole {message}: {:.1} percent of a full one", percent.value);
        self.find(FindingCode::PercentThread, place, message, remedy);
    }
}
