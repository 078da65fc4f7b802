//! Keyseats in shafts and hubs: the sizes that a micrometer reads, and the depths that are cut.
//!
//! A keyseat is measured from its floor to the far side of the shaft, or of the bore of the hub, since the
//! edge from which its depth counts has been cut away.
use super::arc::sagitta_base;
use super::on_branch;
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Height of the shaft that a keyseat of a width takes away: (d - √(d² - width²)) / 2.
///
/// From the top of the shaft down to the edges of the keyseat, the Y of ANSI B17.1. The height of a chord.
#[formula(
    source = "ANSI B17.1-1967, depth of keyseats; geometry of the circle",
    rule(key_width <= shaft_diameter, "key_width must be at most shaft_diameter"),
    inverse(shaft_diameter = shaft_of_height(keyseat_chord_height, key_width)),
    inverse(key_width = width_of_height(shaft_diameter, keyseat_chord_height))
)]
pub fn keyseat_chord_height(#[decreasing] shaft_diameter: Length, #[increasing] key_width: Length) -> Length {
    sagitta_base(0.5 * shaft_diameter, key_width)
}

/// Depth of cut of a keyseat, from the top of the shaft: chord height + key height / 2.
///
/// From where the cutter touches the round shaft, on its centre line, for half the key below the edges.
#[formula(
    source = "ANSI B17.1-1967, depth of keyseats; geometry of the circle",
    rule(key_width <= shaft_diameter, "key_width must be at most shaft_diameter"),
    inverse(shaft_diameter = shaft_of_height(keyseat_depth - 0.5 * key_height, key_width)),
    inverse(key_width = width_of_height(shaft_diameter, keyseat_depth - 0.5 * key_height)),
    inverse(key_height = 2.0 * (keyseat_depth - sagitta_base(0.5 * shaft_diameter, key_width)))
)]
pub fn keyseat_depth(
    #[decreasing] shaft_diameter: Length,
    #[increasing] key_width: Length,
    #[increasing] key_height: Length,
) -> Length {
    sagitta_base(0.5 * shaft_diameter, key_width) + 0.5 * key_height
}

/// Size from the floor of a shaft's keyseat to the far side: d - chord height - key height / 2.
///
/// The S of ANSI B17.1, for half the key below the edges of the keyseat.
#[formula(
    source = "ANSI B17.1-1967, depth of keyseats",
    rule(key_width <= shaft_diameter, "key_width must be at most shaft_diameter"),
    rule(
        key_height < shaft_diameter + ((shaft_diameter - key_width) * (shaft_diameter + key_width)).sqrt(),
        "shaft_diameter must be greater than the depth that key_width and key_height remove"
    ),
    inverse(shaft_diameter = shaft_of_edges(shaft_keyseat_far_side + 0.5 * key_height, key_width)),
    inverse(key_width = width_of_edges(shaft_diameter, shaft_keyseat_far_side + 0.5 * key_height)),
    inverse(key_height = 2.0 * (shaft_diameter - sagitta_base(0.5 * shaft_diameter, key_width)
        - shaft_keyseat_far_side))
)]
pub fn shaft_keyseat_far_side(
    #[increasing] shaft_diameter: Length,
    #[decreasing] key_width: Length,
    #[decreasing] key_height: Length,
) -> Length {
    shaft_diameter - sagitta_base(0.5 * shaft_diameter, key_width) - 0.5 * key_height
}

