//! Why a study has no answer.
use crate::error::WithUnit;
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
    /// A value beside the readings of a study that is not a finite number.
    #[error("{what} {place} must be a finite number, not {value}. Fix: measure again, or leave it out")]
    NotFinite {
        /// What it is.
        what: &'static str,
        /// Its place, from 1.
        place: usize,
        /// Its value.
        value: f64,
    },
    /// Readings whose squares are beyond what a float holds.
    #[error("the {what} are too large to work with. Fix: give them in a larger unit")]
    TooLarge {
        /// What is too large.
        what: &'static str,
    },
    /// A fault in a study of a batch.
    #[error("study {number}: {fault}")]
    Study {
        /// Its place, from 1.
        number: usize,
        /// What is wrong.
        fault: Box<GaugeStudyError>,
    },
    /// References of which one was read once.
    #[error("each reference needs 2 or more readings; that of {} has one", WithUnit(*reference, ""))]
    ReadOnce {
        /// The reference.
        reference: f64,
    },
    /// Trials that all agree.
    #[error(
        "all trials agree on every part, so the readings show no spread of the gauge. Fix: read to a finer resolution"
    )]
    TrialsAgree,
    /// Readings that are all alike.
    #[error("the readings do not vary, so they say nothing about the gauge. Fix: read to a finer resolution")]
    NoVariation,
    /// One trial, which shows no repeatability beside the interaction.
    #[error(
        "one trial cannot separate repeatability from interaction. Fix: measure each part twice, or pool the interaction"
    )]
    OneTrial,
    /// One trial, and no interaction to take for repeatability.
    #[error("one trial shows no repeatability. Fix: measure each part twice or more")]
    NoRepeatability,
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
    #[error("{name} must be {need}, not {}", WithUnit(*value, ""))]
    Option {
        /// Its name.
        name: &'static str,
        /// What it must be.
        need: &'static str,
        /// Its value.
        value: f64,
    },
    /// An interaction to pool, where the method has none.
    #[error("{method} has no interaction to pool. Fix: leave out pool_interaction, or use anova")]
    NoPooling {
        /// The name of the method.
        method: &'static str,
    },
    /// Average and range in a batch.
    #[error("gauge_studies takes anova or nested, not average_range. Fix: use gauge_study for each study")]
    NoBatch,
    /// Readings and references that do not go together.
    #[error("{x} references and {y} readings were given; expected a reference for each reading")]
    Pairs {
        /// How many references.
        x: usize,
        /// How many readings.
        y: usize,
    },
    /// Values of x and y that do not go together.
    #[error("x has {x} values and y has {y}; expected the same number of both")]
    Points {
        /// How many x.
        x: usize,
        /// How many y.
        y: usize,
    },
    /// References and shares that do not go together.
    #[error("{references} references and {shares} shares were given; expected a share for each reference")]
    Shares {
        /// How many references.
        references: usize,
        /// How many shares.
        shares: usize,
    },
    /// References that are all equal.
    #[error(
        "all references are equal, so there is no line. Fix: measure references over the range of the gauge"
    )]
    OneReference,
    /// Values of x that are all equal.
    #[error("all x are equal, so there is no line. Fix: take points over a range of x")]
    OneX,
    /// More categories than anybody can keep apart.
    #[error(
        "{got} different ratings were found; expected {most} or fewer. Fix: use gauge_study for measurements"
    )]
    Categories {
        /// The most that are taken.
        most: usize,
        /// How many there are.
        got: usize,
    },
    /// No parts on the side of a limit.
    #[error("no part is near the {name} limit, so its zone is not known. Fix: add parts on both sides of it")]
    NoParts {
        /// Which limit.
        name: &'static str,
    },
    /// Parts that do not reach beyond the zone about a limit.
    #[error(
        "about the {name} limit the {place} part was not {verdict} by every rating, so the zone has no end there. Fix: \
         add parts {where_to}"
    )]
    Zone {
        /// Which limit.
        name: &'static str,
        /// Which part: the outermost or the innermost.
        place: &'static str,
        /// How not every rating judged it.
        verdict: &'static str,
        /// Where such parts are.
        where_to: &'static str,
    },
    /// Parts of which neither the smallest nor the largest was refused.
    #[error(
        "no part at either end was refused by every rating, so there is no zone. Fix: add parts beyond the limits"
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
