"""A quote for a batch of shafts, from the wanted cuts to a price list.

    python examples/python/quote.py [--units inch|metric]

Each cut is fitted to its machine; then a plan takes the cuts, judges them and quotes them line by line. The sizes of
the job are text with their units, so that either system of units takes them and only what is printed differs. Prices, trials and machines are invented: put your own in their place. Speeds and feeds are
starting points for a competent person; the makers' data of machine, tool and material come first.
"""

import argparse
import json
from collections.abc import Iterator
from dataclasses import dataclass
from types import ModuleType
from typing import Any

import tenths

PIECES = 80
MATERIAL = ("SAE 4140", "annealed")
BAR, BAR_LENGTH = "22 mm", "3000 mm"
DIAMETER, LENGTH, ROUGHED = "18 mm", "90 mm", "18.5 mm"
FLAT_DEPTH, FLAT_LENGTH = "3 mm", "14 mm"
CROSS_HOLE = "5 mm"
NOSE_RADIUS, ROUGHNESS = "0.8 mm", "1.6 um"

HOURLY_RATE = 72.00  # machine and operator, overheads and all
EDGE_CHANGE = 2.0  # minutes
INSERT_PRICE, INSERT_EDGES = 9.60, 6
TAYLOR_C = {"rough": "230 m/min", "finish": "290 m/min"}  # from the shop's own trials with these inserts

LATHE = {
    "least_spindle_speed": 70,
    "greatest_spindle_speed": 2000,
    "curve": [{"spindle_speed": 600, "power": "1.5 kW"}],
}
MILL = {
    "least_spindle_speed": 100,
    "greatest_spindle_speed": 5000,
    "curve": [{"spindle_speed": 1000, "power": "0.75 kW"}],
    "greatest_axis_force": "1500 N",
}
QUANTITIES = (20, PIECES, 250)
RATES = {
    "currency": "EUR",
    "machines": [{"name": "lathe", "rate": HOURLY_RATE}, {"name": "mill", "rate": 64}, {"name": "bench", "rate": 42}],
    "operations": [
        {"kinds": ["face"], "machine": "lathe", "setup": 40},
        {"kinds": ["turn", "part_off"], "machine": "lathe"},
        {"kinds": ["mill_flats"], "machine": "mill", "setup": 25},
        {"kinds": ["drill"], "machine": "mill", "setup": 8, "scrap": 0.01},
        {"kinds": ["deburr", "inspect"], "machine": "bench"},
    ],
    "material": {"price_per_bar": 31.00},
    "order_handling": 15,
    "margin": 0.2,
}


@dataclass(frozen=True)
class Step:
    """A cut as its machine can run it; lengths and minutes are in the units of the shop."""

    name: str
    cut: Any
    arguments: dict[str, Any]
    travel: float | None = None
    edge_life: float | None = None
    notes: tuple[str, ...] = ()


def turn(
    shop: ModuleType, steel: tenths.Material, tool: str, surface_speed: float, diameter: str, depth: str, feed: float | str
) -> Step:
    """A turning pass at the wanted speed, or as close to it as the lathe can run."""
    cut = {
        "workpiece_diameter": diameter,
        "feed_per_revolution": feed,
        "depth": depth,
        "travel": "92 mm",
        "nose_radius": NOSE_RADIUS,
        "kc11": steel.kc11,
        "mc": steel.mc,
    }
    cut["spindle_speed"] = shop.turning_cut_for_target(surface_speed, **cut).spindle_speed
    limited = shop.limit_to_machine(shop.turning_cut, shop.Machine(**LATHE), least_feed="0.05 mm", **cut)
    # The constants hold for the feed of the trials: at a lower feed the edge lasts longer than this.
    life = shop.tool_life(limited.cut.surface_speed, TAYLOR_C[tool], steel.taylor_carbide)
    return step(shop.turning_cut, f"{tool} turn", limited, edge_life=life)


