//! The classes of general tolerances, and what they are of.
//!
//! `general_tolerance` reads them and has their tables.
use std::fmt;
use tenths_macros::Choice;

/// A class of general tolerances: a letter for sizes and angles, one for form and position, or both.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct GeneralClass {
    /// The place of its letter among those for sizes.
    pub(crate) size: Option<u8>,
    /// The place of its letter among those for form.
    pub(crate) form: Option<u8>,
}

impl GeneralClass {
    pub(crate) const SIZE_LETTERS: [char; 4] = ['f', 'm', 'c', 'v'];
    pub(crate) const FORM_LETTERS: [char; 3] = ['H', 'K', 'L'];
}

impl fmt::Display for GeneralClass {
    /// `ISO 2768-mK`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = |place: Option<u8>, letters: &[char]| {
            place
                .and_then(|place| letters.get(usize::from(place)).copied())
                .map_or(String::new(), String::from)
        };
        write!(
            f,
            "ISO 2768-{}{}",
            letter(self.size, &Self::SIZE_LETTERS),
            letter(self.form, &Self::FORM_LETTERS)
        )
    }
}

/// What a general tolerance is of.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum GeneralFeature {
    /// A length, a diameter, an inner radius or a distance.
    Length,
    /// A broken edge: an outer radius or the height of a chamfer.
    Edge,
    /// An angle, by the length of its shorter side.
    Angle,
    /// Straightness, by the length of the line.
    Straightness,
    /// Flatness, by the longer side of the face, or the diameter of a round one.
    Flatness,
    /// Perpendicularity, by the length of the shorter side.
    Perpendicularity,
    /// Symmetry, by the length of the shorter feature.
    Symmetry,
    /// Circular run-out, radial or axial.
    RunOut,
    /// Roundness, by the diameter: the tolerance of the diameter, but no more than that of radial run-out.
    Roundness,
    /// Parallelism of two faces or lines, by their distance and the length of the longer one: the tolerance of the distance
    /// or that of straightness or flatness, whichever is larger.
    Parallelism,
}

impl GeneralFeature {
    /// With its article, for a message.
    pub(super) fn words(self) -> &'static str {
        match self {
            GeneralFeature::Length => "a length",
            GeneralFeature::Edge => "a broken edge",
            GeneralFeature::Angle => "an angle with a shorter side",
            GeneralFeature::RunOut => "run-out",
            other => other.name(),
        }
    }
}
