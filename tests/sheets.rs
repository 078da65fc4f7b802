//! Sheets to work from: what each kind shows, that no text of a plan harms a page, and that a sheet reads back as it was written.
use serde_json::Value;
use std::collections::BTreeSet;
use tenths::plan::{Sheet, SheetError};
use tenths::{FindingCode, Plan, SheetKind};

const DEMOS: [&str; 3] = [
    include_str!("../examples/plans/roller_axle.json"),
    include_str!("../examples/plans/jig_rest_pin.json"),
    include_str!("../examples/plans/belt_spindle.json"),
];

fn sheet(plan: &str) -> Sheet {
    Plan::from_json(plan).unwrap().evaluate().unwrap()
}

/// A demo in which everything that has a name is called so; machines are told apart by a digit before it.
fn named(plan: &str, name: &str) -> Sheet {
    fn rename(value: &mut Value, name: &str) {
        match value {
            Value::Object(fields) => fields.iter_mut().for_each(|(field, value)| {
                let is_text = value.is_string();
                match field.as_str() {
                    "name" | "number" | "inspection" | "finish" | "coolant" | "reason" | "agent"
                        if is_text =>
                    {
                        *value = name.into()
                    }
                    "tool" if is_text => *value = name.into(),
                    _ => rename(value, name),
                }
            }),
            Value::Array(list) => list.iter_mut().for_each(|one| rename(one, name)),
            _ => {}
        }
    }
    let mut plan: Value = serde_json::from_str(plan).unwrap();
    plan["part"]["number"] = "n".into();
    let mut rates = plan["rates"].take();
    rename(&mut plan, name);
    let mut machines = rates["machines"].take();
    for (place, machine) in machines.as_array_mut().unwrap().iter_mut().enumerate() {
        let new = Value::from(format!("{place}{name}"));
        for list in [&mut rates["operations"], &mut plan["operations"]] {
            let users = list.as_array_mut().unwrap().iter_mut();
            for user in users.filter(|user| user.get("machine") == Some(&machine["name"])) {
                user["machine"] = new.clone();
            }
        }
        machine["name"] = new;
    }
    rename(&mut rates, name);
    let tools = std::mem::take(rates["tools"].as_array_mut().unwrap());
    rates["tools"] = tools.into_iter().take(1).collect();
    rates["machines"] = machines;
    plan["rates"] = rates;
    sheet(&plan.to_string())
}

#[test]
fn a_sheet_reads_back_equal() {
    for demo in DEMOS {
        let written = sheet(demo);
        let json = written.to_json();
        let read = Sheet::from_json(&json).unwrap();
        assert!(read == written);
        assert_eq!(read.to_json(), json);
        for kind in SheetKind::ALL {
            assert_eq!(read.to_html(kind).unwrap(), written.to_html(kind).unwrap());
        }
    }
    // Names of any length and kind pass through text and back.
    for name in ["\u{1b}|<\"'&\u{202e}\r\n", &"long ".repeat(190), "\u{1f529}"] {
        let written = named(DEMOS[0], name);
        assert!(Sheet::from_json(&written.to_json()).unwrap() == written, "{name}");
    }
}

