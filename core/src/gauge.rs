//! Go and no-go gauges for plain holes, shafts and lengths.
//!
//! The ten percent rule gives the gauges a tenth of the part's tolerance, half of it to each member, and both
//! take it from inside the part's limits. So the size of the gauge never lets a bad part pass; it may refuse a
//! good one that is that near to a limit. There is no allowance for wear: a GO member worn past the part's
//! limit is scrap.

mod gagemaker;

use serde::Serialize;

use crate::limits::{Limits, LimitsError};
use crate::size::Size;
use gagemaker::{ROWS, Row, STANDARD};

/// What is gauged, and with what.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum GaugeForm {
    /// A cylindrical plug, for a hole.
    Plug,
    /// A plain ring, for a shaft.
    Ring,
    /// A gap between parallel faces, for an outside length.
    Length,
}

/// A class of gagemaker tolerance, from the finest to the coarsest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum GagemakerClass {
    /// XXX.
    Xxx,
    /// XX.
    Xx,
    /// X.
    X,
    /// Y.
    Y,
    /// Z.
    Z,
    /// ZZ.
    Zz,
}

/// On what the use of the standard's figures rests.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize)]
pub enum GaugeBasis {
    /// The standard gives its figures for this form of gauge.
    #[serde(rename = "published")]
    Published,
    /// The trade applies the same figures to this form of gauge.
    #[serde(rename = "common practice")]
    CommonPractice,
}

/// One member of a pair of gauges.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct GaugeMember {
    /// The limits to which the member is made. Their nominal size is the limit of the part that it guards.
    pub limits: Limits,
    /// What is known of a part that this member judges good.
    pub proves: &'static str,
}

/// A pair of go and no-go gauges.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Gauge {
    /// What is gauged, and with what.
    pub form: GaugeForm,
    /// The coarsest class that the ten percent rule allows.
    pub class: GagemakerClass,
    /// The standard whose figures were taken, with its edition.
    pub standard: &'static str,
    /// On what the use of these figures rests.
    pub basis: GaugeBasis,
    /// The member that goes into or over a good part.
    pub go: GaugeMember,
    /// The member that does not.
    pub no_go: GaugeMember,
}

/// Why no gauge is offered.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum GaugeError {
    /// Limits that leave a gauge no tolerance.
    #[error("a part at {size} with no tolerance cannot be gauged by limits")]
    NoTolerance {
        /// Both limits of the part.
        size: Size,
    },
    /// A limit beyond the table, or not positive.
    #[error(
        "a gauge for {size} is outside {STANDARD}: sizes over 0.010 in (0.254 mm), up to 12.010 in (305.054 mm)"
    )]
    OutOfRange {
        /// The limit of the part.
        size: Size,
    },
    /// Every class takes more than the ten percent rule gives.
    #[error(
        "no class is fine enough: the part's tolerance is {tolerance}, and the finest class, XXX, \
         serves {least} or more at this size; measure the part instead"
    )]
    NoClass {
        /// The tolerance of the part.
        tolerance: Size,
        /// The least tolerance of a part that the finest class can serve.
        least: Size,
    },
    /// The limits of a member could not be formed.
    #[error(transparent)]
    Limits(#[from] LimitsError),
}

/// The standard of the classes, with its edition.
pub const fn standard() -> &'static str {
    STANDARD
}

/// Each member has a twentieth of the part's tolerance: 5 percent, half of the ten.
const SHARE: i64 = 20;
const PICOMETRES_PER_MICROINCH: i64 = 25_400;

impl GagemakerClass {
    /// From the finest to the coarsest.
    pub const ALL: [GagemakerClass; 6] = [Self::Xxx, Self::Xx, Self::X, Self::Y, Self::Z, Self::Zz];

