//! Many gauge studies of one layout at once.
use super::anova::Design;
use super::error::GaugeStudyError;
use super::options::{StudyMethod, StudyOptions};
use super::readings::{StudyData, check_layout, check_readings, check_spread};
use super::sums::Means;
use crate::math::{exp, ln};
use crate::simd::{WideLoop, run_wide};
use crate::statistics::ln_gamma;

/// Studies that are worked out side by side.
const LANES: usize = 8;

/// The figures of one study of many: lines are parts, appraisers, interaction and repeatability. NaN where a line is
/// not there.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct GaugeFigures {
    /// The mean of all readings.
    pub mean: f64,
    /// Sums of squares.
    pub ss: [f64; 4],
    /// Mean squares.
    pub ms: [f64; 4],
    /// The mean squares of parts, appraisers and interaction over those that they are tested against.
    pub f: [f64; 3],
    /// Their p values: how likely ratios this large are where there is no effect.
    pub p: [f64; 3],
    /// Variances: repeatability, appraiser, interaction, reproducibility, gauge, part, total.
    pub variances: [f64; 7],
}

impl GaugeFigures {
    /// How many figures there are.
    pub const COUNT: usize = 22;

    /// All of them in one row, in the order of the fields.
    pub fn to_array(&self) -> [f64; Self::COUNT] {
        let lists: [&[f64]; 6] = [&[self.mean], &self.ss, &self.ms, &self.f, &self.p, &self.variances];
        let mut figures = lists.into_iter().flatten().copied();
        std::array::from_fn(|_| figures.next().unwrap_or(f64::NAN))
    }

    /// Nothing known.
    const NONE: GaugeFigures = GaugeFigures {
        mean: f64::NAN,
        ss: [f64::NAN; 4],
        ms: [f64::NAN; 4],
        f: [f64::NAN; 3],
        p: [f64::NAN; 3],
        variances: [f64::NAN; 7],
    };
}

/// The analysis of variance of many studies of one layout, whose readings follow each other: `data.readings` holds those
/// of all studies. The figures are those of [`gauge_study`](super::gauge_study), p values within a relative 1e-12 to
/// 1000 degrees of freedom.
///
/// # Errors
/// [`GaugeStudyError`], of a study with its number; also for the average and range method.
pub fn gauge_studies(
    data: &StudyData<'_>,
    options: &StudyOptions,
) -> Result<Vec<GaugeFigures>, GaugeStudyError> {
    check_layout(data, options)?;
    if options.method == StudyMethod::AverageRange {
        return Err(GaugeStudyError::NoBatch);
    }
    if data.readings.is_empty() {
        return Ok(vec![]);
    }
    let size = data.parts.checked_mul(data.appraisers).and_then(|n| n.checked_mul(data.trials));
    let size = size.filter(|size| data.readings.len().is_multiple_of(*size));
    let Some(size) = size else {
        let expected = data.parts.saturating_mul(data.appraisers).saturating_mul(data.trials);
        return Err(GaugeStudyError::Count { expected, got: data.readings.len() });
    };
    let figures = run_wide(Studies { data, options, size });
    // A reading that is not finite leaves no sums, so that the others need not be looked at one by one.
    let lost = |figures: &GaugeFigures| !(figures.mean + figures.ss.iter().sum::<f64>()).is_finite();
    let lost = figures.iter().position(lost);
    if lost.is_some() {
        check_readings(data.readings)?;
    }
    let in_study = |place: usize, fault| GaugeStudyError::Study { number: place + 1, fault: Box::new(fault) };
    if let Some(place) = lost {
        return Err(in_study(place, GaugeStudyError::TooLarge { what: "readings" }));
    }
    // Each reading is looked at only where the repeatability is next to nothing.
    let agree = |figures: &GaugeFigures| figures.ss[3] <= 1e-9 * figures.ss.iter().sum::<f64>();
    for (place, readings) in data.readings.chunks_exact(size).enumerate() {
        if agree(&figures[place]) {
            check_spread(readings, data).map_err(|fault| in_study(place, fault))?;
        }
    }
    Ok(figures)
}

struct Studies<'a> {
    data: &'a StudyData<'a>,
    options: &'a StudyOptions,
    size: usize,
}

impl WideLoop for Studies<'_> {
    type Output = Vec<GaugeFigures>;

    #[inline(always)]
    fn run(self) -> Vec<GaugeFigures> {
        let Studies { data, options, size } = self;
        let design = Design::of(data, options);
        let against = design.tested_against();
        let there = [true, design.appraises, design.interacts];
        let tails = [0, 1, 2].map(|k| there[k].then(|| Tail::new(design.df[k], design.df[against[k]])));
        let nested = options.method == StudyMethod::Nested;
        let mut means = Means::<LANES>::of(data);
        let mut side_by_side = vec![[0.0; LANES]; size];
        let mut all = Vec::with_capacity(data.readings.len() / size);
        for block in data.readings.chunks(LANES * size) {
            let count = block.len() / size;
            for (lane, study) in block.chunks_exact(size).enumerate() {
                for (to, reading) in side_by_side.iter_mut().zip(study) {
                    to[lane] = *reading;
                }
            }
            let sums = means.sums(&side_by_side, nested);
            let mut made = [GaugeFigures::NONE; LANES];
            let mut ratios = [[f64::NAN; LANES]; 3];
            for (k, made) in made.iter_mut().enumerate() {
                let ss = [sums.part[k], sums.appraiser[k], sums.interaction[k], sums.repeatability[k]];
                let figures = design.figures(ss);
                (made.mean, made.ss, made.ms, made.f) = (sums.mean[k], figures.ss, figures.ms, figures.f);
                made.variances = figures.variances;
                for (ratios, f) in ratios.iter_mut().zip(figures.f) {
                    ratios[k] = f;
                }
            }
            for (line, (tail, ratios)) in tails.iter().zip(&ratios).enumerate() {
                if let Some(tail) = tail {
                    let p = tail.above(ratios);
                    for (made, p) in made.iter_mut().zip(p) {
                        made.p[line] = p;
                    }
                }
            }
            all.extend_from_slice(&made[..count]);
        }
        all
    }
}

