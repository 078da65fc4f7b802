//! Least and greatest value of a function over the box of its inputs.
use super::StackError;
use super::function::Function;
use super::propagation::Propagation;
use super::random::{LANES, Stream};
use crate::object::ByName;
use tenths_macros::Object;

/// Least and greatest value of a function for any inputs within their limits. Only inputs with two limits are listed.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct Extremes {
    /// The least value.
    pub lower: f64,
    /// The greatest value.
    pub upper: f64,
    /// The inputs that give the least value.
    pub at_lower: ByName<f64>,
    /// The inputs that give the greatest value.
    pub at_upper: ByName<f64>,
    /// For each input, whether the function only rises or only falls with it along all the lines that were tried. If
    /// it does for all inputs, the extremes lie at corners of the box; if not, they were searched for.
    pub monotonic: ByName<bool>,
}

/// Inputs that vary up to which every corner of the box is tried.
const CORNERS_OF: usize = 12;
/// Steps along a line on which it is seen whether the function only rises or falls.
const STEPS: usize = 8;
/// Lines through points at random, for each input, besides those through the middle and two corners.
const LINES: usize = 8;
/// Points from which an extreme is searched for.
const STARTS: usize = 4;
/// Halvings of the step of a search, which starts at a quarter of the box.
const HALVINGS: usize = 40;

impl<F: Function> Propagation<F> {
    /// Least and greatest value for any inputs within their limits.
    ///
    /// Whether the function is monotonic is looked at along lines through the box. Where it is, the extremes are those
    /// of its corners. Where it is not, the best of the corners and the points of those lines start a search within the
    /// box, which finds the extreme of a smooth function to about half the digits of its place; one that is narrow
    /// against an eighth of the box may be missed.
    ///
    /// # Errors
    /// [`StackError::Undefined`] where the function is not defined at any of the points that were tried.
    pub fn extremes(&self) -> Result<Extremes, StackError> {
        let active: Vec<usize> =
            (0..self.inputs.len()).filter(|input| self.inputs[*input].half() > 0.0).collect();
        let mut tried = Tried::new(self);
        let monotonic = self.look_along_lines(&active, &mut tried)?;
        self.look_at_corners(&active, &monotonic, &mut tried)?;
        if monotonic.contains(&Trend::Neither) {
            for sign in [-1.0, 1.0] {
                for start in tried.best(sign) {
                    tried.search(&active, start, sign)?;
                }
            }
        }
        let [(lower, at_lower), (upper, at_upper)] = [-1.0, 1.0].map(|sign| tried.extreme(sign));
        let named = |input: usize| self.inputs[input].name.clone();
        let place = |shares: &[f64]| {
            let point = self.point(shares);
            active.iter().map(|input| (named(*input), point[*input])).collect()
        };
        let is_monotonic = |input: &usize| (named(*input), monotonic[*input] != Trend::Neither);
        let monotonic = active.iter().map(is_monotonic).collect();
        Ok(Extremes { lower, upper, at_lower: place(&at_lower), at_upper: place(&at_upper), monotonic })
    }

    /// The inputs at shares of the way from their lower to their upper limit.
    fn point(&self, shares: &[f64]) -> Vec<f64> {
        self.inputs.iter().zip(shares).map(|(input, share)| input.at(*share)).collect()
    }

    fn look_along_lines(&self, active: &[usize], tried: &mut Tried<F>) -> Result<Vec<Trend>, StackError> {
        let count = self.inputs.len();
        let mut anchors = vec![vec![0.5; count], vec![0.0; count], vec![1.0; count]];
        let mut stream = Stream::new(0, 0);
        let mut words = vec![0; (LINES * count).next_multiple_of(LANES)];
        stream.fill(&mut words);
        let share = |word: &u64| (word >> 11) as f64 / (1u64 << 53) as f64;
        anchors.extend(words.chunks(count).take(LINES).map(|words| words.iter().map(share).collect()));
        let mut trends = vec![Trend::Flat; count];
        for input in active {
            for anchor in &anchors {
                let at = |step| with(anchor, *input, step as f64 / STEPS as f64);
                let values = tried.add((0..=STEPS).map(at).collect())?;
                trends[*input] = trends[*input].and(Trend::of(&values));
            }
        }
        Ok(trends)
    }

