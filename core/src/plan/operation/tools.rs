//! Tools that several kinds of operation use.
use super::prelude::*;
use crate::cutting::drilling::DRILLING_TIME;
use crate::cutting::facing::FACING_TIME_CONSTANT_SPINDLE;
use crate::cutting::force::{CUTTING_POWER_FROM_FORCE, MOTOR_POWER, SPECIFIC_CUTTING_FORCE};
use crate::cutting::milling::TOOL_DEFLECTION;
use crate::cutting::milling_cut::MILLING_CUT;
use crate::cutting::speed::{FEED_RATE, SURFACE_SPEED};
use crate::cutting::turning_cut::TURNING_CUT;
use crate::cutting::turning_force::TURNING_FORCE;
use crate::plan::evaluation::no_answer;

objects! {
    /// A turning tool, with what its maker recommends for the material.
    TurningTool {
        /// What it is.
        name: String,
        /// Its nose radius.
        nose_radius: DocumentNumber<Length> where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }

    /// A milling cutter, with what its maker recommends for the material.
    Cutter {
        /// What it is.
        name: String,
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// How many teeth it has.
        teeth: u32 where Positive,
        /// How far it sticks out of its holder; with it the sheet tells how far it bends, as a plain steel bar.
        overhang: Option<DocumentNumber<Length>> where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended chip loads.
        chip_load: Range<Length> where Positive,
    }

    /// A tool that plunges: a parting blade or a grooving insert, with what its maker recommends for the material.
    PlungeTool {
        /// What it is.
        name: String,
        /// The width that it cuts.
        width: Size where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }

    /// A reamer, countersink or centre drill, with what its maker recommends for the material.
    HoleTool {
        /// What it is.
        name: String,
        /// Its diameter; of a countersink and a centre drill the greatest one.
        diameter: DocumentNumber<Length> where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }
}

pub(super) fn within_nose(feed: &DocumentNumber<Length>, tool: &TurningTool) -> Option<String> {
    let (feed, radius) = (feed.value(), tool.nose_radius.value());
    (feed > 2.0 * radius).then(|| format!("a feed of {feed} is more than twice the nose radius, {radius}"))
}

pub(super) fn within_cutter(width: &DocumentNumber<Length>, tool: &Cutter) -> Option<String> {
    let (width, diameter) = (width.value(), tool.diameter.value());
    (width > diameter).then(|| format!("a cutter of {diameter} cannot cut a width of {width}"))
}

/// Feed and passive force of turning over the main force: common practice, about 4 : 2 : 1.
const FEED_AND_PASSIVE: [f64; 2] = [0.5, 0.25];
/// Pull of a helical cutter along its axis over the force along the path: about the tangent of its helix, common practice.
const HELIX_PULL: f64 = 0.5;

/// The forces of a turning tool at a diameter, from the figures of its cut.
pub(super) fn turning_forces(figures: &[Figure], diameter: f64) -> Option<CutForces> {
    let main = figures.iter().find(|figure| figure.name == "cutting force")?.value;
    let [feed, passive] = FEED_AND_PASSIVE;
    Some(CutForces { forces: [main, feed * main, passive * main], diameter })
}

/// The forces of a cutter at a spindle speed, chip load, width and depth; nothing where the material does not tell them.
pub(super) fn milling_forces(
    work: &Evaluation<'_>,
    place: Place<'_>,
    tool: &Cutter,
    [spindle, load, width, depth]: [f64; 4],
) -> Result<Option<CutForces>, DocumentError> {
    let Some([kc11, mc]) = work.material.cutting_force(work.units) else { return Ok(None) };
    let (cutter, teeth) = (tool.diameter.value(), f64::from(tool.teeth));
    let x = [cutter, teeth, spindle, load, width, depth, kc11, mc, 90.0, 0.0, 0.0, 0.01, 1.0, EFFICIENCY];
    let mut y = vec![f64::NAN; MILLING_CUT.outputs.len()];
    MILLING_CUT.call(work.units, &x, &mut y).map_err(|error| no_answer(place, error))?;
    let told =
        |name| MILLING_CUT.outputs.iter().position(|one| one.name == name).map_or(f64::NAN, |at| y[at]);
    // All teeth that may be in the cut push as hard as the one that pushes most.
    let side = told("tooth_force") * told("teeth_engaged").ceil().max(1.0);
    let diameter = work.float(work.bar.limits.upper());
    Ok(Some(CutForces { forces: [side, 0.0, HELIX_PULL * side], diameter }))
}

