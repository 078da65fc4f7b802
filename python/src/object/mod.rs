//! Objects of the core in Python: one base class, and a class for each record.
mod field;
mod frame;
mod html;
mod row;
mod shown;
mod telling;
mod value;

use crate::best_cut::PyBestCut;
use crate::chatter::PyStability;
use crate::cutting_plan::PyCuttingPlan;
use crate::decision::PyDecision;
use crate::error::value_error;
use crate::first_article::PyFirstArticle;
use crate::fit::PyFit;
use crate::knurl::PyKnurl;
use crate::locating::PyLocating;
use crate::position::PyPositionCheck;
use crate::quote::PyPriceList;
use crate::sampling_plan::{PySamplingPlan, PySwitching, PyVariablesPlan};
use crate::size::units_of;
use crate::spread::PySpread;
use crate::taper::PyStandardTaper;
use crate::thread::PyThread;
use crate::tolerance_chart::PyChartResult;
use crate::uncertainty::PyEstimate;
use pyo3::PyClass;
use pyo3::exceptions::PyTypeError;
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple, PyType};
use shown::Shown;
use std::hash::{BuildHasher, BuildHasherDefault, DefaultHasher};
use std::sync::{Arc, Mutex, PoisonError};
use telling::Telling;
use tenths::Units;
use tenths::object::{FieldKind, Object, ObjectRecord, Restored, Told, Value};
pub use value::decimal;

/// What every object has: its fields as attributes, and what follows from them.
///
/// Objects cannot be changed. They compare and hash by their fields, can be copied and pickled, and show themselves as
/// a table in a notebook.
#[pyclass(frozen, subclass, name = "Object", module = "tenths")]
pub struct PyObject {
    told: Telling,
    /// The units of its quantities, of an object of a namespace.
    units: Option<Units>,
}

/// An object on its way to the class of its record.
#[pyclass(frozen, name = "_Made", module = "tenths")]
struct Made(Mutex<Option<PyObject>>);

/// A class of this extension that has methods beside its fields, and holds the object of the core for them.
pub trait Holds: PyClass<BaseType = PyObject> {
    /// What it holds.
    type Held: Restored;
    /// One that holds it.
    fn hold(held: Self::Held) -> Self;
}

/// Makes an instance of a class with methods.
type Make = for<'py> fn(Python<'py>, PyObject) -> PyResult<Bound<'py, PyAny>>;

/// The classes with methods, each with what it holds and what makes one of it. All others are made of their records.
macro_rules! with_methods {
    ($($class:ty: $held:ty = $hold:expr;)*) => {
        $(impl Holds for $class {
            type Held = $held;

            fn hold(held: $held) -> Self {
                $hold(held)
            }
        })*

        /// What makes them, by the names of their records.
        const WITH_METHODS: &[(&str, Make)] = &[$((<$held>::RECORD.name, make::<$class>)),*];

        fn add_classes_with_methods(module: &Bound<'_, PyModule>) -> PyResult<()> {
            $(module.add_class::<$class>()?;)*
            Ok(())
        }
    };
}

with_methods! {
    PyBestCut: tenths::cutting::best_cut::BestCut = PyBestCut;
    PyChartResult: tenths::ChartResult = PyChartResult;
    PyCuttingPlan: tenths::stock::CuttingPlan = PyCuttingPlan;
    PyDecision: tenths::Decision = PyDecision;
    PyEstimate: tenths::inspect::uncertainty::Estimate = PyEstimate;
    PyFirstArticle: tenths::FirstArticle = PyFirstArticle;
    PyFit: tenths::Fit = PyFit;
    PyKnurl: tenths::Knurl = PyKnurl;
    PyLocating: tenths::workholding::Locating = PyLocating;
    PyPriceList: tenths::plan::quote::PriceList = PyPriceList;
    PyPositionCheck: tenths::PositionCheck = |_| PyPositionCheck;
    PySamplingPlan: tenths::inspect::sampling::SamplingPlan = PySamplingPlan;
    PySpread: tenths::stack::Spread = PySpread;
    PyStability: tenths::cutting::chatter::Stability = PyStability;
    PyStandardTaper: tenths::StandardTaper = PyStandardTaper;
    PySwitching: tenths::inspect::sampling::Switching = PySwitching;
    PyThread: tenths::Thread = |_| PyThread;
    PyVariablesPlan: tenths::inspect::sampling::VariablesPlan = PyVariablesPlan;
}

