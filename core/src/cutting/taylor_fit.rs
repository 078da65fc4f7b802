//! Taylor's constants from trials of tool life, by least squares, with their uncertainty.
use crate::math::{exp, ln};
use crate::quantity::*;
use tenths_macros::Object;

/// Columns at most: surface speed, feed, depth.
const MAX_COLUMNS: usize = 3;
/// What share of a column must be its own, not told by the others, for its exponent to be found.
const OWN_SHARE: f64 = 1e-9;

/// Why no line fits the trials.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum TaylorFitError {
    /// Fewer trials than it takes to find the constants and see their scatter.
    #[error("at least {least} trials are needed to find the constants and their scatter, not {got}")]
    TooFew {
        /// How many are needed.
        least: usize,
        /// How many were given.
        got: usize,
    },
    /// Columns of different length.
    #[error("{column} must have one value for each surface speed: {trials}, not {got}")]
    Lengths {
        /// The column: lives, feeds or depths.
        column: &'static str,
        /// Its length.
        got: usize,
        /// Length of the surface speeds.
        trials: usize,
    },
    /// A number that is not positive and finite.
    #[error("trial {trial}: {column} must be positive and finite")]
    Trial {
        /// The trial, counted from 0.
        trial: usize,
        /// Which of its numbers.
        column: &'static str,
    },
    /// A column that is the same in all trials, or moves with the others only.
    #[error("{column} must vary between trials, and not in step with the other columns")]
    Alike {
        /// The column.
        column: &'static str,
    },
    /// Life does not fall as the surface speed rises, so that Taylor's law does not describe it.
    #[error("life does not fall as surface speed rises")]
    NoFall,
    /// A prediction for other columns than the trials had.
    #[error("the trials {had} {column}: a life is predicted {must} it")]
    Column {
        /// The column.
        column: &'static str,
        /// `had` or `did not tell`.
        had: &'static str,
        /// `with` or `without`.
        must: &'static str,
    },
    /// Constants or a life too large for a number.
    #[error("the result is too large to represent")]
    NoAnswer,
}

/// Taylor's constants as trials tell them, and how surely.
///
/// The line is fitted to logarithms, of life against surface speed: speed is set and life scatters. That is the
/// regression of ISO 3685 (from memory). V · T^n · f^a · d^b = C follows from it, and the standard errors through
/// the first derivatives, which is close while they are small beside the figures. All errors suppose that the
/// scatter of ln life is the same at every speed. For an interval at a confidence, multiply a standard error by
/// Student's t of `trials` less the number of constants.
#[derive(Clone, PartialEq, Debug, Object)]
pub struct TaylorFit {
    /// Number of trials.
    pub trials: usize,
    /// Taylor's exponent n.
    pub taylor_n: f64,
    /// Its standard error.
    pub taylor_n_error: f64,
    /// Taylor's C: surface speed at one minute of life, and at a feed and a depth of 1 mm where those are fitted.
    pub taylor_c: SurfaceSpeed,
    /// Standard error of ln C, which is the relative one of C.
    pub ln_c_error: f64,
    /// Exponent a of the feed, where the trials tell feeds.
    pub feed_exponent: Option<f64>,
    /// Its standard error.
    pub feed_exponent_error: Option<f64>,
    /// Exponent b of the depth, where the trials tell depths.
    pub depth_exponent: Option<f64>,
    /// Its standard error.
    pub depth_exponent_error: Option<f64>,
    /// Standard deviation of ln life about the line: 0.2 is a scatter of a fifth or so.
    pub residual_deviation: f64,
    /// Share of the variance of ln life that the line tells.
    pub r_squared: f64,
    /// Covariance of n, ln C, and of a and b where they are fitted, in this order.
    pub covariance: Vec<Vec<f64>>,
    line: Line,
}

/// A life that a fit predicts.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(tuple)]
pub struct PredictedLife {
    /// The life on the line.
    pub tool_life: Time,
    /// Standard error of the line there, as that of ln life, which is the relative one.
    pub line_error: f64,
    /// Standard error for one edge more: that of the line and the scatter of edges together.
    pub edge_error: f64,
}

