//! Code letters and master tables, in the form in which they are printed: arrows are followed by the code.
//!
//! Source of the code letters and of the plans for normal inspection: MIL-STD-105E (1989), tables I and II-A, which
//! ISO 2859-1 and ANSI/ASQ Z1.4 share. The numbers of every row were seen in print in a copy of the standard; the columns
//! 0.65 to 15 were seen in a second reprint, and the other columns continue its diagonals. Source of the plans for
//! tightened inspection: table II-B as reprinted in a public guide for service contracts, which has code letters A to L
//! and AQLs 0.65 to 15; the rest was not seen, so it is not here.
use super::kinds::{InspectionLevel, InspectionSeverity};

/// The code letters, which leave out I and O, with their sample sizes for single plans.
pub(super) const LETTERS: [(&str, u64); 16] = [
    ("A", 2),
    ("B", 3),
    ("C", 5),
    ("D", 8),
    ("E", 13),
    ("F", 20),
    ("G", 32),
    ("H", 50),
    ("J", 80),
    ("K", 125),
    ("L", 200),
    ("M", 315),
    ("N", 500),
    ("P", 800),
    ("Q", 1250),
    ("R", 2000),
];

/// Acceptance quality limits in percent, or in nonconformities per hundred pieces.
pub(super) const AQLS: [f64; 26] = [
    0.010, 0.015, 0.025, 0.040, 0.065, 0.10, 0.15, 0.25, 0.40, 0.65, 1.0, 1.5, 2.5, 4.0, 6.5, 10.0, 15.0,
    25.0, 40.0, 65.0, 100.0, 150.0, 250.0, 400.0, 650.0, 1000.0,
];

/// The largest lot of each row of table I, and its code letters for S-1, S-2, S-3, S-4, I, II and III.
#[rustfmt::skip]
const CODES: [(u64, &str); 15] = [
    (8,       "AAAAAAB"),
    (15,      "AAAAABC"),
    (25,      "AABBBCD"),
    (50,      "ABBCCDE"),
    (90,      "BBCCCEF"),
    (150,     "BBCDDFG"),
    (280,     "BCDEEGH"),
    (500,     "BCDEFHJ"),
    (1_200,   "CCEFGJK"),
    (3_200,   "CDEGHKL"),
    (10_000,  "CDFGJLM"),
    (35_000,  "CDFHKMN"),
    (150_000, "DEGJLNP"),
    (500_000, "DEGJMPQ"),
    (u64::MAX, "DEHKNQR"),
];

/// An arrow down: use the first plan below.
const V: i8 = -1;
/// An arrow up: use the first plan above.
const A: i8 = -2;

/// A master table: rows from code letter A on, columns from an AQL on, acceptance numbers and arrows.
struct Table {
    first_aql: usize,
    rows: &'static [&'static [i8]],
}

#[rustfmt::skip]
static NORMAL: Table = Table { first_aql: 0, rows: &[
    &[V, V, V, V, V, V, V, V, V, V, V, V, V, V, 0, V, V, 1, 2, 3, 5, 7, 10, 14, 21, 30],
    &[V, V, V, V, V, V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, 30, 44],
    &[V, V, V, V, V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, 30, 44, A],
    &[V, V, V, V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, 30, 44, A, A],
    &[V, V, V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, 30, 44, A, A, A],
    &[V, V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A],
    &[V, V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A],
    &[V, V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A],
    &[V, V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A],
    &[V, V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A],
    &[V, V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A],
    &[V, V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A, A],
    &[V, V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A, A, A],
    &[V, 0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A, A, A, A],
    &[0, A, V, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A, A, A, A, A],
    &[A, A, 1, 2, 3, 5, 7, 10, 14, 21, A, A, A, A, A, A, A, A, A, A, A, A, A, A, A, A],
] };

#[rustfmt::skip]
static TIGHTENED: Table = Table { first_aql: 9, rows: &[
    &[V, V, V, V, V, V, V, V],
    &[V, V, V, V, V, 0, V, V],
    &[V, V, V, V, 0, V, V, 1],
    &[V, V, V, 0, V, V, 1, 2],
    &[V, V, 0, V, V, 1, 2, 3],
    &[V, 0, V, V, 1, 2, 3, 5],
    &[0, V, V, 1, 2, 3, 5, 8],
    &[V, V, 1, 2, 3, 5, 8, 12],
    &[V, 1, 2, 3, 5, 8, 12, 18],
    &[1, 2, 3, 5, 8, 12, 18, A],
    &[2, 3, 5, 8, 12, 18, A, A],
] };

