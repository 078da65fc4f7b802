//! Vectors in space.

/// Three coordinates.
pub(crate) type Vector = [f64; 3];

/// Scalar product.
pub(crate) fn dot(a: &Vector, b: &Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Vector product, square to both.
pub(crate) fn cross(a: &Vector, b: &Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// `a + by · b`.
pub(crate) fn along(a: &Vector, b: &Vector, by: f64) -> Vector {
    std::array::from_fn(|k| a[k] + by * b[k])
}

/// The same direction at length 1; nothing of a vector without length.
pub(crate) fn unit(v: &Vector) -> Option<Vector> {
    // The largest coordinate first, so that no square overflows or vanishes.
    let most = v.iter().fold(0.0_f64, |most, one| most.max(one.abs()));
    if !(most > 0.0 && most.is_finite()) {
        return None;
    }
    let scaled = v.map(|one| one / most);
    let length = dot(&scaled, &scaled).sqrt();
    Some(scaled.map(|one| one / length))
}
