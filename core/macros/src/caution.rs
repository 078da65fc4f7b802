//! The cautions that formulas carry, one text for each kind of harm.
//!
//! They stand here, and not in the crate, because the docs of a function must be literal text: so its docs and its
//! record say the same.
use syn::{Ident, Result};

/// Each kind of harm, by the name that `caution(…)` takes, with the text that every interface prints.
const KINDS: &[(&str, &str)] = &[
    ("joint", "Have a licensed engineer review a joint whose failure can injure."),
    (
        "pressing",
        "Stand clear of the line of the press and keep within its rating: parts that slip or crack fly out.",
    ),
    (
        "heat_and_cold",
        "Hot and deep-cold parts burn: wear gloves and a face shield. Liquid nitrogen and dry ice drive out the air to \
         breathe: ventilate. Heat only as far as the material allows.",
    ),
    (
        "rotating_joint",
        "Parts that come loose or burst at speed kill. Have a licensed engineer review a rotating joint.",
    ),
    (
        "pressure_vessel",
        "Pressure vessels kill. These figures do not replace a design to the vessel code. Have a licensed engineer \
         design and review the vessel.",
    ),
    (
        "screw",
        "A screw that is too loose or too tight lets go: the data of its maker come first. Have a licensed engineer \
         review a screw whose failure can injure.",
    ),
    ("trial", "An estimate: prove each design by a push-out trial, and by one under torque."),
    (
        "grinding_wheel",
        "Wheels burst, even within their rating. Guards, the ring test, mounting by a trained person, a trial run and \
         the data of the makers of wheel and machine come first. Keep below the lowest limit of wheel, spindle, flanges \
         and guard.",
    ),
    (
        "chuck",
        "A chuck that loses its grip throws the work. The data of the makers of chuck and machine come first. Keep \
         below the lowest limit of chuck, jaws, cylinder and spindle, measure the grip, and balance the work.",
    ),
    (
        "spindle_speed",
        "Program no more than the lowest limit of spindle, chuck or holder, tool and work, and cap the speed where the \
         surface speed is constant. A chuck grips less the faster it turns: see `chuck_speed_share` and \
         `gripping_force_at_speed`.",
    ),
    ("parting", "The piece comes free under full rotation: support or catch it."),
    (
        "whipping_bar",
        "A bar that is loose, bent or unbalanced whips far below this speed, folds over and strikes what is near. \
         Support and guard it over its whole length. The rule of the machine's maker comes first.",
    ),
    (
        "hot_chips",
        "Chips this hot burn and may set fire to magnesium, titanium and oil: guard them and clear them away.",
    ),
    (
        "slender_work",
        "A slender bar that bends may climb onto the tool or be thrown out of the chuck: support it.",
    ),
    (
        "clamping",
        "Work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and \
         follow the data of the makers of machine and workholding.",
    ),
    (
        "thin_wall",
        "A thin ring that is gripped too lightly is thrown, and one that is gripped too hard collapses and comes loose. Grip it \
         by more jaws or on its face, and follow the data of the makers of chuck and machine.",
    ),
    (
        "seat",
        "Work that is not held down is thrown. A seat that reaches past the axis does not replace the clamp: follow the \
         data of the makers of machine and workholding.",
    ),
];

/// The texts of these kinds of harm, one after the other; none for no kind.
pub(crate) fn text(kinds: &[Ident]) -> Result<Option<String>> {
    let texts = kinds.iter().map(find).collect::<Result<Vec<_>>>()?;
    Ok((!texts.is_empty()).then(|| texts.join(" ")))
}

fn find(kind: &Ident) -> Result<&'static str> {
    let found = KINDS.iter().find(|(known, _)| kind == known);
    found.map(|(_, text)| *text).ok_or_else(|| {
        let known = KINDS.iter().map(|(known, _)| *known).collect::<Vec<_>>().join(", ");
        syn::Error::new(kind.span(), format!("no such caution; expected one of {known}"))
    })
}
