//! The generated C tests: published values, parity with Rust, slips of units, and faults, over one table of calls.
use crate::c_numbers::{list, place};
use crate::parity::rows;
use crate::text::{Outcome, Text};
use crate::{c, evidence, faults, stacks, unit_slips};
use serde_json::{Map, Value};
use std::path::Path;
use tenths::{Error, Formula, Units};

pub(crate) fn write(root: &Path, directory: &Path) -> Outcome {
    std::fs::create_dir_all(directory)?;
    std::fs::write(directory.join("calls.h"), calls())?;
    std::fs::write(directory.join("published.c"), published(root)?)?;
    std::fs::write(directory.join("parity.c"), parity())?;
    std::fs::write(directory.join("unit_slips.c"), unit_slips::program(root)?)?;
    std::fs::write(directory.join("stacks.h"), stacks::tables(root)?)?;
    Ok(std::fs::write(directory.join("faults.c"), faults::program(root)?)?)
}

/// A table of all formulas behind one signature: `given` tells by bit which arguments to set.
fn calls() -> String {
    let (mut functions, mut table) =
        (String::from("#include \"rows.h\"\n"), String::from("static const struct formula formulas[] = {\n"));
    for formula in tenths::formulas() {
        functions += &call(formula);
        let (name, inputs, outputs) = (formula.name, formula.arguments.len(), formula.outputs.len());
        let advice = u8::from(c::is_structured(formula));
        table += &format!("    {{\"{name}\", {inputs}, {outputs}, call_{name}, {advice}}},\n");
    }
    format!("{functions}\n{table}}};\n")
}

fn call(formula: &Formula) -> String {
    let name = formula.name;
    let head = format!(
        "\nstatic tenths_status call_{name}(tenths_units units, const double *x, uint32_t given, double *y, \
         uint32_t *advice) {{\n"
    );
    if !c::is_structured(formula) {
        let numbers: Vec<_> = (0..formula.arguments.len()).map(|k| format!("x[{k}]")).collect();
        let numbers = numbers.join(", ");
        return format!(
            "{head}    (void)given;\n    (void)advice;\n    return tenths_{name}(units, {numbers}, y);\n}}\n"
        );
    }
    let mut body = format!(
        "    tenths_{name}_input in;\n    in.struct_size = sizeof in;\n    (void)tenths_{name}_init(units, &in);\n"
    );
    for (k, argument) in formula.arguments.iter().enumerate() {
        body += &format!("    if (given >> {k} & 1) in.{} = x[{k}];\n", argument.name);
    }
    if formula.outputs.len() == 1 {
        return format!("{head}{body}    return tenths_{name}(units, &in, y, advice);\n}}\n");
    }
    body = format!(
        "    tenths_{name}_output out;\n    tenths_status status;\n{body}    out.struct_size = sizeof out;\n"
    );
    body += &format!("    status = tenths_{name}(units, &in, &out, advice);\n");
    for (k, output) in formula.outputs.iter().enumerate() {
        body += &format!("    y[{k}] = out.{};\n", output.name);
    }
    format!("{head}{body}    return status;\n}}\n")
}

fn published(root: &Path) -> Text {
    let mut text = String::from("#include \"calls.h\"\n\nint main(void) {\n");
    for (at, line) in evidence::lines(root)? {
        text += &published_line(&line, &at).ok_or_else(|| format!("{at}: unclear"))?;
    }
    Ok(text + "    return finish();\n}\n")
}

/// One check for each result of a line.
fn published_line(line: &Map<String, Value>, at: &str) -> Option<String> {
    let name = line.get("formula")?.as_str()?;
    let (index, formula) = (place(name)?, tenths::find(name)?);
    let units = Units::ALL.into_iter().position(|units| Some(units.name()) == line["units"].as_str())?;
    let arguments = line.get("arguments")?.as_object()?;
    if arguments.keys().any(|key| formula.arguments.iter().all(|argument| argument.name != key)) {
        return None;
    }
    let (mut given, mut x) = (0_u32, vec![]);
    for (k, argument) in formula.arguments.iter().enumerate() {
        let value = arguments.get(argument.name);
        given |= u32::from(value.is_some()) << k;
        x.push(value.map_or(Some(f64::NAN), Value::as_f64)?);
    }
    let mut text = String::new();
    for (key, figure) in line.get("results")?.as_object()? {
        let output = (0..formula.outputs.len()).find(|&k| formula.output_name(k) == key)?;
        let (value, within) = evidence::figure_of(figure)?;
        text += &format!(
            "    {{ static const uint64_t x[] = {{{}}}; published(\"{at}\", &formulas[{index}], {units}, {given}u, x, {output}, \
             {value:e}, {within:e}); }}\n",
            list(&x)
        );
    }
    Some(text)
}

/// All rows as data: as code they would take the compiler minutes.
fn parity() -> String {
    let (mut numbers, mut table, mut at) = (String::new(), String::new(), 0);
    for row in rows() {
        let status = match &row.answer {
            Ok(_) => "TENTHS_OK",
            Err(Error::Argument { .. }) => "TENTHS_ARGUMENT",
            Err(Error::Rule { .. }) => "TENTHS_RULE",
            Err(Error::NoAnswer { .. }) => "TENTHS_NO_ANSWER",
            Err(_) => "TENTHS_INTERNAL",
        };
        let refused = (vec![f64::NAN; row.formula.outputs.len()], 0);
        let (results, advice) = row.answer.as_ref().unwrap_or(&refused);
        let (formula, units) = (place(row.formula.name).unwrap_or_default(), row.units as usize);
        numbers += &format!("    {}, {},\n", list(&row.arguments), list(results));
        table +=
            &format!("    {{{formula}, {units}, {status}, {advice}u, {at}, {}}},\n", row.arguments.len());
        at += row.arguments.len() + results.len();
    }
    format!(
        "#include \"calls.h\"\n\nstatic const uint64_t numbers[] = {{\n{numbers}}};\n\n\
         static const struct {{\n    size_t formula;\n    tenths_units units;\n    tenths_status status;\n    \
         uint32_t advice;\n    size_t at, count;\n}} rows[] = {{\n{table}}};\n\n\
         int main(void) {{\n    size_t k;\n    for (k = 0; k < sizeof rows / sizeof *rows; k++) {{\n        \
         const uint64_t *x = numbers + rows[k].at;\n        char place[32];\n        \
         sprintf(place, \"row %lu\", (unsigned long)k + 1);\n        \
         parity(place, &formulas[rows[k].formula], rows[k].units, x, rows[k].status, x + rows[k].count,\n               \
         rows[k].advice);\n    }}\n    return finish();\n}}\n"
    )
}
