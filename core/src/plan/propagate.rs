//! A plan evaluated many times with numbers that vary: how often each finding occurs, and how figures spread.
//!
//! The text is read once. For each sample the drawn numbers take their places in its tree, which is decoded and
//! evaluated as any other, so that whatever a document is judged by judges each sample. Blocks of samples have streams
//! of their own, and their results are brought together in order, so that the answer does not depend on threads.
use super::checked::Plan;
use super::document::Document;
use super::evaluate;
use super::output::Output;
use super::sheet::Sheet;
use super::variation::{Variation, check};
use crate::document::fault::{DocumentError, FaultKind, Faults, Place};
use crate::document::node::{Content, Tree};
use crate::finding::Severity;
use crate::parallel::on_threads;
use crate::stack::{Draw, Fraction, Input, ROWS, RandomSource, Sample, Sampling, VariateBlock, wilson};
use crate::watch::{Steps, Stopped, Watch};
use serde::Serialize;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};

/// What a plan comes to where its numbers vary.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Propagated {
    /// How many samples were taken.
    pub count: u64,
    /// The number that they were drawn by.
    pub seed: u64,
    /// How often each finding occurs: the gravest first, then the most frequent.
    pub findings: Vec<FindingShare>,
    /// How many samples are no plan that can be evaluated. They have no findings and no figures.
    pub refused: SampledShare,
    /// Why not: the faults of their documents, the most frequent first.
    pub faults: Vec<FaultShare>,
    /// How the figures that were asked for spread.
    pub outputs: Vec<OutputSpread>,
}

/// How often something occurs, with an interval of 95 percent confidence for its share of all cases.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct SampledShare {
    /// In how many samples.
    pub count: u64,
    /// That of all samples.
    pub fraction: f64,
    /// Lower end of the interval.
    pub lower: f64,
    /// Upper end of the interval.
    pub upper: f64,
}

/// A finding, and how often it occurs.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct FindingShare {
    /// Its code.
    pub code: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Where in the document: a JSON Pointer.
    pub place: String,
    /// How often.
    pub share: SampledShare,
}

/// A fault, and how often it occurs.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct FaultShare {
    /// What kind of fault it is.
    pub kind: FaultKind,
    /// Where in the document: a JSON Pointer.
    pub place: String,
    /// How often.
    pub share: SampledShare,
}

/// How a figure of the sheet spreads.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OutputSpread {
    /// Where in the sheet: a JSON Pointer.
    pub place: String,
    /// In how many samples it is not there.
    pub undefined: u64,
    /// Mean, standard deviation and extremes; none where it is in no sample.
    pub spread: Option<OutputStatistics>,
    /// The sample with all its values.
    #[serde(skip)]
    pub sample: Option<Sample>,
}

/// What the sample of a figure tells, in the unit of the sheet.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OutputStatistics {
    /// Mean.
    pub mean: f64,
    /// Standard deviation; none for a single value.
    pub sigma: Option<f64>,
    /// The least value.
    pub minimum: f64,
    /// The greatest value.
    pub maximum: f64,
    /// Percentages, and the values that so many percent do not exceed.
    pub percentiles: Vec<(f64, f64)>,
}

/// The percentiles that are told of a figure: the middle, and the bands of 95 and of 99.73 percent.
const PERCENTS: [f64; 5] = [0.135, 2.5, 50.0, 97.5, 99.865];

impl Plan {
    /// The plan evaluated for a sample of the numbers that vary.
    ///
    /// The name of an input is a JSON Pointer to a number of the document, or to a text with one number; its limits are
    /// in the units of the document, and replace what stands there. `outputs` are JSON Pointers to numbers of the sheet
    /// as JSON: `/minutes_per_part`, `/operations/2/figures/0/value`. Samples that `stacks` ask for are left out.
    ///
    /// # Errors
    /// [`DocumentError`] where a place is none, or more is asked than [`MAX_PLAN_SAMPLES`] and its like allow; the place of
    /// a fault is where a [`Variation`] has it. And as [`Plan::evaluate`] for the plan as it is.
    ///
    /// [`MAX_PLAN_SAMPLES`]: super::MAX_PLAN_SAMPLES
    pub fn propagate(
        &self,
        varying: &[Input],
        sampling: &Sampling,
        outputs: &[&str],
    ) -> Result<Propagated, DocumentError> {
        self.propagate_watched(varying, sampling, outputs, &Watch::new()).map_err(PropagateError::unwatched)
    }

