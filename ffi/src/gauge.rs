//! Gauges of every form and scheme, and decision rules. Notation comes in as text; sizes go out in picometres.
use crate::guard::{guard, optional_size, place, text};
use crate::object::write;
use crate::objects::{tenths_decision, tenths_gauge};
use crate::status::tenths_status;
use crate::text::give;
use std::ffi::c_char;
use tenths::{
    Decision, DecisionRule, GagemakerClass, Gauge, GaugeForm, GaugeOptions, GaugeScheme, Limits, Size, Units,
};

/// A gauge of any form and scheme: `tenths_make_gauge("plug", "25 +0.021/0 mm", "ISO 1938-1", NULL, NULL, &gauge)`.
///
/// Forms: `plug`, `ring`, `snap`, `length`, `flush_pin`. Schemes: `B89.1.5`, `B89.1.6`, `10 percent`, `ISO 1938-1`.
/// A `wear` allowance moves a new GO in; `wear` may be null for none. Sizes are rounded to whole steps of
/// `resolution` so that no more parts pass; `resolution` may be null for exact sizes.
///
/// # Safety
/// The texts end with a NUL; `gauge->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_gauge(
    form: *const c_char,
    part: *const c_char,
    scheme: *const c_char,
    wear: *const c_char,
    resolution: *const c_char,
    gauge: *mut tenths_gauge,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (form, part, scheme, wear, resolution) = unsafe {
                (
                    text(form, "form")?,
                    text(part, "part")?,
                    text(scheme, "scheme")?,
                    optional_size(wear, "wear")?,
                    optional_size(resolution, "resolution")?,
                )
            };
            let options = GaugeOptions {
                scheme: GaugeScheme::parse(scheme)?,
                wear: wear.unwrap_or(Size::ZERO),
                resolution,
            };
            Ok(Gauge::new(GaugeForm::parse(form)?, &Limits::parse(part)?, &options)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(gauge, "gauge", Units::Metric, made) }
    })
}

/// What the members of a form of gauge prove, in English: GO, NO-GO, and when the envelope is asked for, a line each.
///
/// # Safety
/// `form` ends with a NUL; `proofs` is writable. Free the text with `tenths_text_free`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_gauge_proofs(form: *const c_char, proofs: *mut *mut c_char) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (form, proofs) = unsafe { (text(form, "form"), place(proofs, "proofs")?) };
        *proofs = std::ptr::null_mut();
        let [go, no_go] = GaugeForm::parse(form?)?.proves();
        *proofs = give(format!("{go}\n{no_go}\n{}\n", tenths::gauge::ENVELOPE));
        Ok(())
    })
}

/// The limits of a master disc or plug of a size and a gagemaker class, in picometres: half of the class's tolerance to
/// either side. `tenths_check_master("1 in", "X", &lower, &upper)`.
///
/// # Safety
/// The texts end with a NUL; `lower` and `upper` are writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_check_master(
    size: *const c_char,
    gagemaker_class: *const c_char,
    lower: *mut i64,
    upper: *mut i64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (size, class, lower, upper) = unsafe {
            (
                text(size, "size"),
                text(gagemaker_class, "gagemaker_class"),
                place(lower, "lower")?,
                place(upper, "upper")?,
            )
        };
        let master = GagemakerClass::parse(class?)?.master(Size::parse(size?)?)?;
        (*lower, *upper) = (master.lower().picometres(), master.upper().picometres());
        Ok(())
    })
}

/// The zones of a decision rule: `tenths_make_decision("10..10.1 mm", "0.02 mm", "ISO 14253-1", NULL, &decision)`.
///
/// `uncertainty` is the expanded one, of coverage factor 2. Rules: `simple`, `4:1` or another ratio, `ISO 14253-1`,
/// `ISO 14253-1:1998`, and after ASME B89.7.3.1 `stringent 0.5` and `relaxed 0.5`. The acceptance zone is rounded
/// into itself to whole steps of `resolution`; `resolution` may be null for exact sizes.
///
/// # Safety
/// The texts end with a NUL; `decision->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_decision(
    limits: *const c_char,
    uncertainty: *const c_char,
    rule: *const c_char,
    resolution: *const c_char,
    decision: *mut tenths_decision,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (limits, uncertainty, rule, resolution) = unsafe {
                (
                    text(limits, "limits")?,
                    text(uncertainty, "uncertainty")?,
                    text(rule, "rule")?,
                    optional_size(resolution, "resolution")?,
                )
            };
            let rule = DecisionRule::parse(rule)?;
            Ok(Decision::new(&Limits::parse(limits)?, Size::parse(uncertainty)?, rule, resolution)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(decision, "decision", Units::Metric, made) }
    })
}
