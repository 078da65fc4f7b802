//! Charts, gauge studies, sampling plans, uncertainty and cutting plans; and long work under a watch.
use super::*;
use std::ops::ControlFlow;
use std::time::Duration;
use tenths::cost::{
    DiscountScheme, PriceTier, StartRule, discounted_order, quantity_breaks, start_quantities,
};
use tenths::document::Decimal;
use tenths::inspect::control_chart::*;
use tenths::inspect::gauge_study::*;
use tenths::inspect::sampling::*;
use tenths::inspect::uncertainty::*;
use tenths::material::{HardnessComparison, HardnessScale};
use tenths::money::{Amount, Rounding, split_amount};
use tenths::object::{ByName, Object, Told};
use tenths::plan::Rates;
use tenths::plan::quote::PriceList;
use tenths::quantity::{Density, Length, Time};
use tenths::stock::form::mass_formula;
use tenths::stock::{
    BarCut, BarForm, BarSize, CuttingBar, CuttingOptions, CuttingOrder, CuttingPlan, MachineOrder,
    OrderedPiece, Supply, bar_mass, bar_mass_per_length, bar_sizes, bars_to_buy, cutting_plan, machine_load,
    make_or_buy, next_bar_size, shared_cutting_plan,
};

const KINDS: [ChartKind; 9] = [
    ChartKind::XbarR,
    ChartKind::XbarS,
    ChartKind::IMr,
    ChartKind::P,
    ChartKind::Np,
    ChartKind::C,
    ChartKind::U,
    ChartKind::Ewma,
    ChartKind::Cusum,
];

#[test]
fn charts() {
    none_panics!(
        |text: &'static str| {
            black_box((ChartKind::parse(text).is_ok(), RuleSet::parse(text).is_ok()));
            ConstantSource::parse(text).is_ok()
        },
        |n: u32| {
            // Beyond a few thousand the integrals only take time.
            let n = if n > 100 { usize::MAX } else { n as usize };
            let made = |source| ChartConstants::new(n, source).is_ok();
            (made(ConstantSource::Exact), made(ConstantSource::Printed))
        },
        |data: Vec<f64>, size: f64| {
            KINDS.map(|kind| {
                let options = ChartOptions { constants: ConstantSource::Printed, ..ChartOptions::default() };
                control_chart(kind, &data, &[size], &options).is_ok()
            })
        },
        |one: f64, sigmas: f64| {
            KINDS.map(|kind| {
                let constants = ConstantSource::Printed;
                let options =
                    ChartOptions { constants, sigmas, centre: Some(one), ..ChartOptions::default() };
                let data = [one, 1.0, 2.0, 3.0, 4.0, 5.0];
                control_chart(kind, &data, &[], &options).is_ok()
            })
        },
        // The integrals of an EWMA or CUSUM take some milliseconds each.
        |shift: f64| average_run_length(ChartKind::Cusum, shift, 1, &ChartOptions::default()).is_ok(),
        |shift: f64, sigmas: f64| {
            let options = ChartOptions { sigmas, ..ChartOptions::default() };
            [ChartKind::IMr, ChartKind::P].map(|kind| average_run_length(kind, shift, 4, &options).is_ok())
        },
    );
}

