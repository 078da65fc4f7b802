//! Working dimensions from the drawing, the least stock of each cut and what the processes hold.
//!
//! All means lie on the grid of the resolution and all tolerances are so many steps to either side of them, so that
//! no rounding adds up along a chain. What is given and lies off the grid is taken by the mean that is nearest, with
//! a tolerance that reaches over it.
use super::chains::{Forest, Span, States};
use super::chart::{OperationChart, Step, Working};
use super::error::ChartError;
use super::result::ChartResult;
use crate::limits::Limits;
use crate::size::Size;

impl OperationChart {
    /// Derives the working dimensions that have no limits yet; those that have some keep them.
    ///
    /// - **Tolerances**: the tolerance of each drawing dimension is shared out among its chain in proportion to what
    ///   the processes hold. The dimension with the least to give goes first, its shares stand in all other chains,
    ///   and these share out what is left. A share never falls below what the process holds: a drawing dimension
    ///   that allows less does not close, and the result tells by how much. A working dimension of no drawing chain
    ///   has the tolerance that its process holds.
    /// - **Means**: a drawing dimension is made at the middle of its limits, and a cut removes its least stock and
    ///   half the tolerance of its chain, the last cut first. Where limits that were given settle a distance already,
    ///   the result tells whether they suffice.
    ///
    /// [`ChartResult::chart`] is the chart with what was derived.
    ///
    /// `resolution` is the step of all means and tolerances, a picometre where there is none. Shares are rounded
    /// down, removals and what a process holds up, each half of a tolerance for itself.
    ///
    /// # Errors
    /// Any [`ChartError`] but [`ChartError::NoLimits`]. [`ChartError::OverDetermined`] for dimensions of the drawing
    /// that form a loop, [`ChartError::Undetermined`] for a working dimension that nothing gives a mean.
    pub fn derive(&self, resolution: Option<Size>) -> Result<ChartResult, ChartError> {
        let step = match resolution {
            Some(resolution) if !resolution.is_positive() => {
                return Err(ChartError::Resolution { resolution });
            }
            Some(resolution) => i128::from(resolution.picometres()),
            None => 1,
        };
        let states = States::of(self)?;
        let held: Vec<Held> = self
            .working()
            .map(|(which, working)| self.held(which, working, step))
            .collect::<Result<_, _>>()?;
        let mut chains = vec![];
        for (dimension, &span) in self.drawing.iter().zip(&states.drawing) {
            let wanted = Centred::about(&dimension.limits, step);
            let chain = chain_of(&states, span, || dimension.what())?;
            chains.push(Budget::new(wanted, &chain, &held, step));
        }
        let halves = shared_out(chains, &held, step);
        let means = self.means(&states, &held, &halves, step)?;
        let mut chart = self.clone();
        for (k, (which, working)) in self.working().enumerate() {
            if let Working::Holds(_) = working {
                let what = || self.describe(which);
                let mean = means.along(states.working_spans[k]);
                let mean = mean.ok_or_else(|| ChartError::Undetermined { what: what() })?;
                let limits = symmetric(mean, halves[k]);
                chart.settle(which, limits.ok_or_else(|| ChartError::OutOfRange { what: what() })?);
            }
        }
        chart.evaluate()
    }

    fn held(&self, which: Step, working: Working, step: i128) -> Result<Held, ChartError> {
        match working {
            Working::Limits(limits) => Ok(Held::Given(Centred::about(&limits, step))),
            Working::Holds(holds) if holds.is_positive() => {
                Ok(Held::Open { steps: divided_up(i128::from(holds.picometres()), 2 * step) })
            }
            Working::Holds(holds) => Err(ChartError::Holds { what: self.describe(which), holds }),
        }
    }

    /// The means of all distances that are settled: those given, then those of the drawing, then the removals,
    /// the last cut first, so that stock that was given too small is missed by the roughest cut.
    fn means(
        &self,
        states: &States,
        held: &[Held],
        halves: &[i128],
        step: i128,
    ) -> Result<Means, ChartError> {
        let mut means = Means::new(states.count);
        for (held, &span) in held.iter().zip(&states.working_spans) {
            if let Held::Given(centred) = held {
                means.settle(span, centred.mean);
            }
        }
        let mut drawn = Means::new(states.count);
        for (dimension, &span) in self.drawing.iter().zip(&states.drawing) {
            let mean = Centred::about(&dimension.limits, step).mean;
            if !drawn.settle(span, mean) {
                return Err(ChartError::OverDetermined { what: dimension.what() });
            }
            means.settle(span, mean);
        }
        for (k, (cut, span)) in self.cuts.iter().zip(&states.removals).enumerate().rev() {
            let Some(span) = *span else { continue };
            let chain = chain_of(states, span, || self.describe(Step::Cut(k)))?;
            let half: i128 = chain.iter().map(|&k| halves[k]).sum();
            let least = i128::from(cut.least_removal.picometres()) + half;
            means.settle(span, divided_up(least, step) * step);
        }
        Ok(means)
    }
}