    /// [`Plan::propagate`] under a watch, which can stop it and is told how far it is.
    ///
    /// # Errors
    /// As [`Plan::propagate`], and [`PropagateError::Stopped`].
    pub fn propagate_watched(
        &self,
        varying: &[Input],
        sampling: &Sampling,
        outputs: &[&str],
        watch: &Watch,
    ) -> Result<Propagated, PropagateError> {
        let quantity = u64::from(self.document.part.quantity);
        let is_quoted = outputs.iter().any(|pointer| Output::is_quoted(pointer));
        self.sampled(varying, sampling, outputs, is_quoted.then_some(quantity), watch)
    }

    /// The same, with sheets that are quoted for a quantity, where there is one.
    pub(super) fn sampled(
        &self,
        varying: &[Input],
        sampling: &Sampling,
        outputs: &[&str],
        quoted: Option<u64>,
        watch: &Watch,
    ) -> Result<Propagated, PropagateError> {
        let tree = Tree::parse(&self.text).map_err(DocumentError::from)?;
        check(tree.root(), self.text.len(), varying, sampling, outputs.len())?;
        let sheet = made(&self.document, &self.sha256, quoted)?;
        let mut faults = Faults::default();
        let mut followed = vec![];
        for (k, pointer) in outputs.iter().enumerate() {
            match Output::new(pointer, &sheet) {
                Ok(output) => followed.push(output),
                Err(message) => {
                    faults.add(FaultKind::NotThere, Place::ROOT.field("outputs").index(k), || message)
                }
            }
        }
        if faults.count() > 0 {
            return Err(DocumentError::from(faults).into());
        }
        let positions = varying.iter().filter_map(|input| tree.root().position(&input.name)).collect();
        let draws = varying.iter().map(|input| Draw::new(&input.distribution, input.middle(), input.half()));
        let model =
            Model { plan: self, positions, draws: draws.collect(), outputs: followed, sampling, quoted };
        Ok(model.propagated(outputs, watch)?)
    }

    /// As [`Plan::propagate`], from a [`Variation`] as JSON.
    ///
    /// # Errors
    /// As [`Plan::propagate`], and [`DocumentError`] with every fault of the request.
    pub fn propagate_json(&self, variation: &str) -> Result<Propagated, DocumentError> {
        self.propagate_json_watched(variation, &Watch::new()).map_err(PropagateError::unwatched)
    }

    /// [`Plan::propagate_json`] under a watch.
    ///
    /// # Errors
    /// As [`Plan::propagate_json`], and [`PropagateError::Stopped`].
    pub fn propagate_json_watched(
        &self,
        variation: &str,
        watch: &Watch,
    ) -> Result<Propagated, PropagateError> {
        let variation = Variation::from_json(variation)?;
        let inputs = self.inputs(&variation)?;
        let outputs: Vec<&str> = variation.outputs.iter().map(String::as_str).collect();
        self.propagate_watched(&inputs, &variation.sampling(), &outputs, watch)
    }

    /// What varies, as a request has it.
    pub(super) fn inputs(&self, variation: &Variation) -> Result<Vec<Input>, DocumentError> {
        let tree = Tree::parse(&self.text)?;
        variation.inputs(tree.root(), self.document.units)
    }
}

