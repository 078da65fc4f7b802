//! Objects that hold more than numbers: charts, loops, machines, materials, decisions, plans, and what is made of them.
use super::*;
use std::collections::BTreeSet;
use tenths::cutting::geared_head::lower_step;
use tenths::cutting::limit_to_machine::limit_to_machine;
use tenths::cutting::machine::{CurvePoint, Machine, MachineData};
use tenths::cutting::reaming::reamer_limits;
use tenths::cutting::taylor_fit::TaylorFit;
use tenths::document::DocumentNumber;
use tenths::joint::press_joint::PressJoint;
use tenths::material::{IsoGroup, Material, Materials, Property, materials};
use tenths::object::{Restored, Told, Value};
use tenths::plan::{Operation, Propagated};
use tenths::quantity::{KINDS, Length, Quantity, SpindleSpeed, SurfaceSpeed, Time};
use tenths::registry::objects;
use tenths::tolerance_chart::{Cut, Facing, Working};

/// Fewer odd numbers, for what takes many at once.
const FEW: [f64; 8] = [0.0, 1.0, -1.0, 5e-324, 1e6, f64::MAX, f64::INFINITY, f64::NAN];

fn few_limits() -> Vec<Limits> {
    Limits::odd().into_iter().step_by(5).collect()
}

#[test]
fn allocation() {
    none_panics!(|limits: Limits, least: f64, half_band: f64| {
        let mut stack = Stack::new(Units::Metric);
        stack.add(Contributor::new("a", limits).count(3))?;
        stack.add(Contributor::new("b", limits).distribution(Distribution::Uniform))?;
        stack.estimated_mean_shift(&[least, half_band]).ok();
        stack
            .covariance(
                &[ContributorKey::Number(0), ContributorKey::Number(1)],
                &[least, half_band, half_band, least],
            )
            .ok();
        black_box((stack.contributors().len(), stack.correlations(), stack.units()));
        let curves = [
            CostCurve::Reciprocal { fixed: 1.0, scale: least, power: 1.0 },
            CostCurve::Exponential { fixed: half_band, scale: 1.0, rate: 2.0 },
            CostCurve::Points(vec![(least, 3.0), (half_band, 2.0), (1.0, 1.0)]),
        ];
        let targets = [
            Target::WorstCase(half_band),
            Target::Rss(half_band),
            Target::Defects { half_band, rate: least },
            Target::Defects { half_band: 1.0, rate: half_band },
        ];
        for (cost, target) in curves.iter().flat_map(|cost| targets.iter().map(move |target| (cost, *target)))
        {
            let choice = FreeTolerance { cost: cost.clone(), least, greatest: half_band };
            let choices = [Some(choice), None];
            black_box((
                stack.proportional_factor(&[false, true], target).is_ok(),
                stack.allocate(&choices[..1], target).is_ok(),
            ));
            if let Ok(made) = stack.allocate(&choices, target) {
                Size::odd().into_iter().for_each(|step| drop(made.apply(&stack, step)));
                let places = [
                    ContributorKey::Number(0),
                    ContributorKey::Number(usize::MAX),
                    ContributorKey::Name("b"),
                    ContributorKey::Name(""),
                ];
                places.into_iter().for_each(|place| drop(Allocation::tolerance(&made, place)));
                drop(made.apply(&Stack::new(Units::Inch), Size::ZERO));
            }
        }
        Ok::<_, StackError>(())
    });
}

/// A chart of two faces and a cut, with names and sizes as given.
fn chart(names: [&str; 3], working: Working, limits: Limits, least: Size) -> OperationChart {
    let [one, two, from] = names;
    OperationChart::new()
        .in_units(Units::Inch)
        .face(one, Facing::Left)
        .face(two, Facing::Right)
        .datum(from)
        .stock(two, from, working)
        .cut(Cut::new("10", one, two, working).removing(least))
        .cut(Cut::new("20", two, one, limits))
        .drawing("length", one, two, limits)
}

