//! Every field of the demos put through every mutation: a located fault or a sheet, and never a panic, a hang or
//! memory without bound.
use serde_json::{Map, Value, json};
use std::alloc::{GlobalAlloc, Layout, System};
use std::cell::Cell;
use std::time::Instant;
use tenths::document::{Bound, DocumentField, FaultKind, MAX_BYTES, MAX_FAULTS, Shape};
use tenths::plan::{Document, MAX_FINDINGS, proposed_fields};
use tenths::{DocumentError, Plan, Severity, SheetKind, Units};

const DEMOS: [&str; 2] =
    [include_str!("../examples/plans/roller_axle.json"), include_str!("../examples/plans/jig_rest_pin.json")];

/// A place of a demo with its row in the table of fields.
#[derive(Clone)]
struct Spot {
    pointer: String,
    shape: &'static Shape,
    bound: Bound,
    required: bool,
    /// Whether it is a field, and no item of a list.
    is_field: bool,
}

impl Spot {
    /// Its parent and its own name.
    fn split(&self) -> (&str, &str) {
        self.pointer.rsplit_once('/').unwrap()
    }
}

/// Every place beneath one, the whole document left out.
fn spots(value: &Value, shape: &'static Shape, pointer: &str, found: &mut Vec<Spot>) {
    match shape {
        Shape::Object(object) => fields(value, (object.name, object.fields), pointer, found),
        Shape::Tagged(tag, variants, shared) => {
            let name = value[tag].as_str().unwrap();
            let (_, object) = variants.iter().find(|(own, _)| *own == name).unwrap();
            let bound = Bound::Anything;
            // The names in a tag are a choice like any other.
            let shape = &Shape::Choice(&[]);
            found.push(Spot {
                pointer: format!("{pointer}/{tag}"),
                shape,
                bound,
                required: true,
                is_field: true,
            });
            fields(value, (object.name, object.fields), pointer, found);
            fields(value, ("", shared), pointer, found);
        }
        Shape::List(item) => {
            for (index, value) in value.as_array().unwrap().iter().enumerate() {
                let pointer = format!("{pointer}/{index}");
                let bound = Bound::Anything;
                found.push(Spot {
                    pointer: pointer.clone(),
                    shape: item,
                    bound,
                    required: false,
                    is_field: false,
                });
                spots(value, item, &pointer, found);
            }
        }
        _ => {}
    }
}

fn fields(value: &Value, table: (&str, &'static [DocumentField]), pointer: &str, found: &mut Vec<Spot>) {
    let (name, table) = table;
    for field in table {
        let Some(value) = value.get(field.name) else { continue };
        let pointer = format!("{pointer}/{}", field.name);
        let (shape, bound) = (field.shape, field.bound);
        let is_proposed = proposed_fields().iter().any(|own| own.object == name && own.field == field.name);
        let required = field.required && !is_proposed;
        found.push(Spot { pointer: pointer.clone(), shape, bound, required, is_field: true });
        spots(value, shape, &pointer, found);
    }
}

/// Does something with each place of each demo.
fn each_spot(mut visit: impl FnMut(&Value, &Spot)) {
    for demo in DEMOS {
        let document: Value = serde_json::from_str(demo).unwrap();
        let mut found = vec![];
        fields(&document, ("Document", Document::OBJECT.fields), "", &mut found);
        assert!(found.len() > 100);
        found.iter().for_each(|spot| visit(&document, spot));
    }
}

fn put(document: &Value, pointer: &str, value: Value) -> Value {
    let mut changed = document.clone();
    *changed.pointer_mut(pointer).unwrap() = value;
    changed
}

fn parent<'d>(document: &'d mut Value, spot: &Spot) -> &'d mut Map<String, Value> {
    document.pointer_mut(spot.split().0).unwrap().as_object_mut().unwrap()
}

/// The kinds and places of what is wrong with a text; every fault is located, and says something.
fn faults(text: &str) -> Vec<(FaultKind, String)> {
    match Plan::from_json(text).and_then(|plan| plan.evaluate()) {
        Ok(sheet) => {
            assert!(
                !sheet.to_markdown(SheetKind::Process).unwrap().is_empty() && !sheet.to_json().is_empty()
            );
            vec![]
        }
        Err(error) => listed(&error),
    }
}

