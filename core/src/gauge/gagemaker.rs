//! Gauges by gagemaker classes, and by the ten percent rule.
use super::class::GagemakerClass;
use super::kinds::{GaugeBasis, GaugeError, GaugeForm, SHARE, STANDARD};
use super::places::Places;
use crate::{Limits, Size};

/// Each member takes its class's tolerance inward from the limit that it guards.
pub(super) fn places(form: GaugeForm, part: &Limits) -> Result<Places, GaugeError> {
    let class = coarsest_class(part)?;
    let (most, least) = match form.is_internal() {
        true => (part.lower(), part.upper()),
        false => (part.upper(), part.lower()),
    };
    let tolerance = |size| class.tolerance(size).ok_or(GaugeError::OutOfRange { size });
    let (go, no_go) = (tolerance(most)?.picometres(), tolerance(least)?.picometres());
    let masters = match form.has_masters() {
        true => Some([master_tolerance(most, go)?, master_tolerance(least, no_go)?]),
        false => None,
    };
    Ok(Places {
        class: Some(class),
        grade: None,
        standard: STANDARD,
        basis: if form == GaugeForm::Plug { GaugeBasis::Published } else { GaugeBasis::CommonPractice },
        go: [0, go],
        no_go: [0, no_go],
        worn: 0,
        masters,
    })
}

/// Five percent of the part's tolerance to each member, in whole picometres.
pub(super) fn places_by_share(part: &Limits) -> Result<Places, GaugeError> {
    let share = part.tolerance().picometres() / SHARE;
    if share == 0 {
        return Err(GaugeError::NoTolerance { size: part.lower() });
    }
    Ok(Places {
        class: None,
        grade: None,
        standard: "ten percent rule",
        basis: GaugeBasis::CommonPractice,
        go: [0, share],
        no_go: [0, share],
        worn: 0,
        masters: None,
    })
}

/// Of the coarsest class that takes no more than a tenth of the gauge's tolerance; of XXX where none does.
fn master_tolerance(size: Size, gauge: i64) -> Result<i64, GaugeError> {
    let tolerances = GagemakerClass::ALL.map(|class| class.tolerance(size).map(Size::picometres));
    let [Some(finest), ..] = tolerances else { return Err(GaugeError::OutOfRange { size }) };
    Ok(tolerances.into_iter().flatten().filter(|tolerance| 10 * tolerance <= gauge).max().unwrap_or(finest))
}

/// The coarsest class of which neither member takes more than its share of the part's tolerance.
fn coarsest_class(part: &Limits) -> Result<GagemakerClass, GaugeError> {
    let tolerance = part.tolerance();
    let served = |class: GagemakerClass| {
        let served_at = |size| {
            let served = class.tolerance(size).and_then(|gauge| gauge.checked_mul(SHARE));
            served.ok_or(GaugeError::OutOfRange { size })
        };
        Ok::<_, GaugeError>(served_at(part.lower())?.max(served_at(part.upper())?))
    };
    let least = served(GagemakerClass::Xxx)?;
    if tolerance == Size::ZERO {
        return Err(GaugeError::NoTolerance { size: part.lower() });
    }
    let fits = |class: &GagemakerClass| served(*class).is_ok_and(|served| served <= tolerance);
    GagemakerClass::ALL.into_iter().rev().find(fits).ok_or(GaugeError::NoClass { tolerance, least })
}