impl TaylorFit {
    /// Fits V · T^n = C to trials, of which there are three at least.
    ///
    /// # Errors
    /// [`TaylorFitError`] for too few trials, equal speeds, numbers that are not positive, and a life that does not
    /// fall with speed.
    pub fn from_trials(trials: &[(SurfaceSpeed, Time)]) -> Result<TaylorFit, TaylorFitError> {
        let (speeds, lives): (Vec<_>, Vec<_>) = trials.iter().copied().unzip();
        Self::from_columns(&speeds, &lives, None, None)
    }

    /// Fits V · T^n · f^a · d^b = C to trials told in columns; a column of feeds or depths may be left out.
    ///
    /// # Errors
    /// As [`TaylorFit::from_trials`], and for columns of unequal length, or that only move together.
    pub fn from_columns(
        speeds: &[SurfaceSpeed],
        lives: &[Time],
        feeds: Option<&[Length]>,
        depths: Option<&[Length]>,
    ) -> Result<TaylorFit, TaylorFitError> {
        let count = speeds.len();
        let life = logarithms("lives", lives, count)?;
        let mut columns = vec![("surface speeds", logarithms("surface speeds", speeds, count)?)];
        for (name, column) in [("feeds", feeds), ("depths", depths)] {
            if let Some(column) = column {
                columns.push((name, logarithms(name, column, count)?));
            }
        }
        let line = Line::fit(columns, life, [feeds.is_some(), depths.is_some()])?;
        Self::of_line(line)
    }

    /// Taylor's constants from the line of ln life, and their covariance through the derivatives.
    fn of_line(line: Line) -> Result<TaylorFit, TaylorFitError> {
        let slope = line.slopes[0];
        if slope >= 0.0 {
            return Err(TaylorFitError::NoFall);
        }
        let columns = line.slopes.len();
        // ln life at the mean speed, and a feed and a depth of 1 mm.
        let reference: f64 =
            line.mean_life - (1..columns).map(|j| line.slopes[j] * line.means[j]).sum::<f64>();
        let (taylor_n, ln_c) = (-1.0 / slope, line.means[0] - reference / slope);
        let exponent = |j: usize| line.slopes[j] / slope;
        // Rows: n, ln C, then the other exponents; columns: the mean of ln life, then the slopes.
        let mut derivatives = vec![vec![0.0; columns + 1]; columns + 1];
        derivatives[0][1] = 1.0 / (slope * slope);
        derivatives[1][0] = -1.0 / slope;
        derivatives[1][1] = reference / (slope * slope);
        for j in 1..columns {
            derivatives[1][j + 1] = line.means[j] / slope;
            derivatives[j + 1][1] = -exponent(j) / slope;
            derivatives[j + 1][j + 1] = 1.0 / slope;
        }
        let covariance: Vec<Vec<f64>> =
            derivatives.iter().map(|a| derivatives.iter().map(|b| line.covariance(a, b)).collect()).collect();
        let taylor_c = exp(ln_c);
        if !(taylor_c.is_finite() && covariance.iter().flatten().all(|value| value.is_finite())) {
            return Err(TaylorFitError::NoAnswer);
        }
        let error = |k: usize| covariance[k][k].sqrt();
        let feed = line.place_of(0);
        let depth = line.place_of(1);
        Ok(TaylorFit {
            trials: line.trials,
            taylor_n,
            taylor_n_error: error(0),
            taylor_c: SurfaceSpeed::from_metric(taylor_c),
            ln_c_error: error(1),
            feed_exponent: feed.map(exponent),
            feed_exponent_error: feed.map(|j| error(j + 1)),
            depth_exponent: depth.map(exponent),
            depth_exponent_error: depth.map(|j| error(j + 1)),
            residual_deviation: line.residual_deviation,
            r_squared: line.r_squared,
            covariance,
            line,
        })
    }

