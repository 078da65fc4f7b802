//! Rows of arguments to try a law on.
use tenths::formula::{Argument, MAX_INPUTS, MAX_OUTPUTS};
use tenths::{Formula, Units};

/// A seeded stream of numbers: SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, 2014).
pub struct Draws(u64);

impl Draws {
    /// A stream that is the same in every run, and another for each formula.
    pub fn of(formula: &Formula) -> Draws {
        Draws(formula.name.bytes().fold(1, |seed, byte| seed * 31 % 0xffff_ffff + u64::from(byte)))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end as u64) as usize
    }

    fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A positive number whose decades are equally likely.
    fn magnitude(&mut self) -> f64 {
        const DECADES: [f64; 6] = [1e-3, 1e-2, 1e-1, 1.0, 1e1, 1e2];
        DECADES[self.below(DECADES.len())] * self.between(1.0, 10.0)
    }

    /// A value of an argument in its shop unit: in its domain, in one draw of two in its stated range, now
    /// and then at a closed end or its default. Where the domain is open-ended, decades are equally likely.
    pub fn value(&mut self, argument: &Argument, units: Units) -> f64 {
        let (unit, side) = (argument.unit(units), argument.side(units));
        let (mut low, mut high) = (side.domain.low(), side.domain.high());
        if argument.exact {
            // It ends at what a size can count, far beyond any bar.
            high = None;
        }
        if self.below(2) == 0 {
            low = if side.range.0.is_finite() { Some((side.range.0, true)) } else { low };
            high = if side.range.1.is_finite() { Some((side.range.1, true)) } else { high };
        }
        let ends = [low, high].map(|end| end.map(|(base, closed)| (unit.from_base(base), closed)));
        let choice = self.below(16);
        let value = match (choice, argument.default(units), ends) {
            (0, Some(default), _) => default,
            (1, _, [Some((end, true)), _]) | (2, _, [_, Some((end, true))]) => end,
            (_, _, [Some((low, _)), Some((high, _))]) => self.between(low, high),
            (_, _, [Some((low, _)), None]) => low + self.magnitude(),
            (_, _, [None, Some((high, _))]) => high - self.magnitude(),
            _ => self.magnitude() * [-1.0, 1.0][self.below(2)],
        };
        match () {
            () if side.domain.is_whole() => value.ceil(),
            // Short decimals, which are exact sizes on both sides and stay so when they are scaled.
            () if argument.exact => (value * 1e4).round() / 1e4,
            () => value,
        }
    }

    /// A row of arguments in shop units that need not go together.
    pub fn any_row(&mut self, formula: &Formula, units: Units) -> Vec<f64> {
        formula.arguments.iter().map(|argument| self.value(argument, units)).collect()
    }

    /// A row that the formula accepts.
    pub fn row(&mut self, formula: &Formula, units: Units) -> Vec<f64> {
        let rows = std::iter::repeat_with(|| self.any_row(formula, units));
        let mut accepted = rows.take(1000).filter(|row| call(formula, units, row).is_some());
        accepted.next().unwrap_or_else(|| panic!("{}: none of 1000 rows is accepted", formula.name))
    }
}

/// The outputs in shop units, if the formula accepts the row.
pub fn call(formula: &Formula, units: Units, x: &[f64]) -> Option<Vec<f64>> {
    let mut y = vec![0.0; formula.outputs.len()];
    formula.call(units, x, &mut y).ok().map(|_| y)
}

/// Arguments, then constants, in base units.
pub fn to_base(formula: &Formula, units: Units, x: &[f64]) -> Vec<f64> {
    let arguments = formula.arguments.iter().zip(x).map(|(a, &x)| a.unit(units).to_base(x));
    arguments.chain(formula.constants.iter().map(|c| c.value[units as usize])).collect()
}

/// Outputs in base units of arguments and constants in base units.
pub fn evaluate(formula: &Formula, units: Units, base: &[f64]) -> Vec<f64> {
    let (mut x, mut y) = ([0.0; MAX_INPUTS], [0.0; MAX_OUTPUTS]);
    x[..base.len()].copy_from_slice(base);
    formula.evaluate_base(units, &x, &mut y);
    y[..formula.outputs.len()].to_vec()
}

/// By how much output `k` moves for each unit of relative change of input `i`, in base units.
pub fn slope(formula: &Formula, units: Units, base: &[f64], i: usize, k: usize) -> f64 {
    const STEP: f64 = 1.0 / (1 << 20) as f64;
    let y = evaluate(formula, units, base)[k];
    let moved = |step: f64| {
        let mut base = base.to_vec();
        base[i] *= 1.0 + step;
        ((evaluate(formula, units, &base)[k] - y) / STEP).abs()
    };
    // A step over an edge gives NaN, which `max` passes over.
    moved(STEP).max(moved(-STEP))
}

/// What rounding inputs and arithmetic may do to output `k`, in base units: some ulp of all that goes in.
pub fn rounding(formula: &Formula, units: Units, base: &[f64], k: usize) -> f64 {
    let slopes = (0..base.len()).map(|i| slope(formula, units, base, i, k)).filter(|s| s.is_finite());
    8.0 * f64::EPSILON * (evaluate(formula, units, base)[k].abs() + slopes.sum::<f64>())
}
