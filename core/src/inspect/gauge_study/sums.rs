//! The sums of squares of gauge studies, several at a time.
use super::readings::StudyData;

/// Sums of squares of the readings of `N` studies of one layout about their means.
#[derive(Clone, Copy, Debug)]
pub(super) struct SquareSums<const N: usize> {
    /// The mean of all readings.
    pub mean: [f64; N],
    /// Of the means of parts; of a nested study about the means of their appraisers.
    pub part: [f64; N],
    /// Of the means of appraisers.
    pub appraiser: [f64; N],
    /// Of what is left of the means of cells; zero in a nested study.
    pub interaction: [f64; N],
    /// Of the readings about the means of their cells.
    pub repeatability: [f64; N],
}

/// Room for the means of parts, appraisers and cells.
pub(super) struct Means<const N: usize> {
    cells: Vec<[f64; N]>,
    parts: Vec<[f64; N]>,
    appraisers: Vec<[f64; N]>,
}

/// The sums of squares of a study whose layout was checked.
pub(super) fn of_one(data: &StudyData<'_>, nested: bool) -> SquareSums<1> {
    Means::of(data).sums(data.readings.as_chunks().0, nested)
}

/// Adds to each lane what a function makes of the other lanes: all terms first, which lets the compiler keep them in one
/// register.
#[inline(always)]
fn add<const N: usize>(to: &mut [f64; N], term: impl Fn(usize) -> f64) {
    let terms: [f64; N] = std::array::from_fn(term);
    *to = std::array::from_fn(|lane| to[lane] + terms[lane]);
}

impl<const N: usize> Means<N> {
    pub fn of(data: &StudyData<'_>) -> Self {
        Means {
            cells: vec![[0.0; N]; data.parts * data.appraisers],
            parts: vec![[0.0; N]; data.parts],
            appraisers: vec![[0.0; N]; data.appraisers],
        }
    }

    /// The sums of squares of `N` studies, whose readings lie side by side.
    ///
    /// All means are kept less the first reading, so that large readings keep the digits in which they differ.
    #[inline(always)]
    pub fn sums(&mut self, readings: &[[f64; N]], nested: bool) -> SquareSums<N> {
        let Means { cells, parts, appraisers } = self;
        let count = [parts.len(), appraisers.len(), readings.len() / cells.len()];
        let [part_share, appraiser_share, trial_share] = count.map(|count| 1.0 / count as f64);
        let first = readings[0];
        let (mut mean, zero) = ([0.0; N], [0.0; N]);
        appraisers.fill(zero);
        for ((row, part), readings) in cells
            .chunks_exact_mut(count[1])
            .zip(parts.iter_mut())
            .zip(readings.chunks_exact(count[1] * count[2]))
        {
            *part = zero;
            for ((cell, appraiser), trials) in
                row.iter_mut().zip(appraisers.iter_mut()).zip(readings.chunks_exact(count[2]))
            {
                *cell = zero;
                for reading in trials {
                    add(cell, |k| reading[k] - first[k]);
                }
                for lane in cell.iter_mut() {
                    *lane *= trial_share;
                }
                add(part, |k| cell[k] * appraiser_share);
                add(appraiser, |k| cell[k] * part_share);
            }
            add(&mut mean, |k| part[k] * part_share);
        }
        let mut sums =
            SquareSums { mean: zero, part: zero, appraiser: zero, interaction: zero, repeatability: zero };
        let square = |x: f64| x * x;
        for appraiser in appraisers.iter() {
            add(&mut sums.appraiser, |k| square(appraiser[k] - mean[k]));
        }
        for ((row, part), readings) in
            cells.chunks_exact(count[1]).zip(parts.iter()).zip(readings.chunks_exact(count[1] * count[2]))
        {
            add(&mut sums.part, |k| square(part[k] - mean[k]));
            for ((cell, appraiser), trials) in
                row.iter().zip(appraisers.iter()).zip(readings.chunks_exact(count[2]))
            {
                match nested {
                    true => add(&mut sums.interaction, |k| square(cell[k] - appraiser[k])),
                    false => {
                        add(&mut sums.interaction, |k| {
                            square((cell[k] - part[k]) - (appraiser[k] - mean[k]))
                        });
                    }
                }
                for reading in trials {
                    add(&mut sums.repeatability, |k| square((reading[k] - first[k]) - cell[k]));
                }
            }
        }
        let [parts, appraisers, trials] = count.map(|count| count as f64);
        for k in 0..N {
            sums.mean[k] = first[k] + mean[k];
            sums.part[k] *= appraisers * trials;
            sums.appraiser[k] *= parts * trials;
            sums.interaction[k] *= trials;
            if nested {
                (sums.part[k], sums.interaction[k]) = (sums.interaction[k], 0.0);
            }
        }
        sums
    }
}
