//! Several routings in one plan: each a plan of its own, quoted side by side, with the quantity where they break even.
use serde_json::{Value, json};
use tenths::document::FaultKind;
use tenths::plan::quote::CheaperRoute;
use tenths::{Plan, Severity};

const AXLE: &str = include_str!("../examples/plans/roller_axle.json");

fn axle() -> Value {
    serde_json::from_str(AXLE).unwrap()
}

/// The operations of the axle with a lathe that is set up in 5 minutes and loaded by hand.
fn light_lathe() -> Value {
    let mut operations = axle()["operations"].take();
    let turn = &mut operations[4];
    (turn["setup"], turn["handling"]) = (json!(5), json!(1.3));
    operations
}

/// The axle as it is, and on the light lathe.
fn two_ways() -> Value {
    let mut document = axle();
    document["routing"] = json!("chucker");
    let reason = "the chucker takes long to set up";
    document["routings"] = json!([{"name": "light lathe", "reason": reason, "operations": light_lathe()}]);
    document
}

fn read(document: &Value) -> Plan {
    Plan::from_json(&document.to_string()).unwrap_or_else(|error| panic!("{error}"))
}

#[track_caller]
fn refused(document: &Value, kind: FaultKind, place: &str) -> String {
    let error = Plan::from_json(&document.to_string()).unwrap_err();
    let fault = error.faults().iter().find(|one| one.kind == kind && one.place == place);
    fault.unwrap_or_else(|| panic!("no {kind:?} at {place}: {error}")).message.clone()
}

#[test]
fn a_routing_is_a_plan_of_its_own() {
    let plan = read(&two_ways());
    let mut other = axle();
    other["operations"] = light_lathe();
    let alone = read(&other);
    let routed = plan.routing("light lathe").unwrap();
    assert_eq!(routed.document(), alone.document());
    assert_eq!(routed.quote(&[1, 25], None), alone.quote(&[1, 25], None));
    assert_eq!(routed.evaluate().unwrap().operations, alone.evaluate().unwrap().operations);
    assert!(std::ptr::eq(plan.routing("chucker").unwrap(), &plan) && plan.routing("main").is_none());
    let names: Vec<_> = plan.routings().iter().map(|one| &*one.name).collect();
    assert_eq!(names, ["light lathe"]);
    // The plan itself is what it would be without them.
    assert_eq!(plan.quote(&[25], None), read(&axle()).quote(&[25], None));
    assert_eq!(plan.evaluate().unwrap().findings, read(&axle()).evaluate().unwrap().findings);
    assert_eq!(plan.routing_named("odd").unwrap_err().faults()[0].kind, FaultKind::NotThere);
}

#[test]
fn routings_are_quoted_side_by_side_and_break_even_where_two_plans_do() {
    let plan = read(&two_ways());
    let compared = plan.compare_routings(Some(25), 300, None).unwrap();
    let [main, light] = &compared.routings[..] else { panic!("{compared:#?}") };
    assert_eq!((&*main.name, &*light.name), ("chucker", "light lathe"));
    for (line, plan) in [(main, &plan), (light, &plan.routings()[0].plan)] {
        let quote = &plan.quote(&[25], None).unwrap().quotes[0];
        assert_eq!((line.total, line.price_each, line.hours), (quote.total, quote.price_each, quote.hours));
        assert_eq!((line.start_quantity, line.errors, line.operations), (quote.start_quantity, 0, 10));
        assert_eq!(line.minutes_per_part, plan.evaluate().unwrap().minutes_per_part);
    }
    let two = plan.break_even(&plan.routings()[0].plan, 300, None).unwrap();
    // Where both cost the same the first counts.
    let name = |cheaper| if cheaper == CheaperRoute::Second { "light lathe" } else { "chucker" };
    for stretch in &two.stretches {
        let own = compared.stretches.iter().find(|one| one.to_quantity >= stretch.from_quantity).unwrap();
        assert!(own.from_quantity <= stretch.from_quantity && stretch.to_quantity <= own.to_quantity);
        assert_eq!(own.cheapest, name(stretch.cheaper));
    }
    assert_eq!(compared.stretches.len(), 2);
    assert_eq!(compared.stretches[0].cheapest, "light lathe");
    assert_eq!(compared.stretches.last().unwrap().cheapest, "chucker");
    // Without a quantity it is that of the plan, 250.
    let own = plan.compare_routings(None, 1, None).unwrap();
    assert_eq!((own.quantity, own.cheapest.as_deref(), own.stretches.len()), (250, Some("chucker"), 1));
    // A plan of one routing is compared with nothing.
    let one = read(&axle()).compare_routings(Some(3), 5, None).unwrap();
    assert_eq!((one.routings.len(), one.cheapest.as_deref()), (1, Some("main")));
    for up_to in [0, 100_001] {
        assert!(plan.compare_routings(None, up_to, None).unwrap_err().to_string().contains("100000"));
    }
}

