//! Bars to buy for a quantity of one part.
use super::bar::usable;
use super::error::StockError;
use crate::size::Size;
use tenths_macros::Object;

/// How bars are cut into equal parts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BarCut {
    /// The length of a bar.
    pub bar_length: Size,
    /// The finished length of a part: the one that is given, so give the upper limit where parts may come out long.
    pub part_length: Size,
    /// The width of a cut.
    pub kerf: Size,
    /// What facing takes off each part, both ends together.
    pub facing_allowance: Size,
    /// What is trimmed off each bar before the first part.
    pub end_trim: Size,
    /// The length at the far end of each bar that is held and cannot be used.
    pub remnant: Size,
}

impl BarCut {
    /// A bar that is cut into parts without losing anything.
    pub fn new(bar_length: Size, part_length: Size) -> Self {
        let [kerf, facing_allowance, end_trim, remnant] = [Size::ZERO; 4];
        Self { bar_length, part_length, kerf, facing_allowance, end_trim, remnant }
    }

    fn check(&self) -> Result<(), StockError> {
        let lengths = [
            ("the length of the bar", self.bar_length, true),
            ("the length of the part", self.part_length, true),
            ("the kerf", self.kerf, false),
            ("the facing allowance", self.facing_allowance, false),
            ("the end trim", self.end_trim, false),
            ("the remnant", self.remnant, false),
        ];
        let wrong =
            |&(_, size, positive): &(_, Size, bool)| size.is_negative() || positive && size == Size::ZERO;
        match lengths.into_iter().find(wrong) {
            Some((what, size, positive)) => Err(StockError::Length { what, size, positive }),
            None => Ok(()),
        }
    }

    /// What a part takes with its facing and one kerf, in picometres.
    fn each(&self) -> i128 {
        [self.part_length, self.facing_allowance, self.kerf].map(pm).iter().sum()
    }

    /// What the parts and cuts of a bar may take, in picometres.
    fn room(&self) -> i128 {
        pm(self.bar_length) - pm(self.end_trim) - pm(self.remnant)
    }

    /// What so many parts of one bar take. The last cut takes what there is, up to a kerf.
    fn used(&self, parts: i128) -> i128 {
        (parts * self.each()).min(self.room())
    }
}

/// Bars to buy for a quantity of one part, and what becomes of them.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct BarOrder {
    /// Good pieces wanted.
    #[pure]
    pub quantity: u64,
    /// Pieces to start, so that enough of them are good.
    #[pure]
    pub starts: u64,
    /// Parts that a full bar gives.
    #[pure]
    pub parts_per_bar: u64,
    /// Bars to buy.
    #[pure]
    pub bars: u64,
    /// Parts of the last bar; a full bar's where all are full.
    #[pure]
    pub last_bar_parts: u64,
    /// The length of all bars together.
    pub length_bought: Size,
    /// What the parts take of them, with their facing and their cuts.
    pub length_used: Size,
    /// What is left of a full bar in one piece, beyond the remnant that is held.
    pub leftover: Size,
    /// What is left of the last bar in one piece, beyond the remnant.
    pub last_bar_leftover: Size,
    /// The share of the bars that becomes parts.
    #[pure]
    pub utilisation: f64,
    /// The share of the bars that the cuts turn into chips.
    #[pure]
    pub kerf_share: f64,
}

/// More pieces than these are not counted.
const MAX_PIECES: f64 = 1e12;

/// The bars to buy for a quantity of good parts, where `yield_share` of the parts come out good. All lengths are exact,
/// and parts are counted as [`parts_per_bar`](crate::stock::parts_per_bar) counts them.
///
/// ```
/// use tenths::Size;
/// use tenths::stock::{BarCut, bars_to_buy};
/// let mm = |text: &str| Size::parse(text).unwrap();
/// let cut = BarCut { kerf: mm("3 mm"), ..BarCut::new(mm("3 m"), mm("45 mm")) };
/// let order = bars_to_buy(190, &cut, 0.95)?;
/// assert_eq!((order.starts, order.parts_per_bar, order.bars, order.last_bar_parts), (200, 62, 4, 14));
/// # Ok::<(), tenths::stock::StockError>(())
/// ```
///
/// # Errors
/// [`StockError`] where a length or the yield cannot be, or a bar does not hold a part.
pub fn bars_to_buy(quantity: u64, cut: &BarCut, yield_share: f64) -> Result<BarOrder, StockError> {
    cut.check()?;
    if !(0.0 < yield_share && yield_share <= 1.0) {
        return Err(StockError::Yield { share: yield_share });
    }
    let room = usable(cut.bar_length, cut.end_trim, cut.remnant, cut.kerf);
    let parts_per_bar = room.max(0) / cut.each();
    if parts_per_bar == 0 {
        let part = cut.part_length.checked_add(cut.facing_allowance).ok_or(StockError::TooLarge)?;
        let room = size(cut.room().max(0))?;
        return Err(StockError::PartTooLong { part, bar: cut.bar_length, room });
    }
    let needed = super::buying::bars_needed_base(quantity as f64, 1.0, yield_share);
    if needed.starts > MAX_PIECES {
        return Err(StockError::TooLarge);
    }
    let starts = needed.starts as i128;
    let bars = (starts + parts_per_bar - 1) / parts_per_bar;
    let last = if bars == 0 { 0 } else { starts - (bars - 1) * parts_per_bar };
    let used = (bars - 1).max(0) * cut.used(parts_per_bar) + cut.used(last);
    let bought = bars * pm(cut.bar_length);
    let share = |part: i128| if bought == 0 { 0.0 } else { part as f64 / bought as f64 };
    let stays = starts * (pm(cut.part_length) + pm(cut.facing_allowance));
    Ok(BarOrder {
        quantity,
        starts: starts as u64,
        parts_per_bar: parts_per_bar as u64,
        bars: bars as u64,
        last_bar_parts: last as u64,
        length_bought: size(bought)?,
        length_used: size(used)?,
        leftover: size(cut.room() - cut.used(parts_per_bar))?,
        last_bar_leftover: if bars == 0 { Size::ZERO } else { size(cut.room() - cut.used(last))? },
        utilisation: share(starts * pm(cut.part_length)),
        kerf_share: share(used - stays),
    })
}

