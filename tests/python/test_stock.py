"""Stock: the published figures, masses of every form, and what callers give."""

import decimal
import math
import types
from pathlib import Path

import numpy
import pytest
import tenths
from tenths import inch, metric

PUBLISHED = Path(__file__).parents[1] / "published" / "stock.csv"


def lines(kind):
    rows = [line.split(";") for line in PUBLISHED.read_text(encoding="utf-8").splitlines()]
    found = [row[1:] for row in rows if row[0] == kind]
    assert len(found) > 1
    return found


@pytest.mark.parametrize("line", lines("bar_order"))
def test_bars_are_bought_as_published(line):
    quantity, bar, part, kerf, facing, trim, remnant, share, parts, bars, used, leftover, utilisation = line[:13]
    order = tenths.bars_to_buy(
        int(quantity), bar, part, kerf, trim, remnant=remnant, facing_allowance=facing, yield_share=float(share)
    )
    assert (order.parts_per_bar, order.bars) == (int(parts), int(bars))
    assert (order.length_used, order.leftover) == (tenths.Size(used), tenths.Size(leftover))
    assert order.utilisation == pytest.approx(float(utilisation), abs=1e-9)


@pytest.mark.parametrize("line", lines("break_even"))
def test_ways_break_even_as_published(line):
    fixed, each, other_fixed, other_each, meet, start, cost, other = map(float, line[:8])
    judged = tenths.make_or_buy("20 h9", [("one", None, fixed, each), ("other", None, other_fixed, other_each)], int(start))
    assert judged.break_evens[0].quantity == pytest.approx(meet, abs=1e-9)
    assert (judged.break_evens[0].cheaper_from, judged.best) == (start, "other")
    assert [row.cost for row in judged.rows] == [cost, other]


@pytest.mark.parametrize("line", lines("machine_load"))
def test_orders_are_sequenced_as_published(line):
    orders = [order.split(" ") for order in line[0].split(", ")]
    load = tenths.machine_load([(name, int(count), *map(float, times)) for name, count, *times in orders])
    assert [row.order for row in load.rows] == line[1].split(" ")
    assert [row.ends for row in load.rows] == list(map(float, line[2].split(" ")))
    assert [row.late for row in load.rows] == list(map(float, line[3].split(" ")))


@pytest.mark.parametrize("line", lines("hardness"))
def test_hardness_compares_as_published(line):
    scale, hardness, *printed, within = line[:8]
    found = metric.compare_hardness(f"{hardness} {scale}")
    assert found == metric.compare_hardness(float(hardness), scale)
    figures = [found.vickers, found.brinell, found.rockwell_b, found.rockwell_c, found.tensile_strength]
    for figure, text in zip(figures, printed, strict=True):
        if text == "-":
            assert figure is None
        elif text:
            assert figure == pytest.approx(float(text), abs=float(within) + 1e-9)


FORMS = {
    "round": ({}, "round_bar_mass"),
    "hexagon": ({}, "hexagon_bar_mass"),
    "square": ({}, "square_bar_mass"),
    "tube": ({"wall": 2.0}, "tube_mass"),
    "flat": ({"thickness": 5.0}, "flat_bar_mass"),
    "plate": ({"width": 500.0}, "plate_mass"),
}


@pytest.mark.parametrize("form", FORMS)
def test_a_form_is_its_formula(form):
    second, name = FORMS[form]
    mass = getattr(metric, name)(20.0, *second.values(), 3000.0, 7.85)
    assert metric.bar_mass(form, 20.0, 3000.0, 7.85, **second) == mass
    assert metric.bar_mass_per_length(form, 20.0, 7.85, **second) == pytest.approx(mass / 3, rel=1e-14)
    # A foot of the same bar in inches and pounds.
    inches = {key: value / 25.4 for key, value in second.items()}
    foot = inch.bar_mass_per_length(form, 20.0 / 25.4, 7.85 / 27.67990471020312, **inches)
    assert foot == pytest.approx(mass / 3000 * 304.8 / 0.45359237, rel=1e-12)
    lengths = numpy.array([1000.0, 3000.0, numpy.nan])
    assert metric.bar_mass(form, "20 mm", lengths, "7850 kg/m³", **second)[1] == mass


