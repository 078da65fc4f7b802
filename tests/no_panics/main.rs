//! No public function panics, whatever it is given: each is called with odd values of its parameters, in every combination where
//! those are few. `coverage.rs` finds those that are not. Answers and refusals are judged elsewhere; here a call only has to return.
use std::any::type_name;
use std::fmt::Debug;
use std::hint::black_box;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use tenths::inspect::decision::uncertainty_ratio;
use tenths::limits::{RowLimitsError, accept_rows};
use tenths::object::Choice as _;
use tenths::stack::*;
use tenths::*;

/// A type with values that nobody expects.
trait Odd: Sized + Clone + Debug {
    fn odd() -> Vec<Self>;
}

impl Odd for f64 {
    fn odd() -> Vec<f64> {
        let magnitudes = [0.0, 5e-324, 1e-12, 0.1, 1.0, 90.0, 1e6, 9.3e15, f64::MAX, f64::INFINITY];
        magnitudes.into_iter().flat_map(|x| [x, -x]).chain([f64::NAN]).collect()
    }
}

macro_rules! whole {
    ($($number:ty)*) => {$(
        impl Odd for $number {
            fn odd() -> Vec<$number> {
                vec![0, 1, 2, 3, 63, 1000, <$number>::MAX / 2, <$number>::MAX - 1, <$number>::MAX, <$number>::MIN]
            }
        }
    )*};
}
whole!(u32 u64 usize);

impl Odd for i64 {
    fn odd() -> Vec<i64> {
        vec![
            0,
            1,
            -1,
            25_400_000_000,
            i64::MAX / 2,
            i64::MAX - 1,
            i64::MAX,
            i64::MIN / 2,
            i64::MIN + 1,
            i64::MIN,
        ]
    }
}

impl Odd for Units {
    fn odd() -> Vec<Units> {
        Units::ALL.to_vec()
    }
}

impl Odd for Size {
    fn odd() -> Vec<Size> {
        i64::odd().into_iter().map(Size::from_picometres).collect()
    }
}

impl Odd for Limits {
    fn odd() -> Vec<Limits> {
        let pairs = Size::odd()
            .into_iter()
            .flat_map(|lower| Size::odd().into_iter().map(move |upper| (lower, upper)));
        pairs.filter_map(|(lower, upper)| Limits::between(lower, upper).ok()).collect()
    }
}

impl<T: Odd> Odd for Option<T> {
    fn odd() -> Vec<Option<T>> {
        T::odd().into_iter().map(Some).chain([None]).collect()
    }
}

/// Columns: empty, of one odd number, and of many.
impl Odd for Vec<f64> {
    fn odd() -> Vec<Vec<f64>> {
        let alone = f64::odd().into_iter().map(|x| vec![x]);
        alone.chain([vec![], f64::odd(), vec![1.0; 3], vec![0.0; 100]]).collect()
    }
}

/// Texts that a careless hand, a file of another program or a hostile one brings.
impl Odd for &'static str {
    fn odd() -> Vec<&'static str> {
        vec![
            "",
            " ",
            "\0",
            "\u{feff}1 mm",
            "\u{2028}",
            "é",
            "ﬀ½",
            "𝟙𝟚 mm",
            "-",
            "+",
            "±",
            "..",
            "...",
            "/",
            "1/0",
            "0/0 in",
            "1/64 in",
            "64/1 in",
            "-1/2",
            "1-1/2 in",
            "NaN",
            "inf",
            "1e309",
            "1e-400",
            "1e",
            "e5",
            ".",
            "1.",
            ".5 in",
            "9223372036854775807",
            "-9223372036854775808 mm",
            "99999999999999999999999999999999999999999 in",
            "0.00000000000000000000000000000001 mm",
            "10 ±0.1 mm",
            "10 ±-0.1 mm",
            "10 +0.1/ mm",
            "10 +/-",
            "1..2",
            "2..1 mm",
            "1...2 mm",
            "25 H7",
            "25 H7/g6",
            "0 H7",
            "-5 H7",
            "3150 H18",
            "3151 A1",
            "25 ZC01",
            "25 js",
            "25H",
            "H7",
            "25 Ω7",
            "1/2 in FN2",
            "1/2 in FN2 hole",
            "0 in RC1",
            "M",
            "M0",
            "M6",
            "M6x1",
            "M6x0-6H",
            "M1e9x1-6g",
            "M6x1-6H/6g",
            "M6 x 1 - 9999g",
            "1/4-20 UNC-2A",
            "0-80 UNF",
            "999999-1 UN-3B",
            "1/0-20 UNC-2A",
            "1/4-0 UN-2A",
            "Morse 3",
            "DIN 82 RAA 0.8",
            "normal",
            "4:1",
            "0:1",
            "-1:1",
            "1e300:1",
            "NaN:1",
            "{",
            "[]",
            "null",
            "{\"a\":",
            "\"",
            "true",
            "0",
            "{\"format\": 1, \"format\": 1}",
            "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
            "🔩 M6",
            "X",
            "x\u{301}",
        ]
    }
}

