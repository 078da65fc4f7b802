//! Agreement of appraisers who judge parts by attributes: good or bad, or one of several kinds.
use super::error::GaugeStudyError;
use super::readings::check_confidence;
use crate::error::plural;
use crate::statistics::{normal_cdf, normal_quantile};
use std::fmt;
use tenths_macros::Object;

/// Each pair of categories is counted.
const MAX_CATEGORIES: usize = 200;

/// How far ratings agree beyond what chance would do: 1 is full agreement, 0 no more than chance.
#[derive(Clone, PartialEq, Debug, Object)]
pub struct Kappa {
    /// The appraiser, from 1; absent for all appraisers together.
    pub appraiser: Option<usize>,
    /// The other appraiser of a pair, from 1.
    pub other: Option<usize>,
    /// Kappa; NaN where chance alone would agree fully, and for one rating of each part.
    pub kappa: f64,
    /// The standard error of kappa.
    pub standard_error: f64,
    /// The standard error that kappa would have without agreement.
    pub null_error: f64,
    /// Kappa over its error without agreement.
    pub z: f64,
    /// The two-sided p value: how likely a kappa this far from zero is without agreement.
    pub p: f64,
    /// The confidence interval of kappa, from and to.
    pub interval: Vec<f64>,
    /// The share of pairs of ratings that agree.
    pub agreement: f64,
    /// The share that would agree by chance.
    pub by_chance: f64,
}

/// How one appraiser did.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct AppraiserScore {
    /// The appraiser, from 1.
    pub appraiser: usize,
    /// Percent of parts that the appraiser rated the same in every trial.
    pub percent_repeated: f64,
    /// Percent of parts that the appraiser rated in every trial as the reference does, where there is one.
    pub percent_correct: Option<f64>,
}

/// A study of ratings by attributes.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct AttributeAgreement {
    /// How many parts.
    pub parts: usize,
    /// How many appraisers.
    pub appraisers: usize,
    /// How many trials.
    pub trials: usize,
    /// How many different ratings occur.
    pub categories: usize,
    /// All ratings of all appraisers: kappa of Fleiss.
    pub all: Kappa,
    /// Each appraiser's trials among themselves: kappa of Fleiss; empty for one trial.
    pub within: Vec<Kappa>,
    /// Each pair of appraisers, trial by trial: kappa of Cohen.
    pub pairs: Vec<Kappa>,
    /// Each appraiser and the reference, trial by trial: kappa of Cohen; empty without a reference.
    pub with_reference: Vec<Kappa>,
    /// How each appraiser did.
    pub scores: Vec<AppraiserScore>,
}

/// A study of ratings, appraiser by appraiser within each part, trial by trial within each appraiser. Ratings are numbers
/// of categories from 0; `reference` has the true one of each part, or is empty.
///
/// Source: J. Cohen, Educational and Psychological Measurement 20 (1960) 37, with the errors of J. L. Fleiss, J. Cohen and
/// B. S. Everitt, Psychological Bulletin 72 (1969) 323; J. L. Fleiss, Psychological Bulletin 76 (1971) 378, with the error
/// without agreement of J. L. Fleiss, J. C. M. Nee and J. R. Landis, ibid. 86 (1979) 974, and otherwise the jackknife.
///
/// # Errors
/// [`GaugeStudyError`].
pub fn attribute_agreement(
    ratings: &[usize],
    [parts, appraisers, trials]: [usize; 3],
    reference: &[usize],
    confidence: f64,
) -> Result<AttributeAgreement, GaugeStudyError> {
    check(ratings, [parts, appraisers, trials], reference, confidence)?;
    let mut known: Vec<_> = ratings.iter().chain(reference).copied().collect();
    known.sort_unstable();
    known.dedup();
    let place = |rating: &usize| known.binary_search(rating).unwrap_or_default();
    let categories = known.len();
    if categories > MAX_CATEGORIES {
        return Err(GaugeStudyError::Categories { most: MAX_CATEGORIES, got: categories });
    }
    let ratings = ratings.iter().map(place).collect();
    let reference: Vec<_> = reference.iter().map(place).collect();
    let study = Ratings { ratings, parts, appraisers, trials, categories, confidence };
    Ok(AttributeAgreement {
        parts,
        appraisers,
        trials,
        categories,
        all: study.fleiss(0, appraisers * trials),
        within: study.within(),
        pairs: study.pairs(),
        with_reference: study.with_reference(&reference),
        scores: (0..appraisers).map(|appraiser| study.score(appraiser, &reference)).collect(),
    })
}

