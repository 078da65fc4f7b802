//! Whether a process holds the tolerances of what it makes.
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::fit::iso::grade_tolerance;
use crate::plan::characteristic::CharacteristicKind;
use crate::plan::drawing::to_cut;
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::Operation;
use crate::{Size, Units};

impl Evaluation<'_> {
    pub(super) fn judge_tolerance(&mut self, place: Place<'_>, operation: &Operation) {
        let stated = operation.common.holds;
        for number in operation.makes() {
            let Some(asked) = self.limits_of(number.0) else { continue };
            let (limits, kind) = (to_cut(asked), asked.kind);
            let tolerance = limits.tolerance();
            let usual = || self.usual(operation, kind, limits.nominal());
            let Some(holds) = stated.or_else(usual).filter(|holds| tolerance < *holds) else { continue };
            let [tolerance, holds] = [tolerance, holds].map(|size| size.format(self.units));
            let number = number.0;
            let (code, message, remedy) = match stated {
                Some(_) => (
                    FindingCode::ProcessTooCoarse,
                    format!("number {number} has a tolerance of {tolerance}, and the process holds {holds}"),
                    "finish it by a closer process, such as reaming or grinding",
                ),
                None => (
                    FindingCode::CloserThanUsual,
                    format!(
                        "number {number} has a tolerance of {tolerance}; such an operation seldom holds less than {holds}"
                    ),
                    "finish it by a closer process, or state what yours is proved to hold as `holds`",
                ),
            };
            self.find(code, place.field("makes"), message, remedy);
        }
    }

    /// What such an operation holds with care; nothing for sizes whose tolerance the set-up decides.
    fn usual(&self, operation: &Operation, kind: CharacteristicKind, nominal: Size) -> Option<Size> {
        use CharacteristicKind::{AcrossFlats, Bore, Diameter, Slot, Width};
        let is_size = matches!(kind, AcrossFlats | Bore | Diameter | Slot | Width);
        let grade = operation.work.kind().closest_grade().filter(|_| is_size)?;
        let millimetres = nominal.to_float(Units::Metric).ceil();
        let tolerance = grade_tolerance(grade, millimetres as i64);
        (tolerance > 0).then(|| Size::from_picometres(tolerance))
    }
}