fn listed(error: &DocumentError) -> Vec<(FaultKind, String)> {
    assert!(error.count() > 0 && error.faults().len() == error.count().min(MAX_FAULTS));
    for fault in error.faults() {
        let located = fault.place.starts_with('/') || fault.line_and_column.is_some();
        assert!(located || fault.kind == FaultKind::TooLarge || fault.place.is_empty(), "{fault:?}");
        assert!(fault.message.len() > 5 && fault.message.len() < 2000, "{fault:?}");
    }
    error.faults().iter().map(|fault| (fault.kind, fault.place.clone())).collect()
}

#[track_caller]
fn assert_fault(text: &str, kind: FaultKind, pointer: &str) {
    let found = faults(text);
    assert!(
        found.iter().any(|(own, place)| *own == kind && place == pointer),
        "no {kind:?} at {pointer}: {found:?}"
    );
}

#[track_caller]
fn assert_fault_at(text: &str, pointer: &str) {
    let found = faults(text);
    assert!(found.iter().any(|(_, place)| place == pointer), "none at {pointer}: {found:?} in {text}");
}

#[test]
fn a_dropped_field_is_named_where_it_is_required() {
    let mut required = 0;
    each_spot(|document, spot| {
        if !spot.is_field {
            return;
        }
        let mut changed = document.clone();
        parent(&mut changed, spot).remove(spot.split().1);
        let text = changed.to_string();
        if spot.required {
            required += 1;
            assert_fault(&text, FaultKind::Missing, &spot.pointer);
        } else {
            // What may be left out is missing only where nothing can be proposed, at that field or what depends on it.
            let (above, _) = spot.split();
            let missing = faults(&text).into_iter().filter(|(kind, _)| *kind == FaultKind::Missing);
            missing.for_each(|(_, place)| assert!(place.starts_with(above), "{} {place}", spot.pointer));
        }
    });
    assert!(required > 150, "{required}");
}

#[test]
fn a_dropped_item_of_a_list_leaves_located_faults_or_a_sheet() {
    each_spot(|document, spot| {
        if let (false, (list, index)) = (spot.is_field, spot.split()) {
            let mut changed = document.clone();
            changed.pointer_mut(list).unwrap().as_array_mut().unwrap().remove(index.parse().unwrap());
            faults(&changed.to_string());
        }
    });
}

/// Values that a shape never takes.
fn wrong_types(shape: &Shape) -> Vec<Value> {
    let mut wrong = vec![Value::Null, json!(true)];
    if !matches!(shape, Shape::Text) {
        wrong.push(json!("odd"));
    }
    if !matches!(shape, Shape::List(_)) {
        wrong.push(json!([]));
    }
    if !matches!(shape, Shape::Object(_) | Shape::Tagged(..) | Shape::Range(_) | Shape::Limits) {
        wrong.push(json!({}));
    }
    use Shape::{Count, Decimal, DocumentNumber, Reference, Size};
    if !matches!(shape, DocumentNumber(_) | Decimal | Size | Count | Reference) {
        wrong.push(json!(77));
    }
    wrong
}

#[test]
fn a_retyped_value_has_a_fault_at_its_place() {
    let mut count = 0;
    each_spot(|document, spot| {
        for wrong in wrong_types(spot.shape) {
            count += 1;
            assert_fault_at(&put(document, &spot.pointer, wrong).to_string(), &spot.pointer);
        }
    });
    assert!(count > 1000, "{count}");
}

#[test]
fn a_doubled_field_is_named() {
    each_spot(|document, spot| {
        if !spot.is_field {
            return;
        }
        const MARK: &str = "\u{1}";
        let (name, value) = (spot.split().1, document.pointer(&spot.pointer).unwrap());
        let marked = put(document, &spot.pointer, MARK.into()).to_string();
        let one = format!("\"{name}\":\"\\u0001\"");
        assert_eq!(marked.matches(&one).count(), 1);
        let text = marked.replace(&one, &format!("\"{name}\":{value},\"{name}\":{value}"));
        assert_fault(&text, FaultKind::GivenTwice, &spot.pointer);
    });
}

