//! When inspection becomes tightened or reduced, by the lots before.
//!
//! Source: the switching rules of ISO 2859-1:1999, from memory; the standard was not seen.
use super::error::SamplingError;
use super::kinds::{InspectionSeverity, LotVerdict};
use super::plan::SamplingPlan;
use crate::error::{excerpt, plural};
use std::fmt;
use tenths_macros::{Object, accessors};

/// Rejected lots that tighten normal inspection, and the number of consecutive lots among which they are counted.
const TO_TIGHTENED: (usize, u64) = (2, 5);
/// Accepted lots in a row that end tightened inspection.
const TO_NORMAL: u32 = 5;
/// The switching score that allows reduced inspection.
const TO_REDUCED: u32 = 30;
/// Lots rejected under tightened inspection that stop acceptance.
const TO_STOP: u32 = 5;

/// Where the inspection of a series of lots stands. It begins with normal inspection.
/// Only lots on original inspection count, not those that come back after sorting.
#[derive(Clone, PartialEq, Eq, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct Switching {
    /// How strictly the next lot is inspected.
    pub severity: InspectionSeverity,
    /// Whether acceptance stops until the supplier has improved: five lots were rejected under tightened inspection.
    /// Afterwards, begin again with tightened inspection.
    pub discontinued: bool,
    /// Lots inspected so far.
    pub lots: u64,
    /// The numbers of the lots rejected among the last five, since the last switch.
    pub rejected: Vec<u64>,
    /// Lots accepted in a row since the last switch.
    pub accepted_in_a_row: u32,
    /// Lots rejected since tightened inspection began.
    pub tightened_rejections: u32,
    /// The switching score, under normal inspection.
    pub switching_score: u32,
}

impl Switching {
    /// Before the first lot, with normal inspection unless another is asked for.
    pub fn start(severity: InspectionSeverity) -> Switching {
        Switching {
            severity,
            discontinued: false,
            lots: 0,
            rejected: vec![],
            accepted_in_a_row: 0,
            tightened_rejections: 0,
            switching_score: 0,
        }
    }

    /// The state after a lot.
    ///
    /// `points` are those of [`super::SamplingPlan::switching_points`]; without them the score stays where it is, or falls
    /// to 0 with a rejected lot. `steady` says that production is steady and that whoever is responsible wants reduced
    /// inspection: with it, a score of 30 reduces the inspection, and without it reduced inspection ends.
    #[must_use]
    pub fn after(&self, verdict: LotVerdict, points: Option<u32>, steady: bool) -> Switching {
        if self.discontinued || verdict == LotVerdict::NextSample {
            return self.clone();
        }
        let mut next = self.clone();
        next.lots = self.lots.saturating_add(1);
        let accepted = verdict != LotVerdict::Rejected;
        next.accepted_in_a_row = if accepted { self.accepted_in_a_row.saturating_add(1) } else { 0 };
        if !accepted {
            next.rejected.push(next.lots);
        }
        let (count, among) = TO_TIGHTENED;
        next.rejected.retain(|number| number.saturating_add(among) > next.lots);
        match self.severity {
            InspectionSeverity::Normal => {
                next.switching_score = match points {
                    Some(0) => 0,
                    Some(points) if accepted => self.switching_score.saturating_add(points),
                    None if accepted => self.switching_score,
                    _ => 0,
                };
                if next.rejected.len() >= count {
                    return next.switched(InspectionSeverity::Tightened);
                }
                if steady && next.may_reduce() {
                    return next.switched(InspectionSeverity::Reduced);
                }
            }
            InspectionSeverity::Tightened => {
                next.tightened_rejections = self.tightened_rejections.saturating_add(u32::from(!accepted));
                next.discontinued = next.tightened_rejections >= TO_STOP;
                if next.accepted_in_a_row >= TO_NORMAL {
                    return next.switched(InspectionSeverity::Normal);
                }
            }
            InspectionSeverity::Reduced => {
                if !steady || verdict != LotVerdict::Accepted {
                    return next.switched(InspectionSeverity::Normal);
                }
            }
        }
        next
    }

    /// The state after one more lot, inspected by a plan of this severity with `found[k]` nonconforming pieces in sample k.
    /// `steady` is that of [`Switching::after`].
    ///
    /// # Errors
    /// [`SamplingError::Severity`] for a plan of another severity, [`SamplingError::Found`] for samples that cannot be, or
    /// do not decide yet.
    pub fn after_lot(
        &self,
        plan: &SamplingPlan,
        found: &[u64],
        steady: bool,
    ) -> Result<Switching, SamplingError> {
        if plan.has_severity() && plan.severity != self.severity {
            return Err(SamplingError::Severity { plan: plan.severity, inspection: self.severity });
        }
        match plan.judge(found)? {
            LotVerdict::NextSample => Err(SamplingError::Found {
                reason: "these samples do not decide on the lot yet: give the next one too".into(),
            }),
            verdict => Ok(self.after(verdict, plan.switching_points(found)?, steady)),
        }
    }