/// Why a plan whose numbers vary came to nothing.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum PropagateError {
    /// The plan or what was asked has faults.
    #[error(transparent)]
    Plan(#[from] DocumentError),
    /// The work was stopped.
    #[error(transparent)]
    Stopped(#[from] Stopped),
}

impl PropagateError {
    /// The faults of work that nobody could stop.
    pub(super) fn unwatched(self) -> DocumentError {
        match self {
            PropagateError::Plan(error) => error,
            PropagateError::Stopped(_) => Faults::default().into(),
        }
    }
}

impl Propagated {
    /// What it comes to as JSON.
    pub fn to_json(&self) -> String {
        // Only maps with keys that are no text, and failing writers, are refused; there are none.
        serde_json::to_string(self).unwrap_or_default()
    }
}

/// A plan made ready to be drawn.
struct Model<'m> {
    plan: &'m Plan,
    /// Of what varies, in the tree of the text.
    positions: Vec<usize>,
    draws: Vec<Draw>,
    outputs: Vec<Output>,
    sampling: &'m Sampling,
    /// The quantity that each sample is quoted for, where it is.
    quoted: Option<u64>,
}

/// The sheet of a document, quoted for a quantity where there is one.
fn made(document: &Document, sha256: &str, quoted: Option<u64>) -> Result<Sheet, DocumentError> {
    let sheet = evaluate::evaluate(document, sha256, false)?;
    Ok(match quoted {
        Some(quantity) => document.with_quote(sheet, quantity),
        None => sheet,
    })
}

/// In how many samples something occurred, and the last of them.
#[derive(Clone, Copy, Default)]
struct Count {
    samples: u64,
    last: Option<u64>,
}

impl Count {
    /// Counts a sample once, however often the thing occurs in it.
    fn add(&mut self, sample: u64) {
        self.samples += u64::from(self.last != Some(sample));
        self.last = Some(sample);
    }
}

/// What some blocks come to.
#[derive(Default)]
struct Tally {
    findings: BTreeMap<(String, &'static str, Severity), Count>,
    faults: BTreeMap<(String, FaultKind), Count>,
    refused: u64,
    /// The columns of what is followed, with the numbers of their blocks.
    columns: Vec<(u64, Vec<Vec<f64>>)>,
}

impl Tally {
    fn add(&mut self, sample: u64, result: Result<Sheet, DocumentError>) {
        match result {
            Ok(sheet) => {
                for finding in sheet.findings {
                    let key = (finding.place, finding.code, finding.severity);
                    self.findings.entry(key).or_default().add(sample);
                }
            }
            Err(error) => {
                self.refused += 1;
                for fault in error.faults() {
                    self.faults.entry((fault.place.clone(), fault.kind)).or_default().add(sample);
                }
            }
        }
    }

    fn merge(&mut self, other: Tally) {
        for (key, count) in other.findings {
            self.findings.entry(key).or_default().samples += count.samples;
        }
        for (key, count) in other.faults {
            self.faults.entry(key).or_default().samples += count.samples;
        }
        self.refused += other.refused;
        self.columns.extend(other.columns);
    }
}

impl Model<'_> {
    fn propagated(&self, places: &[&str], watch: &Watch) -> Result<Propagated, Stopped> {
        let Sampling { count, seed, .. } = *self.sampling;
        let blocks = count.div_ceil(ROWS as u64);
        let (next, steps) = (AtomicU64::new(0), Steps::new(watch, count));
        let parts = on_threads(self.sampling.threads(blocks), &|| self.blocks(blocks, &next, &steps))?;
        let mut tally = Tally::default();
        parts.into_iter().for_each(|of_thread| tally.merge(of_thread));
        let mut values = std::mem::take(&mut tally.columns);
        values.sort_unstable_by_key(|(number, _)| *number);
        let share = |count_of: u64| SampledShare::new(count_of, count);
        let findings = tally.findings.into_iter().map(|((place, code, severity), found)| FindingShare {
            code,
            severity,
            place,
            share: share(found.samples),
        });
        let mut findings: Vec<_> = findings.collect();
        findings.sort_by_key(|one| std::cmp::Reverse((one.severity, one.share.count)));
        let faults = tally.faults.into_iter().map(|((place, kind), found)| FaultShare {
            kind,
            place,
            share: share(found.samples),
        });
        let mut faults: Vec<_> = faults.collect();
        faults.sort_by_key(|one| std::cmp::Reverse(one.share.count));
        let outputs = places.iter().enumerate().map(|(k, place)| {
            let all = values.iter().flat_map(|(_, columns)| &columns[k]).copied().collect();
            OutputSpread::new(place, self.sampling, all)
        });
        let (refused, outputs) = (share(tally.refused), outputs.collect());
        steps.end()?;
        Ok(Propagated { count, seed, findings, refused, faults, outputs })
    }

