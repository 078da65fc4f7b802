//! The samples of a plan, and whether they decide.
use super::error::SamplingError;
use tenths_macros::Object;

/// The most pieces of a lot.
pub(super) const MAX_LOT: u64 = 1_000_000_000;
/// The most pieces of a sample.
pub(super) const MAX_SAMPLE: u64 = 1_000_000;
/// The largest rejection number.
pub(super) const MAX_REJECT: u32 = 1_000;
/// The most samples of a plan.
pub(super) const MAX_STAGES: usize = 20;

/// The most that the rejection numbers of all samples come to.
const MAX_REJECTS: u64 = 2_000;

/// One sample of a plan, and what the pieces found so far decide.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Object)]
#[object(restore)]
pub struct SamplingStage {
    /// Pieces of this sample.
    pub sample_size: u64,
    /// The acceptance number: the most nonconforming pieces in all samples so far with which the lot is accepted.
    /// Absent where this sample accepts no lot.
    pub accept: Option<u32>,
    /// The rejection number: the fewest with which the lot is rejected.
    pub reject: u32,
}

/// Whether the samples of a plan decide.
pub(super) fn check(stages: &[SamplingStage], lot: Option<u64>) -> Result<(), SamplingError> {
    let refuse = |reason: String| Err(SamplingError::Stages { reason });
    if !(1..=MAX_STAGES).contains(&stages.len()) {
        return refuse(format!("a plan has 1 to {MAX_STAGES} samples, not {}", stages.len()));
    }
    if let Some(lot) = lot
        && !(1..=MAX_LOT).contains(&lot)
    {
        return Err(SamplingError::Lot { lot, least: 1 });
    }
    let (mut inspected, mut last) = (0, SamplingStage { sample_size: 0, accept: None, reject: 0 });
    for (number, stage) in stages.iter().enumerate() {
        let sample = number + 1;
        if !(1..=MAX_SAMPLE).contains(&stage.sample_size) {
            return refuse(format!(
                "sample {sample} must have 1 to {MAX_SAMPLE} pieces, not {}",
                stage.sample_size
            ));
        }
        inspected += stage.sample_size;
        if let Some(lot) = lot
            && inspected > lot
        {
            return refuse(format!(
                "{inspected} pieces up to sample {sample} are more than the lot of {lot}"
            ));
        }
        if !(1..=MAX_REJECT).contains(&stage.reject) {
            return refuse(format!(
                "the rejection number of sample {sample} must be 1 to {MAX_REJECT}, not {}",
                stage.reject
            ));
        }
        if let Some(accept) = stage.accept
            && accept >= stage.reject
        {
            return refuse(format!(
                "the acceptance number of sample {sample}, {accept}, must be below its rejection number, {}",
                stage.reject
            ));
        }
        if stage.accept < last.accept || stage.reject < last.reject {
            return refuse(format!(
                "the numbers of sample {sample} must not be below those of the sample before"
            ));
        }
        last = *stage;
    }
    let rejects: u64 = stages.iter().map(|stage| u64::from(stage.reject)).sum();
    if rejects > MAX_REJECTS {
        return refuse(format!(
            "the rejection numbers must come to {MAX_REJECTS} at the most, not {rejects}"
        ));
    }
    match last.accept {
        Some(_) => Ok(()),
        None => refuse("the last sample must have an acceptance number".into()),
    }
}
