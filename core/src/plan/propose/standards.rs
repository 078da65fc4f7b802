//! A shop's own standard values: a document beside the plan, whose values go before those of the library.
use super::facts::{Facts, text};
use super::filling::{Completed, Filled, Filling};
use super::merge::number_of;
use crate::document::DocumentError;
use crate::document::fault::{FaultKind, Faults, Place};
use crate::document::node::{Content, Node, Tree};
use crate::document::shape::{DocumentField, Object, Shape, one_of};
use crate::error::excerpt;
use crate::material::{self, Material};
use crate::nearest::nearest;
use crate::object::Choice as _;
use crate::plan::document::Document;
use crate::quantity::Units;
use crate::starting_values::MaterialFamily;
use serde_json::{Map, Value};

/// What its assumptions begin with.
const OWN: &str = "your standards, ";
/// The lists of the document, and what their entries are tied to.
const LISTS: [&str; 3] = ["operations", "characteristics", "bar"];

/// The standard values of a shop.
///
/// A document such as
/// `{"tenths_standards": 1, "units": "metric", "operations": [{"kind": "drill", "material": "SAE 1045", "handling": 0.1}]}`.
/// An entry of `operations` has the fields of an operation of its kind; of `characteristics` and `bar`, those of a
/// characteristic and of the bar. `material`, a name of the table or a family, ties an entry to it. The first entry that
/// applies goes before later ones, and all go before what the library proposes.
pub(crate) struct Standards {
    units: Units,
    entries: Vec<Entry>,
}

/// An entry, as values that a plan of any units can take.
struct Entry {
    list: &'static str,
    kind: Option<String>,
    material: Option<Tied>,
    place: String,
    /// Its values as they stand, for a plan of the same units.
    bare: Map<String, Value>,
    /// Its values with their units, for messages and for a plan of other units.
    told: Map<String, Value>,
}

/// What an entry is tied to.
enum Tied {
    Material(&'static Material),
    Family(MaterialFamily),
}

impl Standards {
    /// Reads the document.
    ///
    /// # Errors
    /// [`DocumentError`] with every fault that shows before a plan uses it, each with its place in this document.
    pub(crate) fn from_json(source: &str) -> Result<Standards, DocumentError> {
        let tree = Tree::parse(source)?;
        let (root, mut faults) = (tree.root(), Faults::default());
        let units = Units::of_document(&root);
        check_head(root, &mut faults);
        let mut entries = vec![];
        for list in LISTS {
            let top = Place::ROOT.field(list);
            let Some(node) = root.get(list) else { continue };
            match node.content() {
                Content::List(_) => {
                    for (index, one) in node.parts().enumerate() {
                        entries.extend(entry(list, one, top.index(index), units, &mut faults));
                    }
                }
                Content::Object(_) if list == "bar" => {
                    entries.extend(entry(list, node, top, units, &mut faults));
                }
                _ => faults.add(FaultKind::WrongType, top, || format!("must be a list, not {}", node.what())),
            }
        }
        match faults.count() {
            0 => Ok(Standards { units, entries }),
            _ => Err(faults.into()),
        }
    }

    /// What a plan leaves out and the shop has a standard for.
    pub(super) fn fill(&self, root: Node<'_>) -> Option<Completed> {
        let facts = Facts::of(root);
        let is_same = facts.units == self.units;
        let mut patch = Map::new();
        let mut assumptions = vec![];
        for list in ["operations", "characteristics"] {
            let filled = super::each::each(root, list, |_, node, place| {
                let mut work = Filling::new(&facts, Some(node), place);
                let kind = node.get("kind").and_then(text);
                self.entries_for(&facts, list, kind).for_each(|entry| entry.fill(&mut work, is_same));
                work.filled()
            });
            assumptions.extend(filled.assumptions);
            patch.insert(list.into(), filled.patch);
        }
        let bar = root.get("bar").filter(|bar| matches!(bar.content(), Content::Object(_)));
        if bar.is_some() || root.get("bar").is_none() {
            let mut work = Filling::new(&facts, bar, "/bar".into());
            self.entries_for(&facts, "bar", None).for_each(|entry| entry.fill(&mut work, is_same));
            let filled = work.filled();
            if !filled.assumptions.is_empty() {
                assumptions.extend(filled.assumptions);
                patch.insert("bar".into(), filled.patch);
            }
        }
        let filled = Filled { patch: patch.into(), assumptions };
        (!filled.assumptions.is_empty()).then(|| Completed::new(root, filled))
    }

