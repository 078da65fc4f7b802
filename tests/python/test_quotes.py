"""Quotes of plans: amounts as decimals, worked out once by hand, and what a caller may give and gets."""

import copy
import json
import math
import pickle
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path

import pytest

import tenths

PLANS = Path(__file__).resolve().parents[2] / "examples" / "plans"
AXLE, PIN, SPINDLE = ((PLANS / f"{name}.json").read_text() for name in ("roller_axle", "jig_rest_pin", "belt_spindle"))


def cents(exact, rule):
    """A fraction rounded once to the cent, by Python's decimals."""
    exact = Fraction(exact)
    scaled = exact * 100
    floor = math.floor(scaled)
    rest = scaled - floor
    if rest == Fraction(1, 2):
        return (Decimal(floor) + Decimal("0.5")).quantize(Decimal(1), rule) / 100
    return Decimal(floor + (rest > Fraction(1, 2))) / 100


def f(text):
    return Fraction(text)


PI = Fraction("3.14159265358979323846264338327950288")


def axle_by_hand(quantity):
    """The axle, step by step from the document: metric, 20 mm bar of SAE 1045, half even, the price each governs."""
    lines = {}

    def add(name, exact):
        lines[name] = cents(exact, ROUND_HALF_EVEN)

    # Scrap: 1 percent at the saw and at the mill (30), 2 percent at the turning (50), rounded up at each.
    turned = math.ceil(quantity / (1 - f("0.02")))
    milled = math.ceil(turned / (1 - f("0.01")))
    started = math.ceil(milled / (1 - f("0.01")))
    starts = [started] + [milled] * 2 + [turned] * 2 + [quantity] * 5
    # Bars of 3000 mm, 10 mm trimmed, 60 mm held; pieces of 148.3 + 1.6 mm: (3000 - 10 - 60) / 149.9 = 19.5.
    pitch = f("149.9")
    per_bar = math.floor((3000 - 10 - 60) / pitch)
    assert per_bar == 19
    bars = math.ceil(started / per_bar)
    # Mass of a metre: π/4 · 2² cm² · 100 cm · 7.85 g/cm³, in kg to nine decimals.
    density = f(DENSITY)
    per_metre = Fraction(round(PI * density / 10 * 10**9), 10**9)
    price = per_metre * f("1.92")
    add("material", bars * 3 * price)
    left = (3000 - 10 - (started - (bars - 1) * per_bar) * pitch) / 1000
    kept = left if left >= f("0.3") else 0
    add("remnant kept", -kept * price)
    scrap = (bars * 3 - kept) * per_metre - quantity * f("0.335")
    add("scrap sold", -max(scrap, 0) * f("0.14"))
    # Minutes for a piece, and the cutting minutes that wear tools.
    nine = lambda exact: Fraction(round(Fraction(exact) * 10**9), 10**9)  # noqa: E731
    section = PI / 4 * f("2.0") ** 2  # cm², at the upper limit 20.000 mm
    saw = nine(section / 20)
    flats = nine(2 * f("40") / 300)
    knurl = nine(f("30") / 60)
    turn = nine(2 * f("14") / (f("0.2") * 1800))
    # Drill of 5 mm, 118°: 16 + 2 mm and the point 2.5 / tan 59° = 1.502151547588 mm, at 0.1 · 1500 mm/min.
    drill = nine((18 + f("1.502151547588")) / 150)
    # Tap: 15 mm in and out at a pitch of 1 mm and 500 rev/min.
    tap = nine(2 * f("15") / 500)
    work = [
        (1, "saw", "38.5", 15, saw + f("0.3"), [("bimetal band, 10/14 teeth", saw / 2400 * 36, 0)]),
        (2, "deburr", "42", 0, f("0.25"), []),
        (3, "mill flats", "58.3", 33, flats + f("0.8"), [("a 16 mm end mill", flats / 90 * f(62 + 3 * 14) / 4, flats / 90 * 6)]),
        (4, "knurl", "64.5", 12, knurl + f("0.4"), [("two straight wheels", f(48) / 4000, 0)]),
        (5, "turn", "64.5", 45, turn + f("0.3"), [("a carbide insert", turn / 15 * f("9.6") / 4, turn / 15 * 2)]),
        (6, "drill", "64.5", 12, drill, [("a 5 mm drill", f("6.2") / 200, 0)]),
        (7, "tap", "64.5", 12, tap, [("a spiral-flute tap", f(34) / 300, 0)]),
        (8, "deburr", "42", 0, f("0.2"), []),
        (9, "press", "42", 15, f("0.6"), []),
    ]
    for (place, title, rate, setup, minutes, tools), started_here in zip(work, starts, strict=False):
        number = 10 * place
        rate = f(rate)
        if setup:
            add(f"set-up {number}, {title}", setup * rate / 60)
        add(f"run {number}, {title}", started_here * minutes * rate / 60)
        for tool, wear, change in tools:
            add(f"tool {number}, {tool}", started_here * wear)
            if change:
                add(f"tool change {number}, {tool}", started_here * change * rate / 60)
    inspected = 1 + (quantity - 1) // 10
    add("run 100, inspect", inspected * 3 * f(42) / 60)
    add("outside: zinc plating", max(f(85), quantity * f("0.62")))
    add("freight: zinc plating", f("12.5"))
    # From saw to bench, mill, lathe (knurl, turn, drill, tap) and bench (deburr, press, inspect): 4 moves of 4 minutes.
    add("moves", 4 * 4 * f(42) / 60)
    add("order handling", 18)
    manufacturing = sum(lines.values())
    add("administration", Fraction(manufacturing) * f("0.08"))
    cost = sum(lines.values())
    add("margin", Fraction(cost) * f("0.2") / f("0.8"))
    if sum(lines.values()) < 150:
        lines["minimum charge"] = 150 - sum(lines.values())
    lot = sum(lines.values())
    each = cents(Fraction(lot) / quantity, ROUND_HALF_EVEN)
    lines["rounding"] = each * quantity - lot
    return lines, each, each * quantity, started


