//! The record of a formula: its arguments, outputs and rules.
use super::code::Code;
use super::domain::{Side, StatedRange};
use super::usual::{Usual, usual};
use crate::Error;
use crate::quantity::{Kind, Quantity, Unit, Units};

/// The record of a formula.
pub struct Formula {
    /// Its name, the same in every interface.
    pub name: &'static str,
    /// The module it stands in: `cutting::speed`.
    pub module: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// A caution if the result concerns safety.
    pub caution: Option<&'static str>,
    /// Where it comes from: standard, edition and clause, or book and page.
    pub source: &'static str,
    /// Its arguments, in the order of a call.
    pub arguments: &'static [Argument],
    /// Dimensional numbers inside an empirical formula.
    pub constants: &'static [Constant],
    /// Its outputs; a single one has no name of its own.
    pub outputs: &'static [Output],
    /// Rules between arguments.
    pub rules: &'static [Rule],
    /// Closed solutions for an argument.
    pub inverses: &'static [Inverse],
    #[doc(hidden)]
    pub code: Code,
}

impl Formula {
    /// The first sentence of its documentation, on one line.
    pub fn summary(&self) -> &'static str {
        self.doc.lines().next().unwrap_or_default()
    }

    /// The module it stands in as words, a heading to find it under: `cutting: speed`.
    pub fn topic(&self) -> String {
        self.module.replace("::", ": ")
    }

    /// The name of an output, which for a single one is that of the formula; empty where there is no such output.
    pub fn output_name(&self, output: usize) -> &'static str {
        match self.outputs.get(output).map(|output| output.name) {
            Some("") => self.name,
            Some(name) => name,
            None => "",
        }
    }

    /// Whether it computes on exact sizes, in integers.
    pub const fn is_exact(&self) -> bool {
        self.code.exact
    }
}

impl std::fmt::Debug for Formula {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let names: Vec<_> = self.arguments.iter().map(|a| a.name).collect();
        write!(f, "{}({})", self.name, names.join(", "))
    }
}

/// An argument of a formula.
#[derive(Debug)]
pub struct Argument {
    /// Its name, the same in every interface.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// Its quantity.
    pub kind: &'static Kind,
    /// Whether it is read as an exact size.
    pub exact: bool,
    /// The outputs that never fall or never rise with it.
    pub trends: &'static [Trend],
    /// Whether every output is a constant times a power of it, all else held: a straight line on logarithmic paper.
    /// The exponent depends on no argument but plain numbers, and is 0 where the output does not move.
    pub power_law: bool,
    /// What it usually is, where a number in another unit is a common slip.
    pub usual: Option<&'static Usual>,
    /// Domain, ranges and default on the inch and on the metric side, in base units.
    pub sides: [Side; 2],
}

impl Argument {
    /// `metric` is in metric base units; the inch side is worked out here, at compile time.
    #[doc(hidden)]
    pub const fn new<Q: Quantity>(
        name: &'static str,
        doc: &'static str,
        trends: &'static [Trend],
        metric: Side,
    ) -> Argument {
        let kind = Q::KIND;
        assert!(!metric.domain.is_empty(), "no number lies in the domain of this argument");
        let domain = if Q::EXACT { metric.domain.counted() } else { metric.domain };
        let usual = usual(name, kind);
        let metric = match usual {
            Some(row) => Side { domain, usual: row.range(), ..metric },
            None => Side { domain, ..metric },
        };
        Argument {
            name,
            doc,
            kind,
            exact: Q::EXACT,
            trends,
            power_law: false,
            usual,
            sides: [metric.inch_of_metric(kind), metric],
        }
    }

    /// The argument, of which every output is a power.
    #[doc(hidden)]
    #[must_use]
    pub const fn in_power_laws(self) -> Argument {
        Argument { power_law: true, ..self }
    }

    /// Its shop unit.
    pub fn unit(&self, units: Units) -> &'static Unit {
        self.kind.unit(units)
    }

    /// What a side asks of it.
    #[inline(always)]
    pub fn side(&self, units: Units) -> &Side {
        &self.sides[units as usize]
    }

    /// Its default, in the shop unit of a side.
    pub fn default(&self, units: Units) -> Option<f64> {
        self.side(units).default.map(|base| self.unit(units).from_base(base))
    }

    /// What it must be, in words: `greater than 0 mm`.
    pub fn need(&self, units: Units) -> String {
        self.side(units).domain.text(self.kind, units)
    }
}

/// How an output moves with an argument, all else held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trend {
    /// The output; empty for the only one.
    pub output: &'static str,
    /// It never falls as the argument rises, or never rises.
    pub rising: bool,
}

