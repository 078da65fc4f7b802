//! Samples in numbered blocks: the same bits for any count of threads or machines.
use std::cmp::Ordering;
use std::sync::Mutex;

use super::StackError;
use super::moments::SampleMoments;
use super::sketch::{Grid, Sketch};
use super::variates::{ROWS, RandomSource};
use crate::parallel::{on_threads, threads_for};
use crate::simd::{WideLoop, run_wide};
use crate::watch::{Steps, Watch};

/// Samples in a block. Each block has a stream of random words of its own.
pub const BLOCK: u64 = 16_384;

/// The greatest count of samples whose values are all kept, so that percentiles are exact: 2^24. Of a greater count a
/// sketch is kept.
pub const EXACT_COUNT: u64 = if cfg!(test) { QUICK_COUNT } else { 1 << 24 };
/// That count in the tests of this crate, which are to be quick.
const QUICK_COUNT: u64 = 1 << 19;

/// The greatest count of samples: 2^34.
pub const MAX_COUNT: u64 = 1 << 34;

/// How many samples to take, and of which stream.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Sampling {
    /// How many samples.
    pub count: u64,
    /// Any number: the same one gives the same sample.
    pub seed: u64,
    /// Lower and upper limit, by which values are counted out, in the unit of what is sampled. Either may be infinite.
    pub limits: (f64, f64),
    /// How many threads share the work, 256 at the most; zero stands for as many as the machine runs at once. The
    /// result does not depend on it.
    pub threads: usize,
}

impl Sampling {
    /// So many samples, without limits, on all threads.
    pub fn new(count: u64, seed: u64) -> Sampling {
        Sampling { count, seed, limits: (f64::NEG_INFINITY, f64::INFINITY), threads: 0 }
    }

    /// With limits, by which values are counted out.
    pub fn within(self, lower: f64, upper: f64) -> Sampling {
        Sampling { limits: (lower, upper), ..self }
    }

    /// How many blocks there are.
    pub fn blocks(&self) -> u64 {
        self.count.div_ceil(BLOCK)
    }

    /// Whether every value is kept, so that percentiles are exact.
    pub fn is_exact(&self) -> bool {
        self.count <= EXACT_COUNT
    }

    pub(crate) fn check(&self) -> Result<(), StackError> {
        let (lower, upper) = self.limits;
        if !(1..=MAX_COUNT).contains(&self.count) {
            return Err(StackError::Sampling(format!(
                "a sample must have 1 to {MAX_COUNT} values, not {}",
                self.count
            )));
        }
        if !matches!(lower.partial_cmp(&upper), Some(Ordering::Less | Ordering::Equal)) {
            return Err(StackError::Sampling(format!(
                "{lower} to {upper} are not valid limits: the lower one comes first"
            )));
        }
        Ok(())
    }

    /// How many values block `number` has.
    pub(crate) fn length(&self, number: u64) -> usize {
        (self.count - number * BLOCK).min(BLOCK) as usize
    }

    pub(crate) fn threads(&self, blocks: u64) -> usize {
        threads_for(self.threads, blocks)
    }
}

/// What is kept of each block.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Summary {
    pub moments: SampleMoments,
    pub below: u64,
    pub above: u64,
    pub undefined: u64,
}

/// Some of the blocks of a sample, one after the other; [`Sample::fold`](super::Sample::fold) brings all of them together.
#[derive(Clone, Debug)]
pub struct Blocks {
    pub(crate) sampling: Sampling,
    pub(crate) first: u64,
    pub(crate) summaries: Vec<Summary>,
    /// The defined values in order, where all are kept.
    pub(crate) values: Vec<f64>,
    /// Where not all are kept.
    pub(crate) sketch: Sketch,
    /// A value of a stream that no block has, the same in all portions of one model; NaN where there is no other.
    pub(crate) probe: f64,
}

impl Blocks {
    /// The number of the first one.
    pub fn first(&self) -> u64 {
        self.first
    }

    /// How many there are.
    pub fn count(&self) -> u64 {
        self.summaries.len() as u64
    }

    /// Whether both may be of the same stack or function. Machines may differ in the last digits of a function.
    pub(crate) fn may_go_with(&self, other: &Blocks) -> bool {
        let (a, b) = (self.probe, other.probe);
        let is_near = a == b || (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) || (a.is_nan() && b.is_nan());
        is_near && self.sketch.grid() == other.sketch.grid()
    }
}

/// How many threads drew them does not matter, nor whether other portions are expected.
impl PartialEq for Blocks {
    fn eq(&self, other: &Blocks) -> bool {
        let threads = self.sampling.threads;
        self.sampling == Sampling { threads, ..other.sampling }
            && self.first == other.first
            && self.summaries == other.summaries
            && self.values == other.values
            && self.sketch == other.sketch
    }
}

/// Something that is sampled.
pub(crate) trait Model: Sync {
    /// How many rows are filled at a time, between which the work can be stopped.
    fn rows(&self) -> usize {
        8 * ROWS
    }

    /// Fills `values` with the next values of the source, [`Model::rows`] of them or what is left of a block, NaN where
    /// there is none.
    fn fill(&self, source: &mut RandomSource, values: &mut [f64]) -> Result<(), StackError>;
}

