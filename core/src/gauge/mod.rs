//! Go and no-go gauges for plain holes, shafts, lengths and depths.
//!
//! The ten percent rule gives the gauges a tenth of the part's tolerance, half of it to each member, and both
//! take it from inside the part's limits. So a gauge that is within its own limits passes no part whose size is out;
//! it may refuse a good one that is that near to a limit. A part of bad form is another matter:
//! [`GaugeMember::proves`] says what each member shows of it. An allowance for wear moves GO further in; worn past the part's limit
//! it is scrap.
//!
//! The ISO scheme puts a new GO inside too, but its NO-GO astride the limit, and lets GO wear past the limit:
//! [`Gauge::no_go_passes`] and [`Gauge::worn_go_passes`] tell by how much a part may then be outside.

mod class;
mod functions;
mod gagemaker;
mod iso1938;
mod kinds;
mod layout;
mod pair;
mod places;
mod proof;

use crate::limits::Limits;
pub use class::GagemakerClass;
pub use functions::{CHECK_MASTER, GAUGE, check_master, gauge};
pub use kinds::*;
pub use pair::{ENVELOPE, Gauge, GaugeMember};

/// A plug gauge for a hole: GO at the lower limit and up, NO-GO at the upper limit and down.
///
/// Source: ASME B89.1.5-1998 for the classes and directions; the ten percent rule is common practice.
///
/// # Errors
/// [`GaugeError`]; in particular [`GaugeError::NoClass`] where no class is fine enough for the tolerance.
pub fn plug_gauge(hole: &Limits) -> Result<Gauge, GaugeError> {
    Gauge::new(GaugeForm::Plug, hole, &GaugeOptions::default())
}

/// A ring gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs. Gauge makers print the same for the rings of
/// ASME B89.1.6, which was not seen; their use is told as common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn ring_gauge(shaft: &Limits) -> Result<Gauge, GaugeError> {
    Gauge::new(GaugeForm::Ring, shaft, &GaugeOptions::default())
}

/// A snap gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs; their use for snap gauges is common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn snap_gauge(shaft: &Limits) -> Result<Gauge, GaugeError> {
    Gauge::new(GaugeForm::Snap, shaft, &GaugeOptions::default())
}

/// A gap gauge for an outside length: GO at the upper limit and down, NO-GO at the lower limit and up.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs; their use for lengths is common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn length_gauge(length: &Limits) -> Result<Gauge, GaugeError> {
    Gauge::new(GaugeForm::Length, length, &GaugeOptions::default())
}

