//! What arguments usually are, by which a number in another unit is noticed.
use super::domain::{Side, StatedRange};
use crate::error::{WithUnit, to_digits};
use crate::quantity::{
    Angle, Density, ExpansionCoefficient, FeedRate, Force, Length, Modulus, Power, RemovalRate, RoughnessRa,
    RoughnessRz, SpindleSpeed, Stress, SurfaceSpeed, Temperature, Torque, UnitPower,
};
use crate::quantity::{Kind, Quantity, Units};

/// What the arguments of a quantity, or those of some names, usually are; in the metric shop unit.
///
/// The ends lie beyond what shops work with, so that a number outside is most likely in another unit. They are common
/// practice, no source.
#[derive(Debug)]
pub struct Usual {
    kind: &'static Kind,
    /// The arguments by name; every one of the quantity where there is none.
    arguments: &'static [&'static str],
    ends: [f64; 2],
    /// A common value: of several units that would do, the one that comes nearest to it was meant.
    common: f64,
}

const fn row<Q: Quantity>(arguments: &'static [&'static str], ends: [f64; 2], common: f64) -> Usual {
    Usual { kind: Q::KIND, arguments, ends, common }
}

/// Of several rows for an argument the first one counts.
const TABLE: &[Usual] = &[
    row::<Modulus>(&[], [1.0, 750.0], 200.0),
    row::<Stress>(&["kc11", "specific_cutting_force"], [200.0, 20_000.0], 1800.0),
    row::<Stress>(&["yield_strength", "hub_yield", "shaft_yield"], [5.0, 3000.0], 300.0),
    row::<Stress>(&["pressure", "joint_pressure", "inside_pressure"], [0.01, 2000.0], 50.0),
    row::<ExpansionCoefficient>(&["expansion_uncertainty"], [1e-9, 1e-4], 1e-6),
    row::<ExpansionCoefficient>(&[], [1e-7, 3e-4], 1.2e-5),
    row::<Density>(&[], [0.5, 25.0], 7.85),
    row::<RoughnessRa>(&[], [0.01, 100.0], 1.6),
    row::<RoughnessRz>(&[], [0.05, 500.0], 6.3),
    row::<SurfaceSpeed>(&["rated_speed"], [300.0, 20_000.0], 2000.0),
    row::<SurfaceSpeed>(&["band_speed"], [5.0, 6000.0], 60.0),
    row::<SurfaceSpeed>(&["table_speed"], [1.0, 200.0], 15.0),
    row::<SurfaceSpeed>(&[], [0.3, 20_000.0], 100.0),
    row::<FeedRate>(&["rapid_rate"], [500.0, 200_000.0], 8000.0),
    row::<FeedRate>(&[], [0.01, 100_000.0], 300.0),
    row::<SpindleSpeed>(&[], [0.5, 500_000.0], 1500.0),
    row::<Power>(&[], [0.001, 1000.0], 5.0),
    row::<UnitPower>(&[], [0.002, 0.5], 0.05),
    row::<RemovalRate>(&[], [1e-4, 10_000.0], 50.0),
    row::<Torque>(&[], [1e-4, 100_000.0], 50.0),
    row::<Force>(&["gripping_force"], [300.0, 2e6], 30_000.0),
    row::<Force>(&[], [0.01, 1e8], 1000.0),
    row::<Temperature>(&["room_temperature"], [5.0, 45.0], 20.0),
    row::<Angle>(&["point_angle", "included_angle"], [4.0, 180.0], 118.0),
    row::<Angle>(&["entering_angle"], [3.0, 180.0], 90.0),
    row::<Length>(&["feed_per_revolution"], [0.001, 7.0], 0.2),
    row::<Length>(&["chip_load"], [5e-4, 3.0], 0.1),
    row::<Length>(&["chip_thickness"], [1e-4, 7.0], 0.1),
    row::<Length>(&["interference", "least_interference", "greatest_interference"], [-5.0, 5.0], 0.03),
    row::<Length>(&["scallop_height"], [1e-5, 2.0], 0.005),
];

/// How many times a common value, or what part of it, is as likely as that value itself.
const NEAR: f64 = 1.6;
/// How many times a common value, or what part of it, nobody would take for what was meant.
const FARTHEST: f64 = 30.0;

