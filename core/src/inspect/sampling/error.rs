//! Why there is no sampling plan.
use super::kinds::{InspectionSeverity, LotModel, PlanKind};
use super::table::AQLS;
use crate::error::WithUnit;
use crate::object::UnknownName;

/// Why there is no sampling plan, or nothing to be said of it.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SamplingError {
    /// A text that names no level, severity, kind, law or knowledge of sigma.
    #[error(transparent)]
    Name(#[from] UnknownName),
    /// A text that says no quality, samples or counts.
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
    /// A plan of another severity than the inspection has.
    #[error(
        "the plan is for {} inspection, and the next lot is under {} inspection. Fix: make the plan with severity='{}'",
        plan.name(), inspection.name(), inspection.name()
    )]
    Severity {
        /// What the plan is for.
        plan: InspectionSeverity,
        /// What the inspection is.
        inspection: InspectionSeverity,
    },
    /// A percentage, a risk or another number out of range.
    #[error("{what} must be {need}, not {}", WithUnit(*value, ""))]
    Number {
        /// What the number is.
        what: &'static str,
        /// What it must be.
        need: &'static str,
        /// The number as given.
        value: f64,
    },
    /// A quality and a risk that take more pieces than a sample may have.
    #[error("an {quality} of {percent} % takes more than {most} pieces. Fix: {fix}")]
    TooManyPieces {
        /// Which quality.
        quality: &'static str,
        /// The quality in percent.
        percent: f64,
        /// The most pieces of a sample.
        most: u64,
        /// What helps.
        fix: &'static str,
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

fn fraction_need(model: LotModel) -> &'static str {
    match model {
        LotModel::Poisson => "from 0 to 100",
        _ => "from 0 to 1",
    }
}

/// The AQLs around one that is not in the tables.
fn near_aqls(aql: f64) -> String {
    let below = AQLS.iter().rev().find(|known| **known < aql);
    let above = AQLS.iter().find(|known| **known > aql);
    match (below, above) {
        (Some(below), Some(above)) => format!("e.g. {below} or {above}"),
        _ => "0.01 to 1000".into(),
    }
}