#[test]
fn studies() {
    let told = |study: GaugeStudy| {
        (
            GaugeStudy::distinct_categories(&study),
            GaugeStudy::percent_of_tolerance(&study),
            GaugeStudy::percent_of_study(&study),
            GaugeStudy::undecided_width(&study),
        )
    };
    none_panics!(
        |text: &'static str| StudyMethod::parse(text).is_ok(),
        move |one: f64, tolerance: f64| {
            let readings = [one, 2.5, 1.0, 2.0, 3.0, 5.0, 4.0, 6.0];
            let data = StudyData { readings: &readings, parts: 2, appraisers: 2, trials: 2 };
            let of = |method| {
                let options = StudyOptions { method, tolerance: Some(tolerance), ..StudyOptions::default() };
                let many = gauge_studies(&data, &options)
                    .map(|made| made.iter().map(GaugeFigures::to_array).count());
                black_box((gauge_study(&data, &options).map(told).is_ok(), many.is_ok()))
            };
            [StudyMethod::Anova, StudyMethod::Nested, StudyMethod::AverageRange].map(of)
        },
        |parts: usize, appraisers: usize, trials: usize| {
            let data = StudyData { readings: &[1.0, 2.0], parts, appraisers, trials };
            let options = StudyOptions::default();
            let agreement = attribute_agreement(&[0, 1, 1, 0], [parts, appraisers, trials], &[], 0.95);
            black_box(agreement.is_ok());
            (gauge_study(&data, &options).is_ok(), gauge_studies(&data, &options).is_ok())
        },
        |rating: usize, confidence: f64| {
            attribute_agreement(&[rating, 1, 0, 1], [2, 2, 1], &[1, 0], confidence).is_ok()
        },
        |readings: Vec<f64>, odd: f64| {
            let printed = ChartOptions { constants: ConstantSource::Printed, ..ChartOptions::default() };
            [(odd, 0.95), (1.0, odd)].map(|(one, confidence)| {
                black_box((
                    gauge_bias(&readings, one, confidence).is_ok(),
                    attribute_zone(&readings, &readings, Some(one), None).is_ok(),
                    regression(&readings, &readings, confidence).is_ok(),
                    gauge_linearity(&readings, &[one], confidence).is_ok(),
                    gauge_linearity(&readings, &readings, confidence).is_ok(),
                ));
                gauge_stability(&readings, &[], &printed, confidence).is_ok()
            })
        },
    );
}

const MODELS: [LotModel; 3] = [LotModel::Binomial, LotModel::Hypergeometric, LotModel::Poisson];

fn use_plan(plan: &SamplingPlan, p: f64) {
    for model in MODELS {
        black_box((
            SamplingPlan::performance(plan, p, model).is_ok(),
            SamplingPlan::acceptance_probability(plan, p, model).is_ok(),
        ));
    }
    for found in [&[][..], &[0], &[1, 0], &[u64::MAX], &[0, 0, 0]] {
        black_box((
            SamplingPlan::judge(plan, found).is_ok(),
            SamplingPlan::switching_points(plan, found).is_ok(),
        ));
    }
    black_box((SamplingPlan::acceptance_at_aql(plan), SamplingPlan::samples(plan)));
    black_box(SamplingPlan::whole_lot(plan));
}

#[test]
fn sampling_of_lots() {
    none_panics!(
        |lot: u64, aql: f64| {
            let asked = PlanRequest::new(lot, aql);
            let plan = SamplingPlan::of_standard(&asked);
            plan.is_ok_and(|plan| {
                use_plan(&plan, 0.01);
                SamplingPlan::worst_outgoing(&plan, LotModel::Binomial).is_ok()
            })
        },
        |text: &'static str| {
            black_box((InspectionLevel::parse(text).is_ok(), PlanKind::parse(text).is_ok()));
            black_box((LotModel::parse(text).is_ok(), SigmaKnowledge::parse(text).is_ok()));
            InspectionSeverity::parse(text).is_ok()
        },
        |text: &'static str| SamplingPlan::parse(text, None, InspectionSeverity::Normal).is_ok(),
        |sample_size: u64, p: f64| {
            let sample_size = if sample_size > 100 { u64::MAX } else { sample_size };
            let accept = Some(0);
            let stage = SamplingStage { sample_size, accept, reject: 2 };
            let stages = [stage, SamplingStage { accept: Some(1), ..stage }];
            [Some(sample_size), None].map(|lot| {
                let plan = SamplingPlan::of_stages(&stages, lot, InspectionSeverity::Reduced);
                plan.is_ok_and(|plan| {
                    use_plan(&plan, p);
                    true
                })
            })
        },
        // Searches that go on to a million pieces only take time: each of the two is odd in its turn.
        |odd: f64| {
            let made = [(odd, 0.1), (5.0, odd)].map(|(quality, risk)| {
                let quality = if quality > 0.0 && quality < 0.1 { 0.1 } else { quality };
                black_box(
                    [SigmaKnowledge::Known, SigmaKnowledge::Unknown]
                        .map(|sigma| VariablesPlan::new(quality, 20.0, risk, 0.1, sigma).is_ok()),
                );
                black_box(zero_acceptance_plan(Some(1000), Quality::Aql(quality), risk).is_ok());
                two_point_plan(quality, 20.0, risk, 0.1).is_ok()
            });
            black_box(made);
        },
        |lot: Option<u64>| zero_acceptance_plan(lot, Quality::Ltpd(5.0), 0.1).is_ok(),
        |size: u64, odd: f64| {
            [SigmaKnowledge::Known, SigmaKnowledge::Unknown].map(|sigma| {
                black_box(VariablesPlan::of(size, odd, sigma).is_ok());
                VariablesPlan::of(size, 1.5, sigma).is_ok_and(|plan| {
                    black_box(VariablesPlan::judge(&plan, odd, odd, Some(0.0), None).is_ok());
                    VariablesPlan::acceptance_probability(&plan, odd).is_ok()
                })
            })
        },
        |text: &'static str, lots: u32| {
            let steady = lots == 1;
            let severities =
                [InspectionSeverity::Normal, InspectionSeverity::Tightened, InspectionSeverity::Reduced];
            severities.map(|severity| {
                let state = Switching::start(severity);
                black_box((
                    Switching::may_reduce(&state),
                    Switching::after_all(&state, text, steady).is_ok(),
                    SamplingPlan::parse("80/2/3", None, severity)
                        .is_ok_and(|plan| Switching::after_lot(&state, &plan, &[0], steady).is_ok()),
                ));
                Switching::after(&state, LotVerdict::Rejected, Some(u32::MAX), steady)
            })
        },
    );
}

