//! Comparison of hardness scales, with the tensile strength beside them.
use crate::error::excerpt;
use crate::quantity::{Quantity, Stress};
use tenths_macros::{Choice, Object, accessors};

/// A scale of hardness.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum HardnessScale {
    /// Rockwell C.
    #[name = "HRC"]
    RockwellC,
    /// Rockwell B.
    #[name = "HRB"]
    RockwellB,
    /// Brinell, with 0.102 F/D² = 30.
    #[name = "HB"]
    Brinell,
    /// Vickers, at 98 N and above.
    #[name = "HV"]
    Vickers,
}

impl HardnessScale {
    /// Reads `HRC`, `HRB`, `HB` or `HV`; `HBW` is `HB` too.
    ///
    /// # Errors
    /// [`HardnessError::Scale`].
    pub fn parse(text: &str) -> Result<Self, HardnessError> {
        let text = if text == "HBW" { "HB" } else { text };
        let found = Self::ALL.iter().copied().find(|scale| scale.name() == text);
        found.ok_or_else(|| HardnessError::Scale { text: excerpt(text) })
    }

    /// The column of the table.
    const fn column(self) -> usize {
        match self {
            Self::Vickers => 0,
            Self::Brinell => 1,
            Self::RockwellB => 2,
            Self::RockwellC => 3,
        }
    }
}

/// Why hardness cannot be compared.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum HardnessError {
    /// No scale of the table.
    #[error("{text:?} is not a scale of hardness; expected HRC, HRB, HB or HV")]
    Scale {
        /// The text as given.
        text: String,
    },
    /// Beyond the table.
    #[error("{scale} must be {least} to {greatest}, the range of the table, not {value}")]
    Range {
        /// The name of the scale.
        scale: &'static str,
        /// The hardness as given.
        value: f64,
        /// The least that the table has.
        least: f64,
        /// The greatest.
        greatest: f64,
    },
}

/// What a hardness compares with on other scales: a comparison by a table, no conversion.
///
/// For unalloyed and low-alloy steels and cast steel, hot rolled or heat treated. High-alloy, cold-worked and surface-hardened
/// steels differ, and other metals have tables of their own. Scatter of ±25 HV or ±85 MPa is usual: where a drawing
/// states a hardness, measure in its own scale, and where it states a strength, pull a test piece.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct HardnessComparison {
    /// The scale of the hardness that is compared.
    pub scale: HardnessScale,
    /// The hardness that is compared.
    #[pure]
    pub value: f64,
    /// Rockwell C; absent below 20.3 and above 68.
    #[pure]
    pub rockwell_c: Option<f64>,
    /// Rockwell B; absent below 56.2 and above 99.5.
    #[pure]
    pub rockwell_b: Option<f64>,
    /// Brinell; absent above 618. Above 447 the ball must be of hard metal.
    #[pure]
    pub brinell: Option<f64>,
    /// Vickers.
    #[pure]
    pub vickers: f64,
    /// The tensile strength that such a steel may have; absent above 650 HV. The least reliable figure of the table.
    pub tensile_strength: Option<Stress>,
}

#[accessors]
impl HardnessComparison {
    /// The table, and how it was seen.
    #[field]
    pub fn source(&self) -> &'static str {
        "ISO 18265:2013, Table A.1 (also DIN 50150), seen in reprints; between its rows in proportion"
    }
}

