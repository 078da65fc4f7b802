//! The figures of `tests/published/gauge_studies.csv`, which come from outside the project.
mod evidence;

use tenths::inspect::gauge_study::{
    AttributeAgreement, GaugeBias, GaugeLinearity, GaugeStudy, Regression, StudyData, StudyMethod,
    StudyOptions, VarianceComponent, attribute_agreement, attribute_zone, gauge_bias, gauge_linearity,
    gauge_studies, gauge_study, regression,
};

const STUDIES: &str = include_str!("published/gauge_studies.csv");

enum Made {
    Study(Box<GaugeStudy>),
    Bias(GaugeBias),
    Linearity(GaugeLinearity),
    Line(Regression),
    Agreement(AttributeAgreement),
}

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn counts(text: &str) -> [usize; 3] {
    let mut counts = text.split_whitespace().map(|word| word.parse().unwrap());
    [(); 3].map(|()| counts.next().unwrap_or(1))
}

fn made(fields: &[&str]) -> Made {
    let (readings, references) = (numbers(fields[4]), numbers(fields[5]));
    let [parts, appraisers, trials] = counts(fields[3]);
    match fields[2] {
        "bias" => Made::Bias(gauge_bias(&readings, references[0], 0.95).unwrap()),
        "linearity" => Made::Linearity(gauge_linearity(&references, &readings, 0.95).unwrap()),
        "regression" => Made::Line(regression(&references, &readings, 0.95).unwrap()),
        "agreement" => {
            let ratings: Vec<_> = readings.iter().map(|rating| *rating as usize).collect();
            Made::Agreement(attribute_agreement(&ratings, [parts, appraisers, trials], &[], 0.95).unwrap())
        }
        method => {
            let method = StudyMethod::parse(method).unwrap();
            let options =
                StudyOptions { method, pool_interaction: fields[6] == "1", ..StudyOptions::default() };
            let data = StudyData { readings: &readings, parts, appraisers, trials };
            let study = gauge_study(&data, &options).unwrap_or_else(|error| panic!("{}: {error}", fields[1]));
            Made::Study(Box::new(study))
        }
    }
}

fn of_line(line: &Regression, quantity: &str) -> f64 {
    match quantity {
        "slope" => line.slope,
        "intercept" => line.intercept,
        "slope_error" => line.slope_error,
        "intercept_error" => line.intercept_error,
        "slope_t" => line.slope_t,
        "intercept_t" => line.intercept_t,
        "residual_sd" => line.residual_sd,
        "r_squared" => line.r_squared,
        _ => panic!("{quantity}"),
    }
}

fn of_study(study: &GaugeStudy, quantity: &str) -> f64 {
    if quantity == "distinct_categories" {
        return study.distinct_categories().unwrap() as f64;
    }
    let (source, what) = quantity.split_once('.').unwrap();
    let component: &VarianceComponent = match source {
        "repeatability" => &study.repeatability,
        "appraiser" => &study.appraiser,
        "interaction" => &study.interaction,
        "reproducibility" => &study.reproducibility,
        "gauge" => &study.gauge,
        "part" => &study.part,
        _ => &study.total,
    };
    let row = || study.table.iter().find(|row| row.source.name() == source).unwrap();
    match what {
        "variance" => component.variance,
        "sd" => component.sd,
        "percent_of_study" => component.percent_of_study,
        "percent_of_variance" => component.percent_of_variance,
        "ss" => row().ss,
        "ms" => row().ms,
        "df" => row().df,
        "f" => row().f.unwrap(),
        "p" => row().p.unwrap(),
        _ => panic!("{quantity}"),
    }
}

fn figure(made: &Made, quantity: &str) -> f64 {
    match made {
        Made::Study(study) => of_study(study, quantity),
        Made::Line(line) => of_line(line, quantity),
        Made::Linearity(made) => match quantity.strip_prefix("bias ") {
            Some(number) => made.biases[number.parse::<usize>().unwrap() - 1].bias,
            None => of_line(&made.line, quantity),
        },
        Made::Bias(bias) => match quantity {
            "bias" => bias.bias,
            "sd" => bias.sd,
            "standard_error" => bias.standard_error,
            "t" => bias.t,
            "p" => bias.p,
            "interval 1" => bias.interval[0],
            _ => bias.interval[1],
        },
        Made::Agreement(made) => {
            if quantity == "all" {
                made.all.kappa
            } else {
                made.pairs[0].kappa
            }
        }
    }
}