    fn entries_for<'s>(
        &'s self,
        facts: &'s Facts<'_>,
        list: &'s str,
        kind: Option<&'s str>,
    ) -> impl Iterator<Item = &'s Entry> {
        let applies = move |entry: &&Entry| {
            entry.list == list
                && (entry.kind.is_none() || entry.kind.as_deref() == kind)
                && entry.material.as_ref().is_none_or(|tied| tied.holds(facts.material))
        };
        self.entries.iter().filter(applies)
    }
}

impl Entry {
    fn fill(&self, work: &mut Filling<'_, '_>, is_same: bool) {
        let values = if is_same { &self.bare } else { &self.told };
        put_all(work, values, &self.told, &format!("{OWN}{}", self.place));
    }
}

fn put_all(work: &mut Filling<'_, '_>, values: &Map<String, Value>, told: &Map<String, Value>, reason: &str) {
    for (name, value) in values {
        let told = told.get(name).unwrap_or(value);
        match (value, told) {
            (Value::Object(inside), Value::Object(told)) if !inside.contains_key("lower") => {
                let _ = work.inside(name, |inner| put_all(inner, inside, told, reason));
            }
            _ => work.put(name, value.clone(), shown(told), reason),
        }
    }
}

fn shown(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().map(number_of).map_or_else(String::new, |n| n.to_string()),
        Value::Object(fields) => fields.values().map(shown).collect::<Vec<_>>().join(" to "),
        other => other.to_string(),
    }
}

impl Tied {
    fn holds(&self, material: Option<&'static Material>) -> bool {
        let Some(material) = material else { return false };
        match self {
            Tied::Material(own) => std::ptr::eq(*own, material),
            Tied::Family(family) => MaterialFamily::of(material) == Some(*family),
        }
    }

    fn parse(name: &str) -> Result<Tied, String> {
        match MaterialFamily::of_name(name) {
            Some(family) => Ok(Tied::Family(family)),
            None => material::find(name).map(Tied::Material).map_err(|error| error.to_string()),
        }
    }
}

fn check_head(root: Node<'_>, faults: &mut Faults) {
    const NAMES: [&str; 5] = ["tenths_standards", "units", "operations", "characteristics", "bar"];
    let Content::Object(_) = root.content() else {
        return faults.add(FaultKind::WrongType, Place::ROOT, || {
            format!("must be an object with `tenths_standards`, not {}", root.what())
        });
    };
    if root.get("tenths_standards").and_then(Node::number) != Some(1.0) {
        let place = Place::ROOT.field("tenths_standards");
        faults.add(FaultKind::OutOfRange, place, || "must be 1, the version of this form of document".into());
    }
    let units = root.get("units").and_then(text);
    if !Units::ALL.iter().any(|known| Some(known.name()) == units) {
        let place = Place::ROOT.field("units");
        faults.add(FaultKind::Unknown, place, || "must be `inch` or `metric`".into());
    }
    let mut seen = vec![];
    for field in root.parts() {
        let name = field.name();
        if !NAMES.contains(&name) {
            unknown(name, NAMES.into_iter(), Place::ROOT.field(name), faults);
        } else if seen.contains(&name) {
            given_twice(name, Place::ROOT.field(name), faults);
        }
        seen.push(name);
    }
}

fn unknown<'n>(
    name: &str,
    names: impl Iterator<Item = &'n str> + Clone,
    place: Place<'_>,
    faults: &mut Faults,
) {
    let shown = excerpt(name);
    faults.add(FaultKind::Unknown, place, || match nearest(&shown, names.clone()) {
        Some(meant) => format!("there is no field `{shown}` here: did you mean `{meant}`?"),
        None => format!("there is no field `{shown}` here; the fields are {}", one_of(names)),
    });
}

fn given_twice(name: &str, place: Place<'_>, faults: &mut Faults) {
    faults.add(FaultKind::GivenTwice, place, || format!("`{}` is given twice: remove one", excerpt(name)));
}

/// The fields that an entry may have.
type Table = Vec<&'static DocumentField>;

fn table(object: &'static Object) -> Table {
    object.fields.iter().collect()
}

/// The fields of what a list of the standards has, by the table of fields of the plan.
fn table_of(list: &str, kind: Option<&str>) -> Result<Table, Vec<&'static str>> {
    let field = Document::OBJECT.fields.iter().find(|field| field.name == list);
    match field.map(|field| field.shape) {
        Some(Shape::List(Shape::Tagged(_, variants, shared))) => variants
            .iter()
            .find(|(name, _)| Some(*name) == kind)
            .map(|(_, object)| object.fields.iter().chain(*shared).collect())
            .ok_or_else(|| variants.iter().map(|(name, _)| *name).collect()),
        Some(Shape::List(Shape::Object(object)) | Shape::Object(object)) => Ok(table(object)),
        _ => Err(vec![]),
    }
}

