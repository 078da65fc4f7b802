//! How many points a chart takes on average until it signals.
use super::error::ControlChartError;
use super::kind::ChartKind;
use super::options::{ChartOptions, check_options};
use crate::math::{cos_degrees, normal_cdf, normal_density};

/// The average number of points until one lies beyond the limits, from the start of a lasting shift of the process.
///
/// `shift` is in standard deviations of single readings, and each point is the mean of `size` readings; without a shift the
/// result is how long the chart runs until a false alarm. The limits are those of a known centre and standard deviation,
/// and rules beyond the first do not count. Limits of an EWMA are those that it settles at; it and the CUSUM start at the
/// centre. An EWMA needs a weight of 0.02 or more and limits at 20 standard deviations or less, a CUSUM a decision limit of
/// 20 or less.
///
/// Source: of X̄ and single readings 1/p of a signal; of EWMA and CUSUM the integral equations of S. V. Crowder,
/// Technometrics 29 (1987) 401, and of E. S. Page, Biometrika 41 (1954) 100, solved at the nodes of Gauss and Legendre.
///
/// # Errors
/// [`ControlChartError`]: a chart of counts, an option out of range, or a run longer than can be computed.
pub fn average_run_length(
    kind: ChartKind,
    shift: f64,
    size: usize,
    options: &ChartOptions<'_>,
) -> Result<f64, ControlChartError> {
    check_options(kind, options)?;
    let wrong = |name, need, value| Err(ControlChartError::Option { name, need, value });
    if kind.counts() {
        return Err(ControlChartError::NoRunLength { kind });
    }
    if shift.is_nan() || shift.abs() > 100.0 {
        return wrong("shift", "from -100 to 100 standard deviations", shift);
    }
    if !(1..=1_000_000).contains(&size) {
        return wrong("size", "from 1 to 1 000 000", size as f64);
    }
    let moved = shift.abs() * (size as f64).sqrt();
    let length = match kind {
        ChartKind::Ewma if options.weight < MIN_WEIGHT => {
            return wrong("weight", "0.02 or more for a run length", options.weight);
        }
        ChartKind::Ewma if options.sigmas > MAX_SIGMAS => {
            return wrong("sigmas", "20 or less for a run length", options.sigmas);
        }
        ChartKind::Cusum if options.decision > MAX_DECISION => {
            return wrong("decision", "20 or less for a run length", options.decision);
        }
        ChartKind::Ewma => ewma(moved, options.weight, options.sigmas),
        ChartKind::Cusum => {
            let [up, down] = [moved, -moved].map(|moved| one_sided(moved, options.slack, options.decision));
            // A side that would take longer than can be computed adds nothing.
            let rate = |length: f64| if length >= 1.0 { 1.0 / length } else { 0.0 };
            1.0 / (rate(up) + rate(down))
        }
        _ => 1.0 / (normal_cdf(-options.sigmas - moved) + normal_cdf(-options.sigmas + moved)),
    };
    // Beyond this the equations lose their last digits.
    if (1.0 - 1e-9..1e12).contains(&length) {
        return Ok(length);
    }
    let options = if kind == ChartKind::Cusum { "slack or decision" } else { "sigmas" };
    Err(ControlChartError::LongRun { options })
}

const MIN_WEIGHT: f64 = 0.02;
const MAX_SIGMAS: f64 = 20.0;
const MAX_DECISION: f64 = 20.0;
/// Nodes where the kernel is no narrower than a fourteenth of half of the interval.
const NODES: usize = 64;

/// Average run of an EWMA: from z the next point is at w x + (1 − w) z, and the run ends beyond the limits.
fn ewma(moved: f64, weight: f64, sigmas: f64) -> f64 {
    let half = sigmas * (weight / (2.0 - weight)).sqrt();
    // In the middle the nodes lie π half / count apart. Less than 0.7 of the kernel's width leaves an error of 1e-17.
    let count = NODES.max((4.5 * half / weight).ceil() as usize);
    let nodes: Vec<_> = legendre(count).map(|(node, share)| (half * node, half * share)).collect();
    let next = |from: f64, to: f64| normal_density((to - (1.0 - weight) * from) / weight - moved) / weight;
    let lengths = solve(count, |row, column| nodes[column].1 * next(nodes[row].0, nodes[column].0));
    let from_centre: f64 =
        nodes.iter().zip(&lengths).map(|((node, share), length)| share * next(0.0, *node) * length).sum();
    1.0 + from_centre
}

