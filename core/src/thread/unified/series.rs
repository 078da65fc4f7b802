//! The standard series of Unified threads.
//!
//! Source: ASME B1.1, table of standard series, from memory.
use super::Series;

/// Nominal diameters of the numbered sizes, in ten-thousandths of an inch: 0.060 + 0.013 · number.
pub static NUMBERED: &[(i64, i64)] = &[
    (0, 600),
    (1, 730),
    (2, 860),
    (3, 990),
    (4, 1_120),
    (5, 1_250),
    (6, 1_380),
    (8, 1_640),
    (10, 1_900),
    (12, 2_160),
];

/// Nominal diameter in ten-thousandths of an inch, and half threads per inch.
type Entry = (i64, i64);

static COARSE: &[Entry] = &[
    (730, 128),
    (860, 112),
    (990, 96),
    (1_120, 80),
    (1_250, 80),
    (1_380, 64),
    (1_640, 64),
    (1_900, 48),
    (2_160, 48),
    (2_500, 40),
    (3_125, 36),
    (3_750, 32),
    (4_375, 28),
    (5_000, 26),
    (5_625, 24),
    (6_250, 22),
    (7_500, 20),
    (8_750, 18),
    (10_000, 16),
    (11_250, 14),
    (12_500, 14),
    (13_750, 12),
    (15_000, 12),
    (17_500, 10),
    (20_000, 9),
    (22_500, 9),
    (25_000, 8),
    (27_500, 8),
    (30_000, 8),
    (32_500, 8),
    (35_000, 8),
    (37_500, 8),
    (40_000, 8),
];

static FINE: &[Entry] = &[
    (600, 160),
    (730, 144),
    (860, 128),
    (990, 112),
    (1_120, 96),
    (1_250, 88),
    (1_380, 80),
    (1_640, 72),
    (1_900, 64),
    (2_160, 56),
    (2_500, 56),
    (3_125, 48),
    (3_750, 48),
    (4_375, 40),
    (5_000, 40),
    (5_625, 36),
    (6_250, 36),
    (7_500, 32),
    (8_750, 28),
    (10_000, 24),
    (11_250, 24),
    (12_500, 24),
    (13_750, 24),
    (15_000, 24),
];

static EXTRA_FINE: &[Entry] = &[
    (2_160, 64),
    (2_500, 64),
    (3_125, 64),
    (3_750, 64),
    (4_375, 56),
    (5_000, 56),
    (5_625, 48),
    (6_250, 48),
    (6_875, 48),
    (7_500, 40),
    (8_125, 40),
    (8_750, 40),
    (9_375, 40),
    (10_000, 40),
    (10_625, 36),
    (11_250, 36),
    (11_875, 36),
    (12_500, 36),
    (13_125, 36),
    (13_750, 36),
    (14_375, 36),
    (15_000, 36),
    (15_625, 36),
    (16_250, 36),
    (16_875, 36),
];

/// Threads per inch of the constant-pitch series.
static CONSTANT: &[i64] = &[4, 6, 8, 12, 16, 20, 28, 32];

impl Series {
    /// The entries of a series of chosen diameters.
    fn entries(self) -> Option<&'static [Entry]> {
        match self {
            Series::Coarse => Some(COARSE),
            Series::Fine => Some(FINE),
            Series::ExtraFine => Some(EXTRA_FINE),
            Series::Constant | Series::Special => None,
        }
    }

    /// Whether the thread belongs to the series. The special series takes all.
    pub fn has(self, nominal: i64, half_threads: i64) -> bool {
        match self.entries() {
            Some(entries) => entries.contains(&(nominal, half_threads)),
            None => self == Series::Special || CONSTANT.iter().any(|count| 2 * count == half_threads),
        }
    }

    /// What the series has instead, for a message.
    pub fn has_instead(self, nominal: i64) -> String {
        let threads = |half: i64| format!("{}", half as f64 / 2.0);
        match self.entries() {
            Some(entries) => match entries.iter().find(|entry| entry.0 == nominal) {
                Some((_, half)) => format!("it has {} threads per inch at this diameter", threads(*half)),
                None => "it does not have this diameter".into(),
            },
            None => "it has 4, 6, 8, 12, 16, 20, 28 or 32 threads per inch".into(),
        }
    }
}

/// Whether a numbered size has these threads in one of the series of chosen diameters.
pub fn is_numbered(nominal: i64, half_threads: i64) -> bool {
    [Series::Coarse, Series::Fine, Series::ExtraFine].iter().any(|series| series.has(nominal, half_threads))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stand_for_thirteen_thousandths() {
        assert!(NUMBERED.iter().all(|(number, nominal)| *nominal == 600 + 130 * number));
    }

    // In each series threads grow coarser with the diameter, and the finer series is finer at each.
    #[test]
    fn series_keep_their_order() {
        for entries in [COARSE, FINE, EXTRA_FINE] {
            assert!(entries.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 >= pair[1].1));
        }
        for (coarse, fine) in [(COARSE, FINE), (FINE, EXTRA_FINE)] {
            let both = coarse.iter().filter_map(|a| Some((a, fine.iter().find(|b| a.0 == b.0)?)));
            assert!(both.clone().count() >= 15 && both.clone().all(|(a, b)| a.1 < b.1));
        }
    }
}
