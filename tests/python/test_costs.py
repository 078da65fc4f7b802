"""Rounding, splits, pieces to start, prices by quantity: the same rows as the Rust suite, and whole quotes by a plan."""

import json
import pickle
from decimal import Decimal
from pathlib import Path

import pytest

import tenths

ROOT = Path(__file__).resolve().parents[2]
ROWS = [json.loads(line) for line in (ROOT / "tests/data/cost_rows.jsonl").read_text().splitlines()]


def rows(topic):
    return [pytest.param(row["given"], row["expected"], id=row["id"]) for row in ROWS if row["topic"] == topic]


@pytest.mark.parametrize(("given", "expected"), rows("money_rounding"))
def test_money(given, expected):
    if "weights" in given:
        parts = tenths.split_money(given["total"], [float(weight) for weight in given["weights"]])
        assert [str(part) for part in parts] == expected["parts"] and sum(parts) == Decimal(given["total"])
        return
    amounts = given.get("amounts", given.get("line_amounts"))
    for rule in ("half_even", "half_up"):
        wanted = expected[rule]["lines"] if "lines" in expected[rule] else expected[rule]
        got = [tenths.round_money(amount, given.get("decimals", 2), rule) for amount in amounts]
        assert [str(amount) for amount in got] == wanted
        assert [tenths.round_money(Decimal(amount), given.get("decimals", 2), rule) for amount in amounts] == got


def test_money_that_is_none():
    assert tenths.round_money(3) == Decimal("3.00") and tenths.round_money(Decimal("1E+2"), 0) == 100
    with pytest.raises(TypeError, match="not the float 2.675. Fix: write it in quotes"):
        tenths.round_money(2.675)
    with pytest.raises(tenths.DomainError, match="`12 EUR` is not an amount"):
        tenths.round_money("12 EUR")
    with pytest.raises(tenths.DomainError, match="rounding must be 'half_even' or 'half_up', not 'up'"):
        tenths.round_money("1", rounding="up")
    with pytest.raises(tenths.DomainError, match="weights must be zero or more"):
        tenths.split_money("1.00", [1, -1])


@pytest.mark.parametrize(("given", "expected"), [*rows("unit_cost"), *rows("yield")])
def test_pieces_to_start(given, expected):
    good = given.get("good_quantity", given.get("required_good"))
    scrap = given.get("scrap_fraction_per_operation", given.get("scrap_rates"))
    scrap = [operation["scrap_fraction"] for operation in given["operations"]] if scrap is None else scrap
    each, rolled = (tenths.start_quantities(good, scrap, rule=rule) for rule in ("each_operation", "rolled"))
    if "starts_per_operation" in expected:
        assert list(each.starts) == expected["starts_per_operation"]
        assert each.start_quantity == expected.get("start_quantity", each.starts[0])
    exact = expected.get("start_exact_rolled", expected.get("start_quantity_exact", each.rolled))
    assert each.rolled == pytest.approx(exact, rel=1e-9)
    whole = expected.get("start_rolled_then_ceil", expected.get("start_quantity_integer", rolled.start_quantity))
    assert rolled.start_quantity == whole
    assert pickle.loads(pickle.dumps(each)) == each
    if "lot_cost" in expected:
        # Nothing rounded: material, operations, and what rejected pieces fetch.
        lot = given["material_per_started_piece"] * each.start_quantity
        for operation, started in zip(given["operations"], each.starts, strict=True):
            minutes = operation["setup_min"] + started * operation["cycle_min"]
            lot += minutes * operation["rate_per_h"] / 60
        lot -= (each.start_quantity - good) * given["scrap_value_per_rejected_piece"]
        assert lot == pytest.approx(expected["lot_cost"], rel=1e-9)


@pytest.mark.parametrize(("given", "expected"), rows("lot_and_price"))
def test_prices_by_quantity(given, expected):
    if "annual_demand" not in given:
        tiers = [(tier["from_qty"], tier["unit_price"]) for tier in given["tiers"]]
        judged = tenths.quantity_breaks(tiers)
        dearer = [n for row in judged if row.dearer_from for n in range(row.dearer_from, row.to_quantity + 1)]
        assert dearer == expected["quantities_dearer_than_next_break"]
        return
    tiers = [(tier["from_qty"], tier["price"]) for tier in given["tiers"]]
    scheme = "incremental" if "feasible" in expected else "all_units"
    share = given["holding_fraction_of_price_per_year"]
    order = tenths.discounted_order(given["annual_demand"], given["order_cost"], share, tiers, scheme=scheme)
    assert order.quantity == pytest.approx(expected["order_quantity"], rel=1e-9)
    assert order.annual_cost == pytest.approx(expected["annual_cost"], rel=1e-9)
    assert [tier.economic for tier in order.tiers] == pytest.approx(expected["eoq_per_tier"], rel=1e-9)
    assert [tier.annual_cost for tier in order.tiers] == pytest.approx(expected["annual_cost_per_tier"], rel=1e-9)
    with pytest.raises(tenths.DomainError, match="annual_demand must be greater than 0"):
        tenths.discounted_order(0, 1, 0.2, tiers)


def minutes(element):
    """Minutes of an element of work, exact to nine decimals."""
    number = lambda name: Decimal(str(element[name]))  # noqa: E731
    if "min" in element:
        return number("min")
    if "pitch_mm" in element:
        return number("travel_mm") / number("pitch_mm") * (1 / number("rpm_in") + 1 / number("rpm_out"))
    feed = number("feed_mm_per_rev") if "feed_mm_per_rev" in element else number("feed_per_tooth_mm") * number("teeth")
    return number("travel_mm") / (feed * number("rpm")) * Decimal(element.get("passes", 1))