#[test]
fn operation_charts() {
    let names = [["a", "b", "a"], ["a", "a", "a"], ["", "\0", "x"], ["a", "b", "b"]];
    none_panics!(
        |limits: Limits, least: Size, size: Size| {
            for names in names {
                for working in [Working::Limits(limits), Working::Holds(size)] {
                    let made = chart(names, working, limits, least);
                    if let Ok(told) = OperationChart::evaluate(&made) {
                        black_box((told.chart(), told.working, told.dimensions, told.removals));
                    }
                    black_box((made.derive(None).is_ok(), made.derive(Some(size)).is_ok()));
                    let (working, drawing) =
                        (OperationChart::working_rows(&made), OperationChart::drawing_rows(&made));
                    // Rows of the wrong kind are passed over.
                    for rows in [[&working, &drawing], [&drawing, &working]] {
                        let again = OperationChart::of_rows(Units::Inch, vec![], vec![], rows[0], rows[1]);
                        drop(OperationChart::evaluate(&again));
                    }
                }
            }
        },
        |text: &'static str| (
            Facing::parse(text).map(Facing::name).is_ok(),
            OperationChart::evaluate(&OperationChart::new()).is_ok()
        ),
    );
}

#[test]
fn vector_loops() {
    none_panics!(
        |x: f64| FEW
            .into_iter()
            .flat_map(|y| FEW.map(|guess| (y, guess)))
            .filter_map(|(y, guess)| {
                let mut made = VectorLoop::new();
                made.unknown("length", guess).ok()?.unknown("angle", y).ok()?;
                made.link("a", "b").ok()?.link("length", "c").ok()?.link("d", "angle").ok()?;
                black_box((
                    VectorLoop::inputs(&made).len(),
                    made.unknowns().len(),
                    made.links(),
                    made.is_angle("b"),
                ));
                black_box((
                    made.solve(&[x, y, x, y]).is_ok(),
                    made.solve(&[x]).is_ok(),
                    made.solve(&[]).is_ok(),
                ));
                let inputs: Vec<Input> =
                    made.inputs().iter().map(|name| Input::new(*name, x, y, guess)).collect();
                let moving = VectorLoop::propagate(&made, "angle", inputs).ok()?;
                Some((moving.nominal().is_ok(), moving.extremes().is_ok(), moving.moments().is_ok()))
            })
            .collect::<Vec<_>>(),
        |one: &'static str, other: &'static str| {
            let mut made = VectorLoop::new();
            let told = (
                made.unknown(one, 1.0).is_ok(),
                made.link(one, other).is_ok(),
                made.link(other, one).is_ok(),
            );
            (
                told,
                VectorLoop::solve_for(&made, one).is_ok(),
                made.is_angle(other),
                made.propagate(other, vec![]).is_ok(),
            )
        },
    );
}

#[test]
fn taylor_fits_and_geared_heads() {
    none_panics!(
        |a: f64, b: f64, c: f64| {
            let numbers = [a, b, c, 100.0];
            let speeds = numbers.map(SurfaceSpeed::metres_per_minute);
            let lives = [c, a, 10.0, b].map(Time::minutes);
            let feeds = [0.1, b, a, 0.4].map(Length::millimetres);
            let trials: Vec<_> = speeds.iter().copied().zip(lives).collect();
            for upto in 0..=4 {
                let columns = (&speeds[..upto], &lives[..upto], &feeds[..upto]);
                let made = [
                    TaylorFit::from_trials(&trials[..upto]),
                    TaylorFit::from_columns(columns.0, columns.1, Some(columns.2), None),
                    TaylorFit::from_columns(columns.0, columns.1, Some(columns.2), Some(&feeds)),
                ];
                for fit in made.iter().flatten() {
                    let feed = Some(Length::millimetres(b));
                    black_box((
                        fit.predict(speeds[0], feed, None).is_ok(),
                        fit.predict(speeds[1], feed, feed).is_ok(),
                    ));
                }
            }
        },
        |wanted: f64, steps: Vec<f64>| {
            let steps: Vec<_> = steps.into_iter().map(SpindleSpeed::rev_per_minute).collect();
            lower_step(SpindleSpeed::rev_per_minute(wanted), &steps)
        },
    );
}

