//! Kinds of clamps, each with the formula of its force.
use super::clamp::{
    CAM_CLAMP_FORCE, COLLET_CLAMP_FORCE, CYLINDER_CLAMP_FORCE, STRAP_CLAMP_FORCE, TOGGLE_CLAMP_FORCE,
    WEDGE_CLAMP_FORCE,
};
use super::safety::ClampError;
use super::screw::SCREW_PRELOAD;
use crate::error::excerpt;
use crate::formula::Formula;
use crate::quantity::{Force, Quantity, Units};
use tenths_macros::Choice;

/// A kind of clamp.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ClampKind {
    /// A screw: `screw_preload`.
    Screw,
    /// A strap: `strap_clamp_force`.
    Strap,
    /// An eccentric cam: `cam_clamp_force`.
    Cam,
    /// A toggle: `toggle_clamp_force`.
    Toggle,
    /// A wedge: `wedge_clamp_force`.
    Wedge,
    /// A cylinder of oil or air: `cylinder_clamp_force`.
    Cylinder,
    /// A collet: `collet_clamp_force`.
    Collet,
}

impl ClampKind {
    /// Reads a name, as [`ClampKind::name`] gives it.
    ///
    /// # Errors
    /// [`ClampError::Kind`].
    pub fn parse(text: &str) -> Result<ClampKind, ClampError> {
        let known = ClampKind::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| ClampError::Kind { text: excerpt(text) })
    }

    /// The formula of its force.
    pub fn formula(self) -> &'static Formula {
        match self {
            ClampKind::Screw => &SCREW_PRELOAD,
            ClampKind::Strap => &STRAP_CLAMP_FORCE,
            ClampKind::Cam => &CAM_CLAMP_FORCE,
            ClampKind::Toggle => &TOGGLE_CLAMP_FORCE,
            ClampKind::Wedge => &WEDGE_CLAMP_FORCE,
            ClampKind::Cylinder => &CYLINDER_CLAMP_FORCE,
            ClampKind::Collet => &COLLET_CLAMP_FORCE,
        }
    }
}

/// Force of a clamp by its kind: the formula that [`ClampKind::formula`] names, with its arguments in their order and in the
/// units of `units`. Arguments at the end that have a default may be left out.
///
/// Caution: work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and
/// follow the data of the makers of machine and workholding.
///
/// ```
/// use tenths::workholding::{ClampKind, clamp_force};
/// use tenths::{Quantity, Units};
/// // A toggle whose arms are 5° from the line, pushed with 100 N.
/// let force = clamp_force(ClampKind::Toggle, Units::Metric, &[100.0, 5.0])?;
/// assert!((force.metric() - 571.5).abs() < 0.05);
/// # Ok::<(), tenths::workholding::ClampError>(())
/// ```
///
/// # Errors
/// [`ClampError::Formula`] for arguments that the formula refuses.
pub fn clamp_force(kind: ClampKind, units: Units, arguments: &[f64]) -> Result<Force, ClampError> {
    let formula = kind.formula();
    let mut row = arguments.to_vec();
    let rest = formula.arguments.iter().skip(row.len());
    row.extend(rest.map_while(|argument| {
        let default = argument.side(units).default?;
        Some(argument.unit(units).from_base(default))
    }));
    let mut force = [f64::NAN];
    formula.call(units, &row, &mut force)?;
    Ok(Force::new_in(force[0], units))
}
