//! Sampling plans by attributes: of a standard, or of sample sizes and numbers of one's own.
use super::error::SamplingError;
use super::kinds::{InspectionLevel, InspectionSeverity, LotModel, LotVerdict, PlanKind};
use super::performance::{Lots, PlanPerformance};
use super::stage::{MAX_LOT, MAX_STAGES, SamplingStage, check};
use super::table::{self, AQLS, LETTERS};
use crate::error::plural;
use crate::object::{Restored, Told};
use std::borrow::Cow;
use std::fmt;
use tenths_macros::{Object, accessors};

/// The standard whose plans are here, with those that share its tables.
pub(super) const STANDARD: &str = "ISO 2859-1";

/// What a plan of one's own samples is called in place of a standard.
const OWN_NUMBERS: &str = "own numbers";

/// Where the plans of the master tables come from.
const SOURCE: &str = "MIL-STD-105E (1989), table II, seen in reprints; ISO 2859-1 and ANSI/ASQ Z1.4 share it";

/// A plan by which a sample decides on a lot.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary)]
pub struct SamplingPlan {
    /// The standard, or what kind of plan this is.
    pub standard: Cow<'static, str>,
    /// Pieces of the lot.
    pub lot: Option<u64>,
    /// The acceptance quality limit (AQL), in percent; above 10, nonconformities per hundred pieces.
    pub aql: Option<f64>,
    /// The inspection level.
    pub level: Option<InspectionLevel>,
    /// How strict the inspection is.
    pub severity: InspectionSeverity,
    /// Single, double or multiple.
    pub kind: PlanKind,
    /// The code letter of the lot and the level.
    pub code_letter: Option<Cow<'static, str>>,
    /// The code letter whose plan is used, behind the arrows of the table.
    pub plan_letter: Option<Cow<'static, str>>,
    /// Pieces of the first sample; of a single plan, of the sample.
    pub sample_size: u64,
    /// The acceptance number of the first sample; absent where it accepts no lot.
    pub accept: Option<u32>,
    /// The rejection number of the first sample.
    pub reject: u32,
    /// Every sample in order.
    pub stages: Vec<SamplingStage>,
    /// Where the numbers come from.
    pub source: Cow<'static, str>,
}

/// A plan of a standard that is asked for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PlanRequest<'a> {
    /// Pieces of the lot.
    pub lot: u64,
    /// The acceptance quality limit, in percent; above 10, nonconformities per hundred pieces.
    pub aql: f64,
    /// The inspection level.
    pub level: InspectionLevel,
    /// How strict the inspection is.
    pub severity: InspectionSeverity,
    /// Single, double or multiple.
    pub kind: PlanKind,
    /// `ISO 2859-1`, `ANSI/ASQ Z1.4` or `MIL-STD-105E`, which share their tables.
    pub standard: &'a str,
}

impl PlanRequest<'_> {
    /// A single plan of ISO 2859-1 at level II, for normal inspection.
    pub fn new(lot: u64, aql: f64) -> PlanRequest<'static> {
        PlanRequest {
            lot,
            aql,
            level: InspectionLevel::II,
            severity: InspectionSeverity::Normal,
            kind: PlanKind::Single,
            standard: STANDARD,
        }
    }
}

