//! What there is to say about a row: an error, or advice.
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::domain::{SHOWN_DIGITS, StatedRange};
use super::record::Formula;
use crate::Error;
use crate::error::{WithUnit, beside, to_digits};
use crate::quantity::{Kind, Units};

/// Which arguments and results lie outside the range that the source states, or arguments outside what is usual: bit k stands for argument k, and bit
/// [`MAX_INPUTS`] + k for result k.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Advice(pub u32);

const _: () = assert!(MAX_INPUTS + MAX_OUTPUTS <= u32::BITS as usize);

impl Advice {
    /// Advice on argument `k` if it lies `outside`.
    #[inline(always)]
    pub(super) fn argument(k: usize, outside: bool) -> Advice {
        Advice(u32::from(outside) << k)
    }

    /// Advice on result `k` if it lies `outside`.
    #[inline(always)]
    pub(super) fn output(k: usize, outside: bool) -> Advice {
        Advice(u32::from(outside) << (MAX_INPUTS + k))
    }

    /// The arguments concerned, by place.
    pub fn arguments(self) -> impl Iterator<Item = usize> {
        (0..MAX_INPUTS).filter(move |&k| self.0 >> k & 1 == 1)
    }

    /// The results concerned, by place.
    pub fn outputs(self) -> impl Iterator<Item = usize> {
        (0..MAX_OUTPUTS).filter(move |&k| self.0 >> (MAX_INPUTS + k) & 1 == 1)
    }
}

impl std::ops::BitOr for Advice {
    type Output = Advice;
    #[inline(always)]
    fn bitor(self, other: Advice) -> Advice {
        Advice(self.0 | other.0)
    }
}

impl std::ops::BitOrAssign for Advice {
    #[inline(always)]
    fn bitor_assign(&mut self, other: Advice) {
        *self = *self | other;
    }
}

/// An argument or a result outside the range that the source states, or an argument outside what is usual: computed, yet
/// to be taken with care.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// Name of the argument or of the result.
    pub concerns: &'static str,
    /// Its value, in the shop unit of the call.
    pub value: f64,
    /// That unit.
    pub unit: &'static str,
    /// That range, in words.
    pub range: String,
    /// Its ends, in the same unit; infinite where there is none.
    pub ends: (f64, f64),
    /// Whether it is what is usual, rather than what the source states.
    pub is_usual: bool,
    /// In which other unit the number would be usual: `210000 MPa, which is 210 GPa`.
    pub likely: Option<String>,
}

impl std::fmt::Display for Remark {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Remark { concerns, value, unit, range, ends: (low, high), is_usual, likely } = self;
        let nearest = if value < low { low } else { high };
        write!(f, "{concerns} is {}, ", WithUnit(beside(*value, to_digits(*nearest, SHOWN_DIGITS)), unit))?;
        match (is_usual, likely) {
            (false, _) => write!(f, "but the source covers {range}"),
            (true, Some(likely)) => write!(f, "outside the usual {range}: did you mean {likely}?"),
            (true, None) => write!(f, "outside the usual {range}: check its unit"),
        }
    }
}

impl Formula {
    /// What a call with these numbers would say: its error, or remarks on what lies outside a stated range.
    ///
    /// # Errors
    /// As [`Formula::call`].
    pub fn check(&self, units: Units, x: &[f64]) -> Result<Vec<Remark>, Error> {
        let mut y = [0.0; MAX_OUTPUTS];
        let y = &mut y[..self.outputs.len()];
        let advice = self.call(units, x, y)?;
        Ok(self.remarks(units, x, y, advice))
    }

    /// Advice in words, on a call with these numbers and results in shop units.
    pub fn remarks(&self, units: Units, x: &[f64], y: &[f64], advice: Advice) -> Vec<Remark> {
        let remark = |concerns, kind: &'static Kind, range: &StatedRange, value: Option<&f64>| {
            let value = *value?;
            let unit = kind.unit(units);
            Some(Remark {
                concerns,
                value,
                unit: unit.label,
                ends: (unit.from_base(range.0), unit.from_base(range.1)),
                range: range.text(kind, units)?,
                is_usual: false,
                likely: None,
            })
        };
        let of_argument = |k: usize| {
            let argument = self.arguments.get(k)?;
            let (side, unit) = (argument.side(units), argument.unit(units));
            match (argument.usual, x.get(k)) {
                (Some(usual), Some(&value)) if side.is_unusual(unit.to_base(value)) => Some(Remark {
                    is_usual: true,
                    likely: usual.likely(value, side, units),
                    ..remark(argument.name, argument.kind, &side.usual, x.get(k))?
                }),
                _ => remark(argument.name, argument.kind, &side.range, x.get(k)),
            }
        };
        let of_output = |k: usize| {
            let output = self.outputs.get(k)?;
            remark(self.output_name(k), output.kind, output.range(units), y.get(k))
        };
        let arguments = advice.arguments().filter_map(of_argument);
        arguments.chain(advice.outputs().filter_map(of_output)).collect()
    }
}
