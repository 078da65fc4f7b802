//! The best cut within limits, proven to be the best.
//!
//! Most figures of a cut are powers of speed, feed and depth: in logarithms they are straight, and a cost, a sum of
//! powers, is convex. There one descent finds the least, and the prices of the limits prove a bound. What is not
//! straight is divided until the bound is reached: the curve of a spindle, the lobes of chatter, and an argument such as the radial width,
//! for which the formula declares only that its results rise or fall.
mod best;
#[cfg(test)]
mod choice_tests;
mod choices;
mod contradiction;
mod curve;
mod evaluate;
mod figure;
mod flat;
mod limits;
mod many;
mod model;
mod objective;
mod own;
mod passes;
mod problem;
mod program;
mod result;
mod search;
mod solve;
mod spread;
mod steps;
#[cfg(test)]
mod tests;

pub use best::best_cut;
pub use many::best_cuts;
pub use own::{OwnObjective, best_cut_by};
pub use passes::{BestPasses, CutPass, DiameterChange, PassProblem, best_passes};
pub use problem::{
    BestCutError, Contradiction, CutChoice, CutLaw, CutLife, CutLimit, CutObjective, CutProblem, CutRates,
    CutSteps, LimitChange,
};
pub use result::BestCut;
pub use spread::{CutSpread, best_cut_spread};
