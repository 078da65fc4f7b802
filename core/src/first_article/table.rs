//! Readings by the numbers of characteristics.
use super::reading::{MeasuredValue, PieceReading};
use std::collections::BTreeMap;

/// Readings by the numbers of the characteristics that they are of.
///
/// ```
/// use tenths::first_article::{MeasuredValue, ReadingTable};
/// let mut readings = ReadingTable::new();
/// readings.add(1, MeasuredValue::parse("1.752 in")?);
/// readings.add(2, MeasuredValue::parse("go entered, no-go refused")?);
/// assert_eq!(readings.len(), 2);
/// # Ok::<(), tenths::first_article::PieceReadingError>(())
/// ```
#[derive(Clone, PartialEq, Debug, Default)]
pub struct ReadingTable {
    readings: BTreeMap<u32, Vec<PieceReading>>,
}

impl ReadingTable {
    /// No readings.
    pub fn new() -> ReadingTable {
        ReadingTable::default()
    }

    /// Adds a reading of the piece after those that the characteristic has.
    pub fn add(&mut self, number: u32, value: MeasuredValue) {
        let piece = self.of(number).last().map_or(0, |last| last.piece).saturating_add(1);
        self.push(number, PieceReading { piece, value, measured_with: None, by: None, date: None });
    }

    /// Adds a reading. A piece that has one already keeps both, and the first article refuses them.
    pub fn push(&mut self, number: u32, reading: PieceReading) {
        self.readings.entry(number).or_default().push(reading);
    }

    /// The readings of a characteristic, in the order in which they came.
    pub fn of(&self, number: u32) -> &[PieceReading] {
        self.readings.get(&number).map_or(&[], Vec::as_slice)
    }

    /// The numbers that have readings, in order.
    pub fn numbers(&self) -> impl Iterator<Item = u32> {
        self.readings.keys().copied()
    }

    /// How many readings there are.
    pub fn len(&self) -> usize {
        self.readings.values().map(Vec::len).sum()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty()
    }
}
