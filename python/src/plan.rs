//! The plan document and its process sheet.
use crate::error::{document_error, value_error};
use crate::given::{AnnualDemand, Named, Quantity, Samples, Seed, Threads, UpTo, as_json, json_text};
use crate::object::{object, objects, rows};
use crate::plain::plain_of;
use crate::watch::watched;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use tenths::document::Change;
use tenths::plan::{PropagateError, changes_to_json};
use tenths::{Plan, Sheet, SheetKind};

/// Plain data of JSON text.
fn plain<'py>(py: Python<'py>, json: &str) -> PyResult<Bound<'py, PyAny>> {
    PyModule::import(py, "json")?.call_method1("loads", (json,))
}

/// A place with its old and its new value.
type Changed<'py> = (String, Bound<'py, PyAny>, Bound<'py, PyAny>);

fn changed<'py>(py: Python<'py>, changes: &[Change]) -> PyResult<Vec<Changed<'py>>> {
    let list: Vec<Bound<'py, PyDict>> = plain(py, &changes_to_json(changes))?.extract()?;
    let of = |one: &Bound<'py, PyDict>, name| one.as_any().get_item(name);
    list.iter().map(|one| Ok((of(one, "place")?.extract()?, of(one, "old")?, of(one, "new")?))).collect()
}

/// A name as Python shows text: in quotes, with what does not print escaped.
fn shown(py: Python<'_>, name: &str) -> PyResult<String> {
    PyString::new(py, name).repr()?.extract()
}

/// One of the numbers that vary, as the request has it.
fn varying_number<'py>(
    py: Python<'py>,
    place: &Bound<'py, PyAny>,
    value: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyDict>> {
    let number = PyDict::new(py);
    if let Ok(given) = value.extract::<Named<'_>>() {
        number.update(given.as_mapping())?;
    } else if value.is_instance_of::<PyString>() {
        number.set_item("limits", value)?;
    } else {
        let (nominal, plus, minus): (Bound<'py, PyAny>, Bound<'py, PyAny>, Bound<'py, PyAny>) =
            value.extract()?;
        for (name, one) in [("nominal", nominal), ("plus", plus), ("minus", minus)] {
            match one.is_instance_of::<PyString>() {
                true => number.set_item(name, one)?,
                false => number.set_item(name, one.extract::<f64>()?)?,
            }
        }
    }
    number.set_item("place", place)?;
    Ok(number)
}

/// The request of a propagation as JSON: of what varies, with the count, the seed and the threads.
fn variation<'py>(
    py: Python<'py>,
    varying: &Bound<'py, PyDict>,
    (Samples(count), Seed(seed), Threads(threads)): (Samples, Seed, Threads),
    outputs: Vec<String>,
) -> PyResult<String> {
    let list = varying.iter().map(|(place, value)| varying_number(py, &place, &value));
    let list = list.collect::<PyResult<Vec<_>>>()?;
    let request = PyDict::new(py);
    request.set_item("count", count)?;
    request.set_item("seed", seed)?;
    request.set_item("threads", threads)?;
    request.set_item("varying", list)?;
    request.set_item("outputs", outputs)?;
    as_json(&request, "plain")
}

fn propagate_error(py: Python<'_>, error: PropagateError) -> PyErr {
    match error {
        PropagateError::Plan(error) => document_error(py, &error),
        PropagateError::Stopped(stopped) => value_error(stopped),
    }
}

/// A plan: one part from its drawing to its process sheet.
///
/// `Plan.from_json(text)` reads a document; a bad one raises DomainError, which lists every fault with its place.
///
///     >>> try:
///     ...     tenths.Plan.from_json('{"tenths_plan": 1, "units": "cubits"}')
///     ... except tenths.DomainError as faults:
///     ...     print(str(faults).splitlines()[0])
///     the document has 6 faults
#[pyclass(frozen, eq, name = "Plan", module = "tenths")]
#[derive(PartialEq)]
pub struct PyPlan {
    plan: Plan,
    text: String,
    standards: Option<String>,
}