/// A function that is called with every combination of odd values.
trait Call<Parameters> {
    /// The first call that panics.
    fn first_panic(&self) -> Option<String>;
}

macro_rules! each_odd {
    ([] $body:block) => { $body };
    ([$value:ident: $type:ident $(, $rest:ident: $other:ident)*] $body:block) => {
        for $value in $type::odd() {
            each_odd!([$($rest: $other),*] $body)
        }
    };
}

macro_rules! callable {
    ($($value:ident: $type:ident),*) => {
        impl<F: Fn($($type),*) -> R, R, $($type: Odd),*> Call<($($type,)*)> for F {
            fn first_panic(&self) -> Option<String> {
                each_odd!([$($value: $type),*] {
                    let told = || format!("{:?}", ($(&$value,)*));
                    let call = || drop(black_box(self($($value.clone()),*)));
                    if catch_unwind(AssertUnwindSafe(call)).is_err() {
                        return Some(told());
                    }
                });
                None
            }
        }
    };
}
callable!(a: A);
callable!(a: A, b: B);
callable!(a: A, b: B, c: C);
callable!(a: A, b: B, c: C, d: D);

/// The functions that panicked, each with the first values that it did for.
#[derive(Default)]
struct Panics(Vec<String>);

impl Panics {
    fn of<P>(&mut self, function: impl Call<P>, name: &str) {
        if let Some(values) = function.first_panic() {
            self.0.push(format!("{name}: {values} as {}", type_name::<P>()));
        }
    }

    fn none(self) {
        assert!(self.0.is_empty(), "{}", self.0.join("\n"));
    }
}

/// Each expression is a function or a closure that states the types of its parameters.
macro_rules! none_panics {
    ($($function:expr),* $(,)?) => {{
        let mut panics = Panics::default();
        $(panics.of($function, stringify!($function));)*
        panics.none();
    }};
}

mod best_cut;
mod chatter;
mod coverage;
mod draft;
mod functions;
mod inspection;
mod objects;
mod process;
mod shared_names;
mod typed;

#[test]
fn elementary_functions() {
    use tenths::math::*;
    none_panics!(
        exp,
        ln,
        powf,
        powf_quick,
        cbrt,
        normal_cdf,
        erfc,
        normal_density,
        normal_quantile,
        sin_degrees,
        sin_acute_degrees,
        cos_degrees,
        tan_degrees,
        asin_degrees,
        acos_degrees,
        atan_degrees,
        atan2_degrees,
        asin,
        acos,
        atan,
        arc_versine,
        arc_versine_degrees,
    );
}

