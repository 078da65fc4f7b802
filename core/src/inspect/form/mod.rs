//! Form from points: lines, planes, circles, spheres, cylinders and cones through measured points, and how far the points
//! deviate from them.
//!
//! Least squares and minimum zone are the reference features of ISO 12180 (cylindricity), ISO 12181 (roundness), ISO 12780
//! (straightness) and ISO 12781 (flatness); ISO 1101 judges form by the minimum zone. The standards were not seen themselves.
mod cloud;
mod datum;
mod fit;
mod kinds;
mod least_squares;
mod linear;
mod minimum_zone;
mod shape;
mod uncertainty;

pub use datum::{HolePosition, hole_position};
pub use fit::FormFit;
pub use kinds::{FormCriterion, FormError, FormFeature, MAX_POINTS};

#[cfg(test)]
mod tests;