    fn look_at_corners(
        &self,
        active: &[usize],
        trends: &[Trend],
        tried: &mut Tried<F>,
    ) -> Result<(), StackError> {
        let middle = vec![0.5; self.inputs.len()];
        let corner = |is_upper: &dyn Fn(usize) -> bool| {
            let mut shares = middle.clone();
            for (place, input) in active.iter().enumerate() {
                shares[*input] = f64::from(u8::from(is_upper(place)));
            }
            shares
        };
        let mut corners: Vec<Vec<f64>> = Vec::new();
        if active.len() <= CORNERS_OF {
            corners.extend((0..1usize << active.len()).map(|bits| corner(&|place| bits >> place & 1 == 1)));
        } else {
            let rises = |place: usize| trends[active[place]] == Trend::Rising;
            corners.push(corner(&rises));
            corners.push(corner(&|place| !rises(place)));
        }
        tried.add(corners)?;
        Ok(())
    }
}

fn with(shares: &[f64], input: usize, share: f64) -> Vec<f64> {
    let mut changed = shares.to_vec();
    changed[input] = share;
    changed
}

/// How a function moves with an input.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Trend {
    Flat,
    Rising,
    Falling,
    Neither,
}

impl Trend {
    /// That of a row of values.
    fn of(values: &[f64]) -> Trend {
        let steps = values.windows(2).map(|pair| match pair[1] - pair[0] {
            step if step > 0.0 => Trend::Rising,
            step if step < 0.0 => Trend::Falling,
            _ => Trend::Flat,
        });
        steps.fold(Trend::Flat, Trend::and)
    }

    fn and(self, other: Trend) -> Trend {
        match (self, other) {
            (Trend::Flat, trend) | (trend, Trend::Flat) => trend,
            (one, other) if one == other => one,
            _ => Trend::Neither,
        }
    }
}

/// The points that were tried, as shares of the box, with their values.
struct Tried<'a, F> {
    propagation: &'a Propagation<F>,
    points: Vec<(f64, Vec<f64>)>,
}

impl<'a, F: Function> Tried<'a, F> {
    fn new(propagation: &'a Propagation<F>) -> Self {
        Tried { propagation, points: Vec::new() }
    }

    fn add(&mut self, points: Vec<Vec<f64>>) -> Result<Vec<f64>, StackError> {
        let places: Vec<Vec<f64>> = points.iter().map(|shares| self.propagation.point(shares)).collect();
        let values = self.propagation.at(&places)?;
        self.points.extend(values.iter().copied().zip(points));
        Ok(values)
    }

    /// The point of the greatest value, or for a sign of -1 of the least.
    fn extreme(&self, sign: f64) -> (f64, Vec<f64>) {
        let better = |a: &&(f64, Vec<f64>), b: &&(f64, Vec<f64>)| (sign * a.0).total_cmp(&(sign * b.0));
        self.points.iter().max_by(better).cloned().unwrap_or((f64::NAN, Vec::new()))
    }

    /// The best points to search from.
    fn best(&self, sign: f64) -> Vec<Vec<f64>> {
        let mut order: Vec<&(f64, Vec<f64>)> = self.points.iter().collect();
        order.sort_by(|a, b| (sign * b.0).total_cmp(&(sign * a.0)));
        order.dedup_by(|a, b| a.1 == b.1);
        order.into_iter().take(STARTS).map(|(_, shares)| shares.clone()).collect()
    }

    /// Steps along the inputs while that is better, and halves the step where none is.
    fn search(&mut self, active: &[usize], start: Vec<f64>, sign: f64) -> Result<(), StackError> {
        let mut step = 0.25;
        let mut best = (sign * self.add(vec![start.clone()])?[0], start);
        for _ in 0..HALVINGS {
            // Each round moves by a step at least, and the box is a few steps wide in every direction.
            for _ in 0..64 * active.len() {
                let moved =
                    |input: usize, by: f64| with(&best.1, input, (best.1[input] + by).clamp(0.0, 1.0));
                let around: Vec<Vec<f64>> =
                    active.iter().flat_map(|input| [moved(*input, -step), moved(*input, step)]).collect();
                let places: Vec<Vec<f64>> =
                    around.iter().map(|shares| self.propagation.point(shares)).collect();
                let values = self.propagation.at(&places)?;
                let found = values.into_iter().map(|value| sign * value).zip(around);
                let found = found.max_by(|a, b| a.0.total_cmp(&b.0));
                match found {
                    Some(found) if found.0 > best.0 => best = found,
                    _ => break,
                }
            }
            step *= 0.5;
        }
        self.points.push((sign * best.0, best.1));
        Ok(())
    }
}