#[test]
fn each_edit_of_a_written_sheet_is_refused_at_its_place() {
    let json: Value = serde_json::from_str(&sheet(DEMOS[0]).to_json()).unwrap();
    type Edit = fn(&mut Value);
    let cases: [(Edit, &str); 12] = [
        (|sheet| sheet["tenths_sheet"] = 2.into(), "/tenths_sheet"),
        (|sheet| sheet["units"] = "cubits".into(), "/units"),
        (|sheet| sheet["quantity"] = 2.5.into(), "/quantity"),
        (|sheet| sheet["part"] = Value::Null, "/part"),
        (|sheet| sheet["colour"] = 1.into(), "/colour"),
        (|sheet| sheet["bar"]["bars"] = (-1).into(), "/bar/bars"),
        (|sheet| sheet["bar"]["bars"] = 1.5.into(), "/bar/bars"),
        (|sheet| sheet["findings"][0]["code"] = "made_up".into(), "/findings/0/code"),
        (|sheet| sheet["findings"][0]["severity"] = "fatal".into(), "/findings/0/severity"),
        (|sheet| sheet["operations"][0]["figures"] = 3.into(), "/operations/0/figures"),
        (
            |sheet| sheet["operations"][0]["figures"]["kerf"]["name"] = "slit".into(),
            "/operations/0/figures/kerf",
        ),
        (
            |sheet| sheet["operations"][0]["figures"]["kerf"]["value"] = "wide".into(),
            "/operations/0/figures/kerf/value",
        ),
    ];
    for (edit, place) in cases {
        let mut edited = json.clone();
        edit(&mut edited);
        let error = Sheet::from_json(&edited.to_string()).unwrap_err();
        assert!(error.faults().iter().any(|fault| fault.place == place), "{place}: {error}");
    }
    let twice = r#"{"kerf": {}, "kerf": {}}"#;
    assert!(Sheet::from_json(&format!(r#"{{"operations": [{{"figures": {twice}}}]}}"#)).is_err());
    assert!(Sheet::from_json("").unwrap_err().to_string().contains("not JSON"));
}

#[test]
fn figures_stand_under_their_keys_with_units_and_whole_counts() {
    for demo in DEMOS {
        let written = sheet(demo);
        let json: Value = serde_json::from_str(&written.to_json()).unwrap();
        for (operation, data) in written.operations.iter().zip(json["operations"].as_array().unwrap()) {
            assert!(data["number"].is_u64() && data["kind"].is_string());
            let keys: BTreeSet<String> = operation.figures.iter().map(|figure| figure.key()).collect();
            assert_eq!(keys.len(), operation.figures.len(), "{keys:?}");
            for (key, figure) in data["figures"].as_object().unwrap() {
                assert!(
                    key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_'),
                    "{key}"
                );
                let is_number = if figure["count"] == true { Value::is_u64 } else { Value::is_number };
                assert!(is_number(&figure["value"]) && figure["unit"].is_string(), "{key}: {figure}");
            }
        }
        assert!(json["bar"]["parts_per_bar"].is_u64() && json["bar"]["bars"].is_u64());
    }
    let json: Value = serde_json::from_str(&sheet(DEMOS[0]).to_json()).unwrap();
    let turn = &json["operations"][4];
    assert_eq!(turn["kind"], "turn");
    assert_eq!(turn["figures"]["spindle_speed"]["value"], 1800.0);
    assert_eq!(turn["figures"]["spindle_speed"]["unit"], "rev/min");
    assert_eq!(turn["figures"]["passes"]["value"], 2);
    assert_eq!(turn["figures"]["spindle_speed"]["set"], true);
    assert_eq!(turn["figures"]["cutting_force"]["set"], false);
}

#[test]
fn cards_say_what_to_set_to_hold_and_to_gauge() {
    let text = sheet(DEMOS[0]).to_markdown(SheetKind::Cards).unwrap();
    let card = text.split("\n## ").find(|card| card.contains("Turn in 2 passes")).unwrap();
    for shown in [
        "**Tool:** a carbide insert.",
        "chuck, clamping force 18000 N",
        "| spindle speed",
        "| 1800 ",
        "rev/min",
        "feed per revolution",
        "depth of a pass",
        "passes",
        "16 +0/-0.1 mm".split(' ').next().unwrap(),
        "15.9..16 mm",
        "3.2 µm",
        "micrometer",
        "marked on the chuck",
    ] {
        assert!(card.contains(shown), "{shown}: {card}");
    }
    let mill = text.split("\n## ").find(|card| card.contains("Mill 2 flats")).unwrap();
    for shown in ["clamp screw tightened to 15 N·m", "chip load", "length gauge", "preload scatters"] {
        assert!(mill.contains(shown), "{shown}: {mill}");
    }
    // Cautions stand only where the harm is.
    assert!(!mill.contains("marked on the chuck") && !card.contains("preload scatters"));
    // 0.157080 min and 4.341538 min as a shop reads them.
    assert!(text.contains("9.4 s"), "{text}");
    let process = sheet(DEMOS[0]).to_markdown(SheetKind::Process).unwrap();
    assert!(process.contains("All operations: 4 min 20 s a part."), "{process}");
}

#[test]
fn lists_name_tools_cuts_and_gauges() {
    let axle = sheet(DEMOS[0]);
    let tools = axle.to_markdown(SheetKind::Tools).unwrap();
    // 0.0777778 min in the cut for each of 250: 19.44 min.
    let insert = tools.lines().find(|line| line.contains("a carbide insert")).unwrap();
    assert!(insert.contains("| 4.7 s ") && insert.contains("| 19 min 27 s "), "{insert}");
    // An insert of 4 edges of 15 min: 0.0777778 / 15 of an edge a part, 1.3 for 250.
    assert!(insert.contains("| 15 min, by the rates") && insert.contains("| 0.005185"), "{insert}");
    let line = axle.tools.iter().find(|tool| tool.name == "a carbide insert").unwrap();
    assert_eq!((line.edges, line.tools), (Some(2), Some(1)));
    // A drill of 200 holes: 250 holes are 2 drills.
    let drill = axle.tools.iter().find(|tool| tool.name == "a 5 mm drill").unwrap();
    assert_eq!((drill.edges_per_part, drill.edges, drill.tools), (Some(0.005), Some(2), Some(2)));
    let cuts = axle.to_markdown(SheetKind::CutList).unwrap();
    for (what, value) in [
        ("pieces to cut", "250"),
        ("bars", "14"),
        ("pieces from a bar", "19"),
        ("width of the cut", "1.6 mm"),
    ] {
        let row = cuts.lines().find(|line| line.starts_with(&format!("| {what} "))).unwrap();
        assert!(row.contains(&format!("| {value} ")), "{row}");
    }
    let gauges = axle.to_markdown(SheetKind::Gauges).unwrap();
    assert!(gauges.contains("16.99492..17 mm") && gauges.contains("micrometer over the crests"), "{gauges}");
    let form = axle.to_markdown(SheetKind::FirstArticle).unwrap();
    assert!(form.contains("Inspected by:") && form.contains("axle diameter, roughness Ra"), "{form}");
}

#[test]
fn a_tool_without_a_stated_life_has_one_of_taylor_or_a_blank() {
    let mut plan: Value = serde_json::from_str(DEMOS[0]).unwrap();
    plan.as_object_mut().unwrap().remove("rates");
    let sheet = sheet(&plan.to_string());
    let tool = |name: &str| sheet.tools.iter().find(|tool| tool.name == name).unwrap();
    // 20 mm at 1800 rev/min are 113.097 m/min. SAE 1045 starts carbide at 100 m/min with n = 0.25, an edge then lasting 15 min: at
    // this speed 15 · (100 / 113.097)^4 = 9.168 min, of which a part takes 0.0777778 min: 2.1 edges for 250. Worked by hand from the
    // table of materials.
    let insert = tool("a carbide insert");
    assert!((insert.edges_per_part.unwrap() - 0.0777777778 / 9.168).abs() < 1e-6, "{insert:?}");
    assert!(insert.life.as_ref().unwrap().contains("an estimate: Taylor's law"), "{insert:?}");
    assert_eq!((insert.edges, insert.tools), (Some(3), None));
    // Nothing says what the drill is of, or how long it lasts: the list leaves room to write.
    let drill = tool("a 5 mm drill");
    assert_eq!((drill.life.as_ref(), drill.edges_per_part, drill.edges), (None, None, None));
    let page = sheet.to_markdown(SheetKind::Tools).unwrap();
    assert!(page.contains("Where no life is shown, write in the one"), "{page}");
}

#[test]
fn coolant_stands_on_cards_and_lists_as_the_plan_calls_it() {
    let spindle = sheet(DEMOS[2]);
    let saw = &spindle.operations[0];
    assert_eq!(saw.coolant.as_deref(), Some("emulsion, 8 percent"));
    let card = spindle.to_markdown(SheetKind::Cards).unwrap();
    assert!(card.contains("**Coolant:** emulsion, 8 percent."), "{card}");
    assert!(spindle.to_markdown(SheetKind::Setups).unwrap().contains("| grinding emulsion, 3 percent |"));
    assert!(!sheet(DEMOS[0]).to_markdown(SheetKind::Cards).unwrap().contains("Coolant"), "none is made up");
}

#[test]
fn a_quote_without_rates_says_what_is_missing() {
    let mut plan: Value = serde_json::from_str(DEMOS[0]).unwrap();
    let operations = plan["rates"]["operations"].take();
    plan["rates"]["operations"] = serde_json::json!([operations[0]]);
    let partly = sheet(&plan.to_string());
    let found = partly.findings.iter().find(|finding| finding.code == "not_quoted").unwrap();
    assert!(
        found.place.starts_with("/operations/") && found.message.contains("no machine is known"),
        "{found}"
    );
    let error = partly.to_html(SheetKind::Quote).unwrap_err().to_string();
    assert!(error.contains(&found.place) && error.contains("add it to `operations` of the rates"), "{error}");
    plan.as_object_mut().unwrap().remove("rates");
    let error = sheet(&plan.to_string()).to_html(SheetKind::Quote).unwrap_err();
    assert_eq!(error, SheetError::NoRates);
    assert!(error.to_string().contains("`rates`"), "{error}");
    assert!(SheetKind::parse("card").unwrap_err().to_string().contains("Is it `cards`?"));
    assert!(matches!(sheet(DEMOS[0]).to_format(SheetKind::Cards, "pdf"), Err(SheetError::Format(_))));
}

#[test]
fn changes_between_plans_and_sheets_have_places() {
    let old = DEMOS[0];
    let new = old.replace("\"spindle_speed\": 1800", "\"spindle_speed\": 1700");
    let [old, new] = [old, &new].map(|plan| Plan::from_json(plan).unwrap());
    let [change] = &old.changes(&new)[..] else { panic!("one change") };
    assert_eq!(change.place, "/operations/4/spindle_speed");
    assert_eq!((change.old.clone(), change.new.clone()), (Some(1800.into()), Some(1700.into())));
    assert!(old.changes(&old).is_empty());
    let [old, new] = [old, new].map(|plan| plan.evaluate().unwrap());
    let places: Vec<String> = old.changes(&new).into_iter().map(|change| change.place).collect();
    assert!(places.iter().any(|place| place == "/operations/4/figures/surface_speed/value"), "{places:?}");
    let touched = ["/operations/4/", "/minutes_per_part", "/stamp/sha256", "/quote/", "/tools/"];
    assert!(places.iter().all(|place| touched.iter().any(|start| place.starts_with(start))), "{places:?}");
    assert!(old.changes(&old).is_empty());
}

#[test]
fn a_sheet_has_the_quote_of_the_quantity_of_its_plan() {
    for text in DEMOS {
        let plan = Plan::from_json(text).unwrap();
        let sheet = plan.evaluate().unwrap();
        let list = plan.quote(&[sheet.quantity.into()], None).unwrap();
        let quote = &list.quotes[0];
        let own = sheet.quote.as_ref().unwrap();
        assert_eq!((own.quantity, &own.total), (sheet.quantity.into(), &quote.total.to_string()));
        assert_eq!((own.lines.len(), &own.findings), (quote.lines.len(), &list.findings));
        let page = sheet.to_markdown(SheetKind::Quote).unwrap();
        for shown in own.lines.iter().map(|line| &line.amount).chain([&own.total, &own.price_each]) {
            assert!(page.contains(&**shown), "{shown}: {page}");
        }
    }
    // What is wrong with the quote stands on its page.
    let mut plan: Value = serde_json::from_str(DEMOS[0]).unwrap();
    plan["rates"].as_object_mut().unwrap().remove("tools");
    let page = sheet(&plan.to_string()).to_markdown(SheetKind::Quote).unwrap();
    assert!(page.contains("**Note.**") && page.contains("a 5 mm drill has no price"), "{page}");
}

#[test]
fn a_quote_shows_its_lines_and_their_sum() {
    let mut axle: Value = serde_json::from_str(&sheet(DEMOS[0]).to_json()).unwrap();
    let line = |name: &str, amount: &str| serde_json::json!({"name": name, "operation": 10, "amount": amount, "basis": "1 h at 60"});
    axle["quote"] = serde_json::json!({
        "currency": "EUR", "quantity": 250, "start_quantity": 255, "hours": 20.5, "total": "250.00", "price_each": "1.00",
        "lines": [line("Saw | <b>", "100.00"), line("Material", "150.00")], "findings": [], "cautions": ["A quote is a proposal."],
    });
    let read = Sheet::from_json(&axle.to_string()).unwrap();
    let html = read.to_html(SheetKind::Quote).unwrap();
    for shown in [
        "Saw | &lt;b&gt;",
        "150.00",
        "250 pieces",
        "20 h 30 min",
        "255 are started",
        "Price each",
        "1 h at 60",
    ] {
        assert!(html.contains(shown), "{shown}: {html}");
    }
    assert!(
        read.to_markdown(SheetKind::Quote)
            .unwrap()
            .contains("| 10        | Saw &#124; &#60;b&#62; | 100.00 |")
    );
}

/// The tags of a page in their order; those of a page whose text is escaped are the same whatever the text.
fn tags(html: &str) -> Vec<&str> {
    let body = &html[html.find("</style>").unwrap()..];
    body.split('<').skip(1).map(|piece| piece.split('>').next().unwrap()).collect()
}

#[test]
fn no_text_of_a_plan_harms_a_page() {
    let names = [
        "<script>alert(1)</script>",
        "</style></head><img src=x onerror=alert(1)>",
        "a | b\r\n# c\n\n- d",
        "&lt;b&gt; \" ' &",
        "\u{202e}\u{2028}\u{0}\u{1b}[31m",
        "-->]]>${x}{{x}}",
    ];
    for demo in DEMOS {
        for kind in SheetKind::ALL {
            let expected = named(demo, "PLAIN").to_html(kind).unwrap();
            let lines = named(demo, "PLAIN").to_markdown(kind).unwrap().lines().count();
            for name in names {
                let html = named(demo, name).to_html(kind).unwrap();
                assert_eq!(tags(&html), tags(&expected), "{kind:?} {name}");
                assert!(!html.chars().any(|c| c.is_control() && c != '\n'), "{kind:?} {name}");
                assert!(!html.contains('\u{202e}') && !html.contains('\u{2028}'), "{kind:?} {name}");
                let markdown = named(demo, name).to_markdown(kind).unwrap();
                assert!(!markdown.contains("<script") && !markdown.contains("<img"), "{kind:?}");
                let found = markdown.lines().count();
                assert!(found.abs_diff(lines) <= lines / 4, "{kind:?} {name}: {found} lines for {lines}");
            }
        }
    }
}

#[test]
fn a_page_needs_nothing_else_and_prints() {
    for demo in DEMOS {
        for kind in SheetKind::ALL {
            let html = sheet(demo).to_html(kind).unwrap();
            for address in
                ["http", "://", "www.", "url(", "@import", "src=", "href=", "xmlns", "<script", "<svg"]
            {
                assert!(!html.contains(address), "{kind:?}: {address}");
            }
            for rule in ["@page", "@media print", "break-inside: avoid"] {
                assert!(html.contains(rule), "{kind:?}: {rule}");
            }
            assert!(html.starts_with("<!DOCTYPE html>") && html.contains("<meta charset=\"utf-8\">"));
            assert!(
                html.contains("starting points for a competent person") || kind == SheetKind::FirstArticle
            );
        }
    }
}

#[test]
fn every_finding_has_a_code_of_the_table_at_a_severity_of_it() {
    for demo in DEMOS {
        for finding in sheet(demo).findings {
            let code = FindingCode::named(finding.code).unwrap();
            assert!(code.severities().contains(&finding.severity), "{finding}");
        }
    }
}
