//! The cheapest tolerances with which a linear chain still closes.
//!
//! Where the cost falls ever more slowly as a tolerance widens, the cheapest set is that at which a little more of any
//! of them saves the same (Lagrange). For a given saving λ each tolerance follows by itself, and the sum of the
//! tolerances falls as λ rises, so that halving the range of λ finds the set.
use super::StackError;
use super::linear::{Contributor, ContributorKey, Stack};
use crate::math::{exp, ln, normal_quantile, powf};
use crate::{Limits, Size, Units};
use tenths_macros::Object;

/// A half band that no size reaches, in inches or millimetres, and whose square is far from the greatest float.
const MAX_TARGET: f64 = 1e10;

/// What a piece costs by the half band of a dimension: the ± of its drawing, in the unit of the stack.
#[derive(Clone, PartialEq, Debug)]
pub enum CostCurve {
    /// `fixed + scale / half band ^ power`: the reciprocal power model.
    Reciprocal {
        /// Cost that does not depend on the tolerance.
        fixed: f64,
        /// Cost at a half band of 1, less the fixed one.
        scale: f64,
        /// Positive, and mostly from 0.5 to 2.
        power: f64,
    },
    /// `fixed + scale · exp(-rate · half band)`.
    Exponential {
        /// Cost that does not depend on the tolerance.
        fixed: f64,
        /// Cost at no tolerance, less the fixed one.
        scale: f64,
        /// By how much a little more tolerance cuts the cost, as a share of it.
        rate: f64,
    },
    /// Half bands and their costs, straight between them: each wider one must cost less, and save less than the one
    /// before. Its ends bound the tolerance.
    Points(Vec<(f64, f64)>),
}

/// A dimension whose tolerance is to be chosen.
#[derive(Clone, PartialEq, Debug)]
pub struct FreeTolerance {
    /// What it costs.
    pub cost: CostCurve,
    /// The least half band that its process holds.
    pub least: f64,
    /// The greatest half band that its function allows; infinite where the stack alone bounds it.
    pub greatest: f64,
}

/// What the closing dimension must keep.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Target {
    /// This half band for all parts within their limits.
    WorstCase(f64),
    /// This half band for the root of the sum of squares.
    Rss(f64),
    /// This half band for all but a share of the pieces, `rate`, where the closing dimension is normal and centred.
    Defects {
        /// Half band about the middle.
        half_band: f64,
        /// WeightedBand of the pieces outside, both sides together.
        rate: f64,
    },
}

/// The tolerance that was chosen for a dimension, in the unit of the stack.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore, tuple)]
pub struct AllocatedTolerance {
    /// The name of the contributor.
    pub name: String,
    /// Its half band.
    pub half_band: f64,
    /// What a piece with it costs; none for a contributor without a choice.
    #[pure]
    pub cost: Option<f64>,
    /// Whether it is as narrow as its process holds.
    pub is_least: bool,
    /// Whether it is as wide as its function allows.
    pub is_greatest: bool,
}

/// The cheapest tolerances, in the unit of the stack.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct Allocation {
    /// The side whose unit the half bands are in.
    pub units: Units,
    /// For each contributor, in their order.
    pub tolerances: Vec<AllocatedTolerance>,
    /// Cost of all pieces of the chain, those without a choice left out.
    #[pure]
    pub cost: f64,
    /// What a little more half band of the closing dimension would save, for its unit; zero where all are as wide as
    /// their functions allow.
    #[pure]
    pub saving: f64,
}

impl std::fmt::Display for Allocation {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (chosen, all) = (self.tolerances.iter().filter(|one| one.cost.is_some()), self.tolerances.len());
        let (chosen, Allocation { cost, saving, .. }) = (chosen.count(), self);
        write!(f, "allocation of {chosen} of {all} tolerances: cost {cost}, saving {saving}")
    }
}

