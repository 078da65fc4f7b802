//! Functions whose names several types have, each by its type.
use super::*;
use tenths::document::{Bound, Decimal, DocumentError, DocumentNumber, Shape};
use tenths::formula::{Argument, Domain, Side, StatedRange};
use tenths::material::{IsoGroup, Material, Materials, Provenance, materials};
use tenths::money::Amount;
use tenths::object::{Field, OptionsRecord, Value};
use tenths::plan::Figures;
use tenths::quantity::{KINDS, Kind, Length};

#[test]
fn of_sizes_limits_and_gauges() {
    none_panics!(
        Size::format,
        Size::natural_units,
        |text: &'static str| (Size::parse(text), Limits::parse(text)),
        |limits: Limits, size: Size, units: Units| {
            black_box((
                Limits::accepts(&limits, size),
                Limits::format(&limits, units),
                Limits::natural_units(&limits),
            ));
            let readings = Limits::readings(&limits, units, None);
            black_box(readings.map(|made| Readings::accepts(&made, size.to_float(units))).is_ok());
            (
                Limits::nominal(&limits),
                Limits::tolerance(&limits),
                Limits::lower(&limits),
                Limits::upper(&limits),
            )
        },
        |limits: Limits, wear: Size, resolution: Option<Size>| {
            let forms = ["plug", "ring", "snap", "length", "flush pin"].map(GaugeForm::parse);
            let schemes = ["B89.1.5", "10 percent", "ISO 1938-1"].map(GaugeScheme::parse);
            for (form, scheme) in
                forms.iter().flatten().flat_map(|form| schemes.iter().flatten().map(move |s| (form, s)))
            {
                black_box(
                    Gauge::new(*form, &limits, &GaugeOptions { scheme: *scheme, wear, resolution }).is_ok(),
                );
            }
        },
        |text: &'static str, size: Size| {
            let classes = [text, "XX", "ZZ"].map(GagemakerClass::parse);
            classes.iter().flatten().map(|class| GagemakerClass::tolerance(*class, size)).collect::<Vec<_>>()
        },
        |hole: Limits, shaft: Limits, cp: f64| {
            let made = Fit::between(hole, shaft)?;
            Ok::<_, FitError>((
                Fit::nominal(&made),
                Fit::classes(&made),
                Fit::statistics(&made, cp, 1.0).is_ok(),
            ))
        },
        |x: f64| [DecisionRule::name(&DecisionRule::Ratio(x)), DecisionRule::name(&DecisionRule::Simple)],
        |text: &'static str| Thread::parse(text).map(|made| (Thread::nominal(&made), Thread::minor(&made))),
        |text: &'static str| Amount::parse(text).map(|made| (Amount::minor(made), Amount::to_f64(made))),
        |_units: Units| Decimal::to_f64(Decimal::ZERO),
        |key: &'static str| {
            let plan = Plan::from_json(include_str!("../../examples/plans/roller_axle.json"))?;
            Ok::<_, DocumentError>(Figures::get(&plan.evaluate()?.operations[0].figures, key).is_some())
        },
        |_units: Units| StandardTaper::all()
            .map(|made| (
                StandardTaper::designation(made),
                StandardTaper::number(made),
                StandardTaper::units(made)
            ))
            .collect::<Vec<_>>(),
        |text: &'static str| Materials::find(&Materials::table(), text).is_ok(),
        |units: Units| {
            let told = |material: &Material| {
                (Material::PROPERTIES[0].of(material, units), material.iso_group.map(IsoGroup::name))
            };
            black_box(materials().iter().map(told).collect::<Vec<_>>());
            [Provenance::name(Provenance::Own), Provenance::name(Provenance::Memory)]
        },
    );
}

