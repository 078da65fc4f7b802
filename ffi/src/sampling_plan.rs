//! Sampling plans and the switching rules. Samples are text: pieces, acceptance and rejection number, `80/2/3`.
use crate::guard::{guard, place, text};
use crate::handle::array;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::inspect::sampling::{
    InspectionSeverity, LotVerdict, Quality, SamplingError, SamplingPlan, zero_acceptance_plan,
};
use tenths_macros::export;

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

/// The single plan that accepts a lot only where the sample has no nonconforming piece.
///
/// `quality` says what `percent` is: with `LTPD`, lots that bad are accepted with the risk at the most, with `AQL`, lots that
/// good are rejected with the risk at the most. `lot` is 0 for pieces of a process.
#[export(plan)]
pub(crate) fn make_zero_acceptance_plan(
    lot: usize,
    quality: &str,
    percent: f64,
    risk: f64,
) -> Result<SamplingPlan, SamplingError> {
    let quality = match quality.trim() {
        "LTPD" => Quality::Ltpd(percent),
        "AQL" => Quality::Aql(percent),
        text => {
            let (what, text) = ("a quality", text.chars().take(60).collect());
            return Err(SamplingError::Unknown { what, text, expected: "LTPD or AQL".into() });
        }
    };
    zero_acceptance_plan((lot != 0).then_some(lot as u64), quality, risk)
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