impl HardnessComparison {
    /// Compares a hardness on one scale with the others.
    ///
    /// ```
    /// use tenths::material::{HardnessComparison, HardnessScale};
    /// let compared = HardnessComparison::new(HardnessScale::RockwellC, 40.8)?;
    /// assert_eq!((compared.vickers, compared.brinell), (400.0, Some(380.0)));
    /// # Ok::<(), tenths::material::HardnessError>(())
    /// ```
    ///
    /// # Errors
    /// [`HardnessError`] beyond the range of the table.
    pub fn new(scale: HardnessScale, value: f64) -> Result<Self, HardnessError> {
        let rows = || TABLE.iter().filter(|row| !row[scale.column()].is_nan());
        let ends = (rows().next(), rows().next_back());
        let [least, greatest] = [ends.0, ends.1].map(|row| row.map_or(f64::NAN, |row| row[scale.column()]));
        if !(least <= value && value <= greatest) {
            return Err(HardnessError::Range { scale: scale.name(), value, least, greatest });
        }
        let vickers = between(value, scale.column(), 0).unwrap_or(f64::NAN);
        let to = |column: usize, step: f64| {
            let own = (column == scale.column()).then_some(value);
            own.or_else(|| between(vickers, 0, column).map(|value| (value / step).round() * step))
        };
        Ok(Self {
            scale,
            value,
            rockwell_c: to(3, 0.1).map(tenth),
            rockwell_b: to(2, 0.1).map(tenth),
            brinell: to(1, 1.0),
            vickers: to(0, 1.0).unwrap_or(f64::NAN),
            tensile_strength: between(vickers, 0, 4).map(|stress| Stress::megapascals(stress.round())),
        })
    }
}

/// The nearest float to a number of tenths.
fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// The figure of a column for a value of another, in proportion between the rows that have both; none beyond them.
fn between(value: f64, from: usize, to: usize) -> Option<f64> {
    let rows = || TABLE.iter().filter(|row| !row[from].is_nan() && !row[to].is_nan());
    rows().zip(rows().skip(1)).find(|(low, high)| low[from] <= value && value <= high[from]).map(
        |(low, high)| {
            let part = (value - low[from]) / (high[from] - low[from]);
            low[to] + part * (high[to] - low[to])
        },
    )
}

impl std::fmt::Display for HardnessComparison {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} {} compares with", self.value, self.scale.name())?;
        let others = [
            ("HRC", self.rockwell_c),
            ("HRB", self.rockwell_b),
            ("HB", self.brinell),
            ("HV", Some(self.vickers)),
        ];
        let others = others.into_iter().filter(|other| other.0 != self.scale.name());
        for (at, (name, value)) in others.filter_map(|(name, value)| Some((name, value?))).enumerate() {
            write!(f, "{} {value} {name}", if at == 0 { "" } else { "," })?;
        }
        match self.tensile_strength {
            Some(stress) => write!(f, ", {} MPa", stress.metric()),
            None => Ok(()),
        }
    }
}

const NO: f64 = f64::NAN;