/// The ratings of a study as numbers of categories, from 0 without gaps.
struct Ratings {
    ratings: Vec<usize>,
    parts: usize,
    appraisers: usize,
    trials: usize,
    categories: usize,
    confidence: f64,
}

impl Ratings {
    /// What an appraiser said of a part in each trial.
    fn cell(&self, part: usize, appraiser: usize) -> &[usize] {
        &self.ratings[(part * self.appraisers + appraiser) * self.trials..][..self.trials]
    }

    /// All ratings of an appraiser, part by part.
    fn of(&self, appraiser: usize) -> impl Iterator<Item = usize> {
        (0..self.parts).flat_map(move |part| self.cell(part, appraiser)).copied()
    }

    /// Kappa of Fleiss of `width` ratings of each part, from the place `start` on.
    fn fleiss(&self, start: usize, width: usize) -> Kappa {
        let each = self.appraisers * self.trials;
        let rows: Vec<_> = self.ratings.chunks_exact(each).map(|part| &part[start..][..width]).collect();
        fleiss(&rows, self.categories, self.confidence)
    }

    fn within(&self) -> Vec<Kappa> {
        let own = |appraiser: usize| Kappa {
            appraiser: Some(appraiser + 1),
            ..self.fleiss(appraiser * self.trials, self.trials)
        };
        if self.trials == 1 { vec![] } else { (0..self.appraisers).map(own).collect() }
    }

    fn pairs(&self) -> Vec<Kappa> {
        let pair = |one: usize, other: usize| Kappa {
            appraiser: Some(one + 1),
            other: Some(other + 1),
            ..cohen(self.of(one).zip(self.of(other)), self.categories, self.confidence)
        };
        let mut pairs = vec![];
        for one in 0..self.appraisers {
            pairs.extend((one + 1..self.appraisers).map(|other| pair(one, other)));
        }
        pairs
    }

    fn with_reference(&self, reference: &[usize]) -> Vec<Kappa> {
        let truth = || reference.iter().flat_map(|rating| std::iter::repeat_n(*rating, self.trials));
        let against = |appraiser: usize| Kappa {
            appraiser: Some(appraiser + 1),
            ..cohen(self.of(appraiser).zip(truth()), self.categories, self.confidence)
        };
        if reference.is_empty() { vec![] } else { (0..self.appraisers).map(against).collect() }
    }

    fn score(&self, appraiser: usize, reference: &[usize]) -> AppraiserScore {
        let percent = |good: &dyn Fn(usize, &[usize]) -> bool| {
            let count = (0..self.parts).filter(|&part| good(part, self.cell(part, appraiser))).count();
            100.0 * count as f64 / self.parts as f64
        };
        let correct = |part: usize, cell: &[usize]| cell.iter().all(|rating| *rating == reference[part]);
        AppraiserScore {
            appraiser: appraiser + 1,
            percent_repeated: percent(&|_, cell| cell.iter().all(|rating| *rating == cell[0])),
            percent_correct: (!reference.is_empty()).then(|| percent(&correct)),
        }
    }
}

fn check(
    ratings: &[usize],
    [parts, appraisers, trials]: [usize; 3],
    reference: &[usize],
    confidence: f64,
) -> Result<(), GaugeStudyError> {
    check_confidence(confidence)?;
    for (what, got, least) in [("parts", parts, 2), ("appraisers", appraisers, 1), ("trials", trials, 1)] {
        if got < least {
            return Err(GaugeStudyError::TooFew { what, least, got });
        }
    }
    let each = appraisers.saturating_mul(trials);
    if each < 2 && reference.is_empty() {
        return Err(GaugeStudyError::TooFew { what: "ratings of each part", least: 2, got: each });
    }
    let expected = parts.saturating_mul(each);
    if ratings.len() != expected {
        return Err(GaugeStudyError::Count { expected, got: ratings.len() });
    }
    if !reference.is_empty() && reference.len() != parts {
        return Err(GaugeStudyError::References { parts, got: reference.len() });
    }
    Ok(())
}

/// Kappa of these shares, with its errors.
fn kappa(agreement: f64, by_chance: f64, errors: impl Fn(f64) -> [f64; 2], confidence: f64) -> Kappa {
    let kappa = (agreement - by_chance) / (1.0 - by_chance);
    let [standard_error, null_error] = errors(kappa);
    let z = kappa / null_error;
    let half = -normal_quantile(0.5 * (1.0 - confidence)) * standard_error;
    Kappa {
        appraiser: None,
        other: None,
        kappa,
        standard_error,
        null_error,
        z,
        p: 2.0 * normal_cdf(-z.abs()),
        // No kappa is beyond full agreement, either way.
        interval: [kappa - half, kappa + half].map(|end| end.clamp(-1.0, 1.0)).to_vec(),
        agreement,
        by_chance,
    }
}

