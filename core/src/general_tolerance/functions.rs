//! General tolerances by the names of what is wanted, as C and Python ask for them.
use super::{GeneralClass, GeneralFeature, GeneralTolerance, GeneralToleranceError};
use crate::size::Size;
use tenths_macros::function;

/// What a general tolerance of ISO 2768 allows a feature of a nominal size.
///
/// # Errors
/// As [`GeneralTolerance::new`], and [`GeneralToleranceError::Length`] for a length that is missing or not wanted.
#[function(gives = "tolerance", example("120 mm", "ISO 2768-mK", "length", null))]
pub fn general_tolerance(
    /// The nominal size.
    size: Size,
    /// The class: f, m, c and v are for the first three features, H, K and L for the others. `ISO 2768-mK` names one of
    /// each, and `mK` says the same.
    #[text]
    general_class: GeneralClass,
    /// The feature: `length`, `edge` (a broken one), `angle` (by its shorter side), `straightness`, `flatness`,
    /// `perpendicularity`, `symmetry`, `run_out`, `roundness` or `parallelism`.
    #[text]
    #[default("length")]
    feature: GeneralFeature,
    /// The length of the longer of two parallel faces or lines; of parallelism alone, whose size is their distance.
    length: Option<Size>,
) -> Result<GeneralTolerance, GeneralToleranceError> {
    match (feature, length) {
        (GeneralFeature::Parallelism, Some(length)) => {
            GeneralTolerance::parallelism(general_class, size, length)
        }
        (feature, Some(_)) => Err(GeneralToleranceError::Length { feature }),
        (feature, None) => GeneralTolerance::new(general_class, feature, size),
    }
}
