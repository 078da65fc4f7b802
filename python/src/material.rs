//! Materials as plain data on one side, from which Python makes its collection.
use crate::error::document_error;
use crate::size::units_of;
use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::material::{IsoGroup, Material, MaterialError, Materials};

/// The table of materials, and the caller's own beside it.
#[pyclass(frozen, name = "_Materials", module = "tenths._tenths")]
pub struct PyMaterials(Materials);

fn missing(error: &MaterialError) -> PyErr {
    PyKeyError::new_err(error.to_string())
}

#[pymethods]
impl PyMaterials {
    /// The table alone.
    #[new]
    fn new() -> Self {
        Self(Materials::table())
    }

    /// The same with the materials of a JSON document.
    fn extended(&self, py: Python<'_>, text: &str) -> PyResult<Self> {
        self.0.extended(text).map(Self).map_err(|error| document_error(py, &error))
    }

    /// A dict for each material, with numbers in the units of a side.
    fn rows<'py>(&self, py: Python<'py>, units: &str) -> PyResult<Vec<Bound<'py, PyDict>>> {
        let units = units_of(units)?;
        self.0.iter().map(|material| row(py, material, units)).collect()
    }

    /// The full name of the material that a name means.
    fn find(&self, name: &str) -> PyResult<String> {
        self.0.find(name).map(ToString::to_string).map_err(|error| missing(&error))
    }
}

/// The name of a group of ISO 513 as it is written.
#[pyfunction]
pub fn _iso_group(letter: &str) -> PyResult<&'static str> {
    let group = IsoGroup::parse(letter).map_err(crate::error::value_error)?;
    Ok(group.name())
}

/// The numbers of a material: name, meaning and unit.
#[pyfunction]
pub fn _material_properties(units: &str) -> PyResult<Vec<(&'static str, &'static str, &'static str)>> {
    let units = units_of(units)?;
    let told = |p: &tenths::material::Property| (p.name, p.doc.trim(), p.kind.unit(units).label);
    Ok(Material::PROPERTIES.iter().map(told).collect())
}

fn row<'py>(py: Python<'py>, material: &Material, units: tenths::Units) -> PyResult<Bound<'py, PyDict>> {
    let (about, sources) = (PyDict::new(py), PyDict::new(py));
    about.set_item("units", units.name())?;
    about.set_item("designation", &*material.designation)?;
    about.set_item("condition", &*material.condition)?;
    about.set_item("name", &*material.name)?;
    about.set_item("aliases", texts(&material.aliases))?;
    about.set_item("iso_group", material.iso_group.map(IsoGroup::name))?;
    about.set_item("vdi_group", material.vdi_group)?;
    about.set_item("hardness", &*material.hardness)?;
    for property in Material::PROPERTIES {
        about.set_item(property.name, property.of(material, units))?;
    }
    for (group, source) in material.sources.groups() {
        sources.set_item(group, source.map(ToString::to_string))?;
    }
    about.set_item("sources", sources)?;
    about.set_item("notes", texts(&material.notes))?;
    about.set_item("cautions", texts(&material.cautions))?;
    Ok(about)
}

fn texts<'t>(texts: &'t [std::borrow::Cow<'static, str>]) -> Vec<&'t str> {
    texts.iter().map(|text| &**text).collect()
}
