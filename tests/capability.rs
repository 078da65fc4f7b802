//! The figures of `tests/published/capability.csv` and `nist_univariate.csv`, which come from outside the project.
mod evidence;

use tenths::Units;
use tenths::inspect::capability::{
    Capability, CapabilityError, CapabilityInterval, CapabilityLaw, CapabilityLimits, CapabilityOptions,
    SigmaRule, capabilities, capability,
};
use tenths::statistics;

const CASES: &str = include_str!("published/capability.csv");
const UNIVARIATE: &str = include_str!("published/nist_univariate.csv");

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn capability_of(fields: &[&str]) -> Capability {
    let readings = numbers(fields[2]);
    let size: Option<usize> = fields[5].parse().ok();
    let options = CapabilityOptions {
        subgroups: size.map(|size| vec![size; readings.len() / size]),
        target: fields[6].parse().ok(),
        sigma: (!fields[7].is_empty()).then(|| SigmaRule::parse(fields[7]).unwrap()),
        confidence: fields[8].parse().unwrap(),
        law: CapabilityLaw::parse(fields[9]).unwrap(),
        ..CapabilityOptions::new(Units::Metric)
    };
    let limits = CapabilityLimits { lower: fields[3].parse().ok(), upper: fields[4].parse().ok() };
    capability(&readings, limits, &options).unwrap_or_else(|error| panic!("{}: {error}", fields[1]))
}

fn figure(c: &Capability, quantity: &str) -> Vec<f64> {
    let ends = |interval: Option<CapabilityInterval>| {
        interval.into_iter().flat_map(|i| [i.lower, i.upper]).flatten().collect::<Vec<_>>()
    };
    match quantity {
        "cp_interval" => return ends(c.cp_interval),
        "cpk_interval" => return ends(Some(c.cpk_interval)),
        _ => {}
    }
    let one = match quantity {
        "mean" => Some(c.mean),
        "sigma_within" => Some(c.sigma_within),
        "sigma_overall" => Some(c.sigma_overall),
        "cp" => c.cp,
        "cpl" => c.cpl,
        "cpu" => c.cpu,
        "cpk" => Some(c.cpk),
        "pp" => c.pp,
        "ppk" => Some(c.ppk),
        "cpm" => c.cpm,
        "ppm_below" => Some(c.ppm_below),
        "ppm_above" => Some(c.ppm_above),
        "ppm_expected" => Some(c.ppm_expected),
        "normality_statistic" => c.normality_statistic,
        "normality_p" => c.normality_p,
        other => panic!("{other}"),
    };
    one.into_iter().collect()
}

#[test]
fn limits_in_another_unit_are_noticed() {
    let readings = [9.99, 10.02, 10.0, 9.98, 10.01, 10.0, 10.03, 9.99, 10.0];
    let advice = |lower, upper| {
        let limits = CapabilityLimits { lower: Some(lower), upper: Some(upper) };
        capability(&readings, limits, &CapabilityOptions::default()).unwrap().advice
    };
    let inches = 25.4;
    assert!(advice(9.9 / inches, 10.1 / inches).contains("in the same unit"));
    assert!(!advice(9.9, 10.1).contains("unit") && !advice(9.7, 9.8).contains("unit"));
}

#[test]
fn capabilities_meet_their_sources() {
    let mut made = None;
    let mut count = 0;
    for line in CASES.lines().filter(|line| !line.starts_with('#')) {
        let fields: Vec<_> = line.split(';').collect();
        if fields[0] == "case" {
            made = Some((fields[1], capability_of(&fields)));
            continue;
        }
        let (name, made) = made.as_ref().unwrap();
        let &[_, quantity, value, within, seen, source] = fields.as_slice() else { panic!("{line}") };
        evidence::check(seen, source).unwrap();
        let (got, expected) = (figure(made, quantity), numbers(value));
        let within: f64 = within.parse().unwrap();
        let met = got.len() == expected.len()
            && got.iter().zip(&expected).all(|(a, b)| (a - b).abs() <= within * (1.0 + 1e-9));
        assert!(met, "{name}: {quantity} is {got:?}, not {value} ({source})");
        count += 1;
    }
    assert!(count >= 60, "{count} figures");
}

#[test]
fn moments_meet_the_certified_values() {
    let close = |what: &str, got: f64, certified: f64, relative: f64| {
        assert!((got - certified).abs() <= relative * certified.abs(), "{what}: {got}, not {certified}");
    };
    let rows = UNIVARIATE.lines().filter(|line| !line.starts_with('#'));
    let mut count = 0;
    for line in rows {
        let fields: Vec<_> = line.split(';').collect();
        let certified = numbers(&fields[1..4].join(" "));
        let readings = numbers(fields[4]);
        // The certified values have 15 digits. The readings of NumAcc3 as floats are off by 6e-11, which its deviation
        // of 0.1 shows as a relative 1e-9.
        let exact = if fields[0] == "NumAcc3" { 1e-9 } else { 1e-13 };
        close(fields[0], statistics::mean(&readings), certified[0], 1e-15);
        close(fields[0], statistics::standard_deviation(&readings), certified[1], exact);
        close(fields[0], statistics::autocorrelation(&readings), certified[2], exact);
        count += 1;
    }
    assert_eq!(count, 5);
}

fn refused(readings: &[f64], lower: f64, upper: f64, change: impl FnOnce(&mut CapabilityOptions)) -> String {
    let mut options = CapabilityOptions::new(Units::Metric);
    change(&mut options);
    let known = |limit: f64| (!limit.is_nan()).then_some(limit);
    let limits = CapabilityLimits { lower: known(lower), upper: known(upper) };
    capability(readings, limits, &options).unwrap_err().to_string()
}

