//! What a call returns, and why it failed.
use tenths::cost::{StartError, TierError};
use tenths::cutting::best_cut::BestCutError;
use tenths::cutting::chatter::StabilityError;
use tenths::cutting::limit_to_machine::LimitError;
use tenths::cutting::path_feeds::PathFeedError;
use tenths::cutting::taylor_fit::TaylorFitError;
use tenths::formula::{MAX_INPUTS, Refusal};
use tenths::inspect::capability::CapabilityError;
use tenths::inspect::control_chart::ControlChartError;
use tenths::inspect::gauge_study::GaugeStudyError;
use tenths::inspect::process::drift::DriftError;
use tenths::inspect::sampling::SamplingError;
use tenths::inspect::uncertainty::UncertaintyError;
use tenths::limits::RowLimitsError;
use tenths::material::HardnessError;
use tenths::material::MaterialError;
use tenths::money::AmountError;
use tenths::object::OptionError;
use tenths::object::UnknownName;
use tenths::plan::PropagateError;
use tenths::plan::SheetError;
use tenths::registry::UnknownFormula;
use tenths::stack::StackError;
use tenths::starting_values::StartingValueError;
use tenths::stock::{CuttingError, StockError};
use tenths::workholding::{ClampError, LocatingError};
use tenths::{
    ChartError, CsvError, DecisionError, DocumentError, Error, FirstArticleError, FitError, FormError,
    Formula, GaugeError, GeneralToleranceError, KnurlError, LimitsError, PositionError, SizeError, Stopped,
    TaperError, ThreadError, Units,
};

/// Outcome of a call: zero is success and anything else an error. Numbers are never reused.
///
/// 1 to 99 are mistakes of the calling program, 100 to 199 numbers without an answer, 200 to 299 documents, 300 to
/// 399 tolerance stacks and samples, 400 is work that was stopped, and 900 is a fault of the library.
pub type tenths_status = i32;

