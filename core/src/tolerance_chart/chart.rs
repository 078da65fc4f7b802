//! A chart: faces, stock, cuts and the drawing.
use super::error::ChartError;
use crate::limits::Limits;
use crate::quantity::Units;
use crate::size::Size;
use tenths_macros::Choice;

/// A working dimension of a chart, by its number there.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Step {
    /// A dimension of the stock.
    Stock(usize),
    /// That of a cut.
    Cut(usize),
}

/// The greatest size in a chart, 9 km: all sums and products of derived shares then stay in range.
pub(super) const MAX_LENGTH: Size = Size::from_picometres(9_000_000_000_000_000);

/// Which way a face looks, out of the material.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum Facing {
    /// The material lies to the right; a cut moves the face to the right.
    Left,
    /// The material lies to the left; a cut moves the face to the left.
    Right,
}

impl Facing {
    /// Reads `left` or `right`.
    ///
    /// # Errors
    /// [`ChartError::Facing`] for any other text.
    pub fn parse(text: &str) -> Result<Facing, ChartError> {
        let named = <Facing as crate::object::Choice>::of_name(text);
        named.ok_or_else(|| ChartError::Facing { text: crate::error::excerpt(text) })
    }
}

/// A working dimension: what the operator holds, or what there is still to derive one from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Working {
    /// Held within these limits.
    Limits(Limits),
    /// Not settled yet: the process holds this tolerance, from limit to limit.
    Holds(Size),
}

impl From<Limits> for Working {
    fn from(limits: Limits) -> Working {
        Working::Limits(limits)
    }
}

/// A face, by its name.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Face {
    /// Its name, which no other face has.
    pub name: String,
    /// Which way it looks.
    pub facing: Facing,
}

/// A dimension between two faces of the stock.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Stock {
    /// One face.
    pub face: String,
    /// The other one.
    pub from: String,
    /// The dimension between them.
    pub working: Working,
}

/// A cut of a face that is located from another one.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Cut {
    /// The operation that it belongs to, such as `10`.
    pub operation: String,
    /// The face that is machined.
    pub face: String,
    /// The face that locates, as it is at the time of the cut.
    pub from: String,
    /// The dimension between them after the cut.
    pub working: Working,
    /// The least stock that the cut must remove from a face that exists already; zero if it must only reach the face.
    pub least_removal: Size,
}

impl Cut {
    /// A cut with no wanted least removal.
    pub fn new(operation: &str, face: &str, from: &str, working: impl Into<Working>) -> Cut {
        let [operation, face, from] = [operation, face, from].map(String::from);
        Cut { operation, face, from, working: working.into(), least_removal: Size::ZERO }
    }

    /// The cut with a least stock that it must remove.
    pub fn removing(self, least_removal: Size) -> Cut {
        Cut { least_removal, ..self }
    }
}

/// A dimension of the drawing, between two faces of the finished part.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct DrawingDimension {
    /// Its name, for messages and results.
    pub name: String,
    /// One face.
    pub face: String,
    /// The other one.
    pub from: String,
    /// Its limits.
    pub limits: Limits,
}

impl DrawingDimension {
    /// The dimension in words.
    pub(super) fn what(&self) -> String {
        format!("drawing dimension `{}`", self.name)
    }
}

/// A tolerance chart: the faces of a part, its stock, the cuts in their order and the drawing.
///
/// Faces are named from left to right, and a dimension between two of them is the place of the right one less that of
/// the left one, whichever is named first. In a chart of diameters the axis of rotation is the first face and a datum,
/// the others look right (outside) or left (bores), and dimensions and removals are on the diameter. Faces are taken as
/// flat and square: what they lack of that, and how a part seats, belongs in the working tolerances.
///
/// A stepped pin is sawn to 101..103 mm. Its left end is faced from the right one, the right end from the left one,
/// and the shoulder from the left end; what the drawing asks from shoulder to right end is then a chain of two.
///
/// ```
/// use tenths::tolerance_chart::{Cut, Facing, OperationChart};
/// use tenths::{Limits, Size};
/// let limits = |text| Limits::parse(text);
/// let chart = OperationChart::new()
///     .face("left end", Facing::Left)
///     .face("shoulder", Facing::Right)
///     .face("right end", Facing::Right)
///     .stock("right end", "left end", limits("102 ±1 mm")?)
///     .cut(Cut::new("10", "left end", "right end", limits("100.5 ±0.2 mm")?).removing(Size::parse("0.3 mm")?))
///     .cut(Cut::new("20", "right end", "left end", limits("100 ±0.1 mm")?).removing(Size::parse("0.2 mm")?))
///     .cut(Cut::new("20", "shoulder", "left end", limits("60 ±0.05 mm")?))
///     .drawing("overall", "right end", "left end", limits("100 ±0.1 mm")?)
///     .drawing("step", "right end", "shoulder", limits("40 ±0.1 mm")?);
/// let result = chart.evaluate()?;
/// // 100 ±0.1 less 60 ±0.05: 0.05 mm too much at either limit.
/// assert_eq!(result.dimensions[1].made, Some(limits("40 ±0.15 mm")?));
/// assert_eq!(result.dimensions[1].upper_margin, Some(Size::parse("-0.05 mm")?));
/// // 102 ±1 less 100.5 ±0.2, then 100.5 ±0.2 less 100 ±0.1.
/// assert_eq!(result.removals[0].made, Some(limits("1.5 ±1.2 mm")?));
/// assert_eq!(result.removals[1].made, Some(limits("0.5 ±0.3 mm")?));
/// assert!(!result.good && result.findings.len() == 1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct OperationChart {
    /// The unit in which messages tell sizes.
    pub units: Units,
    /// The faces from left to right.
    pub faces: Vec<Face>,
    /// Faces that are there before the first cut without a dimension, such as an axis or the stop of a bar.
    pub datums: Vec<String>,
    /// The dimensions of the stock.
    pub stock: Vec<Stock>,
    /// The cuts in their order.
    pub cuts: Vec<Cut>,
    /// The dimensions of the drawing.
    pub drawing: Vec<DrawingDimension>,
}

