//! Sampling plans and the switching rules. Samples are text: pieces, acceptance and rejection number, `80/2/3`.
use crate::guard::{guard, place, text};
use crate::handle::array;
use crate::object::write;
use crate::objects::{tenths_sampling_plan, tenths_switching};
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::Units;
use tenths::inspect::sampling::{
    InspectionSeverity, LotVerdict, Quality, SamplingError, SamplingPlan, Switching, zero_acceptance_plan,
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
