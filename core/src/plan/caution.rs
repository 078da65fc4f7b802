//! Cautions, each at the operation that needs it: common practice, no source.
use super::metal::{Metal, MetalDesignation};
use std::borrow::Cow;

/// What is always to be borne in mind.
const ALWAYS: &str = "These figures are starting points for a competent person. The data of the makers of machine, \
                      tool and material, and local safety rules, come first.";
pub(super) const CUT: &str = "Speeds and feeds are judged against the ranges given in the plan, not against the machine or the \
                   set-up: guard the work, wear eye protection, and prove the first part at reduced speed.";
pub(super) const CHUCK: &str = "Stay below the speed marked on the chuck: its jaws grip less the faster it turns. A cut too deep \
                     for the grip throws the part.";
pub(super) const SAW: &str =
    "Clamp the bar, support its long end, and stop the blade before reaching near it.";
pub(super) const CLAMP: &str = "Screw preload scatters by about 30 percent either way, and is tension in the screw, not yet force \
                     on the part: try the clamping before cutting.";
pub(super) const HOLD: &str = "Friction and clamping force vary widely, and a part that comes loose is thrown: measure the force, and keep a \
                    margin.";
pub(super) const HOLE: &str =
    "Hold the part against turning with the tool, and keep hands and gloves away from the spindle.";
pub(super) const EDGES: &str = "Edges and burrs cut: hold the part safely, and wear eye protection.";
pub(super) const PART_OFF: &str = "A parted piece drops and a blade that catches is thrown: catch the part, keep the blade \
                                   on centre, and part off close to the chuck, never between centres.";
pub(super) const THREAD: &str = "Threading runs the carriage toward a shoulder at a pitch a turn: prove the stop or the relief \
                                 at low speed, and never touch a thread that turns.";
pub(super) const MILL: &str = "A cutter pulls work and fingers in: clamp the work, stop the spindle before measuring or \
                               brushing chips away, and keep sleeves and gloves away from it.";
pub(super) const GRIND: &str = "A wheel that bursts kills: ring-test it, never run it faster than its marking, keep the guard \
                                on, and stand aside while it comes up to speed. Grinding dust harms the lungs, and sparks \
                                light dust and oil.";
pub(super) const BROACH: &str = "A broach under load breaks without warning: keep it in line, stand aside, and keep hands off \
                                 the stroke. Its teeth cut like a knife.";
pub(super) const HEAT: &str = "Hot parts and quenching burn, and quenching oil catches fire: keep a lid and an extinguisher \
                               at hand. Prove hardness and size afterwards: parts grow, warp and may crack.";
pub(super) const PLATE: &str = "Plating baths poison and burn: leave them to a licensed shop. Hard steel may turn brittle in \
                                them: bake it as the standard of the plating says.";
pub(super) const WASH: &str =
    "Solvents harm lungs and skin and may burn: ventilate, wear gloves, and follow the data sheet.";
pub(super) const KNURL: &str = "The growth of a knurl is that of sharp teeth at full form on a blank that is large against the \
                     pitch. Real knurls mostly stay below it; on a small blank it can be some percent more: roll a \
                     trial piece. The wheels push hard: support a slender part.";
pub(super) const PRESS: &str = "Pressing can burst a hub or throw a part, and heating can burn: stand clear behind a guard, keep \
                     the part in line, and stop where the force rises above the one expected.";
pub(super) const SHRINK: &str = "Hot hubs burn and set fire, and dry ice and liquid nitrogen burn, suffocate and make steel \
                      brittle: wear face shield and insulating gloves, ventilate, heat evenly and never beyond what \
                      the metal bears, and join without a pause: a hub that grips halfway is lost.";
pub(super) const JOINT: &str = "A joint whose failure can injure needs the review of a licensed engineer.";

/// Those of the whole sheet: of a joint too where no operation presses it.
pub(super) fn of_sheet(has_unpressed_joint: bool) -> Vec<&'static str> {
    [ALWAYS].into_iter().chain(has_unpressed_joint.then_some(JOINT)).collect()
}

/// Those of an operation: its own, that of its holding, and those of chips of the material.
pub(super) fn of_operation(
    own: &[&'static str],
    is_held: bool,
    makes_chips: bool,
    material: &Metal,
) -> Vec<Cow<'static, str>> {
    let mut cautions: Vec<_> = own.iter().map(|&caution| Cow::Borrowed(caution)).collect();
    cautions.extend(is_held.then_some(Cow::Borrowed(HOLD)));
    if let Some(MetalDesignation(metal)) = material.designation.filter(|_| makes_chips) {
        cautions.extend(metal.cautions.iter().map(|caution| format!("{metal}: {caution}.").into()));
    }
    cautions
}
