//! Starting values: speeds and feeds by material, operation, tool and diameter.
use crate::error::value_error;
use crate::object::rows_in;
use crate::size::{length_of, units_of};
use pyo3::prelude::*;
use tenths::Units;
use tenths::quantity::Length;
use tenths::starting_values::{self as table, CutOperation, ToolMaterial};

/// Speeds and feeds to start from, the closest first, each with its source and how it was seen.
///
/// `material` is a name of the table of materials, or a family such as 'aluminium'. `operation` is 'turning', 'face_milling',
/// 'end_milling', 'drilling', 'reaming', 'tapping', 'sawing' or 'knurling', or the kind of an operation of a plan. `tool` is
/// 'high_speed_steel' ('HSS'), 'carbide' or 'bimetal'. `diameter` is that of the tool: text, a Size, or a number in `units`,
/// 'mm' or 'in', which are also those of the result. These are starting values: the data of the makers of tool and machine come
/// first.
///
///     >>> first = tenths.starting_values("SAE 1045", "turning", tool="carbide", units="in")[0]
///     >>> round(first.speed_lower), round(first.speed_upper), first.source
///     (415, 785, 'The Ferrous Metals Data Book, chapter 9, Table 9-3; depth 1.0 to 7.6 mm, high speed goes with low feed')
#[pyfunction]
#[pyo3(signature = (material, operation, *, tool=None, diameter=None, units="mm"))]
pub fn starting_values<'py>(
    py: Python<'py>,
    material: &str,
    operation: &str,
    tool: Option<&str>,
    diameter: Option<&Bound<'py, PyAny>>,
    units: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let operation = CutOperation::parse(operation).map_err(value_error)?;
    let tool = tool.map(ToolMaterial::parse).transpose().map_err(value_error)?;
    let size =
        diameter.map(|given| length_of("starting_values", "diameter", given, Some(units))).transpose()?;
    let length = size.map(|size| Length::millimetres(size.to_float(Units::Metric)));
    let rows = table::starting_values(material, operation, tool, length).map_err(value_error)?;
    rows_in(py, &rows, units)
}
