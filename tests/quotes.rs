//! Quotes of plans: the lines, their sum, what depends on which rate, and what is refused.
use serde_json::{Value, json};
use tenths::plan::Rates;
use tenths::plan::quote::{CheaperRoute, PriceList, Quote, QuoteLineKind};
use tenths::{Plan, Units, Watch};

const AXLE: &str = include_str!("../examples/plans/roller_axle.json");
const PIN: &str = include_str!("../examples/plans/jig_rest_pin.json");

fn plan(document: &Value) -> Plan {
    Plan::from_json(&document.to_string()).unwrap()
}

fn document(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

fn list(document: &Value, quantities: &[u64]) -> PriceList {
    plan(document).quote(quantities, None).unwrap()
}

fn refused(document: &Value) -> String {
    match Plan::from_json(&document.to_string()) {
        Ok(plan) => plan.quote(&[10], None).unwrap_err().to_string(),
        Err(error) => error.to_string(),
    }
}

/// The lines by name.
fn lines(quote: &Quote) -> Vec<(String, i64)> {
    quote.lines.iter().map(|line| (line.name.clone(), line.amount.minor())).collect()
}

/// The document with another value at a place, which may be a field that it leaves out.
fn with(mut document: Value, place: &str, value: Value) -> Value {
    let (parent, name) = place.rsplit_once('/').unwrap();
    match document.pointer_mut(parent).unwrap() {
        Value::Array(list) => list[name.parse::<usize>().unwrap()] = value,
        object => object[name] = value,
    }
    document
}

#[test]
fn totals_are_the_sum_of_their_lines() {
    for text in [AXLE, PIN] {
        let quotes = list(&document(text), &[1, 2, 7, 25, 60, 250, 500, 10_000]).quotes;
        for quote in &quotes {
            assert_eq!(lines(quote).iter().map(|line| line.1).sum::<i64>(), quote.total.minor());
            let extended = quote.price_each.minor() * i64::try_from(quote.quantity).unwrap();
            assert_eq!(extended - quote.residue.minor(), quote.total.minor());
            assert!(quote.start_quantity >= quote.quantity && quote.hours > 0.0);
        }
        assert!(quotes.windows(2).all(|two| two[1].price_each.minor() <= two[0].price_each.minor()));
    }
    // Where the price each governs, nothing is left over, and a line tells the rounding.
    let quotes = list(&document(AXLE), &[7, 25]).quotes;
    assert!(quotes.iter().all(|quote| quote.residue.minor() == 0));
    assert!(quotes.iter().all(|quote| quote.lines.last().unwrap().kind == QuoteLineKind::Rounding));
}

/// Which lines another rate changes, those that follow from the sum set aside.
fn changed(place: &str, value: Value) -> Vec<String> {
    use QuoteLineKind::{Admin, Margin, MinimumCharge, Rounding};
    let before = &list(&document(AXLE), &[25]).quotes[0];
    let after = &list(&with(document(AXLE), place, value), &[25]).quotes[0];
    assert_eq!(before.lines.len(), after.lines.len(), "{place}");
    assert_ne!(before.total, after.total, "{place}");
    let pairs = before.lines.iter().zip(&after.lines);
    pairs
        .filter(|(a, b)| a.amount != b.amount && !matches!(a.kind, Admin | Margin | MinimumCharge | Rounding))
        .map(|(line, _)| line.name.clone())
        .collect()
}

#[test]
fn a_rate_changes_only_the_lines_that_depend_on_it() {
    assert_eq!(changed("/rates/machines/0/rate", json!(50)), ["set-up 10, saw", "run 10, saw"]);
    let mill = ["set-up 30, mill flats", "run 30, mill flats", "tool change 30, a 16 mm end mill"];
    assert_eq!(changed("/rates/machines/1/rate", json!(70)), mill);
    assert_eq!(changed("/rates/material/price_per_mass", json!(2.5)), ["material", "remnant kept"]);
    assert_eq!(changed("/rates/material/scrap_price", json!(2)), ["scrap sold"]);
    assert_eq!(changed("/rates/tools/5/price", json!(60)), ["tool 70, a spiral-flute tap"]);
    assert_eq!(changed("/rates/outside/0/minimum", json!(120)), ["outside: zinc plating"]);
    assert_eq!(changed("/rates/order_handling", json!(30)), ["order handling"]);
    assert_eq!(changed("/rates/moves/time", json!(9)), ["moves"]);
    assert!(changed("/rates/admin", json!(0.3)).is_empty());
    assert!(changed("/rates/margin", json!(0.3)).is_empty());
}

#[test]
fn a_price_may_be_given_in_four_ways() {
    let metal = |material: Value| {
        let quote = &list(&with(document(AXLE), "/rates/material", material), &[25]).quotes[0];
        quote.lines[0].amount.to_string()
    };
    // 28 pieces start, 19 come from a bar of 3 m: two bars, by hand.
    assert_eq!(metal(json!({"price_per_bar": 14.35})), "28.70");
    assert_eq!(metal(json!({"price_per_length": "4.1"})), "24.60");
    assert_eq!(metal(json!({"price_each": 1.1})), "30.80");
}

#[test]
fn the_first_piece_is_always_inspected() {
    for (quantity, count) in [(1, 1), (10, 1), (11, 2), (25, 3), (500, 50)] {
        let quote = &list(&document(AXLE), &[quantity]).quotes[0];
        let line = quote.lines.iter().find(|line| line.kind == QuoteLineKind::Inspection).unwrap();
        assert_eq!(line.amount.minor(), count * 3 * 70, "{quantity}");
    }
}

#[test]
fn a_lot_is_never_sold_below_the_minimum_charge() {
    let document = with(document(AXLE), "/rates/minimum_charge", json!(9999.95));
    for quote in list(&document, &[1, 7, 13, 26, 999]).quotes {
        assert!(quote.total.minor() >= 999_995, "{}", quote.total);
        assert!(
            quote.total.minor() < 999_995 + i64::try_from(quote.quantity).unwrap() || quote.quantity == 999
        );
    }
}

#[test]
fn a_quantity_that_costs_more_than_a_greater_one_is_marked() {
    let document = with(document(AXLE), "/rates/minimum_charge", json!(5000));
    let quotes = list(&document, &[3, 9, 10, 11]).quotes;
    let marks: Vec<_> = quotes.iter().map(|quote| (quote.total.minor(), quote.cheaper_at)).collect();
    // 5000 / 3 = 1666.67, times 3 is 5000.01; 5000 / 9 = 555.56, times 9 is 5000.04; 5000 / 10 is 500 even: by hand.
    assert_eq!(marks[..3], [(500_001, Some(10)), (500_004, Some(10)), (500_000, None)]);
}

#[test]
fn what_is_missing_is_named_all_at_once() {
    let mut bare = document(AXLE);
    bare.as_object_mut().unwrap().remove("rates");
    assert!(refused(&bare).contains("/rates: the plan has no rates: give `rates`"), "{}", refused(&bare));
    let poor = with(document(AXLE), "/rates", json!({"currency": "EUR", "machines": []}));
    let text = refused(&poor);
    for missing in [
        "/operations/1: no machine is known for `deburr`",
        "/operations/9: no machine",
        "/rates/material: is missing",
    ] {
        assert!(text.contains(missing), "{missing}: {text}");
    }
    for (place, value, need) in [
        (
            "/rates/operations/0/machine",
            json!("a bandsaw"),
            "no machine is called `a bandsaw`: did you mean `a band saw`?",
        ),
        (
            "/rates/operations/0/kinds/0",
            json!("turning"),
            "no kind of operation is called `turning`; expected `saw`",
        ),
        ("/rates/margin", json!(1.2), "must be 0 or greater and less than 1, not 1.2"),
        ("/rates/machines/0/rate", json!(-1), "must be 0 or greater, not -1"),
        ("/rates/machines/0/rate", json!("12 EUR"), "`12 EUR` is not a decimal; expected e.g. `12.50`"),
        ("/rates/operations/1/scrap", json!(1), "must be 0 or greater and less than 1, not 1"),
        ("/rates/material", json!({"price_each": 1, "price_per_bar": 1}), "give one of `price_per_mass`"),
        ("/rates/material", json!({"price_per_bar": 1, "scrap_price": 1}), "give `finished_mass`"),
        (
            "/rates/tools/0",
            json!({"name": "x", "price": 1}),
            "give one of `life`, `life_holes` and `life_pieces`",
        ),
        (
            "/rates/outside/0",
            json!({"name": "x", "price": 1, "price_per_mass": 1}),
            "give one of `price` and",
        ),
        ("/rates/decimals", json!(9), "an amount has 0 to 4 decimals, not 9"),
    ] {
        let text = refused(&with(document(AXLE), place, value));
        assert!(text.contains(need), "{need}: {text}");
    }
}

#[test]
fn rates_of_their_own_stand_in_for_those_of_the_plan() {
    let plan = plan(&document(AXLE));
    let mut rates = document(AXLE)["rates"].clone();
    let same = Rates::from_json(&rates.to_string(), Units::Metric).unwrap();
    assert_eq!(plan.quote(&[25], Some(&same)), plan.quote(&[25], None));
    rates["operations"][0]["machine"] = json!("nowhere");
    let other = Rates::from_json(&rates.to_string(), Units::Metric).unwrap();
    let text = plan.quote(&[25], Some(&other)).unwrap_err().to_string();
    assert!(text.contains("/operations/0/machine: no machine is called `nowhere`"), "{text}");
    let text =
        Rates::from_json("{\"currency\": \"EUR\", \"machine\": []}", Units::Metric).unwrap_err().to_string();
    assert!(text.contains("there is no field `machine` here: did you mean `machines`?"), "{text}");
}

#[test]
fn quantities_that_cannot_be_are_refused() {
    let plan = plan(&document(AXLE));
    let text = |quantities: &[u64]| plan.quote(quantities, None).unwrap_err().to_string();
    assert!(text(&[]).contains("give 1 to 10000 quantities, not 0"));
    assert!(text(&[5, 0]).contains("a quantity must be 1 to 1000000000 pieces, not 0"));
    // Scrap may start more pieces than are counted.
    assert!(text(&[1_000_000_000]).contains("too large"), "{}", text(&[1_000_000_000]));
}

#[test]
fn what_is_not_in_the_price_is_found() {
    let mut document = document(AXLE);
    document["rates"]["tools"].as_array_mut().unwrap().remove(4);
    document["bar"]["bar_length"] = json!("3000 mm");
    let quoted = list(&document, &[25]);
    let codes: Vec<_> = quoted.findings.iter().map(|one| (one.code, one.place.as_str())).collect();
    assert_eq!(codes, [("tool_not_priced", "/operations/5")]);
    document["operations"][4]["motor_power"] = json!(0.01);
    assert_eq!(list(&document, &[25]).findings[0].code, "quoted_with_errors");
}

/// The axle where a lot costs so much once and so much for each piece, and nothing else.
fn straight(once: f64, each: f64) -> Value {
    let kinds = ["saw", "deburr", "mill_flats", "knurl", "turn", "drill", "tap", "press", "inspect"];
    let rates = json!({
        "currency": "EUR", "price_governs": "lot", "order_handling": once, "material": {"price_each": each},
        "machines": [{"name": "a band saw", "rate": 0}], "operations": [{"kinds": kinds, "machine": "a band saw"}]
    });
    with(with(document(AXLE), "/operations/0/scrap", json!(0)), "/rates", rates)
}

// 62 + 9.35 q and 415 + 6.90 q meet at 353 / 2.45 = 144.08; 40 + 5.50 q and 220 + 4 q both cost 700 at 120: by hand.
#[test]
fn two_routings_break_even() {
    let compared = |a: Value, b: Value| plan(&a).break_even(&plan(&b), 1000, None).unwrap();
    let made = compared(straight(62.0, 9.35), straight(415.0, 6.9));
    assert_eq!((made.second_from, made.stretches.len()), (Some(145), 2));
    let tie = compared(straight(40.0, 5.5), straight(220.0, 4.0));
    let stretches: Vec<_> = tie.stretches.iter().map(|one| (one.from_quantity, one.to_quantity)).collect();
    assert_eq!((tie.second_from, stretches), (Some(121), vec![(1, 119), (120, 120), (121, 1000)]));
    assert_eq!(tie.stretches[1].cheaper, CheaperRoute::Neither);
    assert_eq!(compared(straight(1.0, 1.0), straight(2.0, 2.0)).second_from, None);
    let text = plan(&straight(1.0, 1.0)).break_even(&plan(&document(AXLE)), 0, None).unwrap_err().to_string();
    assert!(
        text.contains("/up_to: routings can be compared up to any quantity from 1 to 100000 pieces, not 0"),
        "{text}"
    );
}

// 62 + 100 · 9.35 = 997; a tenth of the price of a blank either way is 2 · 93.50, of the handling 2 · 6.20: by hand.
#[test]
fn what_moves_the_price_most_comes_first() {
    let made = plan(&straight(62.0, 9.35)).price_drivers(100, 0.1, None).unwrap();
    let told: Vec<_> =
        made.drivers.iter().take(3).map(|one| (one.place.as_str(), one.swing.minor())).collect();
    assert_eq!(told, [("/material/price_each", 18_700), ("/order_handling", 1240), ("/machines/0/rate", 0)]);
    assert_eq!(
        (made.total.minor(), made.drivers[0].low.minor(), made.drivers[0].high.minor()),
        (99_700, 90_350, 109_050)
    );
    let axle = plan(&document(AXLE));
    let drivers = axle.price_drivers(25, 0.1, None).unwrap().drivers;
    assert!(drivers.windows(2).all(|two| two[0].swing.minor() >= two[1].swing.minor()));
    for change in [0.0, 0.6, f64::NAN] {
        assert!(
            axle.price_drivers(25, change, None)
                .unwrap_err()
                .to_string()
                .contains("/change: a change must be")
        );
    }
}

// √(2 · 730 · 17 / (0.2 · 500)) = 15.75, and 16 costs less than 15: the case eoq-integer-rule of the published lots.
#[test]
fn the_economic_lot_is_whole() {
    let made = plan(&straight(17.0, 500.0)).economic_lot(730, 0.2, None).unwrap();
    assert_eq!((made.quantity, made.lot_cost.minor(), made.cost_each.minor()), (16, 1700, 50_000));
    assert_eq!(made.lots, 45.625);
    let text = plan(&document(AXLE)).economic_lot(730, 0.0, None).unwrap_err().to_string();
    assert!(text.contains("/holding_share: "), "{text}");
}

#[test]
fn pieces_start_as_the_rule_says() {
    let starts = |rule: &str| {
        let mut document = document(AXLE);
        document["rates"]["starts"] = json!(rule);
        list(&document, &[1, 25, 500]).quotes.iter().map(|quote| quote.start_quantity).collect::<Vec<_>>()
    };
    // Scrap of 2, 1 and 1 percent: 1 → 2 → 3 → 4, 25 → 26 → 27 → 28, 500 → 511 → 517 → 523; once 1.041, 26.03, 520.6: by hand.
    assert_eq!(starts("each_operation"), [4, 28, 523]);
    assert_eq!(starts("rolled"), [2, 27, 521]);
}

/// What pressing on costs for 8 pieces, where its time falls: 0.6 min on the bench at 42 an hour, and nothing is scrapped
/// from there on.
fn pressing(learning: Value) -> (String, String) {
    let learnt = with(document(AXLE), "/rates/learning", json!([learning]));
    let quote = &list(&learnt, &[8]).quotes[0];
    let line = quote.lines.iter().find(|line| line.name == "run 90, press").unwrap();
    (line.amount.to_string(), line.basis.clone())
}

#[test]
fn running_time_falls_by_the_model_that_is_named() {
    // By hand. n^(log2 0.8) for n = 1 to 8: 1, 0.8, 0.7021, 0.64, 0.5956, 0.5617, 0.5345, 0.512, in all 5.3459.
    let unit = |more: Value| {
        let mut entry = json!({"kinds": ["press"], "model": "unit", "rate": 0.8});
        entry.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        entry
    };
    // 5.3459 · 0.6 min at 0.70 a minute.
    let (amount, basis) = pressing(unit(json!({})));
    assert_eq!(amount, "2.25");
    assert_eq!(
        basis,
        "8 pieces of 0.4009 min on average, learning by unit at 80 percent, on bench at 42 an hour"
    );
    // The mean of eight pieces is 0.512 of the first: 8 · 0.512 · 0.6 · 0.70.
    let (amount, basis) = pressing(unit(json!({"model": "cumulative_average"})));
    assert_eq!(amount, "1.72");
    assert!(basis.contains("learning by cumulative average at 80 percent"), "{basis}");
    // The eighth piece takes 0.6 min, so the first takes 0.6 / 0.512.
    assert_eq!(pressing(unit(json!({"planned_piece": 8}))).0, "4.39");
    // Pieces 2 to 9, of which the ninth takes 0.7021²: 5.3459 - 1 + 0.4929 = 4.8389.
    assert_eq!(pressing(unit(json!({"made_before": 1}))).0, "2.03");
    assert_eq!(pressing(unit(json!({"rate": 1}))).0, "3.36");
    // By number; the first entry counts.
    assert_eq!(pressing(unit(json!({"kinds": [], "operations": [90]}))).0, "2.25");
    let two = json!([unit(json!({"kinds": ["saw"]})), unit(json!({})), unit(json!({"rate": 0.5}))]);
    let quote = &list(&with(document(AXLE), "/rates/learning", two), &[8]).quotes[0];
    assert!(quote.lines.iter().any(|line| line.name == "run 90, press" && line.amount.to_string() == "2.25"));
    assert_eq!(quote.lines.iter().map(|line| line.amount.minor()).sum::<i64>(), quote.total.minor());
}

#[test]
fn learning_that_cannot_be_is_refused() {
    let learning = |entry: Value| refused(&with(document(AXLE), "/rates/learning", json!([entry])));
    for (entry, words) in [
        (json!({"model": "unit", "rate": 0.9}), "/rates/learning/0/kinds: names no operation"),
        (json!({"kinds": ["press"], "model": "unit", "rate": 90}), "0.9 for 90 percent, not 90"),
        (json!({"kinds": ["press"], "model": "unit", "rate": 0.4}), "must be 0.5 to 1"),
        (json!({"kinds": ["press"], "rate": 0.9}), "/rates/learning/0/model: is missing"),
        (json!({"kinds": ["press"], "model": "wright", "rate": 0.9}), "`cumulative_average`"),
        (json!({"kinds": ["pres"], "model": "unit", "rate": 0.9}), "did you mean `press`"),
        (json!({"kinds": ["wash"], "model": "unit", "rate": 0.9}), "remove it from `learning`"),
        (
            json!({"operations": [91], "model": "unit", "rate": 0.9}),
            "/rates/learning/0/operations/0: no operation has",
        ),
        (json!({"kinds": ["press"], "model": "unit", "rate": 0.9, "planned_piece": 0}), "planned_piece"),
        (
            json!({"kinds": ["press"], "model": "unit", "rate": 0.9, "made_before": 4_000_000_000_u32}),
            "at most 100000000",
        ),
    ] {
        let error = learning(entry);
        assert!(error.contains(words), "{words} is not in {error}");
    }
}

/// Varies the rate of the lathe by a tenth and the time of inspection by a third.
const VARYING: &str = r#"{"count": 300, "seed": 7, "varying": [
    {"place": "/rates/machines/2/rate", "limits": "64.5 ±6.45", "distribution": "uniform"},
    {"place": "/operations/9/time", "nominal": 3, "plus": 1, "minus": -1, "distribution": "uniform"}]}"#;

