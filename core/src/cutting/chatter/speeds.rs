//! Speeds and depths: lobes, the nearest stable speed, the deepest stable cut.
use super::error::StabilityError;
use super::stability::Stability;
use super::structure::shown;
use crate::quantity::*;
use tenths_macros::Object;

/// Lobes that the speeds of a range may lie on.
const MAX_LOBES: f64 = 300.0;
/// Lobes are told up to so many times the critical depth.
const DEEP: f64 = 10.0;
/// Speeds that are tried for each lobe, and in all.
const PER_LOBE: f64 = 48.0;
const MIN_TRIED: f64 = 200.0;
const MAX_TRIED: f64 = 6000.0;
/// How far beside an edge of stability a speed is.
const BESIDE: f64 = 1e-6;
/// Steps by which a turning point is closed in on.
const CLOSING: usize = 60;

/// Spindle speeds to look at.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SpeedRange {
    /// The least.
    pub least: SpindleSpeed,
    /// The greatest.
    pub greatest: SpindleSpeed,
}

/// A point of a stability lobe: at this speed, this depth is where this vibration holds itself up.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct LobePoint {
    /// Whole waves between two edges: 0 on the lobe of the highest speeds.
    pub lobe: u32,
    /// The spindle speed.
    pub spindle_speed: SpindleSpeed,
    /// The depth.
    pub depth: Length,
    /// The frequency of the vibration.
    pub frequency: Frequency,
}

/// The limit of stability at a spindle speed.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct StableCut {
    /// The spindle speed.
    pub spindle_speed: SpindleSpeed,
    /// The deepest stable cut there: infinite where no vibration is steady.
    pub depth: Length,
    /// The frequency at which a deeper cut chatters.
    pub frequency: Option<Frequency>,
    /// The lobe that bounds the depth.
    pub lobe: Option<u32>,
}

fn speed(spindle_speed: SpindleSpeed) -> f64 {
    spindle_speed.metric()
}

impl Stability {
    /// The limit of stability at a spindle speed.
    ///
    /// # Errors
    /// [`StabilityError::Number`] for a speed that is not above 0.
    pub fn cut_at(&self, spindle_speed: SpindleSpeed) -> Result<StableCut, StabilityError> {
        let n = speed(spindle_speed);
        if !(n > 0.0 && n.is_finite()) {
            let value = shown(spindle_speed, self.units);
            return Err(StabilityError::Number { what: "spindle_speed", must: "greater than 0", value });
        }
        let onset = self.nodes.onset(n);
        Ok(StableCut {
            spindle_speed,
            depth: Length::millimetres(onset.map_or(f64::INFINITY, |onset| onset.depth)),
            frequency: onset.map(|onset| Frequency::hertz(onset.frequency)),
            lobe: onset.map(|onset| onset.lobe as u32),
        })
    }

    /// The speeds of the first lobes, where no others are asked for.
    pub fn usual_range(&self) -> SpeedRange {
        let resonant = 60.0 * self.critical_frequency.in_units(Units::Metric) / f64::from(self.teeth);
        let [least, greatest] = [resonant / 6.0, 1.3 * resonant].map(SpindleSpeed::rev_per_minute);
        SpeedRange { least, greatest }
    }

    /// Least and greatest speed in rev/min.
    fn ends(&self, range: Option<SpeedRange>) -> Result<(f64, f64), StabilityError> {
        let range = range.unwrap_or_else(|| self.usual_range());
        let (least, greatest) = (speed(range.least), speed(range.greatest));
        if !(least > 0.0 && least < greatest && greatest.is_finite()) {
            return Err(StabilityError::Range { least, greatest });
        }
        let highest =
            self.nodes.nodes.iter().rev().find(|node| node.depths.iter().any(|depth| depth.is_finite()));
        let frequency = highest.map_or(0.0, |node| node.frequency);
        // The lobes of the highest modes lie far apart: it is those of the critical one that are counted.
        let lobes = 60.0 * self.critical_frequency.in_units(Units::Metric).min(frequency)
            / (f64::from(self.teeth) * least);
        let few = lobes <= MAX_LOBES;
        if !few {
            let (most, count) = (MAX_LOBES as usize, lobes as usize);
            return Err(StabilityError::TooMany {
                what: "lobes in the range of spindle speeds",
                most,
                count,
            });
        }
        Ok((least, greatest))
    }

