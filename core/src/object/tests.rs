use super::{Choice as _, FieldKind, FieldValue, Object as _, Options as _, Readable, Restored, Value};
use crate::quantity::{Length, Units};
use crate::registry::objects;
use crate::{Limits, Size};
use std::collections::HashSet;
use std::fmt;
use std::hash::{BuildHasher, BuildHasherDefault, DefaultHasher};
use std::time::Duration;
use tenths_macros::{Choice, Object, Options, accessors};

#[derive(Clone, Copy, PartialEq, Debug, Choice)]
enum Colour {
    Red,
    #[name = "dark blue"]
    Blue,
    LightGreen,
}

/// One of each kind.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(accessors, summary, restore)]
struct Sample {
    /// A size.
    pub size: Size,
    /// Limits.
    pub limits: Option<Limits>,
    /// A quantity.
    pub length: Length,
    /// A number.
    pub number: f64,
    /// A count.
    pub count: u32,
    /// A flag.
    pub flag: bool,
    /// A choice.
    pub colour: Colour,
    /// A text.
    pub text: String,
    /// Numbers.
    pub numbers: Vec<f64>,
    /// The side.
    pub units: Units,
}

#[accessors]
impl Sample {
    /// Half of the number.
    #[field]
    fn half(&self) -> f64 {
        self.number / 2.0
    }

    /// The root of the number.
    ///
    /// # Errors
    /// Of a negative one.
    #[field]
    fn root(&self) -> Result<f64, fmt::Error> {
        if self.number < 0.0 { Err(fmt::Error) } else { Ok(self.number.sqrt()) }
    }
}

impl fmt::Display for Sample {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "sample of {}", self.count)
    }
}

fn sample() -> Sample {
    Sample {
        size: Size::from_picometres(1),
        limits: None,
        length: Length::millimetres(25.4),
        number: 9.0,
        count: 7,
        flag: true,
        colour: Colour::LightGreen,
        text: "a | b".into(),
        numbers: vec![1.0, f64::NAN],
        units: Units::Inch,
    }
}

#[test]
fn an_object_tells_its_fields_and_is_restored_from_them() {
    let told = sample().tell();
    let names: Vec<_> = told.record.fields().map(|field| field.name).collect();
    assert_eq!(
        names,
        "size limits length number count flag colour text numbers units half root"
            .split(' ')
            .collect::<Vec<_>>()
    );
    assert_eq!(told.get::<f64>("half"), Some(4.5));
    assert_eq!(told.value("root"), Some(&Value::Number(3.0)));
    assert_eq!(told.get::<u32>("half"), None);
    assert_eq!(told.value("nothing"), None);
    assert_eq!(told.units(), Some(Units::Inch));
    assert_eq!(told.summary.as_deref(), Some("sample of 7"));
    let restored = Sample::restore(&told).unwrap();
    assert_eq!(restored.tell(), told);
    assert_eq!(Sample { number: -1.0, ..sample() }.tell().value("root"), Some(&Value::Absent));
}

#[test]
fn an_object_is_not_restored_from_values_of_another_kind() {
    for place in 0..10 {
        let mut told = sample().tell();
        told.values[place] = Value::List(vec![Value::Absent]);
        assert!(Sample::restore(&told).is_none(), "{place}");
    }
    let mut told = sample().tell();
    told.values[4] = Value::Whole(-1);
    assert!(Sample::restore(&told).is_none(), "a count below zero");
}

#[test]
fn objects_compare_and_hash_by_their_values() {
    let hash = |value: &Value| BuildHasherDefault::<DefaultHasher>::default().hash_one(value);
    let told = FieldValue::value(&sample());
    assert_eq!(told, FieldValue::value(&sample()));
    assert_eq!(hash(&told), hash(&FieldValue::value(&sample())));
    let other = FieldValue::value(&Sample { flag: false, ..sample() });
    assert_ne!(told, other);
    assert_ne!(hash(&told), hash(&other));
    let [zero, negative] = [0.0, -0.0].map(Value::Number);
    assert_eq!((zero == negative, hash(&zero) == hash(&negative)), (true, true));
    let [one, other] = [f64::NAN, -f64::NAN].map(Value::Number);
    assert_eq!((one == other, hash(&one) == hash(&other)), (true, true));
}

#[test]
fn choices_have_names() {
    assert_eq!(Colour::NAMES, ["red", "dark blue", "light_green"]);
    assert_eq!(Colour::of_name("dark blue"), Some(Colour::Blue));
    assert_eq!((Colour::of_name("Blue"), Colour::Blue.place(), Colour::ALL.len()), (None, 1, 3));
    assert_eq!(Colour::read(&Value::Choice(3)), None);
}

