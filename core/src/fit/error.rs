//! Why a designation has no limits.
use crate::size::{SizeError, alike};
use crate::{LimitsError, Size};

/// Why a designation has no limits, or no fit meets a wish.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FitError {
    /// The text is not in a form that is known.
    #[error(
        "`{text}` is not a valid tolerance designation; expected e.g. `25 H7`, `30js6` or, for a fit, `25 H7/g6`; sizes are in millimetres"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// The nominal size is missing.
    #[error("`{text}` needs its nominal size in millimetres, such as `25 {text}`")]
    NoSize {
        /// The text as given.
        text: String,
    },
    /// The nominal size is beyond what the standard covers.
    #[error("`{text}`: ISO 286 covers nominal sizes above 0 and up to 3150 mm")]
    NominalSize {
        /// The text as given.
        text: String,
    },
    /// The letters stand for no position of a tolerance.
    #[error(
        "`{class}` has no position `{letters}`: holes are A to ZC in capitals, shafts a to zc in small letters, \
         without i, l, o, q and w"
    )]
    Position {
        /// The class as given.
        class: String,
        /// Its letters.
        letters: String,
    },
    /// A class without its grade.
    #[error("`{class}` needs a tolerance grade, such as `{class}7`")]
    NoGrade {
        /// The class as given.
        class: String,
    },
    /// The number is no tolerance grade.
    #[error("`{class}` has no grade `{grade}`: the grades are 01, 0 and 1 to 18")]
    Grade {
        /// The class as given.
        class: String,
        /// Its grade.
        grade: String,
    },
    /// The standard has no figure.
    #[error("ISO 286 has no {class} at {}: {instead}", nominal.format(crate::Units::Metric))]
    NotTabulated {
        /// The class.
        class: String,
        /// The nominal size.
        nominal: Size,
        /// What the standard has.
        instead: String,
    },
    /// A fit where one class is wanted.
    #[error("`{text}` is a fit of two parts; expected one class, e.g. `25 H7`")]
    TwoClasses {
        /// The text as given.
        text: String,
    },
    /// One class where a fit is wanted.
    #[error("`{text}` is not a valid fit; expected the hole, a slash and the shaft, e.g. `25 H7/g6`")]
    OneClass {
        /// The text as given.
        text: String,
    },
    /// Two holes, two shafts, or the shaft first.
    #[error("`{text}` does not pair a hole with a shaft; expected the hole first, e.g. `25 H7/g6`")]
    Members {
        /// The text as given.
        text: String,
    },
    /// The name is not an inch fit.
    #[error(
        "`{name}` is not an inch fit: ASME B4.1 has RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3 and FN1 to FN5"
    )]
    InchFit {
        /// The name as given.
        name: String,
    },
    /// The nominal size is beyond the table of the inch fit.
    #[error(
        "ASME B4.1 has no {name} at {}: it covers sizes above {} and up to {}",
        nominal.format(crate::Units::Inch), over.format(crate::Units::Inch), up_to.format(crate::Units::Inch)
    )]
    InchSize {
        /// The name of the fit.
        name: &'static str,
        /// The nominal size.
        nominal: Size,
        /// Sizes above this one are covered.
        over: Size,
        /// Up to this one.
        up_to: Size,
    },
    /// The least wanted clearance is above the greatest one.
    #[error(
        "the least clearance, {}, is above the greatest, {}; write interference as negative clearance",
        alike([*least, *greatest])[0], alike([*least, *greatest])[1]
    )]
    Wish {
        /// The least clearance as given.
        least: Size,
        /// The greatest clearance as given.
        greatest: Size,
    },
    /// One of the sizes is at fault.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// The limits could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}