impl CostCurve {
    /// The cost at a half band, beyond the ends of points along the line that ends there. One point gives its own cost
    /// everywhere, and none gives NaN.
    pub fn at(&self, half_band: f64) -> f64 {
        match self {
            CostCurve::Reciprocal { fixed, scale, power } => fixed + scale * powf(half_band, -power),
            CostCurve::Exponential { fixed, scale, rate } => fixed + scale * exp(-rate * half_band),
            CostCurve::Points(points) => {
                let after = points.partition_point(|point| point.0 < half_band).max(1);
                match points[after.min(points.len().saturating_sub(1)).saturating_sub(1)..] {
                    [a, b, ..] => a.1 + (half_band - a.0) * (b.1 - a.1) / (b.0 - a.0),
                    [only] => only.1,
                    [] => f64::NAN,
                }
            }
        }
    }

    /// What is wrong with its numbers, if anything is.
    pub fn fault(&self) -> Option<String> {
        let positive = |name: &str, value: f64| {
            let is_so = 0.0 < value && value < f64::INFINITY;
            (!is_so).then(|| format!("{name} must be positive, not {value}"))
        };
        let finite = |name: &str, value: f64| {
            (!value.is_finite()).then(|| format!("{name} must be finite, not {value}"))
        };
        match self {
            CostCurve::Reciprocal { fixed, scale, power } => finite("fixed", *fixed)
                .or_else(|| positive("scale", *scale))
                .or_else(|| positive("power", *power)),
            CostCurve::Exponential { fixed, scale, rate } => finite("fixed", *fixed)
                .or_else(|| positive("scale", *scale))
                .or_else(|| positive("rate", *rate)),
            CostCurve::Points(points) => {
                let is_sound = points.len() >= 2
                    && points
                        .iter()
                        .all(|point| point.0.is_finite() && point.1.is_finite() && point.0 >= 0.0);
                let slopes: Vec<f64> = points
                    .windows(2)
                    .map(|pair| if pair[0].0 < pair[1].0 { slope(pair[0], pair[1]) } else { f64::NAN })
                    .collect();
                let is_convex =
                    slopes.iter().all(|slope| *slope < 0.0) && slopes.windows(2).all(|two| two[0] <= two[1]);
                (!(is_sound && is_convex)).then(|| {
                    "a curve must have at least two points, each with a wider half band, a lower cost and a smaller saving than the one before"
                        .into()
                })
            }
        }
    }
}

fn slope(a: (f64, f64), b: (f64, f64)) -> f64 {
    (b.1 - a.1) / (b.0 - a.0)
}

/// How the half band of a contributor enters the sum that is bounded: `weight · half_band ^ power`.
struct WeightedBand {
    weight: f64,
    power: i32,
}

impl WeightedBand {
    fn of(&self, half_band: f64) -> f64 {
        if self.power == 1 { self.weight * half_band } else { self.weight * half_band * half_band }
    }
}

/// A contributor whose tolerance is to be chosen, made ready.
struct Free<'a> {
    choice: &'a FreeTolerance,
    least: f64,
    greatest: f64,
    /// Of all pieces of it.
    share: WeightedBand,
    count: f64,
}

impl Free<'_> {
    /// The half band at which a little more of the sum saves `saving`.
    fn half_band(&self, saving: f64) -> f64 {
        let WeightedBand { weight, power } = self.share;
        // -count · cost' = saving · weight · power · half_band ^ (power - 1).
        let price = saving * weight * f64::from(power) / self.count;
        let wanted = match &self.choice.cost {
            CostCurve::Reciprocal { scale, power: own, .. } => {
                powf(scale * own / price, 1.0 / (own + f64::from(power)))
            }
            CostCurve::Exponential { scale, rate, .. } if power == 1 => ln(scale * rate / price) / rate,
            CostCurve::Exponential { scale, rate, .. } => {
                // rate · t + ln t is the right side, and rises with t.
                let right = ln(scale * rate / price);
                bisect(self.least, self.greatest.min(1e3 / rate), |t| rate * t + ln(t) < right)
            }
            CostCurve::Points(points) => {
                let is_worth = |pair: &&[(f64, f64)]| {
                    let per_piece = if power == 1 { 1.0 } else { pair[1].0 };
                    -slope(pair[0], pair[1]) > price * per_piece
                };
                let last = points.windows(2).take_while(is_worth).last();
                last.map_or(points[0].0, |pair| pair[1].0)
            }
        };
        wanted.clamp(self.least, self.greatest)
    }
}