# The density of SAE 1045 in the library's table of materials.
DENSITY = "7.85"


@pytest.mark.parametrize("quantity", [1, 25, 500])
def test_the_axle_is_worked_out_by_hand(quantity):
    lines, each, total, started = axle_by_hand(quantity)
    (quote,) = tenths.Plan.from_json(AXLE).quote([quantity])
    assert {line.name: line.amount for line in quote.lines} == lines
    assert (quote.price_each, quote.total, quote.start_quantity) == (each, total, started)


def pin_by_hand(quantity):
    """The pin, step by step from the document: inch, 1/2 in bar, half up, the price of the lot governs."""
    lines = {}

    def add(name, exact):
        lines[name] = cents(exact, ROUND_HALF_UP)

    # Scrap: 2 percent at the knurl (operation 3), 1 percent at the mill (operation 4), rounded up at each.
    milled = math.ceil(quantity / (1 - f("0.01")))
    started = math.ceil(milled / (1 - f("0.02")))
    starts = [started] * 3 + [milled] + [quantity] * 6
    # Bars of 144 in, 1/2 in trimmed, 4 in held; pieces of 1.760 + 1/32 + 0.042 in: 139.5 / 1.83325 = 76.1.
    pitch = f("1.76") + Fraction(1, 32) + f("0.042")
    per_bar = math.floor(f("139.5") / pitch)
    assert per_bar == 76
    bars = math.ceil(started / per_bar)
    add("material", bars * f("13.4"))
    left = f("143.5") - (started - (bars - 1) * per_bar) * pitch
    kept = left if left >= 24 else 0
    add("remnant kept", -kept * f("13.4") / 144)
    nine = lambda exact: Fraction(round(Fraction(exact) * 10**9), 10**9)  # noqa: E731
    saw = nine(PI / 16 / 2)
    knurl = nine(f("0.75") / 6)
    mill = nine(1 / f("6.3"))
    face = nine(2 * f("0.25") / 10)
    # Drill of 0.201 in, 118°: 0.5 + 0.1 in and the point 0.1005 / tan 59° = 0.060386492 in, at 0.004 · 1500 in/min.
    drill = nine((f("0.6") + f("0.060386492213")) / 6)
    # Tap of 20 threads an inch: 0.5 in in and out at 450 rev/min.
    tap = nine(2 * f("0.5") * 20 / 450)
    # The minutes of an operation are kept to nine decimals as a whole: handling is a short decimal.
    work = [
        (1, "saw", f(46), 12, saw + f("0.2"), [("a bimetal band, 14/18 teeth an inch", saw / 2400 * 41, 0)]),
        (2, "deburr", f("52.25"), 0, f("0.2"), []),
        (3, "knurl", f("84.5"), 25, knurl + f("0.3"), [("a straight wheel of 96 diametral pitch", f(38) / 2500, 0)]),
        (4, "mill flats", f("92.75"), 40, mill + f("0.6"), [("a 3/8 in end mill", mill / 60 * f("27.5"), mill / 60 * 5)]),
        (5, "face", f("84.5"), 15, face + f("0.3"), [("a carbide insert", face / 20 * f("11.2") / 3, face / 20 * f("1.5"))]),
        (6, "drill", f("84.5"), 15, drill, [("a No. 7 drill", f("5.85") / 250, 0)]),
        (7, "tap", f("84.5"), 15, tap, [("a spiral-flute tap", f(29) / 200, 0)]),
        (8, "deburr", f("52.25"), 0, f("0.15"), []),
        (9, "press", f("52.25"), 20, f("0.5"), []),
    ]
    for (place, title, rate, setup, minutes, tools), started_here in zip(work, starts, strict=False):
        number = 10 * place
        if setup:
            add(f"set-up {number}, {title}", setup * rate / 60)
        add(f"run {number}, {title}", started_here * minutes * rate / 60)
        for tool, wear, change in tools:
            add(f"tool {number}, {tool}", started_here * wear)
            if change:
                add(f"tool change {number}, {tool}", started_here * change * rate / 60)
    inspected = 1 + (quantity - 1) // 5
    add("run 100, inspect", inspected * f("1.5") * f("52.25") / 60)
    # From saw to bench, lathe, mill, lathe (face, drill, tap) and bench: 5 moves of 5 minutes.
    add("moves", 5 * 5 * f("52.25") / 60)
    add("order handling", 25)
    add("administration", Fraction(sum(lines.values())) / 10)
    add("markup", Fraction(sum(lines.values())) / 4)
    if sum(lines.values()) < 200:
        lines["minimum charge"] = 200 - sum(lines.values())
    lot = sum(lines.values())
    each = cents(Fraction(lot) / quantity, ROUND_HALF_UP)
    return lines, each, lot, each * quantity - lot


