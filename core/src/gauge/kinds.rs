//! Forms, schemes and options of gauges, and why none is offered.
use crate::error::excerpt;
use crate::limits::{Limits, LimitsError};
use crate::size::{Size, SizeError, alike};
use serde::Serialize;
use tenths_macros::Choice;

/// What is gauged, and with what.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Choice)]
#[serde(rename_all = "snake_case")]
pub enum GaugeForm {
    /// A cylindrical plug, for a hole.
    Plug,
    /// A plain ring, for a shaft.
    Ring,
    /// A gap between parallel faces, for an outside length.
    Length,
    /// A gap with two anvils, for a shaft.
    Snap,
    /// A pin in a body with two lands, for a depth or a step.
    FlushPin,
}

/// After which scheme the members are placed and toleranced.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Serialize, Choice)]
pub enum GaugeScheme {
    /// Gagemaker classes of ASME B89.1.5 for plugs and of B89.1.6 for rings, by the ten percent rule.
    #[default]
    #[serde(rename = "B89.1.5")]
    #[name = "B89.1.5"]
    Gagemaker,
    /// Five percent of the part's tolerance to each member, without a class.
    #[serde(rename = "10 percent")]
    #[name = "10 percent"]
    TenPercent,
    /// ISO 1938-1: a GO that may wear past the part's limit, and members toleranced about their places.
    #[serde(rename = "ISO 1938-1")]
    #[name = "ISO 1938-1"]
    Iso1938,
}

/// On what the figures rest.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Choice)]
pub enum GaugeBasis {
    /// The standard gives its figures for this form of gauge, and they were seen in print.
    #[serde(rename = "published")]
    Published,
    /// The trade applies these figures to this form of gauge.
    #[serde(rename = "common practice")]
    #[name = "common practice"]
    CommonPractice,
    /// The standard gives its figures for this form of gauge, and they are from memory.
    #[serde(rename = "memory")]
    Memory,
}

/// How a gauge is wanted.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct GaugeOptions {
    /// The scheme.
    pub scheme: GaugeScheme,
    /// The allowance for the wear of GO: by so much a new one stands further inside the part's limits. Zero with
    /// the ISO scheme, which has its own, and for a flush pin.
    pub wear: Size,
    /// The step that the limits of the members and the wear limit are rounded to, each into its zone, so that no
    /// more parts pass. Masters keep their exact sizes.
    pub resolution: Option<Size>,
}

