//! Numbers as a shop reads them.
use crate::decimals;

/// Four significant digits, without zeros at the end.
pub(crate) fn number(value: f64) -> String {
    let size = value.abs();
    if !size.is_finite() {
        return "unknown".into();
    }
    if size != 0.0 && !(1e-4..1e7).contains(&size) {
        return format!("{value:.3e}");
    }
    // 9.9996 becomes 10.000 with these, and 10 without its zeros.
    let places = match size {
        0.0..1e-3 => 7,
        1e-3..1e-2 => 6,
        1e-2..0.1 => 5,
        0.1..1.0 => 4,
        1.0..10.0 => 3,
        10.0..100.0 => 2,
        100.0..1e3 => 1,
        _ => 0,
    };
    decimal(value, places)
}

/// A number that was given, to the last digit: nine of them say what a float of it adds.
pub(crate) fn stated(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-6..1e9).contains(&size) {
        return number(value);
    }
    decimal(value, 9)
}

/// The decimal of at most nine places, without zeros at the end, and zero without a sign.
fn decimal(value: f64, places: usize) -> String {
    let text = decimals::decimal(value, places);
    if text == "-0" { "0".into() } else { text }
}

/// A time: `9.4 s`, `1 min 4 s`, `2 h 15 min`, `40 h`.
pub(crate) fn time(minutes: f64) -> String {
    if !minutes.is_finite() {
        return "unknown".into();
    }
    let seconds = 60.0 * minutes;
    if seconds.abs() < 59.95 {
        let places = usize::from(seconds.abs() < 9.995) + usize::from(seconds.abs() < 0.9995);
        return decimal(seconds, places) + " s";
    }
    let whole = seconds.round();
    if whole.abs() < 3600.0 {
        return of_two((whole / 60.0).trunc(), "min", whole % 60.0, "s");
    }
    let whole = minutes.round();
    if whole.abs() < 6000.0 {
        return of_two((whole / 60.0).trunc(), "h", whole % 60.0, "min");
    }
    format!("{:.0} h", minutes / 60.0)
}

fn of_two(large: f64, unit: &str, small: f64, smaller: &str) -> String {
    let [large, small] = [large, small].map(|whole| decimal(whole, 0));
    match &*small {
        "0" => [&*large, " ", unit].concat(),
        small => [&*large, " ", unit, " ", small, " ", smaller].concat(),
    }
}

/// `1 part`, `4 parts`.
pub(crate) fn count(count: u64, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_four_digits() {
        for (value, text) in [
            (113.097336, "113.1"),
            (0.157079633, "0.1571"),
            (9.9996, "10"),
            (0.00099996, "0.001"),
            (9375.0, "9375"),
            (54833.3, "54833"),
            (0.0, "0"),
            (-0.00001, "-1.000e-5"),
            (1.5, "1.5"),
            (999.96, "1000"),
            (99.996, "100"),
            (0.99996, "1"),
        ] {
            assert_eq!(number(value), text);
        }
    }

    #[test]
    fn what_was_given_keeps_its_digits() {
        for (value, text) in [(19.967, "19.967"), (0.499619, "0.499619"), (1500.0, "1500"), (-0.0, "0")] {
            assert_eq!(stated(value), text);
        }
    }

    #[test]
    fn times_are_in_seconds_minutes_and_hours() {
        for (minutes, text) in [
            (0.0, "0 s"),
            (0.0107, "0.64 s"),
            (0.157079633, "9.4 s"),
            (0.3, "18 s"),
            (0.9999, "1 min"),
            (1.06666667, "1 min 4 s"),
            (4.34153842, "4 min 20 s"),
            (59.999, "1 h"),
            (135.0, "2 h 15 min"),
            (1085.38, "18 h 5 min"),
            (60000.0, "1000 h"),
        ] {
            assert_eq!(time(minutes), text);
        }
    }
}
