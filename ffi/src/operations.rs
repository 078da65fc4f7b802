//! Tolerance charts. Faces are numbered from left to right, and sizes are in picometres.
use crate::guard::guard;
use crate::status::{Failure, tenths_status};
use tenths::stack::operations::{
    Cut, DrawingDimension, Facing, Link, MOST, OperationChart, Step, Stock, Working,
};
use tenths::{ChartError, ChartResult, Limits, Size};

/// The material lies to the right of a face; a cut moves it to the right.
pub const TENTHS_FACING_LEFT: i32 = 0;
/// The material lies to the left of a face; a cut moves it to the left.
pub const TENTHS_FACING_RIGHT: i32 = 1;

/// A face of a tolerance chart.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_face {
    /// `TENTHS_FACING_LEFT` or `TENTHS_FACING_RIGHT`: which way it looks, out of the material.
    pub facing: i32,
    /// 1 for a face that is there before the first cut without a dimension, such as an axis; 0 for the others.
    pub is_datum: i32,
}

/// A dimension of the stock or of a cut, in picometres: an inch is 25 400 000 000 of them.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_step {
    /// The number of a face; of a cut the one that is machined.
    pub face: i32,
    /// The number of the other face; of a cut the one that locates.
    pub from: i32,
    /// The lower limit of the distance between them.
    pub lower: i64,
    /// The upper one.
    pub upper: i64,
    /// 0 where the limits are given; otherwise the tolerance that the process holds, from which they are derived.
    pub holds: i64,
    /// The least stock that a cut shall find on a face that was there before; 0 for the stock.
    pub least_removal: i64,
}

/// A dimension of the drawing, in picometres.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_dimension {
    /// The number of one face.
    pub face: i32,
    /// The number of the other one.
    pub from: i32,
    /// The lower limit of the distance between them.
    pub lower: i64,
    /// The upper one.
    pub upper: i64,
}

/// What a dimension of the drawing or the removal of a cut comes to, in picometres.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_outcome {
    /// The least that it comes to in the worst case.
    pub lower: i64,
    /// The greatest.
    pub upper: i64,
    /// By how much the least is above the lower limit, of a removal above the least one wanted; negative where below.
    pub lower_margin: i64,
    /// By how much the greatest is below the upper limit, negative where above; 0 of a removal.
    pub upper_margin: i64,
    /// 1 where it is as wanted, 0 where it is not, -1 of a cut on a face that was not there, which has no removal.
    pub good: i32,
}

/// Evaluates a tolerance chart: whether stock and cuts, in their order, make the dimensions of a drawing, and what
/// stock each cut removes.
///
/// Faces are numbered by their places in `faces`, from left to right. `dimensions` becomes the outcome of each element
/// of `drawing`, and `removals` that of each cut. `chains`, which may be null, becomes the rows of signs of all
/// outcomes, the drawing first: 1 where a working dimension adds to the outcome, -1 where it takes away, 0 elsewhere;
/// the columns are those of the stock, then those of the cuts. It has room for `chain_room` signs. An array may be null
/// where its count is 0. On an error nothing is written.
///
/// # Safety
/// The arrays are valid for their counts, `dimensions` for `drawing_count` and `removals` for `cut_count` elements,
/// `chains` for `chain_room`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_evaluate_chart(
    faces: *const tenths_chart_face,
    face_count: usize,
    stock: *const tenths_chart_step,
    stock_count: usize,
    cuts: *const tenths_chart_step,
    cut_count: usize,
    drawing: *const tenths_chart_dimension,
    drawing_count: usize,
    dimensions: *mut tenths_chart_outcome,
    removals: *mut tenths_chart_outcome,
    chains: *mut i8,
    chain_room: usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (faces, stock, cuts, drawing, room) = unsafe {
            (
                array(faces, face_count, "faces")?,
                array(stock, stock_count, "stock")?,
                array(cuts, cut_count, "cuts")?,
                array(drawing, drawing_count, "drawing")?,
                Room::checked(dimensions, drawing_count, removals, cut_count, chains, chain_room)?,
            )
        };
        let chart = chart_of(faces, stock, cuts, drawing)?;
        let result = chart.evaluate()?;
        // SAFETY: the caller's promises.
        unsafe { room.write(&chart, &result) }
    })
}

