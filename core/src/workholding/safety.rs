//! The safety of clamps against slip and against lift.
use super::grip::{
    clamp_holding, grip_holding, required_clamp_force, required_grip, required_vee_force, vee_holding,
};
use crate::error::{excerpt, to_digits};
use crate::quantity::{Angle, Count, Force, Length, Quantity, Ratio};
use std::fmt;
use tenths_macros::{Choice, Object};

/// How work is held.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum Holding {
    /// Straps press it on a rest.
    Strap,
    /// The jaws of a vice.
    Vice,
    /// The jaws of a chuck.
    Chuck,
    /// A collet.
    Collet,
    /// A V-block with a clamp opposite the V.
    VBlock,
}

impl Holding {
    /// Reads a name, as [`Holding::name`] gives it.
    ///
    /// # Errors
    /// [`ClampError::Holding`].
    pub fn parse(text: &str) -> Result<Holding, ClampError> {
        let known = Holding::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| ClampError::Holding { text: excerpt(text) })
    }
}

/// What bounds the safety of a clamp.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ClampBound {
    /// The work slips along the faces that hold it.
    Slip,
    /// The work is lifted off the face that it rests on.
    Lift,
}

/// Why there is no figure for a clamp.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ClampError {
    /// A text that names no kind of clamp.
    #[error("`{text}` is not a kind of clamp; expected screw, strap, cam, toggle, wedge, cylinder or collet")]
    Kind {
        /// The text as given.
        text: String,
    },
    /// A text that names no way of holding.
    #[error("`{text}` is not a way of holding; expected strap, vice, chuck, collet or v_block")]
    Holding {
        /// The text as given.
        text: String,
    },
    /// A diameter that the way of holding needs, or one that means nothing to it.
    #[error("{what}")]
    Diameters {
        /// Why not, and the remedy.
        what: &'static str,
    },
    /// A force that is not a number.
    #[error("cutting_forces must be finite, not {value}")]
    NotFinite {
        /// The number as given.
        value: f64,
    },
    /// A safety that nobody can want.
    #[error("wanted must be greater than zero, e.g. 2, not {value}")]
    Wanted {
        /// The number as given.
        value: f64,
    },
    /// The formula refuses its arguments.
    #[error(transparent)]
    Formula(#[from] crate::Error),
}

/// How work is held, and against which forces.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Clamping {
    /// The way of holding.
    pub holding: Holding,
    /// The force of all clamps together: of a chuck the grip of all jaws at rest.
    pub clamp_force: Force,
    /// The forces of the cut. In a vice and under straps two along the face that holds the work, and one away from it:
    /// away from the rest, or from the fixed jaw. In a chuck, a collet and a V-block the one about the axis, the one along it,
    /// and the one across it: of turning main force, feed force and passive force.
    pub cutting_forces: [Force; 3],
    /// Coefficient of friction.
    pub friction: Ratio,
    /// Faces that share the friction of straps or a vice; without it 1 and 2.
    pub faces: Option<u32>,
    /// The diameter at which the force about the axis acts, and the one at which the work is gripped. Without them the force is
    /// that at the grip.
    pub diameters: Option<[Length; 2]>,
    /// Included angle of a V-block.
    pub vee_angle: Angle,
    /// Grip that speed takes from a chuck: `jaw_centrifugal_force`.
    pub grip_lost: Force,
    /// The safety wanted.
    pub wanted: f64,
}

impl Clamping {
    /// Work that is held like this, with a V of 90°, nothing lost to speed, and a safety of 2 wanted.
    pub fn new(
        holding: Holding,
        clamp_force: Force,
        cutting_forces: [Force; 3],
        friction: Ratio,
    ) -> Clamping {
        Clamping {
            holding,
            clamp_force,
            cutting_forces,
            friction,
            faces: None,
            diameters: None,
            vee_angle: Angle::degrees(90.0),
            grip_lost: Force::newtons(0.0),
            wanted: 2.0,
        }
    }
}