def mill_flat(shop: ModuleType, steel: tenths.Material) -> Step:
    """The flat, in one pass across the shaft with a cutter that is wider than the flat is long."""
    cutter = {"cutter_diameter": "16 mm", "teeth": 4}
    cut = {"radial_width": FLAT_LENGTH, "axial_depth": FLAT_DEPTH, "kc11": steel.kc11, "mc": steel.mc}
    wanted = shop.milling_cut_for_target(
        surface_speed=steel.speed_carbide, chip_thickness="0.06 mm", **cutter, **cut
    )
    cut |= {"spindle_speed": wanted.spindle_speed, "chip_load": wanted.chip_load}
    mill = shop.Machine(**MILL)
    limited = shop.limit_to_machine(shop.milling_cut, mill, least_feed="0.02 mm", **cutter, **cut)
    across = shop.flat_width(DIAMETER, FLAT_DEPTH) + shop.side_approach(cutter["cutter_diameter"], FLAT_LENGTH)
    return step(shop.milling_cut, "mill flat", limited, travel=across)


def drill_hole(shop: ModuleType, steel: tenths.Material) -> Step:
    """The hole across the shaft, with a drill of high-speed steel."""
    limited = shop.limit_to_machine(
        shop.drilling_cut,
        shop.Machine(**MILL),
        spindle_speed=shop.spindle_speed(steel.speed_hss, CROSS_HOLE),
        diameter=CROSS_HOLE,
        feed_per_revolution="0.08 mm",
        depth=DIAMETER,
        kc11=steel.kc11,
        mc=steel.mc,
        approach="2 mm",
        breakthrough="1 mm",
    )
    return step(shop.drilling_cut, "drill hole", limited)


def step(
    formula: tenths.Formula,
    name: str,
    limited: tenths.LimitedCut,
    travel: float | None = None,
    edge_life: float | None = None,
) -> Step:
    """A step from its cut fitted to the machine, with all remarks on it."""
    notes = [str(bound) for bound in limited.bounds]
    notes += [f"STILL TOO MUCH at the least feed: {bound}" for bound in limited.exceeded]
    notes += [f"not compared: {limit}" for limit in limited.unchecked]
    # Force and power come from constants that hold for a range of chips.
    notes += [f"less sure of force and power: {remark.message}" for remark in formula.check(**limited.arguments)]
    return Step(name, limited.cut, limited.arguments, travel, edge_life, tuple(notes))


def work(shop: ModuleType) -> list[Step]:
    """The cuts that are worth fitting to their machines, in order."""
    steel = shop.material(*MATERIAL)
    speed = {
        tool: shop.speed_for_least_cost(c, steel.taylor_carbide, EDGE_CHANGE, edge_cost(shop), HOURLY_RATE)
        for tool, c in TAYLOR_C.items()
    }
    fine_feed = shop.feed_for_roughness_ra(ROUGHNESS, NOSE_RADIUS)
    return [
        turn(shop, steel, "rough", speed["rough"], BAR, "1.75 mm", "0.25 mm"),
        turn(shop, steel, "finish", speed["finish"], ROUGHED, "0.25 mm", fine_feed),
        mill_flat(shop, steel),
        drill_hole(shop, steel),
    ]


def edge_cost(shop: ModuleType) -> float:
    cost: float = shop.insert_edge_cost(INSERT_PRICE, INSERT_EDGES)
    return cost