    /// The life at a speed, and at a feed and a depth where those were fitted, with its standard errors.
    ///
    /// Outside the speeds of the trials the errors tell of the line alone, not of another kind of wear.
    ///
    /// # Errors
    /// [`TaylorFitError`] for a number that is not positive, and for a feed or depth too many or too few.
    pub fn predict(
        &self,
        speed: SurfaceSpeed,
        feed: Option<Length>,
        depth: Option<Length>,
    ) -> Result<PredictedLife, TaylorFitError> {
        let line = &self.line;
        let mut at = vec![logarithms("surface speeds", &[speed], 1)?[0] - line.means[0]];
        for (k, (column, given)) in [("feeds", feed), ("depths", depth)].into_iter().enumerate() {
            match (line.place_of(k), given) {
                (Some(j), Some(value)) => at.push(logarithms(column, &[value], 1)?[0] - line.means[j]),
                (None, None) => {}
                (Some(_), None) => {
                    return Err(TaylorFitError::Column { column, had: "had", must: "with" });
                }
                (None, Some(_)) => {
                    return Err(TaylorFitError::Column { column, had: "did not give", must: "without" });
                }
            }
        }
        let ln_life: f64 = line.mean_life + at.iter().zip(&line.slopes).map(|(x, b)| x * b).sum::<f64>();
        let tool_life = exp(ln_life);
        let row: Vec<f64> = std::iter::once(1.0).chain(at).collect();
        let variance = line.covariance(&row, &row);
        match tool_life.is_finite() && tool_life > 0.0 && variance.is_finite() {
            true => Ok(PredictedLife {
                tool_life: Time::from_metric(tool_life),
                line_error: variance.sqrt(),
                edge_error: (variance + line.residual_deviation * line.residual_deviation).sqrt(),
            }),
            false => Err(TaylorFitError::NoAnswer),
        }
    }
}

/// The logarithms of a column of positive numbers in metric base units.
fn logarithms<Q: Quantity>(
    column: &'static str,
    numbers: &[Q],
    trials: usize,
) -> Result<Vec<f64>, TaylorFitError> {
    if numbers.len() != trials {
        return Err(TaylorFitError::Lengths { column, got: numbers.len(), trials });
    }
    let ln_of = |(trial, number): (usize, &Q)| {
        let value = number.metric();
        match value > 0.0 && value.is_finite() {
            true => Ok(ln(value)),
            false => Err(TaylorFitError::Trial { trial, column }),
        }
    };
    numbers.iter().enumerate().map(ln_of).collect()
}

/// A straight line of ln life by the logarithms of the columns, about their means.
#[derive(Clone, PartialEq, Debug)]
struct Line {
    trials: usize,
    /// Whether there is a column of feeds, and of depths, behind that of the speeds.
    has: [bool; 2],
    means: Vec<f64>,
    mean_life: f64,
    slopes: Vec<f64>,
    /// The inverse of the triangle of the columns: its rows make the covariance of the slopes.
    inverse: [[f64; MAX_COLUMNS]; MAX_COLUMNS],
    residual_deviation: f64,
    r_squared: f64,
}