#[test]
fn statistical_laws() {
    use tenths::statistics;
    none_panics!(
        statistics::ln_gamma,
        statistics::gamma_below,
        statistics::gamma_above,
        statistics::gamma_quantile,
        statistics::gamma_quantile_above,
        statistics::beta_below,
        statistics::beta_above,
        |shape: f64, p: f64| statistics::beta_quantile(shape, 2.0, p),
        statistics::chi_square_cdf,
        statistics::chi_square_above,
        statistics::chi_square_quantile,
        statistics::chi_square_quantile_above,
        statistics::t_cdf,
        statistics::t_above,
        statistics::t_quantile,
        statistics::t_quantile_above,
        statistics::f_cdf,
        statistics::f_above,
        |p: f64, degrees: f64| statistics::f_quantile(p, degrees, 3.0),
        |p: f64, degrees: f64| statistics::f_quantile_above(p, 3.0, degrees),
        |t: f64, degrees: f64| statistics::noncentral_t_cdf(t, degrees, 2.0),
        |t: f64, delta: f64| statistics::noncentral_t_above(t, 9.0, delta),
        |p: f64| statistics::noncentral_t_quantile(p, 9.0, 2.0),
        |p: f64| statistics::noncentral_t_quantile_above(p, 9.0, 2.0),
        |q: f64| statistics::studentised_range_cdf(q, 3, f64::INFINITY),
        |count: u32| statistics::studentised_range_cdf(3.0, count.min(9), f64::INFINITY),
        |degrees: f64| statistics::studentised_range_above(3.0, 0, degrees),
        |p: f64| statistics::studentised_range_quantile(p, 3, f64::INFINITY),
        |p: f64| statistics::studentised_range_quantile_above(p, 3, f64::INFINITY),
        statistics::d2,
        |count: u32| statistics::d3(count.min(3)),
        statistics::c4,
        |readings: Vec<f64>| statistics::anderson_darling(&readings),
        |one: f64, two: f64| statistics::anderson_darling(&[one, two, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]),
        |readings: Vec<f64>| statistics::mean(&readings),
        |readings: Vec<f64>| statistics::mean_and_deviation(&readings),
        |readings: Vec<f64>| statistics::standard_deviation(&readings),
        |readings: Vec<f64>| statistics::autocorrelation(&readings),
    );
}

#[test]
fn capabilities_of_processes() {
    use tenths::inspect::capability::{self, CapabilityLaw, CapabilityLimits, CapabilityOptions, SigmaRule};
    let options = CapabilityOptions::new;
    let limits = |lower, upper| CapabilityLimits { lower: Some(lower), upper: Some(upper) };
    let of = move |readings: &[f64], law, sigma, lower, upper| {
        let options = CapabilityOptions { law, sigma, ..options(Units::Metric) };
        capability::capability(readings, limits(lower, upper), &options).is_ok()
    };
    none_panics!(
        |text: &'static str| SigmaRule::parse(text).is_ok(),
        |text: &'static str| CapabilityLaw::parse(text).is_ok(),
        move |one: f64, lower: f64, upper: f64| of(
            &[one, 1.0, 2.0],
            CapabilityLaw::Normal,
            None,
            lower,
            upper
        ),
        move |one: f64, two: f64| of(&[one, two, 1.0, 2.0], CapabilityLaw::Weibull, None, 0.5, 3.0),
        move |one: f64, two: f64| of(&[one, two, 1.0, 2.0], CapabilityLaw::Lognormal, None, 0.5, 3.0),
        move |one: f64, two: f64| of(&[one, two, 1.0, 2.0], CapabilityLaw::Pearson, None, 0.5, 3.0),
        move |readings: Vec<f64>| of(&readings, CapabilityLaw::Normal, Some(SigmaRule::Overall), 0.5, 3.0),
        move |size: usize, confidence: f64, target: f64| {
            let options = CapabilityOptions {
                subgroups: Some(vec![size, 2]),
                target: Some(target),
                confidence,
                ..options(Units::Inch)
            };
            let columns = [(String::new(), &[5.0, 1.0, 2.0, 4.0, 3.0][..])];
            capability::capabilities(&columns, &[limits(0.0, 5.0)], &options).is_ok()
        },
    );
}

#[test]
fn drifts_of_tools() {
    use tenths::inspect::capability::CapabilityLimits;
    use tenths::inspect::process::drift::{DriftOptions, tool_drift};
    let of = |parts: Option<&[f64]>, readings: &[f64], lower, upper, required_capability, confidence| {
        let options = DriftOptions { required_capability, confidence, ..DriftOptions::new(Units::Inch) };
        tool_drift(parts, readings, CapabilityLimits::of_ends(lower, upper), &options).is_ok()
    };
    none_panics!(
        move |readings: Vec<f64>| of(None, &readings, 0.5, 3.0, 1.0, 0.95),
        move |lower: f64, upper: f64| of(None, &[1.0, 2.0, 1.5], lower, upper, 1.0, 0.95),
        move |one: f64, two: f64| of(Some(&[0.0, one, two]), &[one, 1.0, two], 0.5, 3.0, 1.0, 0.95),
        move |required: f64, confidence: f64| of(None, &[1.0, 2.0, 1.5], 0.5, 3.0, required, confidence),
    );
}