#[test]
fn machines() {
    none_panics!(
        |least: f64, greatest: f64, other: f64| {
            for units in Units::ALL {
                let curve = vec![
                    CurvePoint::new(least, Some(other), None),
                    CurvePoint::new(greatest, None, Some(other)),
                ];
                let made = Machine::new(MachineData {
                    name: Some("\0\u{2028}".into()),
                    curve,
                    least_feed_rate: Some(DocumentNumber::new(other)),
                    greatest_axis_force: Some(DocumentNumber::new(greatest)),
                    greatest_acceleration: Some(DocumentNumber::new(other)),
                    ..MachineData::new(units, least, greatest)
                });
                let Ok(made) = made else { continue };
                black_box((made.data().units, Machine::from_json(&Machine::to_json(&made)).is_ok()));
                for side in Units::ALL {
                    black_box((
                        made.spindle_speeds(side),
                        made.least_feed_rate(side),
                        made.greatest_feed_rate(side),
                    ));
                    black_box((
                        made.greatest_axis_force(side),
                        made.greatest_acceleration(side),
                        made.power_at(other, side),
                        made.torque_at(other, side),
                    ));
                }
            }
        },
        |text: &'static str| Machine::from_json(text).is_ok(),
    );
}

#[test]
fn cuts_on_machines() {
    let json = r#"{"units": "metric", "least_spindle_speed": 60, "greatest_spindle_speed": 6000,
        "curve": [{"spindle_speed": 60, "power": 5}], "greatest_feed_rate": 5000, "greatest_axis_force": 4000}"#;
    let machine = Machine::from_json(json).unwrap();
    let mut panics = Panics::default();
    for formula in formulas() {
        let limit = |x: f64, units: Units| {
            let count = formula.arguments.len();
            let rows =
                (0..count).map(|at| (0..count).map(|k| if k == at { x } else { 1.0 }).collect::<Vec<_>>());
            let cuts = rows
                .map(|row| limit_to_machine(formula, units, &row, &machine, Some(x)).map(|cut| cut.fits()));
            (
                cuts.filter(Result::is_ok).count(),
                limit_to_machine(formula, units, &[x], &machine, None).is_ok(),
            )
        };
        panics.of(limit, formula.name);
    }
    panics.none();
}

#[test]
fn own_materials() {
    let own = |name: &str, number: f64| {
        format!(
            r#"{{"tenths_materials": 1, "units": "inch", "materials": [{{"designation": {}, "condition": "x", "density": {number:?},
                "modulus": {number:?}, "kc11": {number:?}, "mc": {number:?}}}]}}"#,
            serde_json::to_string(name).unwrap_or_default()
        )
    };
    none_panics!(
        |name: &'static str| FEW.map(|number| {
            let table = Materials::table();
            let found =
                (table.find(name).is_ok(), material::find(name).is_ok(), IsoGroup::parse(name).is_ok());
            let extended = table.extended(&own(name, number)).map(|all| {
                (all.find(name).is_ok(), Materials::iter(&all).count(), all.by_iso_group(IsoGroup::P).count())
            });
            (found, extended.is_ok(), table.extended(name).is_ok())
        }),
        |units: Units| {
            let of = |material| {
                Material::PROPERTIES
                    .iter()
                    .filter_map(|property| Property::of(property, material, units))
                    .collect::<Vec<_>>()
            };
            materials()
                .iter()
                .map(|material| (of(material), material.sources.groups().len()))
                .collect::<Vec<_>>()
        },
    );
}

