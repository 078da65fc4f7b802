//! Readings judged by a decision rule.
use crate::guard::{guard, optional_size, side, tenths_units, text};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::{Decision, DecisionRule, Limits, Size, Verdict};

/// Verdict of a decision rule: it accepts the part.
pub const TENTHS_CONFORMING: i32 = 0;
/// The rule rejects the part.
pub const TENTHS_NOT_CONFORMING: i32 = 1;
/// Neither is proved.
pub const TENTHS_INDETERMINATE: i32 = 2;
/// The reading is NaN or infinite, and no verdict is passed on it.
pub const TENTHS_NO_VERDICT: i32 = -1;

/// Judges `count` readings in inches or millimetres by a decision rule, exactly at every edge of its zones:
/// `tenths_judge_readings(TENTHS_METRIC, "10..10.1 mm", "0.02 mm", "ISO 14253-1", NULL, readings, 3, verdicts)`.
///
/// Limits, uncertainty, rule and `resolution` are those of `tenths_make_decision`. Without a resolution a reading is its
/// shortest decimal; with one, the step of the instrument, a reading within a millionth of a step of a whole number of
/// steps is taken as that number of steps. `resolution` may be null. Each of `verdicts` becomes `TENTHS_CONFORMING`,
/// `TENTHS_NOT_CONFORMING`, `TENTHS_INDETERMINATE`, or `TENTHS_NO_VERDICT` where a reading is NaN or infinite.
///
/// # Safety
/// The texts end with a NUL; `readings` and `verdicts` are valid for `count` elements.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_judge_readings(
    units: tenths_units,
    limits: *const c_char,
    uncertainty: *const c_char,
    rule: *const c_char,
    resolution: *const c_char,
    readings: *const f64,
    count: usize,
    verdicts: *mut i32,
) -> tenths_status {
    guard(|| {
        let units = side(units)?;
        // SAFETY: the caller's promise.
        let (limits, uncertainty, rule, step) = unsafe {
            let step = optional_size(resolution, "resolution")?;
            let uncertainty = Size::parse(text(uncertainty, "uncertainty")?)?;
            (Limits::parse(text(limits, "limits")?)?, uncertainty, text(rule, "rule")?, step)
        };
        let decision = Decision::new(&limits, uncertainty, DecisionRule::parse(rule)?, step)?;
        let judge = decision.readings(units, step)?;
        if count > isize::MAX as usize / size_of::<f64>() {
            return Err(Failure::Length(count));
        }
        if count > 0 && (readings.is_null() || verdicts.is_null()) {
            return Err(Failure::Null("readings or verdicts"));
        }
        for k in 0..count {
            // SAFETY: the caller's promise.
            unsafe { verdicts.add(k).write(told(judge.judge(readings.add(k).read()))) };
        }
        Ok(())
    })
}

fn told(verdict: Option<Verdict>) -> i32 {
    match verdict {
        Some(Verdict::Conforming) => TENTHS_CONFORMING,
        Some(Verdict::NotConforming) => TENTHS_NOT_CONFORMING,
        Some(Verdict::Indeterminate) => TENTHS_INDETERMINATE,
        None => TENTHS_NO_VERDICT,
    }
}