#[test]
fn the_range_of_a_price_is_that_of_its_samples() {
    let axle = plan(&document(AXLE));
    let range = |request: &str| axle.price_range_json_watched(25, request, &Watch::new()).unwrap();
    let found = range(VARYING);
    let total = |rate: f64, time: f64| {
        let edited = with(document(AXLE), "/rates/machines/2/rate", json!(rate));
        list(&with(edited, "/operations/9/time", json!(time)), &[25]).quotes[0].total
    };
    assert_eq!((found.planned, found.quantity, found.count, found.unpriced), (total(64.5, 3.0), 25, 300, 0));
    // Both ends of both, which a uniform sample comes near to and never passes.
    let (least, most) = (total(58.05, 2.0), total(70.95, 4.0));
    let ends = [least, found.minimum, found.planned, found.maximum, most].map(|one| one.minor());
    assert!(
        ends.is_sorted() && found.minimum.minor() - least.minor() < (most.minor() - least.minor()) / 8,
        "{ends:?}"
    );
    let percents: Vec<_> = found.percentiles.iter().map(|one| one.percent).collect();
    assert_eq!(percents, [5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0]);
    let totals: Vec<_> = found.percentiles.iter().map(|one| one.total.minor()).collect();
    assert!(totals.is_sorted() && totals[0] > found.minimum.minor() && totals[6] < found.maximum.minor());
    // A sum of two uniform variates is symmetric about the plan; 0.5 ± 4 · √(0.25 / 300).
    assert!((found.above_planned - 0.5).abs() < 0.116, "{}", found.above_planned);
    // Of uniform variates the standard deviation is half the width over √3, and variances add.
    let half = |ends: [tenths::money::Amount; 2]| (ends[1].to_f64() - ends[0].to_f64()) / 2.0;
    let parts = [half([total(58.05, 3.0), total(70.95, 3.0)]), half([total(64.5, 2.0), total(64.5, 4.0)])];
    let sigma = ((parts[0] * parts[0] + parts[1] * parts[1]) / 3.0).sqrt();
    assert!((found.sigma.unwrap().to_f64() / sigma - 1.0).abs() < 0.13, "{found:?} {sigma}");
    // The same seed gives the same bits on any number of threads, another one others.
    assert_eq!(range(&VARYING.replace("\"seed\": 7", "\"seed\": 7, \"threads\": 3")), found);
    assert_ne!(range(&VARYING.replace("\"seed\": 7", "\"seed\": 8")).mean, found.mean);
}