#[test]
fn texts() {
    none_panics!(
        |text: &'static str| Units::parse(text),
        |text: &'static str, units: Option<Units>| Size::parse_in(text, units),
        |text: &'static str| LengthUnit::parse(text).map(LengthUnit::label),
        |text: &'static str| ["um", "ft", "m"]
            .map(|unit| Size::parse_with(text, LengthUnit::parse(unit).ok())),
        |text: &'static str, units: Option<Units>| Limits::parse_in(text, units),
        |text: &'static str, units: Option<Units>| Limits::parse_stated(text, units).is_ok(),
        |text: &'static str| Fit::parse(text),
        |text: &'static str| ToleranceClass::parse(text),
        |text: &'static str| ToleranceClass::read(text),
        |text: &'static str| iso_limits(text),
        |text: &'static str| iso_limits_rounded_js(text),
        |name: &'static str, nominal: Size| Fit::inch(name, nominal),
        |name: &'static str| FitBasis::of_name(name),
        |text: &'static str| Thread::parse(text),
        |text: &'static str| StandardTaper::parse(text),
        |text: &'static str| Knurl::parse(text),
        |text: &'static str| GagemakerClass::parse(text),
        |text: &'static str| GaugeForm::parse(text),
        |text: &'static str| GaugeScheme::parse(text),
        |text: &'static str| DecisionRule::parse(text),
        |text: &'static str| FitBasis::parse(text),
        |text: &'static str| MaterialCondition::parse(text),
        |text: &'static str| Distribution::parse(text),
        |text: &'static str| (find(text).is_some(), registry::find_or_nearest(text).is_ok()),
        |text: &'static str| Plan::from_json(text).is_ok(),
        |text: &'static str| Blocks::from_bytes(text.as_bytes()),
    );
}

#[test]
fn sizes_and_limits() {
    none_panics!(
        |value: f64, units: Units| Size::from_float(value, units),
        |value: f64| ["um", "ft", "m"].map(|unit| Size::from_float_in(value, LengthUnit::parse(unit)?)),
        |size: Size| ["um", "ft", "m"].map(|unit| {
            let unit = LengthUnit::parse(unit)?;
            Ok::<_, SizeError>((Size::to_float_in(size, unit), Size::format_in(size, unit)))
        }),
        |size: Size, units: Units| (
            size.to_float(units),
            size.format(units),
            size.decimal(units),
            size.to_string()
        ),
        |a: Size, b: Size| (a.checked_add(b), a.checked_sub(b), a.midpoint_down(b)),
        |a: Size, count: i64| (a.checked_neg(), a.checked_abs(), a.checked_mul(count), a.natural_units()),
        |a: Size, step: Size| (a.round_down(step), a.round_up(step)),
        |a: Size, b: Size| Limits::between(a, b),
        |a: Size, b: Size, c: Size| Limits::with_deviations(a, b, c),
        |a: Limits, units: Units| (
            a.format(units),
            a.format_deviations(units),
            a.natural_units(),
            a.to_string()
        ),
        |a: Limits| (a.middle(), a.tolerance(), a.upper_deviation(), a.lower_deviation()),
        |a: Limits, size: Size| a.accepts(size),
        |a: Limits, units: Units, step: Option<Size>| a
            .readings(units, step)
            .map(|made| made.accepts(f64::NAN)),
        |a: Limits, readings: Vec<f64>| {
            let mut accepted = vec![false; 3];
            let (least, greatest) = a.readings(Units::Inch, None)?.ends();
            Readings::from_ends(greatest, least).accept_all(&readings, &mut accepted);
            Ok::<_, LimitsError>(accepted)
        },
        |lower: f64, upper: f64, reading: f64, step: Option<Size>| {
            let (lower, upper) = ([lower, 0.0], [upper, 1.0]);
            Units::ALL.map(|units| {
                accept_rows(&[reading; 2], &lower, &upper, units, step, &mut [false; 2])
                    .map_err(|error| RowLimitsError::from_row(error, usize::MAX))
            })
        },
        |readings: Vec<f64>| accept_rows(&readings, &readings, &[], Units::Metric, None, &mut []),
    );
}

