//! The choices of `tests/published/best_cuts.csv`, whose optimum comes from outside the project.
use tenths::Units;
use tenths::cutting::best_cut::{
    CutChoice, CutLaw, CutLife, CutLimit, CutObjective, CutProblem, CutRates, best_cut,
};

const CUTS: &str = include_str!("published/best_cuts.csv");

fn number(text: &str) -> f64 {
    text.trim().parse().unwrap_or_else(|_| panic!("`{text}` is not a number"))
}

/// The parts of a field, none where it is not used.
fn parts(field: &'static str) -> impl Iterator<Item = (&'static str, &'static str)> {
    let used = (field != "-").then(|| field.split(", ")).into_iter().flatten();
    used.map(|part| part.split_once([' ', '=']).unwrap())
}

/// An end of a range, if there is one.
fn end(text: &str) -> Option<f64> {
    (!text.is_empty()).then(|| number(text))
}

fn law((name, law): (&str, &str)) -> CutLaw {
    let mut words = law.trim_start_matches("= ").split(' ');
    let factor = number(words.next().unwrap());
    let exponents = words.map(|word| word.split_once('^').unwrap());
    let exponents = exponents.map(|(name, exponent)| (name.into(), number(exponent))).collect();
    CutLaw { name: name.into(), factor, exponents }
}

fn range((name, range): (&str, &str)) -> CutLimit {
    let (least, greatest) = range.split_once("..").unwrap();
    CutLimit { name: name.into(), least: end(least), greatest: end(greatest) }
}

fn choice(part: (&str, &str)) -> CutChoice {
    let CutLimit { name, least, greatest } = range(part);
    CutChoice { name, least: least.unwrap(), greatest: greatest.unwrap() }
}

fn problem(fields: &[&'static str]) -> CutProblem {
    let units = Units::ALL.into_iter().find(|units| units.name() == fields[1]).unwrap();
    let formula = tenths::find(fields[2]).unwrap();
    let given: Vec<_> = parts(fields[3]).collect();
    let argument = |argument: &tenths::formula::Argument| {
        let given = given.iter().find(|(name, _)| *name == argument.name);
        given.map_or(argument.default(units).unwrap_or(f64::NAN), |(_, value)| number(value))
    };
    let numbers = |field: &str| (field != "-").then(|| field.split(' ').map(number).collect::<Vec<f64>>());
    CutProblem {
        formula,
        units,
        arguments: formula.arguments.iter().map(argument).collect(),
        choose: parts(fields[4]).filter(|(name, _)| !name.starts_with('+')).map(choice).collect(),
        limits: parts(fields[5]).map(range).collect(),
        laws: parts(fields[6]).map(law).collect(),
        objective: match fields[7] {
            "cost" => CutObjective::Cost,
            "time" => CutObjective::Time,
            "edge_use" => CutObjective::EdgeUse,
            sum => {
                CutObjective::Sum(parts(sum).map(|(name, weight)| (name.into(), number(weight))).collect())
            }
        },
        rates: numbers(fields[8]).map(|rates| CutRates {
            hourly_rate: rates[0],
            edge_cost: rates[1],
            tool_change_time: rates[2],
            handling_time: rates[3],
        }),
        tool_life: numbers(fields[9]).map(|life| CutLife {
            taylor_c: life[0],
            taylor_n: life[1],
            feed_exponent: life[2],
            depth_exponent: life[3],
            reference_feed: life[4],
            reference_depth: life[5],
        }),
        machine: None,
        stability: None,
        path_length: end(fields[10].trim_matches('-')),
        volume: None,
        choose_from: vec![],
        unknowns: parts(fields[4])
            .filter_map(|(name, range)| Some((name.strip_prefix('+')?, range)))
            .map(choice)
            .collect(),
        steps: vec![],
    }
}

#[test]
fn published_cuts_are_reached_and_proven() {
    let mut count = 0;
    for line in CUTS.lines().filter(|line| !line.starts_with('#')) {
        let fields: Vec<&'static str> = line.split(';').collect();
        assert_eq!(fields.len(), 16, "{line}");
        let best = best_cut(&problem(&fields)).unwrap_or_else(|error| panic!("{}: {error}", fields[0]));
        let (objective, tolerance) = (number(fields[12]), number(fields[13]));
        let near = |value: f64, wanted: f64, share: f64| (value - wanted).abs() <= share * wanted;
        assert!(near(best.objective, objective, tolerance), "{}: {} {objective}", fields[0], best.objective);
        let bound = best.lower_bound.unwrap();
        assert!(bound <= best.objective && near(bound, best.objective, 1e-8), "{}: {bound}", fields[0]);
        for (name, value) in parts(fields[11]) {
            let chosen = *best.chosen.get(name).unwrap();
            // The optimum is flat, so that what is chosen is known less closely than its cost.
            let value = number(value);
            assert!(
                near(chosen, value, tolerance.sqrt().max(2e-4)),
                "{}: {name} {chosen} {value}",
                fields[0]
            );
        }
        count += 1;
    }
    assert_eq!(count, 34);
}