/// The F law of one pair of degrees of freedom, ready for many ratios.
pub(super) struct Tail {
    /// Half of the degrees of freedom below and above the line.
    shapes: [f64; 2],
    /// ln of shape · B(shapes), for the series from either end.
    scales: [f64; 2],
    /// How the terms of either series follow each other, but for their argument.
    steps: Vec<[f64; 2]>,
    /// The same of the sum that ends, where there is one.
    finite: Option<Vec<f64>>,
}

/// More terms than any series needs.
const TERMS: usize = 4096;

impl Tail {
    pub fn new(above: f64, below: f64) -> Tail {
        let shapes = [0.5 * below, 0.5 * above];
        let whole = shapes[0] + shapes[1];
        let beta = ln_gamma(shapes[0]) + ln_gamma(shapes[1]) - ln_gamma(whole);
        let step = |i: usize| shapes.map(|shape| (whole + i as f64) / (shape + 1.0 + i as f64));
        // An even number of degrees of freedom above the line.
        let finite = (shapes[1] % 1.0 == 0.0 && shapes[1] <= 64.0)
            .then(|| (1..shapes[1] as usize).map(|j| (shapes[0] + j as f64 - 1.0) / j as f64).collect());
        let scales = shapes.map(|shape| beta + ln(shape));
        // A sum that ends takes the place of the series.
        let terms = if finite.is_some() { 0 } else { TERMS };
        Tail { shapes, scales, steps: (0..terms).map(step).collect(), finite }
    }

    /// The probabilities of ratios above these.
    ///
    /// By the series x^a y^b / (a B(a, b)) · Σ (a+b)…/(a+1)… x^i, whose terms are all positive, from the end that is
    /// nearer. Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 26.5.4.
    #[inline(always)]
    pub fn above(&self, ratios: &[f64; LANES]) -> [f64; LANES] {
        if let Some(steps) = &self.finite {
            return self.sum_that_ends(steps, ratios);
        }
        let [below, above] = self.shapes;
        let (mut from_above, mut x, mut front) = ([true; LANES], [0.0; LANES], [0.0; LANES]);
        for k in 0..LANES {
            let scaled = above * ratios[k];
            let (share, rest) = (below / (below + scaled), scaled / (below + scaled));
            from_above[k] = share * above <= rest * below;
            x[k] = if from_above[k] { share } else { rest };
            let scale = if from_above[k] { self.scales[0] } else { self.scales[1] };
            front[k] = exp(below * ln(share) + above * ln(rest) - scale);
        }
        let (mut term, mut sum) = ([1.0; LANES], [1.0; LANES]);
        for steps in self.steps.chunks(8) {
            for step in steps {
                for k in 0..LANES {
                    term[k] *= x[k] * if from_above[k] { step[0] } else { step[1] };
                    sum[k] += term[k];
                }
            }
            // NaN ends a series too.
            if !(0..LANES).any(|k| term[k] > 1e-17 * sum[k]) {
                break;
            }
        }
        std::array::from_fn(|k| {
            let near = front[k] * sum[k];
            match ratios[k] {
                ratio if ratio.is_nan() => f64::NAN,
                ratio if ratio <= 0.0 => 1.0,
                f64::INFINITY => 0.0,
                _ if from_above[k] => near,
                _ => 1.0 - near,
            }
        })
    }

    /// x^a Σ (a)… / j! y^j over as many terms as there are pairs of degrees of freedom above the line.
    ///
    /// Source: the same, 26.5.7 with the ends exchanged.
    #[inline(always)]
    fn sum_that_ends(&self, steps: &[f64], ratios: &[f64; LANES]) -> [f64; LANES] {
        let [below, above] = self.shapes;
        let (mut rest, mut front) = ([0.0; LANES], [0.0; LANES]);
        for k in 0..LANES {
            let scaled = above * ratios[k];
            rest[k] = scaled / (below + scaled);
            front[k] = exp(below * ln(below / (below + scaled)));
        }
        let (mut term, mut sum) = ([1.0; LANES], [1.0; LANES]);
        for step in steps {
            for k in 0..LANES {
                term[k] *= rest[k] * step;
                sum[k] += term[k];
            }
        }
        std::array::from_fn(|k| match ratios[k] {
            ratio if ratio.is_nan() => f64::NAN,
            f64::INFINITY => 0.0,
            _ => front[k] * sum[k],
        })
    }
}
