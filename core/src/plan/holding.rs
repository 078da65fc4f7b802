//! How operations hold the work: the safety against the forces of the cut, the motions that locators leave, and how far the work
//! bends away from the tool.
use super::document::*;
use super::evaluate::{Evaluation, no_answer};
use super::sheet::Figure;
use crate::cutting::deflection::{BAR_DEFLECTION_CHUCK, BAR_DEFLECTION_TAILSTOCK};
use crate::cutting::milling_cut::MILLING_CUT;
use crate::document::DocumentError;
use crate::document::fault::Place;
use crate::finding::{FindingCode, Severity, beside};
use crate::quantity::{Force, Length, Quantity, Ratio};
use crate::workholding::{ClampBound, ClampSafety, Clamping, Holding, Locating, Locator};

/// Feed and passive force of turning over the main force: common practice, about 4 : 2 : 1.
const FEED_AND_PASSIVE: [f64; 2] = [0.5, 0.25];
/// Pull of a helical cutter along its axis over the force along the path: about the tangent of its helix, common practice.
const HELIX_PULL: f64 = 0.5;
/// The least part of a screw's preload: common practice.
const LEAST_PRELOAD: &str = "screw preload, low";

impl HoldingKind {
    const fn holding(self) -> Holding {
        match self {
            HoldingKind::Strap => Holding::Strap,
            HoldingKind::Vice => Holding::Vice,
            HoldingKind::Chuck => Holding::Chuck,
            HoldingKind::Collet => Holding::Collet,
            HoldingKind::VBlock => Holding::VBlock,
        }
    }
}

/// The forces of a cut, in shop units.
struct CutForces {
    /// Two along the face that holds the work and one away from it, or those about, along and across an axis.
    forces: [f64; 3],
    /// The diameter at which the first one acts about an axis.
    diameter: f64,
}