/// Average run of one side of a CUSUM: from a sum u the next is u + x − slack, or zero where that is less, and the run ends beyond the decision limit.
fn one_sided(moved: f64, slack: f64, decision: f64) -> f64 {
    let half = 0.5 * decision;
    let nodes: Vec<_> = legendre(NODES).map(|(node, share)| (half * (1.0 + node), half * share)).collect();
    // The last unknown is the run from zero, which a sum falls back to with a probability of its own.
    let at = |place: usize| nodes.get(place).map_or(0.0, |node| node.0);
    let lengths = solve(NODES + 1, |row, column| match nodes.get(column) {
        Some((to, share)) => share * normal_density(to + slack - at(row) - moved),
        None => normal_cdf(slack - at(row) - moved),
    });
    lengths.last().copied().unwrap_or(f64::NAN)
}

/// Solves L = 1 + K L by elimination with the largest pivot of each column.
fn solve(size: usize, kernel: impl Fn(usize, usize) -> f64) -> Vec<f64> {
    let row = |row: usize| {
        let entry = |column: usize| f64::from(u8::from(row == column)) - kernel(row, column);
        (0..size).map(entry).chain([1.0]).collect::<Vec<_>>()
    };
    let mut rows: Vec<_> = (0..size).map(row).collect();
    for k in 0..size {
        let largest = (k..size).max_by(|&a, &b| rows[a][k].abs().total_cmp(&rows[b][k].abs())).unwrap_or(k);
        rows.swap(k, largest);
        let (done, rest) = rows.split_at_mut(k + 1);
        let pivot = &done[k];
        for row in rest {
            let factor = row[k] / pivot[k];
            for (entry, of_pivot) in row[k..].iter_mut().zip(&pivot[k..]) {
                *entry -= factor * of_pivot;
            }
        }
    }
    let mut lengths = vec![0.0; size];
    for k in (0..size).rev() {
        let known: f64 = (k + 1..size).map(|column| rows[k][column] * lengths[column]).sum();
        lengths[k] = (rows[k][size] - known) / rows[k][k];
    }
    lengths
}

