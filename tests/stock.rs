//! The figures of `tests/published/stock.csv`, and what a caller gives by mistake.
use tenths::material::{HardnessComparison, HardnessScale};
use tenths::quantity::{Density, Length, Time};
use tenths::stock::{
    BarCut, BarForm, MachineOrder, Supply, bar_mass, bar_mass_per_length, bars_to_buy, machine_load,
    make_or_buy,
};
use tenths::{Limits, Quantity, Size, Units};

const FIGURES: &str = include_str!("published/stock.csv");

fn lines(kind: &str) -> Vec<Vec<&'static str>> {
    let fields = FIGURES.lines().map(|line| line.split(';').collect::<Vec<_>>());
    let found: Vec<_> = fields.filter(|fields| fields[0] == kind).collect();
    assert!(found.len() > 1, "{kind}");
    found
}

fn number(text: &str) -> f64 {
    text.trim().parse().unwrap()
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap()
}

#[test]
fn bars_are_bought_as_published() {
    for line in lines("bar_order") {
        let cut = BarCut {
            bar_length: size(line[2]),
            part_length: size(line[3]),
            kerf: size(line[4]),
            facing_allowance: size(line[5]),
            end_trim: size(line[6]),
            remnant: size(line[7]),
        };
        let order = bars_to_buy(line[1].parse().unwrap(), &cut, number(line[8])).unwrap();
        assert_eq!((order.parts_per_bar, order.bars), (line[9].parse().unwrap(), line[10].parse().unwrap()));
        assert_eq!((order.length_used, order.leftover), (size(line[11]), size(line[12])), "{line:?}");
        assert!((order.utilisation - number(line[13])).abs() < 1e-9, "{line:?}");
    }
}

#[test]
fn ways_break_even_as_published() {
    for line in lines("break_even") {
        let way = |name: &str, at: usize| Supply {
            name: name.into(),
            limits: None,
            fixed: number(line[at]),
            each: number(line[at + 1]),
        };
        let from: u64 = line[6].parse().unwrap();
        let judged =
            make_or_buy(Limits::parse("20 h9").unwrap(), &[way("one", 1), way("other", 3)], from).unwrap();
        assert!((judged.break_evens[0].quantity - number(line[5])).abs() < 1e-9, "{line:?}");
        assert_eq!((judged.break_evens[0].cheaper_from, judged.best.as_deref()), (from, Some("other")));
        assert_eq!((judged.rows[0].cost, judged.rows[1].cost), (number(line[7]), number(line[8])));
    }
}

#[test]
fn orders_are_sequenced_as_published() {
    for line in lines("machine_load") {
        let order = |text: &str| {
            let fields: Vec<&str> = text.split(' ').collect();
            let [setup, cycle, due] = [2, 3, 4].map(|at| Time::minutes(number(fields[at])));
            MachineOrder { name: fields[0].into(), quantity: fields[1].parse().unwrap(), setup, cycle, due }
        };
        let orders: Vec<_> = line[1].split(", ").map(order).collect();
        let load = machine_load(&orders, Time::minutes(0.0)).unwrap();
        let names: Vec<&str> = load.rows.iter().map(|row| &*row.order).collect();
        assert_eq!(names.join(" "), line[2]);
        let told = |time: fn(&tenths::stock::MachineLoadRow) -> Time| {
            load.rows.iter().map(|row| time(row).metric().to_string()).collect::<Vec<_>>().join(" ")
        };
        assert_eq!((told(|row| row.ends), told(|row| row.late)), (line[3].into(), line[4].into()));
    }
}

#[test]
fn hardness_compares_as_published() {
    for line in lines("hardness") {
        let found = HardnessComparison::new(HardnessScale::parse(line[1]).unwrap(), number(line[2])).unwrap();
        let stress = found.tensile_strength.map(|stress| stress.in_units(Units::Metric));
        let figures = [Some(found.vickers), found.brinell, found.rockwell_b, found.rockwell_c, stress];
        for (figure, printed) in figures.into_iter().zip(&line[3..8]) {
            match *printed {
                "" => {}
                "-" => assert_eq!(figure, None, "{line:?}"),
                printed => {
                    assert!((figure.unwrap() - number(printed)).abs() <= number(line[8]), "{line:?} {found}")
                }
            }
        }
    }
}

#[test]
fn a_form_weighs_what_its_formula_says() {
    let (mm, steel) = (Length::millimetres, Density::grams_per_cubic_centimetre(7.85));
    let mass = |form| bar_mass(form, mm(20.0), mm(1000.0), steel).map(|mass| mass.in_units(Units::Metric));
    // A round bar is the tube that it holds and the bar within; a flat as thick as wide is square.
    let inner = bar_mass(BarForm::Round, mm(10.0), mm(1000.0), steel).unwrap().in_units(Units::Metric);
    let tube = mass(BarForm::Tube { wall: mm(5.0) }).unwrap();
    assert!((mass(BarForm::Round).unwrap() - tube - inner).abs() < 1e-12);
    assert_eq!(mass(BarForm::Flat { thickness: mm(20.0) }), mass(BarForm::Square));
    let metre = bar_mass_per_length(BarForm::Round, mm(20.0), steel).unwrap();
    assert_eq!(metre.in_units(Units::Metric), mass(BarForm::Round).unwrap());
    let solid = mass(BarForm::Tube { wall: mm(10.0) }).unwrap_err().to_string();
    assert!(solid.contains("wall must be less than half of outside_diameter"), "{solid}");
}