/// The row of an argument.
pub(super) const fn usual(name: &str, kind: &'static Kind) -> Option<&'static Usual> {
    let mut at = 0;
    while at < TABLE.len() {
        let row = &TABLE[at];
        if same_text(row.kind.name, kind.name) {
            let mut k = 0;
            while k < row.arguments.len() {
                if same_text(row.arguments[k], name) {
                    return Some(row);
                }
                k += 1;
            }
            if row.arguments.is_empty() {
                return Some(row);
            }
        }
        at += 1;
    }
    None
}

impl Usual {
    /// The range in metric base units.
    pub(super) const fn range(&self) -> StatedRange {
        let unit = self.kind.unit(Units::Metric);
        StatedRange(unit.to_base(self.ends[0]), unit.to_base(self.ends[1]))
    }

    /// In which other unit a number would be usual, in words: `210000 MPa, which is 210 GPa`.
    pub(super) fn likely(&self, value: f64, side: &Side, units: Units) -> Option<String> {
        let shop = self.kind.unit(units);
        let metric = self.kind.unit(Units::Metric).to_base(self.common);
        let common = shop.from_base(self.kind.base_in(metric, units));
        let labels = self.kind.units.iter().map(|unit| unit.label);
        let labels = labels.chain(self.kind.others.iter().map(|unit| unit.label));
        let meant = labels.filter(|label| *label != shop.label).filter_map(|label| {
            let reading = self.kind.read(&format!("{value} {label}"), units).ok()?;
            let base = shop.to_base(reading);
            let share = (reading / common).abs();
            let apart = share.max(1.0 / share);
            let is_usual = side.domain.holds(base) && !side.is_unusual(base) && apart < FARTHEST;
            // Of those near enough the first one of the table.
            is_usual.then_some((apart.max(NEAR), label, reading))
        });
        let (_, label, reading) = meant.min_by(|one, other| one.0.total_cmp(&other.0))?;
        let told = |number: f64, label| WithUnit(to_digits(number, 6), label).to_string();
        Some(format!("{}, which is {}", told(value, label), told(reading, shop.label)))
    }
}

/// Whether two texts are the same, at compile time.
pub(super) const fn same_text(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    let mut k = 0;
    while k < a.len() && k < b.len() && a[k] == b[k] {
        k += 1;
    }
    k == a.len() && k == b.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{find, formulas};

    /// The advice on one argument, with the others at something that has an answer.
    fn told(formula: &str, argument: &str, value: f64, units: Units) -> String {
        let formula = find(formula).unwrap();
        let at = formula.arguments.iter().position(|a| a.name == argument).unwrap();
        let side = formula.arguments[at].side(units);
        assert!(side.is_unusual(formula.arguments[at].unit(units).to_base(value)), "{argument} {value}");
        let mut x = vec![f64::NAN; formula.arguments.len()];
        x[at] = value;
        let advice = crate::formula::Advice(1 << at);
        formula.remarks(units, &x, &[], advice).iter().map(ToString::to_string).collect()
    }

    // That each slip is told with the unit meant, `tests/unit_slips.csv` shows in every interface.
    #[test]
    fn a_number_in_a_common_other_unit_is_told_with_that_unit() {
        use Units::Metric;
        assert_eq!(
            told("press_fit", "hub_modulus", 210_000.0, Metric),
            "hub_modulus is 210000 GPa, outside the usual 1 GPa to 750 GPa: did you mean 210000 MPa, which is 210 GPa?"
        );
        assert!(told("press_fit", "hub_modulus", 1e30, Metric).ends_with("1 GPa to 750 GPa: check its unit"));
    }

    #[test]
    fn every_row_serves_an_argument_and_zero_is_never_unusual() {
        let rows = formulas().flat_map(|formula| formula.arguments).filter_map(|argument| argument.usual);
        let used: Vec<_> = rows.map(|row| (row.kind.name, row.arguments)).collect();
        for row in TABLE {
            assert!(used.contains(&(row.kind.name, row.arguments)), "{} {:?}", row.kind.name, row.arguments);
            assert!(row.ends[0] < row.common && row.common < row.ends[1], "{:?}", row.arguments);
        }
        for argument in formulas().flat_map(|formula| formula.arguments) {
            assert!(
                Units::ALL.iter().all(|&units| !argument.side(units).is_unusual(0.0)),
                "{}",
                argument.name
            );
        }
    }
}
