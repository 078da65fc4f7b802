//! Where a formula holds: the hard domain of an argument, and the range that its source states.
use crate::error::{WithUnit, rounded, to_digits};
use crate::quantity::{Kind, Units};

/// The hard domain of an argument: an interval, closed or open at either end, perhaps of whole numbers.
///
/// An open end is kept as a closed one at the next float, so that a single comparison, which NaN fails,
/// serves both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Domain {
    least: f64,
    greatest: f64,
    open: [bool; 2],
    whole: bool,
}

impl Domain {
    /// Every finite number.
    pub const FINITE: Domain = Domain { least: f64::MIN, greatest: f64::MAX, open: [false; 2], whole: false };

    /// Only numbers greater than `low`.
    pub const fn above(self, low: f64) -> Domain {
        Domain { least: low.next_up(), open: [true, self.open[1]], ..self }
    }

    /// Only numbers of at least `low`.
    pub const fn at_least(self, low: f64) -> Domain {
        Domain { least: low, open: [false, self.open[1]], ..self }
    }

    /// Only numbers less than `high`.
    pub const fn below(self, high: f64) -> Domain {
        Domain { greatest: high.next_down(), open: [self.open[0], true], ..self }
    }

    /// Only numbers of at most `high`.
    pub const fn at_most(self, high: f64) -> Domain {
        Domain { greatest: high, open: [self.open[0], false], ..self }
    }

    /// Only whole numbers.
    pub const fn whole(self) -> Domain {
        Domain { whole: true, ..self }
    }

    /// What a formula asks of an argument, within what the vocabulary asks: `own`, which lies in this domain.
    #[doc(hidden)]
    pub const fn narrowed_to(self, own: Domain) -> Domain {
        let within = self.least <= own.least && own.greatest <= self.greatest && (own.whole || !self.whole);
        assert!(within, "a formula may narrow the domain of a term, not widen it");
        own
    }

    /// Whether no number lies in the domain.
    pub(crate) const fn is_empty(&self) -> bool {
        self.least > self.greatest
    }

    /// Only lengths, in millimetres, that a [`Size`](crate::Size) can count: within 1000 km.
    pub(crate) const fn counted(self) -> Domain {
        const FARTHEST: f64 = 1e9;
        let domain = if self.low().is_some() { self } else { self.at_least(-FARTHEST) };
        if domain.high().is_some() { domain } else { domain.at_most(FARTHEST) }
    }

    /// Whether `x` lies in the domain.
    #[inline(always)]
    pub fn holds(&self, x: f64) -> bool {
        self.spans(x) && (!self.whole || is_whole(x))
    }

    /// Whether `x` lies in the interval, whole or not.
    #[inline(always)]
    pub(crate) fn spans(&self, x: f64) -> bool {
        (self.least <= x) & (x <= self.greatest)
    }

    /// Whether only whole numbers belong to the domain.
    pub const fn is_whole(&self) -> bool {
        self.whole
    }

    /// The lower end, and whether it belongs to the domain; `None` where any finite number is accepted.
    pub const fn low(&self) -> Option<(f64, bool)> {
        match (self.least == f64::MIN, self.open[0]) {
            (true, _) => None,
            (_, true) => Some((self.least.next_down(), false)),
            (_, false) => Some((self.least, true)),
        }
    }

    /// The upper end, and whether it belongs to the domain; `None` where any finite number is accepted.
    pub const fn high(&self) -> Option<(f64, bool)> {
        match (self.greatest == f64::MAX, self.open[1]) {
            (true, _) => None,
            (_, true) => Some((self.greatest.next_up(), false)),
            (_, false) => Some((self.greatest, true)),
        }
    }

    /// The domain in base units of the inch side, given in those of the metric side.
    pub(crate) const fn inch_of_metric(self, kind: &Kind) -> Domain {
        let mut inch = Domain { whole: self.whole, ..Domain::FINITE };
        inch = match self.low() {
            Some((low, true)) => inch.at_least(kind.base_in(low, Units::Inch)),
            Some((low, false)) => inch.above(kind.base_in(low, Units::Inch)),
            None => inch,
        };
        match self.high() {
            Some((high, true)) => inch.at_most(kind.base_in(high, Units::Inch)),
            Some((high, false)) => inch.below(kind.base_in(high, Units::Inch)),
            None => inch,
        }
    }

    /// The domain in words, in the shop unit of a side: `greater than 0 mm`.
    pub fn text(&self, kind: &Kind, units: Units) -> String {
        let unit = kind.unit(units);
        let reading = |base: f64| WithUnit(rounded(unit.from_base(base)), unit.label);
        let low = self.low().map(|(low, closed)| match closed {
            true => format!("at least {}", reading(low)),
            false => format!("greater than {}", reading(low)),
        });
        let high = self.high().map(|(high, closed)| match closed {
            true => format!("at most {}", reading(high)),
            false => format!("less than {}", reading(high)),
        });
        let noun = if self.whole { "a whole number" } else { "a finite number" };
        match (low, high) {
            (None, None) => noun.into(),
            (Some(end), None) | (None, Some(end)) if self.whole => format!("{noun} {end}"),
            (Some(end), None) | (None, Some(end)) => end,
            (Some(low), Some(high)) if self.whole => format!("{noun} {low} and {high}"),
            (Some(low), Some(high)) => format!("{low} and {high}"),
        }
    }
}

