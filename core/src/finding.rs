//! What is computable, and yet wrong or worth a second look for the job.
use serde::Serialize;
use std::borrow::Cow;

/// How much a finding weighs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// To be looked at before the work starts.
    Warning,
    /// The job fails as planned.
    Error,
}

/// Something that is computable, and yet wrong or worth a second look for the job.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Finding {
    /// A name that stays the same, for programs: `seat_too_shallow`.
    pub code: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Where in the document: a JSON Pointer.
    pub place: String,
    /// What was found.
    pub message: String,
    /// What to do about it.
    pub remedy: Cow<'static, str>,
}
