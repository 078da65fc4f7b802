//! Gauges of every form and scheme, and decision rules. Notation comes in as text; sizes go out in picometres.
use crate::guard::{guard, optional_size, place, sized, text};
use crate::status::tenths_status;
use crate::text::give;
use std::ffi::c_char;
use tenths::{
    Decision, DecisionRule, GagemakerClass, Gauge, GaugeBasis, GaugeForm, GaugeOptions, GaugeScheme, Limits,
    Size,
};

/// A pair of gauges, in picometres: an inch is 25 400 000 000 of them. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_gauge_pair {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_gauge_pair)`.
    pub struct_size: usize,
    /// The limits to which the GO member is made, of a flush pin the land for the upper limit: the lower one.
    pub go_lower: i64,
    /// The upper one.
    pub go_upper: i64,
    /// The limits to which the NO-GO member is made: the lower one.
    pub no_go_lower: i64,
    /// The upper one.
    pub no_go_upper: i64,
    /// The size at which a worn GO is scrap.
    pub wear_limit: i64,
    /// By how much a GO at its wear limit lets a part pass beyond the limit of most material.
    pub worn_go_passes: i64,
    /// By how much a new NO-GO may let a part pass beyond the limit of least material.
    pub no_go_passes: i64,
    /// The limits of a master for GO, 0 where there is none: the lower one.
    pub go_master_lower: i64,
    /// The upper one.
    pub go_master_upper: i64,
    /// The limits of a master for NO-GO, 0 where there is none: the lower one.
    pub no_go_master_lower: i64,
    /// The upper one.
    pub no_go_master_upper: i64,
    /// The limits of a master for the worn GO, 0 where there is none: the lower one.
    pub wear_master_lower: i64,
    /// The upper one.
    pub wear_master_upper: i64,
    /// The step between the lands of a flush pin, 0 for the others: its lower limit.
    pub step_lower: i64,
    /// Its upper limit.
    pub step_upper: i64,
    /// The gagemaker class: 0 for XXX, then XX, X, Y, Z, up to 5 for ZZ; -1 in the other schemes.
    pub gagemaker_class: i32,
    /// The tolerance grade for which the ISO scheme was read, such as 7; 0 in the other schemes.
    pub grade: i32,
    /// 1 where the figures are published for this form of gauge, 0 where using them is common practice, 2 where they
    /// are from memory.
    pub published: i32,
}

/// A gauge of any form and scheme: `tenths_make_gauge("plug", "25 +0.021/0 mm", "ISO 1938-1", NULL, NULL, &pair)`.
///
/// Forms: `plug`, `ring`, `snap`, `length`, `flush_pin`. Schemes: `B89.1.5`, `B89.1.6`, `10 percent`, `ISO 1938-1`.
/// A `wear` allowance moves a new GO in; `wear` may be null for none. Sizes are rounded to whole steps of
/// `resolution` so that no more parts pass; `resolution` may be null for exact sizes.
///
/// # Safety
/// The texts end with a NUL; `gauge->struct_size` tells the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_gauge(
    form: *const c_char,
    part: *const c_char,
    scheme: *const c_char,
    wear: *const c_char,
    resolution: *const c_char,
    gauge: *mut tenths_gauge_pair,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (struct_size, form, part, scheme, wear, resolution) = unsafe {
            (
                sized(gauge, "gauge", "tenths_gauge_pair")?,
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
        let made = Gauge::new(GaugeForm::parse(form)?, &Limits::parse(part)?, &options)?;
        let ends = |limits: Option<Limits>| match limits {
            Some(limits) => (limits.lower().picometres(), limits.upper().picometres()),
            None => (0, 0),
        };
        let (go_lower, go_upper) = ends(Some(made.go.limits));
        let (no_go_lower, no_go_upper) = ends(Some(made.no_go.limits));
        let (go_master_lower, go_master_upper) = ends(made.go.master);
        let (no_go_master_lower, no_go_master_upper) = ends(made.no_go.master);
        let (wear_master_lower, wear_master_upper) = ends(made.wear_master);
        let (step_lower, step_upper) = ends(made.step);
        let pair = tenths_gauge_pair {
            struct_size,
            go_lower,
            go_upper,
            no_go_lower,
            no_go_upper,
            wear_limit: made.wear_limit.picometres(),
            worn_go_passes: made.worn_go_passes.picometres(),
            no_go_passes: made.no_go_passes.picometres(),
            go_master_lower,
            go_master_upper,
            no_go_master_lower,
            no_go_master_upper,
            wear_master_lower,
            wear_master_upper,
            step_lower,
            step_upper,
            gagemaker_class: made.class.map_or(-1, |class| class as i32),
            grade: made.grade.map_or(0, i32::from),
            published: match made.basis {
                GaugeBasis::Published => 1,
                GaugeBasis::CommonPractice => 0,
                GaugeBasis::Memory => 2,
            },
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { gauge.write(pair) };
        Ok(())
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

/// The zones of a decision rule, in picometres. Set `struct_size` before the call.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_decision_zones {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_decision_zones)`.
    pub struct_size: usize,
    /// By how much the acceptance zone is drawn in at each limit; negative where it is drawn out.
    pub guard_band: i64,
    /// The least size that is accepted.
    pub accept_lower: i64,
    /// The greatest one.
    pub accept_upper: i64,
    /// A reading below this is rejected.
    pub reject_below: i64,
    /// A reading above this is rejected. What is neither accepted nor rejected proves nothing.
    pub reject_above: i64,
    /// The tolerance over twice the uncertainty: the N of N : 1.
    pub ratio: f64,
}

/// The zones of a decision rule: `tenths_decision("10..10.1 mm", "0.02 mm", "ISO 14253-1", NULL, &zones)`.
///
/// `uncertainty` is the expanded one, of coverage factor 2. Rules: `simple`, `4:1` or another ratio, `ISO 14253-1`,
/// `ISO 14253-1:1998`, and after ASME B89.7.3.1 `stringent 0.5` and `relaxed 0.5`. The acceptance zone is rounded
/// into itself to whole steps of `resolution`; `resolution` may be null for exact sizes.
///
/// # Safety
/// The texts end with a NUL; `zones->struct_size` tells the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_decision(
    limits: *const c_char,
    uncertainty: *const c_char,
    rule: *const c_char,
    resolution: *const c_char,
    zones: *mut tenths_decision_zones,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (struct_size, limits, uncertainty, rule, resolution) = unsafe {
            (
                sized(zones, "zones", "tenths_decision_zones")?,
                text(limits, "limits")?,
                text(uncertainty, "uncertainty")?,
                text(rule, "rule")?,
                optional_size(resolution, "resolution")?,
            )
        };
        let rule = DecisionRule::parse(rule)?;
        let made = Decision::new(&Limits::parse(limits)?, Size::parse(uncertainty)?, rule, resolution)?;
        let made = tenths_decision_zones {
            struct_size,
            guard_band: made.guard_band.picometres(),
            accept_lower: made.acceptance.lower().picometres(),
            accept_upper: made.acceptance.upper().picometres(),
            reject_below: made.reject_below.picometres(),
            reject_above: made.reject_above.picometres(),
            ratio: made.ratio(),
        };
        // SAFETY: the struct is at least as large as ours.
        unsafe { zones.write(made) };
        Ok(())
    })
}