/// What restores a plan, with its document and the standards that it was read with.
type Reduced<'py, 'p> = (Bound<'py, PyAny>, (&'p str, Option<&'p str>));

impl PyPlan {
    /// The plan of the core.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }
}

#[pymethods]
impl PyPlan {
    /// The plan of a JSON document. What it leaves out and common practice can propose is assumed: see `assumptions`.
    ///
    /// `standards` is a document of the shop's own standard values, as text or a dict, which go before those of the library.
    #[staticmethod]
    #[pyo3(signature = (text, *, standards = None))]
    fn from_json(py: Python<'_>, text: String, standards: Option<&Bound<'_, PyAny>>) -> PyResult<Self> {
        let standards = standards.map(json_text).transpose()?;
        let plan = match &standards {
            Some(standards) => Plan::from_json_with(&text, standards),
            None => Plan::from_json(&text),
        };
        Ok(Self { plan: plan.map_err(|error| document_error(py, &error))?, text, standards })
    }

    /// The JSON Schema (draft 2020-12) of a plan document, as plain data.
    #[staticmethod]
    fn schema(py: Python<'_>) -> PyResult<Bound<'_, PyAny>> {
        plain(py, &tenths::plan::schema().to_string())
    }

    /// The process sheet. Other threads run meanwhile.
    fn evaluate(&self, py: Python<'_>) -> PyResult<PySheet> {
        py.detach(|| self.plan.evaluate()).map(PySheet).map_err(|error| document_error(py, &error))
    }

    /// The plan evaluated for a sample of the numbers that vary, as plain data: how often each finding occurs and how
    /// figures of the sheet spread.
    ///
    /// `varying` has JSON Pointers to numbers of the document as keys. A value is `(nominal, plus, minus)` with signed
    /// deviations in the units of the document, or text such as `"240 ±10 ft/min"`, or a dict with these, `limits` or
    /// `nominal`, `plus` and `minus`, and with `distribution`, `cp`, `cpk`, `mean`. `outputs` are JSON Pointers to
    /// numbers of the sheet as plain data. The same seed gives the same bits with any number of `threads`; None is
    /// as many as the machine runs. `progress` is True for a bar, or a function of the fraction that is done.
    #[pyo3(signature = (varying, n, seed = Seed(1), *, outputs = vec![], threads = Threads(1), progress = None))]
    #[pyo3(text_signature = "($self, varying, n, seed=1, *, outputs=(), threads=1, progress=None)")]
    #[expect(clippy::too_many_arguments, reason = "they go by name")]
    fn propagate<'py>(
        &self,
        py: Python<'py>,
        varying: Named<'py>,
        n: Samples,
        seed: Seed,
        outputs: Vec<String>,
        threads: Threads,
        progress: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let request = variation(py, &varying, (n, seed, threads), outputs)?;
        let propagated = watched(py, progress, |watch| self.plan.propagate_json_watched(&request, watch))?;
        let propagated = propagated.map_err(|error| propagate_error(py, error))?;
        plain(py, &propagated.to_json())
    }

    /// What differs in the document of a newer plan: a list of tuples of place, a JSON Pointer, old value and new value;
    /// None stands for a value that is not there. Operations and characteristics that have numbers are compared by them.
    fn changes<'py>(&self, newer: &Self, py: Python<'py>) -> PyResult<Vec<Changed<'py>>> {
        changed(py, &self.plan.changes(&newer.plan))
    }

    /// The quotes for quantities, line by line, from `rates` or from those of the document.
    ///
    /// `rates` is a dict with the fields of Rates on the page of the plan document, or the same as JSON text; money in it is
    /// numbers, text or Decimal. The result is a sequence of a Quote for each quantity. What is missing is named in a
    /// DomainError.
    ///
    ///     >>> plan = tenths.Plan.from_json(open("examples/plans/roller_axle.json").read())
    ///     >>> for quote in plan.quote([1, 25, 500]):
    ///     ...     assert sum(line.amount for line in quote.lines) == quote.total
    ///     ...     assert quote.quantity * quote.price_each == quote.total
    #[pyo3(signature = (quantities, rates = None))]
    fn quote<'py>(
        &self,
        quantities: &Bound<'py, PyAny>,
        rates: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        crate::quote::quote(&self.plan, quantities, rates)
    }

    /// This routing of a part and another: where which of them costs less, for every quantity up to one. `rates` are as `quote`
    /// takes them, for both plans.
    #[pyo3(signature = (other, up_to = UpTo(1000), rates = None))]
    #[pyo3(text_signature = "($self, other, up_to=1000, rates=None)")]
    fn break_even<'py>(
        &self,
        py: Python<'py>,
        other: &Bound<'py, PyPlan>,
        up_to: UpTo,
        rates: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        crate::quote::break_even(py, &self.plan, &other.get().plan, up_to.0, rates)
    }

    /// The other ways to make the part, by name: each a Plan of its own, to evaluate, to quote and to compare.
    #[getter]
    fn routings<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let named = PyDict::new(py);
        for routed in self.plan.routings() {
            let (plan, standards) = (routed.plan.clone(), self.standards.clone());
            named.set_item(&routed.name, PyPlan { text: plan.to_json().into(), plan, standards })?;
        }
        Ok(named)
    }

    /// The routings of the plan side by side, each evaluated and quoted for a quantity, None for that of the plan; and which of
    /// them costs least for every quantity up to one. `rates` are as `quote` takes them.
    #[pyo3(signature = (quantity = None, up_to = UpTo(1000), rates = None))]
    #[pyo3(text_signature = "($self, quantity=None, up_to=1000, rates=None)")]
    fn compare_routings<'py>(
        &self,
        py: Python<'py>,
        quantity: Option<Quantity>,
        up_to: UpTo,
        rates: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        crate::quote::compare_routings(py, &self.plan, quantity.map(|quantity| quantity.0), up_to.0, rates)
    }

    /// The range of the price of a quantity where numbers of the plan vary: rates of the document such as
    /// `/rates/machines/0/rate`, times, speeds and any other. `varying`, `n`, `seed`, `threads` and `progress` are as
    /// `propagate` takes them.
    ///
    ///     >>> plan = tenths.Plan.from_json(open("examples/plans/roller_axle.json").read())
    ///     >>> plan.price_range(25, {"/rates/machines/2/rate": "64.5 ±6", "/operations/9/time": "3 ±1 min"}, 200).count
    ///     200
    #[pyo3(signature = (quantity, varying, n, seed = Seed(1), *, threads = Threads(1), progress = None))]
    #[pyo3(text_signature = "($self, quantity, varying, n, seed=1, *, threads=1, progress=None)")]
    #[expect(clippy::too_many_arguments, reason = "they go by name")]
    fn price_range<'py>(
        &self,
        py: Python<'py>,
        quantity: Quantity,
        varying: Named<'py>,
        n: Samples,
        seed: Seed,
        threads: Threads,
        progress: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let request = variation(py, &varying, (n, seed, threads), vec![])?;
        let made =
            watched(py, progress, |watch| self.plan.price_range_json_watched(quantity.0, &request, watch))?;
        object(py, &made.map_err(|error| propagate_error(py, error))?)
    }

    /// What moves the price of a quantity most: each rate lowered and raised by the share `change`, the widest swing first.
    /// `rates` are as `quote` takes them.
    #[pyo3(signature = (quantity, rates = None, *, change = 0.1))]
    fn price_drivers<'py>(
        &self,
        py: Python<'py>,
        quantity: Quantity,
        rates: Option<&Bound<'py, PyAny>>,
        change: f64,
    ) -> PyResult<Bound<'py, PyAny>> {
        crate::quote::price_drivers(py, &self.plan, quantity.0, change, rates)
    }

    /// The economic lot for a demand in a year, where a year of stock costs `holding_share` of its cost. `rates` are as
    /// `quote` takes them.
    #[pyo3(signature = (annual_demand, holding_share, rates = None))]
    fn economic_lot<'py>(
        &self,
        py: Python<'py>,
        annual_demand: AnnualDemand,
        holding_share: f64,
        rates: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        crate::quote::economic_lot(py, &self.plan, annual_demand.0, holding_share, rates)
    }

    /// What the document leaves out and was assumed, each with its place in the completed document and its reason.
    #[getter]
    fn assumptions<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        rows(py, self.plan.assumptions())
    }

    /// The document with what was assumed: a plan that leaves out nothing, to print, to change and to read again.
    fn completed_json(&self) -> &str {
        self.plan.completed_json()
    }

    /// The document as it was read, without a byte order mark.
    fn to_json(&self) -> &str {
        self.text.strip_prefix('\u{feff}').unwrap_or(&self.text)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let part = &self.plan.document().part;
        Ok(format!("<plan for {} of {}>", part.quantity, shown(py, &part.name)?))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Reduced<'py, '_>> {
        let read = PyModule::import(py, "tenths._tenths")?.getattr("_plan_from_json")?;
        Ok((read, (&self.text, self.standards.as_deref())))
    }
}