impl Evaluation<'_> {
    /// What the holding of an operation comes to, from the figures of its cut.
    pub(super) fn holding(
        &mut self,
        place: Place<'_>,
        operation: &Operation,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let Some(held) = operation.holding() else { return Ok(()) };
        let place = place.field("holding");
        figures.push(self.stated("clamping force", held.clamp_force));
        self.judge_locators(place.field("locators"), held)?;
        self.judge_preload(place.field("clamp_force"), held, figures);
        let Some(cut) = self.forces(place, operation, figures)? else {
            let message = "the material has no kc1.1, so the forces of the cut are not known".to_string();
            let remedy = "give `kc11` and `mc` of the material, or prove the clamping by a trial";
            self.find(FindingCode::HoldingNotJudged, place, message, remedy);
            return Ok(());
        };
        self.judge_safety(place, held, &cut, figures)?;
        if let Operation::Turn(turn) = operation {
            self.judge_bending(place, turn, held, &cut, figures)?;
        }
        Ok(())
    }

    /// Nothing where the material does not tell its forces.
    fn forces(
        &self,
        place: Place<'_>,
        operation: &Operation,
        figures: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        let Some([kc11, mc]) = self.document.material.cutting_force(self.units) else { return Ok(None) };
        let diameter = match operation {
            Operation::Turn(Turn { diameter, .. }) | Operation::Face(Face { diameter, .. }) => *diameter,
            _ => None,
        };
        let diameter = self.float(self.bar_or(diameter));
        if let Operation::MillFlats(mill) = operation {
            let Cutter { diameter: cutter, teeth, .. } = &mill.tool;
            let (teeth, spindle) = (f64::from(*teeth), mill.spindle_speed.value());
            let [width, depth] = [mill.radial_width, mill.axial_depth].map(|one| one.value());
            let load = mill.feed_rate.value() / (teeth * spindle);
            let x = [cutter.value(), teeth, spindle, load, width, depth, kc11, mc];
            let x: Vec<f64> = x.into_iter().chain([90.0, 0.0, 0.0, 0.01, 1.0, 0.8]).collect();
            let mut y = vec![f64::NAN; MILLING_CUT.outputs.len()];
            MILLING_CUT.call(self.units, &x, &mut y).map_err(|error| no_answer(place, error))?;
            let told = |name| {
                MILLING_CUT.outputs.iter().position(|one| one.name == name).map_or(f64::NAN, |at| y[at])
            };
            // All teeth that may be in the cut push as hard as the one that pushes most.
            let side = told("tooth_force") * told("teeth_engaged").ceil().max(1.0);
            return Ok(Some(CutForces { forces: [side, 0.0, HELIX_PULL * side], diameter }));
        }
        let main = figures.iter().find(|figure| figure.name == "cutting force").map(|figure| figure.value);
        let [feed, passive] = FEED_AND_PASSIVE;
        Ok(main.map(|main| CutForces { forces: [main, feed * main, passive * main], diameter }))
    }

    fn judge_safety(
        &mut self,
        place: Place<'_>,
        held: &Workholding,
        cut: &CutForces,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let units = self.units;
        let force = |value| Force::new_in(value, units);
        let holding = held.by.holding();
        let bar = self.float(self.document.bar.limits.upper());
        let grip = held.grip_diameter.map_or(bar, |grip| grip.value());
        let round = !matches!(holding, Holding::Strap | Holding::Vice);
        let friction = Ratio::new(held.friction.value());
        let of = Clamping {
            diameters: round.then(|| [cut.diameter, grip].map(|one| Length::new_in(one, units))),
            grip_lost: force(held.grip_lost.value()),
            faces: held.faces,
            wanted: held.safety.value(),
            ..Clamping::new(holding, force(held.clamp_force.value()), cut.forces.map(force), friction)
        };
        let made = ClampSafety::new(&of).map_err(|error| no_answer(place, error))?;
        let unit = Force::KIND.unit(units).label;
        let required = made.required_force.in_units(units);
        figures.push(Figure::new("safety of the clamping", made.safety, ""));
        figures.push(Figure::new("clamping force for the safety", required, unit));
        if !made.enough {
            let what = match made.bound_by {
                ClampBound::Slip => "slips",
                ClampBound::Lift => "lifts",
            };
            let severity = if made.safety < 1.0 { Severity::Error } else { Severity::Warning };
            let message = format!(
                "the work {what} at {} times the forces of the cut; a safety of {} is wanted",
                beside(made.safety, made.wanted),
                made.wanted
            );
            let remedy = format!("clamp with at least {} {unit}, or take a lighter cut", required.ceil());
            self.find((FindingCode::HoldsTooLittle, severity), place.field("clamp_force"), message, remedy);
        }
        Ok(())
    }

    /// A seat's screw must give the force that the holding counts on, even where it scatters low.
    fn judge_preload(&mut self, place: Place<'_>, held: &Workholding, figures: &[Figure]) {
        let Some(least) = figures.iter().find(|figure| figure.name == LEAST_PRELOAD) else { return };
        let (force, least, unit) = (held.clamp_force.value(), least.value, &least.unit);
        if force > least {
            let message = format!(
                "the holding counts on {force} {unit}, and the screw may give only {} {unit}",
                beside(least, force)
            );
            let remedy = "count on the low preload at most, or tighten the screw more if its maker allows it";
            self.find(FindingCode::ClampForceBeyondScrew, place, message, remedy);
        }
    }

    fn judge_locators(&mut self, place: Place<'_>, held: &Workholding) -> Result<(), DocumentError> {
        if held.locators.is_empty() {
            return Ok(());
        }
        let locators: Vec<Locator> = held
            .locators
            .iter()
            .map(|one| Locator {
                position: [one.x, one.y, one.z].map(|one| one.value()),
                normal: [one.i, one.j, one.k].map(|one| one.value()),
            })
            .collect();
        let made =
            Locating::new(&locators, &[], None, self.units).map_err(|error| no_answer(place, error))?;
        for motion in &made.free {
            let message = format!("the locators leave a freedom: the work {}", motion.words);
            let remedy = "add a locator, or make sure that the clamps hold that motion by friction";
            self.find(FindingCode::FreedomLeft, place, message, remedy);
        }
        if made.redundant > 0 {
            let message = format!(
                "{} locators stop {} motions, so the work rests on some of them and not on all",
                locators.len(),
                made.held
            );
            let remedy = "take the extra locators away, or make them adjustable";
            self.find(FindingCode::TooManyLocators, place, message, remedy);
        }
        Ok(())
    }

    /// The passive force bends work that sticks out of the jaws away from the tool.
    fn judge_bending(
        &mut self,
        place: Place<'_>,
        turn: &Turn,
        held: &Workholding,
        cut: &CutForces,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let elasticity = self.document.material.elasticity(self.units);
        let (Some(overhang), Some([modulus, _])) = (held.overhang, elasticity) else { return Ok(()) };
        let [_, _, passive] = cut.forces;
        let (place, at, across) = (place.field("overhang"), overhang.value(), cut.diameter);
        let [_, error, ..] = match held.tailstock {
            Some(end) => {
                let x = [passive, end.value(), at, across, modulus, 0.0];
                self.results(place, &BAR_DEFLECTION_TAILSTOCK, &x)?
            }
            None => self.results(place, &BAR_DEFLECTION_CHUCK, &[passive, at, across, modulus, 0.0])?,
        };
        let unit = self.units.length_label();
        figures.push(Figure::new("diameter error from bending", error, unit));
        for number in &turn.makes {
            let made = self.limits_of(number.0).filter(|c| c.kind == CharacteristicKind::Diameter);
            let Some(tolerance) = made.map(|c| self.float(c.limits.upper()) - self.float(c.limits.lower()))
            else {
                continue;
            };
            if error > tolerance {
                let message = format!(
                    "the cut bends the work so far that the diameter is {} {unit} too large there, more than the tolerance \
                     of number {}, {} {unit}",
                    beside(error, tolerance),
                    number.0,
                    beside(tolerance, error)
                );
                let remedy = "support the work by a tailstock, hold it shorter, or take a lighter last cut";
                self.find(FindingCode::BendsTooFar, place, message, remedy);
            }
        }
        Ok(())
    }
}