@pytest.mark.parametrize("quantity", [1, 25, 500])
def test_the_pin_is_worked_out_by_hand(quantity):
    lines, each, total, residue = pin_by_hand(quantity)
    (quote,) = tenths.Plan.from_json(PIN).quote([quantity])
    assert {line.name: line.amount for line in quote.lines} == lines
    assert (quote.price_each, quote.total, quote.residue) == (each, total, residue)


def spindle_by_hand(quantity):
    """The spindle, step by step from the document: metric, 45 mm bar, half up, the price of the lot governs, starts rolled."""
    lines = {}

    def add(name, exact):
        lines[name] = cents(exact, ROUND_HALF_UP)

    # Scrap: 1 percent at the thread (90) and the heat treatment (190), 2 percent at each grind (210 to 230), rounded up once.
    ground = [math.ceil(quantity / f("0.98") ** grinds) for grinds in (3, 2, 1)]
    hardened = math.ceil(quantity / f("0.98") ** 3 / f("0.99"))
    threaded = math.ceil(quantity / f("0.98") ** 3 / f("0.99") ** 2)
    # Bars of 3000 mm, 10 mm trimmed, 50 mm held; pieces of 155.3 + 2 + 1.6 mm: 2940 / 158.9 = 18.5.
    pitch = f("158.9")
    bars = math.ceil(threaded / 18)
    add("material", bars * 3 * f("24.6"))
    left = (2990 - (threaded - (bars - 1) * 18) * pitch) / 1000
    add("remnant kept", -(left if left >= f("0.5") else 0) * f("24.6"))
    nine = lambda exact: Fraction(round(Fraction(exact) * 10**9), 10**9)  # noqa: E731
    # Cutting minutes: travels over feeds. The saw goes through π/4 · 4.5² cm².
    saw = nine(PI / 4 * f("4.5") ** 2 / 20)
    face = nine(f("22.5") / (f("0.2") * 1000))
    # The centre: 2 mm of approach, 4 mm of pilot, and the cone of 60° from 3.15 to 6.7 mm, 1.775 / tan 30° = 3.074390183 mm.
    centre = nine((2 + 4 + f("3.074390183434758")) / 50)
    turned = {
        40: nine(f(107) / (f("0.2") * 1000)),
        50: nine(2 * f(95) / (f("0.25") * 1200)),
        60: nine(f(60) / (f("0.25") * 1500)),
        70: nine(2 * f(20) / (f("0.2") * 1700)),
        120: nine(4 * f(52) / (f("0.25") * 1000)),
        130: nine(2 * f(22) / (f("0.2") * 1500)),
    }
    groove = nine(f("1.175") / (f("0.08") * 1500))
    thread = nine(8 * f(20) / (f("1.5") * 1200))
    keyseat, flats = nine(3 * f("20.1") / 190), nine(2 * f(36) / 380)
    # Drill of 5 mm, 118°: 2 + 20 + 1.5 mm and the point 2.5 / tan 59° = 1.502151547588 mm.
    drill = nine((f("23.5") + f("1.502151547588")) / (f("0.12") * 1270))
    # Grinding: 0.19575 / 0.01 is 20 passes and 4 to spark out, 0.20325 / 0.01 is 21 and 3.
    grinds = [nine(24 * f(43) / 2100), nine(24 * f(48) / 2500), nine(24 * f(38) / 2100)]

    def insert(minutes):
        return [("a carbide insert", minutes / 15 * f("8.9") / 4, minutes / 15 * 2)]

    lathe, mill, bench, grinder = f("61.5"), f("57.3"), f("39.6"), f("66.4")
    tip = [("a 3.15 mm centre drill", f("4.8") / 400, 0)]
    slotter = [("an 8 mm slot drill of carbide", keyseat / 45 * f(24 + 2 * 9) / 3, keyseat / 45 * 4)]
    cutter = [("a 16 mm end mill", flats / 90 * f(62 + 3 * 14) / 4, flats / 90 * 6)]
    wheel = [("a 400 mm aluminium oxide wheel", f(145) / 6000, 0)]
    threader = [("a threading insert", f("14.2") / 3 / 120, f(3) / 120)]
    groover = [("a 3 mm grooving insert", f("11.5") / 2 / 150, 0)]
    band = [("a bimetal band, 5/8 teeth", saw / 2000 * 44, 0)]
    work = [
        (10, "saw", f("34.8"), 10, saw + f("0.4"), band, threaded),
        (20, "face", lathe, 45, face + f("0.4"), insert(face), threaded),
        (30, "center drill", lathe, 0, centre, tip, threaded),
        *((number, "turn", lathe, 0, turned[number], insert(turned[number]), threaded) for number in (40, 50, 60, 70)),
        (80, "groove", lathe, 0, groove, groover, threaded),
        (90, "turn thread", lathe, 0, thread + f("0.3"), threader, threaded),
        (100, "face", lathe, 20, face + f("0.4"), insert(face), hardened),
        (110, "center drill", lathe, 0, centre, tip, hardened),
        *((number, "turn", lathe, 0, turned[number], insert(turned[number]), hardened) for number in (120, 130)),
        (140, "keyseat", mill, 25, keyseat + f("0.8"), slotter, hardened),
        (150, "mill flats", mill, 10, flats + f("0.5"), cutter, hardened),
        (160, "drill", mill, 5, drill, [("a 5 mm drill", f("6.2") / 150, 0)], hardened),
        (170, "deburr", bench, 0, f("0.9"), [], hardened),
        (210, "grind", grinder, 30, grinds[0] + f("0.6"), wheel, ground[0]),
        (220, "grind", grinder, 5, grinds[1], wheel, ground[1]),
        (230, "grind", grinder, 10, grinds[2] + f("0.6"), wheel, ground[2]),
    ]
    for number, title, rate, setup, minutes, tools, started in work:
        if setup:
            add(f"set-up {number}, {title}", setup * rate / 60)
        add(f"run {number}, {title}", started * minutes * rate / 60)
        for tool, wear, change in tools:
            add(f"tool {number}, {tool}", started * wear)
            if change:
                add(f"tool change {number}, {tool}", started * change * rate / 60)
    add("run 180, wash", math.ceil(hardened / 20) * 12 * bench / 60)
    add("set-up 190, heat treat", 20 * f(48) / 60)
    add("run 190, heat treat", math.ceil(hardened / 40) * 300 * f(48) / 60)
    add("cost 240, outside", quantity * f("2.4"))
    add("run 250, inspect", (1 + (quantity - 1) // 4) * 6 * bench / 60)
    add("outside: electroless nickel", max(f(60), ground[0] * f("1.35")))
    add("freight: electroless nickel", 15)
    # Saw, lathe, mill, bench, furnace, nickel, grinder, crack test, bench: 8 moves of 5 minutes.
    add("moves", 8 * 5 * bench / 60)
    add("order handling", 22)
    add("administration", Fraction(sum(lines.values())) * f("0.07"))
    add("markup", Fraction(sum(lines.values())) * f("0.3"))
    lot = sum(lines.values())
    each = cents(Fraction(lot) / quantity, ROUND_HALF_UP)
    return lines, each, lot, threaded


@pytest.mark.parametrize("quantity", [1, 25, 500])
def test_the_spindle_is_worked_out_by_hand(quantity):
    lines, each, total, started = spindle_by_hand(quantity)
    (quote,) = tenths.Plan.from_json(SPINDLE).quote([quantity])
    assert {line.name: line.amount for line in quote.lines} == lines
    assert (quote.price_each, quote.total, quote.start_quantity) == (each, total, started)


def test_rates_may_stand_beside_the_plan():
    document = json.loads(AXLE)
    rates = document.pop("rates")
    bare, full = tenths.Plan.from_json(json.dumps(document)), tenths.Plan.from_json(AXLE)
    with pytest.raises(tenths.DomainError, match="the plan has no rates"):
        bare.quote(10)
    quoted = bare.quote([10, 100], rates)
    assert [quote.total for quote in quoted] == [quote.total for quote in full.quote([10, 100])]
    assert quoted == bare.quote((10, 100), json.dumps(rates))
    exact = copy.deepcopy(rates)
    exact["machines"][0]["rate"] = Decimal("38.5")
    exact["material"]["remnant_kept_from"] = tenths.Size("300 mm")
    assert bare.quote([10, 100], exact) == quoted
    rates["machines"][0]["rate"] = float("nan")
    with pytest.raises(ValueError, match="not JSON compliant"):
        bare.quote(10, rates)
    with pytest.raises(TypeError, match="numbers, text, Decimal or Size"):
        bare.quote(10, {"currency": {1}})


def test_a_price_list_is_a_sequence_of_quotes():
    quoted = tenths.Plan.from_json(AXLE).quote(range(10, 40, 10))
    assert len(quoted) == 3
    assert [quote.quantity for quote in quoted] == [10, 20, 30]
    assert quoted[-1] == quoted[2] == quoted.quotes[2] and quoted[0] != quoted[1]
    with pytest.raises(IndexError, match="there are 3 quotes"):
        quoted[3]
    assert pickle.loads(pickle.dumps(quoted)) == quoted == copy.copy(quoted)
    assert type(quoted[0].total) is Decimal and quoted[0].total.as_tuple().exponent == -2
    assert str(quoted[0]) == f"Quote: 10 at {quoted[0].price_each} EUR each, {quoted[0].total} EUR in all"
    plain = quoted[0].to_dict()
    assert plain["total"] == str(quoted[0].total) and plain["lines"][0]["kind"] == "material"
    assert json.loads(json.dumps(plain)) == plain
    assert str(quoted[0].total) in quoted[0]._repr_html_() and "Roller axle" in quoted._repr_html_()
    assert quoted.cautions and not quoted.findings


def test_a_price_list_prints():
    quoted = tenths.Plan.from_json(SPINDLE).quote([1, 25, 500])
    markdown, page = quoted.to_markdown(), quoted.to_html()
    assert markdown.startswith("# Quote: Belt spindle (BS-30-155)") and "Amounts are in GBP, each line rounded once, half up." in markdown
    assert page.startswith("<!DOCTYPE html>") and "@page" in page and "://" not in page
    for quote in quoted:
        for text in (markdown, page):
            assert f"{quote.quantity} piece" in text and str(quote.total) in text and str(quote.price_each) in text
        assert all(str(line.amount) in page for line in quote.lines)


@pytest.mark.libraries
def test_a_quote_is_a_frame_of_its_lines():
    quote = tenths.Plan.from_json(AXLE).quote(25)[0]
    frame = quote.to_frame()
    assert list(frame["name"]) == [line.name for line in quote.lines]
    assert frame["amount"].sum() == quote.total
    assert list(tenths.Plan.from_json(AXLE).quote([1, 25]).to_frame()["quantity"]) == [1, 25]


def test_routings_and_what_moves_a_price():
    axle, document = tenths.Plan.from_json(AXLE), json.loads(AXLE)
    document["rates"]["order_handling"] = 200
    document["rates"]["machines"][2]["rate"] = 40
    other = tenths.Plan.from_json(json.dumps(document))
    compared = axle.break_even(other, 60)
    for stretch in compared.stretches:
        for quantity in (stretch.from_quantity, stretch.to_quantity):
            first, second = axle.quote(quantity)[0].total, other.quote(quantity)[0].total
            assert stretch.cheaper == ("first" if first < second else "second" if second < first else "neither")
    drivers = axle.price_drivers(25, change=0.1)
    assert drivers.total == axle.quote(25)[0].total
    assert [row.swing for row in drivers.drivers] == sorted((row.swing for row in drivers.drivers), reverse=True)
    document["rates"]["order_handling"], document["rates"]["machines"][2]["rate"] = 18, 64.5 * 1.1
    lathe = next(row for row in drivers.drivers if row.name == "lathe, rate")
    assert axle.quote(25, document["rates"])[0].total == lathe.high
    lot = axle.economic_lot(1000, 0.25)
    assert lot.quantity * lot.lots == pytest.approx(1000) and type(lot.lot_cost) is Decimal


@pytest.mark.parametrize("quantities", ["25", 2.5, [2.5], True, None, [True]])
def test_quantities_are_whole_numbers(quantities):
    with pytest.raises(TypeError, match="whole number"):
        tenths.Plan.from_json(AXLE).quote(quantities)


def test_quantities_of_numpy_are_taken():
    import numpy

    quoted = tenths.Plan.from_json(AXLE).quote(numpy.array([1, 25]))
    assert [quote.quantity for quote in quoted] == [1, 25]
    assert tenths.Plan.from_json(AXLE).quote(numpy.int64(25))[0] == quoted[1]


def two_ways():
    document = json.loads(AXLE)
    light = json.loads(AXLE)["operations"]
    light[4].update(setup=5, handling=1.3)
    return document | {"routing": "chucker", "routings": [{"name": "light lathe", "operations": light}]}


def test_routings_of_one_plan_are_plans_side_by_side():
    ways = tenths.Plan.from_json(json.dumps(two_ways()))
    light = ways.routings["light lathe"]
    assert list(ways.routings) == ["light lathe"] and light.routings == {}
    assert pickle.loads(pickle.dumps(light)) == light and pickle.loads(pickle.dumps(ways)) == ways
    compared = ways.compare_routings(25, 200)
    assert compared.quantity == 25 and compared.currency == "EUR"
    for row, plan in zip(compared.routings, (ways, light), strict=True):
        quote = plan.quote(25)[0]
        assert (row.total, row.price_each, row.hours) == (quote.total, quote.price_each, quote.hours)
        assert type(row.total) is Decimal and row.errors == 0
        assert row.minutes_per_part == plan.evaluate().to_dict()["minutes_per_part"]
    assert [stretch.cheapest for stretch in compared.stretches][::len(compared.stretches) - 1] == ["light lathe", "chucker"]
    for stretch in compared.stretches:
        for quantity in (stretch.from_quantity, stretch.to_quantity):
            cheaper = ways.quote(quantity)[0].total <= light.quote(quantity)[0].total
            assert stretch.cheapest == ("chucker" if cheaper else "light lathe")
    assert ways.compare_routings().quantity == 250
    with pytest.raises(tenths.DomainError, match="any quantity from 1 to 100000 pieces"):
        ways.compare_routings(up_to=0)
    with pytest.raises(tenths.DomainError, match="/routings/0/operations/4/depth"):
        broken = two_ways()
        broken["routings"][0]["operations"][4]["depth"] = -1
        tenths.Plan.from_json(json.dumps(broken))


def test_the_range_of_a_price_has_the_same_bits_for_a_seed():
    axle = tenths.Plan.from_json(AXLE)
    varying = {"/rates/machines/2/rate": "64.5 ±6", "/operations/9/time": (3, 1, -1)}
    told = axle.price_range(25, varying, 400, seed=3)
    assert told == axle.price_range(25, varying, 400, seed=3, threads=2)
    assert told != axle.price_range(25, varying, 400, seed=4)
    assert told.planned == axle.quote(25)[0].total and type(told.planned) is Decimal
    assert [row.percent for row in told.percentiles] == [5, 10, 25, 50, 75, 90, 95]
    assert told.minimum < told.percentiles[0].total < told.planned < told.percentiles[-1].total < told.maximum
    spread = axle.propagate(varying, 400, seed=3, outputs=["/quote/price_each"])["outputs"][0]["spread"]
    assert spread["mean"] > 0
    with pytest.raises(tenths.DomainError, match="there is nothing at"):
        axle.price_range(25, {"/rates/machines/8/rate": "64 ±6"}, 10)
    with pytest.raises(tenths.DomainError, match="1 to 1000000 samples"):
        axle.price_range(25, varying, 2_000_000)


def test_learning_lowers_the_running_time_of_its_operations_alone():
    rates = json.loads(AXLE)["rates"]
    plain = tenths.Plan.from_json(AXLE).quote(100, rates)[0]
    rates["learning"] = [{"operations": [50], "model": "cumulative_average", "rate": Decimal("0.9")}]
    learnt = tenths.Plan.from_json(AXLE).quote(100, rates)[0]
    changed = [one.name for one, other in zip(plain.lines, learnt.lines, strict=True) if one.basis != other.basis]
    assert changed[0] == "run 50, turn" and learnt.total < plain.total
    assert sum(line.amount for line in learnt.lines) == learnt.total
