//! Numbers in another unit than the one asked for: the rows of `tests/unit_slips.csv` as checks in C.
use crate::c_numbers::{list, place};
use crate::evidence;
use crate::text::Text;
use serde_json::{Map, Value};
use std::path::Path;
use tenths::{Formula, Units};

/// A check for each row, within a published row of its formula.
pub(crate) fn program(root: &Path) -> Text {
    let lines = evidence::lines(root)?;
    let slips = std::fs::read_to_string(root.join("tests/unit_slips.csv"))?;
    let mut text = String::from("#include \"calls.h\"\n\nint main(void) {\n");
    for (number, row) in slips.lines().enumerate().skip(1) {
        text += &slip(row, number + 1, &lines).ok_or_else(|| {
            format!("unit_slips.csv:{}: unclear, or no published row of its formula", number + 1)
        })?;
    }
    Ok(text + "    return finish();\n}\n")
}

fn slip(row: &str, number: usize, lines: &[(String, Map<String, Value>)]) -> Option<String> {
    let &[name, units, argument, value, meant, reading] = &row.split(',').collect::<Vec<_>>()[..] else {
        return None;
    };
    let (formula, units) = (tenths::find(name)?, Units::parse(units).ok()?);
    let at = formula.arguments.iter().position(|known| known.name == argument)?;
    let value: f64 = value.parse().ok()?;
    let x = lines.iter().find_map(|(_, line)| {
        let mut x = published(formula, units, line)?;
        x[at] = value;
        formula.check(units, &x).is_ok().then_some(x)
    })?;
    let (index, side) = (place(name)?, units as usize);
    Some(format!(
        "    {{ static const uint64_t x[] = {{{}}}; slip(\"unit_slips.csv:{number}\", &formulas[{index}], {side}, x, {at}, \
         \"{argument} is \", \": did you mean {meant}, which is {reading}?\\n\"); }}\n",
        list(&x)
    ))
}

/// The arguments of a published row in the units of a side.
fn published(formula: &Formula, units: Units, line: &Map<String, Value>) -> Option<Vec<f64>> {
    if line.get("formula")?.as_str()? != formula.name {
        return None;
    }
    let from = Units::parse(line.get("units")?.as_str()?).ok()?;
    let given = line.get("arguments")?.as_object()?;
    let number = |argument: &tenths::formula::Argument| match given.get(argument.name) {
        Some(value) => {
            argument.kind.read(format!("{value} {}", argument.unit(from).label).trim(), units).ok()
        }
        None => argument.default(units),
    };
    formula.arguments.iter().map(number).collect()
}