#[test]
fn uncertainty() {
    none_panics!(
        |value: f64, uncertainty: f64, freedom: f64| {
            black_box(Estimate::of_certificate(value, uncertainty, freedom).is_ok());
            Estimate::new(value, uncertainty, freedom).is_ok()
        },
        |readings: Vec<f64>| Estimate::of_readings(&readings).is_ok(),
        |x: f64, coverage: f64, freedom: f64| {
            let inputs = vec![Input::new("x", x, 1.0, -1.0)];
            let Ok(model) = Propagation::new(by_row(|[x]: [f64; 1]| x.sqrt()), inputs) else { return false };
            let options = BudgetOptions { coverage, freedoms: &[freedom], ..BudgetOptions::default() };
            let stopped = Watch::new();
            stopped.stop();
            black_box(UncertaintyBudget::new_watched(&model, &options, &stopped).is_ok());
            UncertaintyBudget::new(&model, &options).is_ok_and(|budget| {
                black_box(UncertaintyBudget::for_decision(&budget));
                black_box(UncertaintyBudget::advice(&budget));
                black_box(UncertaintyBudget::named(budget, Some("root"), None));
                true
            })
        },
    );
}

#[test]
fn cutting_plans() {
    none_panics!(
        |length: Size, count: u64, kerf: Size| {
            let pieces = [OrderedPiece { length, count }, OrderedPiece { length: kerf, count: 2 }];
            let bar =
                CuttingBar { length: Size::from_picometres(6_000_000_000_000), available: None, price: None };
            let options = CuttingOptions { kerf, work_limit: Some(100_000), ..CuttingOptions::default() };
            let plan = cutting_plan(&pieces, &[bar], &options, &Watch::new());
            plan.is_ok_and(|plan| CuttingPlan::to_svg(&plan).is_empty())
        },
        |length: Size, available: Option<u64>, price: Option<f64>| {
            let wanted = OrderedPiece { length: Size::from_picometres(1_000_000_000), count: 3 };
            let options = CuttingOptions { time_limit: Some(Duration::ZERO), ..CuttingOptions::default() };
            let bars = [CuttingBar { length, available, price }];
            cutting_plan(&[wanted], &bars, &options, &Watch::new()).is_ok()
        },
    );
}