#[test]
fn studies_meet_their_sources() {
    let (mut study, mut count) = (None, 0);
    for line in STUDIES.lines().filter(|line| !line.starts_with('#')) {
        let fields: Vec<_> = line.split(';').collect();
        if fields[0] == "study" {
            study = Some((fields[1], made(&fields)));
            continue;
        }
        let (name, study) = study.as_ref().unwrap();
        let &[_, quantity, value, within, seen, source] = fields.as_slice() else { panic!("{line}") };
        evidence::check(seen, source).unwrap();
        let (got, expected) = (figure(study, quantity), value.parse::<f64>().unwrap());
        let within = within.parse::<f64>().unwrap() * (1.0 + 1e-9);
        assert!((got - expected).abs() <= within, "{name}: {quantity} is {got:e}, not {value} ({source})");
        count += 1;
    }
    assert!(count >= 120, "{count} figures");
}

#[test]
fn a_batch_has_the_figures_of_each_study() {
    let mut studies = 0;
    for line in STUDIES.lines().filter(|line| line.starts_with("study")) {
        let fields: Vec<_> = line.split(';').collect();
        let (Made::Study(study), "anova" | "nested") = (made(&fields), fields[2]) else { continue };
        let readings = numbers(fields[4]);
        // Eleven studies, of which each is a little larger than the one before.
        let all: Vec<_> =
            (0..11).flat_map(|k| readings.iter().map(move |x| x * (1.0 + f64::from(k)))).collect();
        let [parts, appraisers, trials] = counts(fields[3]);
        let options = StudyOptions {
            method: study.method,
            pool_interaction: study.pool_interaction,
            ..StudyOptions::default()
        };
        let figures =
            gauge_studies(&StudyData { readings: &all, parts, appraisers, trials }, &options).unwrap();
        assert_eq!(figures.len(), 11);
        let near = |got: f64, expected: f64| (got - expected).abs() <= 1e-12 * expected.abs();
        for (k, figures) in figures.iter().enumerate() {
            let scale = (1.0 + k as f64) * (1.0 + k as f64);
            assert!(near(figures.variances[5] / scale, study.part.variance) || fields[1] == "SmLs04");
            for row in &study.table {
                let line =
                    ["part", "appraiser", "interaction"].iter().position(|name| *name == row.source.name());
                let (Some(line), Some(f), Some(p)) = (line, row.f, row.p) else { continue };
                if fields[1] != "SmLs04" {
                    assert!(near(figures.f[line], f), "{}: {} {f}", fields[1], figures.f[line]);
                    assert!(
                        (figures.p[line] - p).abs() <= 1e-11 * p,
                        "{}: {:e} {p:e}",
                        fields[1],
                        figures.p[line]
                    );
                }
            }
            if k == 0 {
                assert_eq!(figures.variances[4], study.gauge.variance);
            }
        }
        studies += 1;
    }
    assert!(studies >= 5);
}

// AIAG, Measurement Systems Analysis, 4th ed., chapter III C, signal detection: the last and first parts of each zone
// (from memory). The parts between them are made up; their place in the zone does not matter.
#[test]
fn the_zone_of_an_attribute_gauge_is_as_published() {
    let sizes = [0.566152, 0.446697, 0.5, 0.46, 0.542704, 0.55, 0.470832];
    let accepted = [0.0, 0.0, 1.0, 5.0 / 9.0, 1.0, 4.0 / 9.0, 1.0];
    let zone = attribute_zone(&sizes, &accepted, Some(0.45), Some(0.55)).unwrap();
    assert_eq!((zone.lower_zone, zone.upper_zone), (vec![0.446697, 0.470832], vec![0.542704, 0.566152]));
    assert!((zone.width - 0.0237915).abs() < 1e-12 && (zone.sd - 0.0237915 / 6.0).abs() < 1e-12);
    assert_eq!(zone.percent_of_tolerance.map(f64::round), Some(24.0));
    assert_eq!((zone.parts, zone.undecided), (7, 2));
}
