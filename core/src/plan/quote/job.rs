//! What a lot takes: the work of each operation and the material, from a plan, its sheet and the rates.
use super::super::bar::Form;
use super::super::document::Document;
use super::super::evaluation::{MATERIAL, OPERATIONS};
use super::super::operation::{Operation, Work};
use super::super::rates::{MaterialRate, OperationRate, OutsideRate, Rates, ToolRate};
use super::super::rates_check::known;
use super::super::sheet::{OperationLines, Sheet};
use super::learning::{Learning, LearningTable, check_learning};
use crate::document::fault::{DocumentError, FaultKind, Faults, Place};
use crate::document::{Decimal, DocumentNumber};
use crate::error::excerpt;
use crate::finding::{Finding, FindingCode, Severity};
use crate::money::Exact;
use crate::quantity::{Density, Length, Mass, Quantity, Time, Units};
use crate::stock::{BarForm, bar_mass_per_length};
use crate::{Limits, Size};

/// An operation on the pieces of a lot. Times are in minutes.
pub(super) struct Step {
    pub(super) number: u64,
    pub(super) title: String,
    pub(super) machine: String,
    /// Money for an hour, operator included.
    pub(super) rate: Exact,
    pub(super) setup: Exact,
    pub(super) scrap: Exact,
    /// For a piece, or for a batch.
    pub(super) minutes: Exact,
    /// How often that time is spent.
    pub(super) counted: Counted,
    /// Money for each piece beside its time.
    pub(super) cost: Option<Exact>,
    pub(super) wears: Vec<Wear>,
    pub(super) learning: Option<Learning>,
    /// The outside work that it is, by its place in the rates.
    pub(super) outside: Option<usize>,
}

/// How often the time of an operation is spent.
#[derive(Clone, Copy)]
pub(super) enum Counted {
    /// For each piece.
    Each,
    /// For the first piece and every so many after it.
    Every(u64),
    /// For each batch of so many.
    Batches(u64),
}

/// A tool that an operation wears.
pub(super) struct Wear {
    pub(super) name: String,
    /// Lives of an edge that a piece takes.
    pub(super) lives: Exact,
    /// Money for the life of an edge.
    pub(super) price: Exact,
    /// Minutes to change it.
    pub(super) change: Exact,
}

/// The material of a lot. Lengths are in metres or feet.
pub(super) enum Stock {
    Blanks { price: Exact },
    Bars(Box<Bars>),
}

pub(super) struct Bars {
    pub(super) per_bar: u64,
    /// What a piece takes, with its allowance and its cut.
    pub(super) pitch: Exact,
    pub(super) length: Exact,
    pub(super) trim: Exact,
    /// Money for a metre or a foot.
    pub(super) price: Exact,
    /// What the price is by.
    pub(super) by: String,
    pub(super) kept_from: Option<Exact>,
    pub(super) scrap: Option<Scrap>,
}

/// What scrap fetches.
pub(super) struct Scrap {
    pub(super) mass_per_length: Exact,
    pub(super) finished_mass: Exact,
    /// Money for a kilogram or a pound.
    pub(super) price: Exact,
}

/// A plan with rates, ready to be quoted for any quantity.
pub(super) struct Job<'r> {
    pub(super) rates: &'r Rates,
    pub(super) steps: Vec<Step>,
    pub(super) stock: Stock,
    pub(super) finished_mass: Option<Exact>,
    /// The changes of machine from operation to operation.
    pub(super) moves: u64,
    pub(super) units: Units,
    pub(super) findings: Vec<Finding>,
}

/// Where rates stand: in the plan, or in a document of their own.
pub(super) fn rates_place(is_own: bool) -> Place<'static> {
    static IN_PLAN: Place<'static> = Place::ROOT.field("rates");
    if is_own { Place::ROOT } else { IN_PLAN }
}

pub(super) fn minutes(time: DocumentNumber<Time>) -> Exact {
    Exact::of_float(time.value())
}

