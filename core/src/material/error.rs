//! Why a name finds no material.

/// Why a name finds no material.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum MaterialError {
    /// No material has this designation.
    #[error("no material is called `{name}`{}", question(candidates))]
    Unknown {
        /// The name as given.
        name: String,
        /// A few that are like it, or nothing.
        candidates: String,
    },
    /// The designation has several conditions.
    #[error("`{name}` needs its condition: {candidates}")]
    Ambiguous {
        /// The name as given.
        name: String,
        /// The materials that it may mean.
        candidates: String,
    },
    /// No group of ISO 513 has this letter.
    #[error("the groups of ISO 513 are P, M, K, N, S and H, not `{0}`")]
    Group(String),
}

fn question(candidates: &str) -> String {
    if candidates.is_empty() { String::new() } else { format!(": did you mean {candidates}?") }
}
