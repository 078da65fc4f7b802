//! The rows of a chart, and what it comes to.
use super::chart::{Cut, DrawingDimension, Face, Facing, OperationChart, Stock, Working};
use crate::finding::Finding;
use crate::limits::Limits;
use crate::object::{Restored, Told};
use crate::quantity::Units;
use crate::size::Size;
use std::fmt;
use tenths_macros::{Choice, Object};

/// What a row of a chart is about.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ChartRowKind {
    /// A dimension of the stock.
    Stock,
    /// The working dimension of a cut.
    Cut,
    /// A dimension of the drawing.
    Drawing,
    /// The stock that a cut removes.
    Removal,
}

/// A row of a tolerance chart: a working dimension, a dimension of the drawing, or the stock that a cut removes.
#[derive(Clone, PartialEq, Eq, Hash, Debug, Object)]
#[object(summary, restore)]
pub struct ChartRow {
    /// Whether it is about the stock, a cut, the drawing or what a cut removes.
    pub kind: ChartRowKind,
    /// Its number among the rows of its kind, counted from 0; of a removal the number of its cut.
    pub number: usize,
    /// The operation of a cut or a removal, the name of a drawing dimension; empty for the stock.
    pub name: String,
    /// One face; of a cut and its removal the one that is machined.
    pub face: String,
    /// The other face; of a cut the one that locates.
    pub from_face: String,
    /// The limits of the working dimension or of the drawing; absent for a removal and where they are not derived yet.
    pub limits: Option<Limits>,
    /// The tolerance that the process holds, where limits are not derived yet.
    pub holds: Option<Size>,
    /// The least stock wanted of a cut and its removal.
    pub least_removal: Option<Size>,
    /// What a drawing dimension or a removal comes to in the worst case. A removal below zero misses the face.
    pub made: Option<Limits>,
    /// By how much the least that is made is above the lower limit, or above the least removal; negative where below.
    pub lower_margin: Option<Size>,
    /// By how much the greatest that is made is below the upper limit; negative where above. Absent for a removal.
    pub upper_margin: Option<Size>,
    /// Whether a drawing dimension closes, or a removal suffices.
    pub good: Option<bool>,
    /// The working dimensions that make it, in words and from left to right: `+ 10 left end - 20 shoulder`.
    pub chain: String,
    /// The same as numbers, one for each row of `working`: 1 where it adds, -1 where it takes away, 0 where it has no
    /// part. Empty for a working dimension.
    pub signs: Vec<i8>,
}

/// The result of a tolerance chart, in the worst case.
#[derive(Clone, PartialEq, Eq, Debug, Object)]
#[object(summary)]
pub struct ChartResult {
    /// Whether every dimension closes and every cut finds its stock.
    pub good: bool,
    /// The working dimensions: those of the stock, then those of the cuts.
    pub working: Vec<ChartRow>,
    /// The dimensions of the drawing.
    pub dimensions: Vec<ChartRow>,
    /// The stock that each cut removes from a face that was there before.
    pub removals: Vec<ChartRow>,
    /// The dimensions that do not close, and the cuts that may find too little stock. A place is a JSON Pointer into
    /// the chart: `/drawing/0`, `/cuts/2`.
    pub findings: Vec<Finding>,
    /// The units in which messages give sizes.
    pub units: Units,
    /// The faces from left to right.
    pub faces: Vec<String>,
    /// The direction that each face faces, out of the material.
    pub facings: Vec<Facing>,
    /// The faces that are there before the first cut without a dimension.
    pub datums: Vec<String>,
}

impl ChartRow {
    /// A row of which nothing but its faces is known.
    fn new(kind: ChartRowKind, number: usize, name: &str, face: &str, from_face: &str) -> ChartRow {
        let [name, face, from_face] = [name, face, from_face].map(String::from);
        ChartRow {
            kind,
            number,
            name,
            face,
            from_face,
            limits: None,
            holds: None,
            least_removal: None,
            made: None,
            lower_margin: None,
            upper_margin: None,
            good: None,
            chain: String::new(),
            signs: vec![],
        }
    }

    fn held(self, working: Working) -> ChartRow {
        match working {
            Working::Limits(limits) => ChartRow { limits: Some(limits), ..self },
            Working::Holds(holds) => ChartRow { holds: Some(holds), ..self },
        }
    }

    fn stock(number: usize, stock: &Stock) -> ChartRow {
        ChartRow::new(ChartRowKind::Stock, number, "", &stock.face, &stock.from).held(stock.working)
    }

    fn cut(number: usize, cut: &Cut) -> ChartRow {
        let row = ChartRow::new(ChartRowKind::Cut, number, &cut.operation, &cut.face, &cut.from);
        ChartRow { least_removal: Some(cut.least_removal), ..row.held(cut.working) }
    }

    pub(super) fn removal(number: usize, cut: &Cut) -> ChartRow {
        ChartRow { kind: ChartRowKind::Removal, limits: None, ..ChartRow::cut(number, cut) }
    }

