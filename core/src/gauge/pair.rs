//! A pair of gauges and its members.
use super::class::GagemakerClass;
use super::kinds::{GaugeBasis, GaugeForm, GaugeScheme};
use crate::limits::Limits;
use crate::size::{Size, natural_units};
use std::fmt;
use tenths_macros::{Object, accessors};

/// When the envelope is asked for: what a full-form GO proves is then a requirement of the drawing.
pub const ENVELOPE: &str = "Under ASME Y14.5 the envelope at maximum material holds for every feature of size (Rule \
     #1). Under ISO 8015 sizes are independent of form, and it holds only where the drawing says so, by E in a circle \
     (ISO 14405-1).";

/// One member of a pair of gauges: the limits it is made to, and what it proves.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(summary)]
pub struct GaugeMember {
    /// The limits to which the member is made. Their nominal size is the size that it is named by.
    pub limits: Limits,
    /// What is known of a part that this member judges good.
    pub proves: &'static str,
    /// The limits of a master that this member is set or checked with; for rings and snap gauges that have a class
    /// or a scheme.
    pub master: Option<Limits>,
}

/// A pair of go and no-go gauges.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(accessors, summary)]
pub struct Gauge {
    /// What is gauged, and with what.
    pub form: GaugeForm,
    /// The scheme.
    pub scheme: GaugeScheme,
    /// The limits of the part.
    pub part: Limits,
    /// The coarsest gagemaker class that the ten percent rule allows.
    pub gagemaker_class: Option<GagemakerClass>,
    /// The tolerance grade for which the ISO scheme was read: the coarsest that is not wider than the part's.
    pub grade: Option<u8>,
    /// The standard whose figures were taken, with its edition.
    pub standard: &'static str,
    /// On what the use of these figures rests.
    pub basis: GaugeBasis,
    /// The member that goes into or over a good part. Of a flush pin, the land for the upper limit.
    pub go: GaugeMember,
    /// The member that does not. Of a flush pin, the land for the lower limit.
    pub no_go: GaugeMember,
    /// The size at which a worn GO is scrap.
    pub wear_limit: Size,
    /// A master for the worn GO, where the scheme has one.
    pub wear_master: Option<Limits>,
    /// By how much a GO at its wear limit lets a part pass beyond the limit of most material; zero where none is.
    pub worn_go_passes: Size,
    /// By how much a new NO-GO within its limits may let a part pass beyond the limit of least material; zero
    /// where none is.
    pub no_go_passes: Size,
    /// The step between the two lands of a flush pin.
    pub step: Option<Limits>,
}

#[accessors]
impl Gauge {
    /// When a drawing asks for the envelope that a full-form GO proves.
    #[field]
    pub const fn envelope(&self) -> &'static str {
        ENVELOPE
    }
}

impl fmt::Display for GaugeMember {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "gauge member made to {}", self.limits)
    }
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [part, go, no_go] = [self.part, self.go.limits, self.no_go.limits];
        let ends = [part, go, no_go].map(|limits| [limits.lower(), limits.upper()]);
        let units = natural_units(&[ends.as_flattened(), &[self.wear_limit]].concat());
        let form = self.form.name().replace('_', " ");
        match (self.gagemaker_class, self.grade) {
            (Some(class), _) => write!(f, "{form} gauge, class {}", class.name())?,
            (_, Some(grade)) => write!(f, "{form} gauge, {} for IT{grade}", self.scheme.name())?,
            _ => write!(f, "{form} gauge, {}", self.scheme.name())?,
        }
        write!(f, ": GO {}, NO-GO {}", go.format(units), no_go.format(units))
    }
}