#[test]
fn of_quantities_and_records() {
    none_panics!(
        |text: &'static str, units: Units| KINDS
            .iter()
            .map(|kind| (Kind::read(kind, text, units), Kind::unit(kind, units)))
            .collect::<Vec<_>>(),
        |x: f64, units: Units| {
            for formula in formulas() {
                for argument in formula.arguments {
                    let side = argument.side(units);
                    let domain = &side.domain;
                    black_box((
                        Side::advises(side, x),
                        StatedRange::holds(&side.range, x),
                        StatedRange::text(&side.range, argument.kind, units),
                    ));
                    black_box((
                        Domain::holds(domain, x),
                        Domain::is_whole(domain),
                        Domain::low(domain),
                        Domain::high(domain),
                    ));
                    black_box((
                        Domain::text(domain, argument.kind, units),
                        Argument::need(argument, units),
                        Argument::unit(argument, units),
                    ));
                }
                black_box(Formula::is_exact(formula));
            }
        },
        |x: f64| [Bound::Anything, Bound::Positive, Bound::NonNegative]
            .map(|bound| (Bound::holds(bound, x), Bound::need(bound))),
        |units: Units| [Shape::Text, Shape::Choice(&[])].map(|shape| Shape::expected(&shape, units)),
        |x: f64| {
            let made: DocumentNumber<Length> = DocumentNumber::new(x);
            DocumentNumber::value(made)
        },
        |text: &'static str| Plan::from_json(text).map_err(|error| DocumentError::count(&error)).is_ok(),
        |text: &'static str| {
            for record in registry::options() {
                black_box(OptionsRecord::nearest(record, text));
                let value = Value::Text(text.into());
                for field in record.fields {
                    black_box((
                        Field::read::<f64>(field, Some(&value)).is_ok(),
                        Field::refuse(field, text).to_string(),
                    ));
                }
            }
        },
    );
}

#[test]
fn of_stacks() {
    none_panics!(
        |limits: Limits, x: f64| {
            let mut stack = Stack::new(Units::Inch);
            let law = Distribution::capable(x, 1.0);
            black_box((Distribution::fault(&law), Distribution::name(&law), Distribution::is_normal(&law)));
            let one =
                Contributor::distribution(Contributor::count(Contributor::new("a", limits), 2), law.clone());
            Stack::add(&mut stack, one)?.add(Contributor::new("b", limits))?;
            black_box((
                Stack::correlate(&mut stack, 0, 1, x).is_ok(),
                Stack::correlations(&stack),
                Stack::units(&stack),
            ));
            let sampling = Sampling::new(2, 1);
            black_box((
                Stack::statistics(&stack).is_ok(),
                Stack::sample_blocks(&stack, &sampling, 0, 1).is_ok(),
            ));
            let sample = Stack::sample(&stack, &sampling)?;
            black_box((
                Sample::count(&sample),
                Sample::fraction_above(&sample),
                Sample::fraction_below(&sample),
            ));
            let blocks = Stack::sample_blocks(&stack, &sampling, 0, 1)?;
            Ok::<_, StackError>((Blocks::count(&blocks), Sampling::is_exact(&sampling)))
        },
        |x: f64, y: f64| {
            let spread = Spread { mean: x, shift: 0.0, sigma: y };
            black_box((Spread::fraction_above(&spread, x), Spread::fraction_below(&spread, y)));
            black_box(Spread::within(&spread, x, y).is_ok());
            let curves =
                [CostCurve::Points(vec![(x, y)]), CostCurve::Reciprocal { fixed: x, scale: y, power: x }];
            black_box(curves.map(|curve| CostCurve::fault(&curve)));
            let inputs =
                ["x", "y"].map(|name| Input::distribution(Input::new(name, x, y, -y), Distribution::Uniform));
            let mut made = Propagation::new(by_row(|[x, y]: [f64; 2]| x / y), inputs.to_vec())?;
            black_box((Propagation::correlate(&mut made, 0, 1, x).is_ok(), Propagation::correlations(&made)));
            black_box((Propagation::inputs(&made), Propagation::nominal(&made).is_ok()));
            let sampling = Sampling::new(2, 1);
            Ok::<_, StackError>((
                Propagation::sample(&made, &sampling).is_ok(),
                Propagation::sample_blocks(&made, &sampling, 0, 1).is_ok(),
            ))
        },
    );
}
