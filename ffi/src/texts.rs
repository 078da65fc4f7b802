//! The texts of the records as C reads them, each with a NUL at its end: one constant, written by the compiler.
//!
//! So they need no freeing, no table that a first call fills, and no second copy in the source. What an argument must
//! be holds numbers, which no constant can print: the generator lists those few texts, `NEEDS`.
use crate::formulas::NEEDS;
use std::ffi::CStr;
use tenths::formula::Argument;
use tenths::quantity::Kind;
use tenths::registry::MODULES;
use tenths::{Formula, Units};

/// The texts of a formula apart from its arguments, results and rules.
pub(crate) struct FormulaTexts {
    pub(crate) name: &'static CStr,
    pub(crate) topic: &'static CStr,
    pub(crate) summary: &'static CStr,
    pub(crate) doc: &'static CStr,
    pub(crate) source: &'static CStr,
    pub(crate) caution: &'static CStr,
}

/// The texts of an argument or a result, the units for each side.
pub(crate) struct ValueTexts {
    pub(crate) name: &'static CStr,
    pub(crate) doc: &'static CStr,
    pub(crate) quantity: &'static CStr,
    pub(crate) units: [&'static CStr; 2],
}

/// How many texts a formula has of its own, and how many each of its arguments and results.
const OF_FORMULA: usize = 6;
const OF_VALUE: usize = 5;

pub(crate) fn of_formula(formula: &Formula) -> FormulaTexts {
    let [name, topic, summary, doc, source, caution] = texts(formula, 0);
    FormulaTexts { name, topic, summary, doc, source, caution }
}

/// Those of argument `k`.
pub(crate) fn of_argument(formula: &Formula, k: usize) -> ValueTexts {
    of_value(formula, k)
}

/// Those of result `k`.
pub(crate) fn of_output(formula: &Formula, k: usize) -> ValueTexts {
    of_value(formula, formula.arguments.len() + k)
}

/// Rule `k`.
pub(crate) fn of_rule(formula: &Formula, k: usize) -> &'static CStr {
    let values = formula.arguments.len() + formula.outputs.len();
    let [rule] = texts(formula, OF_FORMULA + OF_VALUE * values + k);
    rule
}

/// What an argument must be on one side.
pub(crate) fn of_need(argument: &Argument, units: Units) -> &'static CStr {
    let need = argument.need(units);
    NEEDS.iter().find(|text| text.to_bytes() == need.as_bytes()).copied().unwrap_or_default()
}

/// Arguments, then results.
fn of_value(formula: &Formula, k: usize) -> ValueTexts {
    let [name, doc, quantity, inch, metric] = texts(formula, OF_FORMULA + OF_VALUE * k);
    ValueTexts { name, doc, quantity, units: [inch, metric] }
}

/// As many texts of a formula from number `first` on as are asked for.
fn texts<const N: usize>(formula: &Formula, first: usize) -> [&'static CStr; N] {
    let place = tenths::formulas().position(|other| other.name == formula.name);
    let mut rest = place.map_or(&[][..], |place| &TEXTS[STARTS[place]..]);
    let mut next = || {
        let text = CStr::from_bytes_until_nul(rest).unwrap_or_default();
        rest = rest.get(text.count_bytes() + 1..).unwrap_or_default();
        text
    };
    (0..first).for_each(|_| _ = next());
    std::array::from_fn(|_| next())
}

/// The texts of every formula, in the order of the records.
static TEXTS: [u8; LENGTH] = {
    let mut texts = [0; LENGTH];
    write_all(&mut Pen { page: Some(&mut texts), at: 0 }, &mut [0; COUNT]);
    texts
};

/// Where those of each formula begin.
static STARTS: [usize; COUNT] = {
    let mut starts = [0; COUNT];
    write_all(&mut Pen { page: None, at: 0 }, &mut starts);
    starts
};

const LENGTH: usize = {
    let mut pen = Pen { page: None, at: 0 };
    write_all(&mut pen, &mut [0; COUNT]);
    pen.at
};

const COUNT: usize = {
    let (mut count, mut module) = (0, 0);
    while module < MODULES.len() {
        count += MODULES[module].len();
        module += 1;
    }
    count
};

/// Writes texts one after another, or measures them where it has no page.
struct Pen<'a> {
    page: Option<&'a mut [u8]>,
    at: usize,
}

