//! Why a study has no answer.
use crate::object::UnknownName;

/// Why a study has no answer.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum GaugeStudyError {
    /// A text that names no method.
    #[error(transparent)]
    Name(#[from] UnknownName),
    /// Too few parts, appraisers, trials or readings.
    #[error("{what} must be {least} or more, not {got}")]
    TooFew {
        /// Of what.
        what: &'static str,
        /// The least that will do.
        least: usize,
        /// How many there are.
        got: usize,
    },
    /// A count of readings that is not that of the study.
    #[error(
        "{got} readings were given; expected {expected}, one for each trial of each appraiser on each part"
    )]
    Count {
        /// How many there must be.
        expected: usize,
        /// How many there are.
        got: usize,
    },
    /// A reading that is not a finite number.
    #[error(
        "reading {place} must be a finite number, not {value}. Fix: measure again, or leave the part out of the study"
    )]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// Its value.
        value: f64,
    },
    /// Readings that are all alike.
    #[error("the readings do not vary, so they say nothing about the gauge. Fix: read to a finer resolution")]
    NoVariation,
    /// One trial, which leaves no repeatability.
    #[error(
        "one trial does not tell repeatability from interaction. Fix: measure each part twice, or pool the interaction"
    )]
    OneTrial,
    /// A method that has no factors for the study.
    #[error("average_range takes up to {most} {what}, not {got}. Fix: use anova")]
    Ranges {
        /// Of what.
        what: &'static str,
        /// The most that it takes.
        most: usize,
        /// How many there are.
        got: usize,
    },
    /// An option out of range.
    #[error("{name} must be {need}, not {value}")]
    Option {
        /// Its name.
        name: &'static str,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// Average and range in a batch.
    #[error("average_range has no batch. Fix: use anova")]
    NoBatch,
    /// Readings and references that do not go together.
    #[error("{x} references and {y} readings were given; expected a reference for each reading")]
    Pairs {
        /// How many references.
        x: usize,
        /// How many readings.
        y: usize,
    },
    /// References that are all alike.
    #[error(
        "all references are alike, so that there is no line. Fix: measure references over the range of the gauge"
    )]
    OneReference,
    /// More different ratings than anybody can tell apart.
    #[error(
        "{got} different ratings were found; expected {most} or fewer. Fix: use gauge_study for measurements"
    )]
    Categories {
        /// The most that are taken.
        most: usize,
        /// How many there are.
        got: usize,
    },
    /// Parts that do not reach beyond the zone about a limit.
    #[error(
        "about the {name} limit no part was {verdict} by every rating, so that the zone has no end there. Fix: add parts \
         {where_to}"
    )]
    Zone {
        /// Which limit.
        name: &'static str,
        /// How no part was judged.
        verdict: &'static str,
        /// Where such parts are.
        where_to: &'static str,
    },
    /// Parts of which neither the smallest nor the largest was refused.
    #[error(
        "no part at either end was refused by every rating, so that there is no zone. Fix: add parts beyond the limits"
    )]
    NoZone,
    /// True ratings of another count than that of the parts.
    #[error("{got} reference ratings were given; expected one for each of {parts} parts")]
    References {
        /// How many parts.
        parts: usize,
        /// How many there are.
        got: usize,
    },
}
