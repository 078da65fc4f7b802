//! Acceptance sampling: how many pieces of a lot to inspect, and how many nonconforming ones reject it.
//!
//! A plan is one of a standard, of its samples and numbers, of no acceptance of a nonconforming piece, or of two points of
//! its operating characteristic. [`SamplingPlan::performance`] tells what it does to lots of a quality,
//! [`Switching`] when inspection becomes tightened or reduced.
//!
//! A sampling plan lets through lots with nonconforming pieces, by design. Where one such piece can hurt somebody, every
//! piece is to be inspected.
mod counts;
mod design;
mod performance;
mod plan;
mod switching;
mod table;
mod variables;

use tenths_macros::Choice;

use crate::error::excerpt;
use crate::object::Choice as _;
pub use design::{Quality, two_point_plan, zero_acceptance_plan};
pub use performance::PlanPerformance;
pub use plan::{PlanRequest, SamplingPlan, SamplingStage};
pub use switching::Switching;
pub use variables::{SigmaKnowledge, VariablesPlan};

/// How much is inspected: the general levels I to III, and the special ones for small samples.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum InspectionLevel {
    /// The smallest special level.
    #[name = "S-1"]
    S1,
    /// A special level.
    #[name = "S-2"]
    S2,
    /// A special level.
    #[name = "S-3"]
    S3,
    /// The largest special level.
    #[name = "S-4"]
    S4,
    /// Less discrimination than usual.
    #[name = "I"]
    I,
    /// The usual level.
    #[name = "II"]
    II,
    /// More discrimination than usual.
    #[name = "III"]
    III,
}

/// How strict the inspection is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum InspectionSeverity {
    /// Where there is no reason for another.
    Normal,
    /// After rejected lots.
    Tightened,
    /// After a series of good lots.
    Reduced,
}

/// How many samples a plan has.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum PlanKind {
    /// One.
    Single,
    /// Up to two.
    Double,
    /// Up to several.
    Multiple,
}

/// The law of the nonconforming pieces in a sample.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum LotModel {
    /// Lots from a process with a fraction nonconforming.
    #[default]
    Binomial,
    /// Lots of a known size in which that fraction is nonconforming; the fraction is a whole number of pieces.
    Hypergeometric,
    /// Nonconformities, of which a piece may have several.
    Poisson,
}

/// What the samples of a lot decide.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum LotVerdict {
    /// The lot is accepted.
    Accepted,
    /// The lot is rejected.
    Rejected,
    /// The next sample decides.
    #[name = "next sample"]
    NextSample,
    /// The lot is accepted, and inspection goes back to normal: reduced plans have such lots.
    #[name = "accepted, back to normal"]
    AcceptedBackToNormal,
}

/// Why there is no sampling plan, or nothing to be said of it.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SamplingError {
    /// A text that is not one of the names.
    #[error("`{text}` is not {what}; expected {expected}")]
    Unknown {
        /// What was wanted.
        what: &'static str,
        /// The text as given.
        text: String,
        /// What is taken.
        expected: String,
    },
    /// A lot of no size, or a size that is not in the tables.
    #[error("a lot must have {least} to 1 000 000 000 pieces, not {lot}")]
    Lot {
        /// The pieces as given.
        lot: u64,
        /// The smallest lot.
        least: u64,
    },
    /// An AQL that the tables do not have.
    #[error("an AQL of {aql} % is not in the tables; expected {}", near_aqls(*aql))]
    Aql {
        /// The AQL as given.
        aql: f64,
    },
    /// A plan whose table was not seen in print.
    #[error(
        "the {} plan for {} inspection of {standard}, code letter {letter}, AQL {aql} %, was not seen in print, so none is \
         given. Fix: take its sample sizes, acceptance and rejection numbers from your copy of the standard, and make the \
         plan of these",
        kind.name(), severity.name()
    )]
    NotSeen {
        /// The standard.
        standard: &'static str,
        /// How strict the inspection is.
        severity: InspectionSeverity,
        /// Single, double or multiple.
        kind: PlanKind,
        /// The code letter of the lot.
        letter: &'static str,
        /// The AQL.
        aql: f64,
    },
    /// Samples that decide nothing.
    #[error("not a sampling plan: {reason}")]
    Stages {
        /// What is wrong.
        reason: String,
    },
    /// A fraction out of range.
    #[error("a fraction nonconforming must be {}, not {fraction}; 1 % is 0.01", fraction_need(*model))]
    Fraction {
        /// The fraction as given.
        fraction: f64,
        /// The law.
        model: LotModel,
    },
    /// A share of the lot that is no whole number of pieces.
    #[error(
        "a fraction of {fraction} of a lot of {lot} is {marked} pieces. Fix: give a whole number of pieces over {lot}, or use \
         the binomial model"
    )]
    PartOfPiece {
        /// The fraction as given.
        fraction: f64,
        /// Pieces of the lot.
        lot: u64,
        /// Their product.
        marked: f64,
    },
    /// The lot is not known, and matters.
    #[error(
        "the hypergeometric model needs the lot size, which this plan does not have. Fix: give the lot, or use the binomial model"
    )]
    LotUnknown,
    /// A lot too large to try every number of nonconforming pieces.
    #[error(
        "a lot of {lot} is too large to try every number of nonconforming pieces in it. Fix: use the binomial model"
    )]
    LotTooLarge {
        /// Pieces of the lot.
        lot: u64,
    },
    /// Nonconforming pieces that no sample can have.
    #[error("{reason}")]
    Found {
        /// What is wrong.
        reason: String,
    },
    /// A percentage, a risk or another number out of range.
    #[error("{what} must be {need}, not {value}")]
    Number {
        /// What the number is.
        what: &'static str,
        /// What it must be.
        need: &'static str,
        /// The number as given.
        value: f64,
    },
    /// No plan keeps both points.
    #[error(
        "no plan with up to {most} pieces keeps both risks. Fix: set the two qualities further apart, or allow larger risks"
    )]
    NoPlan {
        /// The most pieces of a sample.
        most: u64,
    },
}

/// Reads one of some names.
macro_rules! parse {
    ($($type:ident: $what:literal)*) => {$(
        impl $type {
            /// The one of this name.
            ///
            /// # Errors
            /// [`SamplingError::Unknown`].
            pub fn parse(text: &str) -> Result<$type, SamplingError> {
                let expected = || match $type::NAMES.split_last() {
                    Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
                    None => String::new(),
                };
                $type::of_name(text.trim()).ok_or_else(|| SamplingError::Unknown {
                    what: $what,
                    text: excerpt(text),
                    expected: expected(),
                })
            }
        }
    )*};
}

parse! {
    InspectionLevel: "an inspection level"
    InspectionSeverity: "a severity of inspection"
    PlanKind: "a kind of plan"
    SigmaKnowledge: "knowledge of sigma"
    LotModel: "a model"
}

fn fraction_need(model: LotModel) -> &'static str {
    match model {
        LotModel::Poisson => "from 0 to 100",
        _ => "from 0 to 1",
    }
}

/// The AQLs around one that is not in the tables.
fn near_aqls(aql: f64) -> String {
    let below = table::AQLS.iter().rev().find(|known| **known < aql);
    let above = table::AQLS.iter().find(|known| **known > aql);
    match (below, above) {
        (Some(below), Some(above)) => format!("e.g. {below} or {above}"),
        _ => "0.01 to 1000".into(),
    }
}

#[cfg(test)]
mod tests;
