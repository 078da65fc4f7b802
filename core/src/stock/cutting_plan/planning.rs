//! From an order to its plan: what is given is judged, put into whole numbers and searched.
use std::time::{Duration, Instant};

use super::effort::Effort;
use super::error::CuttingError;
use super::order::{CuttingBar, CuttingOptions, MILLION, OrderedPiece};
use super::plan::{self, CuttingObjective, CuttingPlan};
use super::problem::{Bar, Demand, Problem};
use super::search;
use crate::size::Size;
use crate::stock::bar::usable;
use crate::watch::{Steps, Stopped, Watch};

/// Plans how to cut pieces from bars: of least cost where all bars have a price; without prices with the fewest bars if
/// they are of one length, and of the least total length if they are of several.
///
/// Pieces fit where their lengths, with one kerf between neighbours, fit in the bar less its trim, as
/// [`parts_per_bar`](crate::stock::bar::parts_per_bar) counts. All lengths are exact.
///
/// ```
/// use tenths::stock::{CuttingBar, CuttingOptions, OrderedPiece, cutting_plan};
/// use tenths::{Size, Watch};
/// let mm = |length| Size::from_float(length, tenths::Units::Metric).unwrap();
/// let pieces = [(2100.0, 7), (1500.0, 7), (1150.0, 7)].map(|(l, count)| OrderedPiece { length: mm(l), count });
/// let bars = [CuttingBar { length: mm(6000.0), available: None, price: None }];
/// let plan = cutting_plan(&pieces, &bars, &CuttingOptions::default(), &Watch::new())?;
/// assert!(plan.proven);
/// assert_eq!(plan.bars, 6);
/// # Ok::<(), tenths::stock::CuttingError>(())
/// ```
///
/// # Errors
/// [`CuttingError`].
pub fn cutting_plan(
    pieces: &[OrderedPiece],
    bars: &[CuttingBar],
    options: &CuttingOptions,
    watch: &Watch<'_>,
) -> Result<CuttingPlan, CuttingError> {
    check(pieces, bars, options)?;
    let pieces = wanted(pieces)?;
    let objective = CuttingObjective::of(bars)?;
    let (problem, unit) = problem(&pieces, bars, options, objective)?;
    let started = Instant::now();
    let limit = options.work_limit.unwrap_or(u64::MAX);
    let progress = Progress::new(watch, started, options);
    let goes_on = |steps| progress.goes_on(steps);
    let effort = Effort::new(limit, &goes_on);
    let outcome = search::search(&problem, &effort);
    progress.end()?;
    let Some(layouts) = outcome.layouts else {
        return Err(if outcome.complete { not_enough(bars) } else { CuttingError::NoPlanYet });
    };
    let proven = outcome.bound >= problem.cost(&layouts);
    let layouts = plan::exact(layouts, pieces.iter().map(|piece| piece.count as i64).collect());
    let bound = outcome.bound as f64 * unit;
    CuttingPlan::new(&pieces, bars, options, objective, &layouts, bound, proven)
}

/// How far a search is, for its watch: by the time or the work that it may take.
struct Progress<'a, 'w> {
    watch: &'a Watch<'w>,
    steps: Steps<'a>,
    started: Instant,
    time_limit: Option<Duration>,
    work_limit: Option<u64>,
    work: std::cell::Cell<u64>,
    told: std::cell::Cell<u64>,
}

/// Progress is told in so many parts.
const PARTS: u64 = 1000;

impl<'a, 'w> Progress<'a, 'w> {
    fn new(watch: &'a Watch<'w>, started: Instant, options: &CuttingOptions) -> Self {
        let steps = Steps::new(watch, PARTS);
        let (work, told) = Default::default();
        Self {
            watch,
            steps,
            started,
            time_limit: options.time_limit,
            work_limit: options.work_limit,
            work,
            told,
        }
    }

    fn goes_on(&self, steps: u64) -> bool {
        self.work.set(self.work.get() + steps);
        let share = |part: f64, whole: f64| (part / whole * PARTS as f64) as u64;
        let elapsed = self.started.elapsed();
        let time = self.time_limit.map_or(0, |limit| share(elapsed.as_secs_f64(), limit.as_secs_f64()));
        let work = self.work_limit.map_or(0, |limit| share(self.work.get() as f64, limit as f64));
        let done = time.max(work).min(PARTS - 1);
        let more = done.saturating_sub(self.told.get());
        self.told.set(self.told.get() + more);
        self.steps.count(more).is_ok() && self.time_limit.is_none_or(|limit| elapsed < limit)
    }

    fn end(&self) -> Result<(), Stopped> {
        if self.watch.is_stopped() { Err(Stopped) } else { self.steps.end() }
    }
}