#[test]
fn a_renamed_field_is_unknown_and_missed() {
    each_spot(|document, spot| {
        let (above, name) = spot.split();
        for renamed in [format!("{name}_x"), "x/y~z".into(), "n".repeat(10_000)] {
            if !spot.is_field {
                return;
            }
            let mut changed = document.clone();
            let object = parent(&mut changed, spot);
            let value = object.remove(name).unwrap();
            object.insert(renamed.clone(), value);
            let text = changed.to_string();
            // Where the tag is gone, no table says which fields there are.
            if !matches!(spot.shape, Shape::Choice([])) && renamed.len() < 100 {
                let escaped = renamed.replace('~', "~0").replace('/', "~1");
                assert_fault(&text, FaultKind::Unknown, &format!("{above}/{escaped}"));
            }
            if spot.required {
                assert_fault(&text, FaultKind::Missing, &spot.pointer);
            }
        }
    });
}

/// Numbers outside a bound.
fn outside(bound: Bound) -> &'static [f64] {
    match bound {
        Bound::Anything => &[],
        Bound::Positive => &[0.0, -1.0, -1e300],
        Bound::NonNegative => &[-1.0, -1e300],
        Bound::BelowHalf => &[0.0, -1.0, 0.5, 7.0],
        Bound::BelowOne => &[0.0, -1.0, 1.0, 7.0],
        Bound::Share => &[-0.1, 1.0, 7.0],
        Bound::BelowStraight => &[0.0, -1.0, 180.0],
        Bound::BelowRight => &[-1.0, 90.0],
    }
}

#[test]
fn a_number_out_of_range_has_a_fault_at_its_place() {
    let mut count = 0;
    each_spot(|document, spot| {
        let wrong: Vec<Value> = match spot.shape {
            Shape::DocumentNumber(_) | Shape::Decimal | Shape::Size => {
                outside(spot.bound).iter().map(|&x| json!(x)).collect()
            }
            Shape::Count if spot.bound == Bound::Anything => {
                [-1.0, 0.5, 4_294_967_296.0].map(|x| json!(x)).into()
            }
            Shape::Count => [-1.0, 0.5, 4_294_967_296.0, 0.0].map(|x| json!(x)).into(),
            Shape::Reference => [-1.0, 0.5, 4_294_967_296.0, 99.0].map(|x| json!(x)).into(),
            Shape::Range(_) => [-1.0, 0.0].map(|lower| json!({"lower": lower, "upper": 1e9})).into(),
            Shape::Limits if spot.bound == Bound::Anything => vec![json!("5..4 mm")],
            Shape::Limits => [json!("-5..-4 mm"), json!({"lower": -1, "upper": 1}), json!("5..4 mm")].into(),
            _ => return,
        };
        for wrong in wrong {
            count += 1;
            assert_fault_at(&put(document, &spot.pointer, wrong).to_string(), &spot.pointer);
        }
    });
    assert!(count > 300, "{count}");
}

#[test]
fn huge_and_tiny_numbers_have_a_located_fault_or_a_sheet() {
    each_spot(|document, spot| {
        if !matches!(spot.shape, Shape::DocumentNumber(_) | Shape::Size | Shape::Count | Shape::Reference) {
            return;
        }
        for number in ["1e308", "-1e308", "5e-324", "1e18", "9223372036854775808", "1e-30", "0.1e-1"] {
            let value: Value = serde_json::from_str(number).unwrap();
            faults(&put(document, &spot.pointer, value).to_string());
        }
        const MARK: &str = "\"\\u0001\"";
        let text = put(document, &spot.pointer, "\u{1}".into()).to_string();
        for number in ["1e999", "-", "01", "0x10", "NaN", "1e"] {
            let error = Plan::from_json(&text.replace(MARK, number)).unwrap_err();
            assert_eq!(listed(&error)[0].0, FaultKind::Syntax);
            assert!(error.faults()[0].line_and_column.is_some());
        }
    });
}

