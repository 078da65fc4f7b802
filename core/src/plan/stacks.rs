//! What the stacks come to, and whether they close.
use super::evaluation::{Evaluation, no_answer};
use super::linear_stack::{LinearStack, StackContributor, StackDimension, StackSample};
use super::sheet::*;
use crate::document::fault::{DocumentError, Place};
use crate::finding::{FindingCode, Severity};
use crate::quantity::{Length, Quantity, Units};
use crate::stack::{Closure, Contribution, Contributor, Sampling, Spread, Stack, StackError};
use crate::{Limits, Size};

static STACKS: Place<'static> = Place::ROOT.field("stacks");

impl Evaluation<'_> {
    /// A stack; its sample is left out where the whole plan is one of many.
    pub(super) fn stack(
        &mut self,
        index: usize,
        stack: &LinearStack,
        is_sampled: bool,
    ) -> Result<StackLines, DocumentError> {
        let place = STACKS.index(index);
        let chain = self.chain(place, stack)?;
        let evaluated = self.closing(stack, &chain, is_sampled).map_err(|error| no_answer(place, error))?;
        let (lines, mean_lies_within) = evaluated;
        if !(lines.closes_in_worst_case && lines.closes_statistically) {
            let told = told(stack, &lines, &chain, mean_lies_within);
            let (severity, message, remedy) = told.map_err(|error| no_answer(place, error))?;
            self.find((FindingCode::StackDoesNotClose, severity), place, message, remedy);
        }
        Ok(lines)
    }

    fn chain(&self, place: Place<'_>, stack: &LinearStack) -> Result<Stack, DocumentError> {
        let mut chain = Stack::new(self.units);
        let list = place.field("contributors");
        for (index, one) in stack.contributors.iter().enumerate() {
            let limits = self.contributor_limits(one);
            let limits = limits.ok_or_else(|| no_answer(list.index(index), "it has no limits"))?;
            let contributor = Contributor::new(&*one.name, limits)
                .sensitivity(one.sensitivity.value())
                .count(one.count)
                .distribution(one.distribution());
            chain.add(contributor).map_err(|error| no_answer(list.index(index), error))?;
        }
        Ok(chain)
    }

    fn contributor_limits(&self, one: &StackContributor) -> Option<Limits> {
        match one.dimension {
            Some(StackDimension::Characteristic(number)) => self.limits_of(number.0).map(|c| *c.limits),
            Some(StackDimension::Limits(limits)) => Some(limits),
            None => one.limits.as_deref().copied(),
        }
    }

    /// The lines of a stack, and whether its mean lies within the wanted limits.
    fn closing(
        &self,
        stack: &LinearStack,
        chain: &Stack,
        is_sampled: bool,
    ) -> Result<(StackLines, bool), StackError> {
        let [lower, upper] = [stack.wanted.lower(), stack.wanted.upper()].map(|limit| self.float(limit));
        let (worst, rss, moments) = (chain.worst_case()?, chain.rss()?, chain.statistics()?);
        let closes_in_worst_case = stack.wanted.contains(&worst);
        let mean_lies_within = lower <= moments.mean && moments.mean <= upper;
        let spread = Spread { mean: moments.mean, shift: 0.0, sigma: moments.sigma };
        // What does not spread is judged by its exact size.
        let fraction_out = match moments.sigma > 0.0 {
            true => spread.fraction_below(lower) + spread.fraction_above(upper),
            false => f64::from(u8::from(!closes_in_worst_case)),
        };
        let greatest = stack.greatest_fraction_out.value();
        let closes_statistically = mean_lies_within && fraction_out <= greatest;
        let length = Length::KIND.unit(self.units).label;
        let figure = |name, value| Figure::new(name, value, length);
        let within = fraction_out <= greatest;
        let judged = Some(Judged { lower: 0.0, upper: greatest, within });
        let figures = vec![
            figure("root of sum of squares, lower", rss.mean - rss.tolerance),
            figure("root of sum of squares, upper", rss.mean + rss.tolerance),
            figure("mean", moments.mean),
            figure("standard deviation", moments.sigma),
            Figure { judged, ..Figure::new("fraction expected out", fraction_out, "") },
        ];
        let sample = stack.sample.as_ref().filter(|_| is_sampled);
        let lines = StackLines {
            name: stack.name.clone(),
            wanted: stack.wanted.format(self.units),
            worst_case: worst.format(self.units),
            closes_in_worst_case,
            closes_statistically,
            figures: figures.into(),
            sampled: sample.map(|sample| sampled(chain, sample, lower, upper)).transpose()?,
            contributions: self.contributions(chain)?,
        };
        Ok((lines, mean_lies_within))
    }

    fn contributions(&self, chain: &Stack) -> Result<Vec<ContributionLine>, StackError> {
        let lines = chain.contributors().iter().zip(chain.contributions()?).map(|(one, percent)| {
            let Contribution { name, rss, variance, worst_case } = percent;
            ContributionLine { name, limits: one.limits.format(self.units), rss, variance, worst_case }
        });
        Ok(lines.collect())
    }
}

