//! What a call returns, and why it failed.
use tenths::cutting::limit_to_machine::LimitError;
use tenths::cutting::machine::MachineError;
use tenths::cutting::taylor_fit::TaylorFitError;
use tenths::formula::Refusal;
use tenths::material::MaterialError;
use tenths::{
    ChartError, DecisionError, Error, FitError, GaugeError, KnurlError, LimitsError, PlanError,
    PositionError, SizeError, TaperError, ThreadError,
};

/// Outcome of a call: zero is success and anything else an error. Numbers are never reused.
///
/// 1 to 99 are mistakes of the calling program, 100 to 199 numbers without an answer, 200 to 299 documents,
/// and 900 is a fault of the library.
pub type tenths_status = i32;

/// Success.
pub const TENTHS_OK: tenths_status = 0;
/// A pointer that must lead somewhere was null.
pub const TENTHS_NULL_POINTER: tenths_status = 1;
/// The unit system was neither `TENTHS_INCH` nor `TENTHS_METRIC`.
pub const TENTHS_BAD_UNITS: tenths_status = 2;
/// `struct_size` was less than that of the first version of the struct.
pub const TENTHS_BAD_STRUCT_SIZE: tenths_status = 3;
/// Text was not UTF-8.
pub const TENTHS_BAD_TEXT: tenths_status = 4;
/// The count of numbers was not what the formula takes, or an array has too little room.
pub const TENTHS_BAD_COUNT: tenths_status = 5;
/// There is no formula of that name.
pub const TENTHS_UNKNOWN_FORMULA: tenths_status = 6;
/// A length that no text or array can have.
pub const TENTHS_BAD_LENGTH: tenths_status = 7;
/// A column whose numbers are not aligned, or which is longer than memory.
pub const TENTHS_BAD_COLUMN: tenths_status = 8;
/// There is no argument, result or rule of that number.
pub const TENTHS_BAD_INDEX: tenths_status = 9;
/// A member or a basis was neither `TENTHS_HOLE` nor `TENTHS_SHAFT`.
pub const TENTHS_BAD_MEMBER: tenths_status = 10;
/// An argument lies outside its domain.
pub const TENTHS_ARGUMENT: tenths_status = 100;
/// The arguments do not go together.
pub const TENTHS_RULE: tenths_status = 101;
/// The arguments pass, and yet there is no finite result.
pub const TENTHS_NO_ANSWER: tenths_status = 102;
/// Text that gives no size or no limits.
pub const TENTHS_BAD_SIZE: tenths_status = 103;
/// No gauge suits the limits.
pub const TENTHS_NO_GAUGE: tenths_status = 104;
/// A formula cannot be solved for an argument, or no value of it gives the wanted result.
pub const TENTHS_UNSOLVABLE: tenths_status = 105;
/// Text that is no thread, or one for which there are no limits.
pub const TENTHS_BAD_THREAD: tenths_status = 106;
/// No material of the table has the name, or several have it.
pub const TENTHS_NO_MATERIAL: tenths_status = 107;
/// Text that is no class of ISO 286 and no fit, or one for which there are no figures.
pub const TENTHS_BAD_FIT: tenths_status = 108;
/// No line can be fitted to trials: too few, all alike, or a life that does not fall.
pub const TENTHS_NO_FIT: tenths_status = 110;
/// The machine cannot be asked for this cut: another kind of formula, or a spindle speed below its range.
pub const TENTHS_NO_CUT: tenths_status = 111;
/// Text that is no knurl of the standards.
pub const TENTHS_BAD_KNURL: tenths_status = 112;
/// There is no decision rule of that kind for the limits and the uncertainty.
pub const TENTHS_NO_DECISION: tenths_status = 113;
/// A position cannot be judged: a tolerance below zero, a size outside its limits, or no material condition.
pub const TENTHS_NO_POSITION: tenths_status = 118;
/// A tolerance chart that cannot be reckoned: a face that is not there, a chain that breaks off, no limits.
pub const TENTHS_BAD_CHART: tenths_status = 120;
/// Text that is no standard taper.
pub const TENTHS_BAD_TAPER: tenths_status = 121;
/// A plan document has faults; the message lists them.
pub const TENTHS_PLAN_FAULTS: tenths_status = 200;
/// The document of a machine has faults; the message lists them.
pub const TENTHS_MACHINE_FAULTS: tenths_status = 205;
/// A fault of the library, caught at its border: please report it.
pub const TENTHS_INTERNAL: tenths_status = 900;