#[test]
fn decisions_and_positions() {
    let rules = |x: f64| {
        [
            DecisionRule::Simple,
            DecisionRule::Ratio(x),
            DecisionRule::Iso14253,
            DecisionRule::Iso14253Whole,
            DecisionRule::Stringent(x),
            DecisionRule::Relaxed(x),
        ]
    };
    none_panics!(
        |limits: Limits, uncertainty: Size, resolution: Option<Size>| {
            for rule in FEW.into_iter().flat_map(rules) {
                black_box((rule.name(), DecisionRule::standard(&rule)));
                let Ok(made) = Decision::new(&limits, uncertainty, rule, resolution) else { continue };
                black_box((
                    made.judge(uncertainty),
                    made.ratio(),
                    Decision::standard(&made),
                    [f64::NAN, 0.0, 1e300].map(|reading| {
                        let judge = Decision::readings(&made, Units::Inch, resolution).ok();
                        judge.map(|judge| {
                            (DecisionReadings::judge(&judge, reading), DecisionReadings::ends(&judge))
                        })
                    }),
                    made.to_string(),
                ));
            }
        },
        |x: Size, y: Size, tolerance: Size| {
            let told = |made: PositionCheck| (PositionCheck::accepted(&made), made.to_string());
            let bare = PositionCheck::new([x, y, x], tolerance, None).map(told);
            for limits in few_limits() {
                for (member, condition) in
                    [(Member::Hole, MaterialCondition::Maximum), (Member::Shaft, MaterialCondition::Least)]
                {
                    let feature = MeasuredFeature { member, limits, condition, actual: y };
                    black_box((feature.bonus().is_ok(), MaterialCondition::name(condition)));
                    black_box(
                        PositionCheck::new([x, y, Size::ZERO], tolerance, Some(&feature)).map(told).is_ok(),
                    );
                }
            }
            bare.is_ok()
        },
    );
}

#[test]
fn general_tolerances() {
    none_panics!(|text: &'static str, size: Size| {
        let classes =
            [text, "ISO 2768-mK", "v", "L"].into_iter().filter_map(|text| GeneralClass::parse(text).ok());
        for class in classes {
            for feature in GeneralFeature::ALL {
                black_box((GeneralFeature::name(feature), GeneralFeature::parse(text).is_ok()));
                black_box(GeneralTolerance::new(class, feature, size).map(|made| made.to_string()).is_ok());
            }
            black_box(Limits::parse_general(text, class).is_ok());
            black_box(GeneralTolerance::parallelism(class, size, size).is_ok());
        }
    });
}

#[test]
fn knurls_tapers_and_threads() {
    none_panics!(
        |text: &'static str, size: Size| {
            let knurls = [text, "DIN 82 RAA 0.8", "DIN 82 RGE 1.0", "ASME B94.6 straight 96 DP class I"];
            for made in knurls.iter().filter_map(|text| Knurl::parse(text).ok()) {
                black_box((
                    made.blank(size).is_ok(),
                    made.crest_limits(size).is_ok(),
                    made.blank_limits(size).is_ok(),
                ));
                black_box((
                    Knurl::designation(&made),
                    Knurl::pattern(&made),
                    Knurl::standard(&made),
                    Knurl::pitch(&made),
                ));
                black_box((Knurl::growth(&made).is_ok(), Knurl::tolerance(&made)));
            }
        },
        |_units: Units| {
            StandardTaper::all().for_each(|made| {
                black_box((
                    made.designation(),
                    made.family(),
                    made.number(),
                    made.taper(),
                    made.included_angle(),
                ));
                black_box((
                    made.half_angle(),
                    made.large_diameter(),
                    made.small_diameter(),
                    StandardTaper::length(made),
                ));
                black_box((
                    StandardTaper::standard(made),
                    StandardTaper::source(made),
                    StandardTaper::is_from_memory(made),
                ));
                black_box((made.units(), StandardTaper::parse(&made.to_string()).is_ok()));
            });
        },
        |text: &'static str| {
            let texts = [text, "M6x1-6H", "1/4-20 UNC-2A", "M10-LH", "0-80 UNF-3B"];
            let made = texts.iter().flat_map(|text| [Thread::parse(text), Thread::parse_with_class(text)]);
            made.flatten().for_each(|made| {
                black_box((
                    Thread::is_internal(&made),
                    made.is_left_hand(),
                    made.nominal(),
                    made.thread_pitch(),
                ));
                black_box((
                    made.basic_pitch_diameter(),
                    made.basic_minor(),
                    made.tolerance_class(),
                    Thread::standard(&made),
                    Thread::designation(&made),
                ));
                black_box((
                    made.major(),
                    made.major_least(),
                    made.pitch_diameter(),
                    made.minor(),
                    made.minor_greatest(),
                ));
            });
        },
    );
}

