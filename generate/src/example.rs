//! A worked example for each formula: one of its published figures, the best seen.
use crate::evidence::{self, KINDS};
use crate::text::Text;
use serde_json::{Map, Value};
use std::collections::HashMap;
use std::path::Path;
use tenths::{Formula, Units};

type Line = Map<String, Value>;

/// The examples by the names of their formulas.
pub(crate) struct Examples(HashMap<String, Line>);

impl Examples {
    /// Of the lines of a formula the best seen, and among these the first that is printed without a slip.
    pub(crate) fn read(root: &Path) -> Result<Examples, Box<dyn std::error::Error>> {
        let mut examples: HashMap<String, Line> = HashMap::new();
        for (at, line) in evidence::lines(root)? {
            let name = line.get("formula").and_then(Value::as_str).ok_or_else(|| format!("{at}: unclear"))?;
            match examples.get(name) {
                Some(best) if rank(best) <= rank(&line) => {}
                _ => _ = examples.insert(name.to_string(), line),
            }
        }
        Ok(Examples(examples))
    }

    /// `Example in metric units: diameter 50 mm, spindle_speed 700 rev/min → surface_speed 110 m/min.`, and its source.
    pub(crate) fn of(&self, formula: &Formula) -> Text {
        let line = self.0.get(formula.name).ok_or_else(|| format!("{} has no figure", formula.name))?;
        example(formula, line).ok_or_else(|| format!("the figure of {} is unclear", formula.name).into())
    }
}

/// The less, the better: how it was seen, then whether a figure needs an excuse, and whether an input is long to read.
fn rank(line: &Line) -> (usize, bool, bool) {
    let kind = text(line, "seen").and_then(evidence::kind_of).unwrap_or(KINDS.len());
    let results = line.get("results").and_then(Value::as_object);
    let inputs = line.get("arguments").and_then(Value::as_object);
    (
        kind,
        results.is_none_or(|results| results.values().any(Value::is_object)),
        inputs.is_none_or(|inputs| inputs.values().any(|input| input.to_string().len() > 9)),
    )
}

fn example(formula: &Formula, line: &Line) -> Option<String> {
    let units = Units::ALL.into_iter().find(|units| Some(units.name()) == text(line, "units"))?;
    let (given, results) = (line.get("arguments")?.as_object()?, line.get("results")?.as_object()?);
    let mut inputs = vec![];
    for argument in formula.arguments {
        if let Some(value) = given.get(argument.name) {
            inputs.push(reading(argument.name, &value.as_f64()?.to_string(), argument.unit(units).label));
        }
    }
    let mut outputs = vec![];
    for (k, output) in formula.outputs.iter().enumerate() {
        let name = formula.output_name(k);
        let Some(figure) = results.get(name) else { continue };
        let printed = figure.as_str().or_else(|| text(figure.as_object()?, "value"))?;
        let mut told = reading(name, printed, output.kind.unit(units).label);
        if let Some(figure) = figure.as_object() {
            told += &format!(" (within {}: {})", text(figure, "within")?, text(figure, "why")?);
        }
        outputs.push(told);
    }
    let note = text(line, "note").map_or(String::new(), |note| format!(" ({note})"));
    Some(format!(
        "Example in {} units: {} → {}{note}. {}: {}.",
        units.name(),
        inputs.join(", "),
        outputs.join(", "),
        capital(text(line, "seen")?),
        text(line, "source")?.trim_end_matches('.'),
    ))
}

fn reading(name: &str, number: &str, unit: &str) -> String {
    let space = if matches!(unit, "" | "°") { "" } else { " " };
    let zero = if number.starts_with('.') { "0" } else { "" };
    format!("`{name}` {zero}{number}{space}{unit}")
}

/// How a figure was seen, as a reader would say it.
fn capital(seen: &str) -> String {
    match seen {
        "print" => "From print".into(),
        "memory" => "From memory".into(),
        other => other[..1].to_uppercase() + &other[1..],
    }
}

fn text<'a>(line: &'a Line, key: &str) -> Option<&'a str> {
    line.get(key)?.as_str()
}