/// How many times the forces of the cut clamps hold, against slip and against lift.
///
/// Caution: work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and
/// follow the data of the makers of machine and workholding. Tilting and chatter are not in these figures.
///
/// ```
/// use tenths::quantity::{Force, Quantity, Ratio};
/// use tenths::workholding::{ClampSafety, Clamping, Holding};
/// let newtons = Force::newtons;
/// let forces = [newtons(1500.0), newtons(0.0), newtons(0.0)];
/// let made = ClampSafety::new(&Clamping::new(Holding::Vice, newtons(9375.0), forces, Ratio::new(0.2)))?;
/// assert!((made.safety - 2.5).abs() < 1e-12);
/// # Ok::<(), tenths::workholding::ClampError>(())
/// ```
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct ClampSafety {
    /// The way of holding.
    pub holding: Holding,
    /// How many times the forces of the cut it takes to make the work slip.
    #[pure]
    pub slip: f64,
    /// How many times the forces of the cut it takes to lift the work off; absent where nothing lifts it.
    #[pure]
    pub lift: Option<f64>,
    /// The lesser of the two.
    #[pure]
    pub safety: f64,
    /// Which of the two it is.
    pub bound_by: ClampBound,
    /// The safety wanted.
    #[pure]
    pub wanted: f64,
    /// Whether the safety is at least the one wanted.
    pub enough: bool,
    /// The force that friction holds while nothing lifts the work.
    pub holding_force: Force,
    /// The force of the clamps that gives the safety wanted; of a chuck, at rest.
    pub required_force: Force,
    /// What to mind.
    pub caution: String,
}

/// What every one says.
const CAUTION: &str = "Work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a \
                       margin, and follow the data of the makers of machine and workholding.";

impl ClampSafety {
    /// Judges clamps.
    ///
    /// # Errors
    /// [`ClampError`] for forces that are no numbers or all zero, and for what the formulas refuse.
    pub fn new(of: &Clamping) -> Result<ClampSafety, ClampError> {
        let Clamping { holding, clamp_force, cutting_forces, friction, vee_angle, grip_lost, wanted, .. } =
            *of;
        if let Some(value) = cutting_forces.iter().map(|one| one.metric()).find(|one| !one.is_finite()) {
            return Err(ClampError::NotFinite { value });
        }
        if !(wanted > 0.0 && wanted.is_finite()) {
            return Err(ClampError::Wanted { value: wanted });
        }
        let round = matches!(holding, Holding::Chuck | Holding::Collet | Holding::VBlock);
        if !round && of.diameters.is_some() {
            let what =
                "diameters are of round work. Fix: leave them out, or hold it in a chuck, collet or v_block";
            return Err(ClampError::Diameters { what });
        }
        if round && of.faces.is_some() {
            let what = "faces are of straps and a vice. Fix: leave them out";
            return Err(ClampError::Diameters { what });
        }
        if grip_lost.metric() != 0.0 && !matches!(holding, Holding::Chuck | Holding::Collet) {
            let what = "grip_lost is of a chuck or collet at speed. Fix: leave it out";
            return Err(ClampError::Diameters { what });
        }
        let [first, second, third] = cutting_forces.map(|one| one.metric());
        // A force toward the rest goes with the cut, so that nothing counts on it; one across an axis relieves some jaw.
        let off = Force::from_metric(if round { third.abs() } else { third.max(0.0) });
        let safety = Ratio::new(wanted);
        let (held, required) = match holding {
            Holding::Strap | Holding::Vice => {
                let side = Force::from_metric((first * first + second * second).sqrt());
                let faces = of.faces.unwrap_or(if holding == Holding::Vice { 2 } else { 1 });
                let faces = Count::new(f64::from(faces));
                (
                    clamp_holding(clamp_force, side, friction, off, faces)?,
                    required_clamp_force(side, friction, off, faces, safety)?,
                )
            }
            _ => {
                let [about, along] = [first, second].map(|one| Force::from_metric(one.abs()));
                let one = Length::millimetres(1.0);
                let [at, grip] = of.diameters.unwrap_or([one, one]);
                match holding {
                    Holding::VBlock => (
                        vee_holding(clamp_force, about, at, grip, friction, along, off, vee_angle)?,
                        required_vee_force(about, at, grip, friction, along, off, vee_angle, safety)?,
                    ),
                    _ => (
                        grip_holding(clamp_force, about, at, grip, friction, along, off, grip_lost)?,
                        required_grip(about, at, grip, friction, along, off, grip_lost, safety)?,
                    ),
                }
            }
        };
        let pressing = clamp_force.metric() - grip_lost.metric();
        let slip = held.slip_safety.metric();
        let lift = (off.metric() > 0.0).then(|| pressing / off.metric());
        let (safety, bound_by) = match lift {
            Some(lift) if lift < slip => (lift, ClampBound::Lift),
            _ => (slip, ClampBound::Slip),
        };
        Ok(ClampSafety {
            holding,
            slip,
            lift,
            safety,
            bound_by,
            wanted,
            enough: safety >= wanted,
            holding_force: held.holding_force,
            required_force: required.clamp_force,
            caution: CAUTION.into(),
        })
    }
}