#[test]
fn texts_of_every_sort_have_a_located_fault_or_a_sheet() {
    let long = "9".repeat(5000) + " mm";
    let texts = ["", "\u{0}", "5", "5 furlong", "1e999 mm", "1/0 in", "±", &long];
    each_spot(|document, spot| {
        for text in texts {
            let changed = put(document, &spot.pointer, text.into()).to_string();
            match spot.shape {
                Shape::Text if text.len() < 1000 => drop(faults(&changed)),
                Shape::Decimal if text == "5" => {}
                // A plain number may be text without a unit.
                Shape::DocumentNumber(kind) if kind.unit(Units::Metric).label.is_empty() && text == "5" => {}
                _ => assert_fault_at(&changed, &spot.pointer),
            }
        }
    });
}

#[test]
fn deep_brackets_are_refused() {
    const MARK: &str = "\"\\u0001\"";
    each_spot(|document, spot| {
        let text = put(document, &spot.pointer, "\u{1}".into()).to_string();
        for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
            let nested = |depth: usize| open.repeat(depth) + "1" + &close.repeat(depth);
            let within = text.replace(MARK, &nested(10));
            assert!(
                faults(&within).iter().any(|(_, place)| place.starts_with(&spot.pointer)),
                "{}",
                spot.pointer
            );
            let error = Plan::from_json(&text.replace(MARK, &nested(200))).unwrap_err();
            assert_eq!(listed(&error)[0].0, FaultKind::TooLarge);
        }
    });
}

#[test]
fn text_cut_anywhere_says_where() {
    for demo in DEMOS {
        let whole = demo.trim_end();
        for end in (0..whole.len()).filter(|&end| whole.is_char_boundary(end)) {
            let error = Plan::from_json(&whole[..end]).unwrap_err();
            assert_eq!(error.faults()[0].kind, FaultKind::Syntax);
            assert!(error.faults()[0].line_and_column.is_some());
        }
        assert!(Plan::from_json(whole).is_ok());
    }
}

#[test]
fn changed_punctuation_has_a_located_fault_or_a_sheet() {
    let mut sheets = 0;
    for demo in DEMOS {
        for (at, _) in demo.char_indices().filter(|(_, c)| "{}[]:,\"".contains(*c)) {
            for with in ["", "{", "\"", "null,"] {
                let found = faults(&format!("{}{with}{}", &demo[..at], &demo[at + 1..]));
                sheets += usize::from(found.is_empty());
            }
        }
    }
    // Some mutations touch only names, so that the loop has seen the evaluation as well.
    assert!(sheets > 0);
}

/// Counts the bytes that this thread holds.
struct Counting;

thread_local! {
    static HELD: Cell<isize> = const { Cell::new(0) };
    static PEAK: Cell<isize> = const { Cell::new(0) };
}

fn count(bytes: isize) {
    // A thread that is ending has no counts any more.
    let _ = HELD.try_with(|held| {
        held.set(held.get() + bytes);
        PEAK.with(|peak| peak.set(peak.get().max(held.get())));
    });
}

// SAFETY: every call goes to the system's allocator as it is.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        count(layout.size() as isize);
        // SAFETY: the caller's promise.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        count(-(layout.size() as isize));
        // SAFETY: the caller's promise.
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static COUNTING: Counting = Counting;

/// The most bytes that a run held at a time beyond what there was before, and its seconds.
fn cost(run: impl FnOnce()) -> (usize, f64) {
    let before = HELD.get();
    PEAK.set(before);
    let start = Instant::now();
    run();
    ((PEAK.get() - before) as usize, start.elapsed().as_secs_f64())
}