#[test]
fn fits_and_gauges() {
    none_panics!(
        |hole: Limits, shaft: Limits| {
            let made = Fit::between(hole, shaft)?;
            let figures =
                (made.max_clearance(), made.min_clearance(), made.kind(), made.basis(), made.symbol());
            Ok::<_, FitError>((figures, made.statistics(0.0, f64::NAN).is_ok(), made.to_string()))
        },
        |limits: Limits| [Member::Hole, Member::Shaft].map(|member| iso_classes(&limits, member)),
        |limits: Limits| (
            plug_gauge(&limits),
            ring_gauge(&limits),
            snap_gauge(&limits),
            length_gauge(&limits)
        ),
        |limits: Limits| flush_pin_gauge(&limits),
        |limits: Limits, uncertainty: Size| uncertainty_ratio(&limits, uncertainty),
        |size: Size| ["25 H7", "25 k6", "25 ZC18"]
            .map(|text| ToleranceClass::read(text).map(|(_, c)| c.limits(size))),
    );
}

/// Laws of which some cannot be.
fn laws() -> Vec<Distribution> {
    let capable =
        f64::odd().into_iter().flat_map(|cp| [0.0, 1.0, f64::NAN].map(|cpk| Distribution::capable(cp, cpk)));
    let measured = Vec::<f64>::odd().into_iter().map(|sizes| Distribution::Measured(Arc::from(sizes)));
    capable.chain(measured).chain([Distribution::Uniform]).collect()
}

#[test]
fn stacks() {
    none_panics!(
        |limits: Limits, sensitivity: f64, count: u32| {
            let mut stack = Stack::new(Units::Metric);
            for name in ["one", "one"] {
                stack.add(Contributor::new(name, limits).sensitivity(sensitivity).count(count))?;
            }
            let sums =
                (stack.worst_case(), stack.rss(), stack.spotts(), stack.statistics(), stack.contributions());
            let ends =
                sums.1.as_ref().map(|band| (Band::lower(band), Band::upper(band), Band::units(band))).is_ok();
            let units = sums.3.as_ref().map(Statistics::units).is_ok();
            let shifts =
                [MeanShift::Centred, MeanShift::Dynamic, MeanShift::Static].map(|shift| stack.spread(shift));
            let greatest = [Closure::WorstCase, Closure::Rss]
                .map(|closure| stack.greatest_tolerance(0, &limits, closure));
            Ok::<_, StackError>((
                sums,
                ends,
                units,
                shifts,
                greatest,
                stack.sample(&Sampling::new(2, 1)).is_ok(),
            ))
        },
        |place: usize, coefficient: f64| {
            let mut stack = Stack::new(Units::Inch);
            let sums = (stack.worst_case().is_ok(), stack.rss().is_ok(), stack.statistics().is_ok());
            (sums, stack.correlate(place, 0, coefficient).is_ok(), stack.place(place).is_ok())
        },
        |factor: f64| Stack::new(Units::Inch).inflated_rss(factor),
        |mean: f64, shift: f64, sigma: f64| Spread::new(mean, shift, sigma),
        |mean: f64, shift: f64, sigma: f64, limit: f64| {
            let spread = Spread { mean, shift, sigma };
            (spread.fraction_below(limit), spread.fraction_above(limit))
        },
        |x: f64, scale: f64, power: f64| {
            let points: Vec<_> = Vec::<f64>::odd()
                .iter()
                .map(|xs| CostCurve::Points(xs.iter().map(|x| (*x, *x)).collect()))
                .collect();
            let curves = [
                CostCurve::Reciprocal { fixed: x, scale, power },
                CostCurve::Exponential { fixed: x, scale, rate: power },
            ];
            points.iter().chain(&curves).map(|curve| (curve.at(x), curve.fault())).collect::<Vec<_>>()
        },
        |one: f64, other: f64, lower: f64, upper: f64| (
            Distribution::advice(&Distribution::Measured([one, other].into()), lower, upper),
            Distribution::advice(&Distribution::Process { mean: one, sigma: other }, lower, upper),
        ),
        |count: u64, seed: u64, first: u64| {
            let sampling = Sampling::new(count, seed);
            (
                sampling.blocks(),
                sampling.is_exact(),
                Stack::new(Units::Metric).sample_blocks(&sampling, first, count).is_ok(),
            )
        },
        |nominal: f64, plus: f64, minus: f64| {
            let all = laws();
            all.into_iter()
                .step_by(5)
                .filter_map(|law| {
                    let input = Input::new("x", nominal, plus, minus).distribution(law);
                    let made = Propagation::new(by_row(|[x]: [f64; 1]| x), vec![input]).ok()?;
                    let sample = made.sample(&Sampling::within(Sampling::new(3, 1), minus, plus));
                    let told = sample.map(|s| {
                        (s.histogram(3).is_ok(), s.percentiles(&[0.0, 50.0, 100.0]), s.fraction_out())
                    });
                    Some((
                        made.nominal().is_ok(),
                        made.extremes().is_ok(),
                        made.moments().is_ok(),
                        told.is_ok(),
                    ))
                })
                .count()
        },
        |percent: f64, bins: usize| {
            let made = Propagation::new(by_row(|[x]: [f64; 1]| x), vec![Input::new("x", 1.0, 1.0, -1.0)])?;
            let sample = made.sample(&Sampling::new(2, 1))?;
            Ok::<_, StackError>((
                sample.percentile(percent),
                sample.histogram(bins).is_ok(),
                sample.fraction_out_at(percent),
                sample.fraction_under(percent).is_ok(),
            ))
        },
    );
}

