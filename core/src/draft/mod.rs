//! A whole plan from the features of a part: a proposal, with the operations in a workable order.
//!
//! **Caution.** A draft is a proposal for a competent person to check and change. It knows the features and nothing of the
//! machine, the fixture or the shop. Read what it assumes and its findings before anything is cut.
mod allowances;
mod build;
mod feature;
mod in_holes;
mod kinds;
mod layout;
mod on_steps;
mod request;
mod route;
mod size;

pub use build::draft_plan;
pub use request::{DraftRequest, MAX_FEATURES};