impl fmt::Display for ClampSafety {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = match self.bound_by {
            ClampBound::Slip => "slips",
            ClampBound::Lift => "lifts",
        };
        let ClampSafety { safety, wanted, .. } = self;
        write!(f, "holds {} times the forces of the cut before the work {what}", to_digits(*safety, 4))?;
        match self.enough {
            true => write!(f, ", enough for {wanted}"),
            false => write!(f, ", too little for {wanted}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made(holding: Holding, clamp: f64, forces: [f64; 3], friction: f64) -> ClampSafety {
        let forces = forces.map(Force::newtons);
        ClampSafety::new(&Clamping::new(holding, Force::newtons(clamp), forces, Ratio::new(friction)))
            .unwrap()
    }

    #[test]
    fn what_bounds_a_clamp_is_told() {
        let lifted = made(Holding::Vice, 1000.0, [0.0, 0.0, 400.0], 0.2);
        assert_eq!((lifted.bound_by, lifted.safety, lifted.lift), (ClampBound::Lift, 2.5, Some(2.5)));
        let slips = made(Holding::Strap, 1000.0, [30.0, 40.0, -400.0], 0.2);
        assert_eq!((slips.bound_by, slips.safety, slips.lift), (ClampBound::Slip, 4.0, None));
        assert!(slips.enough && !made(Holding::Strap, 1000.0, [150.0, 0.0, 0.0], 0.2).enough);
        assert_eq!(
            slips.to_string(),
            "holds 4 times the forces of the cut before the work slips, enough for 2"
        );
    }

    // With the force that it asks for, every way of holding has the safety that was wanted.
    #[test]
    fn the_required_force_gives_the_safety() {
        for holding in Holding::ALL.iter().copied() {
            let first = made(holding, 5000.0, [700.0, 300.0, 200.0], 0.15);
            let again = made(holding, first.required_force.metric(), [700.0, 300.0, 200.0], 0.15);
            assert!((again.safety - 2.0).abs() < 1e-12, "{holding:?} {again:?}");
        }
    }

    #[test]
    fn what_means_nothing_is_refused() {
        let force = Force::newtons(1000.0);
        let good = Clamping::new(Holding::Chuck, force, [force; 3], Ratio::new(0.2));
        let message = |of: Clamping| ClampSafety::new(&of).unwrap_err().to_string();
        assert!(message(Clamping { faces: Some(2), ..good }).starts_with("faces are of straps"));
        let strap = Clamping { holding: Holding::Strap, ..good };
        assert!(message(Clamping { grip_lost: force, ..strap }).starts_with("grip_lost is of a chuck"));
        assert!(message(Clamping { grip_lost: force, ..good }).contains("would be thrown"));
        assert!(message(Clamping { wanted: f64::NAN, ..good }).starts_with("wanted must be"));
        let zero = Force::newtons(0.0);
        assert!(
            message(Clamping { cutting_forces: [zero; 3], ..good }).contains("must be greater than zero")
        );
    }
}
