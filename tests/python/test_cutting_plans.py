"""Cutting plans: those of the table, random ones against a general-purpose solver, and what callers give."""

import decimal
import math
import random
import signal
import threading
import time
from pathlib import Path

import numpy
import pytest
import tenths

PUBLISHED = Path(__file__).parents[1] / "published" / "cutting_plans.csv"


def published():
    for line in PUBLISHED.read_text(encoding="utf-8").splitlines():
        if not line.startswith("#"):
            yield pytest.param(*line.split(";")[1:7], id=line.split(";")[0])


def bar(text):
    text, _, price = text.partition("@")
    length, _, available = text.partition(" x ")
    return length.strip(), int(available) if available else None, float(price) if price else None


def piece(text):
    length, _, count = text.partition(" x ")
    return length, int(count)


@pytest.mark.parametrize("kerf, end_trim, pieces, bars, kept_low, least", list(published()))
def test_published_plans_are_reached_and_proven(kerf, end_trim, pieces, bars, kept_low, least):
    pieces, bars = list(map(piece, pieces.split(", "))), list(map(bar, bars.split(", ")))
    plan = tenths.cutting_plan(pieces, bars, kerf, end_trim)
    assert plan.proven and plan.objective == kept_low
    assert (plan.cost if kept_low == "price" else plan.bars) == pytest.approx(float(least), abs=1e-9)
    cut = {}
    for layout in plan.layouts:
        for length, count in layout.pieces:
            cut[length] = cut.get(length, 0) + layout.times * count
    assert cut == {tenths.Size(length): count for length, count in pieces}
    assert plan.to_svg().startswith("<svg ") and plan.to_svg().count("×") == len(plan.layouts)