/// Nodes from -1 to 1 and weights of the rule of Gauss and Legendre, by Newton's method.
fn legendre(nodes: usize) -> impl Iterator<Item = (f64, f64)> {
    (0..nodes).map(move |k| {
        let count = nodes as f64;
        let mut x = -cos_degrees(180.0 * (k as f64 + 0.75) / (count + 0.5));
        let mut slope = 1.0;
        for _ in 0..6 {
            let (mut before, mut value) = (1.0, x);
            for degree in 2..=nodes {
                let degree = degree as f64;
                (before, value) =
                    (value, ((2.0 * degree - 1.0) * x * value - (degree - 1.0) * before) / degree);
            }
            slope = count * (x * value - before) / (x * x - 1.0);
            x -= value / slope;
        }
        (x, 2.0 / ((1.0 - x * x) * slope * slope))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(kind: ChartKind, shift: f64, options: ChartOptions<'_>) -> f64 {
        average_run_length(kind, shift, 1, &options).unwrap_or_else(|error| panic!("{error}"))
    }

    // Montgomery, Introduction to Statistical Quality Control: tables of run lengths of CUSUM with slack 1/2 and of EWMA
    // (from memory).
    #[test]
    fn run_lengths_are_as_in_printed_tables() {
        let cusum = |shift, decision| {
            run(ChartKind::Cusum, shift, ChartOptions { decision, ..ChartOptions::default() })
        };
        for (shift, of_four, of_five) in
            [(0.0, 168.0, 465.0), (0.5, 26.6, 38.0), (1.0, 8.38, 10.4), (2.0, 3.34, 4.01), (3.0, 2.19, 2.57)]
        {
            assert!((cusum(shift, 4.0) / of_four - 1.0).abs() < 0.003, "{shift} {}", cusum(shift, 4.0));
            assert!((cusum(shift, 5.0) / of_five - 1.0).abs() < 0.003, "{shift} {}", cusum(shift, 5.0));
        }
        let ewma = |shift, weight, sigmas| {
            run(ChartKind::Ewma, shift, ChartOptions { weight, sigmas, ..ChartOptions::default() })
        };
        for (weight, sigmas, quiet, one) in [
            (0.4, 3.054, 500.0, 14.3),
            (0.2, 2.962, 500.0, 10.5),
            (0.1, 2.814, 500.0, 10.3),
            (0.05, 2.615, 500.0, 11.4),
        ] {
            assert!((ewma(0.0, weight, sigmas) / quiet - 1.0).abs() < 0.01, "{}", ewma(0.0, weight, sigmas));
            assert!((ewma(1.0, weight, sigmas) / one - 1.0).abs() < 0.01, "{}", ewma(1.0, weight, sigmas));
        }
    }

    // 1/p of a signal, with scipy's normal law.
    #[test]
    fn a_chart_of_means_signals_with_one_probability() {
        let exact = [
            (0.0, 370.398_347_344_96),
            (0.5, 155.224_200_752_63),
            (1.0, 43.894_681_718_54),
            (1.5, 14.967_685_005_614),
            (2.0, 6.302_962_987_143),
            (3.0, 1.999_999_996_053_6),
        ];
        for (shift, length) in exact {
            let got = run(ChartKind::IMr, shift, ChartOptions::default());
            assert!((got / length - 1.0).abs() < 1e-10, "{got}");
            let whole = ChartOptions { weight: 1.0, ..ChartOptions::default() };
            assert!((run(ChartKind::Ewma, shift, whole) / length - 1.0).abs() < 1e-9);
        }
        let four = average_run_length(ChartKind::XbarR, 0.5, 4, &ChartOptions::default());
        assert!(four.is_ok_and(|length| (length / exact[2].1 - 1.0).abs() < 1e-10));
    }

    // Markov chains of 1601 and 2401 states after Brook and Evans, Biometrika 59 (1972) 539, worked with numpy, and taken to
    // endless states; a simulation of 40 000 runs agrees with each.
    #[test]
    fn an_ewma_with_wide_limits_runs_as_long_as_its_markov_chain() {
        for (shift, weight, sigmas, length) in [
            (3.0, 0.02, 20.0, 55.5338),
            (2.0, 0.02, 10.0, 35.2470),
            (1.0, 0.02, 8.0, 78.7274),
            (1.0, 0.02, 3.0, 18.614_04),
            (5.0, 0.1, 8.0, 4.877_488),
            (3.0, 0.2, 6.0, 5.586_002),
            (1.2, 0.2, 3.5, 10.839_743),
        ] {
            let got = run(ChartKind::Ewma, shift, ChartOptions { weight, sigmas, ..ChartOptions::default() });
            assert!((got / length - 1.0).abs() < 3e-6, "{shift} {weight} {sigmas}: {got}");
        }
    }

    #[test]
    fn what_has_no_run_length_is_refused() {
        let usual = ChartOptions::default();
        for (kind, shift, size, options, message) in [
            (
                ChartKind::P,
                1.0,
                1,
                usual,
                "a run length is given for xbar_r, xbar_s, i_mr, ewma and cusum, not for p",
            ),
            (ChartKind::IMr, f64::NAN, 1, usual, "shift must be"),
            (ChartKind::XbarR, 1.0, 0, usual, "size must be"),
            (ChartKind::Ewma, 1.0, 1, ChartOptions { weight: 0.01, ..usual }, "weight must be 0.02"),
            (ChartKind::Cusum, 1.0, 1, ChartOptions { decision: 30.0, ..usual }, "decision must be 20"),
            (
                ChartKind::IMr,
                0.0,
                1,
                ChartOptions { sigmas: 9.0, ..usual },
                "the average run is longer than 1e12 points",
            ),
            (ChartKind::Ewma, 1.0, 1, ChartOptions { sigmas: 21.0, ..usual }, "sigmas must be 20 or less"),
        ] {
            let got = average_run_length(kind, shift, size, &options)
                .map_or_else(|e| e.to_string(), |x| x.to_string());
            assert!(got.contains(message), "{got}");
        }
    }
}