impl Pen<'_> {
    const fn byte(&mut self, byte: u8) {
        if let Some(page) = &mut self.page {
            page[self.at] = byte;
        }
        self.at += 1;
    }

    const fn text(&mut self, text: &str) {
        self.bytes(text.as_bytes());
        self.byte(0);
    }

    const fn bytes(&mut self, bytes: &[u8]) {
        if let Some(page) = &mut self.page {
            page.split_at_mut(self.at).1.split_at_mut(bytes.len()).0.copy_from_slice(bytes);
        }
        self.at += bytes.len();
    }
}

const fn write_all(pen: &mut Pen, starts: &mut [usize; COUNT]) {
    let (mut module, mut place) = (0, 0);
    while module < MODULES.len() {
        let mut k = 0;
        while k < MODULES[module].len() {
            starts[place] = pen.at;
            write(pen, MODULES[module][k]);
            place += 1;
            k += 1;
        }
        module += 1;
    }
}

const fn write(pen: &mut Pen, formula: &Formula) {
    pen.text(formula.name);
    write_topic(pen, formula.module.as_bytes());
    write_summary(pen, formula.doc.as_bytes());
    pen.text(formula.doc);
    pen.text(formula.source);
    pen.text(match formula.caution {
        Some(caution) => caution,
        None => "",
    });
    let mut k = 0;
    while k < formula.arguments.len() {
        let argument = &formula.arguments[k];
        write_value(pen, argument.name, argument.doc, argument.kind);
        k += 1;
    }
    k = 0;
    while k < formula.outputs.len() {
        let output = &formula.outputs[k];
        let name = if output.name.is_empty() { formula.name } else { output.name };
        write_value(pen, name, output.doc, output.kind);
        k += 1;
    }
    k = 0;
    while k < formula.rules.len() {
        pen.text(formula.rules[k].text);
        k += 1;
    }
}

const fn write_value(pen: &mut Pen, name: &str, doc: &str, kind: &Kind) {
    pen.text(name);
    pen.text(doc);
    pen.text(kind.name);
    pen.text(kind.units[0].label);
    pen.text(kind.units[1].label);
}

/// As [`Formula::topic`]: `cutting::speed` as `cutting: speed`.
const fn write_topic(pen: &mut Pen, module: &[u8]) {
    let mut k = 0;
    while k < module.len() {
        let second = module[k] == b':' && module[k - 1] == b':';
        pen.byte(if second { b' ' } else { module[k] });
        k += 1;
    }
    pen.byte(0);
}

/// As [`Formula::summary`]: the first line.
const fn write_summary(pen: &mut Pen, doc: &[u8]) {
    let mut end = 0;
    while end < doc.len() && doc[end] != b'\n' {
        end += 1;
    }
    pen.bytes(doc.split_at(end).0);
    pen.byte(0);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every text is the record's, to the last byte: so none holds a NUL, and none is cut short.
    #[test]
    fn the_texts_are_those_of_the_records() {
        let value = |texts: ValueTexts, name: &str, doc: &str, kind: &Kind| {
            let units = Units::ALL.map(|units| kind.unit(units).label);
            let want = [name, doc, kind.name, units[0], units[1]];
            let got = [texts.name, texts.doc, texts.quantity, texts.units[0], texts.units[1]];
            assert_eq!(got.map(CStr::to_bytes), want.map(str::as_bytes));
        };
        for formula in tenths::formulas() {
            let FormulaTexts { name, topic, summary, doc, source, caution } = of_formula(formula);
            let got = [name, topic, summary, doc, source, caution].map(CStr::to_bytes);
            let topic = formula.topic();
            let caution = formula.caution.unwrap_or_default();
            let want = [formula.name, &topic, formula.summary(), formula.doc, formula.source, caution];
            assert_eq!(got, want.map(str::as_bytes));
            for (k, argument) in formula.arguments.iter().enumerate() {
                value(of_argument(formula, k), argument.name, argument.doc, argument.kind);
                for units in Units::ALL {
                    assert_eq!(of_need(argument, units).to_bytes(), argument.need(units).as_bytes());
                }
            }
            for (k, output) in formula.outputs.iter().enumerate() {
                value(of_output(formula, k), formula.output_name(k), output.doc, output.kind);
            }
            for (k, rule) in formula.rules.iter().enumerate() {
                assert_eq!(of_rule(formula, k).to_bytes(), rule.text.as_bytes());
            }
        }
    }
}
