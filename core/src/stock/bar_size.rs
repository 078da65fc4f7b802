//! Sizes in which round bar is made, and the next one up.
use super::error::StockError;
use crate::error::excerpt;
use crate::limits::Limits;
use crate::size::Size;
use std::borrow::Cow;
use tenths_macros::{Choice, Object};

/// How a list of sizes is known.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum SizesSeen {
    /// The figures were read in print.
    Print,
    /// Recalled, or common practice: check them against the standard or with the supplier.
    Recalled,
    /// The caller's own.
    Own,
}

/// A size in which bar is made.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct BarSize {
    /// The nominal size.
    pub size: Size,
    /// The limits of the bar, where the list has them.
    pub limits: Option<Limits>,
    /// The list that it comes from.
    pub list: Cow<'static, str>,
    /// Where the list comes from.
    pub source: Cow<'static, str>,
    /// How the list is known.
    pub seen: SizesSeen,
}

impl BarSize {
    /// A size of the shop's own list.
    pub fn own(size: Size) -> Self {
        let [list, source] = ["your list", "your list"].map(Cow::Borrowed);
        Self { size, limits: None, list, source, seen: SizesSeen::Own }
    }

    /// A size of the shop's own list, with the limits of the bar.
    pub fn own_limits(limits: Limits) -> Self {
        Self { limits: Some(limits), ..Self::own(limits.nominal()) }
    }

    /// The least that such a bar may be: its lower limit where that is known, else its size.
    pub fn least(&self) -> Size {
        self.limits.map_or(self.size, |limits| limits.lower())
    }
}

/// A list of sizes: its name, its source, and how it is known.
struct List(&'static str, &'static str, SizesSeen);

const LISTS: [List; 9] = [
    List(
        "metric hot rolled",
        "EN 10060:2003, hot-rolled round steel bars, Table 1; the sizes and limits are recalled",
        SizesSeen::Recalled,
    ),
    List(
        "metric bright",
        "European dealers' practice for bright round bar (EN 10278), in h9 or h11: ask which",
        SizesSeen::Recalled,
    ),
    List("metric as stocked", "a steel-bar maker's chart of common round diameters", SizesSeen::Print),
    List("metric preferred", "ASME B4.2 Table 1, preferred basic sizes, first choice", SizesSeen::Recalled),
    List(
        "metric preferred, second choice",
        "ASME B4.2 Table 1, preferred basic sizes, second choice",
        SizesSeen::Recalled,
    ),
    List("inch as stocked", "a steel-bar maker's chart of common round diameters", SizesSeen::Print),
    List(
        "inch cold finished",
        "US warehouse practice for cold-finished rounds (ASTM A108), with the 1/32 in sizes of free-machining bar",
        SizesSeen::Recalled,
    ),
    List(
        "inch hot rolled",
        "US practice for hot-rolled rounds (ASTM A576); limits of ASTM A29",
        SizesSeen::Recalled,
    ),
    List(
        "inch drill rod",
        "US practice for ground drill rod: steps of 1/64 in to 1/2 in, of 1/32 in to 1 in",
        SizesSeen::Recalled,
    ),
];

const SIZES: &str = include_str!("bar_sizes.tsv");

/// The sizes of a list of round bar, the smallest first: `metric hot rolled`, `metric bright`, `metric as stocked`,
/// `metric preferred`, `metric preferred, second choice`, `inch as stocked`, `inch cold finished`, `inch hot rolled` or
/// `inch drill rod`. Each says where it comes from, and whether it was seen in print.
///
/// # Errors
/// [`StockError::UnknownList`].
pub fn bar_sizes(list: &str) -> Result<Vec<BarSize>, StockError> {
    let Some(&List(name, source, seen)) = LISTS.iter().find(|known| known.0 == list) else {
        let names = LISTS.iter().map(|known| known.0).collect();
        return Err(StockError::UnknownList { name: excerpt(list), names });
    };
    let size = |line: &'static str| {
        let mut fields = line.split('\t');
        if fields.next() != Some(name) {
            return None;
        }
        let size = Size::parse(fields.next()?).ok()?;
        let limits = fields.next().and_then(|text| Limits::parse(text).ok());
        Some(BarSize { size, limits, list: name.into(), source: source.into(), seen })
    };
    Ok(SIZES.lines().filter_map(size).collect())
}