/// A dimensional number inside an empirical formula, such as the chip of 1 mm in Kienzle's.
#[derive(Debug)]
pub struct Constant {
    /// Its name in the body.
    pub name: &'static str,
    /// Its quantity.
    pub kind: &'static Kind,
    /// Its value in inch and in metric base units.
    pub value: [f64; 2],
}

impl Constant {
    #[doc(hidden)]
    pub const fn new<Q: Quantity>(name: &'static str, metric: f64) -> Constant {
        Constant { name, kind: Q::KIND, value: [Q::KIND.base_in(metric, Units::Inch), metric] }
    }
}

/// An output of a formula.
#[derive(Clone, Copy, Debug)]
pub struct Output {
    /// Its name; empty for the only one.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// Its quantity.
    pub kind: &'static Kind,
    /// The range that the source states, on the inch and on the metric side, in base units.
    pub ranges: [StatedRange; 2],
}

impl Output {
    /// `metric` is in metric base units.
    #[doc(hidden)]
    pub const fn new<Q: Quantity>(name: &'static str, doc: &'static str, metric: StatedRange) -> Output {
        Output { name, doc, kind: Q::KIND, ranges: [metric.inch_of_metric(Q::KIND), metric] }
    }

    /// The outputs of a formula, where a single one means what the formula says.
    #[doc(hidden)]
    pub const fn described<const N: usize>(outputs: &[Output], meaning: &'static str) -> [Output; N] {
        let mut described = [outputs[0]; N];
        let mut k = 0;
        while k < N {
            described[k] = outputs[k];
            if described[k].name.is_empty() {
                described[k].doc = meaning;
            }
            k += 1;
        }
        described
    }

    /// The range that the source states, in base units of a side: outside it a result comes with advice.
    #[inline(always)]
    pub fn range(&self, units: Units) -> &StatedRange {
        &self.ranges[units as usize]
    }
}

/// A rule between arguments.
///
/// The body gives NaN where it fails, so that a batch needs no second look; the text is for the scalar call.
pub struct Rule {
    /// What must hold, in the names of the arguments.
    pub text: &'static str,
    /// The arguments that it speaks of, by place.
    pub arguments: &'static [usize],
    /// Whether it holds for arguments, then constants, in base units of a side.
    pub holds: fn(Units, &[f64]) -> bool,
}

/// A closed solution of a formula of one output for an argument.
pub struct Inverse {
    /// The argument, by place.
    pub argument: usize,
    /// Its value from arguments, then constants, of which its own is ignored, and the output, in base units.
    pub solve: fn(Units, &[f64], f64) -> f64,
}

/// What a result may be: one quantity, or a struct of them under `derive(Outcome)`.
pub trait Outcome: Sized {
    /// The result as bare numbers in base units of one side.
    type Bare: Copy;
    /// The outputs, in order.
    const OUTPUTS: &'static [Output];
    /// From bare numbers in metric base units.
    fn from_metric(bare: Self::Bare) -> Self;
    /// Puts the bare numbers in a row.
    fn write(bare: Self::Bare, base: &mut [f64]);
}

impl<Q: Quantity> Outcome for Q {
    type Bare = f64;
    const OUTPUTS: &'static [Output] = &[Output::new::<Q>("", "", StatedRange::EVERYWHERE)];
    fn from_metric(bare: f64) -> Self {
        Q::from_metric(bare)
    }
    #[inline(always)]
    fn write(bare: f64, base: &mut [f64]) {
        base[0] = bare;
    }
}

/// A bare number in an attribute: allowed where the shop unit is plain on both sides, or for zero.
#[doc(hidden)]
pub const fn bare(kind: &'static Kind, value: f64) -> f64 {
    let plain = kind.inch_size() == 1.0 && kind.units[0].scale == 1.0 && kind.units[1].scale == 1.0;
    assert!(kind.origin == 0.0 && (value == 0.0 || plain), "give this number a unit");
    value
}

/// A module path without the name of the crate.
#[doc(hidden)]
pub const fn module_name(path: &'static str) -> &'static str {
    match path.as_bytes() {
        [b't', b'e', b'n', b't', b'h', b's', b':', b':', ..] => path.split_at(8).1,
        _ => path,
    }
}

impl Formula {
    /// The error for argument `k`, whose value is `reading` in the shop unit of a side.
    #[cold]
    #[inline(never)]
    pub(super) fn refuse(&self, k: usize, reading: f64, units: Units) -> Error {
        let argument = &self.arguments[k];
        Error::Argument {
            formula: self.name,
            argument: argument.name,
            value: reading,
            unit: argument.unit(units).label,
            need: match argument.need(units) {
                need if reading.is_infinite() && !need.contains("finite") => format!("finite and {need}"),
                need => need,
            },
        }
    }
}
