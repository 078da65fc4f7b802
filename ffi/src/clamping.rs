//! Clamps: their force by kind, and their safety.
use crate::status::Failure;
use tenths::quantity::{Angle, Force, Length, Ratio};
use tenths::workholding::{self, ClampError, ClampKind, ClampSafety, Clamping, Holding};
use tenths::{Quantity, Units};
use tenths_macros::export;

/// Force of a clamp by its kind: `screw`, `strap`, `cam`, `toggle`, `wedge`, `cylinder` or `collet`.
///
/// `arguments` are those of the formula of that kind, in their order: `tenths_screw_preload`, `tenths_strap_clamp_force`,
/// `tenths_cam_clamp_force` and so on. Those at the end that have a default may be left out.
///
/// Caution: work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and
/// follow the data of the makers of machine and workholding.
#[export(force)]
pub(crate) fn clamp_force(units: Units, kind: &str, arguments: &[f64]) -> Result<f64, Failure> {
    let kind = ClampKind::parse(kind)?;
    let (what, expected, got) = ("arguments", kind.formula().arguments.len(), arguments.len());
    if got > expected {
        return Err(Failure::Elements { what, expected, got });
    }
    Ok(workholding::clamp_force(kind, units, arguments)?.in_units(units))
}

/// What else bears on the safety of a clamp: set by `tenths_clamping_options_init`, then changed. A number that is NaN is taken
/// for the usual one.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_clamping_options {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_clamping_options)`.
    pub struct_size: usize,
    /// The diameter at which the force about an axis acts: NaN for the grip itself.
    pub force_diameter: f64,
    /// The diameter at which round work is gripped: NaN for the same.
    pub grip_diameter: f64,
    /// Included angle of a V-block, in degrees: 90.
    pub vee_angle: f64,
    /// Grip that speed takes from a chuck: 0.
    pub grip_lost: f64,
    /// The safety wanted: 2.
    pub wanted: f64,
    /// Faces that share the friction: 0 for 1 under straps and 2 in a vice.
    pub faces: u32,
}

/// Sets the usual options. Set `struct_size` before the call.
#[export(options)]
pub(crate) fn clamping_options_init() -> tenths_clamping_options {
    tenths_clamping_options {
        struct_size: size_of::<tenths_clamping_options>(),
        force_diameter: f64::NAN,
        grip_diameter: f64::NAN,
        vee_angle: 90.0,
        grip_lost: 0.0,
        wanted: 2.0,
        faces: 0,
    }
}

/// How many times the forces of the cut clamps hold, against slip and against lift.
///
/// `holding` is `strap`, `vice`, `chuck`, `collet` or `v_block`; `force` that of all clamps together. Under straps and in a vice
/// `first_force` and `second_force` are along the face that holds the work, and `third_force` is away from it. In a chuck, a
/// collet and a V-block they are the forces about the axis, along it and across it: of turning main, feed and passive force.
/// `options` may be null for the usual ones.
///
/// `tenths_make_clamp_safety(TENTHS_METRIC, "strap", 9375, 1500, 0, 0, 0.2, NULL, &safety)`.
///
/// Caution: work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and
/// follow the data of the makers of machine and workholding.
#[export(safety)]
pub(crate) fn make_clamp_safety(
    units: Units,
    holding: &str,
    force: f64,
    first_force: f64,
    second_force: f64,
    third_force: f64,
    friction: f64,
    options: Option<tenths_clamping_options>,
) -> Result<ClampSafety, ClampError> {
    let options = options.unwrap_or_else(clamping_options_init);
    let newtons = |number| Force::new_in(number, units);
    let forces = [first_force, second_force, third_force].map(newtons);
    let usual = Clamping::new(Holding::parse(holding)?, newtons(force), forces, Ratio::new(friction));
    let told = |number: f64, other: f64| if number.is_nan() { other } else { number };
    let [at, grip] = [options.force_diameter, options.grip_diameter];
    let length = |number| Length::new_in(number, units);
    ClampSafety::new(&Clamping {
        faces: (options.faces > 0).then_some(options.faces),
        // Of one without the other the formula says what is missing.
        diameters: (!at.is_nan() || !grip.is_nan()).then(|| [length(at), length(grip)]),
        vee_angle: Angle::degrees(told(options.vee_angle, 90.0)),
        grip_lost: newtons(told(options.grip_lost, 0.0)),
        wanted: told(options.wanted, 2.0),
        ..usual
    })
}