impl SamplingPlan {
    /// The plan of a standard: code letter by lot and level, then the master table with its arrows. Where the sample is
    /// as large as the lot or larger, every piece of the lot is inspected.
    ///
    /// ```
    /// use tenths::inspect::sampling::{PlanRequest, SamplingPlan};
    /// let plan = SamplingPlan::of_standard(&PlanRequest::new(1000, 1.0))?;
    /// assert_eq!((plan.sample_size, plan.accept, plan.reject), (80, Some(2), 3));
    /// # Ok::<(), tenths::inspect::sampling::SamplingError>(())
    /// ```
    ///
    /// # Errors
    /// [`SamplingError`] for a lot, an AQL or a standard that is not in the tables, and [`SamplingError::NotSeen`] for a
    /// plan whose table was not seen in print.
    pub fn of_standard(asked: &PlanRequest<'_>) -> Result<SamplingPlan, SamplingError> {
        let standard = standard(asked.standard)?;
        if !(2..=MAX_LOT).contains(&asked.lot) {
            return Err(SamplingError::Lot { lot: asked.lot, least: 2 });
        }
        let aql = AQLS.iter().position(|known| *known == asked.aql);
        let aql = aql.ok_or(SamplingError::Aql { aql: asked.aql })?;
        let letter = table::code_letter(asked.lot, asked.level);
        let cell = match asked.kind {
            PlanKind::Single => table::single(letter, aql, asked.severity),
            _ => None,
        };
        let name = |letter: usize| LETTERS.get(letter).map_or("", |(name, _)| name);
        let Some(cell) = cell else {
            return Err(SamplingError::NotSeen {
                standard,
                severity: asked.severity,
                kind: asked.kind,
                letter: name(letter),
                aql: asked.aql,
            });
        };
        let size = LETTERS.get(cell.letter).map_or(0, |(_, size)| *size).min(asked.lot);
        let stage = SamplingStage { sample_size: size, accept: Some(cell.accept), reject: cell.accept + 1 };
        Ok(SamplingPlan {
            aql: Some(asked.aql),
            level: Some(asked.level),
            code_letter: Some(name(letter).into()),
            plan_letter: Some(name(cell.letter).into()),
            source: SOURCE.into(),
            ..SamplingPlan::plain(standard, vec![stage], Some(asked.lot), asked.severity)
        })
    }

    /// A plan of one's own samples, one or more, such as one from a copy of a standard.
    ///
    /// Acceptance and rejection numbers count the nonconforming pieces of all samples so far. The last sample decides:
    /// where its rejection number is more than one above its acceptance number, as in tables for reduced inspection, a
    /// lot between them is accepted, and inspection goes back to normal.
    ///
    /// # Errors
    /// [`SamplingError`] for sizes and numbers that decide nothing, or more than the lot has.
    pub fn of_stages(
        stages: &[SamplingStage],
        lot: Option<u64>,
        severity: InspectionSeverity,
    ) -> Result<SamplingPlan, SamplingError> {
        check(stages, lot)?;
        Ok(SamplingPlan::plain(OWN_NUMBERS, stages.to_vec(), lot, severity))
    }

    /// A plan without the marks of a standard.
    pub(super) fn plain(
        standard: &'static str,
        stages: Vec<SamplingStage>,
        lot: Option<u64>,
        severity: InspectionSeverity,
    ) -> SamplingPlan {
        let first =
            stages.first().copied().unwrap_or(SamplingStage { sample_size: 0, accept: None, reject: 0 });
        SamplingPlan {
            standard: standard.into(),
            lot,
            aql: None,
            level: None,
            severity,
            kind: match stages.len() {
                0 | 1 => PlanKind::Single,
                2 => PlanKind::Double,
                _ => PlanKind::Multiple,
            },
            code_letter: None,
            plan_letter: None,
            sample_size: first.sample_size,
            accept: first.accept,
            reject: first.reject,
            stages,
            source: "the caller".into(),
        }
    }

    /// As [`SamplingPlan::of_stages`], of samples as text: pieces, acceptance and rejection number, `80/2/3`, with commas
    /// between samples, and `-` where a sample accepts no lot: `20/-/5, 20/3/8, 20/7/8`.
    ///
    /// # Errors
    /// As [`SamplingPlan::of_stages`], and for text of another form.
    pub fn parse(
        text: &str,
        lot: Option<u64>,
        severity: InspectionSeverity,
    ) -> Result<SamplingPlan, SamplingError> {
        let unclear = || SamplingError::Unknown {
            what: "a list of samples",
            text: crate::error::excerpt(text),
            expected: "pieces, acceptance and rejection number, e.g. 80/2/3, with commas between samples"
                .into(),
        };
        let stage = |text: &str| {
            let mut words = text.split('/').map(str::trim);
            let (size, accept, reject) = (words.next()?, words.next()?, words.next()?);
            let accept = if accept == "-" { None } else { Some(accept.parse().ok()?) };
            let stage =
                SamplingStage { sample_size: size.parse().ok()?, accept, reject: reject.parse().ok()? };
            words.next().is_none().then_some(stage)
        };
        let stages: Option<Vec<_>> = text.split(',').take(MAX_STAGES + 1).map(stage).collect();
        SamplingPlan::of_stages(&stages.ok_or_else(unclear)?, lot, severity)
    }

