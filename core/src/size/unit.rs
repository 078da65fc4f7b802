//! Units of length, with their spellings, from the table of quantities.
use crate::quantity::{Length, Quantity, Units};

/// A unit of length that text may be in.
#[derive(PartialEq, Eq, Debug)]
pub struct LengthUnit {
    label: &'static str,
    spellings: &'static [&'static str],
    picometres: u128,
}

const COUNT: usize = 2 + Length::KIND.others.len();

/// The units of the table of quantities, the shop units first.
static UNITS: [LengthUnit; COUNT] = {
    const NONE: LengthUnit = LengthUnit { label: "", spellings: &[], picometres: 0 };
    let mut units = [NONE; COUNT];
    let mut k = 0;
    while k < COUNT {
        units[k] = if k < 2 {
            let (unit, side) = (&Length::KIND.units[k], Units::ALL[k]);
            LengthUnit { label: unit.label, spellings: unit.spellings, picometres: side.picometres() as u128 }
        } else {
            let unit = &Length::KIND.others[k - 2];
            let [numerator, denominator] = unit.to[Units::Metric as usize].parts();
            let picometres = Units::Metric.picometres() as i128 * numerator;
            assert!(picometres % denominator == 0, "a unit of length that is no whole number of picometres");
            LengthUnit {
                label: unit.label,
                spellings: unit.spellings,
                picometres: (picometres / denominator) as u128,
            }
        };
        k += 1;
    }
    units
};

impl LengthUnit {
    /// The unit that this text names.
    pub(super) fn find(text: &str) -> Option<&'static LengthUnit> {
        UNITS.iter().find(|unit| unit.label == text || unit.spellings.contains(&text))
    }

    /// How it is written.
    pub const fn label(&self) -> &'static str {
        self.label
    }

    /// How many picometres it has.
    pub(super) const fn picometres(&self) -> u128 {
        self.picometres
    }
}

impl From<Units> for &'static LengthUnit {
    fn from(units: Units) -> Self {
        &UNITS[units as usize]
    }
}