/// Limits about a mean on the grid.
#[derive(Clone, Copy)]
struct Centred {
    mean: i128,
    /// From the mean to the nearer limit.
    inner: i128,
    /// From the mean to the farther limit.
    outer: i128,
}

impl Centred {
    /// The mean is the point of the grid that is nearest to the middle.
    fn about(limits: &Limits, step: i128) -> Centred {
        let [lower, upper] = [limits.lower(), limits.upper()].map(|size| i128::from(size.picometres()));
        let mean = (lower + upper + step).div_euclid(2 * step) * step;
        let [down, up] = [mean - lower, upper - mean];
        Centred { mean, inner: down.min(up), outer: down.max(up) }
    }
}

/// What is known of a working dimension.
enum Held {
    Given(Centred),
    /// The steps to either side of the mean that its process holds.
    Open {
        steps: i128,
    },
}

/// What a dimension of the drawing leaves to those of its chain that are open.
struct Budget {
    /// Steps to either side of the mean.
    steps: i128,
    open: Vec<usize>,
}

impl Budget {
    fn new(wanted: Centred, chain: &[usize], held: &[Held], step: i128) -> Budget {
        let (mut left, mut open) = (wanted.inner, vec![]);
        for &k in chain {
            match held[k] {
                Held::Given(centred) => left -= centred.outer,
                Held::Open { .. } => open.push(k),
            }
        }
        Budget { steps: left.div_euclid(step), open }
    }

    /// What the processes hold together.
    fn needed(&self, held: &[Held]) -> i128 {
        self.open.iter().map(|&k| held[k].steps()).sum()
    }
}

impl Held {
    fn steps(&self) -> i128 {
        match self {
            Held::Given(_) => 0,
            Held::Open { steps } => *steps,
        }
    }
}

/// Half the tolerance of each working dimension: the shares of drawing dimensions among those that are open, the
/// scarcest first.
fn shared_out(mut budgets: Vec<Budget>, held: &[Held], step: i128) -> Vec<i128> {
    let mut halves: Vec<i128> = held
        .iter()
        .map(|held| match held {
            Held::Given(centred) => centred.outer,
            Held::Open { steps } => steps * step,
        })
        .collect();
    loop {
        budgets.retain(|budget| !budget.open.is_empty());
        // Of what its processes need, the scarcest has the least to give: a / b < c / d is a · d < c · b.
        let scarcest = budgets
            .iter()
            .min_by(|one, other| (one.steps * other.needed(held)).cmp(&(other.steps * one.needed(held))));
        let Some(scarcest) = scarcest else { return halves };
        let (steps, needed, open) = (scarcest.steps, scarcest.needed(held), scarcest.open.clone());
        for k in open {
            let holds = held[k].steps();
            let share = (steps * holds).div_euclid(needed).max(holds);
            halves[k] = share * step;
            for budget in budgets.iter_mut().filter(|budget| budget.open.contains(&k)) {
                budget.steps -= share;
                budget.open.retain(|&open| open != k);
            }
        }
    }
}

/// Means of distances between states.
struct Means {
    forest: Forest,
    means: Vec<i128>,
}

impl Means {
    fn new(states: usize) -> Means {
        Means { forest: Forest::new(states), means: vec![] }
    }

    /// Settles a distance; false if those that are settled give it already.
    fn settle(&mut self, span: Span, mean: i128) -> bool {
        let is_open = self.forest.chain(span).is_none();
        if is_open {
            self.forest.join(span);
            self.means.push(mean);
        }
        is_open
    }

    fn along(&self, span: Span) -> Option<i128> {
        let chain = self.forest.chain(span)?;
        Some(chain.iter().map(|&(k, adds)| if adds { self.means[k] } else { -self.means[k] }).sum())
    }
}

/// The working dimensions of a chain.
fn chain_of(states: &States, span: Span, what: impl Fn() -> String) -> Result<Vec<usize>, ChartError> {
    let chain = states.working.chain(span).ok_or_else(|| ChartError::Unjoined { what: what() })?;
    Ok(chain.into_iter().map(|(k, _)| k).collect())
}

/// The quotient, rounded up.
fn divided_up(count: i128, by: i128) -> i128 {
    -(-count).div_euclid(by)
}

fn symmetric(mean: i128, half: i128) -> Option<Limits> {
    let size = |count: i128| i64::try_from(count).ok().map(Size::from_picometres);
    let half = size(half)?;
    Limits::with_deviations(size(mean)?, half, half.checked_neg()?).ok()
}
