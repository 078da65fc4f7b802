//! Numbers of the process sheet by their places in its JSON.
use super::sheet::{Figure, Figures, QuotedLines, Sheet, Text};
use crate::document::node::{index, steps};
use crate::error::excerpt;

/// A number of the sheet.
pub(super) enum Output {
    Minutes,
    OperationMinutes(usize),
    PartsPerBar,
    Bars,
    Quote(Quoted),
    Figure {
        list: List,
        /// Where it stands in the sheet of the plan as it is: where numbers vary it may stand elsewhere.
        place: usize,
        name: Text,
    },
}

/// A number of the quote.
#[derive(Clone, Copy)]
pub(super) enum Quoted {
    Total,
    PriceEach,
    Hours,
    StartQuantity,
}

/// A list of figures.
#[derive(Clone, Copy)]
pub(super) enum List {
    Operation(usize),
    /// Of the joint; of several that of a place.
    Loosest(Option<usize>),
    Tightest(Option<usize>),
    Stack(usize),
}

impl List {
    fn of(self, sheet: &Sheet) -> Option<&Figures> {
        let joint = |place: Option<usize>| match place {
            Some(place) => sheet.joints.get(place),
            None => sheet.joint.as_ref(),
        };
        Some(match self {
            List::Operation(place) => &sheet.operations.get(place)?.figures,
            List::Loosest(place) => &joint(place)?.loosest,
            List::Tightest(place) => &joint(place)?.tightest,
            List::Stack(place) => &sheet.stacks.get(place)?.figures,
        })
    }
}

impl Quoted {
    /// Amounts are exact decimals as text, with fewer digits than a number holds.
    fn read(self, quote: &QuotedLines) -> Option<f64> {
        match self {
            Quoted::Total => quote.total.parse().ok(),
            Quoted::PriceEach => quote.price_each.parse().ok(),
            Quoted::Hours => Some(quote.hours),
            Quoted::StartQuantity => Some(quote.start_quantity as f64),
        }
    }
}

impl Output {
    /// Whether a pointer leads into the quote, which is made only where it is asked for.
    pub(super) fn is_quoted(pointer: &str) -> bool {
        pointer.starts_with("/quote/")
    }

    /// The number at a pointer, which the sheet of the plan as it is must have.
    pub(super) fn new(pointer: &str, sheet: &Sheet) -> Result<Output, String> {
        let found = Output::parse(pointer, sheet).filter(|output| output.read(sheet).is_some());
        found.ok_or_else(|| {
            format!(
                "the sheet has no figure at `{}`; expected a pointer such as `/minutes_per_part`, `/bar/bars`, `/quote/total` or \
                 `/operations/0/figures/cutting_time/value`",
                excerpt(pointer)
            )
        })
    }

    fn parse(pointer: &str, sheet: &Sheet) -> Option<Output> {
        let steps: Vec<String> = steps(pointer).collect();
        let steps: Vec<&str> = steps.iter().map(String::as_str).collect();
        let figure = |list: List, key: &str| {
            let figures = list.of(sheet)?;
            let place = figures.iter().position(|figure| figure.key() == key)?;
            Some(Output::Figure { list, place, name: figures[place].name.clone() })
        };
        match steps[..] {
            ["minutes_per_part"] => Some(Output::Minutes),
            ["bar", "parts_per_bar"] => Some(Output::PartsPerBar),
            ["bar", "bars"] => Some(Output::Bars),
            ["quote", "total"] => Some(Output::Quote(Quoted::Total)),
            ["quote", "price_each"] => Some(Output::Quote(Quoted::PriceEach)),
            ["quote", "hours"] => Some(Output::Quote(Quoted::Hours)),
            ["quote", "start_quantity"] => Some(Output::Quote(Quoted::StartQuantity)),
            ["operations", place, "minutes_per_part"] => Some(Output::OperationMinutes(index(place)?)),
            ["operations", place, "figures", key, "value"] => figure(List::Operation(index(place)?), key),
            ["joint", "loosest", key, "value"] => figure(List::Loosest(None), key),
            ["joint", "tightest", key, "value"] => figure(List::Tightest(None), key),
            ["joints", place, "loosest", key, "value"] => figure(List::Loosest(Some(index(place)?)), key),
            ["joints", place, "tightest", key, "value"] => figure(List::Tightest(Some(index(place)?)), key),
            ["stacks", place, "figures", key, "value"] => figure(List::Stack(index(place)?), key),
            _ => None,
        }
    }

    /// The number in a sheet that has it.
    pub(super) fn read(&self, sheet: &Sheet) -> Option<f64> {
        match self {
            Output::Minutes => Some(sheet.minutes_per_part),
            Output::OperationMinutes(place) => Some(sheet.operations.get(*place)?.minutes_per_part),
            Output::PartsPerBar => sheet.bar.parts_per_bar.map(|count| count as f64),
            Output::Bars => sheet.bar.bars.map(|count| count as f64),
            Output::Quote(quoted) => quoted.read(sheet.quote.as_ref()?),
            Output::Figure { list, place, name } => {
                let figures: &[Figure] = list.of(sheet)?;
                let here = figures.get(*place).filter(|figure| figure.name == *name);
                let found = here.or_else(|| figures.iter().find(|figure| figure.name == *name));
                found.map(|figure| figure.value)
            }
        }
    }
}
