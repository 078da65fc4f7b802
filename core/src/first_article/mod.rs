//! First-article inspection: the form to fill in from a plan, and the verdicts on what was measured.
mod csv;
mod demanded;
mod output;
mod page;
mod reading;
mod records;
mod table;
mod verdict;

pub use csv::{CsvError, CsvFault, CsvForm, Headings, MAX_CSV_FAULTS};
pub use reading::{GaugeResult, MeasuredValue, PieceReading, PieceReadingError};
pub use table::ReadingTable;
pub use verdict::CharacteristicVerdict;

use crate::finding::Finding;
use crate::inspect::decision::{Decision, DecisionError, DecisionRule, Verdict};
use crate::plan::{Characteristic, Document, Plan};
use crate::quantity::{Quantity, RoughnessRa, Units};
use crate::size::Size;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use tenths_macros::{Object, accessors};

/// The most verdicts of a first article, pieces times characteristics.
pub const MAX_VERDICTS: u64 = 250_000;

/// How readings are judged.
#[derive(Clone, PartialEq, Debug)]
pub struct FirstArticleOptions {
    /// The decision rule.
    pub rule: DecisionRule,
    /// The expanded uncertainty of measurement, of coverage factor 2; zero where the rule takes none.
    pub uncertainty: Size,
    /// That of single characteristics, by their numbers.
    pub uncertainties: BTreeMap<u32, Size>,
    /// How many pieces are to be measured; without it as many as there are readings of, and at least one.
    pub pieces: Option<u32>,
}

impl Default for FirstArticleOptions {
    /// Simple acceptance.
    fn default() -> Self {
        let (rule, uncertainty) = (DecisionRule::Simple, Size::ZERO);
        FirstArticleOptions { rule, uncertainty, uncertainties: BTreeMap::new(), pieces: None }
    }
}

/// A first-article inspection: the characteristics of a plan with what was measured, and a verdict on each reading.
///
/// Without readings it is the form to fill in. Caution: it proves the pieces that were measured, not those that follow.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct FirstArticle {
    /// Name of the part.
    pub part: String,
    /// Number of the part.
    pub part_number: Option<String>,
    /// The units of the plan.
    pub units: Units,
    /// How many pieces are to be measured.
    pub pieces: u32,
    /// The decision rule.
    pub rule: DecisionRule,
    /// A line for each characteristic of each piece, in the order of the plan.
    pub verdicts: Vec<CharacteristicVerdict>,
    /// The numbers of characteristics that lack a reading of a piece.
    pub missing: Vec<u32>,
    /// The numbers that have readings and are not in the plan. They are not judged.
    pub surplus: Vec<u32>,
    /// What the drawing asks for beside sizes, which is not judged here: roughness and form.
    pub not_judged: Vec<String>,
    /// Readings that look like a slip of the pen, such as a size in the wrong unit.
    pub remarks: Vec<String>,
    /// SHA-256 of the text of the plan.
    pub sha256: String,
}

/// Why readings cannot be judged.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FirstArticleError {
    /// The decision rule does not suit the limits and the uncertainty of a characteristic.
    #[error("characteristic {number}: {error}")]
    Decision {
        /// The number of the characteristic.
        number: u32,
        /// Why not.
        error: DecisionError,
    },
    /// A reading of a piece beyond those that are to be measured.
    #[error(
        "characteristic {number} has a reading for piece {piece}, but pieces is {pieces}. Fix: raise pieces"
    )]
    Piece {
        /// The number of the characteristic.
        number: u32,
        /// The piece.
        piece: u32,
        /// How many are to be measured.
        pieces: u32,
    },
    /// Two readings of one piece.
    #[error("characteristic {number} has two readings of piece {piece}. Fix: keep one")]
    Twice {
        /// The number of the characteristic.
        number: u32,
        /// The piece.
        piece: u32,
    },
    /// No pieces.
    #[error("the count of pieces must be 1 or more, not 0")]
    NoPieces,
    /// An uncertainty of a characteristic that the plan does not have.
    #[error("an uncertainty is given for characteristic {number}, which is not in the plan")]
    Uncertainty {
        /// The number as given.
        number: u32,
    },
    /// More verdicts than a first article has.
    #[error(
        "{verdicts} verdicts are more than {MAX_VERDICTS}, the most that a first article has. Fix: chart long runs instead"
    )]
    TooMany {
        /// Pieces times characteristics.
        verdicts: u64,
    },
}

