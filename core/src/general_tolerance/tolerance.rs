//! What a general tolerance allows one size.
use super::tables::{self, NONE, OPEN, Table};
use crate::limits::{GeneralClass, GeneralFeature, GeneralToleranceError, Limits};
use crate::quantity::{Angle, Quantity};
use crate::size::Size;
use std::fmt;
use tenths_macros::Object;

/// A general tolerance of ISO 2768 for one size.
///
/// ```
/// use tenths::{GeneralTolerance, GeneralClass, GeneralFeature, Limits, Size};
/// let class = GeneralClass::parse("ISO 2768-mK")?;
/// let length = GeneralTolerance::new(class, GeneralFeature::Length, Size::parse("120 mm")?)?;
/// assert_eq!(length.limits, Some(Limits::parse("120 ±0.3 mm")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct GeneralTolerance {
    /// The class as a drawing has it: `ISO 2768-mK`.
    pub general_class: String,
    /// What it is of.
    pub feature: GeneralFeature,
    /// The nominal size, or the length that the tolerance goes by; of parallelism the distance.
    pub size: Size,
    /// The limits of a length or an edge.
    pub limits: Option<Limits>,
    /// The width of the zone: of a length or an edge the tolerance between its limits, of a form the greatest
    /// deviation; absent for an angle.
    pub tolerance: Option<Size>,
    /// The permissible deviation of an angle, to either side.
    pub angle_deviation: Option<Angle>,
    /// The standard with its edition, which was not seen itself.
    pub standard: &'static str,
    /// Where the figure was seen: `reprints`, or `memory`.
    pub seen: &'static str,
}

pub(crate) const SIZES: &str = "ISO 2768-1:1989";
const FORMS: &str = "ISO 2768-2:1989";

impl GeneralClass {
    /// The row of the tables of sizes.
    fn size_row(self, feature: GeneralFeature) -> Result<usize, GeneralToleranceError> {
        let none = GeneralToleranceError::NoClass {
            class: self,
            feature,
            letters: "f, m, c and v",
            example: "ISO 2768-mK",
        };
        self.size.map(usize::from).ok_or(none)
    }

    /// The row of the tables of form and position.
    fn form_row(self, feature: GeneralFeature) -> Result<usize, GeneralToleranceError> {
        let none = GeneralToleranceError::NoClass {
            class: self,
            feature,
            letters: "H, K and L",
            example: "ISO 2768-mK",
        };
        self.form.map(usize::from).ok_or(none)
    }
}

/// A figure of a table, or the range that it covers.
fn look_up<const C: usize, const R: usize>(
    table: &Table<C, R>,
    row: usize,
    size: Size,
) -> Result<i32, String> {
    const MILLIMETRE: i128 = 1_000_000_000;
    let count = i128::from(size.picometres());
    let [numerator, denominator] = table.from.map(i128::from);
    let begins = count * denominator >= numerator * MILLIMETRE && count > 0;
    let figures = table.rows.get(row).into_iter().flatten().zip(&table.ends);
    let found = figures.clone().find(|(_, end)| count <= i128::from(**end).saturating_mul(MILLIMETRE));
    match found {
        Some((figure, _)) if begins && *figure != NONE => Ok(*figure),
        _ => Err(covered(table.from, figures.map(|(figure, end)| (*figure, *end)))),
    }
}

/// What a class covers: `0.5 mm to 3 mm`.
fn covered(from: [i64; 2], figures: impl Iterator<Item = (i32, i64)>) -> String {
    let (mut first, mut last, mut before) = (None, None, None);
    for (figure, end) in figures {
        if figure != NONE {
            first = first.or(Some(before));
            last = Some(end);
        }
        before = Some(end);
    }
    let lower = match (first.flatten(), from) {
        (Some(end), _) => format!("sizes over {end} mm"),
        (None, [0, _]) => "sizes over 0 mm".into(),
        (None, [numerator, denominator]) => {
            format!("sizes from {} mm", numerator as f64 / denominator as f64)
        }
    };
    match last {
        Some(end) if end != OPEN => format!("{lower} up to {end} mm"),
        _ => lower,
    }
}