def patterns(weights, wanted, capacity):
    made = []

    def grow(place, rest, counts):
        if place == len(weights):
            made.append(counts)
            return
        for count in range(min(wanted[place], rest // weights[place]) + 1):
            grow(place + 1, rest - count * weights[place], [*counts, count])

    grow(0, capacity, [])
    return made[1:]


def random_order(draw):
    """An order with its least cost by a general-purpose solver over all patterns; None where there are too many."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    bars = sorted({draw.randint(40, 120) * 50 for _ in range(draw.choice([1, 1, 2, 3]))})
    kerf, trim = draw.choice([0, 2, 3, 25]), draw.choice([0, 20, 60])
    lengths = sorted({draw.randint(bars[0] // 8, bars[0] * 3 // 4) for _ in range(draw.randint(1, 5))})
    wanted = [draw.randint(1, 30) for _ in lengths]
    available = [draw.randint(0, 12) if bar != bars[-1] and draw.random() < 0.4 else None for bar in bars]
    prices = [round(bar / 1000 * draw.uniform(0.9, 1.15), 2) for bar in bars] if draw.random() < 0.5 else None
    columns, costs, kinds = [], [], []
    for kind, length in enumerate(bars):
        of_bar = patterns([length + kerf for length in lengths], wanted, length - trim + kerf)
        columns += of_bar
        kinds += [kind] * len(of_bar)
        costs += [prices[kind] if prices else length if len(bars) > 1 else 1] * len(of_bar)
    if len(columns) > 300:
        return None
    rows = [LinearConstraint(numpy.array(columns).T, lb=wanted)]
    for kind, most in enumerate(available):
        if most is not None:
            rows.append(LinearConstraint((numpy.array(kinds) == kind).astype(float)[None, :], ub=most))
    options = {"mip_rel_gap": 0}
    whole = numpy.ones(len(costs))
    solved = milp(numpy.array(costs), constraints=rows, integrality=whole, bounds=Bounds(0, math.inf), options=options)
    assert solved.status == 0
    stock = list(zip(bars, available, prices or [None] * len(bars)))
    return list(zip(lengths, wanted)), stock, kerf, trim, solved.fun


@pytest.mark.libraries
def test_a_thousand_random_orders_cost_what_a_solver_finds():
    draw, tried = random.Random(20), 0
    while tried < 1000:
        order = random_order(draw)
        if order is None:
            continue
        pieces, bars, kerf, trim, least = order
        plan = tenths.cutting_plan(pieces, bars, kerf, trim, units="mm", time_limit=None)
        reached = {"price": plan.cost, "bars": plan.bars, "length": plan.length.to_float("mm")}[plan.objective]
        assert plan.proven and reached == pytest.approx(least, rel=1e-9), order
        tried += 1


def test_a_search_that_its_limit_ends_claims_no_proof():
    draw = random.Random(3)
    pieces = [(draw.randint(1000, 59000) / 10, 1) for _ in range(300)]
    plan = tenths.cutting_plan(pieces, [6000], 2, units="mm", work_limit=1_000_000, time_limit=None)
    assert not plan.proven and 0 < plan.gap < 0.1 and plan.bound < plan.bars
    assert "from the best" in str(plan)


def test_lengths_come_as_text_sizes_and_numbers():
    wanted = tenths.cutting_plan([("1000 mm", 5)], ["6 m"], "3 mm")
    assert tenths.cutting_plan([(tenths.Size("1 m"), 5)], [tenths.Size("6 m")], tenths.Size("3 mm")) == wanted
    assert tenths.cutting_plan([(1000, 5)], [(6000,)], 3, units="mm") == wanted
    assert tenths.cutting_plan([(numpy.float32(1000), numpy.int64(5))], [6000.0], 3, units="mm") == wanted
    inch = tenths.cutting_plan([(39.5, 5)], [240], 0.125, units="in")
    assert inch.bars == 1 and inch.layouts[0].leftover == tenths.Size("41.875 in")


def test_prices_may_be_decimals_and_zero():
    plan = tenths.cutting_plan([("1 m", 12)], [("3 m", 4, decimal.Decimal("0.00")), ("6 m", None, decimal.Decimal("5.50"))])
    assert plan.cost == 0 and plan.bars == 4 and plan.proven


def test_leftovers_worth_keeping_are_listed():
    plan = tenths.cutting_plan([("2 m", 4)], ["6.5 m"], keep_from="400 mm")
    assert sum(length.to_float("mm") * count for length, count in plan.kept) == pytest.approx(13000 - 8000)
    assert all(length >= tenths.Size("400 mm") for length, _ in plan.kept)


@pytest.mark.parametrize(
    "arguments, error, message",
    [
        (([(1000, 5)], ["6 m"]), TypeError, "a length of 1000 needs a unit"),
        (([("1 m", 2.5)], ["6 m"]), TypeError, "a count must be a whole number, zero or more, not 2.5"),
        (([("1 m", -1)], ["6 m"]), ValueError, "a count must be a whole number, zero or more, not -1"),
        (([("1 m", True)], ["6 m"]), TypeError, "a count must be"),
        (([("1 m",)], ["6 m"]), TypeError, "a piece must be \\(length, count\\)"),
        (([("1 m", 1)], [("6 m", 1, 2.0, 3)]), TypeError, "a bar must be"),
        (([("7 m", 1)], ["6 m"]), ValueError, "a piece of 7000 mm does not fit: the longest bar leaves 6000 mm"),
        (([("1 m", 1)], "6 m"), TypeError, "bars must be a list, not the text '6 m'"),
        (([("1 m", 1)], []), ValueError, "there are no bars to cut from"),
        (([("1 m", 1)], ["6 m"], "-1 mm"), ValueError, "the kerf must be zero or more, not -1 mm"),
        (([("1 m", 1)], [("6 m", None, math.nan)]), ValueError, "a price must be"),
        (([("1 m", 1)], [("6 m", None, 4.0), "3 m"]), ValueError, "some bars have a price and some have none"),
        (([("1 m", 13)], [("6 m", 2)]), ValueError, "the bars do not hold all pieces: 2 of 6000 mm"),
    ],
)
def test_what_cannot_be_is_refused(arguments, error, message):
    with pytest.raises(error, match=message):
        tenths.cutting_plan(*arguments)


def test_nothing_wanted_takes_no_bars():
    plan = tenths.cutting_plan([], ["6 m"])
    assert plan.bars == 0 and plan.proven and plan.utilisation == 0 and plan.layouts == ()


def long_search(**options):
    draw = random.Random(1)
    pieces = [(draw.randint(1000, 59000) / 10, draw.randint(1, 10)) for _ in range(1000)]
    return tenths.cutting_plan(pieces, [6000], 2, units="mm", **options)


def test_a_long_search_can_be_interrupted_and_tells_how_far_it_is():
    told = []
    plan = long_search(time_limit=1.0, progress=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and plan.bars > 0
    # A process that was started in the background ignores it.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    threading.Timer(0.3, signal.raise_signal, [signal.SIGINT]).start()
    start = time.monotonic()
    with pytest.raises(KeyboardInterrupt):
        long_search(time_limit=None)
    signal.signal(signal.SIGINT, before)
    # A busy machine may take its time; the search itself would take some tens of seconds.
    assert time.monotonic() - start < 5
