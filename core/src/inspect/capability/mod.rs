//! Capability of a process: how its spread and its place compare with the limits of a characteristic.
//!
//! Cp and Cpk take the spread within subgroups, or from one reading to the next; Pp and Ppk take that of all readings.
//! All of them say something about the future only if the process is stable: look at a control chart first.
mod figures;
mod interval;
mod kinds;
mod law;
mod result;
mod spread;

pub use figures::{capabilities, capability};
pub(in crate::inspect) use kinds::FAR_OFF;
pub use kinds::{CapabilityError, CapabilityLaw, CapabilityLimits, CapabilityOptions, SigmaRule};
pub use result::{Capability, CapabilityInterval};

#[cfg(test)]
mod tests;
