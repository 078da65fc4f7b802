//! What is computable, and yet wrong or worth a second look for the job; the table of its codes; and how it is read back.
mod codes;
mod found;
mod read;

pub use codes::FindingCode;
pub(crate) use codes::Weighed;
pub use found::{Finding, Severity};
