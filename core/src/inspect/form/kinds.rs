//! Features and criteria, and why no feature goes through the points.
use crate::error::excerpt;
use tenths_macros::Choice;

/// A geometrical feature.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FormFeature {
    /// A straight line: of points in a plane between two parallel lines, of points in space within a cylinder.
    Line,
    /// A plane.
    Plane,
    /// A circle, of points in its plane.
    Circle,
    /// A sphere.
    Sphere,
    /// A cylinder.
    Cylinder,
    /// A cone.
    Cone,
}

/// What makes a feature the best one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FormCriterion {
    /// The least sum of squared distances.
    #[name = "least squares"]
    LeastSquares,
    /// The narrowest zone that holds all points. It is the one next to the least-squares feature.
    #[name = "minimum zone"]
    MinimumZone,
}

/// Why no feature goes through the points.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FormError {
    /// A text that names no feature.
    #[error("`{text}` is not a feature; expected line, plane, circle, sphere, cylinder or cone")]
    Feature {
        /// The text as given.
        text: String,
    },
    /// A text that names no criterion.
    #[error("`{text}` is not a criterion; expected `least squares` or `minimum zone`")]
    Criterion {
        /// The text as given.
        text: String,
    },
    /// Points of another count of coordinates.
    #[error("a {} needs points of {wanted} coordinates, not {columns}", feature.name())]
    Columns {
        /// The feature.
        feature: FormFeature,
        /// The counts that it takes.
        wanted: &'static str,
        /// The count as given.
        columns: usize,
    },
    /// Too few points.
    #[error("{what} needs at least {least} points, not {count}")]
    TooFew {
        /// The feature or datum.
        what: &'static str,
        /// How many it needs.
        least: usize,
        /// How many there are.
        count: usize,
    },
    /// More points than are fitted.
    #[error("{count} points are more than {MAX_POINTS}, the most that a fit takes")]
    TooMany {
        /// How many there are.
        count: usize,
    },
    /// A coordinate that is no number.
    #[error("coordinate {} of point {point} must be finite, not {value}", ["x", "y", "z"][*coordinate % 3])]
    NotFinite {
        /// The place of the point, from 0.
        point: usize,
        /// The place of the coordinate, from 0.
        coordinate: usize,
        /// The number as given.
        value: f64,
    },
    /// Points that leave the feature open.
    #[error(
        "the points do not fix {what}: {} Fix: measure more of the feature",
        "they are alike, on one line or on too short a piece of it."
    )]
    Open {
        /// The feature or datum.
        what: &'static str,
    },
    /// The position that follows cannot be judged.
    #[error(transparent)]
    Position(#[from] crate::position::check::PositionError),
    /// A size that follows cannot be counted.
    #[error(transparent)]
    Size(#[from] crate::size::SizeError),
}

/// The most points of a fit.
pub const MAX_POINTS: usize = 1_000_000;

impl FormFeature {
    /// Reads a name, as [`FormFeature::name`] gives it.
    ///
    /// # Errors
    /// [`FormError::Feature`].
    pub fn parse(text: &str) -> Result<FormFeature, FormError> {
        let known = FormFeature::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| FormError::Feature { text: excerpt(text) })
    }

    /// With its article, for a message.
    pub(super) const fn words(self) -> &'static str {
        match self {
            FormFeature::Line => "a line",
            FormFeature::Plane => "a plane",
            FormFeature::Circle => "a circle",
            FormFeature::Sphere => "a sphere",
            FormFeature::Cylinder => "a cylinder",
            FormFeature::Cone => "a cone",
        }
    }
}

impl FormCriterion {
    /// Reads a name, as [`FormCriterion::name`] gives it.
    ///
    /// # Errors
    /// [`FormError::Criterion`].
    pub fn parse(text: &str) -> Result<FormCriterion, FormError> {
        let known = FormCriterion::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| FormError::Criterion { text: excerpt(text) })
    }
}
