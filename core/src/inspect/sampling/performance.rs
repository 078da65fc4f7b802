//! What a plan does to lots of a quality: how many it accepts, what goes out, and how much is inspected.
use super::counts::Counts;
use super::error::SamplingError;
use super::kinds::LotModel;
use super::stage::SamplingStage;
use tenths_macros::Object;

/// What a sampling plan does to lots of a quality.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore)]
pub struct PlanPerformance {
    /// The fraction of nonconforming pieces, or of nonconformities per piece.
    pub fraction: f64,
    /// The share of such lots that the plan accepts: a point of its operating characteristic (OC).
    pub acceptance_probability: f64,
    /// The average fraction that goes out (AOQ), where rejected lots are sorted piece by piece and every piece found
    /// nonconforming is replaced by a good one. Of a plan without a lot size, that of a very large lot.
    pub average_outgoing_quality: f64,
    /// The average number of pieces inspected for a decision (ASN); each sample is inspected whole.
    pub average_sample_number: f64,
    /// The average number of pieces inspected (ATI) where rejected lots are sorted; of a plan with a lot size.
    pub average_total_inspection: Option<f64>,
}

/// A number, and its slope as the fraction grows.
#[derive(Clone, Copy, Default)]
struct Sloped {
    value: f64,
    slope: f64,
}

impl Sloped {
    fn add(&mut self, other: Sloped) {
        self.value += other.value;
        self.slope += other.slope;
    }

    fn times(self, other: Sloped) -> Sloped {
        Sloped { value: self.value * other.value, slope: self.value * other.slope + self.slope * other.value }
    }
}

/// What becomes of lots at each stage.
struct Ends {
    /// The share that comes to each stage.
    reached: Vec<f64>,
    /// The share that each stage accepts.
    accepted: Vec<Sloped>,
    /// The nonconforming pieces found in these, on average over all lots.
    found: f64,
}

/// The stages of a plan, and the size of its lots.
#[derive(Clone, Copy)]
pub(super) struct Lots<'a> {
    pub stages: &'a [SamplingStage],
    pub lot: Option<u64>,
}