/// Derives the working dimensions of a tolerance chart whose `holds` is not 0, and evaluates it as
/// `tenths_evaluate_chart` does.
///
/// The tolerance of each element of `drawing` is shared out among its chain in proportion to what the processes hold,
/// never below that; means are closed so that drawing dimensions lie at their middle and each cut finds its least
/// stock. `lower` and `upper` of such elements of `stock` and `cuts` are written; the rest stays as it is, so that
/// `holds` is to be set to 0 before they are evaluated by themselves. `resolution` is the step of means and tolerances,
/// 1 for a picometre. Where the drawing allows less than the processes hold, the call succeeds, and `good` tells the
/// dimensions that do not close.
///
/// # Safety
/// As `tenths_evaluate_chart`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_derive_chart(
    faces: *const tenths_chart_face,
    face_count: usize,
    stock: *mut tenths_chart_step,
    stock_count: usize,
    cuts: *mut tenths_chart_step,
    cut_count: usize,
    drawing: *const tenths_chart_dimension,
    drawing_count: usize,
    resolution: i64,
    dimensions: *mut tenths_chart_outcome,
    removals: *mut tenths_chart_outcome,
) -> tenths_status {
    guard(|| {
        let no_chains = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let (faces, given_stock, given_cuts, drawing, room) = unsafe {
            (
                array(faces, face_count, "faces")?,
                array(stock, stock_count, "stock")?,
                array(cuts, cut_count, "cuts")?,
                array(drawing, drawing_count, "drawing")?,
                Room::checked(dimensions, drawing_count, removals, cut_count, no_chains, 0)?,
            )
        };
        let chart = chart_of(faces, given_stock, given_cuts, drawing)?;
        let derived = chart.derive(Some(Size::from_picometres(resolution)))?;
        // SAFETY: the caller's promises.
        unsafe {
            room.write(&derived.chart, &derived.result)?;
            settle(stock, derived.chart.stock.iter().map(|stock| stock.working));
            settle(cuts, derived.chart.cuts.iter().map(|cut| cut.working));
        }
        Ok(())
    })
}

/// An array that C has handed over, copied, so that what is written to it later does not alias.
///
/// # Safety
/// `first` is null or valid for `count` elements.
unsafe fn array<T: Copy>(first: *const T, count: usize, name: &'static str) -> Result<Vec<T>, Failure> {
    if count > MOST {
        return Err(ChartError::TooMany { what: name, count }.into());
    }
    if count > 0 && first.is_null() {
        return Err(Failure::Null(name));
    }
    // SAFETY: the caller's promise.
    Ok((0..count).map(|k| unsafe { first.add(k).read() }).collect())
}

/// The name of a face by its number; one that is none has a name that no face has.
fn name(face: i32) -> String {
    face.to_string()
}

fn chart_of(
    faces: Vec<tenths_chart_face>,
    stock: Vec<tenths_chart_step>,
    cuts: Vec<tenths_chart_step>,
    drawing: Vec<tenths_chart_dimension>,
) -> Result<OperationChart, Failure> {
    let mut chart = OperationChart::new();
    for (k, face) in faces.iter().enumerate() {
        let facing = match face.facing {
            TENTHS_FACING_LEFT => Facing::Left,
            TENTHS_FACING_RIGHT => Facing::Right,
            other => return Err(Failure::Facing(k, other)),
        };
        chart = chart.face(&k.to_string(), facing);
        if face.is_datum != 0 {
            chart = chart.datum(&k.to_string());
        }
    }
    for step in stock {
        chart.stock.push(Stock { face: name(step.face), from: name(step.from), working: working(&step)? });
    }
    for (k, step) in cuts.iter().enumerate() {
        let cut = Cut::new(&format!("cut {k}"), &name(step.face), &name(step.from), working(step)?);
        chart = chart.cut(cut.removing(Size::from_picometres(step.least_removal)));
    }
    for (k, one) in drawing.iter().enumerate() {
        let limits = limits(one.lower, one.upper)?;
        let (face, from) = (name(one.face), name(one.from));
        chart.drawing.push(DrawingDimension { name: k.to_string(), face, from, limits });
    }
    Ok(chart)
}

