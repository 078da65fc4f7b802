//! Chatter: how deep a cut stays stable at a spindle speed.
//!
//! An edge cuts the wave that the edge before it left. The frequency-domain laws say at which depth that feeds a vibration:
//! those of J. Tlusty and M. Poláček (1963) and S. A. Tobias (1965) for turning and boring, and the zeroth-order solution of
//! Y. Altintas and E. Budak (CIRP Annals 44, 1995, pp. 357-362) for milling, with directional factors averaged over the cut.
//! They are linear: no wear, no rubbing of the flank, which makes low speeds steadier than this says, and no runout. The mean
//! factors hold where a good part of the cutter is in the work; in a narrow cut at high speed the true limit may be half.
//!
//! The figures are starting points. A wrong grip, tool or guard is not judged here.
mod complex;
mod error;
mod law;
mod nodes;
mod speeds;
mod stability;
mod structure;
mod svg;
#[cfg(test)]
mod tests;
pub mod tool_mode;

pub use error::StabilityError;
pub use law::{ChatterCut, Engagement, MillingDirection};
pub use speeds::{LobePoint, SpeedRange, StableCut};
pub use stability::Stability;
pub use structure::{ResponsePoint, VibrationMode};
