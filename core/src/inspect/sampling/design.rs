//! Plans made for what they are to do: none accepts a nonconforming piece, or two points of the curve are kept.
use super::counts::Counts;
use super::error::SamplingError;
use super::kinds::InspectionSeverity;
use super::plan::SamplingPlan;
use super::stage::{MAX_LOT, MAX_REJECT, MAX_SAMPLE, SamplingStage};
use tenths_macros::function;

/// The quality that a plan without nonconforming pieces is made for, in percent.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Quality {
    /// Lots this bad or worse (LTPD) are accepted with the risk at the most: the consumer's risk.
    Ltpd(f64),
    /// Lots this good or better (AQL) are rejected with the risk at the most: the producer's risk.
    Aql(f64),
}

/// The single plan that accepts a lot only where the sample has no nonconforming piece.
///
/// For an LTPD it has the fewest pieces that keep the consumer's risk, for an AQL the most that keep the producer's. With a
/// lot size the chance is that of drawing from the lot without putting back, and the quality is a whole number of pieces
/// of it, rounded up for an LTPD and down for an AQL; without, it is that of a process. With an LTPD of 5 percent and a risk of 5
/// percent a process needs 59 good pieces: the success run for a reliability of 95 percent with as much confidence.
///
/// # Errors
/// [`SamplingError`] for a percentage or a risk out of range, and where even one piece rejects too many lots at the AQL.
pub fn zero_acceptance_plan(
    lot: Option<u64>,
    quality: Quality,
    risk: f64,
) -> Result<SamplingPlan, SamplingError> {
    let (what, percent) = match quality {
        Quality::Ltpd(percent) => ("the LTPD in percent", percent),
        Quality::Aql(percent) => ("the AQL in percent", percent),
    };
    between(what, percent, 100.0, "greater than 0 and less than 100")?;
    between("the risk", risk, 1.0, "greater than 0 and less than 1")?;
    if let Some(lot) = lot.filter(|lot| !(1..=MAX_LOT).contains(lot)) {
        return Err(SamplingError::Lot { lot, least: 1 });
    }
    let (size, aql) = match quality {
        Quality::Ltpd(percent) => (fewest_for_ltpd(lot, percent, risk)?, None),
        Quality::Aql(percent) => (most_for_aql(lot, percent, risk)?, Some(percent)),
    };
    let stage = SamplingStage { sample_size: size, accept: Some(0), reject: 1 };
    let plan = SamplingPlan::plain("zero acceptance", vec![stage], lot, InspectionSeverity::Normal);
    Ok(SamplingPlan { aql, source: "computed".into(), ..plan })
}

/// The fewest pieces of which one is nonconforming often enough: lots at the LTPD are accepted with the risk at the most.
fn fewest_for_ltpd(lot: Option<u64>, percent: f64, risk: f64) -> Result<u64, SamplingError> {
    // Less the rounding of a whole number of pieces.
    let marked = |lot: u64| (percent / 100.0 * lot as f64 - 1e-6).ceil().max(1.0) as u64;
    let size = first_size(1, lot.unwrap_or(MAX_SAMPLE), |pieces| {
        chance_of_none(pieces, lot.map(|lot| (lot, marked(lot))), percent) <= risk
    });
    size.filter(|size| *size <= MAX_SAMPLE).ok_or(SamplingError::TooManyPieces {
        quality: "LTPD",
        percent,
        most: MAX_SAMPLE,
        fix: "set a higher LTPD, or allow a larger risk",
    })
}

/// The most pieces that reject lots at the AQL with the risk at the most.
fn most_for_aql(lot: Option<u64>, percent: f64, risk: f64) -> Result<u64, SamplingError> {
    // With the rounding of a whole number of pieces.
    let marked = |lot: u64| (percent / 100.0 * lot as f64 + 1e-6).floor() as u64;
    let most = lot.unwrap_or(MAX_SAMPLE + 1);
    let first_past = first_size(1, most, |pieces| {
        chance_of_none(pieces, lot.map(|lot| (lot, marked(lot))), percent) < 1.0 - risk
    });
    // Without one, lots at the AQL have no nonconforming piece at all.
    match first_past.map_or(most, |size| size - 1) {
        0 => Err(SamplingError::Number {
            what: "the AQL in percent",
            need: "so low that one piece does not already reject more lots than the risk allows",
            value: percent,
        }),
        size if size > MAX_SAMPLE => Err(SamplingError::TooManyPieces {
            quality: "AQL",
            percent,
            most: MAX_SAMPLE,
            fix: "set a higher AQL, or allow a smaller risk",
        }),
        size => Ok(size),
    }
}

