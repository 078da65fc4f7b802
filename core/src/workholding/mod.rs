//! Workholding: what locates the work, what clamps it, and how far it gives way.
pub mod clamp;
pub mod grip;
pub mod kind;
pub mod locating;
pub mod pressure;
pub mod ring;
pub mod safety;
pub mod screw;
pub mod seat;
pub mod vee;

pub use kind::{ClampKind, clamp_force};
pub use locating::{
    Clamp, FreeMotion, Locating, LocatingError, Locator, MAX_CLAMPED, MAX_LOCATORS, MotionKind,
};
pub use safety::{ClampBound, ClampError, ClampSafety, Clamping, Holding};
