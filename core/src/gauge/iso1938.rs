//! Gauges for holes and shafts by the ISO scheme: where GO and NO-GO stand when new, and how far GO may wear.
use super::kinds::{GaugeBasis, GaugeError, GaugeForm};
use super::places::Places;
use crate::fit::iso::grade_tolerance;
use crate::{Limits, Size};

/// The figures for parts of one grade and one range of sizes.
struct Row {
    /// The standard tolerance grade of the part.
    pub grade: u8,
    /// Sizes above this, in millimetres,
    pub over: i64,
    /// and up to this.
    pub up_to: i64,
    /// For a hole, in tenths of a micrometre.
    pub plug: Distances,
    /// The same for a shaft.
    pub ring: Distances,
    /// The tolerance of a check master, in tenths of a micrometre.
    pub master: i64,
}

/// Distances of a pair of gauges from the limits of the part, in tenths of a micrometre.
#[derive(Clone, Copy)]
struct Distances {
    /// z: from the limit of most material to the middle of a new GO, into the part's tolerance.
    pub into: i64,
    /// y: from the limit of most material to a worn GO, out of the part's tolerance.
    pub worn: i64,
    /// α: by which the worn GO and the NO-GO of large parts are drawn in, for the uncertainty of their measurement.
    pub drawn_in: i64,
    /// H: the tolerance of each member, half of it to either side.
    pub tolerance: i64,
}

const fn row(grade: u8, over: i64, up_to: i64, plug: [i64; 4], ring: [i64; 4], master: i64) -> Row {
    Row { grade, over, up_to, plug: distances(plug), ring: distances(ring), master }
}

const fn distances([into, worn, drawn_in, tolerance]: [i64; 4]) -> Distances {
    Distances { into, worn, drawn_in, tolerance }
}

/// The scheme whose figures these are.
const STANDARD: &str = "ISO 1938-1:2015 scheme, figures of ISO/R 1938:1971";

impl Row {
    /// The standard tolerance of the grade in this range, in picometres.
    fn tolerance(&self) -> i64 {
        grade_tolerance(self.grade, self.up_to)
    }

    /// Grades 6 and 7 were seen in a reprint, the others are from memory.
    fn basis(&self) -> GaugeBasis {
        if self.grade <= 7 { GaugeBasis::Published } else { GaugeBasis::Memory }
    }
}

/// New GO and NO-GO about their places, and how far GO may wear.
pub(super) fn places(form: GaugeForm, part: &Limits) -> Result<Places, GaugeError> {
    if form == GaugeForm::FlushPin {
        return Err(GaugeError::NoForm { form });
    }
    let (nominal, tolerance) = (part.nominal(), part.tolerance());
    let row = find(nominal.picometres(), tolerance.picometres()).map_err(|least| match least {
        Some(least) => GaugeError::NoGrade { tolerance, least: Size::from_picometres(least) },
        None => GaugeError::OutOfScheme { size: nominal },
    })?;
    let distances = if form.is_internal() { row.plug } else { row.ring };
    let [into, worn, drawn_in, half, master] = [
        distances.into * TENTH,
        distances.worn * TENTH,
        distances.drawn_in * TENTH,
        distances.tolerance * (TENTH / 2),
        row.master * TENTH,
    ];
    Ok(Places {
        class: None,
        grade: Some(row.grade),
        standard: STANDARD,
        basis: row.basis(),
        go: [into - half, into + half],
        no_go: [drawn_in - half, drawn_in + half],
        worn: drawn_in - worn,
        masters: form.has_masters().then_some([master; 2]),
    })
}

/// The row for a part: of its nominal size, the coarsest grade of which its tolerance is not less.
fn find(nominal: i64, tolerance: i64) -> Result<&'static Row, Option<i64>> {
    let holds = |row: &&Row| row.over * MILLIMETRE < nominal && nominal <= row.up_to * MILLIMETRE;
    let fits = |row: &&Row| row.tolerance() <= tolerance;
    let finest = ROWS.iter().find(holds).ok_or(None)?;
    ROWS.iter().rev().filter(holds).find(fits).ok_or(Some(finest.tolerance()))
}