/// The smallest of some sizes that is large enough: `least` at its lower limit where that is known, else in its size.
///
/// `least` is what has to clean up, such as [`cleanup_diameter`](crate::stock::cleanup_diameter) gives.
///
/// ```
/// use tenths::Size;
/// use tenths::stock::{bar_sizes, next_bar_size};
/// let bar = next_bar_size(Size::parse("6.2 in")?, &bar_sizes("inch hot rolled")?)?;
/// assert_eq!(bar.size, Size::parse("6 1/4 in")?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`StockError`] where there are no sizes, or all are too small.
pub fn next_bar_size(least: Size, sizes: &[BarSize]) -> Result<BarSize, StockError> {
    if !least.is_positive() {
        return Err(StockError::Length { what: "the size needed", size: least, positive: true });
    }
    if let Some(wrong) = sizes.iter().find(|bar| !bar.size.is_positive()) {
        return Err(StockError::Length { what: "a size of bar", size: wrong.size, positive: true });
    }
    let largest = sizes.iter().max_by_key(|bar| bar.least()).ok_or(StockError::NoSizes)?;
    let enough = sizes.iter().filter(|bar| bar.least() >= least);
    enough.min_by_key(|bar| (bar.size, bar.least())).cloned().ok_or_else(|| StockError::TooSmall {
        least,
        list: largest.list.to_string(),
        largest: largest.least(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    #[test]
    fn every_line_of_the_table_is_a_size_of_a_list() {
        let lines = SIZES.lines().filter(|line| !line.starts_with('#')).count();
        let lists = LISTS.iter().map(|list| bar_sizes(list.0).unwrap());
        let mut sizes = 0;
        for list in lists {
            sizes += list.len();
            assert!(list.windows(2).all(|two| two[0].size < two[1].size), "{}", list[0].list);
            // Limits lie about the size they stand beside, and the tolerance rises with it.
            let limits: Vec<_> =
                list.iter().filter_map(|bar| bar.limits.map(|limits| (bar.size, limits))).collect();
            assert!(limits.is_empty() || limits.len() == list.len(), "{}", list[0].list);
            for two in limits.windows(2) {
                assert!(two[0].1.tolerance() <= two[1].1.tolerance(), "{}", two[1].0);
            }
            for (size, limits) in limits {
                assert!(
                    limits.nominal() == size && limits.lower() <= size && size <= limits.upper(),
                    "{size}"
                );
            }
        }
        assert_eq!(sizes, lines);
    }

    #[test]
    fn the_lower_limit_of_the_bar_counts() {
        // 39.2 is the lower limit of 40 ±0.8 mm.
        let sizes = bar_sizes("metric hot rolled").unwrap();
        let next = |text: &str| next_bar_size(size(text), &sizes).unwrap().size;
        assert_eq!((next("39.2 mm"), next("39.200000001 mm")), (size("40 mm"), size("42 mm")));
    }

    #[test]
    fn the_shops_own_sizes_serve_too() {
        let own = [BarSize::own(size("30 mm")), BarSize::own_limits(Limits::parse("28 h9").unwrap())];
        assert_eq!(next_bar_size(size("27.9 mm"), &own).unwrap(), own[1]);
        assert_eq!(next_bar_size(size("27.95 mm"), &own).unwrap(), own[0]);
    }

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let refused = |least: &str, list: &str| {
            let sizes = bar_sizes(list).unwrap_or_default();
            next_bar_size(size(least), &sizes).unwrap_err().to_string()
        };
        assert_eq!(
            refused("120 mm", "metric bright"),
            "no size is at least 120 mm; the largest of metric bright is 100 mm. Fix: take another list, or forge or cut \
             it from plate"
        );
        assert_eq!(refused("1 mm", "none"), "there are no sizes to choose from: give at least one");
        assert_eq!(refused("0 mm", "metric bright"), "the size needed must be greater than zero, not 0 mm");
        let unknown = bar_sizes("metric").unwrap_err().to_string();
        assert!(
            unknown.starts_with("no list of bar sizes is called \"metric\"; expected metric hot rolled, ")
        );
    }
}
