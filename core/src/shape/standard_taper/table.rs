//! The tapers, in the units of their standards.
use tenths_macros::Choice;

/// A family of tapers.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Choice)]
pub enum TaperFamily {
    /// Morse tapers, about 5/8 in per foot.
    #[name = "Morse"]
    Morse,
    /// Metric tapers of ISO 296, 1:20, named by the diameter of their large end in millimetres.
    #[name = "metric"]
    Metric,
    /// Steep tapers of milling spindles, 7:24, which let go by themselves.
    #[name = "7:24 No."]
    Steep,
    /// Jarno tapers, 0.6 in per foot.
    #[name = "Jarno"]
    Jarno,
    /// Brown & Sharpe tapers, about 1/2 in per foot.
    #[name = "Brown & Sharpe"]
    BrownSharpe,
}

/// A family and its tapers.
pub(super) struct Family {
    pub family: TaperFamily,
    pub name: &'static str,
    /// How designations begin, in small letters; the longer of two that begin alike comes first.
    pub aliases: &'static [&'static str],
    pub standard: &'static str,
    pub rows: &'static [Row],
}

/// A taper.
pub(super) struct Row {
    pub number: &'static str,
    /// Change of the diameter over the length, as a fraction.
    pub taper: [i64; 2],
    /// Diameter at the large end in picometres.
    pub large: i64,
    /// Diameter at the small end, and the length between the two, in picometres.
    pub small: Option<[i64; 2]>,
    pub source: &'static str,
}

const INCH: i64 = 25_400_000_000;
const MILLIMETRE: i64 = 1_000_000_000;
const HUNDRED_THOUSANDTH: i64 = INCH / 100_000;

/// Taper per foot, the diameters at the large and at the small end in hundred-thousandths of an inch, and the length in
/// sixteenths of an inch.
const fn inch(
    number: &'static str,
    per_foot: i64,
    large: i64,
    small: i64,
    sixteenths: i64,
    source: &'static str,
) -> Row {
    Row {
        number,
        taper: [per_foot, 12 * 100_000],
        large: large * HUNDRED_THOUSANDTH,
        small: Some([small * HUNDRED_THOUSANDTH, sixteenths * (INCH / 16)]),
        source,
    }
}

/// The diameter at the large end in millimetres.
const fn metric(number: &'static str, millimetres: i64) -> Row {
    Row {
        number,
        taper: [1, 20],
        large: millimetres * MILLIMETRE,
        small: None,
        source: "ISO 296:1991 for the numbers; that they are diameters in millimetres, from memory",
    }
}

/// The diameter at the gauge line in eighths of an inch.
const fn steep(number: &'static str, eighths: i64, source: &'static str) -> Row {
    Row { number, taper: [7, 24], large: eighths * (INCH / 8), small: None, source }
}

/// By the rule: as many eighths, tenths and halves of an inch as the number.
const fn jarno(number: &'static str, n: i64) -> Row {
    Row {
        number,
        taper: [1, 20],
        large: n * (INCH / 8),
        small: Some([n * (INCH / 10), n * (INCH / 2)]),
        source: "the Jarno rule, as printed in machine-shop courses",
    }
}

const HANDBOOK: &str = "Machinery's Handbook, standard tapers, as reprinted; lengths from reprinted tables";
const HALF_NUMBER: &str = "reprinted tables of standard tapers; taper per foot worked out of them";
const SHARPE: &str = "reprinted tables of standard tapers; fifth decimal of the taper per foot from memory";
const NOSES: &str = "milling machine tapers of 1938, as quoted by a reader of the standard";
const MEMORY: &str = "ASME B5.10 and ISO 297, from memory";

static MORSE: [Row; 9] = [
    inch("0", 62_460, 35_610, 25_200, 32, HANDBOOK),
    inch("1", 59_858, 47_500, 36_900, 34, HANDBOOK),
    inch("2", 59_941, 70_000, 57_200, 41, HANDBOOK),
    inch("3", 60_235, 93_800, 77_800, 51, HANDBOOK),
    inch("4", 62_326, 123_100, 102_000, 65, HANDBOOK),
    inch("4 1/2", 62_400, 150_000, 126_600, 72, HALF_NUMBER),
    inch("5", 63_151, 174_800, 147_500, 83, HANDBOOK),
    inch("6", 62_565, 249_400, 211_600, 116, HANDBOOK),
    inch("7", 62_400, 327_000, 275_000, 160, HANDBOOK),
];