/// Why a call failed.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    #[error("{0} is null")]
    Null(&'static str),
    #[error("units must be TENTHS_INCH (0) or TENTHS_METRIC (1), not {0}")]
    Units(i32),
    #[error("struct_size of {what} must be at least {least}, not {got}")]
    StructSize { what: &'static str, least: usize, got: usize },
    #[error("{0} is not UTF-8")]
    Text(&'static str),
    #[error("there is no formula `{0}`")]
    UnknownFormula(String),
    #[error("{0} is more than any text or array can hold")]
    Length(usize),
    #[error("column {name} cannot be walked in strides of {stride} bytes for {rows} rows")]
    Column { name: &'static str, stride: isize, rows: usize },
    #[error("{formula} has {count} {what}, and number {index} is past the last")]
    Index { formula: &'static str, what: &'static str, count: usize, index: usize },
    #[error("{what} needs room for {least} elements, not {got}")]
    Room { what: &'static str, least: usize, got: usize },
    #[error("face {0} must look TENTHS_FACING_LEFT (0) or TENTHS_FACING_RIGHT (1), not {1}")]
    Facing(usize, i32),
    #[error("it must be TENTHS_HOLE (0) or TENTHS_SHAFT (1), not {0}")]
    Member(i32),
    #[error(transparent)]
    Formula(#[from] Error),
    #[error(transparent)]
    Size(#[from] SizeError),
    #[error(transparent)]
    Limits(#[from] LimitsError),
    #[error(transparent)]
    Gauge(#[from] GaugeError),
    #[error(transparent)]
    Decision(#[from] DecisionError),
    #[error(transparent)]
    Position(#[from] PositionError),
    #[error(transparent)]
    Chart(#[from] ChartError),
    #[error(transparent)]
    Material(#[from] MaterialError),
    #[error(transparent)]
    Thread(#[from] ThreadError),
    #[error(transparent)]
    Knurl(#[from] KnurlError),
    #[error(transparent)]
    Taper(#[from] TaperError),
    #[error(transparent)]
    Designation(#[from] FitError),
    #[error(transparent)]
    Plan(#[from] PlanError),
    #[error(transparent)]
    Fit(#[from] TaylorFitError),
    #[error(transparent)]
    Machine(#[from] MachineError),
    #[error(transparent)]
    Limit(LimitError),
}

impl From<LimitError> for Failure {
    fn from(error: LimitError) -> Self {
        match error {
            LimitError::Formula(error) => Failure::Formula(error),
            other => Failure::Limit(other),
        }
    }
}

impl Failure {
    pub(crate) fn status(&self) -> tenths_status {
        match self {
            Failure::Null(_) => TENTHS_NULL_POINTER,
            Failure::Units(_) => TENTHS_BAD_UNITS,
            Failure::StructSize { .. } => TENTHS_BAD_STRUCT_SIZE,
            Failure::Text(_) => TENTHS_BAD_TEXT,
            Failure::UnknownFormula(_) => TENTHS_UNKNOWN_FORMULA,
            Failure::Length(_) => TENTHS_BAD_LENGTH,
            Failure::Column { .. } => TENTHS_BAD_COLUMN,
            Failure::Index { .. } => TENTHS_BAD_INDEX,
            Failure::Size(_) | Failure::Limits(_) => TENTHS_BAD_SIZE,
            Failure::Gauge(_) => TENTHS_NO_GAUGE,
            Failure::Decision(_) => TENTHS_NO_DECISION,
            Failure::Position(_) => TENTHS_NO_POSITION,
            Failure::Chart(_) | Failure::Facing(..) => TENTHS_BAD_CHART,
            Failure::Room { .. } => TENTHS_BAD_COUNT,
            Failure::Material(_) => TENTHS_NO_MATERIAL,
            Failure::Thread(_) => TENTHS_BAD_THREAD,
            Failure::Knurl(_) => TENTHS_BAD_KNURL,
            Failure::Taper(_) => TENTHS_BAD_TAPER,
            Failure::Designation(_) => TENTHS_BAD_FIT,
            Failure::Member(_) => TENTHS_BAD_MEMBER,
            Failure::Plan(_) => TENTHS_PLAN_FAULTS,
            Failure::Formula(Error::Argument { .. }) => TENTHS_ARGUMENT,
            Failure::Formula(Error::Rule { .. }) => TENTHS_RULE,
            Failure::Formula(Error::NoAnswer { .. }) => TENTHS_NO_ANSWER,
            Failure::Formula(Error::Count { .. }) => TENTHS_BAD_COUNT,
            Failure::Formula(Error::Unsolvable { .. }) => TENTHS_UNSOLVABLE,
            Failure::Formula(_) => TENTHS_INTERNAL,
            Failure::Fit(TaylorFitError::Trial { .. }) | Failure::Limit(LimitError::LeastFeed(_)) => {
                TENTHS_ARGUMENT
            }
            Failure::Fit(_) => TENTHS_NO_FIT,
            Failure::Machine(_) => TENTHS_MACHINE_FAULTS,
            Failure::Limit(_) => TENTHS_NO_CUT,
        }
    }
}

/// What the scalar call returns for a row that has no answer.
pub(crate) fn refusal_status(refusal: Refusal) -> tenths_status {
    match refusal {
        Refusal::Argument(_) => TENTHS_ARGUMENT,
        Refusal::Rule(_) => TENTHS_RULE,
        Refusal::NoAnswer(_) => TENTHS_NO_ANSWER,
    }
}

/// What a status means, in English: a constant text, never null, not to be freed.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_status_text(status: tenths_status) -> *const std::ffi::c_char {
    let text = match status {
        TENTHS_OK => c"success",
        TENTHS_NULL_POINTER => c"a pointer is null",
        TENTHS_BAD_UNITS => c"the unit system is neither inch nor metric",
        TENTHS_BAD_STRUCT_SIZE => c"struct_size is too small",
        TENTHS_BAD_TEXT => c"text is not UTF-8",
        TENTHS_BAD_COUNT => c"the count of numbers is not what the call takes",
        TENTHS_UNKNOWN_FORMULA => c"there is no formula of that name",
        TENTHS_BAD_LENGTH => c"a length is more than any text or array can have",
        TENTHS_BAD_COLUMN => c"a column is not aligned, or longer than memory",
        TENTHS_BAD_INDEX => c"there is no argument, result or rule of that number",
        TENTHS_BAD_SIZE => c"text gives no size or no limits",
        TENTHS_NO_GAUGE => c"no gauge suits the limits",
        TENTHS_UNSOLVABLE => c"the formula cannot be solved for the argument",
        TENTHS_NO_MATERIAL => c"no material has the name, or several have it",
        TENTHS_BAD_THREAD => c"text is no thread, or there are no limits for it",
        TENTHS_BAD_FIT => c"text is no class or fit, or there are no figures for it",
        TENTHS_BAD_MEMBER => c"a member or a basis is neither hole nor shaft",
        TENTHS_NO_DECISION => c"there is no such decision rule for the limits and the uncertainty",
        TENTHS_NO_POSITION => c"the position cannot be judged",
        TENTHS_BAD_CHART => c"the tolerance chart cannot be reckoned",
        TENTHS_NO_FIT => c"no line can be fitted to the trials",
        TENTHS_NO_CUT => c"the machine cannot be asked for this cut",
        TENTHS_MACHINE_FAULTS => c"the document of a machine has faults",
        TENTHS_BAD_KNURL => c"text is no knurl of the standards",
        TENTHS_BAD_TAPER => c"text is no standard taper",
        TENTHS_PLAN_FAULTS => c"the plan document has faults",
        TENTHS_ARGUMENT => c"an argument lies outside its domain",
        TENTHS_RULE => c"the arguments do not go together",
        TENTHS_NO_ANSWER => c"there is no finite result",
        TENTHS_INTERNAL => c"a fault of the library",
        _ => c"unknown status",
    };
    text.as_ptr()
}
