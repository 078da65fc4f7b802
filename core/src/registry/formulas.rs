//! All formulas, to be looked up at run time.
use crate::error::excerpt;
use crate::formula::Formula;
use crate::nearest::nearest;
use crate::{cost, cutting, fit, inspect, joint, knurl, position, shape, stock, thread, workholding};

/// The formulas of each module, in the order of the reference: constant, so that texts can be made of it at compile
/// time.
#[doc(hidden)]
pub static MODULES: &[&[&Formula]] = &[
    cutting::speed::FORMULAS,
    cutting::engagement::FORMULAS,
    cutting::chip::FORMULAS,
    cutting::ball::FORMULAS,
    cutting::milling::FORMULAS,
    cutting::milling_cut::FORMULAS,
    cutting::path::FORMULAS,
    cutting::entry::FORMULAS,
    cutting::drilling_cut::FORMULAS,
    cutting::drilling::FORMULAS,
    cutting::drilling_force::FORMULAS,
    cutting::reaming::FORMULAS,
    cutting::countersink::FORMULAS,
    cutting::time::FORMULAS,
    cutting::force::FORMULAS,
    cutting::turning_cut::FORMULAS,
    cutting::turning::FORMULAS,
    cutting::turning_force::FORMULAS,
    cutting::facing::FORMULAS,
    cutting::finish::FORMULAS,
    cutting::deflection::FORMULAS,
    cutting::stepped_tool::FORMULAS,
    cutting::threading_infeed::FORMULAS,
    cutting::sawing::FORMULAS,
    cutting::grinding::FORMULAS,
    cutting::rotation::FORMULAS,
    cutting::chatter::tool_mode::FORMULAS,
    cutting::heat::FORMULAS,
    cutting::path_feeds::engagement::FORMULAS,
    cutting::moves::FORMULAS,
    cutting::tool_life::FORMULAS,
    cutting::economics::FORMULAS,
    cost::machine_rate::FORMULAS,
    cost::lot::FORMULAS,
    cost::learning::FORMULAS,
    cost::lot_size::FORMULAS,
    cost::price::FORMULAS,
    thread::profile::FORMULAS,
    thread::tapping::FORMULAS,
    thread::wires::FORMULAS,
    shape::flat::FORMULAS,
    shape::polygon::FORMULAS,
    shape::keyseat::FORMULAS,
    shape::taper::FORMULAS,
    shape::arc::FORMULAS,
    shape::bolt_circle::FORMULAS,
    shape::sine_bar::FORMULAS,
    shape::over_pins::FORMULAS,
    workholding::seat::FORMULAS,
    workholding::screw::FORMULAS,
    workholding::clamp::FORMULAS,
    workholding::grip::FORMULAS,
    workholding::vee::FORMULAS,
    workholding::pressure::FORMULAS,
    workholding::ring::FORMULAS,
    knurl::FORMULAS,
    knurl::form::FORMULAS,
    knurl::blank::FORMULAS,
    knurl::joint::FORMULAS,
    joint::press_fit::FORMULAS,
    joint::cylinder::FORMULAS,
    joint::press_joint::FORMULAS,
    joint::assembled::FORMULAS,
    joint::service::FORMULAS,
    joint::shrink::FORMULAS,
    fit::statistics::FORMULAS,
    inspect::risk::FORMULAS,
    inspect::temperature::FORMULAS,
    inspect::process::proof::FORMULAS,
    inspect::process::pre_control::FORMULAS,
    inspect::process::wear::FORMULAS,
    position::fastener::FORMULAS,
    position::condition::FORMULAS,
    position::zone::FORMULAS,
    stock::bar::FORMULAS,
    stock::mass::FORMULAS,
    stock::buying::FORMULAS,
];

/// Every formula of the library.
pub fn formulas() -> impl Iterator<Item = &'static Formula> {
    MODULES.iter().flat_map(|module| module.iter().copied())
}

/// A name that no formula has.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[error("`{name}` is not a formula{}", meant.map(|meant| format!(". Is it `{meant}`?")).unwrap_or_default())]
pub struct UnknownFormula {
    /// The name as given, shortened.
    pub name: String,
    /// The nearest name of a formula, if any is near.
    pub meant: Option<&'static str>,
}

/// The formula of this name, with the nearest name beside the error.
///
/// # Errors
/// [`UnknownFormula`].
pub fn find_or_nearest(name: &str) -> Result<&'static Formula, UnknownFormula> {
    let unknown = || UnknownFormula {
        name: excerpt(name),
        meant: nearest(name, formulas().map(|formula| formula.name)),
    };
    find(name).ok_or_else(unknown)
}

/// The formula of this name.
pub fn find(name: &str) -> Option<&'static Formula> {
    formulas().find(|formula| formula.name == name)
}
