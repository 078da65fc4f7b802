//! The figures of `tests/published/forms.csv`, which come from outside the project.
mod evidence;

use tenths::{FormCriterion, FormFeature, FormFit, Quantity, Units};

const FORMS: &str = include_str!("published/forms.csv");

fn quantity(fit: &FormFit, name: &str) -> Option<f64> {
    match name {
        "centre_x" => fit.centre.first().copied(),
        "centre_y" => fit.centre.get(1).copied(),
        "centre_z" => fit.centre.get(2).copied(),
        "radius" => fit.radius,
        "half_angle" => fit.half_angle.map(Quantity::metric),
        "deviation" => Some(fit.deviation),
        _ => None,
    }
}

fn line(line: &str) -> Result<(), Box<dyn std::error::Error>> {
    let [feature, criterion, columns, points, name, figure, seen, source] =
        line.split(';').collect::<Vec<_>>()[..]
    else {
        return Err("a line has eight fields".into());
    };
    evidence::check(seen, source)?;
    let points = points.split(' ').map(str::parse).collect::<Result<Vec<f64>, _>>()?;
    let (feature, criterion) = (FormFeature::parse(feature)?, FormCriterion::parse(criterion)?);
    let fit = FormFit::new(feature, criterion, &points, columns.parse()?, Units::Metric)?;
    let got = quantity(&fit, name).ok_or("there is no such quantity")?;
    let places = figure.split_once('.').map_or(0, |(_, digits)| digits.len());
    let within = (0..places).fold(0.501, |unit, _| unit / 10.0);
    match (got - figure.parse::<f64>()?).abs() <= within {
        true => Ok(()),
        false => Err(format!("{got}, not {figure}").into()),
    }
}

#[test]
fn forms_are_as_published() {
    let lines = FORMS.lines().filter(|line| !line.starts_with("# "));
    let faults: Vec<String> =
        lines.clone().filter_map(|text| Some(format!("{text}: {}", line(text).err()?))).collect();
    assert!(lines.count() >= 23 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "circle;least squares;2;1 7 2 6 5 8 7 7 9 5 3 7;radius;4.7142;memory;source";
    assert!(line(good).is_ok());
    for (from, to) in
        [("4.7142", "4.7143"), ("least squares", "minimum zone"), ("2;1 7", "3;1 7"), ("memory", "here")]
    {
        assert!(line(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}