static METRIC: [Row; 7] = [
    metric("4", 4),
    metric("6", 6),
    metric("80", 80),
    metric("100", 100),
    metric("120", 120),
    metric("160", 160),
    metric("200", 200),
];

static STEEP: [Row; 16] = [
    steep("5", 4, MEMORY),
    steep("10", 5, NOSES),
    steep("15", 6, MEMORY),
    steep("20", 7, NOSES),
    steep("25", 8, MEMORY),
    steep("30", 10, NOSES),
    steep("35", 12, MEMORY),
    steep("40", 14, NOSES),
    steep("45", 18, MEMORY),
    steep("50", 22, NOSES),
    steep("55", 28, MEMORY),
    steep("60", 34, NOSES),
    steep("65", 42, MEMORY),
    steep("70", 52, MEMORY),
    steep("75", 64, MEMORY),
    steep("80", 80, MEMORY),
];

#[rustfmt::skip]
static JARNO: [Row; 19] = [
    jarno("2", 2), jarno("3", 3), jarno("4", 4), jarno("5", 5), jarno("6", 6), jarno("7", 7), jarno("8", 8),
    jarno("9", 9), jarno("10", 10), jarno("11", 11), jarno("12", 12), jarno("13", 13), jarno("14", 14),
    jarno("15", 15), jarno("16", 16), jarno("17", 17), jarno("18", 18), jarno("19", 19), jarno("20", 20),
];

static BROWN_SHARPE: [Row; 16] = [
    inch("1", 50_200, 23_922, 20_000, 15, SHARPE),
    inch("2", 50_200, 29_968, 25_000, 19, SHARPE),
    inch("3", 50_200, 37_525, 31_250, 24, SHARPE),
    inch("4", 50_240, 40_233, 35_000, 20, SHARPE),
    inch("5", 50_160, 52_315, 45_000, 28, SHARPE),
    inch("6", 50_329, 59_961, 50_000, 38, SHARPE),
    inch("7", 50_147, 72_537, 60_000, 48, SHARPE),
    inch("8", 50_100, 89_873, 75_000, 57, SHARPE),
    inch("9", 50_085, 106_705, 90_010, 64, SHARPE),
    inch("10", 51_612, 128_927, 104_465, 91, SHARPE),
    inch("11", 50_100, 153_176, 124_995, 108, SHARPE),
    inch("12", 49_973, 179_681, 150_010, 114, SHARPE),
    inch("13", 50_020, 207_310, 175_005, 124, SHARPE),
    inch("14", 50_000, 234_375, 200_000, 132, SHARPE),
    inch("15", 50_000, 261_458, 225_000, 140, SHARPE),
    inch("16", 50_000, 288_542, 250_000, 148, SHARPE),
];

/// In the order of [`TaperFamily`].
pub(super) static FAMILIES: [Family; 5] = [
    Family {
        family: TaperFamily::Morse,
        name: "Morse",
        aliases: &["morse", "mt", "mk"],
        standard: "Morse tapers; 0 to 6 are those of ISO 296",
        rows: &MORSE,
    },
    Family {
        family: TaperFamily::Metric,
        name: "metric",
        aliases: &["metric", "me"],
        standard: "ISO 296:1991",
        rows: &METRIC,
    },
    Family {
        family: TaperFamily::Steep,
        name: "7:24 No.",
        aliases: &["7:24", "7/24", "iso", "sk", "bt"],
        standard: "ASME B5.10, ISO 297 and ISO 7388",
        rows: &STEEP,
    },
    Family {
        family: TaperFamily::Jarno,
        name: "Jarno",
        aliases: &["jarno"],
        standard: "Jarno tapers",
        rows: &JARNO,
    },
    Family {
        family: TaperFamily::BrownSharpe,
        name: "Brown & Sharpe",
        aliases: &["brown & sharpe", "brown and sharpe", "b&s", "bs"],
        standard: "Brown & Sharpe tapers; 1 to 3 are those of ISO 296",
        rows: &BROWN_SHARPE,
    },
];