impl FirstArticle {
    /// Judges the readings of a plan's characteristics, or without any gives the form to fill in.
    ///
    /// # Errors
    /// [`FirstArticleError`].
    pub fn new(
        plan: &Plan,
        readings: &ReadingTable,
        options: &FirstArticleOptions,
    ) -> Result<FirstArticle, FirstArticleError> {
        let document = plan.document();
        let known: BTreeSet<u32> = document.characteristics.iter().map(|c| c.number).collect();
        if let Some(number) = options.uncertainties.keys().find(|number| !known.contains(number)) {
            return Err(FirstArticleError::Uncertainty { number: *number });
        }
        let pieces = count_pieces(&known, readings, options)?;
        let verdicts = known.len() as u64 * u64::from(pieces);
        if verdicts > MAX_VERDICTS {
            return Err(FirstArticleError::TooMany { verdicts });
        }
        let mut made = FirstArticle {
            part: document.part.name.clone(),
            part_number: document.part.number.clone(),
            units: document.units,
            pieces,
            rule: options.rule,
            verdicts: vec![],
            missing: vec![],
            surplus: readings.numbers().filter(|number| !known.contains(number)).collect(),
            not_judged: not_judged(document),
            remarks: vec![],
            sha256: plan.sha256().into(),
        };
        for c in &document.characteristics {
            made.judge(c, readings.of(c.number), options)?;
        }
        Ok(made)
    }

    /// Adds the lines of a characteristic.
    fn judge(
        &mut self,
        c: &Characteristic,
        readings: &[PieceReading],
        options: &FirstArticleOptions,
    ) -> Result<(), FirstArticleError> {
        let uncertainty = options.uncertainties.get(&c.number).copied().unwrap_or(options.uncertainty);
        let decision = Decision::new(&c.limits, uncertainty, options.rule, None)
            .map_err(|error| FirstArticleError::Decision { number: c.number, error })?;
        let mut of_pieces = vec![None; self.pieces as usize];
        for reading in readings {
            let (number, piece, pieces) = (c.number, reading.piece, self.pieces);
            let place = piece.checked_sub(1).and_then(|piece| of_pieces.get_mut(piece as usize));
            let place = place.ok_or(FirstArticleError::Piece { number, piece, pieces })?;
            if place.replace(reading).is_some() {
                return Err(FirstArticleError::Twice { number, piece });
            }
        }
        for (piece, reading) in (1..).zip(&of_pieces) {
            let line = CharacteristicVerdict::new(c, piece, *reading, &decision);
            self.remarks.extend(line.slip(self.units));
            self.verdicts.push(line);
        }
        if of_pieces.iter().any(Option::is_none) {
            self.missing.push(c.number);
        }
        Ok(())
    }

    fn count(&self, verdict: Verdict) -> usize {
        self.verdicts.iter().filter(|line| line.verdict == Some(verdict)).count()
    }
}

/// How many pieces are to be measured.
fn count_pieces(
    known: &BTreeSet<u32>,
    readings: &ReadingTable,
    options: &FirstArticleOptions,
) -> Result<u32, FirstArticleError> {
    let greatest = known.iter().flat_map(|number| readings.of(*number)).map(|reading| reading.piece).max();
    match options.pieces {
        Some(0) => Err(FirstArticleError::NoPieces),
        Some(pieces) => Ok(pieces),
        None => Ok(greatest.unwrap_or(1).max(1)),
    }
}

/// What the drawing asks for beside sizes.
fn not_judged(document: &Document) -> Vec<String> {
    let mut list = vec![];
    for c in &document.characteristics {
        let unit = RoughnessRa::KIND.unit(document.units).label;
        list.extend(
            c.roughness.map(|ra| format!("No. {}: roughness Ra at most {} {unit}", c.number, ra.value())),
        );
        list.extend(c.form_deviation.map(|size| {
            format!("No. {}: deviation of form at most {}", c.number, size.format(document.units))
        }));
    }
    list
}

#[accessors]
impl FirstArticle {
    /// Whether every characteristic of every piece has a reading that the rule accepts.
    #[field]
    pub fn accepted(&self) -> bool {
        let all = self.count(Verdict::Conforming) == self.verdicts.len();
        all && self.missing.is_empty() && !self.verdicts.is_empty()
    }

    /// The standard that the rule is after, with its edition; none of them was seen itself.
    #[field]
    pub const fn standard(&self) -> &'static str {
        self.rule.standard()
    }

    /// Capabilities that the plan demands and the pieces do not show. They do not change whether the pieces are accepted.
    #[field]
    pub fn findings(&self) -> Vec<Finding> {
        self.capabilities_not_shown()
    }
}

impl fmt::Display for FirstArticle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let verdict = if self.accepted() { "accepted" } else { "not accepted" };
        let (bad, open) = (self.count(Verdict::NotConforming), self.count(Verdict::Indeterminate));
        let good = self.count(Verdict::Conforming);
        let missing = self.verdicts.len() - good - bad - open;
        write!(f, "first article of {}: {verdict}, {good} of {} conforming", self.part, self.verdicts.len())?;
        for (count, what) in [(bad, "not conforming"), (open, "indeterminate"), (missing, "missing")] {
            if count > 0 {
                write!(f, ", {count} {what}")?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
