//! Measured points, moved and scaled for the fit.
use super::kinds::{FormError, MAX_POINTS};
use super::shape::Vector;

/// Points about their middle, none farther from it than 1.
pub(super) struct Cloud {
    pub(super) points: Vec<Vector>,
    pub(super) middle: Vector,
    pub(super) scale: f64,
}

impl Cloud {
    /// From rows of coordinates, of which a missing third one is zero.
    pub(super) fn new(points: &[f64], columns: usize) -> Result<Cloud, FormError> {
        let count = points.len() / columns.max(1);
        if count > MAX_POINTS {
            return Err(FormError::TooMany { count });
        }
        let mut own: Vec<Vector> = Vec::with_capacity(count);
        for (place, row) in points.chunks_exact(columns.max(1)).enumerate() {
            if let Some(coordinate) = row.iter().position(|one| !one.is_finite()) {
                return Err(FormError::NotFinite { point: place, coordinate, value: row[coordinate] });
            }
            own.push(std::array::from_fn(|k| row.get(k).copied().unwrap_or(0.0)));
        }
        let middle: Vector = std::array::from_fn(|k| {
            let first = own.first().map_or(0.0, |point| point[k]);
            first + own.iter().map(|point| (point[k] - first) / count as f64).sum::<f64>()
        });
        let mut scale = 0.0_f64;
        for point in &mut own {
            *point = std::array::from_fn(|k| point[k] - middle[k]);
            scale = point.iter().fold(scale, |most, one| most.max(one.abs()));
        }
        if !(scale > 0.0 && scale.is_finite()) {
            return Err(FormError::Open { what: "the feature" });
        }
        own.iter_mut().for_each(|point| *point = point.map(|one| one / scale));
        Ok(Cloud { points: own, middle, scale })
    }
}