#[test]
fn stock() {
    none_panics!(
        |size: f64, second: f64| {
            let [size, second] = [size, second].map(Length::millimetres);
            let density = Density::grams_per_cubic_centimetre(7.85);
            ["round", "tube", "flat", "plate", "rod"].into_iter().any(|name| {
                black_box(mass_formula(name, &["wall"]).is_ok());
                BarForm::of_name(name, Some(second)).is_ok_and(|form| {
                    black_box(bar_mass_per_length(form, size, density).is_ok());
                    bar_mass(form, size, second, density).is_ok()
                })
            })
        },
        |bar_length: Size, kerf: Size, quantity: u64, share: f64| {
            let cut = BarCut { kerf, ..BarCut::new(bar_length, Size::from_picometres(1_000_000)) };
            black_box(bars_to_buy(quantity, &cut, share).is_ok());
            let long = BarCut {
                end_trim: kerf,
                remnant: kerf,
                ..BarCut::new(Size::from_picometres(i64::MAX), bar_length)
            };
            bars_to_buy(quantity, &long, share).is_ok()
        },
        |least: Size, limits: Limits, name: &'static str| {
            let sizes = bar_sizes(name).unwrap_or(vec![BarSize::own(least), BarSize::own_limits(limits)]);
            black_box(sizes.iter().map(BarSize::least).max());
            next_bar_size(least, &sizes).is_ok()
        },
        |setup: f64, due: f64, quantity: u64| {
            let [setup, due] = [setup, due].map(Time::minutes);
            let order = |name: &str| MachineOrder { name: name.into(), quantity, setup, cycle: setup, due };
            machine_load(&[order("a"), order("b")], setup).is_ok_and(|load| load.to_string().is_empty())
        },
        |good: u64, share: f64, text: &'static str| {
            let chains =
                StartRule::ALL.iter().map(|rule| start_quantities(good, &[share, 0.1, share], *rule));
            black_box(chains.filter(Result::is_ok).count());
            let amounts = Rounding::ALL.iter().filter_map(|rule| Amount::round(text, 2, *rule).ok());
            let told = amounts
                .map(|amount| (amount.to_string(), amount.minor(), amount.decimals(), amount.to_f64()));
            black_box(told.count());
            let parts = Amount::parse(text).and_then(|amount| split_amount(amount, &[share, 1.0, share]));
            parts.is_ok()
                || Amount::new(good as i64, good as u8).is_ok_and(|amount| amount.to_string().is_empty())
        },
        |from_quantity: u64, price: f64, demand: f64| {
            let tiers = [PriceTier { from_quantity: 1, price }, PriceTier { from_quantity, price: demand }];
            let schemes = DiscountScheme::ALL.iter();
            let orders = schemes.map(|scheme| discounted_order(demand, price, 0.2, &tiers, *scheme));
            black_box(orders.filter(Result::is_ok).count());
            quantity_breaks(&tiers).is_ok()
        },
        |text: &'static str, quantity: u64, units: Units| {
            let rates = Rates::from_json(text, units);
            black_box((rates.is_ok(), Decimal::ZERO.to_f64()));
            let plan = Plan::from_json(include_str!("../../examples/plans/roller_axle.json")).unwrap();
            let (rates, share) = (rates.ok(), quantity as f64 * 1e-3);
            black_box((
                plan.break_even(&plan, quantity.min(3), rates.as_ref()).is_ok(),
                plan.price_drivers(quantity, share, rates.as_ref()).is_ok(),
                plan.economic_lot(quantity, share, rates.as_ref()).is_ok(),
                plan.compare_routings(Some(quantity), quantity.min(3), rates.as_ref()).is_ok(),
                plan.routing_named(text).is_ok(),
                plan.document().joint.as_ref().and_then(|joint| joint.own_name()),
                (plan.routings().len(), plan.routing(plan.routing_name()).is_some()),
            ));
            let input = Input::new("/rates/machines/2/rate", share, 1.0, -1.0);
            let (sampling, watch) = (Sampling::new(2, quantity), Watch::new());
            black_box((
                plan.price_range(quantity, std::slice::from_ref(&input), &sampling).is_ok(),
                plan.price_range_watched(quantity, &[input], &sampling, &watch).is_ok(),
                plan.price_range_json_watched(quantity, text, &watch).is_ok(),
            ));
            plan.quote(&[quantity, 1], rates.as_ref()).is_ok_and(|list| {
                black_box((PriceList::to_markdown(&list), PriceList::to_html(&list)));
                list.to_string().is_empty()
            })
        },
        |limits: Limits, fixed: f64, each: f64, quantity: u64| {
            let way =
                |name: &str, fixed, each| Supply { name: name.into(), limits: Some(limits), fixed, each };
            let ways = [way("a", fixed, each), way("b", each, fixed), way("c", 1.0, 1.0)];
            make_or_buy(limits, &ways, quantity).is_ok_and(|judged| judged.to_string().is_empty())
        },
        |value: f64, name: &'static str| {
            black_box(HardnessScale::parse(name).is_ok());
            let scales = ["HRC", "HRB", "HB", "HV"].map(|name| HardnessScale::parse(name).unwrap());
            scales.into_iter().all(|scale| {
                let compared = HardnessComparison::new(scale, value);
                compared.is_ok_and(|compared| {
                    (compared.to_string() + HardnessComparison::source(&compared)).is_empty()
                })
            })
        },
        |length: Size, count: u64| {
            let order = |name: &str| CuttingOrder {
                name: name.into(),
                pieces: vec![OrderedPiece { length, count }; 2],
            };
            let bars = [CuttingBar {
                length: Size::from_picometres(6_000_000_000_000),
                available: None,
                price: Some(1.0),
            }];
            let options = CuttingOptions { work_limit: Some(10_000), ..CuttingOptions::default() };
            let made = shared_cutting_plan(&[order("a"), order("b")], &bars, &options, &Watch::new());
            made.is_ok_and(|made| made.to_string().is_empty())
        },
    );
}