fn make<C: Holds>(py: Python<'_>, object: PyObject) -> PyResult<Bound<'_, PyAny>> {
    let held: C::Held = object.restored()?;
    let object = PyObject { told: Telling::Now(held.tell()), ..object };
    Ok(Bound::new(py, PyClassInitializer::from(object).add_subclass(C::hold(held)))?.into_any())
}

/// A new object of a class with methods, for its `__new__`.
pub fn held<C: Holds>(held: C::Held) -> PyClassInitializer<C> {
    PyClassInitializer::from(PyObject::of(&held, None)).add_subclass(C::hold(held))
}

/// An object of the core.
pub fn object<'py>(py: Python<'py>, object: &impl Object) -> PyResult<Bound<'py, PyAny>> {
    instance(py, object.tell(), None)
}

/// An object of the core whose quantities are in the units of a namespace.
pub fn object_in<'py>(py: Python<'py>, object: &impl Object, units: Units) -> PyResult<Bound<'py, PyAny>> {
    instance(py, object.tell(), Some(units))
}

/// The value of a field that stands alone.
pub fn value_of<'py>(py: Python<'py>, kind: &FieldKind, value: &Value) -> PyResult<Bound<'py, PyAny>> {
    value::write(py, kind, value, None)
}

/// Objects of the core, in a list.
pub fn objects<'a, 'py, O: Object + 'a>(
    py: Python<'py>,
    list: impl IntoIterator<Item = &'a O>,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    list.into_iter().map(|one| object(py, one)).collect()
}

/// Many objects of the core of a class without methods, in a list. Each is told when it is first asked for something.
pub fn many_objects<'py, O: Object + Send + Sync + 'static>(
    py: Python<'py>,
    list: Vec<O>,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let (count, list, maker) = (list.len(), Arc::new(list), Maker::of(class_of(py, O::RECORD)?)?);
    (0..count).map(|place| maker.made(Telling::later(list.clone(), place), None)).collect()
}

/// Objects of the core as a list of dicts.
pub fn plain_list<'py, O: Object>(py: Python<'py>, list: &[O]) -> PyResult<Vec<Bound<'py, PyDict>>> {
    list.iter().map(|one| value::to_dict(py, &one.tell(), None)).collect()
}

/// Objects of the core from their objects in Python.
pub fn restored<O: Restored>(list: &[Bound<'_, PyObject>]) -> PyResult<Vec<O>> {
    let one = |object: &Bound<'_, PyObject>| O::restore(&object.get().told).ok_or_else(not_its_values);
    list.iter().map(one).collect()
}

/// A table of objects of the core for a notebook.
pub fn list_page<O: Object>(name: &str, list: &[O], units: Units) -> String {
    let rows: Vec<_> = list.iter().map(O::tell).collect();
    let shown = rows.first().map(|row| Shown::of(row, Some(units), None));
    let rows: Vec<_> = rows.into_iter().map(Value::Object).collect();
    shown.map_or_else(String::new, |shown| html::table(name, O::RECORD, &rows, shown))
}

/// Objects of the core as rows of a table.
pub fn rows<'a, 'py, O: Object + 'a>(
    py: Python<'py>,
    list: impl IntoIterator<Item = &'a O>,
) -> PyResult<Bound<'py, PyAny>> {
    row::rows(py, objects(py, list)?)
}

/// Objects of the core as rows of a table, whose quantities are in the units of a namespace.
pub fn rows_in<'py, O: Object>(py: Python<'py>, list: &[O], units: Units) -> PyResult<Bound<'py, PyAny>> {
    let objects = list.iter().map(|one| object_in(py, one, units));
    row::rows(py, objects.collect::<PyResult<Vec<_>>>()?)
}

