//! The figures of `tests/published/control_charts.csv` and `chart_constants.csv`, which come from outside the project.
mod evidence;

use tenths::inspect::control_chart::{
    ChartConstants, ChartKind, ChartOptions, ConstantSource, ControlChart, ControlSeries, RuleSet,
    control_chart,
};

const CHARTS: &str = include_str!("published/control_charts.csv");
const CONSTANTS: &str = include_str!("published/chart_constants.csv");

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn chart_of(fields: &[&str]) -> ControlChart {
    let one = |text: &str, default| text.parse().unwrap_or(default);
    let usual = ChartOptions::default();
    let options = ChartOptions {
        centre: fields[5].parse().ok(),
        sigma: fields[6].parse().ok(),
        constants: ConstantSource::parse(fields[7]).unwrap(),
        rules: RuleSet::parse(fields[8]).unwrap(),
        weight: one(fields[9], usual.weight),
        slack: one(fields[10], usual.slack),
        decision: one(fields[11], usual.decision),
        ..usual
    };
    let kind = ChartKind::parse(fields[2]).unwrap();
    control_chart(kind, &numbers(fields[3]), &numbers(fields[4]), &options)
        .unwrap_or_else(|error| panic!("{}: {error}", fields[1]))
}

fn figure(chart: &ControlChart, quantity: &str) -> Vec<f64> {
    let line = |series: &ControlSeries, of: &str| match of {
        "centre" => series.centre,
        "lower" => series.lower,
        _ => series.upper,
    };
    if let Some(of) = quantity.strip_prefix("location.") {
        return line(&chart.location, of).into_iter().collect();
    }
    if let Some(of) = quantity.strip_prefix("dispersion.") {
        return chart.dispersion.as_ref().and_then(|series| line(series, of)).into_iter().collect();
    }
    if let Some(rule) = quantity.strip_prefix("rule ") {
        let broken = chart.location.broken.iter().filter(|broken| broken.rule.to_string() == rule);
        return broken.map(|broken| broken.point as f64).collect();
    }
    if let Some(number) = quantity.strip_prefix("point ") {
        let point = chart.location.points.iter().find(|point| point.number.to_string() == number);
        return point.map(|point| point.value).into_iter().collect();
    }
    assert_eq!(quantity, "sigma");
    vec![chart.phases[0].sigma]
}

#[test]
fn charts_meet_their_sources() {
    let mut chart = None;
    let mut count = 0;
    for line in CHARTS.lines().filter(|line| !line.starts_with('#')) {
        let fields: Vec<_> = line.split(';').collect();
        if fields[0] == "chart" {
            chart = Some((fields[1], chart_of(&fields)));
            continue;
        }
        let (name, chart) = chart.as_ref().unwrap();
        let &[_, quantity, value, within, seen, source] = fields.as_slice() else { panic!("{line}") };
        evidence::check(seen, source).unwrap();
        let (got, expected) = (figure(chart, quantity), numbers(value));
        let within: f64 = within.parse().unwrap();
        let met = got.len() == expected.len()
            && got.iter().zip(&expected).all(|(a, b)| (a - b).abs() <= within * (1.0 + 1e-9) + 1e-12);
        assert!(met, "{name}: {quantity} is {got:?}, not {value} ({source})");
        count += 1;
    }
    assert!(count >= 50, "{count} figures");
}

#[test]
fn constants_meet_their_tables() {
    let mut count = 0;
    for line in CONSTANTS.lines().filter(|line| !line.starts_with(['#', 'n'])) {
        let row = numbers(&line.replace(',', " "));
        let n = row[0] as usize;
        let c = ChartConstants::new(n, ConstantSource::Exact).unwrap();
        let exact = [
            c.d2, c.d3, c.c4, c.a, c.a2, c.a3, c.b3, c.b4, c.b5, c.b6, c.d1_limit, c.d2_limit, c.d3_limit,
            c.d4_limit, c.e2,
        ];
        for (got, expected) in exact.iter().zip(&row[1..16]) {
            // The table was rounded after an integration to six decimals.
            assert!((got - expected).abs() <= 1.01e-6, "n = {n}: {got} is not {expected}");
            count += 1;
        }
        let p = ChartConstants::new(n, ConstantSource::Printed).unwrap();
        let printed = [p.d2, p.d3, p.c4, p.a2, p.a3, p.b3, p.b4, p.d3_limit, p.d4_limit];
        assert_eq!(printed, row[16..25]);
    }
    assert_eq!(count, 24 * 15);
}