#[test]
fn fits_and_what_is_made_of_them() {
    none_panics!(
        |hole: Limits, shaft: Limits| {
            let made = Fit::between(hole, shaft)?;
            black_box((
                made.zones(),
                Fit::to_svg(&made),
                made.classes(),
                Fit::standard(&made),
                Fit::source(&made),
            ));
            black_box((
                Fit::is_from_memory(&made),
                Fit::designation(&made),
                made.nominal(),
                made.hole(),
                made.shaft(),
            ));
            let inputs = Units::ALL
                .map(|units| (Input::clearance("c", &made, units), Input::interference("i", &made, units)));
            Ok::<_, FitError>((inputs, Input::sized("s", &hole, Units::Inch), hole.contains(&shaft)))
        },
        |text: &'static str, nominal: Size| {
            let classes = [text, "H7", "k6", "js13", "ZC18", "a1"].map(ToleranceClass::parse);
            for class in classes.iter().flatten() {
                black_box((
                    class.member(),
                    class.position(),
                    class.grade(),
                    ToleranceClass::limits(*class, nominal).is_ok(),
                ));
                black_box((
                    class.limits_with_rounded_js(nominal).is_ok(),
                    Fit::iso(nominal, *class, *class).is_ok(),
                ));
            }
        },
        |nominal: Size, least: Size, greatest: Size| [FitBasis::Hole, FitBasis::Shaft].map(|basis| {
            let selection = fit_selection(nominal, least, greatest, basis);
            selection
                .map(|made| (made.to_string(), FitSelection::considered(&made), FitSelection::ranking(&made)))
                .ok();
            select_fits(nominal, least, greatest, basis).is_ok()
        }),
        |limits: Limits, size: Size| {
            let gauges = [plug_gauge(&limits), ring_gauge(&limits)];
            let classes = ["XX", "X", "Y", "Z", "ZZ"].map(GagemakerClass::parse);
            let made =
                classes.iter().flatten().map(|class| (class.tolerance(size), class.master(size).is_ok()));
            let forms = ["plug", "ring", "snap"].map(GaugeForm::parse);
            let schemes = ["B89.1.5", "10 percent", "ISO 1938-1"].map(GaugeScheme::parse);
            black_box(schemes.iter().flatten().map(|one| GaugeOptions::of(*one)).collect::<Vec<_>>());
            let proves = forms.iter().flatten().map(|form| form.proves()).collect::<Vec<_>>();
            let told = gauges.iter().flatten().map(|one| Gauge::envelope(one)).collect::<Vec<_>>();
            let ends = Limits::readings(&limits, Units::Inch, Some(size)).map(|made| Readings::ends(&made));
            let made = (gauges, made.collect::<Vec<_>>(), proves, told);
            (made, reamer_limits(&limits).is_ok(), gauge::standard(), ends.is_ok())
        },
        |one: f64, other: f64| Units::ALL.map(|units| {
            let mut outputs = [one; 12];
            outputs.iter_mut().step_by(3).for_each(|x| *x = other);
            let findings = PressJoint::findings(&PressJoint::from_outputs(units, &outputs), units);
            Finding::list_to_json(&findings)
        }),
    );
}

