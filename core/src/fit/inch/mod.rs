//! Inch fits of ASME B4.1: running, locational and force fits by their names.
mod table;

use super::{FitError, Member};
use crate::error::excerpt;
use crate::{Limits, Size};
use table::{FITS, Row};

/// The standard of these fits, with its edition.
pub const STANDARD: &str = "ASME B4.1-1967";

/// Ends of ranges are hundredths of an inch.
const HUNDREDTH: i64 = 254_000_000;
/// Deviations are hundred-thousandths of an inch.
const HUNDRED_THOUSANDTH: i64 = 254_000;

/// A text that ends in `FN2 hole` or `FN2 shaft`, as the fit and its member.
pub(crate) fn split_member(text: &str) -> Option<(&str, Member)> {
    let text = text.trim();
    let (fit, member) = Member::ALL.iter().find_map(|member| {
        let fit = text.strip_suffix(member.name())?;
        fit.ends_with(char::is_whitespace).then_some((fit.trim_end(), *member))
    })?;
    InchFit::is_name(fit.rsplit(char::is_whitespace).next()?).then_some((fit, member))
}

/// A row of the table: the place of the fit, and of the range of sizes in it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct InchFit {
    fit: u8,
    row: u8,
}

impl InchFit {
    /// Whether a text has the form of an inch fit: two capitals of a family and a number.
    pub fn is_name(text: &str) -> bool {
        let families = ["RC", "LC", "LT", "LN", "FN"];
        let number = families.iter().find_map(|family| text.strip_prefix(family));
        number.is_some_and(|number| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
    }

    pub fn find(name: &str, nominal: Size) -> Result<InchFit, FitError> {
        let is_named = |(known, _): &(&str, &[Row])| known == &name.trim();
        let fit = FITS.iter().position(is_named);
        let fit = fit.ok_or_else(|| FitError::InchFit { name: excerpt(name.trim()) })?;
        let (name, rows) = FITS[fit];
        let within = |row: &Row| {
            row.over * HUNDREDTH < nominal.picometres() && nominal.picometres() <= row.up_to * HUNDREDTH
        };
        match rows.iter().position(within) {
            Some(row) => Ok(InchFit { fit: fit as u8, row: row as u8 }),
            None => {
                let end = |count: Option<i64>| Size::from_picometres(count.unwrap_or(0) * HUNDREDTH);
                let over = end(rows.first().map(|row| row.over));
                let up_to = end(rows.last().map(|row| row.up_to));
                Err(FitError::InchSize { name, nominal, over, up_to })
            }
        }
    }

    pub fn name(self) -> &'static str {
        FITS[usize::from(self.fit)].0
    }