/// Kappa of two who rate the same.
fn cohen(pairs: impl Iterator<Item = (usize, usize)>, categories: usize, confidence: f64) -> Kappa {
    let mut shares = vec![0.0; categories * categories];
    let mut count = 0.0;
    for (one, other) in pairs {
        shares[one * categories + other] += 1.0;
        count += 1.0;
    }
    shares.iter_mut().for_each(|share| *share /= count);
    let share = |one: usize, other: usize| shares[one * categories + other];
    let of = |sum: &dyn Fn(usize) -> f64| (0..categories).map(sum).collect::<Vec<_>>();
    let first = of(&|k| (0..categories).map(|other| share(k, other)).sum());
    let second = of(&|k| (0..categories).map(|other| share(other, k)).sum());
    let total = |sum: &dyn Fn(usize) -> f64| (0..categories).map(sum).sum::<f64>();
    let (agreement, by_chance) = (total(&|k| share(k, k)), total(&|k| first[k] * second[k]));
    let square = |x: f64| x * x;
    let errors = |kappa: f64| {
        let scale = square(1.0 - by_chance) * count;
        let same = total(&|k| share(k, k) * square(1.0 - (first[k] + second[k]) * (1.0 - kappa)));
        let others = total(&|one| {
            let term = |other: usize| share(one, other) * square(second[one] + first[other]);
            (0..categories).filter(|other| *other != one).map(term).sum()
        });
        let off = square(kappa - by_chance * (1.0 - kappa));
        let variance = same + square(1.0 - kappa) * others - off;
        let null = by_chance + square(by_chance) - total(&|k| first[k] * second[k] * (first[k] + second[k]));
        [variance, null].map(|variance| (variance.max(0.0) / scale).sqrt())
    };
    kappa(agreement, by_chance, errors, confidence)
}

/// Kappa of several who rate the same parts, a row for each part.
fn fleiss(rows: &[&[usize]], categories: usize, confidence: f64) -> Kappa {
    let raters = rows.first().map_or(0.0, |row| row.len() as f64);
    let parts = rows.len() as f64;
    let counts: Vec<Vec<f64>> = rows.iter().map(|row| counts(row, categories)).collect();
    let sums: Vec<f64> = (0..categories).map(|k| counts.iter().map(|row| row[k]).sum()).collect();
    let agreed = |row: &[f64]| row.iter().map(|n| n * (n - 1.0)).sum::<f64>() / (raters * (raters - 1.0));
    let total: f64 = counts.iter().map(|row| agreed(row)).sum();
    // What parts and sums of ratings come to, for all parts and for all but one.
    let shares = |total: f64, sums: &[f64], parts: f64| {
        let chance = sums.iter().map(|sum| sum / (parts * raters)).map(|share| share * share).sum::<f64>();
        (total / parts, chance)
    };
    let (agreement, by_chance) = shares(total, &sums, parts);
    let errors = |_| {
        let without = counts.iter().map(|row| {
            let rest: Vec<_> = sums.iter().zip(row).map(|(sum, own)| sum - own).collect();
            let (agreement, chance) = shares(total - agreed(row), &rest, parts - 1.0);
            (agreement - chance) / (1.0 - chance)
        });
        let without: Vec<_> = without.collect();
        let mean = without.iter().sum::<f64>() / parts;
        let spread: f64 = without.iter().map(|kappa| (kappa - mean) * (kappa - mean)).sum();
        let shares = sums.iter().map(|sum| sum / (parts * raters));
        let [products, skew] = shares.fold([0.0; 2], |[products, skew], share| {
            let product = share * (1.0 - share);
            [products + product, skew + product * (1.0 - 2.0 * share)]
        });
        let null =
            2.0 / (parts * raters * (raters - 1.0)) * (products * products - skew) / (products * products);
        [((parts - 1.0) / parts * spread).sqrt(), null.max(0.0).sqrt()]
    };
    kappa(agreement, by_chance, errors, confidence)
}

fn counts(row: &[usize], categories: usize) -> Vec<f64> {
    let mut counts = vec![0.0; categories];
    for &rating in row {
        counts[rating] += 1.0;
    }
    counts
}

impl fmt::Display for AttributeAgreement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "agreement of {} on {} parts: kappa {:.3}",
            plural(self.appraisers as u64, "appraiser"),
            self.parts,
            self.all.kappa
        )
    }
}
