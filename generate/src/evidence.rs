//! The published figures as evidence: what each line says, how it was seen, and how much of its tolerance is used.
use serde_json::{Map, Value};
use std::path::Path;
use tenths::{Formula, Units};

type Fault = Box<dyn std::error::Error>;
/// Lines as they stand, with their places.
type Lines = Vec<(String, Map<String, Value>)>;

/// The folder of the published figures.
pub(crate) const FOLDER: &str = "tests/published";

/// How a figure may have been seen, the best evidence first.
pub(crate) const KINDS: [&str; 5] =
    ["print", "memory", "common practice", "computed by hand", "computed with a library"];
/// What stands in the place of `computed with a library`.
const LIBRARIES: [&str; 4] =
    ["computed with mpmath", "computed with numpy", "computed with scipy", "computed with HiGHS"];

/// Every line of the files of formulas.
pub(crate) fn lines(root: &Path) -> Result<Lines, Fault> {
    let mut paths = vec![];
    for entry in std::fs::read_dir(root.join(FOLDER))? {
        paths.push(entry?.path());
    }
    paths.retain(|path| path.extension().is_some_and(|end| end == "jsonl"));
    paths.sort();
    let mut lines = vec![];
    for path in paths {
        let file = path.file_name().unwrap_or_default().to_string_lossy();
        for (number, line) in std::fs::read_to_string(&path)?.lines().enumerate() {
            let at = format!("{file}:{}", number + 1);
            let fields = serde_json::from_str(line).map_err(|error| format!("{at}: {error}"))?;
            lines.push((at, fields));
        }
    }
    Ok(lines)
}

/// A figure and its tolerance: half a unit of its last digit unless another is stated.
pub(crate) fn figure_of(figure: &Value) -> Option<(f64, f64)> {
    let number = |value: &Value| value.as_str()?.parse::<f64>().ok();
    if figure.is_object() {
        return Some((number(figure.get("value")?)?, number(figure.get("within")?)?));
    }
    let digits = figure.as_str()?.split_once('.').map_or(0, |(_, digits)| digits.len());
    Some((number(figure)?, format!("0.5e-{digits}").parse().ok()?))
}

/// The place of a kind of evidence in [`KINDS`].
pub(crate) fn kind_of(seen: &str) -> Option<usize> {
    let seen = if LIBRARIES.contains(&seen) { KINDS[KINDS.len() - 1] } else { seen };
    KINDS.iter().position(|kind| *kind == seen)
}

/// A line of a formula, computed.
pub(crate) struct Check {
    pub(crate) formula: &'static Formula,
    /// How it was seen, as a place in [`KINDS`].
    pub(crate) kind: usize,
    pub(crate) source: String,
    pub(crate) figures: Vec<Comparison>,
}

/// A published figure and what the formula gives.
pub(crate) struct Comparison {
    /// The figure as printed.
    pub(crate) printed: String,
    pub(crate) within: f64,
    pub(crate) unit: &'static str,
    /// The difference as a share of the tolerance; 0 for exact figures, which are met exactly.
    pub(crate) share: f64,
}

/// Every line of the files of formulas, computed.
pub(crate) fn checks(root: &Path) -> Result<Vec<Check>, Fault> {
    let mut checks = vec![];
    for (at, line) in lines(root)? {
        checks.push(check(&line).ok_or_else(|| format!("{at}: unclear"))?);
    }
    Ok(checks)
}

fn check(line: &Map<String, Value>) -> Option<Check> {
    let text = |key: &str| line.get(key)?.as_str();
    let formula = tenths::find(text("formula")?)?;
    let units = Units::ALL.into_iter().find(|units| Some(units.name()) == text("units"))?;
    let given = line.get("arguments")?.as_object()?;
    let value = |a: &tenths::formula::Argument| match given.get(a.name) {
        Some(value) => value.as_f64(),
        None => a.default(units),
    };
    let x: Vec<f64> = formula.arguments.iter().map(value).collect::<Option<_>>()?;
    let mut y = vec![f64::NAN; formula.outputs.len()];
    formula.call(units, &x, &mut y).ok()?;
    let mut figures = vec![];
    for (name, figure) in line.get("results")?.as_object()? {
        let k = (0..y.len()).find(|&k| formula.output_name(k) == name)?;
        let (value, within) = figure_of(figure)?;
        let printed = figure.as_str().or_else(|| figure.get("value")?.as_str())?.to_string();
        let share = if formula.is_exact() { 0.0 } else { (y[k] - value).abs() / within };
        figures.push(Comparison { printed, within, unit: formula.outputs[k].kind.unit(units).label, share });
    }
    Some(Check { formula, kind: kind_of(text("seen")?)?, source: text("source")?.into(), figures })
}

/// How many figures of a table were seen in each way, in the order of [`KINDS`], how many were worked out from
/// other rows of it, and the sources.
pub(crate) struct Table {
    pub(crate) file: &'static str,
    pub(crate) about: &'static str,
    pub(crate) seen: [usize; KINDS.len()],
    pub(crate) derived: usize,
    pub(crate) sources: Vec<String>,
}

