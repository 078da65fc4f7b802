//! Bar stock.
use crate::Size;
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Number of parts from a bar.
///
/// Every part takes its length and one facing allowance. With a remnant, the piece that stays in the vice,
/// every part is cut off and takes a kerf; without one the last part needs no cut. The end trim takes its
/// own length and no kerf besides. Sizes are exact: a bar that holds the last part to the last digit holds it.
/// A bar shorter than what it must give gives 0.
#[formula(
    source = "Common practice; lengths and the kerfs between them within the bar less its trim",
    rule(part_length > Size::ZERO, "part_length must be at least a picometre")
)]
pub fn parts_per_bar(
    /// Length of the bar.
    #[positive]
    #[increasing]
    bar_length: Size,
    /// Finished length of a part.
    #[positive]
    #[decreasing]
    part_length: Size,
    #[decreasing] kerf: Size,
    /// What facing takes off each part, both ends together.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    facing_allowance: Size,
    /// What is trimmed off the end of the bar before the first part.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    end_trim: Size,
    /// Length at the far end that cannot be used.
    #[non_negative]
    #[default(0.0)]
    #[decreasing]
    remnant: Size,
) -> Count {
    let picometres = |size: Size| i128::from(size.picometres());
    let each = picometres(part_length) + picometres(facing_allowance) + picometres(kerf);
    let usable = usable(bar_length, end_trim, remnant, kerf);
    usable.checked_div(each).map_or(f64::NAN, |parts| parts.max(0) as f64)
}

/// What the parts of a bar may take, in picometres, where each takes a kerf: the last part, if nothing lies behind it,
/// may do without its own.
pub(super) fn usable(bar_length: Size, end_trim: Size, remnant: Size, kerf: Size) -> i128 {
    let picometres = |size: Size| i128::from(size.picometres());
    let spared = if remnant == Size::ZERO { kerf } else { Size::ZERO };
    picometres(bar_length) - picometres(end_trim) - picometres(remnant) + picometres(spared)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PARTS_PER_BAR];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    fn parts(x: [f64; 6]) -> Result<f64, String> {
        let mut y = [0.0];
        PARTS_PER_BAR.call(Units::Metric, &x, &mut y).map(|_| y[0]).map_err(|error| error.to_string())
    }

    #[test]
    fn a_part_that_rounds_to_nothing_is_refused() {
        let need = "parts_per_bar: part_length must be at least a picometre (part_length = 1e-10 mm)";
        assert_eq!(parts([1000.0, 1e-10, 0.0, 0.0, 0.0, 0.0]), Err(need.into()));
        assert_eq!(parts([1000.0, 1e-9, 0.0, 0.0, 0.0, 0.0]), Ok(1e12));
    }

    #[test]
    fn a_bar_longer_than_a_size_counts_is_refused() {
        let need = "bar_length must be greater than 0 mm and at most 1000000000 mm, not 1e30 mm";
        assert_eq!(parts([1e30, 20.0, 2.0, 0.0, 0.0, 0.0]), Err(format!("parts_per_bar: {need}")));
        assert_eq!(parts([1e9, 1e9, 1e9, 0.0, 0.0, 0.0]), Ok(1.0));
    }

    // Nothing is left to cut from, by arithmetic of lengths.
    #[test]
    fn a_bar_shorter_than_its_trim_gives_none() {
        assert_eq!(parts([10.0, 1.0, 0.5, 0.0, 8.0, 4.0]), Ok(0.0));
    }
}
