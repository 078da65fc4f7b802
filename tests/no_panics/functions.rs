//! Functions with a record: the call that each shows has an answer, and none panics where one argument of it is odd.
use super::*;
use tenths::object::{FieldKind, Function, FunctionRecord, Value};

/// The value of an argument, as the call that a record shows has it.
fn shown(kind: &FieldKind, json: &serde_json::Value) -> Value {
    let text = || json.as_str().unwrap();
    match kind.present() {
        _ if json.is_null() => Value::Absent,
        FieldKind::Size => Value::Size(Size::parse(text()).unwrap()),
        FieldKind::Limits => Value::Limits(Limits::parse(text()).unwrap()),
        FieldKind::Number | FieldKind::Pure => Value::Number(json.as_f64().unwrap()),
        FieldKind::Whole if json == 0 && matches!(kind, FieldKind::Optional(_)) => Value::Absent,
        FieldKind::Whole => Value::Whole(json.as_i64().unwrap()),
        FieldKind::Flag => Value::Flag(json.as_bool().unwrap()),
        FieldKind::List(FieldKind::Number | FieldKind::Pure) => {
            let numbers = json.as_array().unwrap().iter();
            Value::List(numbers.map(|number| Value::Number(number.as_f64().unwrap())).collect())
        }
        FieldKind::Text => Value::Text(text().to_string().into()),
        other => panic!("no argument of {other:?} is shown yet"),
    }
}

/// Values of a kind that nobody expects, and one of another kind.
fn odd(kind: &FieldKind) -> Vec<Value> {
    let mut odd = match kind.present() {
        FieldKind::Size => Size::odd().into_iter().map(Value::Size).collect(),
        FieldKind::Limits => Limits::odd().into_iter().map(Value::Limits).collect(),
        FieldKind::Number | FieldKind::Pure => f64::odd().into_iter().map(Value::Number).collect(),
        FieldKind::Whole => i64::odd().into_iter().map(Value::Whole).collect(),
        FieldKind::Flag => [false, true].map(Value::Flag).to_vec(),
        FieldKind::List(_) => {
            let lists = Vec::<f64>::odd().into_iter();
            lists.map(|list| Value::List(list.into_iter().map(Value::Number).collect())).collect()
        }
        _ => <&str>::odd().into_iter().map(|text| Value::Text(text.into())).collect::<Vec<_>>(),
    };
    odd.extend([Value::Absent, Value::List(vec![])]);
    odd
}

/// The call that a record shows.
fn call(record: &FunctionRecord) -> Vec<Value> {
    let json: Vec<serde_json::Value> = serde_json::from_str(&format!("[{}]", record.example)).unwrap();
    assert_eq!(json.len(), record.arguments.len(), "{} shows another count of arguments", record.name);
    record.arguments.iter().zip(&json).map(|(argument, json)| shown(&argument.field.kind, json)).collect()
}

#[test]
fn each_has_an_answer_to_the_call_that_it_shows() {
    for record in registry::functions() {
        let answer = (record.attempt)(&call(record));
        assert!(answer.is_some_and(|answer| answer != Value::Absent), "{}({})", record.name, record.example);
        assert_eq!((record.attempt)(&[]), None, "{} without arguments", record.name);
    }
}

#[test]
fn none_panics_for_an_odd_argument() {
    let mut panics = vec![];
    for record in registry::functions() {
        let sound = call(record);
        for (place, argument) in record.arguments.iter().enumerate() {
            for odd in odd(&argument.field.kind) {
                let mut values = sound.clone();
                values[place] = odd.clone();
                if catch_unwind(|| drop((record.attempt)(&values))).is_err() {
                    panics.push(format!("{}: {} = {odd}", record.name, argument.field.name));
                }
            }
        }
    }
    assert!(panics.is_empty(), "{}", panics.join("\n"));
}

#[test]
fn names_that_are_like_one_are_told() {
    let plan = registry::functions().iter().find(|record| record.name == "sampling_plan").unwrap();
    assert_eq!(
        (FunctionRecord::nearest(plan, "standrad"), FunctionRecord::nearest(plan, "")),
        (Some("standard"), None)
    );
    assert_eq!(FunctionRecord::topic(plan), "Functions of inspect: sampling");
    let odd = Function::answer(&registry::functions::SAMPLING_PLAN, &[Value::Absent]);
    assert_eq!(odd.unwrap_err().to_string(), "lot must be a whole number, zero or more, not nothing");
}