impl Lots<'_> {
    /// What the plan does to lots of a fraction.
    pub(super) fn at(self, fraction: f64, model: LotModel) -> Result<PlanPerformance, SamplingError> {
        let most = if model == LotModel::Poisson { MAX_PER_PIECE } else { 1.0 };
        if !(0.0..=most).contains(&fraction) {
            return Err(SamplingError::Fraction { fraction, model });
        }
        match model {
            LotModel::Hypergeometric => {
                let lot = self.lot.ok_or(SamplingError::LotUnknown)?;
                let marked = fraction * lot as f64;
                let whole = (marked + 0.5).floor();
                match (marked - whole).abs() <= 1e-6 {
                    true => Ok(self.with_marked(lot, whole as u64)),
                    false => Err(SamplingError::PartOfPiece { fraction, lot, marked }),
                }
            }
            _ => Ok(self.with_fraction(fraction, model).0),
        }
    }

    /// What the plan does to lots with this number of nonconforming pieces.
    pub(super) fn with_marked(self, lot: u64, marked: u64) -> PlanPerformance {
        let ends = self.walk(true, |inspected, found, pieces| {
            let counts =
                Counts::hypergeometric(pieces, lot - inspected.min(lot), marked.saturating_sub(found));
            move |count| Sloped { value: counts.of(count), slope: 0.0 }
        });
        let fraction = marked as f64 / lot as f64;
        let told = self.told(fraction, &ends);
        let accepted: f64 = ends.accepted.iter().map(|share| share.value).sum();
        let left = (marked as f64 * accepted - ends.found).max(0.0);
        PlanPerformance { average_outgoing_quality: left / lot as f64, ..told }
    }

    /// What the plan does to lots from a process, and the slope of the outgoing quality.
    fn with_fraction(self, fraction: f64, model: LotModel) -> (PlanPerformance, f64) {
        let poisson = model == LotModel::Poisson;
        let ends = self.walk(false, |_, _, pieces| {
            let mean = pieces as f64 * fraction;
            let counts = if poisson { Counts::poisson(mean) } else { Counts::binomial(pieces, fraction) };
            let scale = if poisson { fraction } else { fraction * (1.0 - fraction) };
            move |count| {
                let value = counts.of(count);
                Sloped { value, slope: if scale > 0.0 { value * (count as f64 - mean) / scale } else { 0.0 } }
            }
        });
        let outgoing = self.outgoing(fraction, &ends);
        (
            PlanPerformance { average_outgoing_quality: outgoing.value, ..self.told(fraction, &ends) },
            outgoing.slope,
        )
    }

    /// The fraction at which most goes out (the AOQ is then the AOQL), and what the plan does there.
    pub(super) fn worst(self, model: LotModel) -> Result<PlanPerformance, SamplingError> {
        let last = self.stages.last().map_or(1.0, |stage| f64::from(stage.reject));
        let first = self.stages.first().map_or(1.0, |stage| stage.sample_size as f64);
        // Beyond this nearly every lot is rejected at the first sample.
        let end = 4.0 * (last + 4.0) / first;
        if model == LotModel::Hypergeometric {
            let lot = self.lot.ok_or(SamplingError::LotUnknown)?;
            let rejects: u64 = self.stages.iter().map(|stage| u64::from(stage.reject)).sum();
            if lot > MAX_COUNTED_LOT || lot * rejects > MAX_COUNTED {
                return Err(SamplingError::LotTooLarge { lot });
            }
            let marked = 0..=((end * lot as f64) as u64).min(lot);
            let all = marked.map(|marked| self.with_marked(lot, marked));
            let worse = |one: PlanPerformance, other: PlanPerformance| {
                if other.average_outgoing_quality > one.average_outgoing_quality { other } else { one }
            };
            return Ok(all.reduce(worse).unwrap_or(self.with_marked(lot, 0)));
        }
        let end = if model == LotModel::Poisson { end } else { end.min(1.0) };
        let at = |place: usize| end * place as f64 / STEPS as f64;
        let outgoing = |place: usize| self.with_fraction(at(place), model).0.average_outgoing_quality;
        let (mut best, mut most) = (1, outgoing(1));
        for place in 2..=STEPS {
            let here = outgoing(place);
            if here > most {
                (best, most) = (place, here);
            }
        }
        let (mut low, mut high) = (at(best - 1), at((best + 1).min(STEPS)));
        // The slope changes its sign once between the neighbours.
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            match self.with_fraction(middle, model).1 > 0.0 {
                true => low = middle,
                false => high = middle,
            }
        }
        Ok(self.with_fraction(high, model).0)
    }

    /// Follows lots from stage to stage. `chance(inspected, found, pieces)` gives the chance of each count among `pieces`
    /// more, where `found` were found among those inspected, which matters where `depends`.
    fn walk<C: Fn(u64) -> Sloped>(self, depends: bool, chance: impl Fn(u64, u64, u64) -> C) -> Ends {
        let mut ends = Ends { reached: vec![], accepted: vec![], found: 0.0 };
        let mut going = vec![Sloped { value: 1.0, slope: 0.0 }];
        let mut inspected = 0;
        for (number, stage) in self.stages.iter().enumerate() {
            ends.reached.push(going.iter().map(|share| share.value).sum());
            let mut next = vec![Sloped::default(); stage.reject as usize];
            let mut of = chance(inspected, 0, stage.sample_size);
            for (found, share) in going.into_iter().enumerate() {
                if share.value == 0.0 && share.slope == 0.0 {
                    continue;
                }
                if depends {
                    of = chance(inspected, found as u64, stage.sample_size);
                }
                for (more, place) in next.iter_mut().skip(found).enumerate() {
                    place.add(share.times(of(more as u64)));
                }
            }
            let mut accepted = Sloped::default();
            let is_last = number + 1 == self.stages.len();
            // Fewer than the rejection number of the last stage do not reject the lot.
            let accepts =
                if is_last { next.len() } else { stage.accept.map_or(0, |accept| accept as usize + 1) };
            for (count, share) in next.iter_mut().enumerate().take(accepts) {
                ends.found += count as f64 * share.value;
                accepted.add(std::mem::take(share));
            }
            ends.accepted.push(accepted);
            inspected += stage.sample_size;
            going = next;
        }
        ends
    }

    /// The average outgoing quality of lots from a process, in which the pieces that are not inspected are as good as
    /// any.
    fn outgoing(self, fraction: f64, ends: &Ends) -> Sloped {
        let mut sum = Sloped::default();
        let mut inspected = 0;
        for (stage, accepted) in self.stages.iter().zip(&ends.accepted) {
            inspected += stage.sample_size;
            let left = self.lot.map_or(1.0, |lot| lot.saturating_sub(inspected) as f64 / lot as f64);
            sum.add(Sloped { value: accepted.value * left, slope: accepted.slope * left });
        }
        sum.times(Sloped { value: fraction, slope: 1.0 })
    }

    fn told(self, fraction: f64, ends: &Ends) -> PlanPerformance {
        let sizes = || self.stages.iter().map(|stage| stage.sample_size as f64);
        let accepted: f64 = ends.accepted.iter().map(|share| share.value).sum();
        let average: f64 = sizes().zip(&ends.reached).map(|(size, share)| size * share).sum();
        let total = self.lot.map(|lot| {
            let mut inspected = 0.0;
            let of_accepted = sizes().zip(&ends.accepted).map(|(size, share)| {
                inspected += size;
                inspected * share.value
            });
            of_accepted.sum::<f64>() + (1.0 - accepted).max(0.0) * lot as f64
        });
        PlanPerformance {
            fraction,
            acceptance_probability: accepted.min(1.0),
            average_outgoing_quality: f64::NAN,
            average_sample_number: average,
            average_total_inspection: total,
        }
    }
}

/// The largest lot whose every count of nonconforming pieces is tried for the AOQL.
pub(super) const MAX_COUNTED_LOT: u64 = 20_000;

/// The most pieces of a lot times rejection numbers for which that is done.
const MAX_COUNTED: u64 = 1_000_000;

/// The most nonconformities per piece.
const MAX_PER_PIECE: f64 = 100.0;

/// Fractions that are tried before the greatest is searched for between two of them.
const STEPS: usize = 200;