/// A plan from its document and the standards that it was read with, for pickles.
#[pyfunction]
pub fn _plan_from_json(
    py: Python<'_>,
    text: String,
    standards: Option<&Bound<'_, PyAny>>,
) -> PyResult<PyPlan> {
    PyPlan::from_json(py, text, standards)
}

/// A plan drafted from a request in JSON.
#[pyfunction]
pub fn _draft_plan(py: Python<'_>, request: &str, standards: Option<&Bound<'_, PyAny>>) -> PyResult<PyPlan> {
    let standards = standards.map(json_text).transpose()?;
    let plan = tenths::draft::draft_plan(request, standards.as_deref());
    let plan = plan.map_err(|error| document_error(py, &error))?;
    Ok(PyPlan { text: plan.to_json().into(), plan, standards })
}

fn sheet_kind(kind: Option<&str>) -> PyResult<SheetKind> {
    kind.map_or(Ok(SheetKind::Process), SheetKind::parse).map_err(value_error)
}

/// The process sheet of a plan: as pages to work from, and as data.
///
///     >>> sheet = tenths.Plan.from_json(open("examples/plans/roller_axle.json").read()).evaluate()
///     >>> cards = sheet.to_html("cards")
///     >>> tenths.Sheet.from_json(sheet.to_json()) == sheet
///     True
#[pyclass(frozen, eq, name = "Sheet", module = "tenths")]
#[derive(PartialEq)]
pub struct PySheet(Sheet);

