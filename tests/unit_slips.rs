//! Numbers in a unit that is easily taken for another are told with the unit that was most likely meant.
//!
//! `unit_slips.csv` lists them: a formula, its side, the argument, the number given, that number with the unit meant, and
//! what that is in the unit of the side. The readings are worked out by hand from the definitions of the units: 1 lb/in³
//! is 27.68 g/cm³, 1 psi 0.006895 MPa, 1 hp/(in³/min) 0.0455 kW/(cm³/min). The C and Python suites read the same file.
use tenths::formula::Advice;
use tenths::{Units, find};

const SLIPS: &str = include_str!("unit_slips.csv");

#[test]
fn each_slip_is_told_with_the_unit_meant() {
    let mut rows = 0;
    for line in SLIPS.lines().skip(1) {
        let &[formula, units, argument, value, meant, reading] = &line.split(',').collect::<Vec<_>>()[..]
        else {
            panic!("six fields, not {line}")
        };
        let (formula, units) = (find(formula).unwrap(), Units::parse(units).unwrap());
        let at = formula.arguments.iter().position(|known| known.name == argument).unwrap();
        let mut x = vec![f64::NAN; formula.arguments.len()];
        x[at] = value.parse().unwrap();
        let remarks = formula.remarks(units, &x, &[], Advice(1 << at));
        let told: Vec<_> = remarks.iter().map(ToString::to_string).collect();
        let end = format!(": did you mean {meant}, which is {reading}?");
        assert!(
            told.len() == 1 && told[0].starts_with(argument) && told[0].ends_with(&end),
            "{line}: {told:?}"
        );
        rows += 1;
    }
    assert!(rows >= 29, "{rows} rows");
}