fn instance<'py>(py: Python<'py>, told: Told, units: Option<Units>) -> PyResult<Bound<'py, PyAny>> {
    let told = Telling::Now(told);
    match WITH_METHODS.iter().find(|(known, _)| *known == told.record.name) {
        Some((_, make)) => make(py, PyObject { told, units }),
        None => Maker::of(class_of(py, told.record)?)?.made(told, units),
    }
}

fn class_of<'py>(py: Python<'py>, record: &ObjectRecord) -> PyResult<Bound<'py, PyAny>> {
    PyModule::import(py, "tenths._tenths")?.getattr(record.name)
}

/// Makes instances of a class without methods, one after the other.
struct Maker<'py> {
    class: Bound<'py, PyAny>,
    made: Bound<'py, Made>,
    /// The one above, as the class takes it.
    arguments: Bound<'py, PyTuple>,
}

impl<'py> Maker<'py> {
    fn of(class: Bound<'py, PyAny>) -> PyResult<Self> {
        let made = Bound::new(class.py(), Made(Mutex::new(None)))?;
        Ok(Self { arguments: PyTuple::new(class.py(), [&made])?, class, made })
    }

    fn made(&self, told: Telling, units: Option<Units>) -> PyResult<Bound<'py, PyAny>> {
        *self.made.get().0.lock().unwrap_or_else(PoisonError::into_inner) = Some(PyObject { told, units });
        self.class.call1(&self.arguments)
    }
}

/// Puts the class of each record, with its fields, into the module.
pub fn add_classes(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let py = module.py();
    module.add_class::<row::PyRow>()?;
    add_classes_with_methods(module)?;
    row::register(&py.get_type::<row::PyRow>())?;
    for record in tenths::registry::objects() {
        let class = match module.getattr_opt(record.name)? {
            Some(class) => class,
            None => bare_class(py, record)?,
        };
        field::add(&class, record)?;
        let names: Vec<_> = record.fields().map(|field| field.name).collect();
        class.setattr("__match_args__", PyTuple::new(py, names)?)?;
        if record.tuple {
            row::prepare(&class, record)?;
        }
        module.add(record.name, class)?;
    }
    module.add_function(wrap_pyfunction!(row::_cells, module)?)?;
    module.add_function(wrap_pyfunction!(row::_frame, module)?)?;
    module.add_function(wrap_pyfunction!(_restore, module)?)
}

/// The class of a record without methods.
fn bare_class<'py>(py: Python<'py>, record: &ObjectRecord) -> PyResult<Bound<'py, PyAny>> {
    let namespace = PyDict::new(py);
    namespace.set_item("__module__", "tenths")?;
    namespace.set_item("__doc__", record.doc)?;
    namespace.set_item("__slots__", PyTuple::empty(py))?;
    let base = if record.tuple { py.get_type::<row::PyRow>() } else { py.get_type::<PyObject>() };
    py.get_type::<PyType>().call1((record.name, (base,), namespace))
}

/// What a pickle of an object calls.
#[pyfunction]
fn _restore<'py>(
    py: Python<'py>,
    name: &str,
    units: Option<&str>,
    summary: Option<String>,
    values: Vec<Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let record = tenths::registry::objects().iter().find(|record| record.name == name);
    let record = record.ok_or_else(|| value_error(format!("'{name}' is not an object")))?;
    if record.fields().count() != values.len() {
        return Err(not_its_values());
    }
    let units = units.map(units_of).transpose()?;
    let pairs = record.fields().zip(&values);
    let values =
        pairs.map(|(field, object)| value::read(&field.kind, object, units)).collect::<PyResult<_>>()?;
    instance(py, Told { record, values, summary: summary.map(Into::into) }, units)
}

fn not_its_values() -> PyErr {
    value_error("the values do not make this object")
}

impl PyObject {
    /// One with the values of an object of the core, for a class that has more than those.
    pub fn of(object: &impl Object, units: Option<Units>) -> Self {
        Self { told: Telling::Now(object.tell()), units }
    }