impl Line {
    /// Least squares by orthogonal columns about their means, the life as a last column (modified Gram-Schmidt).
    fn fit(
        columns: Vec<(&'static str, Vec<f64>)>,
        mut life: Vec<f64>,
        has: [bool; 2],
    ) -> Result<Line, TaylorFitError> {
        let (trials, count) = (life.len(), columns.len());
        let least = count + 2;
        if trials < least {
            return Err(TaylorFitError::TooFew { least, got: trials });
        }
        let mean_life = centre(&mut life);
        let total = dot(&life, &life);
        let (mut means, mut made) = (vec![], Vec::<Vec<f64>>::new());
        let mut triangle = [[0.0; MAX_COLUMNS]; MAX_COLUMNS];
        let mut along = [0.0; MAX_COLUMNS];
        for (j, (name, mut column)) in columns.into_iter().enumerate() {
            let size = dot(&column, &column).sqrt().max(1.0);
            means.push(centre(&mut column));
            let spread = dot(&column, &column).sqrt();
            for (i, unit) in made.iter().enumerate() {
                triangle[i][j] = take_out(unit, &mut column);
            }
            let own = dot(&column, &column).sqrt();
            if !(own > OWN_SHARE * spread && spread > OWN_SHARE * size) {
                return Err(TaylorFitError::Alike { column: name });
            }
            triangle[j][j] = own;
            column.iter_mut().for_each(|value| *value /= own);
            along[j] = take_out(&column, &mut life);
            made.push(column);
        }
        let inverse = inverted(&triangle, count);
        let slopes = (0..count).map(|i| (i..count).map(|j| inverse[i][j] * along[j]).sum()).collect();
        let left = dot(&life, &life);
        let residual_deviation = (left / (trials - count - 1) as f64).sqrt();
        // Without any spread of life the slope is zero, and there is no fall.
        let r_squared = if total > 0.0 { 1.0 - left / total } else { 0.0 };
        Ok(Line { trials, has, means, mean_life, slopes, inverse, residual_deviation, r_squared })
    }

    /// The place of the column of feeds (0) or depths (1).
    fn place_of(&self, which: usize) -> Option<usize> {
        let before = self.has[..which].iter().filter(|&&has| has).count();
        self.has[which].then_some(1 + before)
    }

    /// Covariance of two sums over the mean of ln life and the slopes, which do not depend on each other.
    fn covariance(&self, a: &[f64], b: &[f64]) -> f64 {
        let count = self.slopes.len();
        let folded = |row: &[f64], k: usize| (0..count).map(|i| row[i + 1] * self.inverse[i][k]).sum::<f64>();
        let slopes: f64 = (0..count).map(|k| folded(a, k) * folded(b, k)).sum();
        self.residual_deviation * self.residual_deviation * (a[0] * b[0] / self.trials as f64 + slopes)
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Takes the mean out of a column, and gives it.
fn centre(column: &mut [f64]) -> f64 {
    let mean = column.iter().sum::<f64>() / column.len() as f64;
    column.iter_mut().for_each(|value| *value -= mean);
    mean
}

/// Takes out of a column what lies along another of length 1, and tells how much.
fn take_out(unit: &[f64], column: &mut [f64]) -> f64 {
    let along = dot(unit, column);
    column.iter_mut().zip(unit).for_each(|(value, unit)| *value -= along * unit);
    along
}

/// The inverse of an upper triangle.
fn inverted(triangle: &[[f64; MAX_COLUMNS]; MAX_COLUMNS], count: usize) -> [[f64; MAX_COLUMNS]; MAX_COLUMNS] {
    let mut inverse = [[0.0; MAX_COLUMNS]; MAX_COLUMNS];
    for j in 0..count {
        inverse[j][j] = 1.0 / triangle[j][j];
        for i in (0..j).rev() {
            let above: f64 = (i + 1..=j).map(|k| triangle[i][k] * inverse[k][j]).sum();
            inverse[i][j] = -above / triangle[i][i];
        }
    }
    inverse
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use crate::math::powf;

    fn trials(rows: &[(f64, f64)]) -> Vec<(SurfaceSpeed, Time)> {
        rows.iter().map(|&(v, t)| (SurfaceSpeed::metres_per_minute(v), Time::minutes(t))).collect()
    }

    fn near(got: f64, wanted: f64, within: f64) {
        assert!((got - wanted).abs() <= within, "{got} is not {wanted}");
    }

    // By hand: V · T^0.5 = 400 goes through (400, 1), (200, 4), (100, 16), (50, 64).
    #[test]
    fn trials_on_a_line_give_the_line() {
        let rows = trials(&[(400.0, 1.0), (200.0, 4.0), (100.0, 16.0), (50.0, 64.0)]);
        let fit = TaylorFit::from_trials(&rows).unwrap();
        near(fit.taylor_n, 0.5, 1e-14);
        near(fit.taylor_c.in_units(Units::Metric), 400.0, 1e-10);
        assert!(fit.taylor_n_error < 1e-14 && fit.residual_deviation < 1e-14 && fit.r_squared > 1.0 - 1e-14);
        near(
            fit.predict(SurfaceSpeed::metres_per_minute(80.0), None, None).unwrap().tool_life.metric(),
            25.0,
            1e-11,
        );
    }

    // By hand, in units of ln 2: speeds 2, 1, 0 and lives 0, 3, 4 of ln 2 about V = 100. Means 1 and 7/3, slope -2,
    // residuals -1/3, 2/3, -1/3, so s² = 6/9 on one degree of freedom, and variance of the slope s²/2 = 1/3
    // (in units without ln 2, since both are divided by it): standard error √(1/3), that of n = 1/2 a quarter of it.
    #[test]
    fn scatter_gives_the_errors_worked_by_hand() {
        let fit = TaylorFit::from_trials(&trials(&[(400.0, 1.0), (200.0, 8.0), (100.0, 16.0)])).unwrap();
        let two = std::f64::consts::LN_2;
        near(fit.taylor_n, 0.5, 1e-13);
        near(fit.taylor_n_error, (1.0f64 / 3.0).sqrt() / 4.0, 1e-13);
        near(fit.residual_deviation, (2.0f64 / 3.0).sqrt() * two, 1e-13);
        // Of 26/3 in all, 2/3 is left.
        near(fit.r_squared, 1.0 - (2.0 / 3.0) / (26.0 / 3.0), 1e-13);
        // ln C = ln 100 + (1 + (7/3) / 2) ln 2, with variance s² ln²2 / n_trials / 4 + (7/3)² ln²2 / 16 · 1/3.
        near(fit.taylor_c.in_units(Units::Metric), 100.0 * powf(2.0, 1.0 + 7.0 / 6.0), 1e-9);
        let variance: f64 = (2.0 / 3.0) / 3.0 / 4.0 + (49.0 / 9.0) / 16.0 / 3.0;
        near(fit.ln_c_error, variance.sqrt() * two, 1e-13);
        let at_mean = fit.predict(SurfaceSpeed::metres_per_minute(200.0), None, None).unwrap();
        near(at_mean.line_error, (2.0f64 / 9.0).sqrt() * two, 1e-13);
        near(at_mean.edge_error, (2.0f64 / 9.0 + 2.0 / 3.0).sqrt() * two, 1e-13);
    }

    // By hand: V · T^0.25 · f^0.5 · d^0.125 = 200, all powers of two and so exact.
    #[test]
    fn feed_and_depth_have_exponents() {
        let rows =
            [(200.0, 1.0, 1.0), (100.0, 1.0, 1.0), (200.0, 0.25, 1.0), (200.0, 1.0, 4.0), (50.0, 0.25, 16.0)];
        let life = |(v, f, d): (f64, f64, f64)| powf(200.0 / (v * powf(f, 0.5) * powf(d, 0.125)), 4.0);
        let speeds = rows.map(|row| SurfaceSpeed::metres_per_minute(row.0));
        let lives = rows.map(|row| Time::minutes(life(row)));
        let (feeds, depths) =
            (rows.map(|row| Length::millimetres(row.1)), rows.map(|row| Length::millimetres(row.2)));
        let fit = TaylorFit::from_columns(&speeds, &lives, Some(&feeds), Some(&depths)).unwrap();
        near(fit.taylor_n, 0.25, 1e-13);
        near(fit.taylor_c.in_units(Units::Metric), 200.0, 1e-9);
        near(fit.feed_exponent.unwrap(), 0.5, 1e-13);
        near(fit.depth_exponent.unwrap(), 0.125, 1e-13);
        let at = |feed, depth| fit.predict(speeds[1], feed, depth);
        near(at(Some(feeds[0]), Some(depths[3])).unwrap().tool_life.metric(), 8.0, 1e-10);
        assert!(matches!(at(None, Some(depths[3])), Err(TaylorFitError::Column { column: "feeds", .. })));
        let fit = TaylorFit::from_columns(&speeds, &lives, Some(&feeds), Some(&feeds));
        assert_eq!(fit, Err(TaylorFitError::Alike { column: "depths" }));
    }

    #[test]
    fn trials_that_tell_no_line_are_refused() {
        let told = |rows: &[(f64, f64)]| TaylorFit::from_trials(&trials(rows)).unwrap_err();
        assert_eq!(told(&[]), TaylorFitError::TooFew { least: 3, got: 0 });
        assert_eq!(told(&[(100.0, 5.0), (50.0, 9.0)]), TaylorFitError::TooFew { least: 3, got: 2 });
        let equal = [(137.1, 5.0), (137.1, 6.0), (137.1, 7.0)];
        assert_eq!(told(&equal), TaylorFitError::Alike { column: "surface speeds" });
        assert_eq!(told(&[(100.0, 5.0), (50.0, 4.0), (25.0, 3.0)]), TaylorFitError::NoFall);
        assert_eq!(told(&[(100.0, 5.0), (50.0, 5.0), (25.0, 5.0)]), TaylorFitError::NoFall);
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let speed = told(&[(100.0, 5.0), (bad, 6.0), (50.0, 7.0)]);
            assert_eq!(speed, TaylorFitError::Trial { trial: 1, column: "surface speeds" });
            let life = told(&[(100.0, 5.0), (75.0, 6.0), (50.0, bad)]);
            assert_eq!(life, TaylorFitError::Trial { trial: 2, column: "lives" });
        }
        let speeds = [SurfaceSpeed::metres_per_minute(1.0); 4];
        let lengths = TaylorFitError::Lengths { column: "lives", got: 3, trials: 4 };
        assert_eq!(TaylorFit::from_columns(&speeds, &[Time::minutes(1.0); 3], None, None), Err(lengths));
    }
}
