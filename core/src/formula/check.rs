//! What there is to say about a row: an error, or advice.
use super::{Formula, MAX_OUTPUTS};
use crate::Error;
use crate::error::Reading;
use crate::quantity::Units;

/// Which arguments, by bit, lie outside the range that the source states.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Advice(pub u32);

impl Advice {
    /// The arguments concerned, by place.
    pub fn arguments(self) -> impl Iterator<Item = usize> {
        (0..u32::BITS as usize).filter(move |&k| self.0 >> k & 1 == 1)
    }
}

/// An argument outside the range that the source states: computed, yet to be taken with care.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// Name of the argument.
    pub argument: &'static str,
    /// Its value, in the shop unit of the call.
    pub value: f64,
    /// That unit.
    pub unit: &'static str,
    /// The range that the source states, in words.
    pub range: String,
}

impl std::fmt::Display for Remark {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Remark { argument, value, unit, range } = self;
        write!(f, "{argument} is {}, and the source states {range}", Reading(*value, unit))
    }
}

impl Formula {
    /// What a call with these numbers would say: its error, or remarks on arguments outside a stated range.
    ///
    /// # Errors
    /// As [`Formula::call`].
    pub fn check(&self, units: Units, x: &[f64]) -> Result<Vec<Remark>, Error> {
        let advice = self.call(units, x, &mut [0.0; MAX_OUTPUTS][..self.outputs.len()])?;
        Ok(self.remarks(units, x, advice))
    }

    /// Advice in words.
    pub fn remarks(&self, units: Units, x: &[f64], advice: Advice) -> Vec<Remark> {
        let remark = |k: usize| {
            let argument = self.arguments.get(k)?;
            let range = argument.side(units).range_text(argument.kind, units)?;
            Some(Remark {
                argument: argument.name,
                value: *x.get(k)?,
                unit: argument.unit(units).label,
                range,
            })
        };
        advice.arguments().filter_map(remark).collect()
    }
}