    /// How it stands in a table: sizes in the unit asked for, or its own, or millimetres.
    fn shown(&self, unit: Option<&str>) -> PyResult<Shown> {
        let asked = unit.map(units_of).transpose()?;
        let units = asked.or(self.told.units()).or(self.units).unwrap_or(Units::Metric);
        Ok(Shown::of(&self.told, Some(units), self.units))
    }

    /// The object of the core with its values.
    pub fn restored<O: Restored>(&self) -> PyResult<O> {
        match self.told.record.name == O::RECORD.name {
            true => O::restore(&self.told).ok_or_else(not_its_values),
            false => Err(not_its_values()),
        }
    }

    /// The values of its fields in Python.
    fn python_values<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyAny>>> {
        let pairs = self.told.record.fields().zip(&self.told.values);
        pairs.map(|(field, told)| value::write(py, &field.kind, told, self.units)).collect()
    }
}

#[pymethods]
impl PyObject {
    #[new]
    #[pyo3(signature = (*arguments, **_named))]
    fn new(arguments: &Bound<'_, PyTuple>, _named: Option<&Bound<'_, PyDict>>) -> PyResult<Self> {
        let first = arguments.get_item(0).ok();
        let made = first.as_ref().and_then(|first| first.cast::<Made>().ok());
        let object = made.and_then(|made| made.get().0.lock().ok()?.take());
        let refusal =
            || PyTypeError::new_err("objects of this class come from functions and methods of tenths");
        object.ok_or_else(refusal)
    }

    /// Everything as plain data: sizes as text in millimetres, numbers as they are, objects as dicts.
    pub fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = value::to_dict(py, &self.told, self.units)?;
        if let Some(units) = self.units {
            dict.set_item("units", units.name())?;
        }
        Ok(dict)
    }

    /// A DataFrame of pandas': a row for each object of its table, or one row. Sizes become numbers in 'mm', or in
    /// 'in'.
    #[pyo3(signature = (unit=None))]
    fn to_frame<'py>(&self, py: Python<'py>, unit: Option<&str>) -> PyResult<Bound<'py, PyAny>> {
        frame::frame(py, &self.told, self.shown(unit)?)
    }

    fn _repr_html_(&self) -> String {
        html::page(&self.told, Shown::of(&self.told, None, self.units))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        if let Some(Value::Text(designation)) = self.told.value("designation") {
            return Ok(format!("{}('{designation}')", self.told.record.name));
        }
        if let Some(summary) = &self.told.summary {
            return Ok(format!("<{summary}>"));
        }
        let pairs = self.told.record.fields().zip(self.python_values(py)?);
        let fields = pairs.map(|(field, value)| Ok(format!("{}={}", field.name, value.repr()?)));
        Ok(format!("{}({})", self.told.record.name, fields.collect::<PyResult<Vec<_>>>()?.join(", ")))
    }

    fn __str__(&self, py: Python<'_>) -> PyResult<String> {
        match (self.told.value("designation"), &self.told.summary) {
            (Some(Value::Text(designation)), _) => Ok(designation.to_string()),
            (_, Some(summary)) => Ok(summary.to_string()),
            _ => self.__repr__(py),
        }
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let py = other.py();
        Ok(match other.cast::<PyObject>() {
            Ok(other) => {
                let other = other.get();
                let equal = *self.told == *other.told && self.units == other.units;
                equal.into_pyobject(py)?.to_owned().into_any().unbind()
            }
            Err(_) => py.NotImplemented(),
        })
    }

    pub fn __hash__(&self) -> u64 {
        BuildHasherDefault::<DefaultHasher>::default().hash_one((self.told.record.name, &self.told.values))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyTuple>)> {
        let restore = PyModule::import(py, "tenths._tenths")?.getattr(intern!(py, "_restore"))?;
        let summary = self.told.summary.as_deref();
        let units = self.units.map(Units::name);
        let values = PyTuple::new(py, self.python_values(py)?)?;
        Ok((restore, (self.told.record.name, units, summary, values).into_pyobject(py)?))
    }
}
