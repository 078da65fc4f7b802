//! A record as plain data for both sides, from which Python makes tables and forms.
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::formula::{Argument, Output, StatedRange};
use tenths::quantity::Kind;
use tenths::registry::find_or_nearest;
use tenths::{Formula, Units};

/// The names of all formulas, those of one topic together.
#[pyfunction]
pub fn _names() -> Vec<&'static str> {
    tenths::formulas().map(|formula| formula.name).collect()
}

/// What is known of a formula: strings, numbers, lists and dicts.
#[pyfunction]
pub fn _describe<'py>(py: Python<'py>, name: &str) -> PyResult<Bound<'py, PyDict>> {
    let formula = find_or_nearest(name).map_err(|unknown| PyValueError::new_err(unknown.to_string()))?;
    let about = PyDict::new(py);
    about.set_item("name", formula.name)?;
    about.set_item("topic", formula.topic())?;
    about.set_item("summary", formula.summary())?;
    about.set_item("doc", formula.doc)?;
    about.set_item("caution", formula.caution)?;
    about.set_item("source", formula.source)?;
    about.set_item("rules", formula.rules.iter().map(|rule| rule.text).collect::<Vec<_>>())?;
    let arguments = formula.arguments.iter().enumerate();
    let arguments: PyResult<Vec<_>> = arguments.map(|(at, a)| argument(py, formula, at, a)).collect();
    about.set_item("arguments", arguments?)?;
    let results = formula.outputs.iter().enumerate();
    let results: PyResult<Vec<_>> = results.map(|(at, o)| result(py, formula.output_name(at), o)).collect();
    about.set_item("results", results?)?;
    Ok(about)
}

fn argument<'py>(
    py: Python<'py>,
    formula: &'static Formula,
    at: usize,
    argument: &Argument,
) -> PyResult<Bound<'py, PyDict>> {
    let about = PyDict::new(py);
    about.set_item("name", argument.name)?;
    about.set_item("meaning", argument.doc.replace('\n', " "))?;
    about.set_item("quantity", argument.kind.name)?;
    about.set_item("whole", argument.side(Units::Inch).domain.is_whole())?;
    about.set_item("exact", argument.exact)?;
    about.set_item("solvable_from", solvable_from(formula, at))?;
    for units in Units::ALL {
        let (unit, side, told) = (argument.unit(units), argument.side(units), PyDict::new(py));
        told.set_item("unit", unit.label)?;
        told.set_item("default", argument.default(units))?;
        told.set_item("must_be", argument.need(units))?;
        for (name, end) in [("low", side.domain.low()), ("high", side.domain.high())] {
            told.set_item(name, end.map(|(base, _)| unit.from_base(base)))?;
            told.set_item(format!("{name}_included"), end.is_some_and(|(_, closed)| closed))?;
        }
        stated(&told, "stated", &side.range, argument.kind, units)?;
        stated(&told, "usual", &side.usual, argument.kind, units)?;
        about.set_item(units.name(), told)?;
    }
    Ok(about)
}

fn result<'py>(py: Python<'py>, name: &str, output: &Output) -> PyResult<Bound<'py, PyDict>> {
    let about = PyDict::new(py);
    about.set_item("name", name)?;
    about.set_item("meaning", output.doc.replace('\n', " "))?;
    about.set_item("quantity", output.kind.name)?;
    for units in Units::ALL {
        let told = PyDict::new(py);
        told.set_item("unit", output.kind.unit(units).label)?;
        stated(&told, "stated", output.range(units), output.kind, units)?;
        about.set_item(units.name(), told)?;
    }
    Ok(about)
}

/// A range, in words and by its ends.
fn stated(
    told: &Bound<'_, PyDict>,
    name: &str,
    range: &StatedRange,
    kind: &Kind,
    units: Units,
) -> PyResult<()> {
    let end = |base: f64| base.is_finite().then(|| kind.unit(units).from_base(base));
    told.set_item(format!("{name}_range"), range.text(kind, units))?;
    told.set_item(format!("{name}_low"), end(range.0))?;
    told.set_item(format!("{name}_high"), end(range.1))
}

/// The results from which an argument can be solved for.
fn solvable_from(formula: &'static Formula, argument: usize) -> Vec<&'static str> {
    let outputs = (0..formula.outputs.len()).filter(|&k| formula.why_not_solvable(argument, k).is_none());
    outputs.map(|k| formula.output_name(k)).collect()
}