    /// The lobes on which a vibration lies within a range of speeds in rev/min, with the speed on each: those of the highest
    /// speeds, where there are very many.
    fn speeds_of_lobes(
        &self,
        frequency: f64,
        lag: f64,
        least: f64,
        greatest: f64,
    ) -> impl Iterator<Item = (u32, f64)> {
        let waves = |n: f64| 60.0 * frequency / (f64::from(self.teeth) * n) - lag;
        let (first, last) = (waves(greatest).ceil().max(0.0), waves(least).floor());
        // A vibration far above the critical one may have more lobes than a number can count.
        let count = if first <= last { (last - first).min(MAX_LOBES) as u32 + 1 } else { 0 };
        (0..count).map(move |k| {
            let lobe = first + f64::from(k);
            (lobe as u32, self.nodes.spindle_speed(frequency, lag, lobe))
        })
    }

    /// The lobes in a range of spindle speeds, or of the first ones: the points of each in a row, up to ten times the critical
    /// depth. The limit of stability is the lowest of them at each speed.
    ///
    /// # Errors
    /// [`StabilityError`] for a range whose ends are not in order, or that has too many lobes.
    pub fn lobes(&self, range: Option<SpeedRange>) -> Result<Vec<LobePoint>, StabilityError> {
        let (least, greatest) = self.ends(range)?;
        let deepest = DEEP * self.critical_depth.metric();
        let mut points = vec![];
        for branch in 0..2 {
            for node in self.nodes.nodes.iter().filter(|node| node.depths[branch] <= deepest) {
                let speeds = self.speeds_of_lobes(node.frequency, node.lags[branch], least, greatest);
                points.extend(speeds.map(|(lobe, speed)| LobePoint {
                    lobe,
                    spindle_speed: SpindleSpeed::rev_per_minute(speed),
                    depth: Length::millimetres(node.depths[branch]),
                    frequency: Frequency::hertz(node.frequency),
                }));
            }
        }
        points.sort_by_key(|point| point.lobe);
        Ok(points)
    }

    /// The spindle speed nearest to the one given at which a cut of this depth is stable; that one itself if it is.
    ///
    /// It lies on the edge of stability: go on past it by a few percent, or ask for a deeper cut than you take.
    ///
    /// # Errors
    /// [`StabilityError`] for a depth that is not above 0, and where no speed of the range is stable.
    pub fn nearest_stable_speed(
        &self,
        depth: Length,
        spindle_speed: SpindleSpeed,
        range: Option<SpeedRange>,
    ) -> Result<StableCut, StabilityError> {
        let wanted = depth.metric();
        if !(wanted > 0.0 && wanted.is_finite()) {
            let value = shown(depth, self.units);
            return Err(StabilityError::Number { what: "depth", must: "greater than 0", value });
        }
        let (least, greatest) = self.ends(range)?;
        let now = self.cut_at(spindle_speed)?;
        let from = speed(spindle_speed);
        let inside = (least..=greatest).contains(&from);
        if inside && now.depth.metric() >= wanted {
            return Ok(now);
        }
        let mut edges = vec![least, greatest];
        for (frequency, lag) in self.nodes.at_depth(wanted) {
            let speeds = self.speeds_of_lobes(frequency, lag, least, greatest);
            edges.extend(speeds.flat_map(|(_, edge)| [edge * (1.0 - BESIDE), edge * (1.0 + BESIDE)]));
        }
        edges.retain(|edge| (least..=greatest).contains(edge));
        edges.sort_by(|a, b| (a - from).abs().total_cmp(&(b - from).abs()));
        for edge in edges {
            let cut = self.cut_at(SpindleSpeed::rev_per_minute(edge))?;
            if cut.depth.metric() >= wanted {
                return Ok(cut);
            }
        }
        let deepest = shown(self.deepest(range)?.depth, self.units);
        Err(StabilityError::NothingStable { least, greatest, deepest })
    }