    /// Whether the plan was taken from the tables of a standard, and not made for an AQL or of one's own numbers.
    fn is_of_standard(&self) -> bool {
        self.code_letter.is_some()
    }

    /// Whether it was made for one severity: other plans are the same under each.
    pub(super) fn has_severity(&self) -> bool {
        self.is_of_standard() || self.standard == OWN_NUMBERS
    }

    /// Whether it counts nonconformities, of which a piece may have several: in a standard above an AQL of 10.
    fn counts_nonconformities(&self) -> bool {
        self.is_of_standard() && self.aql.is_some_and(|aql| aql > 10.0)
    }

    fn lots(&self) -> Lots<'_> {
        Lots { stages: &self.stages, lot: self.lot }
    }

    /// The share of lots of a fraction `p` nonconforming that the plan accepts. `p` is a fraction: 0.01 is 1 percent.
    ///
    /// # Errors
    /// [`SamplingError::Fraction`] for a fraction out of range; with [`LotModel::Hypergeometric`] where the lot is not known, or
    /// has no such fraction.
    pub fn acceptance_probability(&self, p: f64, model: LotModel) -> Result<f64, SamplingError> {
        self.performance(p, model).map(|performance| performance.acceptance_probability)
    }

    /// What the plan does to lots of a fraction `p` nonconforming.
    ///
    /// # Errors
    /// As [`SamplingPlan::acceptance_probability`].
    pub fn performance(&self, p: f64, model: LotModel) -> Result<PlanPerformance, SamplingError> {
        self.lots().at(p, model)
    }

    /// What the plan does to lots of the fraction at which most nonconforming pieces go out: its average outgoing quality
    /// is the limit (AOQL).
    ///
    /// # Errors
    /// With [`LotModel::Hypergeometric`], where the lot is not known or larger than 20 000 pieces.
    pub fn worst_outgoing(&self, model: LotModel) -> Result<PlanPerformance, SamplingError> {
        self.lots().worst(model)
    }

    /// What the nonconforming pieces found in the samples so far decide: `found[k]` in sample k. Fewer samples than the
    /// plan has are enough where they decide.
    ///
    /// # Errors
    /// [`SamplingError::Found`] for more pieces than a sample has, and for samples after the one that decided.
    pub fn judge(&self, found: &[u64]) -> Result<LotVerdict, SamplingError> {
        let (mut sum, mut verdict) = (0_u64, LotVerdict::NextSample);
        if found.len() > self.stages.len() {
            return Err(SamplingError::Found {
                reason: format!(
                    "the plan has {}, not {}",
                    plural(self.stages.len() as u64, "sample"),
                    found.len()
                ),
            });
        }
        for (number, (stage, found)) in self.stages.iter().zip(found).enumerate() {
            if verdict != LotVerdict::NextSample {
                return Err(SamplingError::Found {
                    reason: format!("sample {number} decided, so there is no sample {}", number + 1),
                });
            }
            if *found > stage.sample_size && !self.counts_nonconformities() {
                let reason = format!(
                    "sample {} has {}, not {found} nonconforming ones",
                    number + 1,
                    plural(stage.sample_size, "piece")
                );
                return Err(SamplingError::Found { reason });
            }
            sum = sum.saturating_add(*found);
            verdict = match stage.accept {
                Some(accept) if sum <= u64::from(accept) => LotVerdict::Accepted,
                _ if sum >= u64::from(stage.reject) => LotVerdict::Rejected,
                _ if number + 1 == self.stages.len() => LotVerdict::AcceptedBackToNormal,
                _ => LotVerdict::NextSample,
            };
        }
        Ok(verdict)
    }

    /// The points that a lot adds to the switching score under normal inspection, 0 where it sets the score back; nothing
    /// where the plan is not one of a standard, or the samples do not decide. `found[k]` nonconforming pieces were found in
    /// sample k.
    ///
    /// # Errors
    /// As [`SamplingPlan::judge`].
    pub fn switching_points(&self, found: &[u64]) -> Result<Option<u32>, SamplingError> {
        let verdict = self.judge(found)?;
        if !self.is_of_standard() || verdict == LotVerdict::NextSample {
            return Ok(None);
        }
        let accepted = verdict == LotVerdict::Accepted;
        let sum = found.iter().fold(0_u64, |sum, found| sum.saturating_add(*found));
        Ok(Some(match (self.kind, self.accept) {
            _ if !accepted => 0,
            (PlanKind::Single, Some(accept)) if accept >= 2 => {
                let tighter = table::tighter(accept, self.severity);
                if tighter.is_some_and(|tighter| sum <= u64::from(tighter)) { 3 } else { 0 }
            }
            (PlanKind::Single, _) => 2,
            (PlanKind::Double, _) => 3 * u32::from(found.len() == 1),
            (PlanKind::Multiple, _) => 3 * u32::from(found.len() <= 3),
        }))
    }
}