const MICROMETRE: i64 = 1_000_000;
/// A tenth of a micrometre.
const TENTH: i64 = MICROMETRE / 10;
const MILLIMETRE: i64 = 1_000 * MICROMETRE;

/// Source of grades 6 and 7: GOST 24853-81, which has the figures of ISO/R 1938, as printed in a university text.
/// The other grades are from memory of the same table; z and H of IT8 over 50 mm and of IT9 over 18 mm were seen in
/// print. Tolerances of the grades
/// are those of ISO 286-1, which stand with the fits.
#[rustfmt::skip]
static ROWS: [Row; 91] = [
    // IT6
    row(6, 0, 3, [10, 10, 0, 12], [15, 15, 0, 20], 8),
    row(6, 3, 6, [15, 10, 0, 15], [20, 15, 0, 25], 10),
    row(6, 6, 10, [15, 10, 0, 15], [20, 15, 0, 25], 10),
    row(6, 10, 18, [20, 15, 0, 20], [25, 20, 0, 30], 12),
    row(6, 18, 30, [20, 15, 0, 25], [30, 30, 0, 40], 15),
    row(6, 30, 50, [25, 20, 0, 25], [35, 30, 0, 40], 15),
    row(6, 50, 80, [25, 20, 0, 30], [40, 30, 0, 50], 20),
    row(6, 80, 120, [30, 30, 0, 40], [50, 40, 0, 60], 25),
    row(6, 120, 180, [40, 30, 0, 50], [60, 40, 0, 80], 35),
    row(6, 180, 250, [50, 40, 20, 70], [70, 50, 20, 100], 45),
    row(6, 250, 315, [60, 50, 30, 80], [80, 60, 30, 120], 60),
    row(6, 315, 400, [70, 60, 40, 90], [100, 60, 40, 130], 70),
    row(6, 400, 500, [80, 70, 50, 100], [110, 70, 50, 150], 80),
    // IT7
    row(7, 0, 3, [15, 15, 0, 20], [15, 15, 0, 20], 8),
    row(7, 3, 6, [20, 15, 0, 25], [20, 15, 0, 25], 10),
    row(7, 6, 10, [20, 15, 0, 25], [20, 15, 0, 25], 10),
    row(7, 10, 18, [25, 20, 0, 30], [25, 20, 0, 30], 12),
    row(7, 18, 30, [30, 30, 0, 40], [30, 30, 0, 40], 15),
    row(7, 30, 50, [35, 30, 0, 40], [35, 30, 0, 40], 15),
    row(7, 50, 80, [40, 30, 0, 50], [40, 30, 0, 50], 20),
    row(7, 80, 120, [50, 40, 0, 60], [50, 40, 0, 60], 25),
    row(7, 120, 180, [60, 40, 0, 80], [60, 40, 0, 80], 35),
    row(7, 180, 250, [70, 60, 30, 100], [70, 60, 30, 100], 45),
    row(7, 250, 315, [80, 70, 40, 120], [80, 70, 40, 120], 60),
    row(7, 315, 400, [100, 80, 60, 130], [100, 80, 60, 130], 70),
    row(7, 400, 500, [110, 90, 70, 150], [110, 90, 70, 150], 80),
    // IT8
    row(8, 0, 3, [20, 30, 0, 20], [20, 30, 0, 30], 12),
    row(8, 3, 6, [30, 30, 0, 25], [30, 30, 0, 40], 15),
    row(8, 6, 10, [30, 30, 0, 25], [30, 30, 0, 40], 15),
    row(8, 10, 18, [40, 40, 0, 30], [40, 40, 0, 50], 20),
    row(8, 18, 30, [50, 40, 0, 40], [50, 40, 0, 60], 25),
    row(8, 30, 50, [60, 50, 0, 40], [60, 50, 0, 70], 25),
    row(8, 50, 80, [70, 50, 0, 50], [70, 50, 0, 80], 30),
    row(8, 80, 120, [80, 60, 0, 60], [80, 60, 0, 100], 40),
    row(8, 120, 180, [90, 60, 0, 80], [90, 60, 0, 120], 50),
    row(8, 180, 250, [120, 70, 40, 100], [120, 70, 40, 140], 70),
    row(8, 250, 315, [140, 90, 60, 120], [140, 90, 60, 160], 80),
    row(8, 315, 400, [160, 90, 70, 130], [160, 90, 70, 180], 90),
    row(8, 400, 500, [180, 110, 90, 150], [180, 110, 90, 200], 100),
    // IT9
    row(9, 0, 3, [50, 0, 0, 20], [50, 0, 0, 30], 12),
    row(9, 3, 6, [60, 0, 0, 25], [60, 0, 0, 40], 15),
    row(9, 6, 10, [70, 0, 0, 25], [70, 0, 0, 40], 15),
    row(9, 10, 18, [80, 0, 0, 30], [80, 0, 0, 50], 20),
    row(9, 18, 30, [90, 0, 0, 40], [90, 0, 0, 60], 25),
    row(9, 30, 50, [110, 0, 0, 40], [110, 0, 0, 70], 25),
    row(9, 50, 80, [130, 0, 0, 50], [130, 0, 0, 80], 30),
    row(9, 80, 120, [150, 0, 0, 60], [150, 0, 0, 100], 40),
    row(9, 120, 180, [180, 0, 0, 80], [180, 0, 0, 120], 50),
    row(9, 180, 250, [210, 0, 40, 100], [210, 0, 40, 140], 70),
    row(9, 250, 315, [240, 0, 60, 120], [240, 0, 60, 160], 80),
    row(9, 315, 400, [280, 0, 70, 130], [280, 0, 70, 180], 90),
    row(9, 400, 500, [320, 0, 90, 150], [320, 0, 90, 200], 100),
    // IT10
    row(10, 0, 3, [50, 0, 0, 20], [50, 0, 0, 30], 12),
    row(10, 3, 6, [60, 0, 0, 25], [60, 0, 0, 40], 15),
    row(10, 6, 10, [70, 0, 0, 25], [70, 0, 0, 40], 15),
    row(10, 10, 18, [80, 0, 0, 30], [80, 0, 0, 50], 20),
    row(10, 18, 30, [90, 0, 0, 40], [90, 0, 0, 60], 25),
    row(10, 30, 50, [110, 0, 0, 40], [110, 0, 0, 70], 25),
    row(10, 50, 80, [130, 0, 0, 50], [130, 0, 0, 80], 30),
    row(10, 80, 120, [150, 0, 0, 60], [150, 0, 0, 100], 40),
    row(10, 120, 180, [180, 0, 0, 80], [180, 0, 0, 120], 50),
    row(10, 180, 250, [240, 0, 70, 100], [240, 0, 70, 140], 70),
    row(10, 250, 315, [270, 0, 90, 120], [270, 0, 90, 160], 80),
    row(10, 315, 400, [320, 0, 110, 130], [320, 0, 110, 180], 90),
    row(10, 400, 500, [370, 0, 140, 150], [370, 0, 140, 200], 100),
    // IT11
    row(11, 0, 3, [100, 0, 0, 40], [100, 0, 0, 40], 12),
    row(11, 3, 6, [120, 0, 0, 50], [120, 0, 0, 50], 15),
    row(11, 6, 10, [140, 0, 0, 60], [140, 0, 0, 60], 15),
    row(11, 10, 18, [160, 0, 0, 80], [160, 0, 0, 80], 20),
    row(11, 18, 30, [190, 0, 0, 90], [190, 0, 0, 90], 25),
    row(11, 30, 50, [220, 0, 0, 110], [220, 0, 0, 110], 25),
    row(11, 50, 80, [250, 0, 0, 130], [250, 0, 0, 130], 30),
    row(11, 80, 120, [280, 0, 0, 150], [280, 0, 0, 150], 40),
    row(11, 120, 180, [320, 0, 0, 180], [320, 0, 0, 180], 50),
    row(11, 180, 250, [400, 0, 100, 200], [400, 0, 100, 200], 70),
    row(11, 250, 315, [450, 0, 150, 230], [450, 0, 150, 230], 80),
    row(11, 315, 400, [500, 0, 150, 250], [500, 0, 150, 250], 90),
    row(11, 400, 500, [550, 0, 200, 270], [550, 0, 200, 270], 100),
    // IT12
    row(12, 0, 3, [100, 0, 0, 40], [100, 0, 0, 40], 12),
    row(12, 3, 6, [120, 0, 0, 50], [120, 0, 0, 50], 15),
    row(12, 6, 10, [140, 0, 0, 60], [140, 0, 0, 60], 15),
    row(12, 10, 18, [160, 0, 0, 80], [160, 0, 0, 80], 20),
    row(12, 18, 30, [190, 0, 0, 90], [190, 0, 0, 90], 25),
    row(12, 30, 50, [220, 0, 0, 110], [220, 0, 0, 110], 25),
    row(12, 50, 80, [250, 0, 0, 130], [250, 0, 0, 130], 30),
    row(12, 80, 120, [280, 0, 0, 150], [280, 0, 0, 150], 40),
    row(12, 120, 180, [320, 0, 0, 180], [320, 0, 0, 180], 50),
    row(12, 180, 250, [450, 0, 150, 200], [450, 0, 150, 200], 70),
    row(12, 250, 315, [500, 0, 200, 230], [500, 0, 200, 230], 80),
    row(12, 315, 400, [650, 0, 300, 250], [650, 0, 300, 250], 90),
    row(12, 400, 500, [700, 0, 350, 270], [700, 0, 350, 270], 100),
];