    /// The speeds of a range at which the stable depth turns from rising to falling or back, as far as lobes are told apart
    /// by the speeds that are tried for each.
    pub(crate) fn turning_points(&self, least: f64, greatest: f64) -> Result<Vec<f64>, StabilityError> {
        let turns = self.turns(least, greatest)?;
        let depth = |turn: f64| {
            let onset = self.nodes.onset((1.0 / turn).clamp(least, greatest));
            onset.map_or(f64::INFINITY, |onset| onset.depth)
        };
        let depths: Vec<f64> = turns.iter().map(|&turn| depth(turn)).collect();
        let mut found = vec![];
        for k in 1..turns.len() - 1 {
            let (before, here, after) = (depths[k - 1], depths[k], depths[k + 1]);
            let sign = match () {
                () if here >= before && here > after => 1.0,
                () if here <= before && here < after => -1.0,
                () => continue,
            };
            found.push(1.0 / highest(turns[k - 1], turns[k + 1], |turn| sign * depth(turn)));
        }
        Ok(found)
    }

    /// Times of a turn to try over a range of speeds, evenly, since lobes repeat in them.
    fn turns(&self, least: f64, greatest: f64) -> Result<Vec<f64>, StabilityError> {
        let range = SpeedRange {
            least: SpindleSpeed::rev_per_minute(least),
            greatest: SpindleSpeed::rev_per_minute(greatest),
        };
        self.ends(Some(range))?;
        let frequency = self.critical_frequency.in_units(Units::Metric);
        let lobes = 60.0 * frequency / f64::from(self.teeth) * (1.0 / least - 1.0 / greatest);
        let count = (PER_LOBE * lobes).clamp(MIN_TRIED, MAX_TRIED).ceil();
        let (slow, fast) = (1.0 / least, 1.0 / greatest);
        Ok((0..=count as usize).map(|k| fast + (slow - fast) * (k as f64 / count)).collect())
    }

    /// The deepest stable cut in a range of spindle speeds, or at those of the first lobes.
    ///
    /// It lies in the notch between two lobes, where a small error of a frequency costs much of the depth: take less.
    ///
    /// # Errors
    /// [`StabilityError`] for a range whose ends are not in order, or that has too many lobes.
    pub fn deepest(&self, range: Option<SpeedRange>) -> Result<StableCut, StabilityError> {
        let (least, greatest) = self.ends(range)?;
        let turns = self.turns(least, greatest)?;
        let at = |turn: f64| SpindleSpeed::rev_per_minute((1.0 / turn).clamp(least, greatest));
        let depth = |turn: f64| {
            let onset = self.nodes.onset(speed(at(turn)));
            onset.map_or(f64::INFINITY, |onset| onset.depth)
        };
        let mut best = (0, f64::NEG_INFINITY);
        for (k, &turn) in turns.iter().enumerate() {
            let depth = depth(turn);
            if depth > best.1 {
                best = (k, depth);
            }
        }
        let beside = (turns[best.0.saturating_sub(1)], turns[(best.0 + 1).min(turns.len() - 1)]);
        let closer = highest(beside.0, beside.1, depth);
        let turn = if depth(closer) > best.1 { closer } else { turns[best.0] };
        self.cut_at(at(turn))
    }
}

/// Where a function between two ends that rises and then falls is highest.
fn highest(mut low: f64, mut high: f64, function: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..CLOSING {
        let third = (high - low) / 3.0;
        let (first, second) = (low + third, high - third);
        match function(first) > function(second) {
            true => high = second,
            false => low = first,
        }
    }
    0.5 * (low + high)
}
