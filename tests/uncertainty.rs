//! The figures of `tests/published/uncertainty.csv`, which come from outside the project.
mod evidence;

use tenths::inspect::uncertainty::{BudgetOptions, Estimate, UncertaintyBudget, UncertaintyError};
use tenths::math::cos_degrees;
use tenths::stack::{Distribution, Function, Input, Propagation, Sampling, StackError, by_row};

const UNCERTAINTY: &str = include_str!("published/uncertainty.csv");

type Fault = Box<dyn std::error::Error>;

/// A sum of the inputs, each with a weight.
struct Weighted(Vec<f64>);

impl Function for Weighted {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        for (row, value) in values.iter_mut().enumerate() {
            *value = self.0.iter().zip(inputs).map(|(weight, column)| weight * column[row]).sum();
        }
        Ok(())
    }
}

/// An input as `name value law spread freedom`, and its degrees of freedom.
fn input(text: &str) -> Result<(Input, f64), Fault> {
    let [name, value, law, spread, freedom] = text.split(' ').collect::<Vec<_>>()[..] else {
        return Err("an input has five words".into());
    };
    let (value, spread, freedom): (f64, f64, f64) = (value.parse()?, spread.parse()?, freedom.parse()?);
    let banded = |law| Input::new(name, value, spread, -spread).distribution(law);
    Ok((
        match law {
            "normal" => Estimate::new(value, spread, freedom)?.input(name),
            "arcsine" => banded(Distribution::Beta { alpha: 0.5, beta: 0.5 }),
            law => banded(Distribution::parse(law)?),
        },
        freedom,
    ))
}

fn model(name: &str, inputs: Vec<Input>) -> Result<Propagation<Box<dyn Function + Send>>, Fault> {
    Ok(match name {
        "end_gauge" => {
            let length =
                by_row(|[standard, d1, d2, d3, difference, mean, cyclic, alpha, temperature]: [f64; 9]| {
                    standard + d1 + d2 + d3 - standard * (difference * (mean + cyclic) + alpha * temperature)
                });
            Propagation::new(length, inputs)?.boxed()
        }
        "resistance" => {
            let resistance = by_row(|[volt, ampere, phase]: [f64; 3]| {
                volt * cos_degrees(phase * 180.0 / std::f64::consts::PI) / ampere
            });
            Propagation::new(resistance, inputs)?.boxed()
        }
        weights => {
            let weights = weights.split(' ').map(str::parse).collect::<Result<_, _>>()?;
            Propagation::new(Weighted(weights), inputs)?.boxed()
        }
    })
}

fn line(fields: &[&str]) -> Result<(), Fault> {
    let [name, coverage, correlations, inputs, quantity, figure, seen, source] = fields[..] else {
        return Err("a line has eight fields".into());
    };
    evidence::check(seen, source)?;
    let got = if name == "readings" {
        let readings = inputs.split(' ').map(str::parse).collect::<Result<Vec<f64>, _>>()?;
        let estimate = Estimate::of_readings(&readings)?;
        match quantity {
            "value" => estimate.value,
            "standard_uncertainty" => estimate.standard_uncertainty,
            "degrees_of_freedom" => estimate.degrees_of_freedom,
            _ => return Err("no such quantity".into()),
        }
    } else {
        let (inputs, freedoms): (Vec<_>, Vec<_>) =
            inputs.split(',').map(input).collect::<Result<Vec<_>, _>>()?.into_iter().unzip();
        let mut model = model(name, inputs)?;
        for pair in correlations.split(',').filter(|pair| !pair.is_empty()) {
            let [one, other, coefficient] = pair.split(' ').collect::<Vec<_>>()[..] else {
                return Err("three words".into());
            };
            model.correlate(one, other, coefficient.parse()?)?;
        }
        let options = BudgetOptions { coverage: coverage.parse()?, freedoms: &freedoms, sampling: None };
        let budget = UncertaintyBudget::new(&model, &options)?;
        let row = |name: &str| budget.rows.iter().find(|row| row.name == name).ok_or("no such input");
        match quantity.split_once(':') {
            Some(("u", name)) => row(name)?.standard_uncertainty,
            Some(("part", name)) => row(name)?.contribution,
            _ => match quantity {
                "value" => budget.value,
                "combined" => budget.combined,
                "second_order" => budget.second_order,
                "effective_freedom" => budget.effective_freedom,
                "coverage_factor" => budget.coverage_factor,
                "expanded" => budget.expanded,
                _ => return Err("no such quantity".into()),
            },
        }
    };
    let digits = figure.split_once('.').map_or(0, |(_, digits)| digits.len());
    let within: f64 = format!("0.5e-{digits}").parse()?;
    let value: f64 = figure.parse()?;
    // Derivatives come from finite differences.
    match (got - value).abs() <= within.max(1e-8 * value.abs()) * (1.0 + 1e-9) {
        true => Ok(()),
        false => Err(format!("{got:?}, not {figure}").into()),
    }
}