/// kc1.1 and mc in the place of those of a material that has none: what depends on them is not told.
pub(super) const UNKNOWN: [f64; 2] = [1.0, 0.25];
/// Of the drive, as the formulas of whole cuts take it where nothing is said.
pub(super) const EFFICIENCY: f64 = 0.8;

/// A pass of a turning tool, along the axis or across it.
pub(super) struct Pass<'d> {
    pub(super) diameter: f64,
    pub(super) depth: f64,
    pub(super) travel: f64,
    pub(super) passes: u32,
    pub(super) tool: &'d TurningTool,
    pub(super) spindle_speed: DocumentNumber<SpindleSpeed>,
    pub(super) feed: DocumentNumber<Length>,
    pub(super) power: Option<DocumentNumber<Power>>,
    pub(super) makes: &'d [Reference],
}

/// `in 2 passes `, and nothing for one.
pub(super) fn in_passes(count: u32) -> String {
    if count == 1 { String::new() } else { format!("in {count} passes ") }
}

/// The figures of a cut on the lathe, and the time of all its passes.
pub(super) fn passes(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    pass: &Pass<'_>,
) -> Result<(Vec<Figure>, f64), DocumentError> {
    let known = work.material.cutting_force(work.units);
    let [kc11, mc] = known.unwrap_or(UNKNOWN);
    let (feed, radius) = (pass.feed.value(), pass.tool.nose_radius.value());
    let spindle = pass.spindle_speed.value();
    let x = [
        spindle,
        pass.diameter,
        feed,
        pass.depth,
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
    let y = work.results(place, &TURNING_CUT, &x)?;
    let told = |name, output| work.output(&TURNING_CUT, name, output, &y);
    let mut figures = Vec::with_capacity(8);
    figures.extend([told("surface speed", 0), told("feed rate", 1), told("removal rate", 2)]);
    if known.is_some() {
        figures.extend([told("cutting force", 5), told("motor power", 7)]);
    }
    figures.push(told("roughness Ra, theoretical", 10));
    work.judge(place.field("spindle_speed"), &mut figures[0], &pass.tool.surface_speed);
    if known.is_some() {
        judge_power(work, place, &figures[4], pass.power);
    }
    judge_finish(work, place, pass.makes, y[10]);
    let cutting = y[9] * f64::from(pass.passes);
    figures.push(work.time(cutting));
    Ok((figures, cutting))
}

/// Whether the motor pulls a cut.
pub(super) fn judge_power(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    asked: &Figure,
    given: Option<DocumentNumber<Power>>,
) {
    let Some(given) = given.map(DocumentNumber::value) else { return };
    if asked.value > given {
        let (shown, unit) = (beside(asked.value, given), &asked.unit);
        let message = format!("the cut needs {shown} {unit}, and the motor has {given} {unit}");
        let remedy = "use a smaller depth or feed, or a lower speed";
        work.find(FindingCode::MotorTooWeak, place.field("motor_power"), message, remedy);
    }
}

/// The feed marks alone must stay below the roughness that the drawing allows.
fn judge_finish(work: &mut Evaluation<'_>, place: Place<'_>, makes: &[Reference], roughness: f64) {
    for number in makes {
        let asked = work.limits_of(number.0).and_then(|c| c.roughness).map(DocumentNumber::value);
        let Some(asked) = asked.filter(|&asked| roughness > asked) else { continue };
        let shown = beside(roughness, asked);
        let message = format!(
            "the feed marks alone are Ra {shown}, rougher than the {asked} that number {} allows",
            number.0
        );
        let remedy = "reduce the feed, or use a larger nose radius";
        work.find(FindingCode::FinishTooRough, place.field("feed_per_revolution"), message, remedy);
    }
}

/// Modulus of a tool of steel: common practice. Solid carbide has nearly three times as much.
pub(super) fn steel(units: Units) -> f64 {
    Modulus::gigapascals(205.0).in_units(units)
}

/// How far a cutter bends under a force at its tip, where its overhang is known.
pub(super) fn cutter_bends(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    tool: &Cutter,
    force: f64,
    makes: &[Reference],
) -> Result<Option<Figure>, DocumentError> {
    let Some(overhang) = tool.overhang.map(DocumentNumber::value) else { return Ok(None) };
    let tool_place = place.field("tool");
    let at = tool_place.field("overhang");
    let diameter = tool.diameter.value();
    let x = [force, diameter, 0.0, diameter, overhang, steel(work.units)];
    let bent = work.figure(at, "bending of the cutter", &TOOL_DEFLECTION, &x)?;
    judge_bent(work, at, "the cutter bends by", bent.value, makes);
    Ok(Some(bent))
}

/// A tool must not give way by more than the tolerance of what it makes.
pub(super) fn judge_bent(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    what: &str,
    error: f64,
    makes: &[Reference],
) {
    for number in makes {
        let Some(asked) = work.limits_of(number.0) else { continue };
        let is_size = !matches!(asked.kind, CharacteristicKind::Depth | CharacteristicKind::Length);
        let tolerance = work.float(asked.limits.upper()) - work.float(asked.limits.lower());
        if is_size && error > tolerance {
            let unit = work.units.length_label();
            let message = format!(
                "{what} {} {unit}, more than the tolerance of number {}, {} {unit}",
                beside(error, tolerance),
                number.0,
                beside(tolerance, error)
            );
            let remedy = "hold the tool shorter, use a thicker one, or take a lighter last cut";
            work.find(FindingCode::ToolBendsTooFar, place, message, remedy);
        }
    }
}

/// A plunge of a blade from an outer to an inner diameter.
pub(super) struct Plunge<'d> {
    pub(super) outer: f64,
    pub(super) inner: f64,
    pub(super) tool: &'d PlungeTool,
    pub(super) spindle_speed: DocumentNumber<SpindleSpeed>,
    pub(super) feed: DocumentNumber<Length>,
    pub(super) power: Option<DocumentNumber<Power>>,
    pub(super) count: u32,
}