#[test]
fn a_hundred_megabytes_are_refused_without_a_look() {
    let operation = r#"{"kind": "deburr", "time": 1}, "#;
    let body = operation.repeat(100_000_000 / operation.len());
    let text = DEMOS[0].replacen(r#"{"kind": "deburr""#, &format!(r#"{body}{{"kind": "deburr""#), 1);
    assert!(text.len() > 99_000_000);
    let (bytes, seconds) = cost(|| {
        let error = Plan::from_json(&text).unwrap_err();
        assert_eq!(listed(&error), [(FaultKind::TooLarge, String::new())]);
        let limit = format!("a plan may have at most {MAX_BYTES}");
        assert!(error.to_string().contains(&limit), "{error}");
    });
    assert!(bytes < 10_000 && seconds < 0.1, "{bytes} bytes, {seconds} s");
}

/// A demo with this in the place of its operation that deburrs, whose text is nearly as long as it may be.
fn filled(piece: &str, before: &str, after: &str) -> String {
    let old = r#"{"kind": "deburr", "tool": "a file", "time": 0.25}"#;
    let room = MAX_BYTES - DEMOS[0].len() - before.len() - after.len();
    let body = piece.repeat(room / piece.len());
    let text = DEMOS[0].replace(old, &format!("{before}{}{after}", body.trim_end_matches(',')));
    assert!(text.len() <= MAX_BYTES && text.len() > MAX_BYTES - 200);
    text
}

#[test]
fn the_longest_documents_take_bounded_memory() {
    let deburr = |list: &str| format!(r#"{{"kind":"deburr","time":1,{list}}}"#);
    for (name, text, sheet) in [
        ("numbers", filled("1,", r#"{"kind":"deburr","time":["#, "]}"), false),
        ("objects", filled("{},", "", ""), false),
        ("one field over and over", filled(r#""time":1,"#, "{", "}"), false),
        ("unknown characteristics", filled("9,", r#"{"kind":"deburr","time":1,"makes":["#, "]}"), false),
        ("operations", filled(&(deburr(r#""makes":[4]"#) + ","), "", ""), true),
        ("characteristics", filled("4,", r#"{"kind":"deburr","time":1,"makes":["#, "]}"), true),
        ("a text", filled("x", r#"{"kind":"deburr","time":1,"tool":""#, "\"}"), false),
    ] {
        let (bytes, _) = cost(|| assert_eq!(faults(&text).is_empty(), sheet, "{name}"));
        // A number takes two bytes of text and, as a node when their vector grows to hold it, 3 / 2 · 48 bytes; an operation of
        // some forty bytes takes 3 kB of plan and sheet.
        assert!(bytes < 96 * MAX_BYTES, "{name}: {bytes} bytes");
    }
}

#[test]
fn findings_without_number_end_in_one_that_counts_the_rest() {
    // An operation that deburrs makes no diameter, and each time it is named that is found.
    let text = filled("4,", r#"{"kind":"deburr","time":1,"makes":["#, "]}");
    let findings = Plan::from_json(&text).unwrap().evaluate().unwrap().findings;
    assert_eq!(findings.len(), MAX_FINDINGS + 1);
    let last = findings.iter().find(|finding| finding.code == "more_findings").unwrap();
    assert_eq!(last.severity, Severity::Error);
    assert!(last.message.ends_with(" more findings are not listed"), "{}", last.message);
}

#[test]
fn many_characteristics_and_operations_are_no_square() {
    let one =
        r#"{"number":N,"kind":"length","limits":"1..2 mm","requirement":"independency","inspection":"-"},"#;
    let characteristics: String = (100..5100).map(|n| one.replace('N', &n.to_string())).collect();
    let makes: String = (100..5100).map(|n| format!("{n},")).collect();
    let operations =
        format!(r#"{{"kind":"deburr","time":1,"makes":[{}]}},"#, makes.trim_end_matches(',')).repeat(40);
    let text = DEMOS[0]
        .replace(r#""characteristics": ["#, &format!(r#""characteristics": [{characteristics}"#))
        .replacen(r#""operations": ["#, &format!(r#""operations": [{operations}"#), 1);
    let plan = Plan::from_json(&text).unwrap();
    let mut sheet = None;
    let (_, seconds) = cost(|| sheet = Some(plan.evaluate().unwrap()));
    let sheet = sheet.unwrap();
    assert_eq!(sheet.characteristics[7].made_by, (1..=40).map(|place| 10 * place).collect::<Vec<u32>>());
    // A scan of all operations for each characteristic would be 5000 · 200 000 steps.
    assert!(seconds < 10.0, "{seconds} s");
}
