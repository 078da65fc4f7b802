//! The stacks of `tests/published/stacks.json` as tables for `tests/c/stack.c`.
use crate::text::Text;
use serde_json::Value;
use std::path::Path;

const DECLARATIONS: &str = "#include \"tenths.h\"

struct part {
    const char *name;
    double nominal, plus, minus, sensitivity, share;
    int32_t law;
    double first, second;
};

/* A figure, and for which part or limit it is. */
struct figure {
    const char *name;
    double at, value;
};

struct published_stack {
    const char *sort, *name;
    tenths_units units;
    size_t part_count, figure_count;
    const struct part *parts;
    const struct figure *figures;
};

";

pub(crate) fn tables(root: &Path) -> Text {
    let cases: Vec<Value> =
        serde_json::from_str(&std::fs::read_to_string(root.join("tests/published/stacks.json"))?)?;
    let (mut text, mut table) = (DECLARATIONS.to_string(), String::new());
    for (k, case) in cases.iter().enumerate() {
        let unclear = || format!("stacks.json: case {k} is unclear");
        let sort = ["stack", "law", "function"].into_iter().find(|sort| case[*sort].is_string());
        let (sort, parts) = sort.zip(parts(case)).ok_or_else(unclear)?;
        let figures = figures(case).ok_or_else(unclear)?;
        let units = if case["units"] == "inch" { "TENTHS_INCH" } else { "TENTHS_METRIC" };
        text += &format!("static const struct part parts_{k}[] = {{\n{}}};\n", parts.concat());
        text += &format!("static const struct figure figures_{k}[] = {{\n{}}};\n", figures.concat());
        table += &format!(
            "    {{\"{sort}\", {}, {units}, {}, {}, parts_{k}, figures_{k}}},\n",
            case[sort],
            parts.len(),
            figures.len()
        );
    }
    Ok(format!("{text}\nstatic const struct published_stack published_stacks[] = {{\n{table}}};\n"))
}

fn parts(case: &Value) -> Option<Vec<String>> {
    let parts = case["contributors"].as_array().or(case["inputs"].as_array())?;
    let part = |(k, part): (usize, &Value)| {
        let number = |field: &str| part[field].as_f64();
        let (law, first, second) = match case["cp"].as_f64() {
            Some(cp) => ("TENTHS_NORMAL", cp, case["shift"].as_f64()?),
            None => law(&part["distribution"])?,
        };
        Some(format!(
            "    {{{}, {:e}, {:e}, {:e}, {:e}, {:e}, {law}, {first:e}, {second:e}}},\n",
            part["name"],
            number("nominal")?,
            number("plus")?,
            number("minus")?,
            number("sensitivity").unwrap_or(1.0),
            case["shares"][k].as_f64().unwrap_or(0.0),
        ))
    };
    parts.iter().enumerate().map(part).collect()
}

/// The constant of a law and its numbers.
fn law(value: &Value) -> Option<(&'static str, f64, f64)> {
    let (name, numbers) = match value {
        Value::Null => ("normal", &Value::Null),
        Value::String(name) => (name.as_str(), &Value::Null),
        law => law.as_object()?.iter().next().map(|(name, numbers)| (name.as_str(), numbers))?,
    };
    let pair = || Some((numbers[0].as_f64()?, numbers[1].as_f64()?));
    match name {
        "normal" => Some(("TENTHS_NORMAL", 1.0, 0.0)),
        "uniform" => Some(("TENTHS_UNIFORM", 0.0, 0.0)),
        "triangular" => Some(("TENTHS_TRIANGULAR", numbers.as_f64().unwrap_or(0.0), 0.0)),
        "half_ellipse" => Some(("TENTHS_BETA", 1.5, 1.5)),
        "truncated_normal" => pair().map(|(cp, shift)| ("TENTHS_TRUNCATED_NORMAL", cp, shift)),
        "process" => pair().map(|(mean, sigma)| ("TENTHS_PROCESS", mean, sigma)),
        _ => None,
    }
}

/// One for each number among the results; the limit of a case is told beside its share.
fn figures(case: &Value) -> Option<Vec<String>> {
    let mut figures = vec![];
    let mut figure =
        |name: &str, at: f64, value: f64| figures.push(format!("    {{\"{name}\", {at:e}, {value:e}}},\n"));
    let limit = case["lower_limit"].as_f64().unwrap_or(0.0);
    for (name, value) in case["results"].as_object()? {
        match value {
            Value::Array(values) => {
                for (k, value) in values.iter().enumerate() {
                    figure(name, k as f64, value.as_f64()?);
                }
            }
            Value::Object(share) => figure(name, share["limit"].as_f64()?, share["fraction"].as_f64()?),
            Value::String(exact) => figure(name, limit, exact.parse().ok()?),
            value => figure(name, limit, value.as_f64()?),
        }
    }
    Some(figures)
}