impl<'r> Job<'r> {
    pub(super) fn new(
        document: &Document,
        sheet: &Sheet,
        rates: &'r Rates,
        is_own: bool,
    ) -> Result<Job<'r>, DocumentError> {
        let mut faults = Faults::default();
        let at = rates_place(is_own);
        rates.check_names(at, &mut faults);
        let mut findings = vec![];
        if let Some(finding) = errors_of(sheet) {
            findings.push(finding);
        }
        let learning = LearningTable::new(rates);
        let mut steps = Vec::with_capacity(document.operations.len());
        for (index, (operation, lines)) in document.operations.iter().zip(&sheet.operations).enumerate() {
            let place = OPERATIONS.index(index);
            steps.extend(step(place, operation, lines, (rates, &learning), &mut faults, &mut findings));
        }
        let numbers: Vec<u64> = sheet.operations.iter().map(|lines| lines.number.into()).collect();
        check_learning(&document.operations, &numbers, rates, at, &mut faults);
        let stock = stock(document, sheet, rates, at, &mut faults);
        let finished = rates.material.as_ref().and_then(|material| material.finished_mass);
        check_outside(rates, finished, at, &mut faults);
        let Some(stock) = stock.filter(|_| faults.count() == 0) else { return Err(faults.into()) };
        let moves = steps.windows(2).filter(|two| two[0].machine != two[1].machine).count() as u64;
        let finished_mass = finished.map(|mass| Exact::of_float(mass.value()));
        Ok(Job { rates, steps, stock, finished_mass, moves, units: sheet.units, findings })
    }
}

fn errors_of(sheet: &Sheet) -> Option<Finding> {
    let errors = sheet.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
    (errors > 0).then(|| {
        let message =
            format!("the plan has {errors} findings that are errors: this is the price of work that fails");
        let remedy = "correct the plan as its sheet says, then quote again";
        FindingCode::QuotedWithErrors.found(Place::ROOT.pointer(), message, remedy)
    })
}

/// The tool that an operation names.
fn tool_name(operation: &Operation) -> Option<&str> {
    match &operation.work {
        Work::Saw(saw) => Some(&saw.blade.name),
        Work::MillFlats(mill) => Some(&mill.tool.name),
        Work::Turn(turn) => Some(&turn.tool.name),
        Work::Face(face) => Some(&face.tool.name),
        Work::Drill(drill) => Some(&drill.tool.name),
        Work::Tap(tap) => Some(&tap.tool.name),
        Work::Knurl(knurl) => Some(&knurl.tool.name),
        Work::PartOff(part) => Some(&part.tool.name),
        Work::CenterDrill(drill) => Some(&drill.tool.name),
        Work::Bore(bore) => Some(&bore.tool.name),
        Work::Ream(ream) => Some(&ream.tool.name),
        Work::Countersink(countersink) => Some(&countersink.tool.name),
        Work::Groove(groove) => Some(&groove.tool.name),
        Work::TurnThread(thread) => Some(&thread.tool.name),
        Work::Mill(mill) => Some(&mill.tool.name),
        Work::Keyseat(keyseat) => Some(&keyseat.tool.name),
        Work::Grind(grind) => Some(&grind.wheel.name),
        Work::Broach(broach) => Some(&broach.tool),
        _ => None,
    }
}