@pytest.mark.libraries
def test_masses_of_a_frame():
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame({"diameter": [20.0, 30.0], "wall": [2.0, 15.0]}, index=["a", "b"])
    with numpy.errstate(invalid="ignore"):
        mass = metric.bar_mass("tube", frame.diameter, 1000, 7.85, wall=frame.wall)
    assert list(mass.index) == ["a", "b"] and mass["a"] == pytest.approx(0.88781, abs=1e-4) and math.isnan(mass["b"])


def test_walls_and_forms_that_cannot_be_are_refused():
    for wall in (15, 16):
        with pytest.raises(tenths.DomainError, match="wall must be less than half of outside_diameter"):
            metric.bar_mass("tube", 30, 1000, 7.85, wall=wall)
    with pytest.raises(ValueError, match="wall must be greater than 0 mm, not 0 mm"):
        metric.bar_mass("tube", 30, 1000, 7.85, wall=0)
    with pytest.raises(ValueError, match="form round has no wall; expected the size alone"):
        metric.bar_mass("round", 30, 1000, 7.85, wall=3)
    with pytest.raises(ValueError, match="form plate: width is missing. Fix: give width beside the size"):
        metric.bar_mass("plate", 10, 1000, 7.85)
    with pytest.raises(ValueError, match='called "Round"; expected round, hexagon'):
        metric.bar_mass("Round", 30, 1000, 7.85)
    # A density in another unit is told by the formula's own check.
    assert "did you mean 7850 kg/m³" in str(metric.round_bar_mass.check(20, 1000, 7850))


def test_the_next_size_up():
    least = inch.cleanup_diameter(6, surface_share=0.016)
    # A steel supplier's note: a 6 in finish from a bar of 6 1/4 in.
    assert tenths.next_bar_size(least, "inch hot rolled", units="in").size == tenths.Size("6 1/4 in")
    found = tenths.next_bar_size("41 mm", "metric hot rolled")
    assert found.limits.lower >= tenths.Size("41 mm") and found.seen == "recalled" and "EN 10060" in found.source
    own = tenths.next_bar_size(19.945, [18, 20, tenths.Limits("20 h9"), "22 h9"], units="mm")
    assert (own.size, own.seen, own.list) == (tenths.Size("20 mm"), "own", "your list")
    with pytest.raises(ValueError, match="no size is at least 30 mm; the largest of your list is 22 mm"):
        tenths.next_bar_size("30 mm", ["20 mm", "22 mm"])
    with pytest.raises(ValueError, match="there are no sizes"):
        tenths.next_bar_size("30 mm", [])
    with pytest.raises(TypeError, match="needs a unit"):
        tenths.next_bar_size(30, "metric bright")
    with pytest.raises(ValueError, match="greater than zero, not -1 mm"):
        tenths.next_bar_size("-1 mm", "metric bright")
    with pytest.raises(ValueError, match="is called \"bright\"; expected metric hot rolled"):
        tenths.bar_sizes("bright")
    assert [bar.seen for bar in tenths.bar_sizes("inch as stocked")[:1]] == ["print"]


def test_orders_of_nothing_of_a_million_and_of_what_does_not_fit():
    assert tenths.bars_to_buy(0, "3 m", "45 mm").bars == 0
    assert tenths.bars_to_buy(10**6, 120, 1.5, 0, units="in").bars == 12_500
    with pytest.raises(ValueError, match="a part of 3500 mm does not fit in a bar of 3000 mm"):
        tenths.bars_to_buy(1, "3 m", "3.5 m")
    for quantity in (-1, 1.5, True, "3"):
        with pytest.raises((TypeError, ValueError), match="quantity must be a whole number, zero or more, not"):
            tenths.bars_to_buy(quantity, "3 m", "45 mm")
    for share in (0, -0.1, 1.1, math.nan):
        with pytest.raises(ValueError, match="the yield must be above 0 and at most 1"):
            tenths.bars_to_buy(1, "3 m", "45 mm", yield_share=share)