fn working(step: &tenths_chart_step) -> Result<Working, Failure> {
    match step.holds {
        0 => Ok(limits(step.lower, step.upper)?.into()),
        holds => Ok(Working::Holds(Size::from_picometres(holds))),
    }
}

fn limits(lower: i64, upper: i64) -> Result<Limits, Failure> {
    Ok(Limits::between(Size::from_picometres(lower), Size::from_picometres(upper))?)
}

/// Where the results go.
struct Room {
    dimensions: *mut tenths_chart_outcome,
    removals: *mut tenths_chart_outcome,
    chains: *mut i8,
    chain_room: usize,
}

impl Room {
    fn checked(
        dimensions: *mut tenths_chart_outcome,
        drawing_count: usize,
        removals: *mut tenths_chart_outcome,
        cut_count: usize,
        chains: *mut i8,
        chain_room: usize,
    ) -> Result<Room, Failure> {
        if drawing_count > 0 && dimensions.is_null() {
            return Err(Failure::Null("dimensions"));
        }
        if cut_count > 0 && removals.is_null() {
            return Err(Failure::Null("removals"));
        }
        if chain_room > isize::MAX as usize {
            return Err(Failure::Length(chain_room));
        }
        Ok(Room { dimensions, removals, chains, chain_room })
    }

    /// # Safety
    /// `dimensions` is valid for the drawing, `removals` for the cuts and `chains` for its room.
    unsafe fn write(&self, chart: &OperationChart, result: &ChartResult) -> Result<(), Failure> {
        let columns = chart.stock.len() + chart.cuts.len();
        let mut signs = vec![0_i8; (chart.drawing.len() + chart.cuts.len()) * columns];
        let mut mark = |row: usize, chain: &[Link]| {
            for link in chain {
                let column = match link.step {
                    Step::Stock(k) => k,
                    Step::Cut(k) => chart.stock.len() + k,
                };
                signs[row * columns + column] = if link.adds { 1 } else { -1 };
            }
        };
        let nothing = tenths_chart_outcome { lower: 0, upper: 0, lower_margin: 0, upper_margin: 0, good: -1 };
        let mut removals = vec![nothing; chart.cuts.len()];
        for told in &result.removals {
            mark(chart.drawing.len() + told.cut, &told.chain);
            removals[told.cut] = outcome(&told.removal, told.margin, Size::ZERO, told.suffices());
        }
        let mut dimensions = vec![];
        for (row, told) in result.dimensions.iter().enumerate() {
            mark(row, &told.chain);
            dimensions.push(outcome(&told.made, told.lower_margin, told.upper_margin, told.closes()));
        }
        if !self.chains.is_null() && self.chain_room < signs.len() {
            return Err(Failure::Room { what: "chains", least: signs.len(), got: self.chain_room });
        }
        // SAFETY: the caller's promises; the arrays in which we reckoned are our own.
        unsafe {
            copy(&dimensions, self.dimensions);
            copy(&removals, self.removals);
            copy(&signs, self.chains);
        }
        Ok(())
    }
}

fn outcome(made: &Limits, lower_margin: Size, upper_margin: Size, good: bool) -> tenths_chart_outcome {
    tenths_chart_outcome {
        lower: made.lower().picometres(),
        upper: made.upper().picometres(),
        lower_margin: lower_margin.picometres(),
        upper_margin: upper_margin.picometres(),
        good: i32::from(good),
    }
}

/// # Safety
/// `to` is null or writable for all of `elements`.
unsafe fn copy<T: Copy>(elements: &[T], to: *mut T) {
    if !to.is_null() {
        // SAFETY: the caller's promise.
        unsafe { std::ptr::copy_nonoverlapping(elements.as_ptr(), to, elements.len()) };
    }
}

/// Writes derived limits.
///
/// # Safety
/// `steps` is valid for all of `working`.
unsafe fn settle(steps: *mut tenths_chart_step, working: impl Iterator<Item = Working>) {
    for (k, working) in working.enumerate() {
        // SAFETY: the caller's promise.
        let step = unsafe { &mut *steps.add(k) };
        if let (Working::Limits(limits), true) = (working, step.holds != 0) {
            (step.lower, step.upper) = (limits.lower().picometres(), limits.upper().picometres());
        }
    }
}