def plan(shop: ModuleType, steps: list[Step]) -> tenths.Plan:
    """The plan of the shaft: the drawing, and the work as it was fitted. What it leaves out is assumed, and listed."""
    rough, finish, flat, hole = steps
    mill = {"spindle_speed": flat.arguments["spindle_speed"], "feed_rate": flat.cut.feed_rate}
    document = {
        "tenths_plan": 1,
        "units": {"mm": "metric", "in": "inch"}[shop.turning_cut.units["depth"]],
        "part": {"name": "Shaft with a flat", "quantity": PIECES},
        "material": {"designation": ", ".join(MATERIAL)},
        "characteristics": [
            {"number": 1, "kind": "length", "limits": f"{LENGTH[:-3]} ±0.2 mm"},
            {"number": 2, "kind": "diameter", "limits": f"{DIAMETER[:-3]} h9", "roughness": ROUGHNESS},
            {"number": 3, "kind": "across_flats", "limits": "15 ±0.1 mm"},
            {"number": 4, "kind": "bore", "limits": f"{CROSS_HOLE[:-3]} +0.1/0 mm"},
        ],
        "bar": {"form": "round", "limits": f"{BAR[:-3]} h11", "bar_length": BAR_LENGTH, "end_trim": "5 mm", "remnant": "60 mm"},
        "operations": [
            {"kind": "face", "depth": "0.7 mm", "spindle_speed": 1500, "feed_per_revolution": "0.2 mm"},
            turned(rough, "roughing insert", diameter=BAR, depth="1.75 mm"),
            turned(finish, "finishing insert", diameter=ROUGHED, makes=[2]),
            {
                "kind": "part_off", "makes": [1], "diameter": DIAMETER, "facing_allowance": "0.5 mm", "tool": {"width": "3 mm"},
                "spindle_speed": 1060, "feed_per_revolution": "0.06 mm",
            },
            {
                "kind": "mill_flats", "makes": [3], "across": 3, "flats": 1, "diameter": DIAMETER, "travel": flat.travel,
                "radial_width": FLAT_LENGTH, "tool": {"name": "a 16 mm end mill", "diameter": "16 mm", "teeth": 4}, **mill,
            },
            {
                "kind": "drill", "makes": [4], "depth": DIAMETER, "approach": "2 mm", "breakthrough": "1 mm",
                "spindle_speed": hole.arguments["spindle_speed"], "feed_per_revolution": hole.arguments["feed_per_revolution"],
            },
            {"kind": "deburr", "time": 0.4},
            {"kind": "inspect", "checks": [1, 2, 3, 4], "every": 5, "time": 1.2},
        ],
        "rates": RATES | {"tools": [insert(rough, "roughing insert"), insert(finish, "finishing insert")]},
    }  # fmt: skip
    return tenths.Plan.from_json(json.dumps(document))


def turned(step: Step, tool: str, **fields: Any) -> dict[str, Any]:
    """A pass of the plan with a tool of its own."""
    settings = {name: step.arguments[name] for name in ("spindle_speed", "feed_per_revolution")}
    return {"kind": "turn", "travel": "92 mm", "tool": {"name": tool, "nose_radius": NOSE_RADIUS}, **settings, **fields}


def insert(step: Step, name: str) -> dict[str, Any]:
    """What an insert costs, with the life that its cut leaves it."""
    return {"name": name, "price": INSERT_PRICE, "edges": INSERT_EDGES, "life": step.edge_life, "change": EDGE_CHANGE}


def cuts(shop: ModuleType, steps: list[Step]) -> Iterator[str]:
    """What the cuts run at, line by line."""
    digits = {"mm/min": 0, "in/min": 2}[shop.turning_cut.units["feed_rate"]]
    units = shop.turning_cut.units
    yield f"{'':12}{'rev/min':>10}{units['feed_rate']:>10}{units['motor_power']:>8}"
    for step in steps:
        speed = step.arguments["spindle_speed"]
        yield f"{step.name:12}{speed:10.0f}{step.cut.feed_rate:10.{digits}f}{step.cut.motor_power:8.2f}"
    yield ""
    for step in steps:
        yield from (f"{step.name}: {note}" for note in step.notes)


def priced(plan: tenths.Plan) -> Iterator[str]:
    """The lines of the quote for the batch, and the price list."""
    prices = plan.quote(QUANTITIES)
    (batch,) = (quote for quote in prices if quote.quantity == PIECES)
    yield from (f"{line.name:36}{line.amount:>10}   {line.basis}" for line in batch.lines)
    yield f"{'total':36}{batch.total:>10}   {batch.currency}\n"
    yield from map(str, prices)
    findings = [*plan.evaluate().findings, *prices.findings]
    yield from (f"{finding.severity}: {finding.message}" for finding in findings)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--units", choices=("inch", "metric"), default="metric", help="of what is printed")
    shop = getattr(tenths, parser.parse_args().units)
    steps = work(shop)
    print(f"{PIECES} shafts of {shop.material(*MATERIAL)}\n")
    print("\n".join(cuts(shop, steps)), end="\n\n")
    print("\n".join(priced(plan(shop, steps))))


if __name__ == "__main__":
    main()