/// Why no gauge is offered.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum GaugeError {
    /// Limits that leave a gauge no tolerance.
    #[error("a part of {size} with no tolerance cannot be gauged: give limits")]
    NoTolerance {
        /// Both limits of the part.
        size: Size,
    },
    /// A limit beyond the table, or not positive.
    #[error(
        "a gauge for {size} is outside {STANDARD}, which covers sizes over 0.010 in (0.254 mm), up to 12.010 in (305.054 mm)"
    )]
    OutOfRange {
        /// The limit of the part.
        size: Size,
    },
    /// Every class takes more than the ten percent rule gives.
    #[error(
        "no class is fine enough: the part's tolerance is {}, and the finest class, XXX, \
         serves {} or more at this size; measure the part instead",
        alike([*tolerance, *least])[0], alike([*tolerance, *least])[1]
    )]
    NoClass {
        /// The tolerance of the part.
        tolerance: Size,
        /// The least tolerance of a part that the finest class can serve.
        least: Size,
    },
    /// A part whose nominal size the ISO scheme has no figures for.
    #[error(
        "a gauge for {} is outside the figures of ISO 1938-1, which cover nominal sizes over 0, up to 500 mm",
        size.format(crate::Units::Metric)
    )]
    OutOfScheme {
        /// The nominal size of the part.
        size: Size,
    },
    /// A tolerance finer than the ISO scheme serves.
    #[error(
        "no grade is fine enough: the part's tolerance is {}, and the figures of ISO 1938-1 begin with \
         IT6, {} at this size; measure the part instead",
        alike([*tolerance, *least])[0], alike([*tolerance, *least])[1]
    )]
    NoGrade {
        /// The tolerance of the part.
        tolerance: Size,
        /// IT6 at the size of the part.
        least: Size,
    },
    /// A scheme that does not know the form.
    #[error("ISO 1938-1 has no {} gauge: use B89.1.5 or 10 percent", form.name())]
    NoForm {
        /// The form.
        form: GaugeForm,
    },
    /// An allowance for wear where there is none to give, or one that is negative.
    #[error("a wear allowance of {wear} is not possible: {why}")]
    Wear {
        /// The allowance as given.
        wear: Size,
        /// Why not.
        why: &'static str,
    },
    /// A step that is not positive, or so coarse that a member has no size left.
    #[error("no multiple of {resolution} lies within {limits}: use a finer resolution")]
    Resolution {
        /// The step as given.
        resolution: Size,
        /// The limits that were to be rounded.
        limits: Limits,
    },
    /// A text that is not a gauge scheme.
    #[error("`{text}` is not a gauge scheme; expected B89.1.5, B89.1.6, 10 percent or ISO 1938-1")]
    UnknownScheme {
        /// The text as given.
        text: String,
    },
    /// A text that names no form.
    #[error("`{text}` is not a form of gauge; expected plug, ring, snap, length or flush_pin")]
    UnknownForm {
        /// The text as given.
        text: String,
    },
    /// A text that names no class.
    #[error("`{text}` is not a gagemaker class; expected XXX, XX, X, Y, Z or ZZ")]
    UnknownClass {
        /// The text as given.
        text: String,
    },
    /// The limits of a member could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}

impl From<SizeError> for GaugeError {
    fn from(error: SizeError) -> Self {
        GaugeError::Limits(error.into())
    }
}

/// The edition whose classes these are.
pub(super) const STANDARD: &str = "ASME B89.1.5-1998";

/// The standard of the classes, with its edition.
pub const fn standard() -> &'static str {
    STANDARD
}

/// Each member has a twentieth of the part's tolerance: 5 percent, half of the ten.
pub(super) const SHARE: i64 = 20;

impl GaugeForm {
    /// The form of that name.
    ///
    /// # Errors
    /// [`GaugeError::UnknownForm`].
    pub fn parse(text: &str) -> Result<GaugeForm, GaugeError> {
        let named = GaugeForm::ALL.into_iter().find(|form| form.name() == text);
        named.ok_or_else(|| GaugeError::UnknownForm { text: excerpt(text) })
    }

    /// Whether the limit of most material is the lower one.
    pub(super) const fn is_internal(self) -> bool {
        matches!(self, GaugeForm::Plug)
    }

    /// Whether it is set or checked with masters.
    pub(super) const fn has_masters(self) -> bool {
        matches!(self, GaugeForm::Ring | GaugeForm::Snap)
    }
}

impl GaugeScheme {
    /// The scheme of that name; `B89.1.6`, whose classes have the same figures, is `B89.1.5` for rings.
    ///
    /// # Errors
    /// [`GaugeError::UnknownScheme`].
    pub fn parse(text: &str) -> Result<GaugeScheme, GaugeError> {
        match text.strip_prefix("ASME ").unwrap_or(text) {
            "B89.1.5" | "B89.1.6" => Ok(GaugeScheme::Gagemaker),
            "10 percent" => Ok(GaugeScheme::TenPercent),
            "ISO 1938-1" => Ok(GaugeScheme::Iso1938),
            _ => Err(GaugeError::UnknownScheme { text: excerpt(text) }),
        }
    }
}

impl GaugeOptions {
    /// A scheme without an allowance and without rounding.
    pub const fn of(scheme: GaugeScheme) -> GaugeOptions {
        GaugeOptions { scheme, wear: Size::ZERO, resolution: None }
    }
}