#[pymethods]
impl PySheet {
    /// The sheet that `to_json` wrote, equal to the one that was written; a bad one raises DomainError, which lists every
    /// fault with its place.
    #[staticmethod]
    fn from_json(py: Python<'_>, text: &str) -> PyResult<Self> {
        py.detach(|| Sheet::from_json(text)).map(PySheet).map_err(|error| document_error(py, &error))
    }

    /// The JSON Schema (draft 2020-12) of a sheet, as plain data.
    #[staticmethod]
    fn schema(py: Python<'_>) -> PyResult<Bound<'_, PyAny>> {
        plain(py, &tenths::plan::sheet_schema().to_string())
    }

    /// The findings, the most serious first.
    #[getter]
    fn findings<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyAny>>> {
        objects(py, &self.0.findings)
    }

    /// The sheet as Markdown that reads well in a terminal too.
    ///
    /// `kind` is `process`, which None stands for, `cards`, `setups`, `tools`, `cut_list`, `gauges`, `first_article` or `quote`.
    #[pyo3(signature = (kind = None))]
    fn to_markdown(&self, kind: Option<&str>) -> PyResult<String> {
        self.0.to_markdown(sheet_kind(kind)?).map_err(value_error)
    }

    /// The sheet as one HTML file that needs nothing else, and prints on A4 and Letter; `kind` as of `to_markdown`.
    #[pyo3(signature = (kind = None))]
    fn to_html(&self, kind: Option<&str>) -> PyResult<String> {
        self.0.to_html(sheet_kind(kind)?).map_err(value_error)
    }

    /// What differs in a newer sheet, as `Plan.changes` tells it of plans.
    fn changes<'py>(&self, newer: &Self, py: Python<'py>) -> PyResult<Vec<Changed<'py>>> {
        changed(py, &self.0.changes(&newer.0))
    }

    /// The sheet as JSON.
    fn to_json(&self) -> String {
        self.0.to_json()
    }

    /// The sheet as plain data.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        plain_of(py, &self.0)
    }

    fn _repr_markdown_(&self) -> PyResult<String> {
        self.to_markdown(None)
    }

    fn __str__(&self) -> PyResult<String> {
        self.to_markdown(None)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((py.get_type::<Self>().getattr("from_json")?, (self.0.to_json(),)))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("<process sheet of {}, {} findings>", shown(py, &self.0.part)?, self.0.findings.len()))
    }
}
