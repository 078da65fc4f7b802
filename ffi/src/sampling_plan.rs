//! Sampling plans and the switching rules. Samples are text: pieces, acceptance and rejection number, `80/2/3`.
use crate::guard::{guard, place, text};
use crate::handle::array;
use crate::object::write;
use crate::objects::{
    tenths_plan_performance, tenths_sampling_plan, tenths_switching, tenths_variables_plan,
};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::sampling::{
    InspectionLevel, InspectionSeverity, LotModel, LotVerdict, PlanKind, PlanRequest, Quality, SamplingError,
    SamplingPlan, SigmaKnowledge, Switching, VariablesPlan, two_point_plan, zero_acceptance_plan,
};

/// What the samples of a lot decide: `TENTHS_LOT_ACCEPTED` to `TENTHS_LOT_ACCEPTED_BACK_TO_NORMAL`.
pub type tenths_lot_verdict = i32;

/// The lot is accepted.
pub const TENTHS_LOT_ACCEPTED: tenths_lot_verdict = 0;
/// The lot is rejected.
pub const TENTHS_LOT_REJECTED: tenths_lot_verdict = 1;
/// The next sample decides.
pub const TENTHS_LOT_NEXT_SAMPLE: tenths_lot_verdict = 2;
/// The lot is accepted, and inspection goes back to normal: reduced plans have such lots.
pub const TENTHS_LOT_ACCEPTED_BACK_TO_NORMAL: tenths_lot_verdict = 3;

/// A lot, which is not known where it is 0.
fn known(lot: usize) -> Option<u64> {
    (lot != 0).then_some(lot as u64)
}

/// The sampling plan of a standard for a lot and an AQL in percent, `tenths_make_sampling_plan(1000, 1.0, "II", "normal",
/// "single", "ISO 2859-1", &plan)`.
///
/// Levels: `I`, `II`, `III`, `S-1` to `S-4`. Severities: `normal`, `tightened`, `reduced`. Kinds: `single`, `double`,
/// `multiple`. Standards: `ISO 2859-1`, `ANSI/ASQ Z1.4`, `MIL-STD-105E`. A plan whose table was not seen in print is refused.
///
/// # Safety
/// The texts end with a NUL; `plan->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_sampling_plan(
    lot: usize,
    aql: f64,
    level: *const c_char,
    severity: *const c_char,
    kind: *const c_char,
    standard: *const c_char,
    plan: *mut tenths_sampling_plan,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (level, severity, kind, standard) = unsafe {
                (
                    text(level, "level")?,
                    text(severity, "severity")?,
                    text(kind, "kind")?,
                    text(standard, "standard")?,
                )
            };
            Ok(SamplingPlan::of_standard(&PlanRequest {
                lot: lot as u64,
                aql,
                level: InspectionLevel::parse(level)?,
                severity: InspectionSeverity::parse(severity)?,
                kind: PlanKind::parse(kind)?,
                standard,
            })?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(plan, "plan", Units::Metric, made) }
    })
}

/// A plan of one's own samples, with commas between them: `50/1/4, 50/4/5`, `20/-/5, 20/3/8, 20/7/8` or `1/0/1`. Each has its
/// pieces, its acceptance number, `-` where it accepts no lot, and its rejection number; the numbers count the nonconforming
/// pieces of all samples so far.
///
/// `lot` is 0 where it is not known. Severities: `normal`, `tightened`, `reduced`.
///
/// # Safety
/// The texts end with a NUL; `plan->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_staged_plan(
    samples: *const c_char,
    lot: usize,
    severity: *const c_char,
    plan: *mut tenths_sampling_plan,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (samples, severity) = unsafe { (text(samples, "samples")?, text(severity, "severity")?) };
            Ok(SamplingPlan::parse(samples, known(lot), InspectionSeverity::parse(severity)?)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(plan, "plan", Units::Metric, made) }
    })
}

/// The single plan that accepts a lot only where the sample has no nonconforming piece.
///
/// `quality` says what `percent` is: with `LTPD`, lots that bad are accepted with the risk at the most, with `AQL`, lots that
/// good are rejected with the risk at the most. `lot` is 0 for pieces of a process.
///
/// # Safety
/// `quality` ends with a NUL; `plan->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_zero_acceptance_plan(
    lot: usize,
    quality: *const c_char,
    percent: f64,
    risk: f64,
    plan: *mut tenths_sampling_plan,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let quality = match unsafe { text(quality, "quality") }?.trim() {
                "LTPD" => Quality::Ltpd(percent),
                "AQL" => Quality::Aql(percent),
                text => {
                    let (what, expected) = ("a quality", "LTPD or AQL".into());
                    return Err(SamplingError::Unknown {
                        what,
                        text: text.chars().take(60).collect(),
                        expected,
                    }
                    .into());
                }
            };
            Ok(zero_acceptance_plan(known(lot), quality, risk)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(plan, "plan", Units::Metric, made) }
    })
}

/// The single plan with the smallest acceptance number, and with that the fewest pieces, that keeps both risks for lots from a
/// process: at `aql` percent to be rejected, and at `ltpd` percent to be accepted.
///
/// # Safety
/// `plan->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_two_point_plan(
    aql: f64,
    ltpd: f64,
    producer_risk: f64,
    consumer_risk: f64,
    plan: *mut tenths_sampling_plan,
) -> tenths_status {
    guard(|| {
        let made = || Ok(two_point_plan(aql, ltpd, producer_risk, consumer_risk)?);
        // SAFETY: the caller's promise.
        unsafe { write(plan, "plan", Units::Metric, made) }
    })
}