/// Draws a block into `values`, of which the defined ones come first, and summarises it.
fn draw<M: Model + ?Sized>(
    model: &M,
    sampling: &Sampling,
    number: u64,
    values: &mut [f64],
    steps: &Steps,
) -> Result<Summary, StackError> {
    let mut source = RandomSource::new(sampling.seed, number);
    for part in values.chunks_mut(model.rows()) {
        model.fill(&mut source, part)?;
        steps.count(part.len() as u64)?;
    }
    let defined = keep_defined(values);
    let summary = run_wide(Summarise { values: &values[..defined], limits: sampling.limits });
    Ok(Summary { undefined: (values.len() - defined) as u64, ..summary })
}

/// What tells portions of one model from those of another: a value that no block has.
fn probe<M: Model + ?Sized>(model: &M, sampling: &Sampling) -> Result<f64, StackError> {
    let mut value = [0.0];
    model.fill(&mut RandomSource::new(sampling.seed, u64::MAX), &mut value)?;
    Ok(value[0])
}

/// Where the bins of a sketch lie: by a block of a stream that no block has, so that all portions agree.
fn grid<M: Model + ?Sized>(model: &M, sampling: &Sampling, steps: &Steps) -> Result<Grid, StackError> {
    if sampling.is_exact() {
        return Ok(Grid::default());
    }
    let mut pilot = vec![0.0; BLOCK as usize];
    let mut source = RandomSource::new(sampling.seed, u64::MAX);
    for part in pilot.chunks_mut(model.rows()) {
        model.fill(&mut source, part)?;
        steps.count(0)?;
    }
    Ok(Grid::of(pilot))
}

/// Moves values that are no NaN to the front, and tells how many they are.
fn keep_defined(values: &mut [f64]) -> usize {
    // Without a branch in the usual case.
    if !values.iter().fold(false, |any, value| any | value.is_nan()) {
        return values.len();
    }
    let mut kept = 0;
    for place in 0..values.len() {
        if !values[place].is_nan() {
            values[kept] = values[place];
            kept += 1;
        }
    }
    kept
}

struct Summarise<'a> {
    values: &'a [f64],
    limits: (f64, f64),
}

impl WideLoop for Summarise<'_> {
    type Output = Summary;

    /// In parts that stay in the first cache.
    #[inline(always)]
    fn run(self) -> Summary {
        let (lower, upper) = self.limits;
        let (mut moments, mut below, mut above) = (SampleMoments::NONE, 0, 0);
        for part in self.values.chunks(ROWS) {
            moments = moments.and(SampleMoments::of(part));
            below += part.iter().map(|value| u64::from(*value < lower)).sum::<u64>();
            above += part.iter().map(|value| u64::from(*value > upper)).sum::<u64>();
        }
        Summary { moments, below, above, undefined: 0 }
    }
}

/// Samples some of the blocks of a model.
pub(crate) fn sample_blocks<M: Model + ?Sized>(
    model: &M,
    sampling: &Sampling,
    first: u64,
    count: u64,
    watch: &Watch,
) -> Result<Blocks, StackError> {
    sampling.check()?;
    let numbers = first..first.saturating_add(count);
    if numbers.end > sampling.blocks() {
        return Err(StackError::Sampling(format!(
            "cannot draw {count} blocks from number {first}: the sample has {}",
            sampling.blocks()
        )));
    }
    let total: u64 = numbers.clone().map(|number| sampling.length(number) as u64).sum();
    let steps = Steps::new(watch, total);
    let kept = if sampling.is_exact() { total as usize } else { 0 };
    let mut values = vec![0.0; kept];
    let grid = grid(model, sampling, &steps)?;
    let mut parts = values.chunks_mut(BLOCK as usize);
    let tasks = Mutex::new(numbers.map(|number| (number, parts.next())));
    let next_task = || tasks.lock().ok().and_then(|mut tasks| tasks.next());
    let work = || -> Result<_, StackError> {
        let (mut done, mut scratch, mut sketch) = (Vec::new(), Vec::new(), Sketch::new(grid));
        while let Some((number, part)) = next_task() {
            let is_kept = part.is_some();
            let values = part.unwrap_or_else(|| {
                scratch.resize(sampling.length(number), 0.0);
                &mut scratch
            });
            let summary = draw(model, sampling, number, values, &steps)?;
            if !is_kept {
                sketch.add(&values[..summary.moments.count as usize]);
            }
            done.push((number, summary));
        }
        Ok((done, sketch))
    };
    let (mut done, mut sketch) = (Vec::new(), Sketch::new(grid));
    for (some, of_thread) in on_threads(sampling.threads(count), &work)? {
        done.extend(some);
        sketch.merge(&of_thread);
    }
    done.sort_unstable_by_key(|(number, _)| *number);
    let summaries: Vec<_> = done.into_iter().map(|(_, summary)| summary).collect();
    close_gaps(&mut values, &summaries);
    let probe = if count == sampling.blocks() { f64::NAN } else { probe(model, sampling)? };
    steps.end()?;
    Ok(Blocks { sampling: *sampling, first, summaries, values, sketch, probe })
}

/// Brings the defined values of all blocks together.
fn close_gaps(values: &mut Vec<f64>, summaries: &[Summary]) {
    if values.is_empty() || summaries.iter().all(|block| block.undefined == 0) {
        return;
    }
    let mut end = 0;
    for (number, summary) in summaries.iter().enumerate() {
        let (start, count) = (number * BLOCK as usize, summary.moments.count as usize);
        values.copy_within(start..start + count, end);
        end += count;
    }
    values.truncate(end);
}
