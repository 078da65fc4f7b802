//! The integral of a smooth peak over the whole line.

/// The integral of a function that is smooth, positive, and falls to both sides of one peak.
///
/// `inside` is a point where it is not zero, near the peak if possible, and `width` about that of the peak. The rule
/// of equal steps converges exponentially for such functions, so that halving the step about squares the error.
pub(super) fn integral_of_peak(inside: f64, width: f64, function: impl Fn(f64) -> f64) -> f64 {
    let mut highest = function(inside);
    if highest.is_nan() || highest <= 0.0 {
        return highest;
    }
    let mut edge = |direction: f64| {
        let (mut near, mut step) = (inside, width);
        let mut far = inside + direction * step;
        for _ in 0..60 {
            let value = function(far);
            highest = if value > highest { value } else { highest };
            if value < NOTHING * highest {
                break;
            }
            near = far;
            step *= 1.5;
            far += direction * step;
        }
        for _ in 0..4 {
            let middle = 0.5 * (near + far);
            if function(middle) < NOTHING * highest { far = middle } else { near = middle }
        }
        far
    };
    let (low, high) = (edge(-1.0), edge(1.0));
    steps(low, high, function)
}

/// A value so small beside the peak that the integral ends there.
const NOTHING: f64 = 1e-18;

/// The integral by equal steps, which are halved until it no longer changes.
fn steps(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
    let length = high - low;
    let at = |part: f64| function(low + part * length);
    let mut count = 24_u32;
    let mut sum = 0.5 * (function(low) + function(high));
    for k in 1..count {
        sum += at(f64::from(k) / f64::from(count));
    }
    let mut last = f64::INFINITY;
    for _ in 0..11 {
        let before = sum / f64::from(count);
        for k in 0..count {
            sum += at((f64::from(k) + 0.5) / f64::from(count));
        }
        count *= 2;
        let now = sum / f64::from(count);
        let change = (now - before).abs() / now;
        let only_rounding = change < 20.0 * STANDS && change > 0.2 * last;
        if change <= STANDS || only_rounding {
            break;
        }
        last = change;
    }
    sum / f64::from(count) * length
}

/// The relative change that ends the halving. A larger one would miss a low shoulder of the peak.
const STANDS: f64 = 1e-14;