#[test]
fn a_routing_with_errors_is_never_the_cheapest() {
    let mut document = two_ways();
    document["routings"][0]["operations"][4]["depth"] = json!(3);
    let compared = read(&document).compare_routings(Some(1), 10, None).unwrap();
    assert!(
        compared.routings[1].errors > 0
            && compared.routings[1].total.minor() < compared.routings[0].total.minor()
    );
    assert_eq!(compared.cheapest.as_deref(), Some("chucker"));
    assert!(compared.stretches.iter().all(|one| one.cheapest == "chucker"));
    document["operations"][4]["depth"] = json!(3);
    let compared = read(&document).compare_routings(Some(1), 10, None).unwrap();
    assert!(compared.cheapest.is_none() && compared.stretches.is_empty());
}

#[test]
fn faults_of_a_routing_have_their_places_in_it() {
    let mut document = two_ways();
    let operations = &mut document["routings"][0]["operations"];
    operations[4]["depth"] = json!(-1);
    operations[5]["kind"] = json!("dril");
    operations[9]["checks"] = json!([99]);
    refused(&document, FaultKind::OutOfRange, "/routings/0/operations/4/depth");
    let message = refused(&document, FaultKind::Unknown, "/routings/0/operations/5/kind");
    assert!(message.contains("`drill`"), "{message}");
    refused(&document, FaultKind::NotThere, "/routings/0/operations/9/checks/0");
    // A fault of the whole plan is told once.
    document["part"]["quantity"] = json!(0);
    let error = Plan::from_json(&document.to_string()).unwrap_err();
    assert_eq!(
        error.faults().iter().filter(|one| one.place.ends_with("/part/quantity")).count(),
        1,
        "{error}"
    );

    let mut document = two_ways();
    document["routings"][0]["operations"] = json!({});
    refused(&document, FaultKind::WrongType, "/routings/0/operations");
    document["routings"][0] = json!({"name": "a", "operation": []});
    refused(&document, FaultKind::Unknown, "/routings/0/operation");
    refused(&document, FaultKind::Missing, "/routings/0/operations");

    let mut document = two_ways();
    document["routings"][0]["name"] = json!("chucker");
    refused(&document, FaultKind::Conflict, "/routings");
    let one = two_ways()["routings"][0].clone();
    document["routings"] = vec![one; 9].into();
    refused(&document, FaultKind::Conflict, "/routings");

    // A machine that the rates do not know is told where the routing names it.
    let mut document = two_ways();
    document["routings"][0]["operations"][4]["machine"] = json!("no such machine");
    let error = read(&document).compare_routings(None, 1, None).unwrap_err();
    assert_eq!(error.faults()[0].place, "/routings/0/operations/4/machine");
}

#[test]
fn what_a_routing_leaves_out_is_proposed_and_written_out() {
    let mut document = two_ways();
    let turn = document["routings"][0]["operations"][4].as_object_mut().unwrap();
    turn.remove("tool");
    turn.remove("spindle_speed");
    let plan = read(&document);
    assert!(plan.assumptions().is_empty());
    let routed = plan.routing("light lathe").unwrap();
    assert!(routed.assumptions().iter().any(|one| one.place == "/operations/4/spindle_speed"));
    let whole = Plan::from_json(plan.completed_json()).unwrap();
    assert!(whole.routings()[0].plan.assumptions().is_empty());
    assert_eq!(whole.routings()[0].plan.document(), routed.document());
    assert_eq!(plan.to_json(), document.to_string());
    let errors =
        routed.evaluate().unwrap().findings.iter().filter(|one| one.severity == Severity::Error).count();
    assert_eq!(errors, 0);
}

#[test]
fn a_plan_with_routings_is_propagated_as_without() {
    let (with, without) = (read(&two_ways()), read(&axle()));
    let request = r#"{"count": 30, "varying": [{"place": "/operations/0/surface_speed", "limits": "65 ±5 m/min"}],
                      "outputs": ["/minutes_per_part"]}"#;
    assert_eq!(
        with.propagate_json(request).unwrap().outputs,
        without.propagate_json(request).unwrap().outputs
    );
}
