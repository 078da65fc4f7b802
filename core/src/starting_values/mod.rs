//! Speeds and feeds to start from, by material, operation, tool and diameter, each with its source.
//!
//! **Caution.** These are starting values. The data of the makers of tool and machine come first; approach them from
//! below, and watch tool, chips and noise. A cut that is too fast or too deep breaks tools and throws work.
mod choose;
mod error;
mod family;
mod record;
mod table;

pub(crate) use choose::of_material;
pub use choose::starting_values;
pub use error::StartingValueError;
pub use family::MaterialFamily;
pub use record::{CutOperation, FeedBasis, StartingValue, ToolMaterial, ValueSeen};
pub use table::all_starting_values;
