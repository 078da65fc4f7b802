//! Where a scheme puts the members of a gauge.
use super::class::GagemakerClass;
use super::kinds::GaugeBasis;

/// Where a scheme puts the members: picometres from the limits of the part into its tolerance.
pub(super) struct Places {
    pub class: Option<GagemakerClass>,
    pub grade: Option<u8>,
    pub standard: &'static str,
    pub basis: GaugeBasis,
    /// From the limit of most material, the nearer end first.
    pub go: [i64; 2],
    /// From the limit of least material: the same.
    pub no_go: [i64; 2],
    /// A GO worn to its end, from the limit of most material.
    pub worn: i64,
    /// The tolerances of the masters of GO and NO-GO.
    pub masters: Option<[i64; 2]>,
}

impl Places {
    /// Where a member's master stands: at the named size of a member with a class, amid the limits of an ISO one.
    pub(super) fn centre(&self, near: i64, far: i64) -> i64 {
        if self.class.is_some() { near } else { near.midpoint(far) }
    }
}
