//! Shapes on a part: flats, polygons, keyseats, tapers, arcs, bolt circles, and how they are measured.
pub mod arc;
pub mod bolt_circle;
pub mod flat;
pub mod keyseat;
pub mod over_pins;
pub mod polygon;
pub mod sine_bar;
pub mod standard_taper;
pub mod taper;

/// The value of an inverse, or NaN where a wanted result lies on a branch that the formula never takes.
fn on_branch(taken: bool, value: f64) -> f64 {
    if taken { value } else { f64::NAN }
}
