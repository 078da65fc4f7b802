//! The picture of a cutting plan.
use std::fmt::Write;

use super::plan::{CuttingLayout, CuttingPlan};
use crate::size::Size;

/// Width of the longest bar in the picture, in its own units.
const WIDTH: f64 = 720.0;
/// Height of a row, and of the bar in it.
const ROW: f64 = 44.0;
const BAR: f64 = 22.0;
/// What stands to the left of the bars.
const MARGIN: f64 = 60.0;
/// More pieces than these are drawn as one block.
const MAX_DRAWN: u64 = 400;

impl CuttingPlan {
    /// The layouts as a picture: a bar for each, with its pieces to scale and how often it is cut.
    pub fn to_svg(&self) -> String {
        let longest = self.layouts.iter().map(|layout| layout.bar.picometres()).max().unwrap_or(1);
        let scale = WIDTH / longest as f64;
        let (width, height) = (WIDTH + MARGIN + 10.0, ROW * self.layouts.len() as f64 + 10.0);
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" \
             height=\"{height}\" font-family=\"sans-serif\" font-size=\"11\" role=\"img\">\n<title>{self}</title>\n"
        );
        for (row, layout) in self.layouts.iter().enumerate() {
            self.draw(&mut svg, layout, 10.0 + ROW * row as f64, scale);
        }
        svg.push_str("</svg>\n");
        svg
    }

    fn draw(&self, svg: &mut String, layout: &CuttingLayout, top: f64, scale: f64) {
        let at = |length: i64| MARGIN + length as f64 * scale;
        let wide = |length: i64| length as f64 * scale;
        let middle = top + BAR / 2.0 + 4.0;
        // Writing to a String cannot fail.
        let _ = writeln!(svg, "<text x=\"4\" y=\"{middle:.1}\">{} ×</text>", layout.times);
        let bar = layout.bar.picometres();
        let _ = writeln!(
            svg,
            "<rect x=\"{MARGIN:.1}\" y=\"{top:.1}\" width=\"{:.2}\" height=\"{BAR}\" fill=\"#e6e2da\" stroke=\"#5c5648\"/>",
            wide(bar)
        );
        let mut place = self.end_trim.picometres();
        for piece in &layout.pieces {
            let length = piece.length.picometres();
            for _ in 0..piece.count.min(MAX_DRAWN) {
                let _ = writeln!(
                    svg,
                    "<rect x=\"{:.2}\" y=\"{top:.1}\" width=\"{:.2}\" height=\"{BAR}\" fill=\"#8fa68a\" \
                     stroke=\"#3f4a3c\" stroke-width=\"0.5\"/>",
                    at(place),
                    wide(length)
                );
                let label = label(piece.length, self);
                if wide(length) > 7.0 * label.len() as f64 {
                    let centre = at(place) + wide(length) / 2.0;
                    let _ = writeln!(
                        svg,
                        "<text x=\"{centre:.1}\" y=\"{middle:.1}\" text-anchor=\"middle\">{label}</text>"
                    );
                }
                place += length + self.kerf.picometres();
            }
        }
        let below = top + BAR + 12.0;
        let leftover = label(layout.leftover, self);
        let _ = writeln!(
            svg,
            "<text x=\"{MARGIN:.1}\" y=\"{below:.1}\" fill=\"#5c5648\">bar {}, {leftover} left</text>",
            label(layout.bar, self)
        );
    }
}

/// A length as a shop reads it.
fn label(length: Size, plan: &CuttingPlan) -> String {
    length.to_float(plan.units).to_string()
}