/// A plan of a master table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Cell {
    /// The place of the code letter whose plan it is, behind the arrows.
    pub letter: usize,
    /// The acceptance number.
    pub accept: u32,
}

/// The place of the code letter of a lot.
pub(super) fn code_letter(lot: u64, level: InspectionLevel) -> usize {
    let row = CODES.iter().find(|(largest, _)| lot <= *largest).map_or("", |(_, letters)| letters);
    let column = level as usize;
    let letter = row.get(column..=column).unwrap_or("");
    LETTERS.iter().position(|(known, _)| *known == letter).unwrap_or_default()
}

/// The plan of a single table for a code letter and an AQL, by their places; nothing where none was seen in print.
pub(super) fn single(letter: usize, aql: usize, severity: InspectionSeverity) -> Option<Cell> {
    let table = match severity {
        InspectionSeverity::Normal => &NORMAL,
        InspectionSeverity::Tightened => &TIGHTENED,
        InspectionSeverity::Reduced => return None,
    };
    let column = aql.checked_sub(table.first_aql)?;
    let mut letter = letter;
    // An arrow never leads back, so each row is looked at once at the most.
    for _ in table.rows {
        match *table.rows.get(letter)?.get(column)? {
            V => letter += 1,
            A => letter = letter.checked_sub(1)?,
            accept => return Some(Cell { letter, accept: u32::try_from(accept).ok()? }),
        }
    }
    None
}

/// The acceptance number of the next smaller AQL with the same sample size: the one before it in the rows.
pub(super) fn tighter(accept: u32, severity: InspectionSeverity) -> Option<u32> {
    let row: &[u32] = match severity {
        InspectionSeverity::Tightened => &[0, 1, 2, 3, 5, 8, 12, 18],
        _ => &[0, 1, 2, 3, 5, 7, 10, 14, 21, 30, 44],
    };
    let place = row.iter().position(|known| *known == accept)?;
    row.get(place.checked_sub(1)?).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    // Rules of the tables themselves, by which a mistyped cell fails.
    #[test]
    fn tables_keep_their_rules() {
        for (table, severity) in
            [(&NORMAL, InspectionSeverity::Normal), (&TIGHTENED, InspectionSeverity::Tightened)]
        {
            let columns = table.rows[0].len();
            for (letter, row) in table.rows.iter().enumerate() {
                assert_eq!(row.len(), columns, "{letter}");
                let numbers: Vec<i8> = row.iter().copied().filter(|cell| *cell >= 0).collect();
                assert!(numbers.is_sorted_by(|one, next| one < next), "{letter}: {numbers:?}");
                for pair in numbers.windows(2) {
                    assert_eq!(tighter(pair[1] as u32, severity), Some(pair[0] as u32), "{letter}");
                }
            }
            // The plans stand on diagonals: the next letter has the same number for the next smaller AQL.
            for pair in table.rows.windows(2) {
                for column in 1..columns {
                    let (here, below) = (pair[0][column], pair[1][column - 1]);
                    assert!(here < 0 || below < 0 || here == below, "{pair:?} {column}");
                }
            }
        }
    }

    #[test]
    fn letters_rise_with_the_lot_and_the_level() {
        let letters = |lot| InspectionLevel::ALL.map(|level| code_letter(lot, level));
        for pair in CODES.windows(2) {
            let (here, next) = (letters(pair[0].0), letters(pair[1].0));
            assert!(here.iter().zip(next).all(|(here, next)| *here <= next && next <= here + 1), "{pair:?}");
            assert!(here.is_sorted(), "{pair:?}");
            assert_eq!(next, letters(pair[0].0 + 1));
        }
        let sizes = LETTERS.map(|(_, size)| size);
        assert!(sizes.is_sorted() && AQLS.is_sorted());
    }

    // A stricter inspection does not accept more, wherever both tables have a plan.
    #[test]
    fn tightened_inspection_is_stricter() {
        let mut count = 0;
        for letter in 0..LETTERS.len() {
            for aql in 0..AQLS.len() {
                let Some(tightened) = single(letter, aql, InspectionSeverity::Tightened) else { continue };
                let normal = single(letter, aql, InspectionSeverity::Normal).unwrap();
                let rate = |cell: Cell| f64::from(cell.accept) / LETTERS[cell.letter].1 as f64;
                assert!(rate(tightened) <= rate(normal), "{letter} {aql}");
                count += 1;
            }
        }
        assert_eq!(count, 11 * 8);
    }
}
