//! Threads and flats on the outside of the workpiece: what later cuts may take away.
use super::outside::End;
use crate::{Limits, Size};

/// What is on the outside.
#[derive(Clone)]
pub(in crate::plan) enum FeatureKind {
    /// A thread with the limits of its major diameter.
    Thread { designation: String, major: Limits },
    /// Flats, milled on this diameter to this size across.
    Flats { diameter: Size, across: Size },
}

/// A thread or flats, and where they lie.
#[derive(Clone)]
pub(in crate::plan) struct Feature {
    pub(in crate::plan) kind: FeatureKind,
    pub(in crate::plan) end: End,
    /// How far it reaches from its end; nothing where the plan does not say.
    pub(in crate::plan) length: Option<Size>,
    /// The operation, counted from 0.
    pub(in crate::plan) index: usize,
}

/// How a later cut meets a thread or flats.
#[derive(Clone, Copy, PartialEq)]
pub(in crate::plan) enum Met {
    /// It takes a part of the length.
    Partly,
    /// It passes over all of it.
    Wholly,
}

impl Feature {
    /// The words for it: `the thread M12-6g`.
    pub(in crate::plan) fn words(&self) -> String {
        match &self.kind {
            FeatureKind::Thread { designation, .. } => format!("the thread {designation}"),
            FeatureKind::Flats { .. } => "the flats".into(),
        }
    }

    /// Whether a diameter is that which it stands on.
    fn stands_on(&self, diameter: Size) -> bool {
        match &self.kind {
            FeatureKind::Thread { major, .. } => major.accepts(diameter),
            FeatureKind::Flats { .. } => false,
        }
    }

    /// Whether a cut to a diameter leaves it whole.
    fn is_below(&self, left: Size) -> bool {
        match &self.kind {
            FeatureKind::Thread { major, .. } => left >= major.lower(),
            FeatureKind::Flats { diameter, .. } => left >= *diameter,
        }
    }

    /// How a cut round the outside meets it, to a diameter. Where either of their places is not known, a cut meets a
    /// thread if it starts on a turned diameter that the thread stands on.
    pub(in crate::plan) fn met(
        &self,
        turned: Option<Size>,
        left: Size,
        reach: Option<(End, Size)>,
        part: Option<Size>,
    ) -> Option<Met> {
        if self.is_below(left) {
            return None;
        }
        let (Some(own), Some((end, reach))) = (self.length, reach) else {
            return turned.is_some_and(|start| self.stands_on(start)).then_some(Met::Wholly);
        };
        if end == self.end {
            return Some(if reach >= own { Met::Wholly } else { Met::Partly });
        }
        let both = own.checked_add(reach)?;
        match part? {
            part if reach >= part => Some(Met::Wholly),
            part if both > part => Some(Met::Partly),
            _ => None,
        }
    }

    /// Whether jaws at an end lie on it.
    pub(in crate::plan) fn is_gripped(&self, end: End, grip: Option<Size>, part: Option<Size>) -> bool {
        let Some(own) = self.length else { return false };
        let reaches = || Some(own.checked_add(grip?)? > part?);
        end == self.end || reaches() == Some(true)
    }
}