/// The figures of a plunge, and the time of all of them.
pub(super) fn plunge(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    cut: &Plunge<'_>,
) -> Result<(Vec<Figure>, f64), DocumentError> {
    let (spindle, feed) = (cut.spindle_speed.value(), cut.feed.value());
    let mut speed = work.figure(place, "surface speed", &SURFACE_SPEED, &[cut.outer, spindle])?;
    work.judge(place.field("spindle_speed"), &mut speed, &cut.tool.surface_speed);
    let rate = work.figure(place, "feed rate", &FEED_RATE, &[feed, 1.0, spindle])?;
    let mut figures = vec![speed.clone(), rate];
    if let Some([kc11, mc]) = work.material.cutting_force(work.units) {
        let [specific, ..] = work.results(place, &SPECIFIC_CUTTING_FORCE, &[kc11, feed, mc])?;
        let width = work.float(cut.tool.width);
        let force = work.figure(place, "cutting force", &TURNING_FORCE, &[width, feed, specific])?;
        let [power, ..] = work.results(place, &CUTTING_POWER_FROM_FORCE, &[force.value, speed.value])?;
        let power = work.figure(place, "motor power", &MOTOR_POWER, &[power, EFFICIENCY])?;
        judge_power(work, place, &power, cut.power);
        figures.extend([force, power]);
    }
    let inner = cut.inner.min(cut.outer);
    let [time, ..] =
        work.results(place, &FACING_TIME_CONSTANT_SPINDLE, &[cut.outer, feed, spindle, inner])?;
    let cutting = time * f64::from(cut.count);
    figures.push(work.time(cutting));
    Ok((figures, cutting))
}

/// Holes that a tool of one feed works in one stroke.
pub(super) struct Stroke<'d> {
    pub(super) tool: &'d HoleTool,
    /// The diameter that the surface speed is of.
    pub(super) diameter: f64,
    pub(super) travel: f64,
    pub(super) spindle_speed: DocumentNumber<SpindleSpeed>,
    pub(super) feed: DocumentNumber<Length>,
    pub(super) holes: u32,
}

/// The figures of a stroke, and the time of all holes.
pub(super) fn stroke(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    cut: &Stroke<'_>,
) -> Result<(Vec<Figure>, f64), DocumentError> {
    let (spindle, feed) = (cut.spindle_speed.value(), cut.feed.value());
    let mut speed = work.figure(place, "surface speed", &SURFACE_SPEED, &[cut.diameter, spindle])?;
    work.judge(place.field("spindle_speed"), &mut speed, &cut.tool.surface_speed);
    let rate = work.figure(place, "feed rate", &FEED_RATE, &[feed, 1.0, spindle])?;
    let [time, ..] = work.results(place, &DRILLING_TIME, &[cut.travel, feed, spindle])?;
    let cutting = time * f64::from(cut.holes);
    Ok((vec![speed, rate, work.plain::<Length>("travel", cut.travel), work.time(cutting)], cutting))
}
