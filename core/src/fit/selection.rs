//! A search for fits as one object: what it considered, how it ranked, and the table of what it found.
use super::FitError;
use super::pair::FitBasis;
use super::select::{FitChoice, select_fits};
use crate::Size;
use std::fmt;
use tenths_macros::{Object, accessors, function};

/// The fits of ISO 286 that hold a wanted clearance, in the order of [`select_fits`].
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary)]
pub struct FitSelection {
    /// The nominal size.
    pub nominal: Size,
    /// The least clearance that was asked for, negative for an interference.
    pub least: Size,
    /// The greatest clearance that was asked for.
    pub greatest: Size,
    /// Hole basis or shaft basis.
    pub basis: FitBasis,
    /// The fits that hold the wish, the best first; empty where none does.
    pub choices: Vec<FitChoice>,
}

#[accessors]
impl FitSelection {
    /// Which grades and deviations were considered.
    #[field]
    pub const fn considered(&self) -> &'static str {
        match self.basis {
            FitBasis::Hole => {
                "holes H4 to H13 with every shaft of ISO 286 from a to zc whose grade is that of the hole or up to two \
                 finer, and the preferred and recommended fits of hole basis"
            }
            FitBasis::Shaft => {
                "shafts h4 to h13 with every hole of ISO 286 from A to ZC whose grade is that of the shaft or up to two \
                 coarser, and the preferred and recommended fits of shaft basis"
            }
        }
    }

    /// How the fits are ranked.
    #[field]
    pub const fn ranking(&self) -> &'static str {
        "preferred fits of ASME B4.2 first, then those that ISO 286-1 recommends, then others; within each, the widest \
         tolerances of hole and shaft together, as the cheapest to make; then the clearance whose middle is nearest to \
         the middle of the wish"
    }
}

impl fmt::Display for FitSelection {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.choices.first() {
            Some(best) => write!(f, "{} fits, the best {}", self.choices.len(), best.fit),
            None => f.write_str("no fit holds the wish"),
        }
    }
}

/// Fits of ISO 286 whose clearance stays between two sizes, with what was considered and how they are ranked.
///
/// Considered are basic members of the grades 4 to 13, with every deviation of the other member whose grade makes the shaft
/// as fine as the hole or up to two grades finer, and the preferred and recommended fits. Preferred fits of ASME B4.2 come
/// first, then those that ISO 286-1 recommends, then the others; within each, the widest tolerances of hole and shaft
/// together, and of two as wide that whose middle is nearest to the middle of the wish. Interference is a negative clearance.
///
/// # Errors
/// As [`select_fits`].
#[function(gives = "selection", example("25 mm", "0.007 mm", "0.041 mm", "hole"))]
pub fn fit_selection(
    /// The nominal size.
    nominal: Size,
    /// The least clearance.
    least: Size,
    /// The greatest clearance.
    greatest: Size,
    /// `hole` for a basic hole H, `shaft` for a basic shaft h.
    #[text]
    #[default("hole")]
    basis: FitBasis,
) -> Result<FitSelection, FitError> {
    Ok(FitSelection {
        nominal,
        least,
        greatest,
        basis,
        choices: select_fits(nominal, least, greatest, basis)?,
    })
}