/// A plan of samples whose figures are asked for, and the law.
///
/// # Safety
/// The texts are null or end with a NUL.
unsafe fn asked(
    samples: *const c_char,
    lot: usize,
    model: *const c_char,
) -> Result<(SamplingPlan, LotModel), Failure> {
    // SAFETY: the caller's promise.
    let (samples, model) = unsafe { (text(samples, "samples")?, text(model, "model")?) };
    let plan = SamplingPlan::parse(samples, known(lot), InspectionSeverity::Normal)?;
    Ok((plan, LotModel::parse(model)?))
}

/// What a plan does to lots of a fraction, a point of its operating characteristic: `samples` such as `1/0/1` or those of a
/// plan, `80/2/3`.
///
/// Models: `binomial` for lots from a process, `hypergeometric` for lots of this size with that share, `poisson` for
/// nonconformities. `lot` is 0 where it is not known.
///
/// # Safety
/// The texts end with a NUL; `performance->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sampling_performance(
    samples: *const c_char,
    lot: usize,
    fraction: f64,
    model: *const c_char,
    performance: *mut tenths_plan_performance,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (plan, model) = unsafe { asked(samples, lot, model) }?;
            Ok(plan.performance(fraction, model)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(performance, "performance", Units::Metric, made) }
    })
}

/// What a plan does to lots of the fraction at which most nonconforming pieces go out: the average outgoing quality is then
/// its limit, the AOQL. `samples` such as `1/0/1`; models `binomial`, `hypergeometric`, `poisson`; `lot` is 0 where it is not
/// known.
///
/// # Safety
/// The texts end with a NUL; `performance->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sampling_worst_outgoing(
    samples: *const c_char,
    lot: usize,
    model: *const c_char,
    performance: *mut tenths_plan_performance,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (plan, model) = unsafe { asked(samples, lot, model) }?;
            Ok(plan.worst_outgoing(model)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(performance, "performance", Units::Metric, made) }
    })
}

/// What the nonconforming pieces found in the first `count` samples of a plan decide: `samples` such as `1/0/1` or
/// `50/1/4, 50/4/5`.
///
/// # Safety
/// `samples` ends with a NUL; `found` is valid for `count` numbers; `verdict` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_judge_lot(
    samples: *const c_char,
    found: *const usize,
    count: usize,
    verdict: *mut tenths_lot_verdict,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let verdict = unsafe { place(verdict, "verdict") }?;
        *verdict = -1;
        // SAFETY: the caller's promises.
        let (samples, found) = unsafe { (text(samples, "samples")?, array(found, count, "found")?) };
        let plan = SamplingPlan::parse(samples, None, InspectionSeverity::Normal)?;
        let found: Vec<u64> = found.iter().map(|found| *found as u64).collect();
        *verdict = match plan.judge(&found)? {
            LotVerdict::Accepted => TENTHS_LOT_ACCEPTED,
            LotVerdict::Rejected => TENTHS_LOT_REJECTED,
            LotVerdict::NextSample => TENTHS_LOT_NEXT_SAMPLE,
            LotVerdict::AcceptedBackToNormal => TENTHS_LOT_ACCEPTED_BACK_TO_NORMAL,
        };
        Ok(())
    })
}

/// The plan by variables with the fewest pieces that keeps both risks: lots with `aql` percent beyond a limit are to be
/// accepted, those with `ltpd` percent to be rejected. `sigma` is `known` or `unknown`.
///
/// # Safety
/// `sigma` ends with a NUL; `plan->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_variables_plan(
    aql: f64,
    ltpd: f64,
    producer_risk: f64,
    consumer_risk: f64,
    sigma: *const c_char,
    plan: *mut tenths_variables_plan,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let sigma = SigmaKnowledge::parse(unsafe { text(sigma, "sigma") }?)?;
            Ok(VariablesPlan::new(aql, ltpd, producer_risk, consumer_risk, sigma)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(plan, "plan", Units::Metric, made) }
    })
}

/// The share of lots with a fraction beyond the limit that a plan by variables accepts: one of so many pieces, with the
/// acceptability constant `k`. `sigma` is `known` or `unknown`. NaN on an error.
///
/// # Safety
/// `sigma` ends with a NUL; `probability` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_variables_acceptance(
    sample_size: usize,
    k: f64,
    sigma: *const c_char,
    fraction: f64,
    probability: *mut f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let probability = unsafe { place(probability, "probability") }?;
        *probability = f64::NAN;
        // SAFETY: the caller's promise.
        let sigma = SigmaKnowledge::parse(unsafe { text(sigma, "sigma") }?)?;
        *probability = VariablesPlan::of(sample_size as u64, k, sigma)?.acceptance_probability(fraction)?;
        Ok(())
    })
}

/// Where the inspection of a series of lots stands, after lots as text: `A` for an accepted one and `R` for a rejected one, each
/// with its points of the switching score where they are known, `A3 A3 R0 A2`.
///
/// Severities at the start: `normal`, `tightened`, `reduced`. `lots` may be null before the first lot. `steady` is 1 where
/// production is steady and whoever is responsible wants reduced inspection.
///
/// # Safety
/// The texts end with a NUL; `switching->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_switching(
    severity: *const c_char,
    lots: *const c_char,
    steady: i32,
    switching: *mut tenths_switching,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let start = Switching::start(InspectionSeverity::parse(unsafe { text(severity, "severity") }?)?);
            match lots.is_null() {
                true => Ok(start),
                // SAFETY: the caller's promise.
                false => Ok(start.after_all(unsafe { text(lots, "lots") }?, steady != 0)?),
            }
        };
        // SAFETY: the caller's promise.
        unsafe { write(switching, "switching", Units::Metric, made) }
    })
}
