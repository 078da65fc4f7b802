//! The analysis of variance of a gauge study, crossed or nested.
use super::intervals::{Square, interval};
use super::options::{StudyMethod, StudyOptions};
use super::readings::StudyData;
use super::result::{GaugeStudy, VarianceRow, VarianceSource};
use super::sums::SquareSums;
use crate::statistics::f_above;

/// Degrees of freedom, and what the mean squares expect of each component.
#[derive(Clone, Copy, Debug)]
pub(super) struct Design {
    parts: f64,
    appraisers: f64,
    trials: f64,
    nested: bool,
    /// Whether there is a line of the interaction.
    pub interacts: bool,
    /// Whether there is a line of the appraisers.
    pub appraises: bool,
    /// Of parts, appraisers, interaction and repeatability.
    pub df: [f64; 4],
}

/// Mean squares, ratios and variances of one study.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figures {
    /// Sums of squares of parts, appraisers, interaction and repeatability.
    pub ss: [f64; 4],
    /// Their mean squares; NaN where there is no such line.
    pub ms: [f64; 4],
    /// The ratios of the first three; NaN where there is no such line.
    pub f: [f64; 3],
    /// Repeatability, appraiser, interaction, reproducibility, gauge, part, total.
    pub variances: [f64; 7],
}

impl Design {
    pub fn of(data: &StudyData<'_>, options: &StudyOptions) -> Design {
        let [parts, appraisers, trials] =
            [data.parts, data.appraisers, data.trials].map(|count| count as f64);
        let nested = options.method == StudyMethod::Nested;
        let appraises = data.appraisers > 1;
        let interacts = appraises && !nested && !options.pool_interaction;
        let df = if nested {
            [appraisers * (parts - 1.0), appraisers - 1.0, 0.0, parts * appraisers * (trials - 1.0)]
        } else {
            let interaction = (parts - 1.0) * (appraisers - 1.0);
            let within = parts * appraisers * (trials - 1.0);
            let pooled = if interacts { [interaction, within] } else { [0.0, interaction + within] };
            [parts - 1.0, appraisers - 1.0, pooled[0], pooled[1]]
        };
        Design { parts, appraisers, trials, nested, interacts, appraises, df }
    }

    /// What each line is tested against, by its place: the interaction where there is one; of a nested study the
    /// appraisers against the parts.
    pub fn tested_against(&self) -> [usize; 3] {
        match (self.nested, self.interacts) {
            (true, _) => [3, 0, 3],
            (false, true) => [2, 2, 3],
            (false, false) => [3, 3, 3],
        }
    }

    #[inline(always)]
    pub fn figures(&self, [part, appraiser, interaction, repeatability]: [f64; 4]) -> Figures {
        // The interaction counts as repeatability where it has no line.
        let ss = match self.interacts {
            true => [part, appraiser, interaction, repeatability],
            false => [part, appraiser, 0.0, interaction + repeatability],
        };
        let ms = [0, 1, 2, 3].map(|k| ss[k] / self.df[k]);
        let against = self.tested_against();
        let f = [0, 1, 2].map(|k| ms[k] / ms[against[k]]);
        let (p, a, r) = (self.parts, self.appraisers, self.trials);
        let positive = |variance: f64| if variance > 0.0 { variance } else { 0.0 };
        let [of_part, of_appraiser, of_interaction] = if self.nested {
            [positive((ms[0] - ms[3]) / r), positive((ms[1] - ms[0]) / (p * r)), 0.0]
        } else if self.interacts {
            let [part, appraiser] = [(ms[0] - ms[2]) / (a * r), (ms[1] - ms[2]) / (p * r)];
            [positive(part), positive(appraiser), positive((ms[2] - ms[3]) / r)]
        } else {
            [positive((ms[0] - ms[3]) / (a * r)), positive((ms[1] - ms[3]) / (p * r)), 0.0]
        };
        let reproducibility = of_appraiser + of_interaction;
        let gauge = ms[3] + reproducibility;
        let variances =
            [ms[3], of_appraiser, of_interaction, reproducibility, gauge, of_part, gauge + of_part];
        Figures { ss, ms, f, variances }
    }

    /// Each component as a sum of mean squares, by the shares of parts, appraisers, interaction and repeatability.
    fn shares(&self) -> [[f64; 4]; 7] {
        let (p, a, r) = (self.parts, self.appraisers, self.trials);
        let (part, appraiser, interaction) = match (self.nested, self.interacts) {
            (true, _) => {
                ([1.0, 0.0, 0.0, -1.0].map(|x| x / r), [-1.0, 1.0, 0.0, 0.0].map(|x| x / (p * r)), [0.0; 4])
            }
            (false, true) => (
                [1.0, 0.0, -1.0, 0.0].map(|x| x / (a * r)),
                [0.0, 1.0, -1.0, 0.0].map(|x| x / (p * r)),
                [0.0, 0.0, 1.0, -1.0].map(|x| x / r),
            ),
            (false, false) => (
                [1.0, 0.0, 0.0, -1.0].map(|x| x / (a * r)),
                [0.0, 1.0, 0.0, -1.0].map(|x| x / (p * r)),
                [0.0; 4],
            ),
        };
        let appraiser = if self.appraises { appraiser } else { [0.0; 4] };
        let plus = |one: [f64; 4], other: [f64; 4]| [0, 1, 2, 3].map(|k| one[k] + other[k]);
        let repeatability = [0.0, 0.0, 0.0, 1.0];
        let reproducibility = plus(appraiser, interaction);
        let gauge = plus(repeatability, reproducibility);
        [repeatability, appraiser, interaction, reproducibility, gauge, part, plus(gauge, part)]
    }
}

/// The study of these sums of squares.
pub(super) fn study(data: &StudyData<'_>, sums: &SquareSums<1>, options: &StudyOptions) -> GaugeStudy {
    let design = Design::of(data, options);
    let figures =
        design.figures([sums.part[0], sums.appraiser[0], sums.interaction[0], sums.repeatability[0]]);
    let shares = design.shares();
    let components = std::array::from_fn(|k| {
        let squares: Vec<_> = (0..4)
            .filter(|&line| shares[k][line] != 0.0)
            .map(|line| Square { share: shares[k][line], ms: figures.ms[line], df: design.df[line] })
            .collect();
        (figures.variances[k], interval(&squares, options.confidence))
    });
    GaugeStudy::of(data, options, sums.mean[0], table(&design, &figures), components)
}

fn table(design: &Design, figures: &Figures) -> Vec<VarianceRow> {
    use VarianceSource::*;
    let against = design.tested_against();
    let lines =
        [(Part, true), (Appraiser, design.appraises), (Interaction, design.interacts), (Repeatability, true)];
    let mut table = vec![];
    for (k, (source, there)) in lines.into_iter().enumerate() {
        if there {
            let f = figures.f.get(k).copied();
            let p = f.map(|f| f_above(f, design.df[k], design.df[against[k]]));
            table.push(VarianceRow { source, df: design.df[k], ss: figures.ss[k], ms: figures.ms[k], f, p });
        }
    }
    let [df, ss] = [design.df, figures.ss].map(|lines| lines.iter().sum::<f64>());
    table.push(VarianceRow { source: Total, df, ss, ms: ss / df, f: None, p: None });
    table
}
