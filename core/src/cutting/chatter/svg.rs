//! The picture of stability lobes.
use super::error::StabilityError;
use super::speeds::SpeedRange;
use super::stability::Stability;
use crate::math::{ln, powf};
use crate::quantity::*;
use std::fmt::Write;

/// The plot within the picture: left, top, width, height.
const PLOT: [f64; 4] = [64.0, 34.0, 640.0, 300.0];
const SIZE: [f64; 2] = [724.0, 384.0];
/// Speeds along the picture.
const COLUMNS: u32 = 640;
/// The greatest depth shown, in critical depths.
const TOP: f64 = 6.0;
const INK: &str = "#33403c";
const STABLE: &str = "#dfe8dd";
const EDGE: &str = "#2f5d50";
const LINE: &str = "#a4593c";

impl Stability {
    /// The limit of stability as a picture: what lies below the curve is stable.
    ///
    /// # Errors
    /// [`StabilityError`] for a range whose ends are not in order, or that has too many lobes.
    pub fn to_svg(&self, range: Option<SpeedRange>) -> Result<String, StabilityError> {
        let range = range.unwrap_or_else(|| self.usual_range());
        // The range is judged as that of the lobes.
        self.lobes(Some(range))?;
        let (least, greatest) = (range.least.metric(), range.greatest.metric());
        let critical = self.critical_depth.in_units(self.units);
        let [left, top, width, height] = PLOT;
        let (right, bottom, highest) = (left + width, top + height, TOP * critical);
        let x = |n: f64| left + width * (n - least) / (greatest - least);
        let y = |depth: f64| bottom - height * (depth / highest).min(1.0);

        let mut curve = String::new();
        for column in 0..=COLUMNS {
            let n = least + (greatest - least) * f64::from(column) / f64::from(COLUMNS);
            let depth = self.depth(SpindleSpeed::rev_per_minute(n))?.in_units(self.units);
            // Writing to a String cannot fail.
            let _ = write!(curve, " {:.1},{:.1}", x(n), y(depth));
        }
        let (unit, decimals) = (Length::KIND.unit(self.units).label, decimals(highest));
        let what = if self.force_angle.is_some() { "width of the chip" } else { "axial depth" };
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\" \
             font-family=\"sans-serif\" font-size=\"11\" fill=\"{INK}\" role=\"img\">\n<title>{self}</title>\n\
             <polygon points=\"{left},{bottom}{curve} {right},{bottom}\" fill=\"{STABLE}\"/>\n\
             <polyline points=\"{2}\" fill=\"none\" stroke=\"{EDGE}\" stroke-width=\"1.5\"/>\n",
            SIZE[0],
            SIZE[1],
            curve.trim_start()
        );
        let at = y(critical);
        let _ = writeln!(
            svg,
            "<line x1=\"{left}\" y1=\"{at:.1}\" x2=\"{right}\" y2=\"{at:.1}\" stroke=\"{LINE}\" stroke-dasharray=\"5 4\"/>\n\
             <text x=\"{}\" y=\"{:.1}\" text-anchor=\"end\" fill=\"{LINE}\">stable at every speed below {critical:.4} {unit}</text>",
            right - 4.0,
            at + 13.0
        );
        for tick in ticks(least, greatest) {
            let at = x(tick);
            let _ = writeln!(
                svg,
                "<line x1=\"{at:.1}\" y1=\"{bottom}\" x2=\"{at:.1}\" y2=\"{}\" stroke=\"{INK}\"/>\
                 <text x=\"{at:.1}\" y=\"{}\" text-anchor=\"middle\">{tick}</text>",
                bottom + 4.0,
                bottom + 17.0
            );
        }
        for tick in ticks(0.0, highest) {
            let at = y(tick);
            let _ = writeln!(
                svg,
                "<line x1=\"{}\" y1=\"{at:.1}\" x2=\"{left}\" y2=\"{at:.1}\" stroke=\"{INK}\"/>\
                 <text x=\"{}\" y=\"{:.1}\" text-anchor=\"end\">{tick:.decimals$}</text>",
                left - 4.0,
                left - 7.0,
                at + 4.0
            );
        }
        let estimated = if self.estimated { "; modes estimated, not measured" } else { "" };
        let _ = writeln!(
            svg,
            "<path d=\"M {left} {top} V {bottom} H {right}\" fill=\"none\" stroke=\"{INK}\"/>\n\
             <text x=\"{left}\" y=\"20\">Deepest stable cut ({what}, {unit}){estimated}</text>\n\
             <text x=\"{}\" y=\"{}\" text-anchor=\"middle\">spindle speed, rev/min</text>\n</svg>",
            left + 0.5 * width,
            bottom + 36.0
        );
        Ok(svg)
    }
}

/// A round step that makes some five ticks.
fn step(span: f64) -> f64 {
    let rough = span / 5.0;
    let power = powf(10.0, (ln(rough) / std::f64::consts::LN_10).floor());
    let round = [1.0, 2.0, 5.0].into_iter().find(|round| rough <= round * power);
    round.unwrap_or(10.0) * power
}

fn ticks(from: f64, to: f64) -> impl Iterator<Item = f64> {
    let step = step(to - from);
    let first = (from / step).ceil();
    // Six or so, of which float errors may cost the last.
    (0..20).map(move |k| step * (first + f64::from(k))).take_while(move |tick| *tick <= to)
}

/// Digits after the point that tell the ticks apart.
fn decimals(span: f64) -> usize {
    (-(ln(step(span)) / std::f64::consts::LN_10).floor()).clamp(0.0, 12.0) as usize
}
