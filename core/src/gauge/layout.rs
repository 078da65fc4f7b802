//! Where the members of a gauge lie within the limits of the part.

use super::kinds::{GaugeError, GaugeForm, GaugeOptions, GaugeScheme};
use super::pair::{Gauge, GaugeMember};
use super::places::Places;
use super::{gagemaker, iso1938};
use crate::limits::{Limits, LimitsError};
use crate::size::Size;

impl Gauge {
    /// A gauge of a form for a part, after a scheme.
    ///
    /// # Errors
    /// [`GaugeError`]; in particular [`GaugeError::NoClass`] and [`GaugeError::NoGrade`] where the scheme has
    /// nothing fine enough for the tolerance.
    pub fn new(form: GaugeForm, part: &Limits, options: &GaugeOptions) -> Result<Gauge, GaugeError> {
        let places = match options.scheme {
            GaugeScheme::Gagemaker => gagemaker::places(form, part)?,
            GaugeScheme::TenPercent => gagemaker::places_by_share(part)?,
            GaugeScheme::Iso1938 => iso1938::places(form, part)?,
        };
        check_wear(form, part, options, &places)?;
        let inward = Inward { internal: form.is_internal(), part };
        let rounded = |limits| round_in(&limits, options.resolution);
        let member = |most, [near, far]: [i64; 2], master: Option<i64>, proves| {
            let limits = rounded(inward.limits(most, near, far)?)?;
            let about = |tolerance| inward.limits_about(most, places.centre(near, far), tolerance);
            let master = master.map(about).transpose()?;
            Ok::<_, GaugeError>(GaugeMember { limits, proves, master })
        };
        let wear = options.wear.picometres();
        let [go_proves, no_go_proves] = form.proves();
        let go = places.go.map(|place| place + wear);
        let go = member(true, go, places.masters.map(|masters| masters[0]), go_proves)?;
        let no_go = member(false, places.no_go, places.masters.map(|masters| masters[1]), no_go_proves)?;

        // A worn GO is scrap on the near side of a step.
        let wear_limit = inward.limits(true, places.worn, places.worn)?.lower();
        let wear_limit = match (options.resolution, form.is_internal()) {
            (None, _) => wear_limit,
            (Some(step), true) => wear_limit.round_up(step)?,
            (Some(step), false) => wear_limit.round_down(step)?,
        };
        let wear_master = match (places.masters, options.scheme) {
            (Some(masters), GaugeScheme::Iso1938) => {
                Some(inward.limits_about(true, places.worn, masters[0])?)
            }
            _ => None,
        };
        let (most, least) = inward.limits_of_part();
        let (worn, no_go_end) = match form.is_internal() {
            true => (most.checked_sub(wear_limit), no_go.limits.upper().checked_sub(least)),
            false => (wear_limit.checked_sub(most), least.checked_sub(no_go.limits.lower())),
        };
        let beyond = |distance: Option<Size>| distance.unwrap_or(Size::ZERO).max(Size::ZERO);
        let step = match form {
            GaugeForm::FlushPin => Some(step(&go.limits, &no_go.limits)?),
            _ => None,
        };
        Ok(Gauge {
            form,
            scheme: options.scheme,
            part: *part,
            gagemaker_class: places.class,
            grade: places.grade,
            standard: places.standard,
            basis: places.basis,
            go,
            no_go,
            wear_limit,
            wear_master,
            worn_go_passes: beyond(worn),
            no_go_passes: beyond(no_go_end),
            step,
        })
    }
}

/// The limits of a part as ends to count inward from.
struct Inward<'a> {
    internal: bool,
    part: &'a Limits,
}

impl Inward<'_> {
    /// The limits of most and of least material.
    fn limits_of_part(&self) -> (Size, Size) {
        let (lower, upper) = (self.part.lower(), self.part.upper());
        if self.internal { (lower, upper) } else { (upper, lower) }
    }

    /// Limits from `near` to `far` picometres in from an end of the part.
    fn limits(&self, most: bool, near: i64, far: i64) -> Result<Limits, GaugeError> {
        let (at_most, at_least) = self.limits_of_part();
        let (end, upward) = if most { (at_most, self.internal) } else { (at_least, !self.internal) };
        let deviation = |inward: i64| Size::from_picometres(if upward { inward } else { -inward });
        let (one, other) = (deviation(near), deviation(far));
        Ok(Limits::with_deviations(end, one.max(other), one.min(other))?)
    }

    /// Limits of a tolerance about a place.
    fn limits_about(&self, most: bool, place: i64, tolerance: i64) -> Result<Limits, GaugeError> {
        self.limits(most, place - tolerance / 2, place + tolerance / 2)
    }
}

/// The step between two lands that lie within their limits.
fn step(upper: &Limits, lower: &Limits) -> Result<Limits, GaugeError> {
    let between = |upper: Size, lower: Size| {
        upper.checked_sub(lower).ok_or(GaugeError::Limits(LimitsError::OutOfRange { nominal: upper }))
    };
    Ok(Limits::between(between(upper.lower(), lower.upper())?, between(upper.upper(), lower.lower())?)?)
}

fn check_wear(
    form: GaugeForm,
    part: &Limits,
    options: &GaugeOptions,
    places: &Places,
) -> Result<(), GaugeError> {
    let wear = options.wear;
    let refuse = |why| Err(GaugeError::Wear { wear, why });
    if wear == Size::ZERO {
        return Ok(());
    }
    if wear.is_negative() {
        return refuse("it must not be negative");
    }
    if options.scheme == GaugeScheme::Iso1938 {
        return refuse("ISO 1938-1 has its own");
    }
    if form == GaugeForm::FlushPin {
        return refuse("both lands of a flush pin guard the part alike");
    }
    // GO and NO-GO stay apart.
    let taken = wear.picometres().checked_add(places.go[1] + places.no_go[1]);
    match taken.is_some_and(|taken| taken < part.tolerance().picometres()) {
        true => Ok(()),
        false => refuse("GO would reach NO-GO"),
    }
}

/// Limits on whole steps, no wider than they were.
fn round_in(limits: &Limits, resolution: Option<Size>) -> Result<Limits, GaugeError> {
    let Some(resolution) = resolution else { return Ok(*limits) };
    let coarse = || GaugeError::Resolution { resolution, limits: *limits };
    if !resolution.is_positive() {
        return Err(coarse());
    }
    let (lower, upper) = (limits.lower().round_up(resolution)?, limits.upper().round_down(resolution)?);
    let nominal = limits.nominal();
    match (upper.checked_sub(nominal), lower.checked_sub(nominal)) {
        (Some(above), Some(below)) if below <= above => Ok(Limits::with_deviations(nominal, above, below)?),
        _ => Err(coarse()),
    }
}