    /// `XXX` to `ZZ`.
    pub const fn name(self) -> &'static str {
        ["XXX", "XX", "X", "Y", "Z", "ZZ"][self as usize]
    }

    /// The tolerance of this class for a gauge of the given size, or `None` outside the standard: sizes over
    /// 0.010 in, up to 12.010 in.
    ///
    /// Source: ASME B89.1.5-1998, chart of gagemaker tolerances.
    pub fn tolerance(self, size: Size) -> Option<Size> {
        let holds = |row: &&Row| microinches(row.over) < size && size <= microinches(row.up_to);
        ROWS.iter().find(holds).map(|row| microinches(row.tolerances[self as usize]))
    }
}

const fn microinches(count: i64) -> Size {
    Size::from_picometres(count * PICOMETRES_PER_MICROINCH)
}

impl GaugeForm {
    /// `plug`, `ring` or `length`.
    pub const fn name(self) -> &'static str {
        match self {
            GaugeForm::Plug => "plug",
            GaugeForm::Ring => "ring",
            GaugeForm::Length => "length",
        }
    }

    /// Rings and lengths are made to the figures for plugs.
    const fn basis(self) -> GaugeBasis {
        match self {
            GaugeForm::Plug => GaugeBasis::Published,
            GaugeForm::Ring | GaugeForm::Length => GaugeBasis::CommonPractice,
        }
    }

    /// What GO and NO-GO prove, after Taylor's principle: the limit of most material wants a full form, the limit
    /// of least material a contact at two points.
    const fn proves(self) -> [&'static str; 2] {
        match self {
            GaugeForm::Plug => [
                "A plug as long as the hole that goes in proves the envelope at maximum material: the whole hole \
                 clears a perfect shaft at its lower limit. A shorter plug proves as much only of its own length.",
                "A plug that does not go in, from either end, proves that the hole is not over its upper limit all \
                 round at its mouth. An oval hole may still be; only contact at two points, turned and moved \
                 along, proves each local size at least material.",
            ],
            GaugeForm::Ring => [
                "A ring as long as the shaft that goes over proves the envelope at maximum material: the whole \
                 shaft enters a perfect hole at its upper limit. A shorter ring proves as much only of its own \
                 length.",
                "A ring that does not go over, from either end, proves that the shaft is not under its lower limit \
                 all round at its end. An oval shaft may still be; only contact at two points, turned and moved \
                 along, proves each local size at least material.",
            ],
            GaugeForm::Length => [
                "A gap that passes proves that the part is not over its upper limit where the faces reach. The \
                 envelope at maximum material is proved only by faces that cover the whole part.",
                "A gap that does not pass proves that the part is not under its lower limit where it was tried. \
                 Narrow faces, tried all over, prove each local size at least material.",
            ],
        }
    }
}

impl GaugeBasis {
    /// `published` or `common practice`.
    pub const fn name(self) -> &'static str {
        match self {
            GaugeBasis::Published => "published",
            GaugeBasis::CommonPractice => "common practice",
        }
    }
}

/// A plug gauge for a hole: GO at the lower limit and up, NO-GO at the upper limit and down.
///
/// Source: ASME B89.1.5-1998 for the classes and directions; the ten percent rule is common practice.
///
/// # Errors
/// [`GaugeError`]; in particular [`GaugeError::NoClass`] where no class is fine enough for the tolerance.
pub fn plug_gauge(hole: &Limits) -> Result<Gauge, GaugeError> {
    gauge(GaugeForm::Plug, hole)
}

/// A ring gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs; their use for rings is common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn ring_gauge(shaft: &Limits) -> Result<Gauge, GaugeError> {
    gauge(GaugeForm::Ring, shaft)
}

/// A gap gauge for an outside length: GO at the upper limit and down, NO-GO at the lower limit and up.
///
/// Source: the figures of ASME B89.1.5-1998, which are for plugs; their use for lengths is common practice.
///
/// # Errors
/// As [`plug_gauge`].
pub fn length_gauge(length: &Limits) -> Result<Gauge, GaugeError> {
    gauge(GaugeForm::Length, length)
}