/// The chance that no piece of a sample is nonconforming: from a lot of known size and nonconforming pieces, or from a process.
fn chance_of_none(pieces: u64, lot: Option<(u64, u64)>, percent: f64) -> f64 {
    match lot {
        Some((lot, marked)) => none_drawn(pieces, lot, marked),
        None => Counts::binomial(pieces, percent / 100.0).of(0),
    }
}

/// The single plan with the smallest acceptance number, and with that the fewest pieces, that keeps both risks.
///
/// The risks are those of lots from a process.
///
/// # Errors
/// [`SamplingError`] for percentages and risks out of range, and where no plan of up to a million pieces, with an acceptance
/// number below a thousand, keeps both.
#[function(gives = "plan", example(1, 5, 0.05, 0.1))]
pub fn two_point_plan(
    /// The percentage of nonconforming pieces of lots that are to be accepted.
    #[pure]
    aql: f64,
    /// The percentage of nonconforming pieces of lots that are to be rejected.
    #[pure]
    ltpd: f64,
    /// The share of lots at the AQL that are rejected, at the most.
    #[pure]
    #[default(0.05)]
    producer_risk: f64,
    /// The share of lots at the LTPD that are accepted, at the most.
    #[pure]
    #[default(0.1)]
    consumer_risk: f64,
) -> Result<SamplingPlan, SamplingError> {
    between("the AQL in percent", aql, 100.0, "greater than 0 and less than 100")?;
    between("the LTPD in percent", ltpd, 100.0, "greater than 0 and less than 100")?;
    between("the producer's risk", producer_risk, 1.0, "greater than 0 and less than 1")?;
    between("the consumer's risk", consumer_risk, 1.0, "greater than 0 and less than 1")?;
    if ltpd <= aql {
        return Err(SamplingError::Number {
            what: "the LTPD in percent",
            need: "greater than the AQL",
            value: ltpd,
        });
    }
    let chance = |pieces: u64, percent: f64, accept: u32| {
        Counts::binomial(pieces, percent / 100.0).at_most(u64::from(accept))
    };
    let mut size = 1;
    for accept in 0..MAX_REJECT {
        // A larger acceptance number takes more pieces.
        let fewest = first_size(size, MAX_SAMPLE, |pieces| chance(pieces, ltpd, accept) <= consumer_risk);
        let Some(fewest) = fewest else { break };
        size = fewest;
        if chance(size, aql, accept) >= 1.0 - producer_risk {
            let stage = SamplingStage { sample_size: size, accept: Some(accept), reject: accept + 1 };
            let plan = SamplingPlan::plain("two points", vec![stage], None, InspectionSeverity::Normal);
            return Ok(SamplingPlan { aql: Some(aql), source: "computed".into(), ..plan });
        }
    }
    Err(SamplingError::NoPlan { most: MAX_SAMPLE })
}

pub(super) fn between(
    what: &'static str,
    value: f64,
    most: f64,
    need: &'static str,
) -> Result<(), SamplingError> {
    match 0.0 < value && value < most {
        true => Ok(()),
        false => Err(SamplingError::Number { what, need, value }),
    }
}

/// The first size from `least` to `most` at which something holds that holds from there on.
pub(super) fn first_size(least: u64, most: u64, holds: impl Fn(u64) -> bool) -> Option<u64> {
    // In growing steps first: large sizes cost more.
    let (mut low, mut high, mut step) = (least, least, 1);
    while !holds(high) {
        if high >= most {
            return None;
        }
        low = high + 1;
        high = (high + step).min(most);
        step *= 2;
    }
    while low < high {
        let middle = low + (high - low) / 2;
        match holds(middle) {
            true => high = middle,
            false => low = middle + 1,
        }
    }
    Some(high)
}

/// The chance that none of the marked pieces of a lot is drawn.
fn none_drawn(pieces: u64, lot: u64, marked: u64) -> f64 {
    if pieces + marked > lot {
        return 0.0;
    }
    // The product over the fewer of the two; each is the same chance.
    let (few, many) = (pieces.min(marked), pieces.max(marked));
    let mut chance = 1.0;
    for drawn in 0..few {
        chance *= (lot - many - drawn) as f64 / (lot - drawn) as f64;
        if chance == 0.0 {
            break;
        }
    }
    chance
}