/// Columns: odd numbers in turn, of odd counts.
#[test]
fn batches_and_propagations_of_formulas() {
    let mut panics = Panics::default();
    for formula in formulas() {
        let (inputs, outputs) = (formula.arguments.len(), formula.outputs.len());
        let batch = |xs: Vec<f64>, units: Units, rows: usize| {
            let rows = rows % 5 * xs.len() / 3;
            let (columns, mut results) = (vec![xs.as_slice(); inputs], vec![vec![0.0; rows]; outputs]);
            let mut results: Vec<&mut [f64]> = results.iter_mut().map(Vec::as_mut_slice).collect();
            let (mut told, mut same) = (0, vec![vec![0.0; xs.len()]; outputs]);
            let mut fit: Vec<&mut [f64]> = same.iter_mut().map(Vec::as_mut_slice).collect();
            let odd = formula.batch(units, &columns, &mut results).is_ok();
            let none = formula.batch(units, &[], &mut []).is_ok();
            (odd, none, formula.batch_telling(units, &columns, &mut fit, &mut |_| told += 1).is_ok(), told)
        };
        panics.of(
            |xs: Vec<f64>, units: Units| {
                (0..3).map(|rows| batch(xs.clone(), units, rows)).collect::<Vec<_>>()
            },
            formula.name,
        );
        let propagate = |units: Units| {
            for (nominal, plus) in FEW.into_iter().flat_map(|x| FEW.map(|plus| (x, plus))) {
                let vary = |name| Input::new(name, nominal, plus, -plus);
                let given: Vec<Input> =
                    formula.arguments.iter().map(|argument| vary(argument.name)).collect();
                let Ok(made) = Formula::propagate(formula, units, Some(formula.output_name(0)), given) else {
                    continue;
                };
                black_box((
                    FormulaOutput::unit(made.function()),
                    FormulaOutput::name(made.function()),
                    made.function().formula().name,
                ));
                black_box((made.inputs().len(), made.correlations(), made.nominal().is_ok()));
                black_box(made.boxed().nominal().is_ok());
            }
            let one = vec![Input::fixed(formula.arguments[0].name, 1.0), Input::fixed("x", f64::NAN)];
            (formula.propagate(units, None, one).is_ok(), formula.propagate(units, Some("x"), vec![]).is_ok())
        };
        panics.of(propagate, formula.name);
        let told = |units: Units| {
            let arguments = formula.arguments.iter();
            let arguments =
                arguments.map(|one| (one.need(units), one.unit(units), one.side(units), one.default(units)));
            let outputs = formula.outputs.iter().map(|one| one.range(units));
            let remarks = FEW.map(|x| formula.remarks(units, &[x], &[x, x], formula::Advice(u32::MAX)));
            let about = (Formula::summary(formula), Formula::topic(formula), formula.is_exact());
            (arguments.collect::<Vec<_>>(), outputs.collect::<Vec<_>>(), remarks, about)
        };
        panics.of(told, formula.name);
    }
    panics.none();
}