    /// The state after a series of lots as text: `A` for an accepted one and `R` for a rejected one, the points of each
    /// behind it where they are known, with spaces between: `A3 A3 R0 A2`.
    ///
    /// # Errors
    /// [`SamplingError::Unknown`].
    pub fn after_all(&self, lots: &str, steady: bool) -> Result<Switching, SamplingError> {
        lots.split_whitespace().try_fold(self.clone(), |state, lot| {
            let unclear = || SamplingError::Unknown {
                what: "a lot",
                text: excerpt(lot),
                expected: "A or R, with its points of the switching score, e.g. A3".into(),
            };
            let mut letters = lot.chars();
            let verdict = match letters.next() {
                Some('A') => LotVerdict::Accepted,
                Some('R') => LotVerdict::Rejected,
                _ => return Err(unclear()),
            };
            let points = match letters.as_str() {
                "" => None,
                points => Some(points.parse().ok().filter(|points| *points <= 3).ok_or_else(unclear)?),
            };
            Ok(state.after(verdict, points, steady))
        })
    }

    fn switched(self, severity: InspectionSeverity) -> Switching {
        Switching { lots: self.lots, ..Switching::start(severity) }
    }
}

#[accessors]
impl Switching {
    /// Whether the switching score allows reduced inspection.
    #[field]
    pub fn may_reduce(&self) -> bool {
        self.severity == InspectionSeverity::Normal && self.switching_score >= TO_REDUCED
    }
}

impl fmt::Display for Switching {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let stopped = if self.discontinued { ", stopped" } else { "" };
        write!(f, "{} inspection after {}{stopped}", self.severity.name(), plural(self.lots, "lot"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use InspectionSeverity::{Normal, Reduced, Tightened};
    use LotVerdict::{Accepted, AcceptedBackToNormal};

    /// After lots written as letters: A accepted with three points, R rejected.
    fn after(start: Switching, lots: &str) -> Switching {
        start.after_all(&lots.replace('A', "A3 ").replace('R', "R0 "), true).unwrap()
    }

    // By hand from the rules.
    #[test]
    fn two_of_five_tighten() {
        let start = Switching::start(Normal);
        for (lots, severity) in [
            ("RR", Tightened),
            ("RAAAR", Tightened),
            ("RAAAAR", Normal),
            ("RAAAARR", Tightened),
            ("RAAAARAAAR", Tightened),
            ("AAAAAAAAA", Normal),
            ("AAAAAAAAAA", Reduced),
            ("AAAAAAAAAAR", Normal),
            ("RRAAAAA", Normal),
            ("RRAAAARAAAA", Tightened),
        ] {
            assert_eq!(after(start.clone(), lots).severity, severity, "{lots}");
        }
        let back = after(start.clone(), "RRAAAAA");
        assert_eq!((back.lots, back.switching_score, back.accepted_in_a_row), (7, 0, 0));
        let stopped = after(start, "RRARARARARR");
        assert!(stopped.discontinued && after(stopped.clone(), "AAAAAA") == stopped);
        assert_eq!(stopped.lots, 11);
    }

    #[test]
    fn a_lot_is_inspected_by_a_plan_of_its_severity() {
        let plan = |severity| SamplingPlan::parse("80/1/2", None, severity).unwrap();
        let tightened = Switching::start(Tightened);
        assert_eq!(
            tightened.after_lot(&plan(Normal), &[0], false).unwrap_err().to_string(),
            "the plan is for normal inspection, and the next lot is under tightened inspection. Fix: make the plan with \
             severity='tightened'"
        );
        let next = tightened.after_lot(&plan(Tightened), &[0], false).unwrap();
        assert_eq!((next.to_string().as_str(), next.lots), ("tightened inspection after 1 lot", 1));
        let undecided = SamplingPlan::parse("50/1/4, 50/4/5", None, Tightened).unwrap();
        assert!(tightened.after_lot(&undecided, &[2], false).is_err());
    }

    #[test]
    fn reduced_inspection_needs_steady_production() {
        let mut state = Switching::start(Normal);
        for _ in 0..12 {
            state = state.after(Accepted, Some(3), false);
        }
        assert!(state.may_reduce() && state.severity == Normal);
        let reduced = state.after(Accepted, Some(2), true);
        assert_eq!(reduced.severity, Reduced);
        assert_eq!(reduced.after(Accepted, None, true).severity, Reduced);
        assert_eq!(reduced.after(Accepted, None, false).severity, Normal);
        assert_eq!(reduced.after(AcceptedBackToNormal, None, true).severity, Normal);
        for lots in ["B", "A9", "A-1", "AA", "A3,R"] {
            assert!(state.after_all(lots, true).is_err(), "{lots}");
        }
        // A lot that the next smaller AQL would have rejected sets the score back.
        assert_eq!(state.after(Accepted, Some(0), false).switching_score, 0);
    }
}
