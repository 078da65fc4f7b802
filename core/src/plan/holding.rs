//! How operations hold the work: the safety against the forces of the cut, the motions that locators leave, and how far the work
//! bends away from the tool.
use super::characteristic::CharacteristicKind;
use super::evaluation::{Evaluation, no_answer};
use super::sheet::Figure;
use super::workpiece::End;
use crate::Size;
use crate::cutting::deflection::{BAR_DEFLECTION_CHUCK, BAR_DEFLECTION_TAILSTOCK};
use crate::document::DocumentError;
use crate::document::form::*;
use crate::error::beside;
use crate::finding::{FindingCode, Severity};
use crate::quantity::{Force, Length, Quantity, Ratio};
use crate::workholding::{ClampBound, ClampSafety, Clamping, Holding, Locating, Locator};

/// The least part of a screw's preload: common practice.
const LEAST_PRELOAD: &str = "screw preload, low";

objects! {
    /// How an operation holds the work, against which forces its safety is judged.
    ///
    /// Caution: friction and clamping force vary widely, and a part that comes loose is thrown. Measure the force, keep a margin, and
    /// follow the data of the makers of machine and workholding.
    Workholding {
        /// The way of holding.
        by: HoldingKind,
        /// The force of all clamps together; of a chuck or collet the grip at rest.
        clamp_force: DocumentNumber<Force> where Positive,
        /// The coefficient of friction between work and clamps: 0.1 to 0.2 for smooth steel, up to 0.45 for serrated jaws.
        friction: DocumentNumber<Ratio> where Positive,
        /// The faces that share the friction under straps or in a vice; without it 1 and 2.
        faces: Option<u32> where Positive,
        /// The diameter at which a chuck, collet or V-block holds the work; without it that of the bar.
        grip_diameter: Option<DocumentNumber<Length>> where Positive,
        /// The grip that speed takes from a chuck.
        grip_lost: DocumentNumber<Force> where NonNegative = DocumentNumber::new(0.0),
        /// The safety wanted against the forces of the cut.
        safety: DocumentNumber<Ratio> where Positive = DocumentNumber::new(2.0),
        /// How far from the jaws the tool cuts, at most; with it the bending of turned work is judged.
        overhang: Option<DocumentNumber<Length>> where Positive,
        /// The distance from the jaws to the centre of a tailstock, where one carries the work.
        tailstock: Option<DocumentNumber<Length>> where Positive,
        /// The end of the part that is held, where the plan says which.
        end: Option<End>,
        /// How much of the part the jaws cover from that end.
        grip_length: Option<Size> where Positive,
        /// The points that locate the work; with them the sheet tells which motions they leave.
        locators: Vec<LocatorPoint> = Vec::new(),
    } => rules {
        by, grip_lost => lost_by_chuck;
        by, faces => shared_by_flat_faces;
        overhang, tailstock => before_tailstock;
        end, grip_length => gripped_end;
    }

    /// A point that locates the work, about any origin.
    LocatorPoint {
        /// Its place along x.
        x: DocumentNumber<Length>,
        /// Its place along y.
        y: DocumentNumber<Length>,
        /// Its place along z.
        z: DocumentNumber<Length>,
        /// The part along x of the direction in which it pushes the work.
        i: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
        /// The part along y of that direction.
        j: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
        /// The part along z of that direction.
        k: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
    } => rules {
        i, j, k => has_direction;
    }
}

choices! {
    /// How work is held.
    HoldingKind {
        /// Straps press it on a rest.
        Strap = "strap",
        /// The jaws of a vice.
        Vice = "vice",
        /// The jaws of a chuck.
        Chuck = "chuck",
        /// A collet.
        Collet = "collet",
        /// A V-block with a clamp opposite the V.
        VBlock = "v_block",
    }
}

fn lost_by_chuck(by: &HoldingKind, lost: &DocumentNumber<Force>) -> Option<String> {
    let grips = matches!(by, HoldingKind::Chuck | HoldingKind::Collet);
    (!grips && lost.value() != 0.0)
        .then(|| format!("a {} loses no grip to speed: leave out `grip_lost`", by.name().replace('_', "-")))
}

fn shared_by_flat_faces(by: &HoldingKind, faces: &Option<u32>) -> Option<String> {
    let is_flat = matches!(by, HoldingKind::Strap | HoldingKind::Vice);
    (!is_flat && faces.is_some()).then(|| "`faces` are of straps and a vice: leave them out".into())
}

fn gripped_end(end: &Option<End>, grip: &Option<Size>) -> Option<String> {
    (end.is_none() && grip.is_some()).then(|| "`grip_length` needs the `end` that is held".into())
}

fn before_tailstock(
    overhang: &Option<DocumentNumber<Length>>,
    tailstock: &Option<DocumentNumber<Length>>,
) -> Option<String> {
    match (overhang.map(DocumentNumber::value), tailstock.map(DocumentNumber::value)) {
        (Some(at), Some(end)) if at > end => {
            Some(format!("the tool cuts at most as far from the jaws as the tailstock, {end}, not at {at}"))
        }
        (None, Some(_)) => Some("a tailstock needs the place of the cut: give `overhang`".into()),
        _ => None,
    }
}

fn has_direction(
    i: &DocumentNumber<Ratio>,
    j: &DocumentNumber<Ratio>,
    k: &DocumentNumber<Ratio>,
) -> Option<String> {
    let none = [i, j, k].into_iter().all(|one| one.value() == 0.0);
    none.then(|| {
        "a locator needs a direction: give `i`, `j` or `k`, e.g. `\"k\": 1` for one below the work".into()
    })
}

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
pub(super) struct CutForces {
    /// Two along the face that holds the work and one away from it, or those about, along and across an axis.
    pub(super) forces: [f64; 3],
    /// The diameter at which the first one acts about an axis.
    pub(super) diameter: f64,
}

impl Evaluation<'_> {
    /// What a holding comes to against the forces of its cut; none are known where the material does not tell them.
    pub(super) fn judge_holding(
        &mut self,
        place: Place<'_>,
        held: &Workholding,
        cut: Option<&CutForces>,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        figures.push(self.stated("clamping force", held.clamp_force));
        self.judge_locators(place.field("locators"), held)?;
        self.judge_preload(place.field("clamp_force"), held, figures);
        if let Some(cut) = cut {
            return self.judge_safety(place, held, cut, figures);
        }
        let (message, remedy) = match self.material.cutting_force(self.units) {
            None => (
                "the material has no kc1.1, so the forces of the cut are not known",
                "give `kc11` and `mc` of the material, or prove the clamping by a trial",
            ),
            Some(_) => ("the forces of such a cut are not calculated", "prove the clamping by a trial"),
        };
        self.find(FindingCode::HoldingNotJudged, place, message.into(), remedy);
        Ok(())
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
        let bar = self.float(self.bar.limits.upper());
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
    pub(super) fn judge_bending(
        &mut self,
        place: Place<'_>,
        makes: &[Reference],
        held: &Workholding,
        cut: &CutForces,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let elasticity = self.material.elasticity(self.units);
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
        for number in makes {
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