#[test]
fn what_has_no_capability_is_refused() {
    let x = [1.0, 2.0, 4.0, 3.0];
    let usual = |_: &mut CapabilityOptions| {};
    for (got, expected) in [
        (refused(&[], 0.0, 5.0, usual), "2 or more readings, not 0"),
        (refused(&[1.0], 0.0, 5.0, usual), "not 1"),
        (refused(&[1.0, f64::NAN], 0.0, 5.0, usual), "reading 2 must be a finite number, not NaN"),
        (refused(&[2.5, 2.5, 2.5], 0.0, 5.0, usual), "all 3 readings are 2.5"),
        (refused(&x, 5.0, 0.0, usual), "lower limit 5 must be below the upper limit 0"),
        (refused(&x, f64::NAN, f64::NAN, usual), "a lower limit, an upper limit or both"),
        (refused(&x, f64::NEG_INFINITY, 5.0, usual), "a finite number, not -inf"),
        (refused(&x, 0.0, 5.0, |o| o.confidence = 1.0), "e.g. 0.95, not 1"),
        (refused(&x, 0.0, 5.0, |o| o.target = Some(f64::NAN)), "target"),
        (refused(&x, 0.0, 5.0, |o| o.subgroups = Some(vec![3])), "hold 3 readings, and there are 4"),
        (refused(&x, 0.0, 5.0, |o| o.subgroups = Some(vec![1; 4])), "subgroups of 2 or more"),
        (refused(&x, 0.0, 5.0, |o| o.sigma = Some(SigmaRule::Pooled)), "subgroups of 2 or more"),
        (
            refused(&[1.0, 1.0, 2.0, 2.0], 0.0, 5.0, |o| o.subgroups = Some(vec![2, 2])),
            "the rule 'mean range' finds no spread",
        ),
        (refused(&[-1.0, 1.0], 0.0, 5.0, |o| o.law = CapabilityLaw::Lognormal), "positive readings only"),
        (SigmaRule::parse("mean").unwrap_err().to_string(), "expected moving range"),
        (CapabilityLaw::parse("").unwrap_err().to_string(), "expected normal"),
    ] {
        assert!(got.contains(expected), "{got}");
    }
}

#[test]
fn a_table_has_the_capabilities_of_its_columns() {
    let (one, other) = ([1.0, 2.0, 4.0, 3.0, 2.5], [10.0, 10.5, 10.2, 9.9, 9.0]);
    let options = CapabilityOptions::new(Units::Inch);
    let limits = [(0.0, 5.0), (8.0, 12.0)]
        .map(|(lower, upper)| CapabilityLimits { lower: Some(lower), upper: Some(upper) });
    let columns = [("a".to_string(), &one[..]), ("b".to_string(), &other[..])];
    let made = capabilities(&columns, &limits, &options).unwrap();
    for (k, column) in columns.iter().enumerate() {
        let alone = capability(column.1, limits[k], &options).unwrap();
        assert_eq!(made[k], Capability { name: Some(column.0.clone()), ..alone });
    }
    let flat = [("a".to_string(), &one[..]), ("b".to_string(), &[1.0, 1.0][..])];
    let error = capabilities(&flat, &limits, &options).unwrap_err();
    assert!(error.to_string().starts_with("column b: all 2 readings are 1"), "{error}");
    assert!(matches!(capabilities(&columns, &limits[..1], &options), Err(CapabilityError::Columns { .. })));
}

#[test]
fn the_bound_holds_whatever_the_law() {
    // The law of Chebyshev's equality: an eighth beyond two deviations.
    let x = [-2.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 2.0].repeat(50);
    let limits = CapabilityLimits { lower: Some(-1.99), upper: Some(1.99) };
    let made = capability(&x, limits, &CapabilityOptions::new(Units::Metric)).unwrap();
    assert!(made.ppm_bound >= made.ppm_observed && made.ppm_observed == 250_000.0);
    assert!(made.ppm_bound < 260_000.0, "{}", made.ppm_bound);
    assert!(made.advice.contains("do not quote Cpk"));
}

#[test]
fn a_table_has_the_bits_of_each_column_alone() {
    let reading = |place: usize, column: usize| ((place * 7919 + column * 104_729) % 997) as f64 / 31.0;
    let of = |count: usize, column| -> Vec<f64> { (0..count).map(|place| reading(place, column)).collect() };
    let limits = CapabilityLimits { lower: Some(-5.0), upper: None };
    let options = CapabilityOptions { law: CapabilityLaw::Pearson, ..CapabilityOptions::default() };
    // The second eight columns are of several lengths, and the last two too few to lie side by side.
    for lengths in
        [[60; 18].as_slice(), &[60, 60, 60, 60, 60, 60, 60, 60, 3, 7, 60, 5000, 60, 60, 60, 60, 9, 9]]
    {
        let columns: Vec<Vec<f64>> = lengths.iter().enumerate().map(|(k, count)| of(*count, k)).collect();
        let named: Vec<_> = columns.iter().enumerate().map(|(k, c)| (k.to_string(), c.as_slice())).collect();
        let table = capabilities(&named, &[limits; 18], &options).unwrap();
        for (row, (name, readings)) in table.iter().zip(&named) {
            let alone = capability(readings, limits, &options).unwrap();
            assert_eq!(*row, Capability { name: Some(name.clone()), ..alone });
        }
    }
}
