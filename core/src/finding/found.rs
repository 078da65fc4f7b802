//! What is computable, and yet wrong or worth a second look for the job.
use serde::Serialize;
use std::borrow::Cow;
use std::fmt;
use tenths_macros::{Choice, Object};

/// How much a finding weighs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Choice)]
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
#[derive(Clone, PartialEq, Eq, Hash, Debug, Serialize, Object)]
#[object(summary)]
pub struct Finding {
    /// A name that stays the same, for programs: `seat_too_shallow`. The page of findings lists them.
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

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Finding { code, severity, place, message, .. } = self;
        write!(f, "{} {code} at {place}: {message}", severity.name())
    }
}

impl Finding {
    /// A list of findings as JSON, an object each.
    pub fn list_to_json(findings: &[Finding]) -> String {
        // Only maps with keys that are no text, and failing writers, are refused; there are none.
        serde_json::to_string(findings).unwrap_or_default()
    }
}