fn check(pieces: &[OrderedPiece], bars: &[CuttingBar], options: &CuttingOptions) -> Result<(), CuttingError> {
    if bars.is_empty() {
        return Err(CuttingError::NoBars);
    }
    let pieces = pieces.iter().map(|piece| ("a length of piece", piece.length, true));
    let lengths = bars.iter().map(|bar| ("a length of bar", bar.length, true));
    let options = [
        ("the kerf", options.kerf),
        ("the end trim", options.end_trim),
        ("the remnant", options.remnant),
        ("the facing allowance", options.facing_allowance),
        ("the least leftover to keep", options.keep_from.unwrap_or(Size::ZERO)),
    ];
    let options = options.into_iter().map(|(what, size)| (what, size, false));
    for (what, size, positive) in pieces.chain(lengths).chain(options) {
        if size < Size::ZERO || (positive && size == Size::ZERO) {
            return Err(CuttingError::Negative { what, size, positive });
        }
    }
    Ok(())
}

/// What is wanted, each length once, the longest first.
fn wanted(pieces: &[OrderedPiece]) -> Result<Vec<OrderedPiece>, CuttingError> {
    let mut wanted: Vec<OrderedPiece> = pieces.iter().filter(|piece| piece.count > 0).copied().collect();
    wanted.sort_by_key(|piece| std::cmp::Reverse(piece.length));
    let mut once: Vec<OrderedPiece> = Vec::new();
    for piece in wanted {
        match once.last_mut() {
            Some(last) if last.length == piece.length => {
                last.count = last.count.checked_add(piece.count).ok_or(CuttingError::TooLarge)?;
            }
            _ => once.push(piece),
        }
    }
    let total = once.iter().try_fold(0u64, |total, piece| total.checked_add(piece.count));
    total.filter(|total| *total <= MAX_PIECES).map(|_| once).ok_or(CuttingError::TooLarge)
}

/// More pieces are not counted.
const MAX_PIECES: u64 = 1_000_000_000_000;
/// The problem in whole numbers, and what a unit of its costs comes to.
fn problem(
    pieces: &[OrderedPiece],
    bars: &[CuttingBar],
    options: &CuttingOptions,
    objective: CuttingObjective,
) -> Result<(Problem, f64), CuttingError> {
    let each = |piece: &OrderedPiece| {
        let weight = piece.length.checked_add(options.facing_allowance)?.checked_add(options.kerf)?;
        Some(Demand { weight: weight.picometres(), count: piece.count as i64 })
    };
    let demands: Vec<Demand> =
        pieces.iter().map(each).collect::<Option<_>>().ok_or(CuttingError::TooLarge)?;
    let bar = |bar: &CuttingBar| {
        let capacity = usable(bar.length, options.end_trim, options.remnant, options.kerf);
        let cost = match objective {
            CuttingObjective::Price => (bar.price.unwrap_or(0.0) * MILLION).round() as i64,
            CuttingObjective::Bars => 1,
            CuttingObjective::Length => bar.length.picometres(),
        };
        Bar {
            capacity: i64::try_from(capacity.max(0)).unwrap_or(i64::MAX),
            cost,
            available: bar.available.map(|count| i64::try_from(count).unwrap_or(i64::MAX)),
        }
    };
    let mut kinds: Vec<Bar> = bars.iter().map(bar).collect();
    let longest = kinds.iter().map(|bar| bar.capacity).max().unwrap_or(0);
    if let Some(place) = demands.iter().position(|demand| demand.weight > longest) {
        let taken = options.kerf.picometres() + options.facing_allowance.picometres();
        let longest = Size::from_picometres((longest - taken).max(0));
        return Err(CuttingError::PieceTooLong { length: pieces[place].length, longest });
    }
    let divisor = kinds.iter().fold(0, |divisor, bar| greatest_common_divisor(divisor, bar.cost)).max(1);
    kinds.iter_mut().for_each(|bar| bar.cost /= divisor);
    // As many bars as pieces are enough for any plan.
    let dearest = kinds.iter().map(|bar| bar.cost).max().unwrap_or(0);
    let most = pieces.iter().map(|piece| piece.count as i64).sum::<i64>();
    dearest.checked_mul(most).filter(|cost| *cost < i64::MAX / 4).ok_or(CuttingError::TooLarge)?;
    let unit = match objective {
        CuttingObjective::Price => divisor as f64 / MILLION,
        CuttingObjective::Bars => 1.0,
        CuttingObjective::Length => Size::from_picometres(divisor).to_float(options.units),
    };
    Ok((Problem { demands, bars: kinds }, unit))
}

fn greatest_common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { greatest_common_divisor(b, a % b) }
}

fn not_enough(bars: &[CuttingBar]) -> CuttingError {
    let bar = |bar: &CuttingBar| match bar.available {
        Some(count) => format!("{count} of {}", bar.length),
        None => format!("any number of {}", bar.length),
    };
    CuttingError::NotEnoughBars { bars: bars.iter().map(bar).collect::<Vec<_>>().join(", ") }
}
