//! The Python interface of `tenths`, made from the records at import.
mod allocation;
mod array;
mod best_cut;
mod capability;
mod control_chart;
mod cutting;
mod cutting_plan;
mod decision;
mod describe;
mod distribution;
mod error;
mod exact_size;
mod first_article;
mod fit;
mod form;
mod formula;
mod gauge;
mod gauge_study;
mod geared_head;
mod general_tolerance;
mod input;
mod knurl;
mod material;
mod model;
mod number;
mod object;
mod options;
mod plan;
mod position;
mod process;
mod propagate;
mod sample;
mod sampling_plan;
mod size;
mod solve;
mod spread;
mod stack;
mod taper;
mod thread;
mod tolerance_chart;
mod ufunc;
mod uncertainty;
mod vector_loop;
mod vectorcall;
mod watch;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};

/// Puts every formula into a namespace.
#[pyfunction]
fn _fill(py: Python<'_>, namespace: &Bound<'_, PyDict>, units: &str) -> PyResult<()> {
    for record in tenths::formulas() {
        let callable = vectorcall::callable(py, record, size::units_of(units)?)?;
        namespace.set_item(PyString::intern(py, record.name), callable)?;
    }
    Ok(())
}

#[pymodule]
fn _tenths(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("__version__", env!("CARGO_PKG_VERSION"))?;
    module.add("DomainError", error::prepare(module.py())?)?;
    module.add_class::<formula::PyFormula>()?;
    module.add_class::<number::Wanted>()?;
    module.add_class::<size::PySize>()?;
    module.add_class::<size::PyLimits>()?;
    module.add_class::<object::PyObject>()?;
    module.add_class::<allocation::PyAllocation>()?;
    module.add_class::<cutting::PyTaylorFit>()?;
    object::add_classes(module)?;
    module.add_class::<material::PyMaterials>()?;
    module.add_function(wrap_pyfunction!(fit::iso_limits, module)?)?;
    module.add_function(wrap_pyfunction!(fit::reamer_limits, module)?)?;
    module.add_function(wrap_pyfunction!(fit::iso_classes, module)?)?;
    module.add_function(wrap_pyfunction!(fit::select_fits, module)?)?;
    module.add_function(wrap_pyfunction!(fit::_iso_limits, module)?)?;
    module.add_function(wrap_pyfunction!(fit::_joint_findings, module)?)?;
    module.add_class::<cutting::PyMachine>()?;
    module.add_class::<distribution::PyDistribution>()?;
    module.add_class::<input::PyInput>()?;
    module.add_class::<stack::PyStack>()?;
    module.add_class::<allocation::PyCostCurve>()?;
    module.add_function(wrap_pyfunction!(allocation::_allocation, module)?)?;
    module.add_class::<vector_loop::PyVectorLoop>()?;
    module.add_class::<propagate::PyPropagation>()?;
    module.add_class::<sample::PySample>()?;
    module.add_class::<sample::PyBlocks>()?;
    module.add_function(wrap_pyfunction!(sample::fold_blocks, module)?)?;
    module.add_function(wrap_pyfunction!(input::_varying, module)?)?;
    module.add_function(wrap_pyfunction!(propagate::_propagate, module)?)?;
    module.add_class::<plan::PyPlan>()?;
    module.add_class::<plan::PySheet>()?;
    module.add_function(wrap_pyfunction!(form::_fit_form, module)?)?;
    module.add_function(wrap_pyfunction!(form::_hole_position, module)?)?;
    module.add_class::<first_article::PyReadingTable>()?;
    module.add_function(wrap_pyfunction!(first_article::_first_article, module)?)?;
    module.add_function(wrap_pyfunction!(first_article::_readings_from_csv, module)?)?;
    module.add_class::<tolerance_chart::PyOperationChart>()?;
    module.add_function(wrap_pyfunction!(gauge::plug_gauge, module)?)?;
    module.add_function(wrap_pyfunction!(gauge::ring_gauge, module)?)?;
    module.add_function(wrap_pyfunction!(gauge::length_gauge, module)?)?;
    module.add_function(wrap_pyfunction!(gauge::snap_gauge, module)?)?;
    module.add_function(wrap_pyfunction!(gauge::flush_pin_gauge, module)?)?;
    module.add_function(wrap_pyfunction!(gauge::check_master, module)?)?;
    module.add_function(wrap_pyfunction!(general_tolerance::general_tolerance, module)?)?;
    module.add_function(wrap_pyfunction!(cutting_plan::_cutting_plan, module)?)?;
    module.add_function(wrap_pyfunction!(capability::_capability, module)?)?;
    module.add_function(wrap_pyfunction!(process::_tool_drift, module)?)?;
    module.add_function(wrap_pyfunction!(control_chart::_control_chart, module)?)?;
    module.add_function(wrap_pyfunction!(control_chart::chart_constants, module)?)?;
    module.add_function(wrap_pyfunction!(control_chart::_average_run_length, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_gauge_study, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_gauge_studies, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_gauge_bias, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_gauge_linearity, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_regression, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_gauge_stability, module)?)?;
    module.add_function(wrap_pyfunction!(gauge_study::_attribute_agreement, module)?)?;
    module.add_function(wrap_pyfunction!(size::_good_readings, module)?)?;
    module.add_function(wrap_pyfunction!(geared_head::_lower_spindle_step, module)?)?;
    module.add_function(wrap_pyfunction!(geared_head::_wanted_speeds, module)?)?;
    module.add_function(wrap_pyfunction!(cutting::_wanted_by_name, module)?)?;
    module.add_function(wrap_pyfunction!(cutting::_fit_taylor, module)?)?;
    module.add_function(wrap_pyfunction!(cutting::_limit_to_machine, module)?)?;
    module.add_function(wrap_pyfunction!(best_cut::_best_cut, module)?)?;
    module.add_function(wrap_pyfunction!(best_cut::_best_cut_by, module)?)?;
    module.add_function(wrap_pyfunction!(best_cut::_best_cuts, module)?)?;
    module.add_function(wrap_pyfunction!(best_cut::_best_cut_spread, module)?)?;
    module.add_function(wrap_pyfunction!(best_cut::_best_passes, module)?)?;
    module.add_function(wrap_pyfunction!(solve::_solve, module)?)?;
    module.add_function(wrap_pyfunction!(solve::_solver, module)?)?;
    module.add_function(wrap_pyfunction!(solve::_wanted_result, module)?)?;
    module.add_function(wrap_pyfunction!(describe::_names, module)?)?;
    module.add_function(wrap_pyfunction!(describe::_describe, module)?)?;
    module.add_function(wrap_pyfunction!(size::_wanted_length, module)?)?;
    module.add_function(wrap_pyfunction!(number::_own_decimals, module)?)?;
    module.add_function(wrap_pyfunction!(material::_iso_group, module)?)?;
    module.add_function(wrap_pyfunction!(material::_material_properties, module)?)?;
    module.add_function(wrap_pyfunction!(sampling_plan::sampling_plan, module)?)?;
    module.add_function(wrap_pyfunction!(sampling_plan::staged_plan, module)?)?;
    module.add_function(wrap_pyfunction!(sampling_plan::zero_acceptance_plan, module)?)?;
    module.add_function(wrap_pyfunction!(sampling_plan::two_point_plan, module)?)?;
    module.add_function(wrap_pyfunction!(sampling_plan::variables_plan, module)?)?;
    module.add_function(wrap_pyfunction!(uncertainty::uncertainty_budget, module)?)?;
    module.add_function(wrap_pyfunction!(options::_options, module)?)?;
    module.add_function(wrap_pyfunction!(_fill, module)?)
}