/// The tables: file, what it holds, and from the end of a line the place of the field that says how it was seen.
const TABLES: &[(&str, &str, Option<usize>)] = &[
    ("iso286_grades.csv", "ISO 286, standard tolerances", None),
    ("iso286_shafts.csv", "ISO 286, fundamental deviations of shafts", None),
    ("iso286_holes.csv", "ISO 286, fundamental deviations of holes", None),
    ("iso286_delta.csv", "ISO 286, delta of holes", None),
    ("iso286_limits.csv", "ISO 286, limits and fits", None),
    ("asme_b4_1.csv", "ASME B4.1, inch fits", None),
    ("thread_limits.csv", "limits of threads", Some(2)),
    ("gauges.csv", "gauges", Some(2)),
    ("decisions.csv", "decision rules", Some(2)),
    ("positions.csv", "verdicts on positions", Some(2)),
    ("locating.csv", "sets of locators", Some(2)),
    ("forms.csv", "form from points", Some(2)),
    ("general_tolerances.csv", "general tolerances of ISO 2768", Some(2)),
    ("capability.csv", "capability of processes", Some(2)),
    ("control_charts.csv", "control charts", Some(2)),
    ("chatter.csv", "stability of cuts", Some(2)),
    ("cutting_plans.csv", "cutting plans", Some(2)),
    ("stock.csv", "bars to buy, break-evens, machine loads, hardness", Some(2)),
    ("best_cuts.csv", "best cuts within limits", Some(2)),
    ("gauge_studies.csv", "gauge studies", Some(2)),
    ("chart_constants.csv", "constants of control charts", None),
    ("uncertainty.csv", "uncertainty of measurement", Some(2)),
    ("sampling.csv", "sampling plans", Some(2)),
    ("sampling_code_letters.csv", "ISO 2859-1, code letters", Some(2)),
    ("sampling_single_normal.csv", "ISO 2859-1, single plans for normal inspection", Some(2)),
    ("materials.tsv", "materials", Some(2)),
    ("stacks.json", "stacks, functions and laws of distribution", None),
    ("elementary.csv", "elementary functions", None),
    ("laws.csv", "statistical laws", None),
];

pub(crate) fn tables(root: &Path) -> Result<Vec<Table>, Fault> {
    TABLES.iter().map(|&(file, about, seen)| table(root, file, about, seen)).collect()
}

fn table(root: &Path, file: &'static str, about: &'static str, seen: Option<usize>) -> Result<Table, Fault> {
    let text = std::fs::read_to_string(root.join(FOLDER).join(file))?;
    let mut table = Table { file, about, seen: [0; KINDS.len()], derived: 0, sources: vec![] };
    for (seen, source) in told(file, &text, seen)? {
        match kind_of(&seen) {
            Some(kind) => table.seen[kind] += 1,
            None if seen == "derived" => table.derived += 1,
            None => return Err(format!("{file}: `{seen}` does not say how a figure was seen").into()),
        }
        if !table.sources.contains(&source) {
            table.sources.push(source);
        }
    }
    Ok(table)
}

/// How each figure of a file was seen, and its source.
fn told(file: &str, text: &str, seen: Option<usize>) -> Result<Vec<(String, String)>, Fault> {
    if file.ends_with(".json") {
        let cases: Vec<Map<String, Value>> = serde_json::from_str(text)?;
        let field = |case: &Map<String, Value>, key: &str| {
            case.get(key).and_then(Value::as_str).unwrap_or_default().to_string()
        };
        return Ok(cases.iter().map(|case| (field(case, "seen"), field(case, "source"))).collect());
    }
    // A line of a case, a chart or a study has what the figures after it are of.
    let heading =
        |line: &&str| ["#", "case;", "chart;", "study;"].iter().any(|start| line.starts_with(start));
    let lines = text.lines().filter(|line| !heading(line));
    if file == "chart_constants.csv" {
        let scipy = (
            "computed with scipy".to_string(),
            "scipy, integrals of the range of normal readings".to_string(),
        );
        return Ok(lines.skip(1).map(|_| scipy.clone()).collect());
    }
    if ["elementary.csv", "laws.csv"].contains(&file) {
        let digits = if file == "laws.csv" { 40 } else { 60 };
        let mpmath = ("computed with mpmath".to_string(), format!("mpmath at {digits} digits"));
        return Ok(lines.skip(1).map(|_| mpmath.clone()).collect());
    }
    let tabbed = file.ends_with(".tsv");
    let split = |line: &str| -> Vec<String> {
        line.split(if tabbed { '\t' } else { ';' }).map(String::from).collect()
    };
    let rows = lines.skip(usize::from(tabbed)).map(split);
    Ok(rows
        .map(|fields| {
            let source = fields.last().cloned().unwrap_or_default();
            match seen {
                Some(back) => (fields[fields.len() - back].clone(), source),
                None => (by_source(&source).to_string(), source),
            }
        })
        .collect())
}

/// How a figure was seen, as its source tells in the tables of ISO 286 and ASME B4.1.
fn by_source(source: &str) -> &'static str {
    let starts = |words: &[&str]| words.iter().any(|word| source.starts_with(word));
    match () {
        () if starts(&["memory"]) || source.contains("from memory") => "memory",
        () if starts(&["derived", "rule", "definition"]) => "derived",
        () => "print",
    }
}