fn sampled(chain: &Stack, sample: &StackSample, lower: f64, upper: f64) -> Result<SampledLines, StackError> {
    let sampling = Sampling::new(sample.count.into(), sample.seed.into()).within(lower, upper);
    let drawn = chain.sample(&sampling)?;
    let out = drawn.fraction_out();
    Ok(SampledLines {
        count: sample.count,
        seed: sample.seed,
        mean: drawn.mean(),
        // A single assembly has no spread to tell.
        sigma: Some(drawn.sigma()).filter(|sigma| sigma.is_finite()),
        fraction_out: out.value,
        fraction_out_lower: out.lower,
        fraction_out_upper: out.upper,
    })
}

/// How a stack fails to close, and what would mend it.
fn told(
    stack: &LinearStack,
    lines: &StackLines,
    chain: &Stack,
    mean_lies_within: bool,
) -> Result<(Severity, String, String), StackError> {
    let StackLines { name, wanted, worst_case, figures, .. } = lines;
    let value = |name: &str| figures.iter().find(|figure| figure.name == name).map_or(f64::NAN, |f| f.value);
    if !mean_lies_within {
        let middle = stack.wanted.middle().format(chain.units());
        let message = format!("the mean of {name} is {}, outside {wanted}", value("mean"));
        return Ok((Severity::Error, message, format!("change the nominal sizes to bring it to {middle}")));
    }
    if lines.closes_statistically {
        let message =
            format!("{name} is within {wanted} statistically, but not in the worst case, {worst_case}");
        let remedy = remedy(stack, chain, Closure::WorstCase)?;
        return Ok((Severity::Warning, message, remedy));
    }
    let message = format!(
        "{name} is outside {wanted} in {} of all assemblies, more than {}",
        value("fraction expected out"),
        stack.greatest_fraction_out.value()
    );
    Ok((Severity::Error, message, remedy(stack, chain, Closure::Rss)?))
}

/// Speaks of the contributor that has most of the whole.
fn remedy(stack: &LinearStack, chain: &Stack, closure: Closure) -> Result<String, StackError> {
    let (share, of): (fn(&Contribution) -> f64, _) = match closure {
        Closure::WorstCase => (|one| one.worst_case, "of the worst case"),
        Closure::Rss => (|one| one.variance, "of the variance"),
    };
    let contributions = chain.contributions()?;
    // The first of equals: the last that is greatest in reverse.
    let greatest = contributions.iter().enumerate().rev().max_by(|a, b| share(a.1).total_cmp(&share(b.1)));
    let (index, one) = greatest.ok_or(StackError::NoContributors)?;
    let who = format!("`{}`, which has {:.0} percent {of}", one.name, share(one));
    let now = chain.contributors()[index].limits.tolerance();
    Ok(match chain.greatest_tolerance(index, &stack.wanted, closure)? {
        Some(tolerance) if tolerance < now => {
            let tolerance = rounded_down(tolerance, chain.units()).format(chain.units());
            let how = if closure == Closure::Rss { " by the root of the sum of squares" } else { "" };
            format!("hold {who}, to a tolerance of {tolerance} about its middle, with which it closes{how}")
        }
        Some(_) => {
            format!(
                "raise the capability of {who}, or bring the means nearer to the middle: the tolerances are close enough"
            )
        }
        None => {
            format!("tighten others besides {who}: even with no tolerance there the stack does not close")
        }
    })
}

/// To 0.00001 in or 0.0001 mm, that a shop can read it.
fn rounded_down(tolerance: Size, units: Units) -> Size {
    let step = units.picometres() / [100_000, 10_000][units as usize];
    let picometres = tolerance.picometres();
    Size::from_picometres(if picometres > step { picometres - picometres % step } else { picometres })
}