#[test]
fn budgets_are_as_published() {
    let lines = || {
        UNCERTAINTY
            .lines()
            .filter(|line| !line.starts_with("# "))
            .map(|line| line.split(';').collect::<Vec<_>>())
    };
    let faults: Vec<String> =
        lines().filter_map(|fields| Some(format!("{fields:?}: {}", line(&fields).err()?))).collect();
    assert!(lines().count() >= 35 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "1 1;0.95;;a 0 normal 3 inf,b 0 normal 4 inf;combined;5.000;common practice;source";
    let check = |text: &str| line(&text.split(';').collect::<Vec<_>>());
    assert!(check(good).is_ok());
    for (from, to) in [
        ("5.000", "5.001"),
        ("normal 3", "uniform 3"),
        ("1 1;", "1 2;"),
        ("common practice", "here"),
        ("combined", "expanded"),
    ] {
        assert!(check(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}

fn sampled(laws: [Input; 4], freedoms: &[f64]) -> UncertaintyBudget {
    let model = Propagation::new(Weighted(vec![1.0; 4]), laws.to_vec()).unwrap();
    let options = BudgetOptions { freedoms, sampling: Some(Sampling::new(1 << 17, 7)), ..Default::default() };
    UncertaintyBudget::new(&model, &options).unwrap()
}

// JCGM 101:2008, 9.2.3, from memory: four rectangular inputs of standard uncertainty 1 give the shortest interval ±3.88, where
// the GUM gives ±3.92; four normal ones give ±3.92 both ways.
#[test]
fn samples_agree_with_supplement_1() {
    let half = 3.0_f64.sqrt();
    let uniform = ["a", "b", "c", "d"]
        .map(|name| Input::new(name, 0.0, half, -half).distribution(Distribution::Uniform));
    let budget = sampled(uniform, &[]);
    let sample = budget.monte_carlo.unwrap();
    assert!((budget.expanded - 3.92).abs() < 0.005 && (sample.standard_uncertainty - 2.0).abs() < 0.02);
    for end in [-sample.lower, sample.upper, -sample.shortest_lower, sample.shortest_upper] {
        assert!((end - 3.88).abs() < 0.06, "{sample:?}");
    }
    assert_eq!((sample.count, sample.seed), (1 << 17, 7));
    let normal = ["a", "b", "c", "d"].map(|name| Estimate::new(0.0, 1.0, f64::INFINITY).unwrap().input(name));
    let sample = sampled(normal, &[]).monte_carlo.unwrap();
    assert!(
        sample.agrees
            && (sample.upper - 3.92).abs() < 0.04
            && (sample.shortest_upper - sample.shortest_lower - 7.84).abs() < 0.05
    );
}

// One normal input of few readings is Student's: its 95 percent are t(0.975, 4) = 2.776 (common practice), and its standard
// deviation is that of the law, sqrt(4 / 2).
#[test]
fn few_readings_are_drawn_from_students_law() {
    let one = Estimate::new(10.0, 0.5, 4.0).unwrap().input("a");
    let budget = sampled(
        [one, Input::fixed("b", 0.0), Input::fixed("c", 0.0), Input::fixed("d", 0.0)],
        &[4.0, 1e9, 1.0, 2.0],
    );
    let sample = budget.monte_carlo.unwrap();
    assert!((budget.expanded - 1.388).abs() < 0.0005, "{budget:?}");
    assert!((sample.upper - 11.388).abs() < 0.03 && (10.0 - sample.lower - 1.388).abs() < 0.03, "{sample:?}");
    assert!((sample.standard_uncertainty - 0.5 * 2.0_f64.sqrt()).abs() < 0.03, "{sample:?}");
    assert_eq!(budget.rows[1].sensitivity, None);
}

#[test]
fn what_is_not_known_is_refused() {
    let told = |error: UncertaintyError| error.to_string();
    assert_eq!(
        told(Estimate::of_readings(&[1.0]).unwrap_err()),
        "1 reading shows no spread: give at least 2"
    );
    assert_eq!(told(Estimate::of_readings(&[]).unwrap_err()), "0 readings show no spread: give at least 2");
    assert_eq!(
        told(Estimate::of_readings(&[1.0, f64::NAN]).unwrap_err()),
        "reading 2 must be a finite number, not NaN"
    );
    assert_eq!(Estimate::of_readings(&[2.5; 3]).unwrap().standard_uncertainty, 0.0);
    assert!(Estimate::new(1.0, -0.1, 5.0).is_err() && Estimate::new(1.0, 0.1, 0.5).is_err());
    assert!(Estimate::new(f64::NAN, 0.1, 5.0).is_err() && Estimate::of_certificate(1.0, 0.1, 0.0).is_err());

    let pair = || {
        let inputs = ["a", "b"].map(|name| Estimate::new(1.0, 0.1, f64::INFINITY).unwrap().input(name));
        Propagation::new(Weighted(vec![1.0, 1.0]), inputs.to_vec()).unwrap()
    };
    let made = |coverage, freedoms: &[f64]| {
        let options = BudgetOptions { coverage, freedoms, sampling: None };
        UncertaintyBudget::new(&pair(), &options).map_err(told)
    };
    assert!(made(0.95, &[5.0, 5.0]).is_ok());
    assert_eq!(
        made(95.0, &[]).unwrap_err(),
        "the coverage must be greater than 0 and less than 1, e.g. 0.95, not 95"
    );
    assert!(made(0.95, &[5.0]).unwrap_err().contains("2 inputs, and 1 degrees of freedom"));
    assert!(made(0.95, &[5.0, 0.0]).unwrap_err().starts_with("degrees of freedom of `b` must be 1 or more"));
    let mut correlated = pair();
    correlated.correlate("a", "b", 0.5).unwrap();
    let options = BudgetOptions { freedoms: &[5.0, 6.0], ..Default::default() };
    let refused = told(UncertaintyBudget::new(&correlated, &options).unwrap_err());
    assert!(
        refused.contains("`a` and `b` are correlated, but have different degrees of freedom, 5 and 6"),
        "{refused}"
    );
    let options = BudgetOptions { freedoms: &[5.0, 5.0], ..Default::default() };
    assert!((UncertaintyBudget::new(&correlated, &options).unwrap().effective_freedom - 5.0).abs() < 1e-9);
}