/// Every formula by its record: odd numbers in each argument, odd counts of them, odd names and places.
#[test]
fn formulas_by_their_records() {
    let mut panics = Panics::default();
    for formula in formulas() {
        let count = formula.arguments.len();
        let row = |at: usize, x: f64| (0..count).map(|k| if k == at { x } else { 1.0 }).collect::<Vec<_>>();
        for at in 0..count {
            let name = formula.arguments[at].name;
            let call = |x: f64, units: Units| {
                let mut y = vec![0.0; formula.outputs.len()];
                (formula.call(units, &row(at, x), &mut y).is_ok(), formula.check(units, &row(at, x)).is_ok())
            };
            panics.of(call, formula.name);
            let answer = |x: f64, units: Units| {
                let row = [0, 1, 2, 3, 4].map(|k| if k == at { x } else { 1.0 });
                let (one, two) =
                    (Formula::answer(formula, units, &[row[0]]), formula.answer(units, &[row[0], row[1]]));
                [one, two, formula.answer(units, &row)].map(|answer| answer.is_ok())
            };
            panics.of(answer, formula.name);
            let solve = |x: f64| {
                let outputs = 0..formula.outputs.len();
                let solve = |k| {
                    Formula::solve_for(
                        formula,
                        Units::Metric,
                        name,
                        Some(formula.output_name(k)),
                        x,
                        &row(at + 1, x),
                    )
                };
                outputs.map(|k| solve(k).is_ok()).collect::<Vec<_>>()
            };
            panics.of(solve, formula.name);
        }
        let by_place = |place: usize, other: usize| {
            (formula.is_solvable(place), formula.why_not_solvable(place, other), formula.output_name(other))
        };
        panics.of(by_place, formula.name);
        let short = |xs: Vec<f64>, text: &'static str| {
            let mut y = vec![0.0; xs.len() % 3];
            let solved = formula.solve_for(Units::Inch, text, Some(text), 1.0, &xs).is_ok();
            (formula.call(Units::Inch, &xs, &mut y).is_ok(), formula.check(Units::Inch, &xs).is_ok(), solved)
        };
        panics.of(short, formula.name);
        let columns = |xs: Vec<f64>, rows: u32| {
            let (given, mut solved) = (vec![xs.as_slice(); count], vec![0.0; rows as usize % 5]);
            let name = formula.arguments[0].name;
            formula.solve_rows(Units::Inch, name, None, &xs, &given, &mut solved).is_ok()
        };
        panics.of(columns, formula.name);
    }
    panics.none();
}
