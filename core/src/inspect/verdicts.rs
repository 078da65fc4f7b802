//! Readings of an instrument, which are floats, judged by a decision rule.
use super::decision::{Decision, DecisionError, Verdict};
use crate::limits::{Limits, Readings};
use crate::quantity::Units;
use crate::size::Size;

/// Judges readings that are floats by a decision rule; see [`Decision::readings`].
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct DecisionReadings {
    accepted: Readings,
    not_rejected: Readings,
}

impl Decision {
    /// A judge of readings that are floats, in inches or millimetres, which are read as [`Limits::readings`] reads them.
    ///
    /// # Errors
    /// [`DecisionError::Limits`] for a resolution that is not positive.
    pub fn readings(
        &self,
        units: Units,
        resolution: Option<Size>,
    ) -> Result<DecisionReadings, DecisionError> {
        let not_rejected = Limits::between(self.reject_below, self.reject_above)?;
        Ok(DecisionReadings {
            accepted: self.acceptance.readings(units, resolution)?,
            not_rejected: not_rejected.readings(units, resolution)?,
        })
    }
}

impl DecisionReadings {
    /// What a reading says of the part; NaN and the infinities are no readings and say nothing.
    #[inline]
    pub fn judge(&self, reading: f64) -> Option<Verdict> {
        if !reading.is_finite() {
            None
        } else if self.accepted.accepts(reading) {
            Some(Verdict::Conforming)
        } else if self.not_rejected.accepts(reading) {
            Some(Verdict::Indeterminate)
        } else {
            Some(Verdict::NotConforming)
        }
    }

    /// The least and the greatest reading that is accepted, and the least and the greatest that is not rejected.
    pub const fn ends(&self) -> [(f64, f64); 2] {
        [self.accepted.ends(), self.not_rejected.ends()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inspect::decision::DecisionRule;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn decision(part: &str, uncertainty: &str, rule: &str) -> Decision {
        let limits = Limits::parse(part).unwrap_or_else(|error| panic!("{error}"));
        let rule = DecisionRule::parse(rule).unwrap_or_else(|error| panic!("{error}"));
        Decision::new(&limits, size(uncertainty), rule, None).unwrap_or_else(|error| panic!("{error}"))
    }

    // By hand: a guard band of 0.0002 in at the limits 1.415 and 1.425 in. In floating point 1.425 - 0.0002 is not 1.4248.
    #[test]
    fn the_edges_of_every_zone_are_judged_right() {
        let rule = decision("1.420 ±.005 in", "0.0002 in", "ISO 14253-1:1998");
        let judge = rule.readings(Units::Inch, None).unwrap();
        for (reading, verdict) in [
            (1.4148, Verdict::Indeterminate),
            (1.4152, Verdict::Conforming),
            (1.42, Verdict::Conforming),
            (1.4248, Verdict::Conforming),
            (1.4252, Verdict::Indeterminate),
        ] {
            assert_eq!(judge.judge(reading), Some(verdict), "{reading}");
        }
        for (reading, verdict) in [
            (1.414_799_99, Verdict::NotConforming),
            (1.415_199_99, Verdict::Indeterminate),
            (1.424_800_01, Verdict::Indeterminate),
            (1.425_200_01, Verdict::NotConforming),
        ] {
            assert_eq!(judge.judge(reading), Some(verdict), "{reading}");
        }
        // Counted in steps of a tenth, which floating point misses by a little.
        let stepped = rule.readings(Units::Inch, Some(size("0.0001 in"))).unwrap();
        assert_eq!(judge.judge(14_248.0 * 0.0001 + 4e-11), Some(Verdict::Indeterminate));
        assert_eq!(stepped.judge(14_248.0 * 0.0001 + 4e-11), Some(Verdict::Conforming));
        for reading in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(judge.judge(reading), None);
        }
        assert_eq!(judge.judge(1e300), Some(Verdict::NotConforming));
        assert!(rule.readings(Units::Inch, Some(Size::ZERO)).is_err());
    }

    proptest! {
        #[test]
        fn a_reading_is_judged_as_its_size(
            steps in -3_000i32..3_000,
            place in 0..4usize,
            rule in prop::sample::select(vec![
                "simple", "4:1", "ISO 14253-1", "ISO 14253-1:1998", "stringent 0.5", "relaxed 0.5",
            ]),
        ) {
            let decision = decision("10..10.1 mm", "0.01 mm", rule);
            let edges = [
                decision.reject_below,
                decision.acceptance.lower(),
                decision.acceptance.upper(),
                decision.reject_above,
            ];
            for units in Units::ALL {
                let judge = decision.readings(units, None)?;
                let reading = edges[place].to_float(units) + f64::from(steps) * 1e-7;
                for reading in [reading, edges[place].to_float(units)] {
                    let size = Size::from_float(reading, units)?;
                    prop_assert_eq!(judge.judge(reading), Some(decision.judge(size)), "{}", reading);
                }
            }
        }
    }
}