/// The least number from `low` to `high` for which `is_below` does not hold, to the last bits.
fn bisect(low: f64, high: f64, is_below: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let middle = low + 0.5 * (high - low);
        if !(low < middle && middle < high) {
            break;
        }
        if is_below(middle) { low = middle } else { high = middle }
    }
    high
}

impl Stack {
    /// The cheapest tolerances with which the closing dimension keeps a target.
    ///
    /// `choices` has one entry for each contributor; those without keep the tolerance that they have. The middles of
    /// the limits are kept. A rate of defects counts on the spread that the distributions of the contributors have for
    /// their half bands; of those with a spread of their own, the tolerance cannot be chosen.
    ///
    /// # Errors
    /// [`StackError::HowMany`] for another count of choices, [`StackError::FreeTolerance`] for a curve that is not valid, a least
    /// half band that is not positive and a distribution off its middle with a rate of defects, [`StackError::Target`]
    /// for a target that is not positive, and [`StackError::OutOfReach`] where it cannot be kept.
    pub fn allocate(
        &self,
        choices: &[Option<FreeTolerance>],
        target: Target,
    ) -> Result<Allocation, StackError> {
        let contributors = self.filled()?;
        if choices.len() != contributors.len() {
            let (count, given) = (contributors.len(), choices.len());
            let need = format!("{count} contributors need {count}");
            return Err(StackError::HowMany { what: "choices", need, got: given });
        }
        let bound = bound(target)?;
        let (mut free, mut used) = (Vec::new(), 0.0);
        for (one, choice) in contributors.iter().zip(choices) {
            let (fixed, share) = self.share_of(one, target)?;
            used += fixed;
            match choice {
                Some(choice) => free.push(Some(ready(one, choice, share)?)),
                None => {
                    used += share.of(one.half(self.units()));
                    free.push(None);
                }
            }
        }
        let (bands, saving) = cheapest(&free, bound - used).map_err(|least| {
            let whole =
                |sum: f64| if matches!(target, Target::WorstCase(_)) { sum } else { sum.max(0.0).sqrt() };
            StackError::OutOfReach { target: whole(bound), least: whole(used + least) }
        })?;
        let allot = |((one, free), band): ((&Contributor, &Option<Free>), f64)| match free {
            None => AllocatedTolerance {
                name: one.name.clone(),
                half_band: one.half(self.units()),
                cost: None,
                is_least: false,
                is_greatest: false,
            },
            Some(free) => AllocatedTolerance {
                name: one.name.clone(),
                half_band: band,
                cost: Some(free.choice.cost.at(band)),
                is_least: band <= free.least,
                is_greatest: band >= free.greatest,
            },
        };
        let tolerances: Vec<AllocatedTolerance> =
            contributors.iter().zip(&free).zip(bands).map(allot).collect();
        let costs = contributors.iter().zip(&tolerances);
        let cost = costs.filter_map(|(one, chosen)| Some(f64::from(one.count) * chosen.cost?)).sum();
        let saving = match target {
            Target::WorstCase(_) => saving,
            // The bound goes with the square of the half band.
            Target::Rss(half_band) | Target::Defects { half_band, .. } => 2.0 * bound / half_band * saving,
        };
        Ok(Allocation { units: self.units(), tolerances, cost, saving })
    }