fn entry(
    list: &'static str,
    node: Node<'_>,
    place: Place<'_>,
    units: Units,
    faults: &mut Faults,
) -> Option<Entry> {
    let Content::Object(_) = node.content() else {
        faults.add(FaultKind::WrongType, place, || format!("must be an object, not {}", node.what()));
        return None;
    };
    let kind = node.get("kind").and_then(text);
    let table = match table_of(list, kind) {
        Ok(table) => table,
        Err(names) => {
            let names = one_of(names);
            faults.add(FaultKind::Unknown, place.field("kind"), || format!("must be {names}"));
            return None;
        }
    };
    let material = match node.get("material").map(|name| (name.what(), text(name))) {
        None => None,
        Some((what, None)) => {
            faults.add(FaultKind::WrongType, place.field("material"), || format!("must be text, not {what}"));
            None
        }
        Some((_, Some(name))) => match Tied::parse(name) {
            Ok(tied) => Some(tied),
            Err(message) => {
                faults.add(FaultKind::NotThere, place.field("material"), || message);
                None
            }
        },
    };
    // The numbers of a drawing are those of one part.
    let skipped: &[&str] = match list {
        "operations" => &["kind", "material", "makes", "number"],
        _ => &["kind", "material", "number", "limits", "name"],
    };
    check_fields(node, &table, skipped, place, faults);
    let [bare, told] = [None, Some(units)].map(|units| values(node, &table, skipped, units));
    let place = place.pointer();
    Some(Entry { list, kind: kind.map(Into::into), material, place, bare, told })
}

/// Notes fields that the table of an object does not have, that are of one part, or that are given twice.
fn check_fields(
    node: Node<'_>,
    table: &[&'static DocumentField],
    skipped: &[&str],
    place: Place<'_>,
    faults: &mut Faults,
) {
    let mut seen = vec![];
    for own in node.parts() {
        let (name, at) = (own.name(), place.field(own.name()));
        let field = table.iter().find(|field| field.name == name);
        if seen.contains(&name) {
            given_twice(name, at, faults);
        } else if skipped.contains(&name) {
            if !["kind", "material"].contains(&name) {
                faults
                    .add(FaultKind::Conflict, at, || format!("`{name}` is of one part: give it in the plan"));
            }
        } else if field.is_none() {
            unknown(name, table.iter().map(|field| field.name), at, faults);
        } else if let (Some(Shape::Object(inside)), Content::Object(_)) =
            (field.map(|field| field.shape), own.content())
        {
            check_fields(own, &self::table(inside), &[], at, faults);
        }
        seen.push(name);
    }
}

/// The values of an entry; with units, every measure is text with its unit.
fn values(
    node: Node<'_>,
    table: &[&'static DocumentField],
    skipped: &[&str],
    units: Option<Units>,
) -> Map<String, Value> {
    let known = node.parts().filter(|own| !skipped.contains(&own.name()));
    let fields = known.filter_map(|own| {
        let field = table.iter().find(|field| field.name == own.name())?;
        Some((own.name().to_string(), value(own, field, units)))
    });
    fields.collect()
}

fn value(node: Node<'_>, field: &DocumentField, units: Option<Units>) -> Value {
    let label = match (field.shape, units) {
        (Shape::DocumentNumber(kind) | Shape::Range(kind), Some(units)) => kind.unit(units).label,
        (Shape::Size, Some(units)) => units.length_label(),
        (Shape::Object(object), _) if matches!(node.content(), Content::Object(_)) => {
            return values(node, &table(object), &[], units).into();
        }
        _ => "",
    };
    measured(node, label)
}

/// A node as a value, its numbers as text with a unit where there is one.
fn measured(node: Node<'_>, label: &str) -> Value {
    match node.content() {
        Content::Null => Value::Null,
        Content::Truth(truth) => (*truth).into(),
        Content::Text(text) => (**text).into(),
        Content::Number(number) if label.is_empty() => (*number).into(),
        Content::Number(number) => format!("{number} {label}").into(),
        Content::Long(digits) => (**digits).into(),
        Content::List(_) => node.parts().map(|one| measured(one, label)).collect(),
        Content::Object(_) => {
            let inside = node.parts().map(|one| (one.name().to_string(), measured(one, label)));
            inside.collect::<Map<_, _>>().into()
        }
    }
}

/// Whether an assumption comes from the standards of the shop.
pub(crate) fn is_own(reason: &str) -> Option<&str> {
    reason.strip_prefix(OWN)
}