fn pm(size: Size) -> i128 {
    i128::from(size.picometres())
}

fn size(picometres: i128) -> Result<Size, StockError> {
    i64::try_from(picometres).map(Size::from_picometres).map_err(|_| StockError::TooLarge)
}

impl std::fmt::Display for BarOrder {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { quantity, starts, bars, parts_per_bar, .. } = self;
        let used = 100.0 * self.utilisation;
        write!(
            f,
            "BarOrder: {bars} bars of {parts_per_bar} parts for {quantity} good ones ({starts} started), {used:.1} % used"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(text: &str) -> Size {
        Size::parse(&format!("{text} mm")).unwrap()
    }

    // Shop practice: every part pays its cut where a remnant stays. 58 · 48.5 = 2813, and 3000 - 2 - 150 - 2813 = 35.
    #[test]
    fn a_bar_with_a_remnant() {
        let cut = BarCut {
            kerf: mm("3"),
            facing_allowance: mm("0.5"),
            end_trim: mm("2"),
            remnant: mm("150"),
            ..BarCut::new(mm("3000"), mm("45"))
        };
        let order = bars_to_buy(58, &cut, 1.0).unwrap();
        assert_eq!((order.parts_per_bar, order.bars, order.last_bar_parts), (58, 1, 58));
        assert_eq!((order.length_used, order.leftover), (mm("2813"), mm("35")));
        assert_eq!((order.utilisation, order.kerf_share), (0.87, 174.0 / 3000.0));
        let two = bars_to_buy(59, &cut, 1.0).unwrap();
        assert_eq!((two.bars, two.last_bar_parts, two.last_bar_leftover), (2, 1, mm("2799.5")));
    }

    // 5 · 1197 + 4 · 3 = 5997: the last part needs no cut, and the cuts take 12.
    #[test]
    fn the_last_part_fits_to_the_last_digit() {
        let cut = BarCut { kerf: mm("3"), ..BarCut::new(mm("5997"), mm("1197")) };
        let order = bars_to_buy(25, &cut, 1.0).unwrap();
        assert_eq!((order.bars, order.leftover, order.kerf_share), (5, Size::ZERO, 12.0 / 5997.0));
    }

    #[test]
    fn nothing_wanted_takes_no_bar() {
        let order = bars_to_buy(0, &BarCut::new(mm("3000"), mm("45")), 0.9).unwrap();
        assert_eq!((order.starts, order.bars, order.utilisation), (0, 0, 0.0));
        assert_eq!(order.last_bar_leftover, Size::ZERO);
    }

    #[test]
    fn a_million_is_counted() {
        let order = bars_to_buy(1_000_000, &BarCut::new(mm("6000"), mm("7")), 1.0).unwrap();
        assert_eq!((order.parts_per_bar, order.bars), (857, 1167));
        let far = bars_to_buy(1_000_000_000_000, &BarCut::new(mm("6000"), mm("7")), 1.0);
        assert_eq!(far, Err(StockError::TooLarge));
    }

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let refused =
            |quantity, cut: &BarCut, share| bars_to_buy(quantity, cut, share).unwrap_err().to_string();
        let cut = BarCut::new(mm("3000"), mm("45"));
        assert_eq!(refused(1, &cut, 0.0), "the yield must be above 0 and at most 1, e.g. 0.95, not 0");
        assert_eq!(refused(1, &cut, f64::NAN), "the yield must be above 0 and at most 1, e.g. 0.95, not NaN");
        let long = BarCut { end_trim: mm("2960"), ..cut };
        assert_eq!(
            refused(1, &long, 1.0),
            "a part of 45 mm does not fit in a bar of 3000 mm: trim and remnant leave 40 mm for parts"
        );
        let negative = BarCut { kerf: mm("-1"), ..cut };
        assert_eq!(refused(1, &negative, 1.0), "the kerf must be zero or more, not -1 mm");
        let none = BarCut { part_length: Size::ZERO, ..cut };
        assert_eq!(refused(1, &none, 1.0), "the length of the part must be greater than zero, not 0 mm");
    }
}