    /// Blocks of samples, as long as there are any.
    fn blocks(&self, blocks: u64, next: &AtomicU64, steps: &Steps) -> Result<Tally, Stopped> {
        let mut tally = Tally::default();
        // The text was read before.
        let Ok(mut tree) = Tree::parse(&self.plan.text) else { return Ok(tally) };
        let mut columns: Vec<VariateBlock> = vec![[0.0; ROWS]; self.draws.len()];
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            if number >= blocks {
                return Ok(tally);
            }
            let mut source = RandomSource::new(self.sampling.seed, number);
            for (draw, column) in self.draws.iter().zip(&mut columns) {
                draw.fill(&mut source, column);
            }
            let first = number * ROWS as u64;
            let rows = (self.sampling.count - first).min(ROWS as u64) as usize;
            let mut followed = vec![Vec::with_capacity(rows); self.outputs.len()];
            for row in 0..rows {
                for (position, column) in self.positions.iter().zip(&columns) {
                    tree.put(*position, Content::Number(column[row]));
                }
                let document = Plan::decode(&tree);
                let result = document.and_then(|own| made(&own, &self.plan.sha256, self.quoted));
                for (output, column) in self.outputs.iter().zip(&mut followed) {
                    column
                        .push(result.as_ref().ok().and_then(|sheet| output.read(sheet)).unwrap_or(f64::NAN));
                }
                tally.add(first + row as u64, result);
                steps.count(1)?;
            }
            tally.columns.push((number, followed));
        }
    }
}

impl SampledShare {
    fn new(count: u64, of: u64) -> SampledShare {
        let Fraction { value, lower, upper } = wilson(count, of, 0.95);
        SampledShare { count, fraction: value, lower, upper }
    }
}

impl OutputSpread {
    fn new(place: &str, sampling: &Sampling, values: Vec<f64>) -> OutputSpread {
        let sample = Sample::of_values(sampling, values).ok();
        let spread = sample.as_ref().map(|sample| {
            let found = sample.percentiles(&PERCENTS).unwrap_or_default();
            OutputStatistics {
                mean: sample.mean(),
                sigma: Some(sample.sigma()).filter(|sigma| sigma.is_finite()),
                minimum: sample.minimum(),
                maximum: sample.maximum(),
                percentiles: PERCENTS.into_iter().zip(found.iter().map(|one| one.value)).collect(),
            }
        });
        let undefined = sample.as_ref().map_or(sampling.count, Sample::undefined);
        OutputSpread { place: place.into(), undefined, spread, sample }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Fault;

    #[test]
    fn what_occurs_twice_in_a_sample_counts_once() {
        let fault = |place: &str| Fault {
            kind: FaultKind::Conflict,
            place: place.into(),
            line_and_column: None,
            message: "odd".into(),
        };
        let error = |places: &[&str]| {
            let mut faults = Faults::default();
            places.iter().for_each(|place| faults.push(|| fault(place)));
            Err(faults.into())
        };
        let (mut one, mut other) = (Tally::default(), Tally::default());
        one.add(0, error(&["/a", "/b", "/a"]));
        one.add(1, error(&["/a"]));
        other.add(2, error(&["/a"]));
        one.merge(other);
        let counts: Vec<_> = one.faults.iter().map(|((place, _), count)| (&**place, count.samples)).collect();
        assert_eq!((one.refused, counts), (3, vec![("/a", 3), ("/b", 1)]));
    }
}