/// HV, HB, HRB, HRC and tensile strength in MPa: ISO 18265:2013 Table A.1. The columns for HV 80 to 650 were seen in four
/// reprints, HRC above them in two. HRB in brackets, beyond 100, and HRB below 100 HV are left out.
#[rustfmt::skip]
const TABLE: [[f64; 5]; 97] = [
    [80.0, 76.0, NO, NO, 255.0],
    [85.0, 80.7, NO, NO, 270.0],
    [90.0, 85.5, NO, NO, 285.0],
    [95.0, 90.2, NO, NO, 305.0],
    [100.0, 95.0, 56.2, NO, 320.0],
    [105.0, 99.8, NO, NO, 335.0],
    [110.0, 105.0, 62.3, NO, 350.0],
    [115.0, 109.0, NO, NO, 370.0],
    [120.0, 114.0, 66.7, NO, 385.0],
    [125.0, 119.0, NO, NO, 400.0],
    [130.0, 124.0, 71.2, NO, 415.0],
    [135.0, 128.0, NO, NO, 430.0],
    [140.0, 133.0, 75.0, NO, 450.0],
    [145.0, 138.0, NO, NO, 465.0],
    [150.0, 143.0, 78.7, NO, 480.0],
    [155.0, 147.0, NO, NO, 495.0],
    [160.0, 152.0, 81.7, NO, 510.0],
    [165.0, 156.0, NO, NO, 530.0],
    [170.0, 162.0, 85.0, NO, 545.0],
    [175.0, 166.0, NO, NO, 560.0],
    [180.0, 171.0, 87.1, NO, 575.0],
    [185.0, 176.0, NO, NO, 595.0],
    [190.0, 181.0, 89.5, NO, 610.0],
    [195.0, 185.0, NO, NO, 625.0],
    [200.0, 190.0, 91.5, NO, 640.0],
    [205.0, 195.0, 92.5, NO, 660.0],
    [210.0, 199.0, 93.5, NO, 675.0],
    [215.0, 204.0, 94.0, NO, 690.0],
    [220.0, 209.0, 95.0, NO, 705.0],
    [225.0, 214.0, 96.0, NO, 720.0],
    [230.0, 219.0, 96.7, NO, 740.0],
    [235.0, 223.0, NO, NO, 755.0],
    [240.0, 228.0, 98.1, 20.3, 770.0],
    [245.0, 233.0, NO, 21.3, 785.0],
    [250.0, 238.0, 99.5, 22.2, 800.0],
    [255.0, 242.0, NO, 23.1, 820.0],
    [260.0, 247.0, NO, 24.0, 835.0],
    [265.0, 252.0, NO, 24.8, 850.0],
    [270.0, 257.0, NO, 25.6, 865.0],
    [275.0, 261.0, NO, 26.4, 880.0],
    [280.0, 266.0, NO, 27.1, 900.0],
    [285.0, 271.0, NO, 27.8, 915.0],
    [290.0, 276.0, NO, 28.5, 930.0],
    [295.0, 280.0, NO, 29.2, 950.0],
    [300.0, 285.0, NO, 29.8, 965.0],
    [310.0, 295.0, NO, 31.0, 995.0],
    [320.0, 304.0, NO, 32.2, 1030.0],
    [330.0, 314.0, NO, 33.3, 1060.0],
    [340.0, 323.0, NO, 34.4, 1095.0],
    [350.0, 333.0, NO, 35.5, 1125.0],
    [360.0, 342.0, NO, 36.6, 1155.0],
    [370.0, 352.0, NO, 37.7, 1190.0],
    [380.0, 361.0, NO, 38.8, 1220.0],
    [390.0, 371.0, NO, 39.8, 1255.0],
    [400.0, 380.0, NO, 40.8, 1290.0],
    [410.0, 390.0, NO, 41.8, 1320.0],
    [420.0, 399.0, NO, 42.7, 1350.0],
    [430.0, 409.0, NO, 43.6, 1385.0],
    [440.0, 418.0, NO, 44.5, 1420.0],
    [450.0, 428.0, NO, 45.3, 1455.0],
    [460.0, 437.0, NO, 46.1, 1485.0],
    [470.0, 447.0, NO, 46.9, 1520.0],
    [480.0, 456.0, NO, 47.7, 1555.0],
    [490.0, 466.0, NO, 48.4, 1595.0],
    [500.0, 475.0, NO, 49.1, 1630.0],
    [510.0, 485.0, NO, 49.8, 1665.0],
    [520.0, 494.0, NO, 50.5, 1700.0],
    [530.0, 504.0, NO, 51.1, 1740.0],
    [540.0, 513.0, NO, 51.7, 1775.0],
    [550.0, 523.0, NO, 52.3, 1810.0],
    [560.0, 532.0, NO, 53.0, 1845.0],
    [570.0, 542.0, NO, 53.6, 1880.0],
    [580.0, 551.0, NO, 54.1, 1920.0],
    [590.0, 561.0, NO, 54.7, 1955.0],
    [600.0, 570.0, NO, 55.2, 1995.0],
    [610.0, 580.0, NO, 55.7, 2030.0],
    [620.0, 589.0, NO, 56.3, 2070.0],
    [630.0, 599.0, NO, 56.8, 2105.0],
    [640.0, 608.0, NO, 57.3, 2145.0],
    [650.0, 618.0, NO, 57.8, 2180.0],
    [660.0, NO, NO, 58.3, NO],
    [670.0, NO, NO, 58.8, NO],
    [680.0, NO, NO, 59.2, NO],
    [690.0, NO, NO, 59.7, NO],
    [700.0, NO, NO, 60.1, NO],
    [720.0, NO, NO, 61.0, NO],
    [740.0, NO, NO, 61.8, NO],
    [760.0, NO, NO, 62.5, NO],
    [780.0, NO, NO, 63.3, NO],
    [800.0, NO, NO, 64.0, NO],
    [820.0, NO, NO, 64.7, NO],
    [840.0, NO, NO, 65.3, NO],
    [860.0, NO, NO, 65.9, NO],
    [880.0, NO, NO, 66.4, NO],
    [900.0, NO, NO, 67.0, NO],
    [920.0, NO, NO, 67.5, NO],
    [940.0, NO, NO, 68.0, NO],
];