    pub(super) fn drawing(number: usize, one: &DrawingDimension) -> ChartRow {
        let row = ChartRow::new(ChartRowKind::Drawing, number, &one.name, &one.face, &one.from);
        ChartRow { limits: Some(one.limits), ..row }
    }

    /// The row with the working dimensions that make it: their numbers, and whether they add.
    pub(super) fn made_by(self, chain: &[(usize, bool)], working: &[ChartRow]) -> ChartRow {
        let (mut signs, mut words) = (vec![0; working.len()], vec![]);
        for &(number, adds) in chain {
            let (Some(sign), Some(row)) = (signs.get_mut(number), working.get(number)) else { continue };
            *sign = if adds { 1 } else { -1 };
            let of = if row.kind == ChartRowKind::Stock { "stock" } else { &row.name };
            words.push(format!("{} {of} {}", if adds { "+" } else { "-" }, row.face));
        }
        ChartRow { signs, chain: words.join(" "), ..self }
    }

    /// The working dimension of such a row.
    fn working(&self) -> Option<Working> {
        self.limits.map(Working::Limits).or(self.holds.map(Working::Holds))
    }
}

impl OperationChart {
    /// The working dimensions as rows: those of the stock, then those of the cuts.
    pub fn working_rows(&self) -> Vec<ChartRow> {
        let stock = self.stock.iter().enumerate().map(|(k, stock)| ChartRow::stock(k, stock));
        stock.chain(self.cuts.iter().enumerate().map(|(k, cut)| ChartRow::cut(k, cut))).collect()
    }

    /// The dimensions of the drawing as rows.
    pub fn drawing_rows(&self) -> Vec<ChartRow> {
        self.drawing.iter().enumerate().map(|(k, one)| ChartRow::drawing(k, one)).collect()
    }

    /// The chart of such faces, and of rows as [`OperationChart::working_rows`] and [`OperationChart::drawing_rows`]
    /// give them.
    pub fn of_rows(
        units: Units,
        faces: Vec<Face>,
        datums: Vec<String>,
        working: &[ChartRow],
        drawing: &[ChartRow],
    ) -> OperationChart {
        let mut chart = OperationChart { units, faces, datums, ..OperationChart::new() };
        for row in working {
            let Some(working) = row.working() else { continue };
            let (face, from) = (row.face.clone(), row.from_face.clone());
            match row.least_removal {
                None => chart.stock.push(Stock { face, from, working }),
                Some(least_removal) => {
                    let operation = row.name.clone();
                    chart.cuts.push(Cut { operation, face, from, working, least_removal });
                }
            }
        }
        for row in drawing {
            chart.drawing.extend(row.limits.map(|limits| DrawingDimension {
                name: row.name.clone(),
                face: row.face.clone(),
                from: row.from_face.clone(),
                limits,
            }));
        }
        chart
    }
}

fn faces(names: &[String], facings: &[Facing]) -> Vec<Face> {
    let pairs = names.iter().zip(facings);
    pairs.map(|(name, &facing)| Face { name: name.clone(), facing }).collect()
}

impl ChartResult {
    /// The chart that comes to this, in which every working dimension has limits.
    pub fn chart(&self) -> OperationChart {
        let faces = faces(&self.faces, &self.facings);
        OperationChart::of_rows(self.units, faces, self.datums.clone(), &self.working, &self.dimensions)
    }
}

impl Restored for ChartResult {
    /// The chart of the values, evaluated again.
    fn restore(told: &Told) -> Option<ChartResult> {
        let faces = faces(&told.get::<Vec<String>>("faces")?, &told.get::<Vec<Facing>>("facings")?);
        let (working, drawing): (Vec<ChartRow>, Vec<ChartRow>) =
            (told.get("working")?, told.get("dimensions")?);
        let chart =
            OperationChart::of_rows(told.get("units")?, faces, told.get("datums")?, &working, &drawing);
        chart.evaluate().ok()
    }
}

impl fmt::Display for ChartRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.kind.name())?;
        if !self.name.is_empty() {
            write!(f, " {}", self.name)?;
        }
        write!(f, " {} – {}", self.from_face, self.face)?;
        match (self.made, self.limits, self.holds) {
            (Some(made), ..) => write!(f, ": made {made}"),
            (_, Some(limits), _) => write!(f, ": {limits}"),
            (_, _, Some(holds)) => write!(f, ": holds {holds}"),
            _ => Ok(()),
        }
    }
}

impl fmt::Display for ChartResult {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let good = |rows: &[ChartRow]| rows.iter().filter(|row| row.good == Some(true)).count();
        let ChartResult { dimensions, removals, .. } = self;
        write!(
            f,
            "tolerance chart: {} of {} dimensions close, {} of {} removals suffice",
            good(dimensions),
            dimensions.len(),
            good(removals),
            removals.len(),
        )
    }
}
