//! The figures of `tests/published/*.jsonl`, which come from outside the project, against the formulas.
mod evidence;

use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use tenths::{Formula, Units, find, formulas};

/// What floating point may add to a stated tolerance, relative to the tolerance and to the figure.
const SLACK: f64 = 1e-9;

/// One line: a formula, its arguments, and what its source gives for them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Line {
    formula: String,
    units: Side,
    arguments: BTreeMap<String, f64>,
    results: BTreeMap<String, Figure>,
    source: String,
    seen: String,
    #[serde(default)]
    note: String,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename_all = "lowercase")]
enum Side {
    Inch,
    Metric,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Figure {
    Printed(String),
    Stated(Stated),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Stated {
    value: String,
    within: String,
    why: String,
}

impl Figure {
    /// The figure and its tolerance.
    fn read(&self) -> Result<(f64, f64), String> {
        let number = |text: &str| text.parse::<f64>().map_err(|_| format!("`{text}` is no number"));
        match self {
            Figure::Printed(text) => Ok((number(text)?, half_unit(text))),
            Figure::Stated(Stated { why, .. }) if why.is_empty() => Err("a tolerance needs a reason".into()),
            Figure::Stated(Stated { value, within, .. }) => Ok((number(value)?, number(within)?)),
        }
    }
}

/// Half a unit of the last printed digit.
fn half_unit(text: &str) -> f64 {
    let digits = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    format!("0.5e-{digits}").parse().unwrap_or(0.0)
}

/// The arguments of a line in the order of a call, defaults filled in.
fn row(formula: &Formula, units: Units, given: &BTreeMap<String, f64>) -> Result<Vec<f64>, String> {
    if let Some(name) = given.keys().find(|name| formula.arguments.iter().all(|a| a.name != **name)) {
        return Err(format!("no such argument: {name}"));
    }
    let value = |a: &tenths::formula::Argument| {
        given.get(a.name).copied().or(a.default(units)).ok_or(format!("{} is missing", a.name))
    };
    formula.arguments.iter().map(value).collect()
}

/// Checks a line; gives the name of its formula.
fn check(text: &str) -> Result<String, String> {
    let line: Line = serde_json::from_str(text).map_err(|error| error.to_string())?;
    evidence::check(&line.seen, &line.source)?;
    let units = match line.units {
        Side::Inch => Units::Inch,
        Side::Metric => Units::Metric,
    };
    let formula = find(&line.formula).ok_or_else(|| format!("no such formula: {}", line.formula))?;
    let mut y = vec![0.0; formula.outputs.len()];
    let x = row(formula, units, &line.arguments)?;
    formula.call(units, &x, &mut y).map_err(|error| error.to_string())?;
    if line.results.is_empty() {
        return Err("no result".into());
    }
    for (name, figure) in &line.results {
        let k = (0..y.len()).find(|&k| formula.output_name(k) == name);
        let got = y[k.ok_or_else(|| format!("no such result: {name}"))?];
        let (value, within) = figure.read()?;
        let met = match formula.is_exact() {
            true => got == value,
            false => (got - value).abs() <= within + SLACK * (within + value.abs()),
        };
        if !met {
            return Err(format!(
                "{name} is {got}, not {value} within {within} ({}; {})",
                line.source, line.note
            ));
        }
    }
    Ok(line.formula)
}

/// Every line with its place.
fn lines() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut lines = vec![];
    for entry in folder.read_dir().unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "jsonl") {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let text = std::fs::read_to_string(&path).unwrap();
            let numbered =
                text.lines().zip(1..).map(|(line, number)| (format!("{name}:{number}"), line.into()));
            lines.extend(numbered.filter(|(_, line): &(_, String)| !line.trim().is_empty()));
        }
    }
    lines
}

#[test]
fn formulas_give_the_published_values() {
    let lines = lines();
    let faults: Vec<String> =
        lines.iter().filter_map(|(place, line)| Some(format!("{place}: {}", check(line).err()?))).collect();
    assert!(faults.is_empty(), "{} of {} lines:\n{}", faults.len(), lines.len(), faults.join("\n"));
}

#[test]
fn every_formula_has_a_published_value() {
    let checked: BTreeSet<String> = lines().iter().filter_map(|(_, line)| check(line).ok()).collect();
    let missing: Vec<&str> = formulas().map(|f| f.name).filter(|name| !checked.contains(*name)).collect();
    assert!(missing.is_empty(), "without a published value: {missing:?}");
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let line = |formula: &str, units: &str, arguments: &str, results: &str| {
        format!(
            r#"{{"formula": "{formula}", "units": "{units}", "arguments": {{{arguments}}},
               "results": {{{results}}}, "source": "arithmetic", "seen": "computed by hand"}}"#
        )
    };
    let (given, result) = (r#""travel": 30, "feed_rate": 20"#, r#""cutting_time": "1.50""#);
    assert_eq!(check(&line("cutting_time", "metric", given, result)), Ok("cutting_time".into()));
    for (faulty, complaint) in [
        (line("cutting_tiem", "metric", given, result), "no such formula"),
        (line("cutting_time", "metre", given, result), "unknown variant"),
        (line("cutting_time", "metric", r#""travel": 30"#, result), "feed_rate is missing"),
        (line("cutting_time", "metric", &format!("{given}, \"feed\": 1"), result), "no such argument"),
        (line("cutting_time", "metric", r#""travel": 30, "feed_rate": 0"#, result), "greater than 0"),
        (line("cutting_time", "metric", given, r#""time": "1.50""#), "no such result"),
        (line("cutting_time", "metric", given, ""), "no result"),
        (line("cutting_time", "metric", given, r#""cutting_time": "1.51""#), "not 1.51 within 0.005"),
        (line("cutting_time", "metric", given, r#""cutting_time": {"value": "1.5"}"#), "did not match"),
        (
            line("cutting_time", "metric", given, result).replace("by hand", "by us"),
            "how the figure was seen",
        ),
        (line("cutting_time", "metric", given, result).replace("arithmetic", "www.example"), "no source"),
    ] {
        let fault = check(&faulty).unwrap_err();
        assert!(fault.contains(complaint), "`{fault}` for {faulty}");
    }
    assert_eq!(["110", "137.4", ".020", "0.50000"].map(half_unit), [0.5, 0.05, 0.0005, 0.000_005]);
}

/// The figures of materials: material, side, property, figure, how it was seen, source.
#[test]
fn materials_have_the_published_figures() {
    use tenths::material::{self, Material};
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/materials.tsv");
    let text = std::fs::read_to_string(path).unwrap();
    let mut count = 0;
    for line in text.lines().skip(1) {
        let [name, units, property, figure, seen, source] = line.split('\t').collect::<Vec<_>>()[..] else {
            panic!("six fields: {line}")
        };
        assert_eq!(evidence::check(seen, source), Ok(()), "{line}");
        let units = Units::ALL.into_iter().find(|side| side.name() == units).unwrap();
        let property = Material::PROPERTIES.iter().find(|own| own.name == property).unwrap();
        let got = property.of(material::find(name).unwrap(), units);
        assert_eq!(got, figure.parse().ok(), "{line}");
        count += 1;
    }
    assert!(count > 100, "{count}");
}
