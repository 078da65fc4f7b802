//! Floats as decimals of a few places, rounded once, half to even, as the standard library rounds them, but sooner.

/// One, in units of the last of so many places.
const ONES: [f64; 10] = [1.0, 10.0, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];

/// The nearest count of units in the last of so many places, where one product finds it for certain.
pub(crate) fn counted(value: f64, places: usize) -> Option<i64> {
    // The product is off by at most 2^-53 of itself: by no more than this below the largest.
    const LARGEST: f64 = (1u64 << 49) as f64;
    const DOUBT: f64 = 0.0625;
    let scaled = value.abs() * ONES.get(places)?;
    if scaled.is_nan() || scaled >= LARGEST {
        return None;
    }
    let whole = scaled as i64;
    let part = scaled - whole as f64;
    let count = whole + i64::from(part > 0.5);
    ((part - 0.5).abs() > DOUBT).then_some(if value < 0.0 { -count } else { count })
}

/// Puts the decimal of at most nine places behind a text, without zeros at the end. One that is rounded to zero keeps its
/// sign.
pub(crate) fn push_decimal(text: &mut String, value: f64, places: usize) {
    match counted(value, places) {
        Some(count) => push_count(text, value.is_sign_negative(), count.unsigned_abs(), places),
        None => {
            let digits = format!("{value:.places$}");
            let is_point = digits.contains('.');
            text.push_str(if is_point {
                digits.trim_end_matches('0').trim_end_matches('.')
            } else {
                &digits
            });
        }
    }
}

/// [`push_decimal`] into a text of its own.
pub(crate) fn decimal(value: f64, places: usize) -> String {
    let mut text = String::new();
    push_decimal(&mut text, value, places);
    text
}

fn push_count(text: &mut String, is_negative: bool, mut count: u64, mut places: usize) {
    while places > 0 && count.is_multiple_of(10) {
        (count, places) = (count / 10, places - 1);
    }
    // From the end: a count has sixteen digits at most, and there is a point and a sign.
    let mut digits = [b'0'; 24];
    let mut start = digits.len();
    let mut put = |byte| {
        start -= 1;
        digits[start] = byte;
    };
    for place in 0.. {
        if place > places && count == 0 {
            break;
        }
        if place == places && places > 0 {
            put(b'.');
        }
        put(b'0' + (count % 10) as u8);
        count /= 10;
    }
    if is_negative {
        put(b'-');
    }
    text.push_str(std::str::from_utf8(&digits[start..]).unwrap_or_default());
}

/// The decimal nearest to a number, as a float again.
pub(crate) fn rounded(value: f64, places: usize) -> f64 {
    match counted(value, places) {
        // Both are whole numbers that a float holds, and so the quotient is the float nearest to the decimal.
        Some(count) => (count as f64 / ONES[places]).copysign(value),
        None => format!("{value:.places$}").parse().unwrap_or(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the standard library rounds, exactly: half to even.
    fn expected(value: f64, places: usize) -> String {
        let text = format!("{value:.places$}");
        match text.contains('.') {
            true => text.trim_end_matches('0').trim_end_matches('.').into(),
            false => text,
        }
    }

    #[test]
    fn digits_are_those_of_the_standard_library() {
        let near = |value: f64| [value.next_down(), value, value.next_up()];
        let halves = (0..2000).map(|k| (2 * k + 1) as f64 / 2.0);
        let scaled = halves.flat_map(|half| (0..10).map(move |place| half / ONES[place]));
        let ends = ONES.iter().flat_map(|one| [*one, 1.0 / one, f64::MAX, f64::NAN, f64::INFINITY]);
        let mut state = 1u64;
        let drawn = (0..5000).map(|_| {
            state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
            (state >> 11) as f64 / (1u64 << 53) as f64 * ONES[(state % 10) as usize]
        });
        let values = scaled.chain(ends).chain(drawn).flat_map(near).flat_map(|value| [value, -value]);
        for value in values.chain([0.0, -0.0]) {
            for places in 0..10 {
                assert_eq!(decimal(value, places), expected(value, places), "{value:e} to {places} places");
                let text = format!("{value:.places$}");
                let back: f64 = text.parse().unwrap();
                assert_eq!(rounded(value, places).to_bits(), back.to_bits(), "{value:e} to {places} places");
            }
        }
    }

    #[test]
    fn a_doubtful_half_is_left_to_the_standard_library() {
        assert_eq!([counted(0.125, 2), counted(2.5, 0), counted(1e15, 0)], [None; 3]);
        assert_eq!([counted(0.124, 2), counted(-2.6, 0)], [Some(12), Some(-3)]);
    }
}