    /// Where the figures of this row were seen.
    pub fn source(self) -> &'static str {
        self.row().source
    }

    /// Limits of the hole and of the shaft.
    pub fn limits(self, nominal: Size) -> Result<[Limits; 2], FitError> {
        let deviation = |count: i64| Size::from_picometres(count * HUNDRED_THOUSANDTH);
        let limits =
            |[lower, upper]: [i64; 2]| Limits::with_deviations(nominal, deviation(upper), deviation(lower));
        Ok([limits(self.row().hole)?, limits(self.row().shaft)?])
    }

    fn row(self) -> &'static Row {
        &FITS[usize::from(self.fit)].1[usize::from(self.row)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The tolerance grades of ABC 890-1954 in hundred-thousandths of an inch, grades 4 to 13, by the upper end of the
    /// range in hundredths of an inch; from memory, as ASME B4.1 reprints them.
    const GRADES: [(i64, [i64; 10]); 13] = [
        (12, [15, 20, 25, 40, 60, 100, 160, 250, 400, 600]),
        (24, [15, 20, 30, 50, 70, 120, 180, 300, 500, 700]),
        (40, [15, 25, 40, 60, 90, 140, 220, 350, 600, 900]),
        (71, [20, 30, 40, 70, 100, 160, 280, 400, 700, 1000]),
        (119, [25, 40, 50, 80, 120, 200, 350, 500, 800, 1200]),
        (197, [30, 40, 60, 100, 160, 250, 400, 600, 1000, 1600]),
        (315, [30, 50, 70, 120, 180, 300, 450, 700, 1200, 1800]),
        (473, [40, 60, 90, 140, 220, 350, 500, 900, 1400, 2200]),
        (709, [50, 70, 100, 160, 250, 400, 600, 1000, 1600, 2500]),
        (985, [60, 80, 120, 180, 280, 450, 700, 1200, 1800, 2800]),
        (1241, [60, 90, 120, 200, 300, 500, 800, 1200, 2000, 3000]),
        (1575, [70, 100, 140, 220, 350, 600, 900, 1400, 2200, 3500]),
        (1969, [80, 100, 160, 250, 400, 600, 1000, 1600, 2500, 4000]),
    ];

    fn rows() -> impl Iterator<Item = (&'static str, &'static Row)> {
        FITS.iter().flat_map(|(name, rows)| rows.iter().map(|row| (*name, row)))
    }

    #[test]
    fn ranges_follow_one_another() {
        for (name, rows) in FITS {
            assert!(rows.windows(2).all(|pair| pair[0].up_to == pair[1].over), "{name}");
            assert!(rows.iter().all(|row| row.over < row.up_to), "{name}");
            assert_eq!(rows.last().map(|row| row.up_to), Some(1969), "{name}");
        }
    }

    // Running and clearance fits always have clearance, or none at least; force fits always interference. All are
    // of hole basis.
    #[test]
    fn families_are_of_their_kind() {
        for (name, row) in rows() {
            let ([hole_lower, hole_upper], [shaft_lower, shaft_upper]) = (row.hole, row.shaft);
            let place = format!("{name} over {}", row.over);
            assert!(hole_lower < hole_upper && shaft_lower < shaft_upper, "{place}");
            let (least, greatest) = (hole_lower - shaft_upper, hole_upper - shaft_lower);
            match &name[..2] {
                "RC" => assert!(least > 0, "{place}"),
                "LC" => assert!(least >= 0, "{place}"),
                "LT" => assert!(least < 0 && greatest > 0, "{place}"),
                "LN" => assert!(greatest <= 20, "{place}"),
                _ => assert!(greatest < 0, "{place}"),
            }
            assert_eq!(hole_lower, 0, "{place}");
        }
    }

    #[test]
    fn limits_lie_farther_out_as_sizes_rise() {
        for (name, rows) in FITS {
            for pair in rows.windows(2) {
                let (a, b) = (&pair[0], &pair[1]);
                assert!(a.hole[1] <= b.hole[1], "{name} over {}", b.over);
                let outward = match &name[..2] {
                    "RC" | "LC" => a.shaft[0] >= b.shaft[0] && a.shaft[1] >= b.shaft[1],
                    "LT" => true,
                    _ => a.shaft[0] <= b.shaft[0] && a.shaft[1] <= b.shaft[1],
                };
                assert!(outward, "{name} over {}", b.over);
            }
        }
    }

    // The shafts of the four fits named here are of no whole grade, nor is that of LN1 from 1.19 to 1.97 in. Shafts
    // about the nominal size have half of a grade to either side, at times rounded down.
    #[test]
    fn tolerances_are_grades() {
        let mut odd = Vec::new();
        for (name, row) in rows() {
            let (_, grades) = GRADES.iter().find(|(up_to, _)| row.up_to <= *up_to).unwrap();
            let is_grade = |[lower, upper]: [i64; 2]| match upper - lower {
                tolerance if lower == -upper => {
                    grades.iter().any(|grade| (0..=20).contains(&(grade - tolerance)))
                }
                tolerance => grades.contains(&tolerance),
            };
            let coarse = ["RC9", "LC10", "LC11", "FN1"].contains(&name);
            if !is_grade(row.hole) || !(coarse || is_grade(row.shaft)) {
                odd.push((name, row.over));
            }
        }
        assert_eq!(odd, [("LN1", 119)]);
    }
}
