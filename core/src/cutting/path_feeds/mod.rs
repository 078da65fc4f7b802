//! Feeds along a toolpath: for each segment the feed within chip thickness, force, power, deflection and acceleration.
//!
//! Forces are Kienzle's for straight teeth; a curved path changes how far the cutter is in the work. The figures are starting
//! points. A wrong grip, tool or guard is not judged here, nor are corners: the path is taken as smooth.
mod columns;
mod cut;
pub mod engagement;
mod error;
mod kernel;
mod machine;
mod path;
#[cfg(test)]
mod tests;
mod timing;

pub use columns::PathColumns;
pub use cut::{FeedBound, PathCut};
pub use error::PathFeedError;
pub use path::{PathFeeds, PathTotals, path_feeds, path_feeds_into};
