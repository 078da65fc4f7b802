//! The figures of `tests/published/gauges.csv` and `decisions.csv`, which come from outside the project.
mod evidence;

use tenths::{
    Decision, DecisionRule, GagemakerClass, Gauge, GaugeForm, GaugeOptions, GaugeScheme, Limits, Size,
};

const GAUGES: &str = include_str!("published/gauges.csv");
const DECISIONS: &str = include_str!("published/decisions.csv");

type Fault = Box<dyn std::error::Error>;

fn limits_of_form([form, scheme, part, wear]: [&str; 4], name: &str) -> Result<String, Fault> {
    if form == "master" {
        let master = GagemakerClass::parse(scheme)?.master(Size::parse(part)?)?;
        let size = if name == "master_lower" { master.lower() } else { master.upper() };
        return Ok(size.to_string());
    }
    let wear = if wear.is_empty() { Size::ZERO } else { Size::parse(wear)? };
    let options = GaugeOptions { wear, ..GaugeOptions::of(GaugeScheme::parse(scheme)?) };
    let gauge = Gauge::new(GaugeForm::parse(form)?, &Limits::parse(part)?, &options)?;
    let size = match name {
        "class" => return Ok(gauge.gagemaker_class.map_or("none", GagemakerClass::name).into()),
        "go_lower" => gauge.go.limits.lower(),
        "go_upper" => gauge.go.limits.upper(),
        "go_tolerance" => gauge.go.limits.tolerance(),
        "no_go_lower" => gauge.no_go.limits.lower(),
        "no_go_upper" => gauge.no_go.limits.upper(),
        "wear_limit" => gauge.wear_limit,
        _ => return Err(format!("no such quantity: {name}").into()),
    };
    Ok(size.to_string())
}

fn gauge_line(line: &str) -> Result<(), Fault> {
    let [form, scheme, part, wear, name, figure, seen, source] = line.split(';').collect::<Vec<_>>()[..]
    else {
        return Err("a line has eight fields".into());
    };
    let figure = if name == "class" { figure.into() } else { Size::parse(figure)?.to_string() };
    compare(limits_of_form([form, scheme, part, wear], name)?, figure, seen, source)
}

fn decision_line(line: &str) -> Result<(), Fault> {
    let [limits, uncertainty, rule, name, figure, seen, source] = line.split(';').collect::<Vec<_>>()[..]
    else {
        return Err("a line has seven fields".into());
    };
    let rule = DecisionRule::parse(rule)?;
    let decision = Decision::new(&Limits::parse(limits)?, Size::parse(uncertainty)?, rule, None)?;
    let size = match name {
        "ratio" => return compare(decision.ratio(), figure.parse::<f64>()?, seen, source),
        "accept_lower" => decision.acceptance.lower(),
        "accept_upper" => decision.acceptance.upper(),
        "accept_width" => decision.acceptance.tolerance(),
        "guard_band" => decision.guard_band,
        "reject_below" => decision.reject_below,
        "reject_above" => decision.reject_above,
        _ => {
            let measured = name.strip_prefix("verdict ").ok_or("no such quantity")?;
            let verdict = decision.judge(Size::parse(measured)?).name();
            return compare(verdict, figure, seen, source);
        }
    };
    compare(size, Size::parse(figure)?, seen, source)
}

fn compare<T: PartialEq + std::fmt::Debug>(got: T, want: T, seen: &str, source: &str) -> Result<(), Fault> {
    evidence::check(seen, source)?;
    if got == want { Ok(()) } else { Err(format!("{got:?}, not {want:?}").into()) }
}

fn faults(text: &str, check: fn(&str) -> Result<(), Fault>) -> (usize, Vec<String>) {
    let lines = text.lines().filter(|line| !line.starts_with("# "));
    let faults = lines.clone().filter_map(|line| Some(format!("{line}: {}", check(line).err()?)));
    (lines.count(), faults.collect())
}

#[test]
fn gauges_have_the_published_limits() {
    let (count, faults) = faults(GAUGES, gauge_line);
    assert!(count > 100 && faults.is_empty(), "{} of {count}:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn decisions_have_the_published_zones() {
    let (count, faults) = faults(DECISIONS, decision_line);
    assert!(count > 25 && faults.is_empty(), "{} of {count}:\n{}", faults.len(), faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    for (line, complaint) in [
        ("plug;B89.1.5;.25..0.254 in;;go_upper;0.2503 in;print;source", "not"),
        ("plug;B89.1.5;.25..0.254 in;;go_uper;0.2502 in;print;source", "no such quantity"),
        ("plug;B89.1.5;.25..0.254 in;;go_upper;0.2502 in;here;source", "how the figure was seen"),
        ("plug;B89.1.5;.25..0.254 in;;go_upper;0.2502 in;print", "eight fields"),
    ] {
        let fault = gauge_line(line).unwrap_err().to_string();
        assert!(fault.contains(complaint), "`{fault}` for {line}");
    }
    let fault =
        decision_line("10..10.1 mm;0.02 mm;simple;verdict 10.2 mm;conforming;print;source").unwrap_err();
    assert!(fault.to_string().contains("not \"conforming\""), "{fault}");
}