    /// What a contributor adds to the bounded sum whatever its tolerance, and how that enters.
    fn share_of(&self, one: &Contributor, target: Target) -> Result<(f64, WeightedBand), StackError> {
        let (count, sensitivity) = (f64::from(one.count), one.sensitivity.abs());
        Ok(match target {
            Target::WorstCase(_) => (0.0, WeightedBand { weight: count * sensitivity, power: 1 }),
            Target::Rss(_) => (0.0, WeightedBand { weight: count * sensitivity * sensitivity, power: 2 }),
            Target::Defects { .. } => {
                let unit = one.distribution.cumulants(0.0, 1.0);
                let own = one.distribution.cumulants(0.0, 0.0).variance;
                let scale = count * sensitivity * sensitivity;
                if own > 0.0 {
                    return Ok((scale * own, WeightedBand { weight: 0.0, power: 2 }));
                }
                if unit.mean != 0.0 {
                    let fault = "a rate of defects needs distributions about the middles of their limits";
                    return Err(StackError::FreeTolerance { name: one.name.clone(), fault: fault.into() });
                }
                (0.0, WeightedBand { weight: scale * unit.variance, power: 2 })
            }
        })
    }

    /// The factor by which the tolerances of all contributors but the `fixed` ones can be widened, or must be narrowed,
    /// to keep a worst case or root of the sum of squares: proportional scaling.
    ///
    /// Source: K. W. Chase, Tolerance Allocation Methods for Designers, ADCATS report 99-6 (1999), from memory.
    ///
    /// # Errors
    /// [`StackError::HowMany`] for another count of marks, [`StackError::Scale`] for a target of defects, contributors without any tolerance to
    /// scale, and fixed ones that leave nothing.
    pub fn proportional_factor(&self, fixed: &[bool], target: Target) -> Result<f64, StackError> {
        let contributors = self.filled()?;
        if fixed.len() != contributors.len() {
            let (count, given) = (contributors.len(), fixed.len());
            let need = format!("{count} contributors need {count}");
            return Err(StackError::HowMany { what: "marks", need, got: given });
        }
        if matches!(target, Target::Defects { .. }) {
            return Err(StackError::Scale("tolerances are scaled to a worst case or a root of squares"));
        }
        let (mut kept, mut scaled) = (0.0, 0.0);
        for (one, is_fixed) in contributors.iter().zip(fixed) {
            let (_, share) = self.share_of(one, target)?;
            let part = share.of(one.half(self.units()));
            if *is_fixed { kept += part } else { scaled += part }
        }
        let left = bound(target)? - kept;
        if !(left > 0.0 && scaled > 0.0) {
            return Err(StackError::Scale("the fixed tolerances leave nothing to scale"));
        }
        Ok(if matches!(target, Target::WorstCase(_)) { left / scaled } else { (left / scaled).sqrt() })
    }
}

impl Allocation {
    /// What was chosen for a contributor, by its name or its number.
    ///
    /// # Errors
    /// [`StackError::UnknownName`] where there is none, [`StackError::AmbiguousName`] where several have the name.
    pub fn tolerance<'a>(
        &self,
        place: impl Into<ContributorKey<'a>>,
    ) -> Result<&AllocatedTolerance, StackError> {
        let place = place.into().find(self.tolerances.iter().map(|one| one.name.as_str()))?;
        Ok(&self.tolerances[place])
    }

    /// A copy of the stack with these tolerances about the middles that it has, the half bands rounded down to whole
    /// steps.
    ///
    /// # Errors
    /// [`StackError::OtherStack`] for another count of contributors, and errors of sizes out of range or a step that is
    /// not positive.
    pub fn apply(&self, stack: &Stack, step: Size) -> Result<Stack, StackError> {
        if self.tolerances.len() != stack.contributors().len() {
            return Err(StackError::OtherStack);
        }
        let mut applied = stack.clone();
        for (one, chosen) in applied.contributors_mut().iter_mut().zip(&self.tolerances) {
            if chosen.cost.is_none() {
                continue;
            }
            let half = not_above(chosen.half_band, stack.units())?.round_down(step)?;
            let middle = one.limits.middle();
            let ends =
                middle.checked_sub(half).zip(middle.checked_add(half)).ok_or(StackError::OutOfRange)?;
            one.limits = Limits::between(ends.0, ends.1)
                .map_err(|error| StackError::Limits { name: one.name.clone(), error })?;
        }
        Ok(applied)
    }
}

