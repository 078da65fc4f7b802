//! First articles and readings from CSV.
use super::*;
use tenths::document::DocumentError;
use tenths::first_article::*;

const PLAN: &str = include_str!("../../examples/plans/jig_rest_pin.json");

#[test]
fn first_articles() {
    let plan = Plan::from_json(PLAN).unwrap();
    black_box((
        Plan::sha256(&plan),
        Plan::from_json("{").map_err(|error| DocumentError::faults(&error).len()).is_ok(),
    ));
    let told = |made: FirstArticle| {
        black_box((
            FirstArticle::to_markdown(&made),
            FirstArticle::to_html(&made),
            FirstArticle::to_json(&made),
            made.to_string(),
        ));
        black_box((
            FirstArticle::to_csv(&made, true),
            FirstArticle::accepted(&made),
            FirstArticle::standard(&made),
            FirstArticle::findings(&made),
        ))
    };
    none_panics!(
        |text: &'static str, units: Option<Units>| {
            black_box((
                MeasuredValue::parse(text).is_ok(),
                GaugeResult::parse(text).is_ok(),
                CsvForm::parse(text).is_ok(),
            ));
            MeasuredValue::parse_in(text, units).is_ok()
        },
        |size: Size, pieces: Option<u32>, uncertainty: Size| {
            let mut readings = ReadingTable::new();
            for number in [0, 1, 1, 2, u32::MAX] {
                ReadingTable::add(&mut readings, number, MeasuredValue::Size(size));
            }
            black_box((ReadingTable::of(&readings, 1).len(), ReadingTable::numbers(&readings).count()));
            black_box((ReadingTable::len(&readings), ReadingTable::is_empty(&readings)));
            // Beyond a few thousand the texts only take time.
            let pieces = pieces.filter(|pieces| *pieces <= 3 || *pieces > 1_000_000);
            for rule in [DecisionRule::Simple, DecisionRule::Iso14253] {
                let options =
                    FirstArticleOptions { rule, uncertainty, pieces, ..FirstArticleOptions::default() };
                black_box(FirstArticle::new(&plan, &readings, &options).map(told).is_ok());
            }
        },
        |number: u32, piece: u32, text: &'static str| {
            let mut readings = ReadingTable::new();
            let kept = Some(text.into());
            let value = MeasuredValue::Size(Size::ZERO);
            let reading =
                PieceReading { piece, value, measured_with: kept.clone(), by: kept.clone(), date: kept };
            ReadingTable::push(&mut readings, number, reading.clone());
            ReadingTable::add(&mut readings, number, value);
            ReadingTable::push(&mut readings, 1, PieceReading { piece: 1, ..reading });
            let few = !(4..1_000_000).contains(&piece);
            few && FirstArticle::new(&plan, &readings, &FirstArticleOptions::default()).map(told).is_ok()
        },
        |text: &'static str, units: Option<Units>| {
            let csv = format!("number,measured,piece\n1,{text},1\n{text},1,{text}\n{text}");
            let mut form = CsvForm { units, ..CsvForm::default() };
            for comma in [false, true] {
                form.decimal_comma = comma;
                black_box(
                    ReadingTable::from_csv(csv.as_bytes(), &form)
                        .map_err(|error| CsvError::faults(&error).len())
                        .is_ok(),
                );
            }
            Headings::set(&mut form.headings, text, text).is_ok()
        },
    );
}

#[test]
fn form_from_points() {
    const CIRCLE: [f64; 8] = [1.0, 0.0, 0.0, 1.0, -1.0, 0.0, 0.0, -1.0];
    none_panics!(
        |text: &'static str, x: f64| {
            black_box((FormFeature::parse(text).is_ok(), FormCriterion::parse(text).is_ok()));
            for feature in FormFeature::ALL {
                for criterion in FormCriterion::ALL {
                    black_box((FormFeature::name(feature), FormCriterion::name(criterion)));
                    let points: Vec<f64> =
                        (0..18).map(|k| if k % 5 == 0 { x } else { f64::from(k * k % 7) }).collect();
                    for columns in 0..5 {
                        let fit = FormFit::new(feature, criterion, &points, columns, Units::Inch);
                        black_box(fit.map(|fit| fit.to_string()).is_ok());
                    }
                }
            }
        },
        |x: Size, tolerance: Size, number: f64| {
            let mut points: Vec<f64> = CIRCLE.chunks_exact(2).flat_map(|row| [row[0], row[1], 0.0]).collect();
            points[4] = number;
            let datums: [Option<[&[f64]; 3]>; 2] = [None, Some([&points; 3])];
            let made =
                |datums| hole_position(&points, datums, [x, x], tolerance, None, Member::Hole, Units::Metric);
            datums.map(|datums| made(datums).map(|made| made.to_string()).is_ok())
        },
    );
}

#[test]
fn locators_and_clamps() {
    use tenths::quantity::{Force, Ratio};
    use tenths::workholding::{
        Clamp, ClampKind, ClampSafety, Clamping, Holding, Locating, Locator, clamp_force,
    };
    none_panics!(
        |text: &'static str, x: f64, y: f64| {
            black_box((ClampKind::parse(text).is_ok(), Holding::parse(text).is_ok()));
            for kind in ClampKind::ALL {
                black_box((ClampKind::name(kind), ClampKind::formula(kind).name));
                black_box(clamp_force(kind, Units::Inch, &[x, y, x, y, x]).is_ok());
                black_box(clamp_force(kind, Units::Inch, &[x]).is_ok());
            }
            for holding in Holding::ALL {
                let force = Force::newtons(x);
                let of = Clamping::new(holding, force, [force, Force::newtons(y), force], Ratio::new(y));
                black_box((
                    Holding::name(holding),
                    ClampSafety::new(&of).map(|made| made.to_string()).is_ok(),
                ));
                let of = Clamping { grip_lost: force, wanted: y, faces: Some(0), ..of };
                black_box(ClampSafety::new(&of).is_ok());
            }
        },
        |x: f64, y: f64, friction: f64| {
            let mut locators = vec![Locator { position: [x, y, 1.0], normal: [y, x, 1.0] }];
            locators.extend(Locator::line([x, 0.0, y], [0.0, y, 0.0], [0.0, 0.0, x]).unwrap_or_default());
            locators.extend(Locator::plane([[x, y, 0.0], [0.0, x, 0.0], [1.0, 1.0, y]]).unwrap_or_default());
            locators.extend(Locator::pins([x, 0.0, 0.0], [y, x, 0.0], [0.0, 0.0, y]).unwrap_or_default());
            let vee = Locator::vee_block([x, 0.0, 0.0], [y, 0.0, 0.0], [0.0, x, y], x, y);
            locators.extend(vee.unwrap_or_default());
            let clamps = [Clamp { position: [y, x, 2.0], normal: [0.0, x, -1.0], force: y }];
            for count in 0..=locators.len() {
                let own = &locators[..count];
                black_box(Locating::new(own, &clamps, Some(friction), Units::Metric).is_ok());
                if let Ok(made) = Locating::new(own, &[], None, Units::Metric) {
                    black_box((made.to_string(), made.shift(&[x; 3], [y; 3]).is_ok()));
                    black_box(Locating::sensitivities(&made, [x, y, 1.0], [y, 1.0, x]).is_ok());
                }
            }
        },
    );
}