def life(tool, elements):
    """Pieces that an edge lasts for."""
    if "life_holes" in tool:
        return str(tool["life_holes"])
    cutting = sum(minutes(element) for element in elements if element.get("tool") == tool["name"])
    return f"{Decimal(tool['edge_life_min']) / cutting:.9f}"


def plan_of(given):
    """The case as a plan: a saw that costs nothing, an operation by time for each of the two, and the inspection."""
    operations = {10: given["op10_elements"], 20: given["op20_elements"]}
    kinds = {10: "deburr", 20: "press"}
    rates = {
        "currency": "EUR",
        "rounding": given["rounding"],
        "price_governs": "lot",
        "machines": [
            {"name": "saw", "rate": 0},
            {"name": "10", "rate": given["op10_rate_per_h"]},
            {"name": "20", "rate": given["op20_rate_per_h"]},
            {"name": "bench", "rate": given["inspect_rate_per_h"]},
        ],
        "operations": [
            {"kinds": ["saw"], "machine": "saw"},
            *(
                {
                    "kinds": [kinds[op]],
                    "machine": str(op),
                    "setup": float(given[f"op{op}_setup_h"]) * 60,
                    "scrap": given[f"op{op}_scrap_fraction"],
                }
                for op in (10, 20)
            ),
            {"kinds": ["inspect"], "machine": "bench"},
        ],
        "material": {
            "price_per_mass": given["bar_price_per_kg"],
            "scrap_price": given["scrap_price_per_kg"],
            "finished_mass": float(given["finished_mass_kg"]),
            "remnant_kept_from": float(given["remnant_kept_from_mm"]),
        },
        "tools": [
            {
                "name": tool["name"],
                "kind": kinds[tool["op"]],
                "price": tool["price"],
                "edges": tool.get("edges", 1),
                "life_pieces": life(tool, operations[tool["op"]]),
            }
            for tool in given["tools"]
        ],
        "outside": [
            {
                "name": given["outside_process"],
                "price": given["outside_price_per_piece"],
                "minimum": given["outside_minimum"],
                "freight": given["freight_per_lot"],
            }
        ],
        "order_handling": given["order_handling_per_lot"],
        "admin": given["admin_fraction"],
        "margin": given["margin_fraction"],
    }
    # A density that gives the mass of a metre that the case states, to nine decimals.
    density = float(given["mass_kg_per_m"]) / (3.141592653589793 / 4 * 3.2**2 / 10)
    blade = {"name": "a band", "surface_speed": {"lower": 1, "upper": 100}, "sawing_rate": {"lower": 1, "upper": 100}}
    time = {op: float(sum(minutes(element) for element in elements)) for op, elements in operations.items()}
    return {
        "tenths_plan": 1,
        "units": "metric",
        "part": {"name": given["part"], "quantity": given["good_quantity"]},
        "material": {"name": "C45", "modulus": 205, "poisson": 0.29, "density": density},
        "characteristics": [
            {
                "number": 1,
                "kind": "length",
                "limits": {"lower": 117, "upper": float(given["part_length_mm"])},
                "requirement": "independency",
                "inspection": "caliper",
            }
        ],
        "bar": {
            "form": "round",
            "limits": "32 h11",
            "bar_length": float(given["bar_length_mm"]),
            "remnant": float(given["grip_remnant_mm"]),
        },
        "operations": [
            {
                "kind": "saw",
                "makes": [1],
                "cut_length": 1,
                "kerf": float(given["kerf_mm"]),
                "facing_allowance": float(given["facing_allowance_mm"]),
                "blade": blade,
                "surface_speed": 50,
                "sawing_rate": 20,
            },
            {"kind": "deburr", "time": time[10]},
            {"kind": "press", "time": time[20]},
            {"kind": "inspect", "checks": [1], "every": given["inspect_every"], "time": float(given["inspect_min"])},
        ],
        "rates": rates,
    }


@pytest.mark.parametrize(("given", "expected"), rows("quote"))
def test_whole_quotes(given, expected):
    (quote,) = tenths.Plan.from_json(json.dumps(plan_of(given))).quote(given["good_quantity"])
    assert quote.start_quantity == expected["starts_op10"]
    kinds = {
        "material": "material_bars", "remnant": "remnant_credit", "scrap_value": "scrap_credit", "outside": "outside_process",
        "freight": "freight", "inspection": "inspection", "order_handling": "order_handling",
    }  # fmt: skip
    lines = {}
    for line in quote.lines:
        if line.kind in ("setup", "run") and line.operation in (20, 30):
            lines[f"{line.kind}_op{line.operation - 10}"] = line.amount
        elif line.kind == "tool":
            lines["tool_" + line.name.split(", ")[1]] = line.amount
        elif line.kind in kinds:
            lines[kinds[line.kind]] = line.amount
    assert lines == {name: Decimal(amount) for name, amount in expected["lines"].items()}
    totals = {
        "manufacturing_cost": quote.manufacturing_cost,
        "total_cost": quote.total_cost,
        "lot_price": quote.total,
        "unit_price_shown": quote.price_each,
        "residue_extended_minus_lot": quote.residue,
    }
    assert totals == {name: Decimal(expected[name]) for name in totals}
