//! The Python interface of `tenths`, made from the records at import.
mod allocation;
mod array;
mod best_cut;
mod capability;
mod chatter;
mod clamping;
mod control_chart;
mod cost;
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
mod function;
#[rustfmt::skip]
mod functions;
mod gauge;
mod gauge_study;
mod geared_head;
mod given;
mod input;
mod knurl;
mod locating;
mod material;
mod memory;
mod model;
mod number;
mod object;
mod options;
mod path_feeds;
mod plain;
mod plan;
mod position;
mod process;
mod propagate;
mod quote;
mod sample;
mod sampling_plan;
mod size;
mod solve;
mod spread;
mod stack;
mod starting_values;
mod stock;
mod taper;
mod thread;
mod tolerance_chart;
mod ufunc;
mod uncertainty;
mod vector_loop;
mod vectorcall;
mod verdict;
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

/// Adds functions to the module, file by file.
macro_rules! add_functions {
    ($module:ident: $($file:ident: $($name:ident)*;)*) => {
        $($($module.add_function(wrap_pyfunction!($file::$name, $module)?)?;)*)*
    };
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
    module.add_class::<cutting::PyMachine>()?;
    module.add_class::<distribution::PyDistribution>()?;
    module.add_class::<input::PyInput>()?;
    module.add_class::<stack::PyStack>()?;
    module.add_class::<allocation::PyCostCurve>()?;
    module.add_class::<vector_loop::PyVectorLoop>()?;
    module.add_class::<propagate::PyPropagation>()?;
    module.add_class::<sample::PySample>()?;
    module.add_class::<sample::PyBlocks>()?;
    module.add_class::<plan::PyPlan>()?;
    module.add_class::<plan::PySheet>()?;
    module.add_class::<first_article::PyReadingTable>()?;
    module.add_class::<tolerance_chart::PyOperationChart>()?;
    add_functions!(module:
        allocation: _allocation;
        best_cut: _best_cut _best_cut_by _best_cuts _best_cut_spread _best_passes;
        capability: _capability;
        chatter: _chatter_wanted _side_cut_angles _vibration_mode _tool_mode _stability
            _stability_from_response;
        clamping: _clamp_formula _clamp_safety;
        control_chart: _control_chart _takes_subgroups _average_run_length;
        cost: round_money split_money start_quantities discounted_order quantity_breaks;
        cutting: _wanted_by_name _fit_taylor _limit_to_machine;
        cutting_plan: _cutting_plan _shared_cutting_plan;
        decision: _decision_edges;
        describe: _names _describe;
        first_article: _first_article _readings_from_csv;
        fit: iso_limits iso_classes select_fits _iso_limits _joint_findings;
        form: _fit_form _hole_position;
        gauge: plug_gauge ring_gauge length_gauge snap_gauge flush_pin_gauge;
        gauge_study: _gauge_study _gauge_studies _gauge_linearity _gauge_stability _attribute_agreement;
        geared_head: _lower_spindle_step _wanted_speeds;
        given: _whole;
        input: _varying;
        locating: locating line_contact plane_contact two_pins vee_block;
        material: _iso_group _material_properties;
        memory: release_memory;
        number: _own_decimals;
        options: _options;
        path_feeds: _path_wanted _feed_bounds _path_feeds;
        plan: _plan_from_json _draft_plan;
        process: _tool_drift;
        propagate: _propagate;
        sample: fold_blocks;
        sampling_plan: staged_plan zero_acceptance_plan;
        size: _wanted_length;
        solve: _solve _solver _wanted_result;
        starting_values: starting_values;
        stock: _bar_mass_formula bars_to_buy bar_sizes next_bar_size machine_load make_or_buy
            _compare_hardness;
        uncertainty: uncertainty_budget;
        verdict: _accept_rows _good_readings _limits_of_rows _within;
    );
    functions::add(module)?;
    module.add_function(wrap_pyfunction!(_fill, module)?)?;
    publish(module)
}

/// Lists what is public, which is public in the package too.
fn publish(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let mut names: Vec<String> = module.index()?.extract()?;
    names.retain(|name| !name.starts_with('_') || name == "__version__");
    names.sort();
    names.dedup();
    module.setattr("__all__", names)
}