#[cfg(test)]
mod tests {
    use super::*;

    fn compared(scale: HardnessScale, value: f64) -> HardnessComparison {
        HardnessComparison::new(scale, value).unwrap()
    }

    #[test]
    fn every_column_rises() {
        for column in 0..5 {
            let figures: Vec<f64> =
                TABLE.iter().map(|row| row[column]).filter(|figure| !figure.is_nan()).collect();
            assert!(figures.windows(2).all(|two| two[0] < two[1]), "{column}");
        }
        // The standard's own rule: Brinell is 0.95 Vickers, within a unit.
        for row in TABLE.iter().filter(|row| !row[1].is_nan()) {
            assert!((row[1] - 0.95 * row[0]).abs() < 1.0, "{row:?}");
        }
        // Tensile strength over Vickers lies between 3.1 and 3.4.
        for row in TABLE.iter().filter(|row| !row[4].is_nan()) {
            assert!((3.1..3.4).contains(&(row[4] / row[0])), "{row:?}");
        }
    }

    #[test]
    fn a_row_compares_with_itself_from_every_scale() {
        for row in &TABLE {
            for scale in HardnessScale::ALL.iter().filter(|scale| !row[scale.column()].is_nan()) {
                let found = compared(*scale, row[scale.column()]);
                let columns = [Some(found.vickers), found.brinell, found.rockwell_b, found.rockwell_c];
                for (column, figure) in columns.into_iter().enumerate().filter(|at| !row[at.0].is_nan()) {
                    let figure = figure.unwrap();
                    let step = if column == 1 { 0.5 } else { 0.05 };
                    assert!((figure - row[column]).abs() <= step, "{row:?} {scale:?} {column} {figure}");
                }
            }
        }
    }

    #[test]
    fn the_range_of_the_table_is_told() {
        let refused = |scale, value| HardnessComparison::new(scale, value).unwrap_err().to_string();
        let need = "HRC must be 20.3 to 68, the range of the table, not 20.2";
        assert_eq!(refused(HardnessScale::RockwellC, 20.2), need);
        let need = "HRB must be 56.2 to 99.5, the range of the table, not NaN";
        assert_eq!(refused(HardnessScale::RockwellB, f64::NAN), need);
        let need = "\"HRA\" is not a scale of hardness; expected HRC, HRB, HB or HV";
        assert_eq!(HardnessScale::parse("HRA").unwrap_err().to_string(), need);
    }

    #[test]
    fn what_the_table_does_not_have_is_absent() {
        let soft = compared(HardnessScale::Vickers, 90.0);
        assert_eq!((soft.rockwell_b, soft.rockwell_c), (None, None));
        let hard = compared(HardnessScale::RockwellC, 64.0);
        assert_eq!((hard.vickers, hard.brinell, hard.tensile_strength), (800.0, None, None));
        assert_eq!(hard.to_string(), "64 HRC compares with 800 HV");
    }
}