#[test]
fn samples_and_readings() {
    none_panics!(
        |x: f64, count: u64, seed: u64| {
            let made =
                Propagation::new(by_row(|[x]: [f64; 1]| x.sqrt()), vec![Input::new("x", x, 1.0, -1.0)])?;
            let sample = made.sample(&Sampling::new(count % 7, seed))?;
            black_box((
                sample.sampling(),
                sample.count(),
                sample.undefined(),
                Sample::mean(&sample),
                Sample::sigma(&sample),
            ));
            black_box((sample.skewness(), sample.kurtosis(), sample.mean_error(), sample.sigma_error()));
            black_box((sample.minimum(), sample.maximum(), sample.values().len(), sample.fraction_below()));
            black_box(sample.fraction_above());
            let blocks = sample.to_blocks();
            let bytes = blocks.to_bytes();
            black_box((
                blocks.byte_count(),
                Sample::fold([blocks.clone(), blocks]).is_ok(),
                Sample::fold([]).is_ok(),
            ));
            (0..bytes.len().min(600)).for_each(|at| {
                let mut broken = bytes.clone();
                broken[at] ^= 0xff;
                black_box((Blocks::from_bytes(&broken).is_ok(), Blocks::from_bytes(&bytes[..at]).is_ok()));
            });
            Ok::<_, StackError>(())
        },
        |text: &'static str, units: Units| {
            let read = KINDS
                .iter()
                .map(|kind| (kind.read(text, units).is_ok(), Input::read("x", text, kind, units).is_ok()));
            (read.collect::<Vec<_>>(), Input::read_any("x", text, units).is_ok())
        },
        |x: f64, limit: f64, units: Units| {
            let spread = Spread { mean: x, shift: limit, sigma: 1.0 };
            black_box((
                spread.z_lower(limit),
                spread.z_upper(limit),
                Size::step_from_float(x, units).is_ok(),
            ));
            let told = |kind: &&quantity::Kind| {
                let base = kind.unit(units).to_base(x);
                black_box((
                    kind.unit(units).from_base(base),
                    kind.metric_of(base, units),
                    kind.base_in(base, units),
                ));
                (kind.inch_size(), kind.labels(), kind.spellings().count())
            };
            KINDS.iter().map(told).collect::<Vec<_>>()
        },
        |x: f64, size: Size| {
            (
                <Length as Quantity>::from_metric(x).in_units(Units::Inch),
                size.picometres(),
                size.is_negative(),
                size.is_positive(),
            )
        },
    );
}

/// Values of any kind in each field in turn, and fewer or more of them.
fn restored<T: Restored + Debug>(made: &T) -> usize {
    let told = made.tell();
    let odd = || {
        let sizes = Size::odd().into_iter().map(Value::Size);
        let numbers = f64::odd().into_iter().map(Value::Number);
        let texts = <&str>::odd().into_iter().map(|text| Value::Text(text.into()));
        let whole = i64::odd().into_iter().map(Value::Whole);
        let others = [Value::Absent, Value::Flag(true), Value::Choice(usize::MAX), Value::List(vec![])];
        let limits = few_limits().into_iter().map(Value::Limits);
        sizes.chain(numbers).chain(texts).chain(whole).chain(others).chain(limits)
    };
    let with = |values: Vec<Value>| Told { values, ..told.clone() };
    let mut made_again = 0;
    for at in 0..told.values.len() {
        for value in odd() {
            let mut values = told.values.clone();
            values[at] = value;
            let told = with(values);
            black_box((Told::units(&told), Told::value(&told, "x").is_some(), told.get::<f64>("error")));
            made_again += usize::from(T::restore(&told).is_some_and(|made| made.tell() == told));
        }
        black_box(T::restore(&with(told.values[..at].to_vec())));
    }
    made_again
}

#[test]
fn objects_from_their_records() {
    none_panics!(
        |_units: Units| {
            restored(&Fit::parse("25 H7/g6").unwrap());
            restored(&Fit::parse("1/2 in FN2").unwrap());
            restored(&Knurl::parse("DIN 82 RAA 0.8").unwrap());
            restored(&StandardTaper::parse("Morse 3").unwrap());
            let (limits, size) =
                (Limits::parse_in("10 ±0.1 mm", None).unwrap(), Size::from_picometres(1_000_000));
            restored(&Decision::new(&limits, size, DecisionRule::Iso14253, None).unwrap());
            restored(&PositionCheck::new([size; 3], size, None).unwrap())
        },
        |_units: Units| objects()
            .iter()
            .map(|record| record.fields().map(|field| field.kind.present()).collect::<Vec<_>>())
            .collect::<Vec<_>>(),
    );
}