impl GeneralTolerance {
    /// The general tolerance of a class for a feature of a nominal size.
    ///
    /// A size at the end of a range belongs to it: 120 mm is in over 30 up to 120 mm.
    ///
    /// # Errors
    /// [`GeneralToleranceError::NoClass`] where the class has no letter for the feature,
    /// [`GeneralToleranceError::Size`] for a size that the standard does not cover, and
    /// [`GeneralToleranceError::Length`] for parallelism, which goes by two sizes: see
    /// [`parallelism`](GeneralTolerance::parallelism).
    pub fn new(
        class: GeneralClass,
        feature: GeneralFeature,
        size: Size,
    ) -> Result<GeneralTolerance, GeneralToleranceError> {
        use GeneralFeature::*;
        let figure = match feature {
            Length => look_up(&tables::LENGTHS, class.size_row(feature)?, size),
            Edge => look_up(&tables::EDGES, class.size_row(feature)?, size),
            Angle => look_up(&tables::ANGLES, class.size_row(feature)?, size),
            Straightness | Flatness => look_up(&tables::FLATNESS, class.form_row(feature)?, size),
            Perpendicularity => look_up(&tables::PERPENDICULARITY, class.form_row(feature)?, size),
            Symmetry => look_up(&tables::SYMMETRY, class.form_row(feature)?, size),
            RunOut => look_up(&tables::RUN_OUT, class.form_row(feature)?, size),
            Roundness => {
                let run_out = look_up(&tables::RUN_OUT, class.form_row(feature)?, size);
                let deviation = look_up(&tables::LENGTHS, class.size_row(feature)?, size);
                deviation.and_then(|deviation| Ok(run_out?.min(2 * deviation)))
            }
            Parallelism => return Err(GeneralToleranceError::Length { feature }),
        };
        let figure = figure.map_err(|range| GeneralToleranceError::Size { class, feature, size, range })?;
        let width = Size::from_picometres(i64::from(figure) * 1_000_000);
        let mut made = GeneralTolerance {
            general_class: class.to_string(),
            feature,
            size,
            limits: None,
            tolerance: Some(width),
            angle_deviation: None,
            standard: if matches!(feature, Length | Edge | Angle) { SIZES } else { FORMS },
            seen: if matches!(feature, RunOut | Roundness) { "memory" } else { "reprints" },
        };
        match feature {
            Length | Edge => {
                let lower = width.checked_neg().unwrap_or(Size::ZERO);
                let limits = Limits::with_deviations(size, width, lower);
                let limits = limits.map_err(|error| GeneralToleranceError::Limits(Box::new(error)))?;
                (made.tolerance, made.limits) = (Some(limits.tolerance()), Some(limits));
            }
            Angle => {
                let degrees = crate::quantity::Angle::degrees(f64::from(figure) / 60.0);
                (made.tolerance, made.angle_deviation) = (None, Some(degrees));
            }
            _ => {}
        }
        Ok(made)
    }

    /// The general tolerance on the parallelism of two faces or lines a distance apart, of which the longer one has a
    /// length: the tolerance of the distance or that of straightness or flatness, whichever is larger. The longer one is
    /// the datum.
    ///
    /// Source: ISO 2768-2:1989, 5.2.2 (from memory).
    ///
    /// # Errors
    /// As [`GeneralTolerance::new`].
    pub fn parallelism(
        class: GeneralClass,
        distance: Size,
        length: Size,
    ) -> Result<GeneralTolerance, GeneralToleranceError> {
        let of_size = GeneralTolerance::new(class, GeneralFeature::Length, distance)?;
        let of_form = GeneralTolerance::new(class, GeneralFeature::Flatness, length)?;
        Ok(GeneralTolerance {
            feature: GeneralFeature::Parallelism,
            limits: None,
            tolerance: of_size.tolerance.max(of_form.tolerance),
            standard: FORMS,
            seen: "memory",
            ..of_size
        })
    }

    /// The limits of a length or a broken edge.
    ///
    /// # Errors
    /// As [`GeneralTolerance::new`].
    pub(crate) fn limits_of(
        class: GeneralClass,
        feature: GeneralFeature,
        size: Size,
    ) -> Result<Limits, GeneralToleranceError> {
        let made = GeneralTolerance::new(class, feature, size)?;
        made.limits.ok_or_else(|| GeneralToleranceError::Feature { text: feature.name().into() })
    }
}

impl fmt::Display for GeneralTolerance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let GeneralTolerance { general_class, feature, size, .. } = self;
        match (&self.limits, &self.tolerance, &self.angle_deviation) {
            (Some(limits), ..) => {
                let units = limits.natural_units();
                write!(f, "{}: {} by {general_class}", feature.name(), limits.format_deviations(units))
            }
            (_, _, Some(angle)) => {
                let minutes = (angle.metric() * 60.0).round();
                write!(f, "angle: ±{minutes}′ by {general_class} for a side of {size}")
            }
            (_, Some(tolerance), _) => {
                write!(f, "{}: {tolerance} by {general_class} for {size}", feature.name())
            }
            _ => write!(f, "{} by {general_class}", feature.name()),
        }
    }
}