/// A number to the picometre, and not above it, but for what rounding takes from one of whole picometres.
fn not_above(number: f64, units: Units) -> Result<Size, StackError> {
    let nearest = Size::from_float(number, units)?;
    let is_above = nearest.to_float(units) > number * (1.0 + 1e-12);
    Ok(Size::from_picometres(nearest.picometres() - i64::from(is_above)))
}

/// What the sum must not exceed: a half band, its square, or a variance.
fn bound(target: Target) -> Result<f64, StackError> {
    let positive = |half: f64| match 0.0 < half && half <= MAX_TARGET {
        true => Ok(half),
        false => {
            let need = format!("greater than 0 and at most {MAX_TARGET}");
            Err(StackError::Target { what: "target, a half band,", need, got: half })
        }
    };
    match target {
        Target::WorstCase(half) => positive(half),
        Target::Rss(half) => Ok(positive(half)? * half),
        Target::Defects { half_band, rate } => {
            if !(0.0 < rate && rate < 1.0) {
                let need = "between 0 and 1".into();
                return Err(StackError::Target { what: "rate of defects", need, got: rate });
            }
            let sigma = positive(half_band)? / -normal_quantile(0.5 * rate);
            Ok(sigma * sigma)
        }
    }
}

fn ready<'a>(
    one: &Contributor,
    choice: &'a FreeTolerance,
    share: WeightedBand,
) -> Result<Free<'a>, StackError> {
    let refuse = |fault: String| Err(StackError::FreeTolerance { name: one.name.clone(), fault });
    if let Some(fault) = choice.cost.fault() {
        return refuse(fault);
    }
    let (mut least, mut greatest) = (choice.least, choice.greatest);
    if let CostCurve::Points(points) = &choice.cost {
        least = least.max(points[0].0);
        greatest = greatest.min(points[points.len() - 1].0);
    }
    if !(0.0 < least && least <= greatest) {
        return refuse(format!(
            "half bands from {least} to {greatest} leave no choice: the least must be positive"
        ));
    }
    if share.weight == 0.0 && greatest == f64::INFINITY {
        return refuse("it has no effect on the target, so nothing bounds its tolerance".into());
    }
    Ok(Free { choice, least, greatest, share, count: f64::from(one.count) })
}

/// The cheapest half bands whose shares come to `room` at most, and what a little more of it would save. The least sum
/// where there is not enough.
fn cheapest(free: &[Option<Free>], room: f64) -> Result<(Vec<f64>, f64), f64> {
    let bands = |saving: f64| -> Vec<f64> {
        free.iter().map(|one| one.as_ref().map_or(0.0, |one| one.half_band(saving))).collect()
    };
    let total = |bands: &[f64]| -> f64 {
        free.iter().zip(bands).filter_map(|(one, band)| Some(one.as_ref()?.share.of(*band))).sum()
    };
    let ends = |end: fn(&Free) -> f64| -> Vec<f64> {
        free.iter().map(|one| one.as_ref().map_or(0.0, end)).collect()
    };
    let (least, greatest) = (ends(|one| one.least), ends(|one| one.greatest));
    // What rounding makes of a target that is met exactly.
    if total(&least) > room * (1.0 + 1e-12) {
        return Err(total(&least));
    }
    if total(&greatest) <= room {
        return Ok((greatest, 0.0));
    }
    // Savings by their logarithm: any that a float holds.
    let at = bisect(-700.0, 700.0, |log| total(&bands(exp(log))) > room);
    let (narrow, wide) = (bands(exp(at)), bands(exp(at.next_down())));
    // Curves with corners leave a step between the two, part of which still fits.
    let between = |share: f64| -> Vec<f64> {
        narrow.iter().zip(&wide).map(|(narrow, wide)| narrow + share * (wide - narrow)).collect()
    };
    let share =
        if total(&wide) <= room { 1.0 } else { bisect(0.0, 1.0, |share| total(&between(share)) <= room) };
    let chosen = between(share);
    Ok((if total(&chosen) <= room * (1.0 + 1e-12) { chosen } else { narrow }, exp(at)))
}