def test_orders_share_bars_and_cost():
    wanted = {"A": [("4 m", 2)], "B": [("2 m", 2), ("1 m", 0)]}
    made = tenths.shared_cutting_plan(wanted, [("6 m", None, decimal.Decimal("30.00"))])
    assert (made.plan.bars, made.plan.proven) == (2, True)
    assert [(share.order, share.pieces, share.cost) for share in made.shares] == [("A", 2, 40.0), ("B", 2, 20.0)]
    assert sum(share.bars for share in made.shares) == pytest.approx(2)
    assert [(cut.layout, cut.order, cut.length, cut.count) for cut in made.cuts] == [
        (1, "A", tenths.Size("4 m"), 2),
        (1, "B", tenths.Size("2 m"), 2),
    ]
    # Alone, the orders would take three bars.
    alone = [tenths.cutting_plan(pieces, ["6 m"]).bars for pieces in wanted.values()]
    assert sum(alone) == 3
    assert tenths.shared_cutting_plan(list(wanted.items()), [("6 m", None, 30)]) == made
    assert tenths.shared_cutting_plan(types.MappingProxyType(wanted), [("6 m", None, 30)]) == made
    assert tenths.shared_cutting_plan({}, ["6 m"]).shares == ()
    with pytest.raises(ValueError, match="a piece of 7000 mm does not fit"):
        tenths.shared_cutting_plan({"A": [("7 m", 1)]}, ["6 m"])
    with pytest.raises(ValueError, match="two orders are named \"A\""):
        tenths.shared_cutting_plan([("A", []), ("A", [])], ["6 m"])
    with pytest.raises(TypeError, match="an order must be \\(name, pieces\\)"):
        tenths.shared_cutting_plan([("A",)], ["6 m"])


def test_what_a_machine_cannot_make_is_refused():
    with pytest.raises(ValueError, match="there are no orders"):
        tenths.machine_load([])
    with pytest.raises(ValueError, match='the set-up time of "A" must be 0 to 5000000000 min, not -1 min'):
        tenths.machine_load([("A", 1, -1, 1, 10)])
    with pytest.raises(TypeError, match="an order must be \\(name, quantity, set-up time, time for a piece, due\\)"):
        tenths.machine_load([("A", 1, 1, 10)])
    with pytest.raises(ValueError, match="due"):
        tenths.machine_load([("A", 1, 0, 1, "Friday")])
    overdue = tenths.machine_load([("A", 10**6, 0, "6 s", -60)], busy="1 h")
    assert overdue.latest == overdue.rows[0].late == 100_120


def test_ways_to_get_a_size():
    ways = [("as bought", "20 h11", 0, 1.1), ("free", None, 0, 0), ("cut", tenths.Limits("20 h9"), 40, decimal.Decimal("2.5"))]
    judged = tenths.make_or_buy("20 h9", ways, 10**6)
    assert [row.meets for row in judged.rows] == [False, True, True] and judged.best == "free"
    assert judged.break_evens == () and judged.rows[0].cheapest_from is None
    none = tenths.make_or_buy("20 h9", ways[:1], 5)
    assert none.best is None and "none of 1 ways meets" in str(none)
    with pytest.raises(ValueError, match='the cost of each piece of "a" must be zero or more'):
        tenths.make_or_buy("20 h9", [("a", None, 0, -1)], 5)
    with pytest.raises(TypeError, match="a way must be \\(name, limits or None, fixed cost, cost of each piece\\)"):
        tenths.make_or_buy("20 h9", [("a", None, 0)], 5)


def test_hardness_is_a_comparison_within_its_range():
    assert "a comparison by a table, no conversion" in metric.compare_hardness.__doc__
    pounds = inch.compare_hardness("45 HRC").tensile_strength
    assert pounds == pytest.approx(metric.compare_hardness("45 HRC").tensile_strength / 0.006894757293168361)
    for wrong, message in [
        ("19 HRC", "HRC must be 20.3 to 68, the range of the table, not 19"),
        ("100 HRB", "HRB must be 56.2 to 99.5"),
        ("60 HRA", '"HRA" is not a scale of hardness; expected HRC, HRB, HB or HV'),
        ("HRC", "hardness must be text such as '45 HRC'"),
    ]:
        with pytest.raises(ValueError, match=message):
            metric.compare_hardness(wrong)
    with pytest.raises(TypeError, match="needs its scale"):
        metric.compare_hardness(45)
    with pytest.raises(ValueError, match="hardness must be text"):
        metric.compare_hardness("45 HRC", "HB")