fn step(
    place: Place<'_>,
    operation: &Operation,
    lines: &OperationLines,
    (rates, tables): (&Rates, &LearningTable<'_>),
    faults: &mut Faults,
    findings: &mut Vec<Finding>,
) -> Option<Step> {
    let kind = operation.work.name();
    let is_kind = |kinds: &[String]| kinds.iter().any(|one| one == kind);
    let outside = rates.outside.iter().position(|outside| is_kind(&outside.kinds));
    let work = rates.operations.iter().find(|work| is_kind(&work.kinds));
    // What the operation says itself counts before what holds for its kind.
    let common = &operation.common;
    if let Some(name) = &common.machine {
        known(
            name,
            rates.machines.iter().map(|one| one.name.as_str()),
            "machine",
            place.field("machine"),
            faults,
        );
    }
    let named = common.machine.as_deref().or(work.map(|work| work.machine.as_str()));
    let machine = named.and_then(|name| rates.machines.iter().find(|machine| machine.name == name));
    let (each, counted) = match &operation.work {
        Work::Inspect(inspect) => (minutes(inspect.time), Counted::Every(inspect.every.into())),
        Work::HeatTreat(heat) => (minutes(heat.time), Counted::Batches(heat.batch.into())),
        Work::Plate(plate) => (minutes(plate.time), Counted::Batches(plate.batch.into())),
        Work::Wash(wash) => (minutes(wash.time), Counted::Batches(wash.batch.into())),
        _ => (Exact::of_float(lines.minutes_per_part), Counted::Each),
    };
    let cost = match &operation.work {
        Work::Outside(outside) => outside.cost,
        Work::Other(other) => other.cost,
        _ => None,
    };
    // What is bought for a price and takes no time needs no machine.
    let is_bought = outside.is_some() || cost.is_some() && each == Exact::ZERO;
    if !is_bought && named.is_none() {
        faults.add(FaultKind::Missing, place, || {
            format!(
                "no machine is known for `{kind}`. Fix: name one there, or add it to `operations` of the rates, e.g. {{\"kinds\": [\"{kind}\"], \
                 \"machine\": \"lathe\", \"setup\": 20}}"
            )
        });
        return None;
    }
    let of_kind = |told: fn(&OperationRate) -> Exact| work.map_or(Exact::ZERO, told);
    Some(Step {
        number: lines.number.into(),
        title: kind.replace('_', " "),
        machine: match outside {
            Some(outside) => rates.outside[outside].name.clone(),
            None => named.unwrap_or_default().into(),
        },
        rate: machine.map_or(Exact::ZERO, |machine| machine.rate.0 + machine.labour.0),
        setup: if common.setup.value() > 0.0 {
            minutes(common.setup)
        } else {
            of_kind(|work| minutes(work.setup))
        },
        scrap: match Exact::of_float(common.scrap.value()) {
            Exact::ZERO => of_kind(|work| work.scrap.0),
            own => own,
        },
        minutes: each,
        counted,
        cost: cost.map(|cost| Exact::of_float(cost.value())),
        wears: wears(place, operation, lines, rates, faults, findings),
        learning: tables.of(kind, lines.number.into()),
        outside,
    })
}

/// The tools that an operation wears: those of its tool's name, or else those for its kind.
fn wears(
    place: Place<'_>,
    operation: &Operation,
    lines: &OperationLines,
    rates: &Rates,
    faults: &mut Faults,
    findings: &mut Vec<Finding>,
) -> Vec<Wear> {
    let name = tool_name(operation);
    let named = |tool: &&ToolRate| Some(tool.name.as_str()) == name;
    let mut tools: Vec<&ToolRate> = rates.tools.iter().filter(named).collect();
    if tools.is_empty() {
        let for_kind = |tool: &&ToolRate| tool.kind.as_deref() == Some(operation.work.name());
        tools = rates.tools.iter().filter(for_kind).collect();
    }
    if let Some(name) = name.filter(|_| tools.is_empty()) {
        let message = format!("{} has no price: its wear is not in the quote", excerpt(name));
        let remedy = "add it to `tools` of the rates, with its price and its life";
        findings.push(FindingCode::ToolNotPriced.found(place.pointer(), message, remedy));
    }
    let cutting = lines.figures.iter().find(|figure| figure.name == "cutting time");
    let mut worn = Vec::with_capacity(tools.len());
    for tool in tools {
        let lives = match (tool.life, tool.life_holes, tool.life_pieces) {
            (Some(life), ..) => cutting.map(|time| Exact::of_float(time.value) / minutes(life)),
            (_, Some(life), _) => {
                Some(Exact::whole(operation.work.holes().into()) / Exact::whole(life.into()))
            }
            (.., pieces) => Some(Exact::ONE / pieces.map_or(Exact::ONE, |pieces| pieces.0)),
        };
        let Some(lives) = lives else {
            faults.add(FaultKind::Conflict, place, || {
                format!(
                    "{} has its life in minutes, but this operation has no cutting time. Fix: give `life_pieces` in its place",
                    excerpt(&tool.name)
                )
            });
            continue;
        };
        worn.push(Wear {
            name: tool.name.clone(),
            lives,
            price: edge_price(tool),
            change: minutes(tool.change),
        });
    }
    worn
}

/// Money for one life of an edge: of the new tool and its regrinds, over all its lives.
fn edge_price(tool: &ToolRate) -> Exact {
    let regrinds = Exact::whole(tool.regrinds.into());
    let lives = Exact::whole(tool.edges.into()) * (regrinds + Exact::ONE);
    (tool.price.0 + regrinds * tool.regrind_price.0) / lives
}

fn check_outside(rates: &Rates, finished: Option<DocumentNumber<Mass>>, at: Place<'_>, faults: &mut Faults) {
    let list = at.field("outside");
    for (index, OutsideRate { name, price_per_mass, .. }) in rates.outside.iter().enumerate() {
        if price_per_mass.is_some() && finished.is_none() {
            faults.add(FaultKind::Missing, list.index(index).field("price_per_mass"), || {
                format!(
                    "{} is charged by mass: give `finished_mass` in `material` of the rates",
                    excerpt(name)
                )
            });
        }
    }
}

/// A length in metres or feet.
fn long(size: Size, units: Units) -> Exact {
    let per_unit = match units {
        Units::Metric => 1_000_000_000_000,
        Units::Inch => 304_800_000_000,
    };
    Exact::whole(size.picometres().into()) / Exact::whole(per_unit)
}

fn stock(
    document: &Document,
    sheet: &Sheet,
    rates: &Rates,
    at: Place<'_>,
    faults: &mut Faults,
) -> Option<Stock> {
    let Some(material) = &rates.material else {
        faults.add(FaultKind::Missing, at.field("material"), || {
            "is missing: give what the material costs, e.g. {\"price_per_mass\": 1.92}".into()
        });
        return None;
    };
    if let Some(price) = material.price_each {
        return Some(Stock::Blanks { price: price.0 });
    }
    let units = document.units;
    let cut = sawn_pitch(document).zip(sheet.bar.parts_per_bar.filter(|&parts| parts >= 1));
    let Some((pitch, per_bar)) = cut else {
        faults.add(FaultKind::Missing, OPERATIONS, || {
            "nothing cuts pieces from the bar, so that bars cannot be counted. Fix: add a `saw` or `part_off`, or give `price_each` of a \
             blank in `material` of the rates"
                .into()
        });
        return None;
    };
    let length = long(document.bar.bar_length, units);
    let mass = mass_per_length(document);
    let mass = || {
        mass.or_else(|| {
            faults.add(FaultKind::Missing, MATERIAL.field("density"), || {
                "is missing: bars are priced or scrap is sold by mass. Fix: give it, or a price by length or bar".into()
            });
            None
        })
    };
    bars(material, units, mass).map(|(price, by, scrap)| {
        Stock::Bars(Box::new(Bars {
            per_bar,
            pitch: long(pitch, units),
            price: if material.price_per_bar.is_some() { price / length } else { price },
            by,
            length,
            trim: long(document.bar.end_trim, units),
            kept_from: material.remnant_kept_from.map(|size| long(size, units)),
            scrap,
        }))
    })
}

/// The price of a length, or of a bar where it is by the bar; what it is by; and what scrap fetches.
fn bars(
    material: &MaterialRate,
    units: Units,
    mass: impl FnOnce() -> Option<Exact>,
) -> Option<(Exact, String, Option<Scrap>)> {
    let [mass_unit, length_unit] = match units {
        Units::Metric => ["kg", "m"],
        Units::Inch => ["lb", "ft"],
    };
    let finished = material.finished_mass.map(|mass| Exact::of_float(mass.value()));
    let is_weighed = material.price_per_mass.is_some() || material.scrap_price.is_some();
    let mass_per_length = if is_weighed { Some(mass()?) } else { None };
    let scrap = || {
        Some(Scrap {
            mass_per_length: mass_per_length?,
            finished_mass: finished?,
            price: material.scrap_price?.0,
        })
    };
    let shown = |price: Decimal, unit: &str| format!("{} a {unit}", price.to_f64());
    let (price, by) = match (material.price_per_mass, material.price_per_length, material.price_per_bar) {
        (Some(price), ..) => {
            let mass = mass_per_length.unwrap_or(Exact::ZERO);
            let by = format!("{:.4} {mass_unit}/{length_unit} at {}", mass.to_f64(), shown(price, mass_unit));
            (price.0 * mass, by)
        }
        (_, Some(price), _) => (price.0, shown(price, length_unit)),
        (.., bar) => {
            let price = bar.unwrap_or(Decimal::ZERO);
            (price.0, shown(price, "bar"))
        }
    };
    Some((price, by, scrap()))
}

/// What a sawn piece takes of a bar: the longest part with its allowance, and the cut.
fn sawn_pitch(document: &Document) -> Option<Size> {
    let (cut_length, allowance, kerf) =
        document.operations.iter().find_map(|operation| match &operation.work {
            Work::Saw(saw) => Some((saw.cut_length, saw.facing_allowance, saw.kerf)),
            Work::PartOff(part) => Some((part.cut_length, part.facing_allowance, part.tool.width)),
            _ => None,
        })?;
    let length = document.characteristics.iter().find(|c| c.number == cut_length.0)?;
    length.limits.upper().checked_add(allowance)?.checked_add(kerf)
}

/// The mass of a metre or a foot of the bar, of its nominal size, to nine decimals.
fn mass_per_length(document: &Document) -> Option<Exact> {
    let units = document.units;
    let density = Density::new_in(document.material.density(units)?, units);
    let form = match document.bar.form {
        Form::Round => BarForm::Round,
        Form::Hexagon => BarForm::Hexagon,
        Form::Square => BarForm::Square,
    };
    let limits: &Limits = &document.bar.limits;
    let size = Length::new_in(limits.nominal().to_float(units), units);
    Some(Exact::of_float(bar_mass_per_length(form, size, density).ok()?.in_units(units)))
}