/// A flush-pin gauge for a depth or a step: a land at the upper limit and down, one at the lower limit and up, and
/// the step between them.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs; their use for lands is common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn flush_pin_gauge(depth: &Limits) -> Result<Gauge, GaugeError> {
    Gauge::new(GaugeForm::FlushPin, depth, &GaugeOptions::default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::size::Size;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn limits(text: &str) -> Limits {
        Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn assert_gauge(gauge: Result<Gauge, GaugeError>, class: &str, go: &str, no_go: &str) {
        let gauge = gauge.unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(gauge.gagemaker_class.map(GagemakerClass::name), Some(class));
        assert_eq!([gauge.go.limits, gauge.no_go.limits], [go, no_go].map(limits));
    }

    // Printed: class, the upper size of GO and the lower size of NO-GO. Gauge maker's notes on the ten percent
    // rule, examples 0.4990/0.5010 in class Z and 0.250 +0.004 in class ZZ; the other ends are by hand.
    #[test]
    fn plugs_are_as_in_printed_examples() {
        let hole = |text| plug_gauge(&limits(text));
        assert_gauge(hole("0.499..0.501 in"), "Z", ".499 +.0001/0 in", ".501 +0/-.0001 in");
        assert_gauge(hole(".250 +.004/0 in"), "ZZ", ".250 +.0002/0 in", ".254 +0/-.0002 in");
    }

    // A printed example shares out 5 percent of 0.2 mm, without a class: GO up to 8.11, NO-GO down to 8.29 mm.
    // Gauge maker's note, example 8.1 +0.2. A class must stay within that.
    #[test]
    fn a_class_stays_within_the_printed_share() {
        let gauge = plug_gauge(&limits("8.1 +0.2/0 mm")).unwrap();
        assert!(limits("8.1..8.11 mm").contains(&gauge.go.limits));
        assert!(limits("8.29..8.3 mm").contains(&gauge.no_go.limits));
    }

    // Common practice, no source: the class table of ASME B89.1.5 and the ten percent rule, by hand.
    #[test]
    fn gauges_follow_the_rule() {
        let (hole, shaft) = (|text| plug_gauge(&limits(text)), |text| ring_gauge(&limits(text)));
        assert_gauge(hole("2.000..2.003 in"), "Y", "2 +.00012/0 in", "2.003 +0/-.00012 in");
        assert_gauge(hole("0.375..0.3755 in"), "XX", ".375 +.00002/0 in", ".3755 +0/-.00002 in");
        assert_gauge(shaft("0.498..0.500 in"), "Z", ".5 +0/-.0001 in", ".498 +.0001/0 in");
        assert_gauge(shaft("1.245..1.250 in"), "ZZ", "1.25 +0/-.00024 in", "1.245 +.00024/0 in");
        // Limits on either side of a step of the table: each member has the figure of its own size.
        assert_gauge(hole("0.8225..0.8275 in"), "ZZ", ".8225 +.0002/0 in", ".8275 +0/-.00024 in");
        assert_gauge(hole("0.8230..0.8271 in"), "Z", ".823 +.0001/0 in", ".8271 +0/-.00012 in");
        let length = length_gauge(&limits("0.498..0.500 in")).unwrap();
        assert_eq!(length.go.limits, limits(".5 +0/-.0001 in"));
        let basis =
            [plug_gauge, ring_gauge, length_gauge].map(|form| form(&limits("25 ±0.1 mm")).unwrap().basis);
        assert_eq!(basis.map(GaugeBasis::name), ["published", "common practice", "common practice"]);
    }

    // Printed: plug 1.0000 in class X, GO to 1.00006 in; master ±0.00003 in. Gauge maker's note.
    #[test]
    fn a_class_has_its_printed_tolerance() {
        assert_eq!(GagemakerClass::X.tolerance(size("1 in")), Some(size("60 µin")));
    }

    #[test]
    fn what_cannot_be_gauged_is_refused() {
        // 20 · 10 µin = 0.0002 in is the least that class XXX serves below 0.825 in.
        assert_eq!(
            plug_gauge(&limits(".5 +.0002/0 in")).map(|gauge| gauge.gagemaker_class),
            Ok(Some(GagemakerClass::Xxx))
        );
        assert_eq!(
            plug_gauge(&limits(".5 +.00019/0 in")),
            Err(GaugeError::NoClass { tolerance: size(".00019 in"), least: size(".0002 in") })
        );
        let at = limits("12 ±0 mm");
        assert_eq!(ring_gauge(&at), Err(GaugeError::NoTolerance { size: size("12 mm") }));
        for (text, outside) in [
            ("0.010..0.020 in", ".010 in"),
            ("12..12.0101 in", "12.0101 in"),
            ("12 max mm", "0 mm"),
            ("-5..5 mm", "-5 mm"),
            ("0..0 mm", "0 mm"),
        ] {
            assert_eq!(
                length_gauge(&limits(text)),
                Err(GaugeError::OutOfRange { size: size(outside) }),
                "{text}"
            );
        }
        assert!(plug_gauge(&limits("12..12.010 in")).is_ok());
    }

    fn refusal(form: GaugeForm, part: &str, options: GaugeOptions) -> String {
        Gauge::new(form, &limits(part), &options).unwrap_err().to_string()
    }

    #[test]
    fn every_refusal_says_why() {
        let iso = GaugeOptions::of(GaugeScheme::Iso1938);
        let wear = |wear, scheme| GaugeOptions { wear: size(wear), ..GaugeOptions::of(scheme) };
        let step = |step| GaugeOptions { resolution: Some(size(step)), ..GaugeOptions::default() };
        for (form, part, options, why) in [
            (GaugeForm::Plug, "25 +0.012/0 mm", iso, "IT6, 0.013 mm at this size"),
            (GaugeForm::Plug, "500.1 +0.1/0 mm", iso, "up to 500 mm"),
            (GaugeForm::FlushPin, "25 +0.1/0 mm", iso, "has no flush_pin gauge"),
            (GaugeForm::Plug, "25 +0.021/0 mm", wear("1 um", GaugeScheme::Iso1938), "has its own"),
            (GaugeForm::Ring, "25 ±0.1 mm", wear("-1 um", GaugeScheme::Gagemaker), "must not be negative"),
            (
                GaugeForm::FlushPin,
                "25 ±0.1 mm",
                wear("1 um", GaugeScheme::TenPercent),
                "guard the part alike",
            ),
            (GaugeForm::Plug, "25 ±0.1 mm", wear("0.18 mm", GaugeScheme::TenPercent), "would reach NO-GO"),
            (GaugeForm::Plug, "25 ±0.1 mm", wear("9e9 mm", GaugeScheme::TenPercent), "would reach NO-GO"),
            (GaugeForm::Plug, ".5005..0.501 in", step("0.001 in"), "finer resolution"),
            (GaugeForm::Plug, "0.499..0.501 in", step("0 in"), "finer resolution"),
        ] {
            let text = refusal(form, part, options);
            assert!(text.contains(why), "{text}");
        }
        assert!(GaugeScheme::parse("B89").unwrap_err().to_string().contains("is not a gauge scheme"));
        assert!(GaugeForm::parse("gap").unwrap_err().to_string().contains("is not a form of gauge"));
        for scheme in GaugeScheme::ALL {
            assert_eq!(GaugeScheme::parse(scheme.name()), Ok(scheme));
        }
    }

    // By hand: GO 0.499 to 0.4991 in is 12.6746 to 12.67714 mm, and NO-GO 0.5009 to 0.501 in 12.72286 to 12.7254 mm.
    #[test]
    fn sizes_are_rounded_to_where_fewer_parts_pass() {
        let options = GaugeOptions { resolution: Some(size("0.001 mm")), ..GaugeOptions::default() };
        let part = limits("0.499..0.501 in");
        let plug = Gauge::new(GaugeForm::Plug, &part, &options).unwrap();
        assert_eq!((plug.go.limits.lower(), plug.go.limits.upper()), (size("12.675 mm"), size("12.677 mm")));
        assert_eq!(
            (plug.no_go.limits.lower(), plug.no_go.limits.upper()),
            (size("12.723 mm"), size("12.725 mm"))
        );
        assert_eq!(plug.wear_limit, size("12.675 mm"));
        let ring = Gauge::new(GaugeForm::Ring, &part, &options).unwrap();
        assert_eq!((ring.go.limits.upper(), ring.wear_limit), (size("12.725 mm"), size("12.725 mm")));
    }

    // By hand: the lands of 10..10.2 mm take class ZZ, 200 µin = 5.08 µm each.
    #[test]
    fn a_flush_pin_has_a_step() {
        let gauge = flush_pin_gauge(&limits("10..10.2 mm")).unwrap();
        assert_eq!(gauge.step, Some(limits("0.18984..0.2 mm")));
        assert_eq!(
            [gauge.go.limits, gauge.no_go.limits].map(|limits| limits.nominal()),
            [size("10.2 mm"), size("10 mm")]
        );
        assert_eq!(plug_gauge(&limits("10..10.2 mm")).unwrap().step, None);
    }

    // By hand: a Z ring at 0.5 in has 100 µin, a tenth of which is class XXX, 10 µin: 5 to either side.
    #[test]
    fn rings_and_snap_gauges_have_masters() {
        let part = limits("0.498..0.500 in");
        for form in [GaugeForm::Ring, GaugeForm::Snap] {
            let gauge = Gauge::new(form, &part, &GaugeOptions::default()).unwrap();
            assert_eq!(gauge.go.master, Some(limits(".5 ±.000005 in")));
            assert_eq!(gauge.no_go.master, Some(limits(".498 ±.000005 in")));
            assert_eq!(gauge.wear_master, None);
        }
        // ISO: about the middle of each member, Hp = 1.5 µm, and about the worn size.
        let gauge =
            Gauge::new(GaugeForm::Snap, &limits("30 +0/-0.013 mm"), &GaugeOptions::of(GaugeScheme::Iso1938));
        let gauge = gauge.unwrap();
        let ends = |limits: Option<Limits>| limits.map(|limits| (limits.lower(), limits.upper()));
        assert_eq!(ends(gauge.go.master), Some((size("29.99625 mm"), size("29.99775 mm"))));
        assert_eq!(ends(gauge.wear_master), Some((size("30.00225 mm"), size("30.00375 mm"))));
        assert_eq!(plug_gauge(&part).unwrap().go.master, None);
    }

    fn any_options() -> impl Strategy<Value = GaugeOptions> {
        let steps = prop_oneof![Just(None), (1i64..1_000_000).prop_map(Some)];
        (0..3usize, 0i64..50_000_000, steps).prop_map(|(scheme, wear, step)| {
            let scheme = GaugeScheme::ALL[scheme];
            let wear = if scheme == GaugeScheme::Iso1938 { 0 } else { wear };
            GaugeOptions {
                scheme,
                wear: Size::from_picometres(wear),
                resolution: step.map(Size::from_picometres),
            }
        })
    }

    proptest! {
        #[test]
        fn a_gauge_passes_no_bad_part(lower in 260_000_000i64..300_000_000_000, tolerance in 1i64..2_000_000_000) {
            let part =
                Limits::between(Size::from_picometres(lower), Size::from_picometres(lower + tolerance))?;
            for form in [GaugeForm::Plug, GaugeForm::Ring, GaugeForm::Length] {
                let Ok(gauge) = Gauge::new(form, &part, &GaugeOptions::default()) else { continue };
                let (go, no_go) = (gauge.go.limits, gauge.no_go.limits);
                prop_assert!(part.contains(&go) && part.contains(&no_go));
                prop_assert!(go.tolerance().picometres() * 20 <= tolerance);
                prop_assert!(no_go.tolerance().picometres() * 20 <= tolerance);
                prop_assert_eq!(form == GaugeForm::Plug, go.upper() < no_go.lower());
                let coarser = GagemakerClass::ALL.into_iter().find(|class| Some(*class) > gauge.gagemaker_class);
                if let Some(coarser) = coarser {
                    let share = |size| coarser.tolerance(size).map(|size| size.picometres() * 20);
                    prop_assert!(share(part.lower()).max(share(part.upper())) > Some(tolerance));
                }
            }
        }

        // A part passes where GO goes and NO-GO does not. Whatever sizes new members have within their limits, it
        // is then inside its own limits, but for what the result tells of an ISO NO-GO; and so with a worn GO.
        #[test]
        fn a_part_that_passes_is_good(
            lower in 260_000_000i64..490_000_000_000,
            tolerance in 1i64..1_000_000_000,
            options in any_options(),
            place in 0.0..1.0f64,
            beyond in -2_000_000i64..100_000_000,
        ) {
            let part =
                Limits::between(Size::from_picometres(lower), Size::from_picometres(lower + tolerance))?;
            let count = |size: Size| size.picometres();
            for form in GaugeForm::ALL {
                let options = if form == GaugeForm::FlushPin { GaugeOptions { wear: Size::ZERO, ..options } } else { options };
                let Ok(gauge) = Gauge::new(form, &part, &options) else { continue };
                let made = |limits: &Limits| {
                    count(limits.lower()) + (count(limits.tolerance()) as f64 * place) as i64
                };
                let (go, no_go) = (made(&gauge.go.limits), made(&gauge.no_go.limits));
                // In each case from the hole's side: the shaft's mirrored.
                let sign = if form == GaugeForm::Plug { 1 } else { -1 };
                let passes = |part: i64, go: i64| sign * part >= sign * go && sign * part < sign * no_go;
                let (most, least) = if sign > 0 { (lower, lower + tolerance) } else { (lower + tolerance, lower) };
                for part_size in [most - sign * beyond, least + sign * beyond, go, no_go - sign] {
                    let outside = (sign * (most - part_size), sign * (part_size - least));
                    if passes(part_size, go) {
                        prop_assert!(outside.0 <= 0, "{form:?} {options:?} {outside:?}");
                        prop_assert!(outside.1 <= count(gauge.no_go_passes));
                    }
                    if passes(part_size, count(gauge.wear_limit)) {
                        prop_assert!(outside.0 <= count(gauge.worn_go_passes));
                    }
                }
                // What is told is no more than the scheme's doing.
                let iso = options.scheme == GaugeScheme::Iso1938;
                prop_assert!(iso || gauge.worn_go_passes == Size::ZERO && gauge.no_go_passes == Size::ZERO);
                prop_assert!(iso || part.contains(&gauge.go.limits) && part.contains(&gauge.no_go.limits));
                prop_assert!(sign * count(gauge.wear_limit) <= sign * go);
                prop_assert!(sign * go < sign * no_go);
            }
        }
    }
}
