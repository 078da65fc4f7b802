//! What a draft leaves for later cuts.
use crate::{Size, Units};

/// Steps of a lathe draft, of an inch one and a metric one: common practice, no source.
pub(super) struct Allowances {
    /// Left on a part for facing both ends.
    pub(super) facing: Size,
    /// In front of a cut.
    pub(super) approach: Size,
    /// Left on a diameter for a finishing pass.
    pub(super) finishing: Size,
    /// The step in which the depth of a pass is set.
    pub(super) step: Size,
    /// The deepest roughing pass, on the radius.
    pub(super) roughing: f64,
    /// A tolerance below which a diameter is finished in a pass of its own.
    pub(super) close: Size,
    /// A roughness, in the unit of the side, at which it is too.
    pub(super) fine: f64,
}

pub(super) fn allowances(units: Units) -> Allowances {
    let [thousandth, micrometre] =
        [25_400_000_i64, 1_000_000].map(|unit| move |count: i64| Size::from_picometres(unit * count));
    match units {
        Units::Inch => Allowances {
            facing: thousandth(80),
            approach: thousandth(80),
            finishing: thousandth(20),
            step: thousandth(1),
            roughing: 0.08,
            close: thousandth(2),
            fine: 63.0,
        },
        Units::Metric => Allowances {
            facing: micrometre(2000),
            approach: micrometre(2000),
            finishing: micrometre(500),
            step: micrometre(10),
            roughing: 2.0,
            close: micrometre(50),
            fine: 1.6,
        },
    }
}
