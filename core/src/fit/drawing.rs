//! The tolerance zones of a fit, as data and as a picture.
use super::{Fit, Member};
use crate::Size;
use crate::quantity::Units;
use std::fmt::Write;

/// The tolerance zone of one member of a fit, counted from the nominal size.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Zone {
    /// Hole or shaft.
    pub member: Member,
    /// What to write beside it: `H7`.
    pub label: String,
    /// Upper deviation.
    pub upper: Size,
    /// Lower deviation.
    pub lower: Size,
}

const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 240.0;
const MARGIN: f64 = 30.0;

impl Fit {
    /// The zones of the hole and of the shaft, for drawing.
    pub fn zones(&self) -> [Zone; 2] {
        let [hole, shaft] = self.labels();
        // Both are counted from one nominal size; that of limits as given may differ by member.
        let from = |size: Size| size.checked_sub(self.nominal()).unwrap_or(Size::ZERO);
        let zone = |member, label, limits: crate::Limits| Zone {
            member,
            label,
            upper: from(limits.upper()),
            lower: from(limits.lower()),
        };
        [zone(Member::Hole, hole, self.hole()), zone(Member::Shaft, shaft, self.shaft())]
    }

    /// The zones as a picture in SVG: the hole at the left, the shaft at the right, the line of the nominal size
    /// between, with their deviations in micrometres, or for an inch fit in thousandths of an inch.
    pub fn to_svg(&self) -> String {
        let zones = self.zones();
        let scale = Scale::of(&zones, self.is_inch());
        let zero = scale.height_of(Size::ZERO);
        let title = format!("{self}, {} fit", self.kind().name());
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}\" height=\"{HEIGHT}\" \
             viewBox=\"0 0 {WIDTH} {HEIGHT}\" font-family=\"sans-serif\" font-size=\"11\" role=\"img\">\
             <title>{title}</title>\
             <rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"white\"/>\
             <line x1=\"20\" y1=\"{zero:.1}\" x2=\"340\" y2=\"{zero:.1}\" stroke=\"black\"/>\
             <text x=\"20\" y=\"15\">{title}</text>"
        );
        for (zone, left, colour) in [(&zones[0], 60.0, "#b9c9b4"), (&zones[1], 200.0, "#d8b49a")] {
            scale.draw(zone, left, colour, &mut svg);
        }
        svg += "</svg>";
        svg
    }
}

/// How deviations become heights of the picture.
struct Scale {
    greatest: f64,
    per_picometre: f64,
    is_inch: bool,
}

impl Scale {
    fn of(zones: &[Zone; 2], is_inch: bool) -> Scale {
        let ends = || zones.iter().flat_map(|zone| [zone.lower, zone.upper]).chain([Size::ZERO]);
        let number = |size: Option<Size>| size.map_or(0.0, |size| size.picometres() as f64);
        let (least, greatest) = (number(ends().min()), number(ends().max()));
        // Two zones without tolerance at the nominal size still have a picture.
        let range = (greatest - least).max(1.0);
        Scale { greatest, per_picometre: (HEIGHT - 3.0 * MARGIN) / range, is_inch }
    }

    fn height_of(&self, deviation: Size) -> f64 {
        1.5 * MARGIN + (self.greatest - deviation.picometres() as f64) * self.per_picometre
    }

    fn draw(&self, zone: &Zone, left: f64, colour: &str, svg: &mut String) {
        let (top, bottom) = (self.height_of(zone.upper), self.height_of(zone.lower));
        let (middle, right) = (left + 40.0, left + 84.0);
        // Deviations that lie close together are written apart.
        let apart = (7.0 - 0.5 * (bottom - top)).max(0.0);
        let (above, below) = (top - apart + 4.0, bottom + apart + 4.0);
        let centre = 0.5 * (top + bottom) + 4.0;
        let (upper, lower) = (self.written(zone.upper), self.written(zone.lower));
        // Writing to a string does not fail.
        let _ = write!(
            svg,
            "<rect x=\"{left}\" y=\"{top:.1}\" width=\"80\" height=\"{:.1}\" fill=\"{colour}\" stroke=\"black\"/>\
             <text x=\"{middle}\" y=\"{centre:.1}\" text-anchor=\"middle\">{}</text>\
             <text x=\"{right}\" y=\"{above:.1}\">{upper}</text><text x=\"{right}\" y=\"{below:.1}\">{lower}</text>",
            bottom - top,
            zone.label,
        );
    }

    fn written(&self, deviation: Size) -> String {
        let plus = if deviation.is_positive() { "+" } else { "" };
        let thousand = deviation.checked_mul(1000).unwrap_or(deviation);
        match self.is_inch {
            true => format!("{plus}{} thou", thousand.decimal(Units::Inch)),
            false => format!("{plus}{} µm", thousand.decimal(Units::Metric)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The deviations of 25 H7/g6 are +21, 0, -7 and -20 µm: ISO 286-2.
    #[test]
    fn zones_are_counted_from_the_nominal_size() {
        let fit = Fit::parse("25 H7/g6").unwrap();
        let [hole, shaft] = fit.zones();
        let micrometres = |size: Size| size.picometres() / 1_000_000;
        assert_eq!((hole.label.as_str(), micrometres(hole.upper), micrometres(hole.lower)), ("H7", 21, 0));
        assert_eq!(
            (shaft.label.as_str(), micrometres(shaft.upper), micrometres(shaft.lower)),
            ("g6", -7, -20)
        );
        let svg = fit.to_svg();
        for text in ["25 H7/g6, clearance fit", "+21 µm", ">0 µm", "-7 µm", "-20 µm", ">H7<", ">g6<"] {
            assert!(svg.contains(text), "{text}");
        }
        // 150 high for 41 µm: the hole takes 21 of them, and the shaft 13.
        for height in ["height=\"76.8\"", "height=\"47.6\""] {
            assert!(svg.contains(height), "{height}");
        }
        assert!(Fit::parse("1.5 in FN2").unwrap().to_svg().contains("+2.4 thou"));
    }

    #[test]
    fn a_fit_without_tolerance_has_a_picture() {
        let line = crate::Limits::between(Size::ZERO, Size::ZERO).unwrap();
        let svg = Fit::between(line, line).unwrap().to_svg();
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
    }
}
