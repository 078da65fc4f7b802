//! The plans of `tests/published/cutting_plans.csv`, whose optimum comes from outside the project.
use tenths::stock::{CuttingBar, CuttingOptions, CuttingPlan, OrderedPiece, cutting_plan};
use tenths::{Size, Units, Watch};

const PLANS: &str = include_str!("published/cutting_plans.csv");

struct Published<'a> {
    name: &'a str,
    pieces: Vec<OrderedPiece>,
    bars: Vec<CuttingBar>,
    options: CuttingOptions,
    kept_low: &'a str,
    least: f64,
}

fn size(text: &str) -> Size {
    Size::parse(text.trim()).unwrap()
}

fn published() -> Vec<Published<'static>> {
    let bar = |text: &str| {
        let (text, price) = text.split_once('@').map_or((text, None), |(text, price)| (text, Some(price)));
        let (length, available) =
            text.split_once(" x ").map_or((text, None), |(length, count)| (length, Some(count)));
        CuttingBar {
            length: size(length),
            available: available.map(|count| count.trim().parse().unwrap()),
            price: price.map(|price| price.trim().parse().unwrap()),
        }
    };
    let piece = |text: &str| {
        let (length, count) = text.split_once(" x ").unwrap();
        OrderedPiece { length: size(length), count: count.trim().parse().unwrap() }
    };
    let line = |line: &'static str| {
        let fields: Vec<&str> = line.split(';').collect();
        Published {
            name: fields[0],
            pieces: fields[3].split(", ").map(piece).collect(),
            bars: fields[4].split(", ").map(bar).collect(),
            options: CuttingOptions {
                kerf: size(fields[1]),
                end_trim: size(fields[2]),
                ..Default::default()
            },
            kept_low: fields[5],
            least: fields[6].parse().unwrap(),
        }
    };
    PLANS.lines().filter(|line| !line.starts_with('#')).map(line).collect()
}

/// Every piece as often as it is wanted, in bars that hold them, of which there are so many.
fn holds(plan: &CuttingPlan, of: &Published<'_>) {
    for wanted in &of.pieces {
        let cut = plan.layouts.iter().map(|layout| {
            let pieces = layout.pieces.iter().filter(|piece| piece.length == wanted.length);
            layout.times * pieces.map(|piece| piece.count).sum::<u64>()
        });
        assert_eq!(cut.sum::<u64>(), wanted.count, "{}: {}", of.name, wanted.length);
    }
    for layout in &plan.layouts {
        let count: u64 = layout.pieces.iter().map(|piece| piece.count).sum();
        let lengths = layout.pieces.iter().map(|piece| piece.length.picometres() * piece.count as i64);
        let kerfs = of.options.kerf.picometres() * (count as i64 - 1);
        let room = layout.bar.picometres() - of.options.end_trim.picometres();
        assert!(lengths.sum::<i64>() + kerfs <= room, "{}", of.name);
    }
    for bar in &of.bars {
        let used: u64 =
            plan.layouts.iter().filter(|layout| layout.bar == bar.length).map(|layout| layout.times).sum();
        assert!(bar.available.is_none_or(|available| used <= available), "{}", of.name);
    }
}

#[test]
fn every_published_plan_is_reached_and_proven() {
    let published = published();
    assert!(published.len() >= 15);
    for one in &published {
        let plan = cutting_plan(&one.pieces, &one.bars, &one.options, &Watch::new()).unwrap();
        let reached = if one.kept_low == "price" { plan.cost.unwrap() } else { plan.bars as f64 };
        assert!((reached - one.least).abs() < 1e-9, "{}: {reached}, not {}", one.name, one.least);
        assert!(plan.proven && plan.gap == 0.0 && plan.bound == reached, "{}: {plan:?}", one.name);
        holds(&plan, one);
    }
}

#[test]
fn a_limit_of_work_gives_the_same_plan_again() {
    let lengths = (0..60).map(|k| 311.0 + 43.7 * f64::from(k));
    let pieces: Vec<_> = lengths
        .map(|length| OrderedPiece { length: Size::from_float(length, Units::Metric).unwrap(), count: 7 })
        .collect();
    let bars = [CuttingBar { length: size("6 m"), available: None, price: None }];
    for limit in [200_000, 2_000_000] {
        let options = CuttingOptions { work_limit: Some(limit), time_limit: None, ..Default::default() };
        let plan = || cutting_plan(&pieces, &bars, &options, &Watch::new());
        assert_eq!(plan(), plan());
    }
}

#[test]
fn a_thousand_lengths_end_within_their_limit() {
    let lengths = (0..1000).map(|k| 100.1 + 5.3 * f64::from(k));
    let pieces: Vec<_> = lengths
        .map(|length| OrderedPiece { length: Size::from_float(length, Units::Metric).unwrap(), count: 3 })
        .collect();
    let bars = [CuttingBar { length: size("6 m"), available: None, price: None }];
    let options = CuttingOptions { work_limit: Some(30_000_000), time_limit: None, ..Default::default() };
    let plan = cutting_plan(&pieces, &bars, &options, &Watch::new()).unwrap();
    assert!(plan.proven || plan.gap < 0.1, "{plan}");
}

#[test]
fn a_million_of_each_is_proven() {
    let pieces = [("1380 mm", 1_000_000), ("2200 mm", 999_999), ("415 mm", 1_234_567)]
        .map(|(length, count)| OrderedPiece { length: size(length), count });
    let bars = [CuttingBar { length: size("6 m"), available: None, price: None }];
    let options = CuttingOptions { kerf: size("2 mm"), ..Default::default() };
    let plan = cutting_plan(&pieces, &bars, &options, &Watch::new()).unwrap();
    assert!(plan.proven, "{plan}");
}
