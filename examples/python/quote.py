"""A quote for a batch of shafts, from the wanted cuts to the cost of a piece.

    python examples/python/quote.py [--units inch|metric]

The sizes of the job are text with their units, so that either system of units takes them and only what is
printed differs. Prices, trials and machines are invented: put your own in their place. Speeds and feeds are
starting points for a competent person; the makers' data of machine, tool and material come first.
"""

import argparse
import math
from dataclasses import dataclass
from typing import Any

import tenths

PIECES = 80
MATERIAL = ("SAE 4140", "annealed")
BAR, BAR_LENGTH, BAR_PRICE = "22 mm", "3000 mm", 31.00
DIAMETER, LENGTH, ROUGHED = "18 mm", "90 mm", "18.5 mm"
FLAT_DEPTH, FLAT_LENGTH = "3 mm", "14 mm"
CROSS_HOLE = "5 mm"
NOSE_RADIUS, ROUGHNESS = "0.8 mm", "1.6 um"

HOURLY_RATE = 72.00  # machine and operator, overheads and all
SETTING_UP = 65.0  # minutes for lathe and mill together
HANDLING = 1.4  # minutes a piece
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


@dataclass(frozen=True)
class Step:
    """A step of the work on one piece; what was not calculated is None."""

    name: str
    minutes: float
    spindle_speed: float | None = None
    cut: Any = None
    edge_life: float | None = None
    notes: tuple[str, ...] = ()


def turn(shop, steel, tool, surface_speed, diameter, depth, feed):
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
    return step(shop.turning_cut, f"{tool} turn", limited, limited.cut.time, life)


def mill_flat(shop, steel):
    """The flat, in one pass across the shaft with a cutter that is wider than the flat is long."""
    cutter = {"cutter_diameter": "16 mm", "teeth": 4}
    cut = {"radial_width": FLAT_LENGTH, "axial_depth": FLAT_DEPTH, "kc11": steel.kc11, "mc": steel.mc}
    wanted = shop.milling_cut_for_target(
        surface_speed=steel.speed_carbide, chip_thickness="0.06 mm", **cutter, **cut
    )
    cut |= {"spindle_speed": wanted.spindle_speed, "chip_load": wanted.chip_load}
    mill = shop.Machine(**MILL)
    limited = shop.limit_to_machine(shop.milling_cut, mill, least_feed="0.02 mm", **cutter, **cut)
    minutes = shop.milling_time(
        shop.flat_width(DIAMETER, FLAT_DEPTH),
        limited.cut.feed_rate,
        approach=shop.side_approach(cutter["cutter_diameter"], FLAT_LENGTH),
        overtravel="1 mm",
    )
    return step(shop.milling_cut, "mill flat", limited, minutes)


def drill_hole(shop, steel):
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
    return step(shop.drilling_cut, "drill hole", limited, limited.cut.time)


def step(formula, name, limited, minutes, edge_life=None):
    """A step from its cut fitted to the machine, with all remarks on it."""
    notes = [str(bound) for bound in limited.bounds]
    notes += [f"STILL TOO MUCH at the least feed: {bound}" for bound in limited.exceeded]
    notes += [f"not compared: {limit}" for limit in limited.unchecked]
    # Force and power come from constants that hold for a range of chips.
    notes += [f"less sure of force and power: {remark.message}" for remark in formula.check(**limited.arguments)]
    return Step(name, minutes, limited.arguments["spindle_speed"], limited.cut, edge_life, tuple(notes))


def work(shop):
    """The steps of a piece, in order."""
    steel = shop.material(*MATERIAL)
    speed = {
        tool: shop.speed_for_least_cost(c, steel.taylor_carbide, EDGE_CHANGE, edge_cost(shop), HOURLY_RATE)
        for tool, c in TAYLOR_C.items()
    }
    limit = LATHE["greatest_spindle_speed"]
    fine_feed = shop.feed_for_roughness_ra(ROUGHNESS, NOSE_RADIUS)
    return [
        Step("face", shop.facing_time(BAR, "0.12 mm", speed["rough"], limit).time),
        turn(shop, steel, "rough", speed["rough"], BAR, "1.75 mm", "0.25 mm"),
        turn(shop, steel, "finish", speed["finish"], ROUGHED, "0.25 mm", fine_feed),
        Step("part off", shop.parting_time(DIAMETER, "0.06 mm", "60 m/min", limit).time),
        mill_flat(shop, steel),
        drill_hole(shop, steel),
    ]


def edge_cost(shop):
    return shop.insert_edge_cost(INSERT_PRICE, INSERT_EDGES)


def edges(shop, steps):
    """Edges of inserts for the batch, by step, where their life is known."""
    worn = [step for step in steps if step.edge_life is not None]
    return {step.name: shop.batch_edges(step.edge_life, step.minutes, PIECES).edges for step in worn}


def bars(shop):
    """Pieces that a bar gives, parted off with a blade of 3 mm, and bars for the batch."""
    pieces = shop.parts_per_bar(
        BAR_LENGTH, LENGTH, "3 mm", facing_allowance="1 mm", end_trim="5 mm", remnant="60 mm"
    )
    return int(pieces), math.ceil(PIECES / pieces)


def costs(shop, steps):
    """What a piece costs, by what it is spent on."""
    minute = HOURLY_RATE / 60
    spent = sum(edges(shop, steps).values())
    return {
        "bar stock": bars(shop)[1] * BAR_PRICE / PIECES,
        "machining": sum(step.minutes for step in steps) * minute,
        "handling": HANDLING * minute,
        "edges": spent * (edge_cost(shop) + EDGE_CHANGE * minute) / PIECES,
        "setting up": SETTING_UP * minute / PIECES,
    }


def sheet(shop, steps):
    """The quote, line by line."""
    units = shop.turning_cut.units
    digits = {"mm/min": 0, "in/min": 2}[units["feed_rate"]]
    yield f"{PIECES} shafts of {shop.material(*MATERIAL)}\n"
    yield f"{'':12}{'rev/min':>10}{units['feed_rate']:>10}{units['motor_power']:>8}{'min':>8}"
    for step in steps:
        told = ""
        if step.cut:
            told = f"{step.spindle_speed:10.0f}{step.cut.feed_rate:10.{digits}f}{step.cut.motor_power:8.2f}"
        yield f"{step.name:12}{told:28}{step.minutes:8.3f}"
    yield f"{'in all':12}{sum(step.minutes for step in steps):36.3f}\n"
    for step in steps:
        yield from (f"{step.name}: {note}" for note in step.notes)
    pieces, count = bars(shop)
    yield f"\nstock: {count} bars, each good for {pieces} pieces"
    yield from (f"edges to {name}: {number:.0f}" for name, number in edges(shop, steps).items())
    yield ""
    shares = costs(shop, steps)
    yield from (f"{name:12}{cost:8.2f}" for name, cost in shares.items())
    yield f"{'each':12}{sum(shares.values()):8.2f}"


def main():
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--units", choices=("inch", "metric"), default="metric", help="of what is printed")
    shop = getattr(tenths, parser.parse_args().units)
    print("\n".join(sheet(shop, work(shop))))


if __name__ == "__main__":
    main()
