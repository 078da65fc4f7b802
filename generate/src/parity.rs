//! Rows of every formula, inside and outside its domain, with what the Rust call gives for them.
use crate::text::Text;
use tenths::formula::{Argument, MAX_OUTPUTS};
use tenths::{Error, Formula, Units};

/// A call and its answer.
pub(crate) struct Row {
    pub(crate) formula: &'static Formula,
    pub(crate) units: Units,
    pub(crate) arguments: Vec<f64>,
    pub(crate) answer: Result<(Vec<f64>, u32), Error>,
}

/// Rows with likely numbers, and as many again with one number that is unlikely.
const LIKELY: usize = 24;
const UNLIKELY: [f64; 14] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -0.0,
    -1.0,
    1.0,
    0.5,
    f64::MAX,
    f64::MIN,
    f64::MIN_POSITIVE,
    5e-324,
    1e15,
    -1e-9,
];

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = vec![];
    for (place, formula) in tenths::formulas().enumerate() {
        for units in Units::ALL {
            let mut draw = Draw(place as u64 * 2 + units as u64 + 1);
            for k in 0..LIKELY {
                let likely: Vec<f64> = formula.arguments.iter().map(|a| draw.likely(a, units)).collect();
                let mut unlikely = likely.clone();
                let argument = k % likely.len();
                unlikely[argument] = UNLIKELY[draw.below(UNLIKELY.len())];
                rows.extend([likely, unlikely].map(|arguments| Row::of(formula, units, arguments)));
            }
        }
    }
    rows
}

impl Row {
    fn of(formula: &'static Formula, units: Units, arguments: Vec<f64>) -> Row {
        let mut y = [f64::NAN; MAX_OUTPUTS];
        let y = &mut y[..formula.outputs.len()];
        let answer = formula.call(units, &arguments, y).map(|advice| (y.to_vec(), advice.0));
        Row { formula, units, arguments, answer }
    }
}

/// Numbers that look random and are the same every time (Steele and others' SplitMix64).
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let x = (self.0 ^ self.0 >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let x = (x ^ x >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        x ^ x >> 31
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    /// A number in the domain of an argument, of a few digits, between a hundredth and a hundred of a unit
    /// where the domain leaves it open.
    fn likely(&mut self, argument: &Argument, units: Units) -> f64 {
        let (side, unit) = (argument.side(units), argument.unit(units));
        let part = (self.next() % 1000 + 1) as f64 / 1001.0;
        let (low, high) = (side.domain.low().map(|end| end.0), side.domain.high().map(|end| end.0));
        let value = match (low.map(|x| unit.from_base(x)), high.map(|x| unit.from_base(x))) {
            (Some(low), Some(high)) if high - low < 1e6 => low + part * (high - low),
            (Some(low), _) => low + [0.01, 0.1, 1.0, 10.0, 100.0][self.below(5)] * part,
            (None, _) => 10.0 * (part - 0.5),
        };
        let value = (value * 1e5).round() / 1e5;
        if side.domain.is_whole() { value.ceil().max(1.0) } else { value }
    }
}

/// The bits of a number, in hexadecimal.
pub(crate) fn bits(x: f64) -> String {
    format!("0x{:016x}", x.to_bits())
}

/// One row a line: formula, units, arguments and results by their bits, results null where there is no answer.
pub(crate) fn json() -> Text {
    let mut text = String::new();
    for row in rows() {
        let hexadecimal = |numbers: &[f64]| numbers.iter().map(|&x| bits(x)).collect::<Vec<_>>();
        let line = serde_json::json!({
            "formula": row.formula.name,
            "units": row.units.name(),
            "arguments": hexadecimal(&row.arguments),
            "results": row.answer.as_ref().ok().map(|(results, _)| hexadecimal(results)),
            "advice": row.answer.as_ref().ok().map(|(_, advice)| advice),
        });
        text += &format!("{line}\n");
    }
    Ok(text)
}