/// Whether a number is whole, without the function that older processors call for it.
#[inline(always)]
fn is_whole(x: f64) -> bool {
    const WHOLE_FROM: f64 = (1u64 << 52) as f64;
    x as i64 as f64 == x || x.abs() >= WHOLE_FROM
}

/// Digits of an end of a stated range in a message. No source states more; those of the other side would be noise.
pub(super) const SHOWN_DIGITS: usize = 5;

/// The range that a source states, from one number to another, both in it; infinite where it states no end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StatedRange(pub f64, pub f64);

impl StatedRange {
    /// Where the source states none.
    pub const EVERYWHERE: StatedRange = StatedRange(f64::NEG_INFINITY, f64::INFINITY);

    /// Whether `x` lies in it.
    #[inline(always)]
    pub fn holds(&self, x: f64) -> bool {
        (self.0 <= x) & (x <= self.1)
    }

    /// Whether `x` lies outside it, which NaN does not.
    #[inline(always)]
    pub(crate) fn misses(&self, x: f64) -> bool {
        (x < self.0) | (self.1 < x)
    }

    /// The range in words, in the shop unit of a side; `None` where the source states none.
    pub fn text(&self, kind: &Kind, units: Units) -> Option<String> {
        let unit = kind.unit(units);
        let reading = |base: f64| WithUnit(to_digits(unit.from_base(base), SHOWN_DIGITS), unit.label);
        match *self {
            StatedRange::EVERYWHERE => None,
            StatedRange(low, f64::INFINITY) => Some(format!("at least {}", reading(low))),
            StatedRange(f64::NEG_INFINITY, high) => Some(format!("at most {}", reading(high))),
            StatedRange(low, high) => Some(format!("{} to {}", reading(low), reading(high))),
        }
    }

    /// The range in base units of the inch side, given in those of the metric side.
    pub(crate) const fn inch_of_metric(self, kind: &Kind) -> StatedRange {
        StatedRange(kind.base_in(self.0, Units::Inch), kind.base_in(self.1, Units::Inch))
    }
}

/// What one side (inch or metric) asks of an argument, in its base units.
#[derive(Clone, Copy, Debug)]
pub struct Side {
    /// Outside it there is no answer.
    pub domain: Domain,
    /// The range that the source states: outside it there is an answer, with advice.
    pub range: StatedRange,
    /// What is usual: outside it the number is most likely in another unit, and there is advice too.
    pub usual: StatedRange,
    /// The value of an argument that is left out.
    pub default: Option<f64>,
}

impl Side {
    /// Whether a number of its domain, in base units, calls for advice.
    #[inline(always)]
    pub fn advises(&self, x: f64) -> bool {
        !self.range.holds(x) | self.is_unusual(x)
    }

    /// Whether a number, in base units, is most likely in another unit; zero is zero in any.
    #[inline(always)]
    pub(crate) fn is_unusual(&self, x: f64) -> bool {
        self.usual.misses(x) & (x != 0.0)
    }

    /// The ends of what is in the domain, in the stated range and usual: a number between them needs no second look.
    #[inline(always)]
    pub(super) fn ordinary(&self) -> (f64, f64) {
        let Side { domain, range, usual, .. } = self;
        (domain.least.max(range.0).max(usual.0), domain.greatest.min(range.1).min(usual.1))
    }

    pub(crate) const fn inch_of_metric(self, kind: &Kind) -> Side {
        Side {
            domain: self.domain.inch_of_metric(kind),
            range: self.range.inch_of_metric(kind),
            usual: self.usual.inch_of_metric(kind),
            default: match self.default {
                Some(value) => Some(kind.base_in(value, Units::Inch)),
                None => None,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // In the record of a formula these are constants, so that a failed assertion stops the build.
    #[test]
    #[should_panic(expected = "a formula may narrow the domain of a term, not widen it")]
    fn a_formula_does_not_widen_the_domain_of_a_term() {
        let term = Domain::FINITE.above(0.0).at_most(90.0);
        assert_eq!(term.narrowed_to(term.below(90.0)), term.below(90.0));
        let _ = term.narrowed_to(term.at_least(0.0));
    }

    #[test]
    fn ends_that_cross_leave_nothing() {
        assert!(Domain::FINITE.above(90.0).at_most(90.0).is_empty());
        assert!(!Domain::FINITE.at_least(90.0).at_most(90.0).is_empty());
    }
}