/// Success.
pub const TENTHS_OK: tenths_status = 0;
/// A pointer that must not be null was null.
pub const TENTHS_NULL_POINTER: tenths_status = 1;
/// The unit system was neither `TENTHS_INCH` nor `TENTHS_METRIC`.
pub const TENTHS_BAD_UNITS: tenths_status = 2;
/// `struct_size` was less than that of the first version of the struct.
pub const TENTHS_BAD_STRUCT_SIZE: tenths_status = 3;
/// Text was not UTF-8.
pub const TENTHS_BAD_TEXT: tenths_status = 4;
/// The count of numbers was not what the formula or the call takes, or an array has too little room.
pub const TENTHS_BAD_COUNT: tenths_status = 5;
/// The name of the formula is unknown.
pub const TENTHS_UNKNOWN_FORMULA: tenths_status = 6;
/// A length is more than any text or array can have.
pub const TENTHS_BAD_LENGTH: tenths_status = 7;
/// A column is misaligned or longer than memory, or a result column has a stride of 0.
pub const TENTHS_BAD_COLUMN: tenths_status = 8;
/// There is no argument, result, rule or value of that number.
pub const TENTHS_BAD_INDEX: tenths_status = 9;
/// A member or a basis was neither `TENTHS_HOLE` nor `TENTHS_SHAFT`.
pub const TENTHS_BAD_MEMBER: tenths_status = 10;
/// An option has a value that it cannot have.
pub const TENTHS_BAD_OPTION: tenths_status = 11;
/// An argument is outside its domain.
pub const TENTHS_ARGUMENT: tenths_status = 100;
/// The arguments do not go together.
pub const TENTHS_RULE: tenths_status = 101;
/// The arguments are valid, but there is no finite result.
pub const TENTHS_NO_ANSWER: tenths_status = 102;
/// Text is not a size or limits.
pub const TENTHS_BAD_SIZE: tenths_status = 103;
/// No gauge suits the limits.
pub const TENTHS_NO_GAUGE: tenths_status = 104;
/// A formula cannot be solved for an argument, or no value of it gives the wanted result.
pub const TENTHS_UNSOLVABLE: tenths_status = 105;
/// Text that is not a valid thread designation, or one for which there are no limits.
pub const TENTHS_BAD_THREAD: tenths_status = 106;
/// No material of the table has the name, or several have it.
pub const TENTHS_NO_MATERIAL: tenths_status = 107;
/// Text that is not a class of ISO 286 or a fit, or one for which there are no figures.
pub const TENTHS_BAD_FIT: tenths_status = 108;
/// No line can be fitted to trials: too few, all alike, or a life that does not fall.
pub const TENTHS_NO_FIT: tenths_status = 110;
/// The cut cannot be fitted to a machine: another kind of formula, or a spindle speed below the range of the machine.
pub const TENTHS_NO_CUT: tenths_status = 111;
/// Text that is not a valid knurl designation of the standards.
pub const TENTHS_BAD_KNURL: tenths_status = 112;
/// The decision rule is unknown, or does not suit the limits and the uncertainty.
pub const TENTHS_NO_DECISION: tenths_status = 113;
/// The sampling plan does not exist, or a lot, an AQL, a sample, a risk or a fraction is out of range.
pub const TENTHS_NO_SAMPLING_PLAN: tenths_status = 122;
/// The uncertainty cannot be worked out: too few readings, or degrees of freedom, a coverage or a sample out of range.
pub const TENTHS_NO_UNCERTAINTY: tenths_status = 123;
/// A position cannot be judged: a tolerance below zero, a size outside its limits, or no material condition.
pub const TENTHS_NO_POSITION: tenths_status = 118;
/// A tolerance chart cannot be evaluated: a face does not exist, a chain breaks off, or limits are missing.
pub const TENTHS_BAD_CHART: tenths_status = 120;
/// Text that is not a standard taper.
pub const TENTHS_BAD_TAPER: tenths_status = 121;
/// There is no general tolerance of that class for the feature and its size.
pub const TENTHS_NO_GENERAL_TOLERANCE: tenths_status = 140;
/// Readings that cannot be judged by the plan: a rule that does not suit, two readings of one piece, too many.
pub const TENTHS_NO_FIRST_ARTICLE: tenths_status = 141;
/// No feature goes through the points: too few, alike, or not finite.
pub const TENTHS_NO_FORM: tenths_status = 142;
/// There is no control chart of that kind for the readings, sizes or options.
pub const TENTHS_NO_CONTROL_CHART: tenths_status = 130;
/// A gauge study of these readings or ratings, layout or options has no answer.
pub const TENTHS_NO_GAUGE_STUDY: tenths_status = 131;
/// There is no cutting plan: a piece does not fit, the bars do not hold all pieces, or a price or limit is not valid.
pub const TENTHS_NO_CUTTING_PLAN: tenths_status = 150;
/// Locators or clamps cannot be judged, or the shift that was asked for is open.
pub const TENTHS_NO_LOCATING: tenths_status = 160;
/// There is no clamp or way of holding of that name, or what was given of one does not suit it.
pub const TENTHS_NO_CLAMP: tenths_status = 161;
/// There is no answer about stock: a form, size, list, amount or time is not valid, or a part does not fit in a bar.
pub const TENTHS_NO_STOCK: tenths_status = 151;
/// There is no answer about an amount of money, pieces to start, or prices by quantity.
pub const TENTHS_NO_COST: tenths_status = 180;
/// A hardness is beyond the range of the table, or its scale is unknown.
pub const TENTHS_NO_HARDNESS: tenths_status = 152;
/// There is no best cut: the problem cannot be posed, or its limits contradict each other; the message says which.
pub const TENTHS_NO_BEST_CUT: tenths_status = 164;
/// No drift can be told from the readings, part numbers, limits or options.
pub const TENTHS_NO_DRIFT: tenths_status = 133;
/// There is no capability for the readings, limits or options.
pub const TENTHS_NO_CAPABILITY: tenths_status = 132;
/// There are no stability lobes for the modes, response or cut, or no stable speed.
pub const TENTHS_NO_STABILITY: tenths_status = 162;
/// A toolpath has no feeds: a segment or a limit cannot be, or nothing bounds a feed.
pub const TENTHS_NO_PATH_FEEDS: tenths_status = 163;
/// A plan document has faults; the message lists them.
pub const TENTHS_PLAN_FAULTS: tenths_status = 200;
/// The document of a machine has faults; the message lists them.
pub const TENTHS_MACHINE_FAULTS: tenths_status = 205;
/// A plan has no such sheet: it has no rates to quote by.
pub const TENTHS_NO_SHEET: tenths_status = 206;
/// CSV of readings has faults; the message lists them, each with its row and column.
pub const TENTHS_CSV_FAULTS: tenths_status = 210;
/// A chain has no contributors.
pub const TENTHS_NO_CONTRIBUTORS: tenths_status = 300;
/// A sensitivity or a count of pieces is out of range.
pub const TENTHS_BAD_CONTRIBUTOR: tenths_status = 301;
/// Limits of a number are reversed, or not finite.
pub const TENTHS_BAD_BAND: tenths_status = 302;
/// The distribution is unknown, or one of its numbers is out of range.
pub const TENTHS_BAD_DISTRIBUTION: tenths_status = 303;
/// No contributor, input, argument or result has that name or number.
pub const TENTHS_UNKNOWN_NAME: tenths_status = 304;
/// Several contributors have that name, or an input was given twice.
pub const TENTHS_AMBIGUOUS_NAME: tenths_status = 305;
/// Only normal dimensions that occur once can be correlated.
pub const TENTHS_NOT_CORRELATABLE: tenths_status = 306;
/// A covariance or correlation that no set of dimensions could have.
pub const TENTHS_NOT_POSITIVE: tenths_status = 307;
/// A closing dimension is too large to count in picometres.
pub const TENTHS_OUT_OF_RANGE: tenths_status = 308;
/// A count of samples, a number of blocks, a percentage, a factor, a share or a limit is not valid, or blocks do not
/// make one sample.
pub const TENTHS_BAD_SAMPLING: tenths_status = 309;
/// A function has no value at the inputs that the message names.
pub const TENTHS_UNDEFINED: tenths_status = 310;
/// A function has too few or too many inputs, an input of a formula is missing, the result of a formula with several
/// was not named, a part of a vector loop or a curve of costs is not valid, or a target cannot be kept.
pub const TENTHS_BAD_FUNCTION: tenths_status = 311;
/// Bytes are not blocks of a sample.
pub const TENTHS_BAD_BLOCKS: tenths_status = 312;
/// A choice is not one of the constants of the call.
pub const TENTHS_BAD_CHOICE: tenths_status = 313;
/// The function that watched the work stopped it.
pub const TENTHS_STOPPED: tenths_status = 400;
/// A fault of the library: please report it.
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
    #[error(transparent)]
    UnknownFormula(#[from] UnknownFormula),
    #[error("{0} is more than any text or array can hold")]
    Length(usize),
    #[error(
        "column {name} is misaligned: the address of its first number and its stride, {stride} bytes, must be multiples of {}",
        align_of::<f64>()
    )]
    Misaligned { name: &'static str, stride: isize },
    #[error("column {name} is longer than memory: {rows} rows at a stride of {stride} bytes")]
    Column { name: &'static str, stride: isize, rows: usize },
    #[error("column {0} needs a stride other than 0: its rows would overwrite each other")]
    NoStride(&'static str),
    #[error("{formula} has {count} {what}, and number {index} is past the last")]
    Index { formula: &'static str, what: &'static str, count: usize, index: usize },
    #[error("face {0} must face TENTHS_FACING_LEFT (0) or TENTHS_FACING_RIGHT (1), not {1}")]
    Facing(usize, i32),
    #[error("it must be TENTHS_HOLE (0) or TENTHS_SHAFT (1), not {0}")]
    Member(i32),
    #[error("there are {expected} {what}, not {got}")]
    Elements { what: &'static str, expected: usize, got: usize },
    #[error("there are {kept} values: cannot give {count} from number {first}")]
    Values { first: usize, count: usize, kept: usize },
    #[error("{0} is not a distribution; expected TENTHS_NORMAL (0) to TENTHS_MEASURED (7)")]
    Law(i32),
    #[error("{what} must be from 0 to {last}, not {got}")]
    Choice { what: &'static str, last: i32, got: i32 },
    #[error("confidence must be between 0 and 1, not {0}")]
    Confidence(f64),
    #[error("a number must be finite, not {0}")]
    Finite(f64),
    #[error("the rate of defects must be from 0 to 1, not {0}")]
    Rate(f64),
    #[error(transparent)]
    Stack(#[from] StackError),
    #[error(transparent)]
    Formula(#[from] Error),
    /// What a formula refuses, as the numbers themselves: a text takes longer than the arithmetic.
    #[error("{}", formula.error(*refusal, *units, &arguments[..formula.arguments.len()]))]
    Refused { formula: &'static Formula, units: Units, refusal: Refusal, arguments: [f64; MAX_INPUTS] },
    #[error(transparent)]
    Size(#[from] SizeError),
    #[error(transparent)]
    Limits(#[from] LimitsError),
    #[error(transparent)]
    RowLimits(#[from] RowLimitsError),
    #[error(transparent)]
    Gauge(#[from] GaugeError),
    #[error(transparent)]
    Decision(#[from] DecisionError),
    #[error(transparent)]
    Sampling(#[from] SamplingError),
    #[error(transparent)]
    Uncertainty(UncertaintyError),
    #[error(transparent)]
    Position(#[from] PositionError),
    #[error(transparent)]
    General(#[from] GeneralToleranceError),
    #[error("`{0}` is not a format; expected `markdown`, `html`, `json`, `csv` or `csv comma`")]
    Format(String),
    #[error(transparent)]
    Sheet(#[from] SheetError),
    #[error(transparent)]
    Csv(#[from] CsvError),
    #[error(transparent)]
    FirstArticle(#[from] FirstArticleError),
    #[error(transparent)]
    Form(#[from] FormError),
    #[error(transparent)]
    Chart(#[from] ChartError),
    #[error(transparent)]
    Material(#[from] MaterialError),
    #[error(transparent)]
    Name(#[from] UnknownName),
    #[error(transparent)]
    StartingValue(StartingValueError),
    #[error(transparent)]
    Thread(#[from] ThreadError),
    #[error(transparent)]
    Knurl(#[from] KnurlError),
    #[error(transparent)]
    Taper(#[from] TaperError),
    #[error(transparent)]
    Designation(#[from] FitError),
    #[error(transparent)]
    ControlChart(#[from] ControlChartError),
    #[error(transparent)]
    Cutting(#[from] CuttingError),
    #[error(transparent)]
    Amount(#[from] AmountError),
    #[error(transparent)]
    Start(#[from] StartError),
    #[error(transparent)]
    Tier(#[from] TierError),
    #[error(transparent)]
    Stock(#[from] StockError),
    #[error(transparent)]
    Hardness(#[from] HardnessError),
    #[error(transparent)]
    Option(#[from] OptionError),
    #[error(transparent)]
    Locating(#[from] LocatingError),
    #[error(transparent)]
    Clamp(ClampError),
    #[error(transparent)]
    PathFeed(#[from] PathFeedError),
    #[error(transparent)]
    Stability(#[from] StabilityError),
    #[error(transparent)]
    GaugeStudy(#[from] GaugeStudyError),
    #[error(transparent)]
    Capability(#[from] CapabilityError),
    #[error(transparent)]
    Drift(#[from] DriftError),
    #[error(transparent)]
    Plan(#[from] DocumentError),
    #[error(transparent)]
    Fit(#[from] TaylorFitError),
    #[error("machine: {0}")]
    Machine(DocumentError),
    #[error(transparent)]
    Limit(LimitError),
    #[error(transparent)]
    BestCut(BestCutError),
    #[error(transparent)]
    Stopped(#[from] Stopped),
}

impl From<PropagateError> for Failure {
    fn from(error: PropagateError) -> Self {
        match error {
            PropagateError::Plan(error) => Failure::Plan(error),
            PropagateError::Stopped(stopped) => Failure::Stopped(stopped),
        }
    }
}

impl From<BestCutError> for Failure {
    fn from(error: BestCutError) -> Self {
        match error {
            BestCutError::Formula(error) => Failure::Formula(error),
            BestCutError::Stopped(stopped) => Failure::Stopped(stopped),
            other => Failure::BestCut(other),
        }
    }
}

impl From<LimitError> for Failure {
    fn from(error: LimitError) -> Self {
        match error {
            LimitError::Formula(error) => Failure::Formula(error),
            other => Failure::Limit(other),
        }
    }
}

impl From<UncertaintyError> for Failure {
    fn from(error: UncertaintyError) -> Self {
        match error {
            UncertaintyError::Model(error) => Failure::Stack(error),
            other => Failure::Uncertainty(other),
        }
    }
}

impl From<ClampError> for Failure {
    fn from(error: ClampError) -> Failure {
        match error {
            ClampError::Formula(error) => error.into(),
            other => Failure::Clamp(other),
        }
    }
}

impl From<StartingValueError> for Failure {
    fn from(error: StartingValueError) -> Failure {
        match error {
            StartingValueError::Name(error) => Failure::Name(error),
            other => Failure::StartingValue(other),
        }
    }
}

impl Failure {
    /// What a formula refuses.
    #[cold]
    #[inline(never)]
    pub(crate) fn refused(
        formula: &'static Formula,
        units: Units,
        refusal: Refusal,
        given: &[f64],
    ) -> Failure {
        let mut arguments = [f64::NAN; MAX_INPUTS];
        arguments.iter_mut().zip(given).for_each(|(to, from)| *to = *from);
        Failure::Refused { formula, units, refusal, arguments }
    }

    pub(crate) fn status(&self) -> tenths_status {
        match self {
            Failure::Null(_) => TENTHS_NULL_POINTER,
            Failure::Units(_) => TENTHS_BAD_UNITS,
            Failure::StructSize { .. } => TENTHS_BAD_STRUCT_SIZE,
            Failure::Text(_) => TENTHS_BAD_TEXT,
            Failure::UnknownFormula(_) => TENTHS_UNKNOWN_FORMULA,
            Failure::Length(_) => TENTHS_BAD_LENGTH,
            Failure::Column { .. } | Failure::Misaligned { .. } | Failure::NoStride(_) => TENTHS_BAD_COLUMN,
            Failure::Index { .. } => TENTHS_BAD_INDEX,
            Failure::Size(_) | Failure::Limits(_) | Failure::RowLimits(_) => TENTHS_BAD_SIZE,
            Failure::Gauge(_) => TENTHS_NO_GAUGE,
            Failure::Decision(_) => TENTHS_NO_DECISION,
            Failure::Sampling(_) => TENTHS_NO_SAMPLING_PLAN,
            Failure::Uncertainty(_) => TENTHS_NO_UNCERTAINTY,
            Failure::Position(_) => TENTHS_NO_POSITION,
            Failure::Form(FormError::Position(_)) => TENTHS_NO_POSITION,
            Failure::Form(_) => TENTHS_NO_FORM,
            Failure::Csv(CsvError::Encoding { .. }) => TENTHS_BAD_TEXT,
            Failure::Csv(_) => TENTHS_CSV_FAULTS,
            Failure::FirstArticle(_) => TENTHS_NO_FIRST_ARTICLE,
            Failure::General(GeneralToleranceError::NoSize(_)) => TENTHS_BAD_SIZE,
            Failure::General(_) => TENTHS_NO_GENERAL_TOLERANCE,
            Failure::Chart(_) | Failure::Facing(..) => TENTHS_BAD_CHART,
            Failure::Material(_) | Failure::StartingValue(_) => TENTHS_NO_MATERIAL,
            Failure::Name(_) => TENTHS_UNKNOWN_NAME,
            Failure::Thread(_) => TENTHS_BAD_THREAD,
            Failure::Knurl(_) => TENTHS_BAD_KNURL,
            Failure::Taper(_) => TENTHS_BAD_TAPER,
            Failure::Designation(_) => TENTHS_BAD_FIT,
            Failure::Member(_) => TENTHS_BAD_MEMBER,
            Failure::ControlChart(_) => TENTHS_NO_CONTROL_CHART,
            Failure::Locating(_) => TENTHS_NO_LOCATING,
            Failure::Clamp(_) => TENTHS_NO_CLAMP,
            Failure::Cutting(CuttingError::Stopped(_)) => TENTHS_STOPPED,
            Failure::Cutting(_) => TENTHS_NO_CUTTING_PLAN,
            Failure::PathFeed(_) => TENTHS_NO_PATH_FEEDS,
            Failure::Stability(StabilityError::Tool(error)) => formula_status(error),
            Failure::Stability(_) => TENTHS_NO_STABILITY,
            Failure::Amount(_) | Failure::Start(_) | Failure::Tier(_) => TENTHS_NO_COST,
            Failure::Stock(_) => TENTHS_NO_STOCK,
            Failure::Hardness(_) => TENTHS_NO_HARDNESS,
            Failure::GaugeStudy(_) => TENTHS_NO_GAUGE_STUDY,
            Failure::Capability(_) => TENTHS_NO_CAPABILITY,
            Failure::Drift(_) => TENTHS_NO_DRIFT,
            Failure::Plan(_) => TENTHS_PLAN_FAULTS,
            Failure::Formula(error) | Failure::Stack(StackError::Formula(error)) => formula_status(error),
            Failure::Refused { refusal, .. } => refusal_status(*refusal),
            Failure::Elements { .. } => TENTHS_BAD_COUNT,
            Failure::Values { .. } => TENTHS_BAD_INDEX,
            Failure::Law(_) => TENTHS_BAD_DISTRIBUTION,
            Failure::Option(_) => TENTHS_BAD_OPTION,
            Failure::Choice { .. } | Failure::Format(_) => TENTHS_BAD_CHOICE,
            Failure::Sheet(SheetError::Kind(_) | SheetError::Format(_)) => TENTHS_BAD_CHOICE,
            Failure::Sheet(_) => TENTHS_NO_SHEET,
            Failure::Finite(_) => TENTHS_ARGUMENT,
            Failure::Confidence(_) | Failure::Rate(_) => TENTHS_BAD_SAMPLING,
            Failure::Stack(error) => stack_status(error),
            Failure::Fit(TaylorFitError::Trial { .. }) | Failure::Limit(LimitError::LeastFeed(_)) => {
                TENTHS_ARGUMENT
            }
            Failure::Fit(_) => TENTHS_NO_FIT,
            Failure::Machine(_) => TENTHS_MACHINE_FAULTS,
            Failure::Limit(_) => TENTHS_NO_CUT,
            Failure::BestCut(_) => TENTHS_NO_BEST_CUT,
            Failure::Stopped(_) => TENTHS_STOPPED,
        }
    }
}

fn formula_status(error: &Error) -> tenths_status {
    match error {
        Error::Argument { .. } => TENTHS_ARGUMENT,
        Error::Rule { .. } => TENTHS_RULE,
        Error::NoAnswer { .. } => TENTHS_NO_ANSWER,
        Error::Count { .. } => TENTHS_BAD_COUNT,
        Error::Unsolvable { .. } => TENTHS_UNSOLVABLE,
        Error::Stopped(_) => TENTHS_STOPPED,
        _ => TENTHS_INTERNAL,
    }
}

fn stack_status(error: &StackError) -> tenths_status {
    match error {
        StackError::NoContributors => TENTHS_NO_CONTRIBUTORS,
        StackError::Sensitivity { .. } | StackError::Count { .. } => TENTHS_BAD_CONTRIBUTOR,
        StackError::Limits { .. } | StackError::Size(_) => TENTHS_BAD_SIZE,
        StackError::Band { .. } => TENTHS_BAD_BAND,
        StackError::Distribution { .. } | StackError::UnknownDistribution { .. } => TENTHS_BAD_DISTRIBUTION,
        StackError::UnknownName { .. } => TENTHS_UNKNOWN_NAME,
        StackError::AmbiguousName { .. } => TENTHS_AMBIGUOUS_NAME,
        StackError::NotCorrelatable { .. } => TENTHS_NOT_CORRELATABLE,
        StackError::NotPositive { .. } => TENTHS_NOT_POSITIVE,
        StackError::OutOfRange => TENTHS_OUT_OF_RANGE,
        StackError::Sampling(_) | StackError::SpreadLimits { .. } => TENTHS_BAD_SAMPLING,
        StackError::Undefined { .. } => TENTHS_UNDEFINED,
        StackError::Function(_)
        | StackError::HowMany { .. }
        | StackError::Missing { .. }
        | StackError::SeveralResults { .. }
        | StackError::Reading { .. }
        | StackError::LoopPart { .. }
        | StackError::Unknown { .. }
        | StackError::Target { .. }
        | StackError::OutOfReach { .. }
        | StackError::FreeTolerance { .. }
        | StackError::Scale(_)
        | StackError::OtherStack => TENTHS_BAD_FUNCTION,
        StackError::Bytes(_) => TENTHS_BAD_BLOCKS,
        StackError::Formula(error) => formula_status(error),
        StackError::Stopped(_) => TENTHS_STOPPED,
        _ => TENTHS_INTERNAL,
    }
}

/// What the scalar call returns for a row that has no answer.
pub(crate) fn refusal_status(refusal: Refusal) -> tenths_status {
    match refusal {
        Refusal::Argument(_) => TENTHS_ARGUMENT,
        Refusal::Rule(_) => TENTHS_RULE,
        Refusal::NoAnswer(_) => TENTHS_NO_ANSWER,
        Refusal::Arguments(_) | Refusal::Results(_) => TENTHS_BAD_COUNT,
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
        TENTHS_UNKNOWN_FORMULA => c"the name of the formula is unknown",
        TENTHS_BAD_LENGTH => c"a length is more than any text or array can have",
        TENTHS_BAD_COLUMN => c"a column is misaligned, longer than memory, or has no stride",
        TENTHS_BAD_INDEX => c"there is no argument, result, rule or value of that number",
        TENTHS_BAD_SIZE => c"text is not a size or limits",
        TENTHS_NO_GAUGE => c"no gauge suits the limits",
        TENTHS_UNSOLVABLE => c"the formula cannot be solved for the argument",
        TENTHS_NO_MATERIAL => c"no material has the name, or several have it",
        TENTHS_BAD_THREAD => c"text is not a valid thread designation, or there are no limits for it",
        TENTHS_BAD_FIT => c"text is not a class or a fit, or there are no figures for it",
        TENTHS_BAD_MEMBER => c"a member or a basis is neither hole nor shaft",
        TENTHS_BAD_OPTION => c"an option has a value that it cannot have",
        TENTHS_NO_SAMPLING_PLAN => c"the sampling plan does not exist, or a number of it is out of range",
        TENTHS_NO_DECISION => {
            c"the decision rule is unknown, or does not suit the limits and the uncertainty"
        }
        TENTHS_NO_UNCERTAINTY => c"the uncertainty cannot be worked out from these numbers",
        TENTHS_NO_POSITION => c"the position cannot be judged",
        TENTHS_NO_GENERAL_TOLERANCE => {
            c"there is no general tolerance of that class for the feature and its size"
        }
        TENTHS_NO_FIRST_ARTICLE => c"the readings cannot be judged by the plan",
        TENTHS_NO_CLAMP => c"no such clamp, or what was given does not suit it",
        TENTHS_NO_LOCATING => c"locators or clamps cannot be judged",
        TENTHS_NO_FORM => c"no feature goes through the points",
        TENTHS_CSV_FAULTS => c"CSV of readings has faults",
        TENTHS_BAD_CHART => c"the tolerance chart cannot be evaluated",
        TENTHS_NO_FIT => c"no line can be fitted to the trials",
        TENTHS_NO_BEST_CUT => c"there is no best cut for the choices, limits and objective",
        TENTHS_NO_CUT => c"the cut cannot be fitted to a machine",
        TENTHS_MACHINE_FAULTS => c"the document of a machine has faults",
        TENTHS_BAD_KNURL => c"text is not a valid knurl designation of the standards",
        TENTHS_BAD_TAPER => c"text is not a standard taper",
        TENTHS_NO_CONTROL_CHART => c"there is no such control chart for the readings, sizes or options",
        TENTHS_NO_CUTTING_PLAN => c"there is no cutting plan for the pieces, bars or options",
        TENTHS_NO_STOCK => c"no answer about stock",
        TENTHS_NO_COST => c"no answer about cost",
        TENTHS_NO_HARDNESS => c"no comparison of the hardness",
        TENTHS_NO_GAUGE_STUDY => c"a gauge study of these readings, layout or options has no answer",
        TENTHS_NO_DRIFT => c"no drift can be told from the readings, part numbers, limits or options",
        TENTHS_NO_CAPABILITY => c"there is no capability for the readings, limits or options",
        TENTHS_NO_PATH_FEEDS => c"the toolpath has no feeds",
        TENTHS_NO_STABILITY => c"there are no stability lobes, or no stable speed",
        TENTHS_PLAN_FAULTS => c"the plan document has faults",
        TENTHS_ARGUMENT => c"an argument is outside its domain",
        TENTHS_RULE => c"the arguments do not go together",
        TENTHS_NO_ANSWER => c"there is no finite result",
        TENTHS_NO_CONTRIBUTORS => c"a chain has no contributors",
        TENTHS_BAD_CONTRIBUTOR => c"a sensitivity or a count of pieces is out of range",
        TENTHS_BAD_BAND => c"limits of a number are reversed or not finite",
        TENTHS_BAD_DISTRIBUTION => c"the distribution is unknown, or one of its numbers is out of range",
        TENTHS_UNKNOWN_NAME => c"no contributor, input, argument or result has that name or number",
        TENTHS_AMBIGUOUS_NAME => c"several have that name, or an input was given twice",
        TENTHS_NOT_CORRELATABLE => c"only normal dimensions that occur once can be correlated",
        TENTHS_NOT_POSITIVE => c"no set of dimensions has that covariance or correlation",
        TENTHS_OUT_OF_RANGE => c"a closing dimension is too large to count in picometres",
        TENTHS_BAD_SAMPLING => c"a count, a number, a share or a limit of a sample is not valid",
        TENTHS_UNDEFINED => c"the function has no value there",
        TENTHS_BAD_FUNCTION => c"a function, a vector loop or an allocation is not valid",
        TENTHS_BAD_BLOCKS => c"bytes are not blocks of a sample",
        TENTHS_BAD_CHOICE => c"a choice is not one of the constants of the call",
        TENTHS_STOPPED => c"the work was stopped",
        TENTHS_INTERNAL => c"a fault of the library",
        _ => c"unknown status",
    };
    text.as_ptr()
}
