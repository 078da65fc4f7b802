//! Cautions, each at the operation that needs it: common practice, no source.
use super::document::*;
use std::borrow::Cow;

/// What is always to be borne in mind.
const ALWAYS: &str = "These figures are starting points for a competent person. The data of the makers of machine, \
                      tool and material, and local safety rules, come first.";
const CUT: &str = "Speeds and feeds are judged against the ranges given in the plan, not against the machine or the \
                   set-up: guard the work, wear eye protection, and prove the first part at reduced speed.";
const CHUCK: &str = "Stay below the speed marked on the chuck: its jaws grip less the faster it turns. A cut too deep \
                     for the grip throws the part.";
const SAW: &str = "Clamp the bar, support its long end, and stop the blade before reaching near it.";
const CLAMP: &str = "Screw preload scatters by about 30 percent either way, and is tension in the screw, not yet force \
                     on the part: try the clamping before cutting.";
const HOLD: &str = "Friction and clamping force vary widely, and a part that comes loose is thrown: measure the force, and keep a \
                    margin.";
const HOLE: &str =
    "Hold the part against turning with the tool, and keep hands and gloves away from the spindle.";
const EDGES: &str = "Edges and burrs cut: hold the part safely, and wear eye protection.";
const KNURL: &str = "The growth of a knurl is that of sharp teeth at full form on a blank that is large against the \
                     pitch. Real knurls mostly stay below it; on a small blank it can be some percent more: roll a \
                     trial piece. The wheels push hard: support a slender part.";
const PRESS: &str = "Pressing can burst a hub or throw a part, and heating can burn: stand clear behind a guard, keep \
                     the part in line, and stop where the force rises above the one expected.";
const JOINT: &str = "A joint whose failure can injure needs the review of a licensed engineer.";

/// Those of the whole sheet: of the joint where no operation presses it.
pub(super) fn of_sheet(document: &Document) -> Vec<&'static str> {
    let is_pressed = document.operations.iter().any(|operation| matches!(operation, Operation::Press(_)));
    let joint = (document.joint.is_some() && !is_pressed).then_some(JOINT);
    [ALWAYS].into_iter().chain(joint).collect()
}

pub(super) fn of_operation(operation: &Operation, material: &Metal) -> Vec<Cow<'static, str>> {
    let own: &[&'static str] = match operation {
        Operation::Saw(_) => &[CUT, SAW],
        Operation::MillFlats(mill) if mill.seat.is_some() => &[CUT, CLAMP],
        Operation::MillFlats(_) => &[CUT],
        Operation::Turn(_) | Operation::Face(_) => &[CUT, CHUCK],
        Operation::Drill(_) | Operation::Tap(_) => &[CUT, HOLE],
        Operation::Deburr(_) => &[EDGES],
        Operation::Knurl(_) => &[CUT, CHUCK, KNURL],
        Operation::Press(_) => &[PRESS, JOINT],
        Operation::Inspect(_) => &[],
    };
    let mut cautions: Vec<_> = own.iter().map(|&caution| Cow::Borrowed(caution)).collect();
    cautions.extend(operation.holding().map(|_| Cow::Borrowed(HOLD)));
    let makes_chips = !matches!(operation, Operation::Knurl(_) | Operation::Press(_) | Operation::Inspect(_));
    if let Some(Designation(metal)) = material.designation.filter(|_| makes_chips) {
        cautions.extend(metal.cautions.iter().map(|caution| format!("{metal}: {caution}.").into()));
    }
    cautions
}