fn gauge(form: GaugeForm, part: &Limits) -> Result<Gauge, GaugeError> {
    let class = coarsest_class(part)?;
    let tolerance = |size| class.tolerance(size).ok_or(GaugeError::OutOfRange { size });
    let lower_tolerance = tolerance(part.lower())?;
    let upper_tolerance = tolerance(part.upper())?.checked_neg().unwrap_or(Size::ZERO);
    // Each member lies inside the part's limits.
    let at_lower = Limits::with_deviations(part.lower(), lower_tolerance, Size::ZERO)?;
    let at_upper = Limits::with_deviations(part.upper(), Size::ZERO, upper_tolerance)?;
    let (go, no_go) = match form {
        GaugeForm::Plug => (at_lower, at_upper),
        GaugeForm::Ring | GaugeForm::Length => (at_upper, at_lower),
    };
    let [go_proves, no_go_proves] = form.proves();
    Ok(Gauge {
        form,
        class,
        standard: STANDARD,
        basis: form.basis(),
        go: GaugeMember { limits: go, proves: go_proves },
        no_go: GaugeMember { limits: no_go, proves: no_go_proves },
    })
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn limits(text: &str) -> Limits {
        Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn assert_gauge(gauge: Result<Gauge, GaugeError>, class: &str, go: &str, no_go: &str) {
        let gauge = gauge.unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(gauge.class.name(), class);
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
        assert_eq!(plug_gauge(&limits(".5 +.0002/0 in")).map(|gauge| gauge.class), Ok(GagemakerClass::Xxx));
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

    // Rules that the printed chart keeps, so that a mistyped figure fails: XXX is half of XX, rounded up; X twice
    // XX; ZZ twice Z; Y half way between X and Z; all grow with size.
    #[test]
    fn the_table_keeps_its_own_rules() {
        for row in &ROWS {
            let [xxx, xx, x, y, z, zz] = row.tolerances;
            assert_eq!([xxx, x, y, zz], [(xx + 1) / 2, 2 * xx, (x + z) / 2, 2 * z], "up to {}", row.up_to);
            assert!(row.tolerances.is_sorted_by(|fine, coarse| fine < coarse));
        }
        for pair in ROWS.windows(2) {
            assert_eq!(pair[0].up_to, pair[1].over);
            let mut columns = pair[0].tolerances.iter().zip(pair[1].tolerances);
            assert!(columns.all(|(smaller, larger)| *smaller < larger), "up to {}", pair[1].up_to);
        }
        assert_eq!((ROWS[0].over, ROWS[6].up_to), (10_000, 12_010_000));
    }

    proptest! {
        #[test]
        fn a_gauge_passes_no_bad_part(lower in 260_000_000i64..300_000_000_000, tolerance in 1i64..2_000_000_000) {
            let part =
                Limits::between(Size::from_picometres(lower), Size::from_picometres(lower + tolerance))?;
            for form in [GaugeForm::Plug, GaugeForm::Ring, GaugeForm::Length] {
                let Ok(gauge) = gauge(form, &part) else { continue };
                let (go, no_go) = (gauge.go.limits, gauge.no_go.limits);
                prop_assert!(part.contains(&go) && part.contains(&no_go));
                prop_assert!(go.tolerance().picometres() * 20 <= tolerance);
                prop_assert!(no_go.tolerance().picometres() * 20 <= tolerance);
                prop_assert_eq!(form == GaugeForm::Plug, go.upper() < no_go.lower());
                let coarser = GagemakerClass::ALL.into_iter().find(|class| *class > gauge.class);
                if let Some(coarser) = coarser {
                    let share = |size| coarser.tolerance(size).map(|size| size.picometres() * 20);
                    prop_assert!(share(part.lower()).max(share(part.upper())) > Some(tolerance));
                }
            }
        }
    }
}
