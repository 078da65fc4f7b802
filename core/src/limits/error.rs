//! Why text or sizes give no limits. Designations of standards and general tolerances have limits too, so either error
//! may hold the other.
use super::general::{GeneralClass, GeneralFeature};
use crate::quantity::Units;
use crate::size::{Size, SizeError, alike};

/// Why something is no pair of limits.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LimitsError {
    /// One of the sizes is at fault.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// A designation of ISO 286 that gives none.
    #[error(transparent)]
    Designation(Box<FitError>),
    /// A general tolerance that gives none.
    #[error(transparent)]
    General(#[from] Box<GeneralToleranceError>),
    /// The text is not in a notation that is known.
    #[error(
        "`{text}` is not a valid form of limits; expected e.g. `1.420 ±.005 in`, `12 +0/-0.011 mm`, `1.415..1.425 in`, \
         `1.425/1.415 in`, `12 max mm`, a class of ISO 286 such as `25 H7`, a member of a fit of ASME B4.1 such \
         as `0.5 in FN2 hole`, or a general tolerance such as `120 mm ISO 2768-m`"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// A size alone.
    #[error("`{text}` has no tolerance: add one, such as `±.005`, `+0/-0.011` or a second limit")]
    NoTolerance {
        /// The text as given.
        text: String,
    },
    /// One deviation alone.
    #[error("`{text}` has only one deviation: give the upper and the lower one, e.g. `+0/-0.011`")]
    OneDeviation {
        /// The text as given.
        text: String,
    },
    /// A minimum alone.
    #[error("`{text}` has no upper limit: give both limits, such as `12..12.5 mm`")]
    NoUpperLimit {
        /// The text as given.
        text: String,
    },
    /// Three dots, of which the last could be a decimal point.
    #[error("`{text}` could mean {whole} or {fraction}: write one of these, with two dots")]
    ThreeDots {
        /// The text as given.
        text: String,
        /// The limits with all three dots between them.
        whole: String,
        /// The limits with the last dot as a decimal point.
        fraction: String,
    },
    /// Two units in the text, and a number without one.
    #[error("`{text}` mixes units: write a unit at each number")]
    MixedUnits {
        /// The text as given.
        text: String,
    },
    /// The lower limit is above the upper one.
    #[error("the lower limit, {}, is above the upper limit, {}", alike([*lower, *upper])[0], alike([*lower, *upper])[1])]
    Reversed {
        /// The lower limit as given.
        lower: Size,
        /// The upper limit as given.
        upper: Size,
    },
    /// The lower deviation is above the upper one.
    #[error(
        "the lower deviation, {}, is above the upper deviation, {}: write the upper one first",
        alike([*lower, *upper])[0], alike([*lower, *upper])[1]
    )]
    ReversedDeviations {
        /// The lower deviation as given.
        lower: Size,
        /// The upper deviation as given.
        upper: Size,
    },
    /// A limit or the tolerance is beyond what is counted.
    #[error("limits at {nominal} are out of range: a size lies within ±9223 km")]
    OutOfRange {
        /// The nominal size or the lower limit.
        nominal: Size,
    },
    /// A tolerance too small for what is to be made within it.
    #[error("a tolerance of {tolerance} is too wide: the limits would pass those of the hole")]
    NoRoom {
        /// The tolerance as given.
        tolerance: Size,
    },
    /// A resolution of readings that is zero or negative.
    #[error("a resolution must be greater than 0, not {}", resolution.format(*units))]
    Resolution {
        /// The resolution as given.
        resolution: Size,
        /// The side of the readings, in whose unit the message tells it.
        units: Units,
    },
}

/// Why readings could not be judged row by row.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum RowLimitsError {
    /// A column is longer or shorter than that of the readings.
    #[error("each reading needs its limits: there are {readings} readings, and a column of {got}")]
    Length {
        /// How many readings there are.
        readings: usize,
        /// The length of the other column.
        got: usize,
    },
    /// The limits of a row are no limits, or the resolution is at fault.
    #[error("{}{error}", row.map_or(String::new(), |row| format!("row {row}: ")))]
    Limits {
        /// The row, from zero; `None` where all rows have the fault.
        row: Option<usize>,
        /// What is wrong.
        #[source]
        error: LimitsError,
    },
}

impl RowLimitsError {
    /// The error of rows that are counted from another one on.
    #[must_use]
    pub fn from_row(self, first: usize) -> RowLimitsError {
        match self {
            RowLimitsError::Limits { row: Some(row), error } => {
                RowLimitsError::Limits { row: Some(first.saturating_add(row)), error }
            }
            other => other,
        }
    }
}

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
    /// The text names no basis of fits.
    #[error("`{text}` is not a basis of fits; expected hole or shaft")]
    Basis {
        /// The text as given.
        text: String,
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

/// Why there is no general tolerance.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum GeneralToleranceError {
    /// A text that names no class.
    #[error(
        "`{text}` is not a class of ISO 2768; expected f, m, c or v for sizes, H, K or L for form, or both, e.g. `ISO 2768-mK`"
    )]
    Class {
        /// The text as given.
        text: String,
    },
    /// The class says nothing of this kind of feature.
    #[error("{class} has no class for {}: name one of {}, e.g. `{}`", feature.words(), letters, example)]
    NoClass {
        /// The class as given.
        class: GeneralClass,
        /// What was asked for.
        feature: GeneralFeature,
        /// The classes that there are.
        letters: &'static str,
        /// A class that would do.
        example: &'static str,
    },
    /// A size that the table does not have.
    #[error("{class} gives no tolerance for {} of {size}; it covers {range}: state the tolerance at the size", feature.words())]
    Size {
        /// The class as given.
        class: GeneralClass,
        /// What was asked for.
        feature: GeneralFeature,
        /// The size as given.
        size: Size,
        /// What the standard covers.
        range: String,
    },
    /// A text that names no kind of feature.
    #[error("`{text}` has no general tolerance; expected {}", names())]
    Feature {
        /// The text as given.
        text: String,
    },
    /// Parallelism without a length, or another feature with one.
    #[error("{}", length_wanted(*feature))]
    Length {
        /// What was asked for.
        feature: GeneralFeature,
    },
    /// The size could not be read.
    #[error(transparent)]
    NoSize(#[from] SizeError),
    /// The limits could not be formed.
    #[error(transparent)]
    Limits(Box<LimitsError>),
}

fn length_wanted(feature: GeneralFeature) -> String {
    match feature {
        GeneralFeature::Parallelism => {
            "parallelism goes by the distance of the two faces and by their length. Fix: give \
                                        the longer one as `length`, e.g. 80 mm"
                .into()
        }
        other => format!("`length` is for parallelism alone, not for {}. Fix: leave it out", other.words()),
    }
}

fn names() -> String {
    GeneralFeature::ALL.map(GeneralFeature::name).join(", ")
}

impl From<GeneralToleranceError> for LimitsError {
    fn from(error: GeneralToleranceError) -> LimitsError {
        LimitsError::General(Box::new(error))
    }
}