impl Default for OperationChart {
    fn default() -> Self {
        OperationChart::new()
    }
}

impl OperationChart {
    /// An empty chart, whose messages tell millimetres.
    pub fn new() -> OperationChart {
        OperationChart {
            units: Units::Metric,
            faces: vec![],
            datums: vec![],
            stock: vec![],
            cuts: vec![],
            drawing: vec![],
        }
    }

    /// The chart with messages in inches or millimetres.
    #[must_use]
    pub fn in_units(self, units: Units) -> Self {
        OperationChart { units, ..self }
    }

    /// Adds a face to the right of those that are there.
    #[must_use]
    pub fn face(mut self, name: &str, facing: Facing) -> Self {
        self.faces.push(Face { name: name.into(), facing });
        self
    }

    /// Says that a face is there from the start, without a dimension.
    #[must_use]
    pub fn datum(mut self, face: &str) -> Self {
        self.datums.push(face.into());
        self
    }

    /// Adds a dimension between two faces of the stock.
    #[must_use]
    pub fn stock(mut self, face: &str, from: &str, working: impl Into<Working>) -> Self {
        self.stock.push(Stock { face: face.into(), from: from.into(), working: working.into() });
        self
    }

    /// Adds a cut after those that are there.
    #[must_use]
    pub fn cut(mut self, cut: Cut) -> Self {
        self.cuts.push(cut);
        self
    }

    /// Adds a dimension of the drawing.
    #[must_use]
    pub fn drawing(mut self, name: &str, face: &str, from: &str, limits: Limits) -> Self {
        let [name, face, from] = [name, face, from].map(String::from);
        self.drawing.push(DrawingDimension { name, face, from, limits });
        self
    }

    /// The working dimensions in the order of chains: those of the stock, then those of the cuts.
    pub(super) fn working(&self) -> impl Iterator<Item = (Step, Working)> {
        let stock = self.stock.iter().enumerate().map(|(k, stock)| (Step::Stock(k), stock.working));
        stock.chain(self.cuts.iter().enumerate().map(|(k, cut)| (Step::Cut(k), cut.working)))
    }

    /// Refuses sizes beyond what sums can hold.
    pub(super) fn check_sizes(&self) -> Result<(), ChartError> {
        let ends = |limits: Limits| [limits.lower(), limits.upper()];
        let working = self.working().flat_map(|(step, working)| {
            let sizes = match working {
                Working::Limits(limits) => ends(limits),
                Working::Holds(holds) => [holds; 2],
            };
            sizes.map(|size| (self.describe(step), size))
        });
        let cuts = self.cuts.iter().enumerate();
        let removals = cuts.map(|(k, cut)| (self.describe(Step::Cut(k)), cut.least_removal));
        let drawing = self.drawing.iter().flat_map(|one| ends(one.limits).map(|size| (one.what(), size)));
        let is_beyond = |size: Size| size.checked_abs().is_none_or(|size| size > MAX_LENGTH);
        match working.chain(removals).chain(drawing).find(|&(_, size)| is_beyond(size)) {
            Some((what, _)) => Err(ChartError::OutOfRange { what }),
            None => Ok(()),
        }
    }

    /// A working dimension in words.
    pub(super) fn describe(&self, step: Step) -> String {
        match step {
            Step::Stock(k) => match self.stock.get(k) {
                Some(stock) => format!("stock `{}` from `{}`", stock.face, stock.from),
                None => format!("stock dimension {k}"),
            },
            Step::Cut(k) => match self.cuts.get(k) {
                Some(cut) => format!("operation {}, `{}` from `{}`", cut.operation, cut.face, cut.from),
                None => format!("cut {k}"),
            },
        }
    }

    /// Puts limits in the place of a working dimension.
    pub(super) fn settle(&mut self, step: Step, limits: Limits) {
        let working = match step {
            Step::Stock(k) => self.stock.get_mut(k).map(|stock| &mut stock.working),
            Step::Cut(k) => self.cuts.get_mut(k).map(|cut| &mut cut.working),
        };
        if let Some(working) = working {
            *working = Working::Limits(limits);
        }
    }
}
