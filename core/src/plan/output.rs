//! Numbers of the process sheet by their places in its JSON.
use super::sheet::{Figure, JointLines, Sheet};
use crate::document::node::{index, steps};
use crate::error::excerpt;

/// A number of the sheet.
pub(super) struct Output {
    place: OutputPlace,
    /// The name of a figure: another one may stand in its place where numbers vary.
    name: Option<&'static str>,
}

#[derive(Clone, Copy)]
enum OutputPlace {
    Minutes,
    OperationMinutes(usize),
    PartsPerBar,
    Bars,
    Figure(Figures, usize),
}

/// A list of figures.
#[derive(Clone, Copy)]
enum Figures {
    Settings(usize),
    Operation(usize),
    Loosest,
    Tightest,
    Stack(usize),
}

impl Figures {
    fn of(self, sheet: &Sheet) -> Option<&[Figure]> {
        let joint = |list: fn(&JointLines) -> &Vec<Figure>| sheet.joint.as_ref().map(list);
        Some(match self {
            Figures::Settings(number) => &sheet.operations.get(number)?.settings,
            Figures::Operation(number) => &sheet.operations.get(number)?.figures,
            Figures::Loosest => joint(|joint| &joint.loosest)?,
            Figures::Tightest => joint(|joint| &joint.tightest)?,
            Figures::Stack(number) => &sheet.stacks.get(number)?.figures,
        })
    }
}

impl OutputPlace {
    fn parse(pointer: &str) -> Option<OutputPlace> {
        let steps: Vec<String> = steps(pointer).collect();
        let steps: Vec<&str> = steps.iter().map(String::as_str).collect();
        Some(match steps[..] {
            ["minutes_per_part"] => OutputPlace::Minutes,
            ["bar", "parts_per_bar"] => OutputPlace::PartsPerBar,
            ["bar", "bars"] => OutputPlace::Bars,
            ["operations", number, "minutes_per_part"] => OutputPlace::OperationMinutes(index(number)?),
            ["operations", number, "settings", figure, "value"] => {
                OutputPlace::Figure(Figures::Settings(index(number)?), index(figure)?)
            }
            ["operations", number, "figures", figure, "value"] => {
                OutputPlace::Figure(Figures::Operation(index(number)?), index(figure)?)
            }
            ["joint", "loosest", figure, "value"] => OutputPlace::Figure(Figures::Loosest, index(figure)?),
            ["joint", "tightest", figure, "value"] => OutputPlace::Figure(Figures::Tightest, index(figure)?),
            ["stacks", number, "figures", figure, "value"] => {
                OutputPlace::Figure(Figures::Stack(index(number)?), index(figure)?)
            }
            _ => return None,
        })
    }
}

impl Output {
    /// The number at a pointer, which the sheet of the plan as it is must have.
    pub(super) fn new(pointer: &str, sheet: &Sheet) -> Result<Output, String> {
        let found = OutputPlace::parse(pointer).and_then(|place| {
            let name = match place {
                OutputPlace::Figure(list, figure) => Some(list.of(sheet)?.get(figure)?.name),
                _ => None,
            };
            let output = Output { place, name };
            output.read(sheet).map(|_| output)
        });
        found.ok_or_else(|| {
            format!(
                "the sheet has no figure at `{}`; expected a pointer such as `/minutes_per_part`, `/bar/bars` or \
                 `/operations/0/figures/0/value`",
                excerpt(pointer)
            )
        })
    }

    /// The number in a sheet that has it.
    pub(super) fn read(&self, sheet: &Sheet) -> Option<f64> {
        match self.place {
            OutputPlace::Minutes => Some(sheet.minutes_per_part),
            OutputPlace::OperationMinutes(number) => Some(sheet.operations.get(number)?.minutes_per_part),
            OutputPlace::PartsPerBar => sheet.bar.parts_per_bar,
            OutputPlace::Bars => sheet.bar.bars,
            OutputPlace::Figure(list, figure) => {
                list.of(sheet)?.get(figure).filter(|one| Some(one.name) == self.name).map(|one| one.value)
            }
        }
    }
}
