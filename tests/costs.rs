//! Rows of published and worked cost cases that are no single formula: rounding, splits, pieces to start, prices by quantity.
use serde_json::Value;
use tenths::cost::{
    DiscountScheme, PriceTier, StartRule, discounted_order, quantity_breaks, start_quantities,
};
use tenths::money::{Amount, Rounding, split_amount};
use tenths::object::Choice;

fn rows(topic: &str) -> Vec<Value> {
    let rows = include_str!("data/cost_rows.jsonl").lines();
    let rows = rows.map(|line| serde_json::from_str::<Value>(line).unwrap());
    rows.filter(|row| row["topic"] == topic).collect()
}

fn texts(list: &Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|text| text.as_str().unwrap()).collect()
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn close(got: f64, expected: &Value) {
    let expected = expected.as_f64().unwrap();
    assert!((got - expected).abs() <= 1e-9 * expected.abs(), "{got} {expected}");
}

#[test]
fn amounts_are_rounded_and_split_as_published() {
    let mut count = 0;
    for row in rows("money_rounding") {
        let (given, expected) = (&row["given"], &row["expected"]);
        count += 1;
        if let Some(total) = given["total"].as_str() {
            let weights: Vec<f64> =
                texts(&given["weights"]).iter().map(|text| text.parse().unwrap()).collect();
            let parts = split_amount(Amount::parse(total).unwrap(), &weights).unwrap();
            assert_eq!(parts.iter().map(Amount::to_string).collect::<Vec<_>>(), texts(&expected["parts"]));
            continue;
        }
        let decimals = u8::try_from(given["decimals"].as_u64().unwrap_or(2)).unwrap();
        for rounding in Rounding::ALL {
            let name = Rounding::NAMES[rounding.place()];
            let amounts = if given["amounts"].is_null() { &given["line_amounts"] } else { &given["amounts"] };
            let rounded =
                texts(amounts).into_iter().map(|text| Amount::round(text, decimals, rounding).unwrap());
            let rounded: Vec<Amount> = rounded.collect();
            let wanted =
                if expected[name]["lines"].is_null() { &expected[name] } else { &expected[name]["lines"] };
            // Nothing below zero is nothing, without a sign.
            assert_eq!(rounded.iter().map(Amount::to_string).collect::<Vec<_>>(), texts(wanted), "{name}");
            if let Some(sum) = expected[name]["sum_of_rounded_lines"].as_str() {
                let minor = rounded.iter().map(|amount| amount.minor()).sum();
                assert_eq!(Amount::new(minor, decimals).unwrap().to_string(), sum);
            }
        }
    }
    assert_eq!(count, 5);
}

#[test]
fn pieces_start_as_published() {
    let mut count = 0;
    for row in rows("unit_cost").iter().chain(&rows("yield")) {
        let (given, expected) = (&row["given"], &row["expected"]);
        let good =
            [&given["good_quantity"], &given["required_good"]].into_iter().find_map(Value::as_u64).unwrap();
        let scrap = match (&given["operations"], &given["scrap_rates"]) {
            (Value::Array(operations), _) => {
                operations.iter().map(|one| one["scrap_fraction"].as_f64().unwrap()).collect()
            }
            (_, Value::Array(_)) => numbers(&given["scrap_rates"]),
            _ => numbers(&given["scrap_fraction_per_operation"]),
        };
        let chain = |rule| start_quantities(good, &scrap, rule).unwrap();
        let (each, rolled) = (chain(StartRule::EachOperation), chain(StartRule::Rolled));
        for (key, got) in [("start_exact_rolled", each.rolled), ("start_quantity_exact", each.rolled)] {
            if !expected[key].is_null() {
                close(got, &expected[key]);
            }
        }
        for key in ["start_rolled_then_ceil", "start_quantity_integer"] {
            assert!(expected[key].is_null() || expected[key] == rolled.start_quantity, "{key}");
        }
        if !expected["starts_per_operation"].is_null() {
            assert_eq!(expected["starts_per_operation"], serde_json::json!(each.starts));
        }
        count += 1;
    }
    assert_eq!(count, 5);
}

fn tiers(given: &Value, price: &str) -> Vec<PriceTier> {
    let tier = |tier: &Value| PriceTier {
        from_quantity: tier["from_qty"].as_u64().unwrap(),
        price: tier[price].as_f64().unwrap(),
    };
    given["tiers"].as_array().unwrap().iter().map(tier).collect()
}

#[test]
fn orders_at_prices_by_quantity_are_as_published() {
    let mut count = 0;
    for row in rows("lot_and_price").iter().filter(|row| !row["given"]["annual_demand"].is_null()) {
        let (given, expected) = (&row["given"], &row["expected"]);
        let scheme = if expected["feasible"].is_null() {
            DiscountScheme::AllUnits
        } else {
            DiscountScheme::Incremental
        };
        let figure = |name: &str| given[name].as_f64().unwrap();
        let (demand, order, share) =
            (figure("annual_demand"), figure("order_cost"), figure("holding_fraction_of_price_per_year"));
        let made = discounted_order(demand, order, share, &tiers(given, "price"), scheme).unwrap();
        close(made.quantity, &expected["order_quantity"]);
        close(made.annual_cost, &expected["annual_cost"]);
        for (at, tier) in made.tiers.iter().enumerate() {
            close(tier.economic, &expected["eoq_per_tier"][at]);
            close(tier.annual_cost, &expected["annual_cost_per_tier"][at]);
            if scheme == DiscountScheme::AllUnits {
                close(tier.quantity, &expected["best_integer_quantity_per_tier"][at]);
            } else {
                assert_eq!(expected["feasible"][at], tier.within);
            }
        }
        count += 1;
    }
    assert_eq!(count, 3);
}

#[test]
fn quantities_that_nobody_should_order_are_as_published() {
    let rows = rows("lot_and_price");
    let row = rows.iter().find(|row| row["id"] == "quantity-break-dominated").unwrap();
    let judged = quantity_breaks(&tiers(&row["given"], "unit_price")).unwrap();
    let dearer = judged.iter().filter_map(|tier| Some(tier.dearer_from?..=tier.to_quantity?)).flatten();
    assert_eq!(
        row["expected"]["quantities_dearer_than_next_break"],
        serde_json::json!(dearer.collect::<Vec<_>>())
    );
}