#[cfg(test)]
mod tests {
    use super::*;

    // Rules that the table keeps, so that a mistyped figure fails.
    #[test]
    fn every_row_has_a_tolerance() {
        for row in &ROWS {
            assert!(row.tolerance() > 0, "IT{} to {}", row.grade, row.up_to);
            // The row lies in one range of ISO 286-1.
            assert_eq!(row.tolerance(), grade_tolerance(row.grade, row.over + 1), "over {}", row.over);
        }
        // IT6 to IT12 of 18 to 30 mm: ISO 286-1.
        let grades = ROWS.iter().filter(|row| row.up_to == 30).map(|row| row.tolerance() / MICROMETRE);
        assert_eq!(grades.collect::<Vec<_>>(), [13, 21, 33, 52, 84, 130, 210]);
    }

    #[test]
    fn the_table_keeps_its_own_rules() {
        for pair in ROWS.windows(2) {
            let [one, next] = pair else { continue };
            if one.grade == next.grade {
                assert_eq!(one.up_to, next.over, "IT{} over {}", next.grade, next.over);
                let rise = |figure: fn(&Row) -> i64| {
                    assert!(figure(one) <= figure(next), "IT{} {}", one.grade, next.over)
                };
                rise(Row::tolerance);
                rise(|row| row.master);
                for distances in [(|row| row.plug) as fn(&Row) -> Distances, |row| row.ring] {
                    assert!(distances(one).into <= distances(next).into);
                    assert!(distances(one).worn <= distances(next).worn || next.grade > 8);
                    assert!(distances(one).drawn_in <= distances(next).drawn_in);
                    assert!(distances(one).tolerance <= distances(next).tolerance);
                }
            } else {
                assert_eq!((one.up_to, next.over, next.grade), (500, 0, one.grade + 1));
            }
        }
        for row in &ROWS {
            for distances in [row.plug, row.ring] {
                // A new GO lies inside the part's tolerance, and clear of NO-GO.
                assert!(2 * distances.into >= distances.tolerance, "IT{} {}", row.grade, row.over);
                assert!(distances.into + distances.drawn_in + distances.tolerance < row.tolerance() / TENTH);
                assert_eq!(distances.drawn_in > 0, row.over >= 180);
                // From IT9 on, GO may wear to the limit of the part and no further.
                assert_eq!(distances.worn > 0, row.grade <= 8);
            }
            assert!(row.master <= row.ring.tolerance);
            // From IT7 on holes and shafts are gauged at the same distances.
            if row.grade >= 7 {
                let (plug, ring) = (row.plug, row.ring);
                assert_eq!([plug.into, plug.worn, plug.drawn_in], [ring.into, ring.worn, ring.drawn_in]);
            }
        }
        for row in &ROWS {
            let coarser = ROWS.iter().find(|other| other.grade == row.grade + 1 && other.over == row.over);
            assert!(
                coarser.is_none_or(
                    |other| other.tolerance() > row.tolerance() && other.plug.into >= row.plug.into
                )
            );
        }
    }
}