const PLANS: [&str; 2] = [
    include_str!("../../examples/plans/roller_axle.json"),
    include_str!("../../examples/plans/jig_rest_pin.json"),
];

/// The pointers to numbers and texts of a document.
fn leaves(value: &serde_json::Value, place: String, found: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::Object(map) => {
            map.iter().for_each(|(key, value)| leaves(value, format!("{place}/{key}"), found))
        }
        serde_json::Value::Array(list) => {
            list.iter().enumerate().for_each(|(k, value)| leaves(value, format!("{place}/{k}"), found));
        }
        _ => drop(found.insert(place)),
    }
}

#[test]
fn plans_and_their_variation() {
    let plans = PLANS.map(|text| Plan::from_json(text).unwrap());
    let places = PLANS.map(|text| {
        let mut found = BTreeSet::new();
        leaves(&serde_json::from_str(text).unwrap(), String::new(), &mut found);
        found.into_iter().collect::<Vec<_>>()
    });
    none_panics!(
        |plus: f64| {
            for (plan, places) in plans.iter().zip(&places) {
                for place in places.iter().step_by(7) {
                    let input = Input::new(place.as_str(), plus, plus, -1.0);
                    let made = Plan::propagate(
                        plan,
                        &[input],
                        &Sampling::new(1, 1),
                        &["/operations/0/time", "", "/x"],
                    );
                    black_box(
                        made.map(|made| Propagated::to_json(&made))
                            .map_err(|error| error.faults().len())
                            .is_ok(),
                    );
                    let request = format!(
                        r#"{{"count": 1, "varying": [{{"place": "{place}", "nominal": {plus:?}, "plus": 1, "minus": {plus:?}}}]}}"#
                    );
                    black_box(plan.propagate_json(&request).is_ok());
                }
            }
        },
        |text: &'static str| {
            let request =
                format!(r#"{{"count": 2, "varying": [{{"place": "/part/length", "limits": {text:?}}}]}}"#);
            (plans[0].propagate_json(&request).is_ok(), plans[0].propagate_json(text).is_ok())
        },
        |_units: Units| {
            plans.iter().for_each(|plan| {
                let sheet = Plan::evaluate(plan).unwrap();
                let made: usize = plan
                    .document()
                    .operations
                    .iter()
                    .map(|one| {
                        let number = Operation::number(one, usize::MAX) as usize;
                        one.makes().len() + number + one.holding().iter().count()
                    })
                    .sum();
                let json = Sheet::to_json(&sheet);
                assert!(Sheet::from_json(&json).is_ok() && Sheet::from_json(&json[1..]).is_err());
                for kind in SheetKind::ALL {
                    black_box((
                        Sheet::to_markdown(&sheet, kind).is_ok(),
                        Sheet::to_html(&sheet, kind).is_ok(),
                    ));
                    black_box((
                        Sheet::to_format(&sheet, kind, "json").is_ok(),
                        Sheet::to_format(&sheet, kind, "odd").is_ok(),
                    ));
                }
                black_box((plan.changes(&plans[0]), plan::changes_to_json(&sheet.changes(&sheet))));
                black_box((SheetKind::parse("cards").is_ok(), SheetKind::parse("<odd>").is_ok()));
                let keys = sheet.operations.iter().flat_map(|one| &one.figures).map(|figure| figure.key());
                black_box((keys.count(), sheet.operations[0].figures.get("odd")));
                black_box((made, plan::schema(), plan::sheet_schema()));
                for code in FindingCode::all() {
                    black_box((code.topic(), code.meaning(), code.remedy(), code.severities()));
                    assert!(FindingCode::named(code.name()) == Some(code));
                }
            });
        },
    );
}
