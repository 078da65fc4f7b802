//! What a plan is made and judged by: levels, severities, kinds, laws and verdicts.
use tenths_macros::Choice;

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

/// What is known of the standard deviation of the process.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum SigmaKnowledge {
    /// It is known from many pieces.
    Known,
    /// It is that of the sample.
    Unknown,
}