#[test]
fn figures_of_the_quote_are_propagated() {
    let axle = plan(&document(AXLE));
    let request =
        VARYING.replacen('{', r#"{"outputs": ["/quote/total", "/quote/price_each", "/quote/hours"], "#, 1);
    let told = axle.propagate_json(&request).unwrap().outputs;
    // Of 250 pieces the first is inspected and 24 after it, each for 2 to 4 minutes.
    let spread = |at: usize| told[at].spread.clone().unwrap();
    assert!((spread(2).maximum - spread(2).minimum - 50.0 / 60.0).abs() < 0.03, "{:?}", spread(2));
    assert!((spread(0).mean / spread(1).mean - 250.0).abs() < 1e-6);
}

#[test]
fn a_range_without_a_price_is_refused() {
    let range = |document: Value, request: &str| {
        plan(&document).price_range_json_watched(25, request, &Watch::new()).unwrap_err().to_string()
    };
    let mut unpriced = document(AXLE);
    unpriced.as_object_mut().unwrap().remove("rates");
    assert!(range(unpriced, VARYING).contains("the plan has no rates"));
    let odd = |place: &str| range(document(AXLE), &VARYING.replace("/rates/machines/2/rate", place));
    assert!(odd("/rates/machines/9/rate").contains("there is nothing at"));
    assert!(odd("/rates/currency").contains("is not a number that can vary"));
    let outputs = VARYING.replacen('{', r#"{"outputs": ["/quote/total"], "#, 1);
    assert!(range(document(AXLE), &outputs).contains("remove `outputs`"));
    // Every sample is beyond the rates' own rules.
    let negative = VARYING.replace("64.5 ±6.45", "-64.5 ±6.45");
    assert!(range(document(AXLE), &negative).contains("none of the samples"));
}
