//! The figures of a cut over stretches of what is chosen, and at one point.
use super::figure::{Figure, Stretch};
use super::model::Model;
use super::program::{MAX_UNKNOWNS, Vector};
use crate::math::{exp, ln};

impl Model<'_> {
    /// All figures over stretches of the bent arguments.
    pub fn figures(&self, stretches: &[Stretch]) -> Vec<Figure> {
        let formula = self.problem.formula;
        let mut figures = Vec::with_capacity(self.told() + self.derived.len());
        figures.extend(self.base.iter().map(|&value| Figure::constant(value)));
        for (j, &at) in self.straight.iter().enumerate() {
            let mut slopes = [0.0; MAX_UNKNOWNS];
            slopes[j] = 1.0;
            figures[at] = Figure { low: 0.0, high: 0.0, slopes };
        }
        for (&at, stretch) in self.bent.iter().zip(stretches) {
            let [low, high] = [stretch.low, stretch.high].map(|end| Figure::constant(end).low);
            figures[at] = Figure { low, high, slopes: [0.0; MAX_UNKNOWNS] };
        }
        let corners: Vec<_> = self.corners(stretches).map(|row| self.results(&row).ok()).collect();
        for k in 0..formula.outputs.len() {
            let level = |corner: usize| match corners[corner] {
                Some(results) if results[k] >= 0.0 => self.level(results[k], &self.slopes[k]),
                _ => f64::NAN,
            };
            let [low, high] = match self.extreme_corners(stretches, formula.outputs[k].name) {
                Some([low, high]) => [level(low), level(high)],
                None => [f64::NAN; 2],
            };
            // What is not known may be anything.
            figures.push(Figure {
                low: if low.is_nan() { f64::NEG_INFINITY } else { low },
                high: if high.is_nan() { f64::INFINITY } else { high },
                slopes: self.slopes[k],
            });
        }
        for (_, product) in &self.derived {
            figures.push(product.figure(&figures));
        }
        figures
    }

    /// The logarithm of a figure where all chosen arguments are 1, from its value at the base.
    fn level(&self, value: f64, slopes: &Vector) -> f64 {
        let rise: f64 = self.straight.iter().zip(slopes).map(|(&at, slope)| slope * ln(self.base[at])).sum();
        if value > 0.0 { ln(value) - rise } else { f64::NEG_INFINITY }
    }

    /// Rows at the corners of the stretches, the straight arguments as in the base.
    fn corners(&self, stretches: &[Stretch]) -> impl Iterator<Item = Vec<f64>> {
        (0..1usize << stretches.len()).map(move |corner| {
            let mut row = self.base.clone();
            for (k, (&at, stretch)) in self.bent.iter().zip(stretches).enumerate() {
                row[at] = if corner >> k & 1 == 0 { stretch.low } else { stretch.high };
            }
            row
        })
    }

    /// The corners at which a result is least and greatest; nothing where that is not known.
    fn extreme_corners(&self, stretches: &[Stretch], output: &str) -> Option<[usize; 2]> {
        let mut corners = [0, 0];
        for (k, (&at, stretch)) in self.bent.iter().zip(stretches).enumerate() {
            if stretch.is_point() {
                continue;
            }
            let trends = self.problem.formula.arguments[at].trends;
            let rising = trends.iter().find(|trend| trend.output == output)?.rising;
            corners[usize::from(rising)] |= 1 << k;
        }
        Some(corners)
    }

    /// The row of a point.
    pub fn row(&self, at: &Vector, stretches: &[Stretch]) -> Vec<f64> {
        let mut row = self.base.clone();
        for (j, &place) in self.straight.iter().enumerate() {
            row[place] = exp(at[j]);
        }
        for (&place, stretch) in self.bent.iter().zip(stretches) {
            row[place] = stretch.middle();
        }
        row
    }

    /// Every figure of a row as the formulas have it.
    pub fn exact(&self, row: &[f64]) -> Option<Vec<f64>> {
        let results = self.results(row).ok()?;
        let mut figures = Vec::with_capacity(self.told() + self.derived.len());
        figures.extend_from_slice(row);
        figures.extend_from_slice(&results[..self.problem.formula.outputs.len()]);
        for (_, product) in &self.derived {
            figures.push(product.value(&figures));
        }
        Some(figures)
    }

    /// The objective, from all figures.
    pub fn objective(&self, figures: &[f64]) -> f64 {
        let sum: f64 = self.sum.iter().map(|product| product.value(figures)).sum();
        if self.inverted { 1.0 / sum } else { self.constant + sum }
    }

    /// The objective whose sum has this logarithm.
    pub fn objective_of(&self, logarithm: f64) -> f64 {
        if self.inverted { exp(-logarithm) } else { self.constant + exp(logarithm) }
    }
}