/// Size from the floor of a hub's keyseat to the far side of the bore.
///
/// d - chord height + key height / 2 + clearance, the T of ANSI B17.1, which gives parallel keys a clearance of
/// 0.005 in and taper keys an interference of 0.020 in (from memory).
#[formula(
    source = "ANSI B17.1-1967, depth of keyseats",
    rule(key_width <= shaft_diameter, "key_width must be at most shaft_diameter"),
    rule(0.5 * key_height + clearance > 0.0, "clearance must be greater than minus half of key_height"),
    inverse(shaft_diameter = shaft_of_edges(hub_keyseat_far_side - clearance - 0.5 * key_height, key_width)),
    inverse(key_width = width_of_edges(shaft_diameter, hub_keyseat_far_side - clearance - 0.5 * key_height)),
    inverse(key_height = 2.0 * (hub_keyseat_far_side - clearance
        - (shaft_diameter - sagitta_base(0.5 * shaft_diameter, key_width)))),
    inverse(clearance = hub_keyseat_far_side
        - (shaft_diameter - sagitta_base(0.5 * shaft_diameter, key_width) + 0.5 * key_height))
)]
pub fn hub_keyseat_far_side(
    /// Diameter of the shaft, and of the bore.
    #[positive]
    #[increasing]
    shaft_diameter: Length,
    #[decreasing] key_width: Length,
    #[increasing] key_height: Length,
    /// Clearance over the key; negative for the interference of a taper key.
    #[increasing]
    clearance: Length,
) -> Length {
    shaft_diameter - sagitta_base(0.5 * shaft_diameter, key_width) + 0.5 * key_height + clearance
}

/// Depth of a Woodruff keyseat in the shaft, below its edges: least key height - key width / 2.
///
/// Half the width of the key then stands out of the shaft. The table takes the least height that the tolerance
/// of the key allows, and gives the depth as a least one, with 0.005 in to the deep side. From the top of the
/// shaft the cutter goes deeper, by `keyseat_chord_height`.
#[formula(
    source = "USAS B17.2-1967, as tabulated in Shigley's Mechanical Engineering Design, 9th ed., table 7-7, \
              p. 393: the rule behind its depths",
    rule(0.5 * key_width < least_key_height, "least_key_height must be greater than half of key_width"),
    inverse(least_key_height = woodruff_keyseat_depth + 0.5 * key_width),
    inverse(key_width = 2.0 * (least_key_height - woodruff_keyseat_depth))
)]
pub fn woodruff_keyseat_depth(
    /// Least height of the key.
    #[positive]
    #[increasing]
    least_key_height: Length,
    #[decreasing] key_width: Length,
) -> Length {
    least_key_height - 0.5 * key_width
}

/// Depth of the keyseat of a Woodruff key in the hub, below its edges: key width / 2 + clearance.
#[formula(
    source = "USAS B17.2-1967, as tabulated in Shigley's Mechanical Engineering Design, 9th ed., table 7-7, \
              p. 393: the rule behind its depths",
    inverse(key_width = 2.0 * (woodruff_hub_depth - clearance)),
    inverse(clearance = woodruff_hub_depth - 0.5 * key_width)
)]
pub fn woodruff_hub_depth(
    #[increasing] key_width: Length,
    /// Clearance over the key.
    #[non_negative]
    #[default(Length::inches(0.006))]
    #[increasing]
    clearance: Length,
) -> Length {
    0.5 * key_width + clearance
}

/// Diameter of the shaft of which a keyseat of a width takes a height, up to half the shaft.
fn shaft_of_height(height: f64, key_width: f64) -> f64 {
    on_branch(2.0 * height <= key_width, height + 0.25 * key_width * (key_width / height))
}

/// Width of the keyseat that takes a height of the shaft, up to half of it.
fn width_of_height(shaft_diameter: f64, height: f64) -> f64 {
    on_branch(2.0 * height <= shaft_diameter, 2.0 * (height * (shaft_diameter - height)).sqrt())
}

/// Diameter of the shaft in which the edges of a keyseat lie so far from the far side, half the shaft or more.
fn shaft_of_edges(edges: f64, key_width: f64) -> f64 {
    on_branch(key_width <= 2.0 * edges, edges + 0.25 * key_width * (key_width / edges))
}

/// Width of the keyseat whose edges lie so far from the far side, half the shaft or more.
fn width_of_edges(shaft_diameter: f64, edges: f64) -> f64 {
    on_branch(shaft_diameter <= 2.0 * edges, 2.0 * (edges * (shaft_diameter - edges)).sqrt())
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &KEYSEAT_CHORD_HEIGHT,
    &KEYSEAT_DEPTH,
    &SHAFT_KEYSEAT_FAR_SIDE,
    &HUB_KEYSEAT_FAR_SIDE,
    &WOODRUFF_KEYSEAT_DEPTH,
    &WOODRUFF_HUB_DEPTH,
];
