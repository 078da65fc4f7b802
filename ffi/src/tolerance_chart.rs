//! Tolerance charts. Faces are numbered from left to right, and sizes are in picometres.
use crate::guard::guard;
use crate::object::write;
use crate::objects::tenths_chart_result;
use crate::status::{Failure, tenths_status};
use tenths::tolerance_chart::{Cut, DrawingDimension, Facing, MAX_ENTRIES, OperationChart, Stock, Working};
use tenths::{ChartError, Limits, Size, Units};

/// The material lies to the right of a face; a cut moves it to the right.
pub const TENTHS_FACING_LEFT: i32 = 0;
/// The material lies to the left of a face; a cut moves it to the left.
pub const TENTHS_FACING_RIGHT: i32 = 1;

/// A face of a tolerance chart.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_chart_face {
    /// `TENTHS_FACING_LEFT` or `TENTHS_FACING_RIGHT`: the direction it faces, out of the material.
    pub facing: i32,
    /// 1 for a face that exists before the first cut and has no dimension, such as an axis; 0 for the others.
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
    /// The least stock that the cut must remove from a face that exists already; 0 for the stock.
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

/// Evaluates a tolerance chart: whether stock and cuts, in their order, make the dimensions of a drawing, and what
/// stock each cut removes.
///
/// Faces are numbered by their places in `faces`, from left to right, and cuts and drawing dimensions by theirs; the
/// rows of the result give these numbers as text. An array may be null where its count is 0.
///
/// Working dimensions whose `holds` is not 0 are derived first, if `resolution` is not 0: that is the step of means and
/// tolerances, 1 for a picometre. The tolerance of each element of `drawing` is shared out among its chain in proportion
/// to what the processes hold, never below that; means are closed so that drawing dimensions lie at their middle and
/// each cut finds its least stock. The `working` rows of the result have the limits. Where the drawing allows less than
/// the processes hold, the call succeeds, and the rows show the dimensions that do not close.
///
/// # Safety
/// The arrays are valid for their counts; `result->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_chart_result(
    faces: *const tenths_chart_face,
    face_count: usize,
    stock: *const tenths_chart_step,
    stock_count: usize,
    cuts: *const tenths_chart_step,
    cut_count: usize,
    drawing: *const tenths_chart_dimension,
    drawing_count: usize,
    resolution: i64,
    result: *mut tenths_chart_result,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (faces, stock, cuts, drawing) = unsafe {
                (
                    array(faces, face_count, "faces")?,
                    array(stock, stock_count, "stock")?,
                    array(cuts, cut_count, "cuts")?,
                    array(drawing, drawing_count, "drawing")?,
                )
            };
            let chart = chart_of(faces, stock, cuts, drawing)?;
            Ok(match resolution {
                0 => chart.evaluate()?,
                step => chart.derive(Some(Size::from_picometres(step)))?,
            })
        };
        // SAFETY: the caller's promises.
        unsafe { write(result, "result", Units::Metric, made) }
    })
}

/// A copy of an array that C has handed over.
///
/// # Safety
/// `first` is null or valid for `count` elements.
unsafe fn array<T: Copy>(first: *const T, count: usize, name: &'static str) -> Result<Vec<T>, Failure> {
    if count > MAX_ENTRIES {
        return Err(ChartError::TooMany { what: name, count }.into());
    }
    if count > 0 && first.is_null() {
        return Err(Failure::Null(name));
    }
    // SAFETY: the caller's promise.
    Ok((0..count).map(|k| unsafe { first.add(k).read() }).collect())
}

/// The name of a face by its number; a number out of range gives a name that no face has.
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
        let cut = Cut::new(&k.to_string(), &name(step.face), &name(step.from), working(step)?);
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