#[accessors]
impl SamplingPlan {
    /// Whether every piece of the lot is inspected, since the sample is as large as the lot.
    #[field]
    pub fn whole_lot(&self) -> bool {
        self.lot == Some(self.sample_size)
    }

    /// The samples as text: pieces, acceptance and rejection number, such as `80/2/3`.
    #[field]
    pub fn samples(&self) -> String {
        let stage = |stage: &SamplingStage| {
            let accept = stage.accept.map_or("-".into(), |accept| accept.to_string());
            format!("{}/{accept}/{}", stage.sample_size, stage.reject)
        };
        self.stages.iter().map(stage).collect::<Vec<_>>().join(", ")
    }

    /// The share of lots at the AQL that the plan accepts, by the binomial law; of a plan of a standard above an AQL of 10,
    /// which counts nonconformities, by Poisson's.
    #[field]
    pub fn acceptance_at_aql(&self) -> Option<f64> {
        let aql = self.aql?;
        let model = if self.counts_nonconformities() { LotModel::Poisson } else { LotModel::Binomial };
        self.acceptance_probability(aql / 100.0, model).ok()
    }
}

impl Restored for SamplingPlan {
    fn restore(told: &Told) -> Option<SamplingPlan> {
        let stages: Vec<SamplingStage> = told.get("stages")?;
        let lot = told.get("lot")?;
        check(&stages, lot).ok()?;
        let first = *stages.first()?;
        Some(SamplingPlan {
            standard: told.get("standard")?,
            lot,
            aql: told.get("aql")?,
            level: told.get("level")?,
            severity: told.get("severity")?,
            kind: told.get("kind")?,
            code_letter: told.get("code_letter")?,
            plan_letter: told.get("plan_letter")?,
            sample_size: first.sample_size,
            accept: first.accept,
            reject: first.reject,
            stages,
            source: told.get("source")?,
        })
    }
}

impl fmt::Display for SamplingPlan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} sampling plan:", self.kind.name())?;
        for (number, stage) in self.stages.iter().enumerate() {
            let more = if number == 0 { "" } else { ", then" };
            let accept = stage.accept.map_or("none".into(), |accept| accept.to_string());
            let pieces = plural(stage.sample_size, "piece");
            write!(f, "{more} {pieces}, accept on {accept}, reject on {}", stage.reject)?;
        }
        Ok(())
    }
}

/// The name of a standard whose tables are here.
fn standard(text: &str) -> Result<&'static str, SamplingError> {
    match text.trim() {
        "ISO 2859-1" | "ISO 2859-1:1999" => Ok(STANDARD),
        "ANSI/ASQ Z1.4" | "ANSI Z1.4" => Ok("ANSI/ASQ Z1.4"),
        "MIL-STD-105E" => Ok("MIL-STD-105E"),
        text => Err(SamplingError::Unknown {
            what: "a standard",
            text: crate::error::excerpt(text),
            expected: "ISO 2859-1, ANSI/ASQ Z1.4 or MIL-STD-105E".into(),
        }),
    }
}