#[test]
fn every_record_is_fit_for_every_face() {
    let mut names = HashSet::new();
    for record in objects() {
        assert!(names.insert(record.name), "{} is listed twice", record.name);
        let mut fields = HashSet::new();
        for field in record.fields() {
            assert!(fields.insert(field.name), "{}.{}", record.name, field.name);
            assert!(field.doc.ends_with(['.', '`']), "{}.{}: {}", record.name, field.name, field.doc);
            check_kind(&field.kind, &format!("{}.{}", record.name, field.name));
        }
    }
}

/// What a record leads to is listed, and an option has a value of its own to hold.
fn check_kind(kind: &FieldKind, of: &str) {
    match kind {
        FieldKind::Object(record) => {
            assert!(
                objects().iter().any(|known| known.name == record.name),
                "{of}: {} is not listed",
                record.name
            );
        }
        FieldKind::Optional(FieldKind::Optional(_)) => panic!("{of}: an option of an option"),
        FieldKind::Optional(inner) | FieldKind::List(inner) => check_kind(inner, of),
        _ => {}
    }
}

/// What a search is asked for.
#[derive(Clone, PartialEq, Debug, Options)]
#[watched]
struct Search<'a> {
    /// The width.
    pub width: Size,
    /// How far it goes.
    pub reach: Option<usize>,
    /// How long it may take.
    pub time_limit: Option<Duration>,
    /// The colour.
    pub colour: Colour,
    /// The confidence.
    #[pure]
    pub confidence: f64,
    #[apart]
    pub data: &'a [f64],
}

impl Default for Search<'_> {
    fn default() -> Self {
        Search {
            width: Size::from_picometres(5),
            reach: None,
            time_limit: Some(Duration::from_millis(1500)),
            colour: Colour::Blue,
            confidence: 0.95,
            data: &[],
        }
    }
}

#[test]
fn options_are_made_of_their_values_and_default_to_the_defaults_of_the_core() {
    let record = Search::RECORD;
    let names: Vec<_> = record.fields.iter().map(|field| field.name).collect();
    assert_eq!(names, ["width", "reach", "time_limit", "colour", "confidence"]);
    assert!(record.watched && record.doc == "What a search is asked for.");
    assert!(matches!(record.fields[4].kind, FieldKind::Pure));
    let mut values = (record.defaults)();
    assert_eq!(values[2], Value::Number(1.5));
    assert_eq!(Search::of_values(&values), Ok(Search::default()));
    values[1] = Value::Whole(7);
    values[2] = Value::Absent;
    let changed = Search { reach: Some(7), time_limit: None, ..Search::default() };
    assert_eq!(Search::of_values(&values), Ok(changed));
}

#[test]
fn an_option_says_what_it_must_be() {
    let fault = |place: usize, value: Value| {
        let mut values = (Search::RECORD.defaults)();
        values[place] = value;
        Search::of_values(&values).map_or_else(|fault| fault.to_string(), |options| format!("{options:?}"))
    };
    assert_eq!(fault(1, Value::Whole(-1)), "reach must be a whole number, zero or more, not -1");
    for seconds in [-1.0, f64::NAN, 1e300] {
        let message = format!("time_limit must be a number of seconds, zero or more, not {seconds}");
        assert_eq!(fault(2, Value::Number(seconds)), message);
    }
    assert_eq!(fault(0, Value::Absent), "width must be a length, not nothing");
    assert_eq!(fault(3, Value::Choice(3)), "colour must be red, dark blue or light_green, not 3");
    assert_eq!(Search::of_values(&[]).map_err(|fault| fault.name), Err("width"));
    assert_eq!(Search::RECORD.nearest("widht"), Some("width"));
    assert_eq!(Search::RECORD.nearest("pressure"), None);
}

#[test]
fn every_record_of_options_is_documented_and_makes_its_defaults() {
    for record in crate::registry::options() {
        assert!(record.name.ends_with("Options") && record.doc.ends_with('.'), "{}", record.name);
        assert_eq!((record.defaults)().len(), record.fields.len(), "{}", record.name);
        let names: HashSet<_> = record.fields.iter().map(|field| field.name).collect();
        assert_eq!(names.len(), record.fields.len(), "{}", record.name);
        assert!(record.fields.iter().all(|field| field.doc.ends_with('.')), "{}", record.name);
    }
}