#[test]
fn work_under_a_watch() {
    let watch =
        Watch::telling(|done| if done < 0.5 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) });
    black_box(Watch::is_stopped(&watch));
    none_panics!(
        |count: u64, first: u64| {
            let count = count.min(1000);
            let sampling = Sampling::new(count, 1);
            let watch = Watch::new();
            let mut stack = Stack::new(Units::Metric);
            stack.add(Contributor::new("a", Limits::parse("1 ±0.1 mm").unwrap())).unwrap();
            let sampled = Stack::sample_watched(&stack, &sampling, &watch);
            black_box(sampled.is_ok_and(|made| {
                black_box((Sample::values(&made).len(), 0));
                Sample::percentiles_watched(&made, &[first as f64, f64::NAN], &watch).is_ok()
            }));
            black_box(Stack::sample_blocks_watched(&stack, &sampling, first, 1, &watch).is_ok());
            let inputs = vec![Input::new("x", 1.0, 1.0, -1.0)];
            let Ok(made) = Propagation::new(by_row(|[x]: [f64; 1]| x), inputs) else { return false };
            black_box(Propagation::sample_watched(&made, &sampling, &watch).is_ok());
            if let Ok(moments) = made.moments() {
                let of = &moments.derivatives;
                black_box((ByName::get(of, "y"), ByName::iter(of).count(), ByName::values(of).count()));
            }
            Propagation::sample_blocks_watched(&made, &sampling, first, 1, &watch).is_ok()
        },
        |x: f64| {
            let formula = formulas().find(|formula| formula.name == "spindle_speed").unwrap();
            let (xs, mut ys) = ([x, 1.0], [0.0, 0.0]);
            let watch = Watch::new();
            let threads = [0, 1, usize::MAX].map(|threads| {
                Formula::batch_on_threads(formula, Units::Inch, &[&xs, &xs], &mut [&mut ys], threads, &watch)
                    .is_ok()
            });
            (
                threads,
                Formula::batch_watched(formula, Units::Inch, &[&xs, &xs], &mut [&mut ys], &watch).is_ok(),
            )
        },
        |text: &'static str| {
            let document = include_str!("../../examples/plans/roller_axle.json");
            let plan = Plan::from_json(document).unwrap();
            black_box(
                Plan::propagate_watched(&plan, &[], &Sampling::new(2, 1), &[text], &Watch::new()).is_ok(),
            );
            Plan::propagate_json_watched(&plan, text, &Watch::new()).is_ok()
        },
        |text: &'static str| {
            let decision =
                Decision::new(&Limits::parse("10..10.1 mm").unwrap(), Size::ZERO, DecisionRule::Simple, None);
            let told: Told = decision.unwrap().tell();
            black_box(Decision::judge(&decision_of(), Size::from_picometres(i64::MIN)));
            Told::get::<Size>(&told, text).is_some()
        },
    );
}

fn decision_of() -> Decision {
    Decision::new(&Limits::parse("10..10.1 mm").unwrap(), Size::ZERO, DecisionRule::Simple, None).unwrap()
}
