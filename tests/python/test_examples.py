"""The examples in Python, run as a reader runs them, against figures from outside of them."""

import ast
import json
import math
import pathlib
import runpy
import subprocess
import sys

import numpy
import pytest

import tenths
from tenths import inch, metric

FOLDER = pathlib.Path(__file__).parents[2] / "examples/python"
NOTEBOOKS = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in sorted(FOLDER.glob("*.ipynb"))}


@pytest.fixture(scope="module")
def quote():
    return runpy.run_path(str(FOLDER / "quote.py"))


@pytest.fixture(scope="module")
def steps(quote):
    return {step.name: step for step in quote["work"](metric)}


def printed(*words):
    command = [sys.executable, FOLDER / "quote.py", *words]
    told = subprocess.run(command, capture_output=True, text=True, encoding="utf-8")
    assert told.returncode == 0, told.stderr
    return told.stdout.splitlines()


@pytest.fixture(scope="module")
def plan(quote, steps):
    return quote["plan"](metric, list(steps.values()))


def test_cuts_of_the_quote(steps):
    # An edge costs 9.60 / 6 = 1.60 and its change 2 min at 1.20 a minute: it should last
    # (1 / 0.25 - 1) · (2 + 1.6 / 1.2) = 10 min, at 230 / 10^0.25 = 129.34 m/min, on 22 mm 1871.4 rev/min.
    rough = steps["rough turn"]
    assert rough.edge_life == pytest.approx(10, rel=1e-9)
    assert rough.arguments["spindle_speed"] == pytest.approx(1871.4, abs=0.05)
    # 1.5 kW through 0.8 leaves 1.2 kW: 1775 · f^0.76 · 1.75 · 129.34 / 60 000 = 1.2 at f = 0.10413 mm.
    assert rough.cut.motor_power == pytest.approx(1.5, rel=1e-9)
    assert rough.arguments["feed_per_revolution"] == pytest.approx(0.10413, abs=5e-6)
    # The lathe stops at 2000 rev/min; the feed for Ra 1.6 µm is sqrt(32 · 0.8 · 0.0016) = 0.20239 mm. The edge at
    # 116.24 m/min lasts (290 / 116.24)^4 = 38.7 min.
    finish = steps["finish turn"]
    assert finish.arguments["spindle_speed"] == 2000
    assert finish.cut.feed_rate == pytest.approx(0.20239 * 2000, abs=0.02)
    assert finish.edge_life == pytest.approx(38.7, abs=0.05)
    # 21 m/min on 5 mm are 1336.9 rev/min, 106.95 mm/min.
    assert steps["drill hole"].cut.feed_rate == pytest.approx(106.95, abs=0.01)
    # Across a flat 3 deep on 18 mm, 2 · sqrt(3 · 15) = 13.416 mm; a cutter of 16 mm that cuts 14 wide first touches
    # with its foremost point, 8 mm before its centre.
    flat = steps["mill flat"]
    assert flat.travel == pytest.approx(13.416 + 8, abs=1e-3)
    assert flat.cut.motor_power == pytest.approx(0.75, rel=1e-9)


def test_what_bound_the_cuts_of_the_quote(steps):
    assert len(steps["rough turn"].notes) == 1 and "1.5 kW at most" in steps["rough turn"].notes[0]
    assert "2000 rev/min at most" in steps["finish turn"].notes[0]
    # Half of 0.08 mm under 59° is a chip of 0.0342867 mm.
    assert "chip_thickness is 0.03429 mm, but the source covers 0.05 mm" in steps["drill hole"].notes[-1]
    assert "chip_thickness" in steps["mill flat"].notes[-1]


def test_the_plan_of_the_quote_has_no_error(plan, steps):
    sheet = plan.evaluate()
    assert not [finding for finding in sheet.findings if finding.severity == "error"]
    # (3000 - 5 - 60) / (90.2 + 0.5 + 3) = 31.3.
    assert sheet.to_dict()["bar"]["parts_per_bar"] == 31
    # 92 mm at 0.10413 mm and 1871.4 rev/min, and at 0.20239 mm and 2000; a handling of 0.2 min is assumed.
    rough, finish = (one for one in sheet.to_dict()["operations"] if one["kind"] == "turn")
    assert rough["minutes_per_part"] == pytest.approx(0.2 + 0.4721, abs=5e-5)
    assert finish["minutes_per_part"] == pytest.approx(0.2 + 0.2273, abs=5e-5)


def test_the_price_list_of_the_quote(plan):
    prices = {quote.quantity: quote for quote in plan.quote([20, 80, 250])}
    # 80 / 0.99 are 81 started, 3 bars; 40 min at 72 an hour; 81 · 0.4721 min over 10 min are 3.824 edges of 1.60.
    amounts = {line.name: float(line.amount) for line in prices[80].lines}
    assert amounts["material"] == 93 and amounts["set-up 10, face"] == 48
    assert amounts["tool 20, roughing insert"] == pytest.approx(3.824 * 1.6, abs=0.005)
    for quote in prices.values():
        assert sum(line.amount for line in quote.lines) == quote.total == quote.quantity * quote.price_each
    assert prices[20].price_each > prices[80].price_each > prices[250].price_each


def test_the_quote_as_printed_is_the_same_in_both_units():
    one, other = printed("--units", "metric"), printed("--units", "inch")
    assert one[0] == other[0] == "80 shafts of SAE 4140, annealed"
    assert one[2].split() == ["rev/min", "mm/min", "kW"] and other[2].split() == ["rev/min", "in/min", "hp"]
    money = [[line for line in lines if line.startswith(("run", "total", "Quote"))] for lines in (one, other)]
    assert len(money[0]) == 12 and [line[:46] for line in money[0]] == [line[:46] for line in money[1]]


def run(notebook):
    """The names of a notebook and what its cells show, without a screen."""
    names, shown = {}, {}
    cells = {cell["id"]: "".join(cell["source"]) for cell in NOTEBOOKS[notebook]["cells"] if cell["cell_type"] == "code"}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("MPLBACKEND", "Agg")
        patch.chdir(FOLDER)
        for cell, source in cells.items():
            body = ast.parse(source).body
            last = body.pop() if isinstance(body[-1], ast.Expr) else None
            exec(compile(ast.Module(body, []), cell, "exec"), names)
            if last is not None:
                shown[cell] = eval(compile(ast.Expression(last.value), cell, "eval"), names)
    return names, shown


@pytest.fixture(scope="module")
def study():
    return run("fit_study")


@pytest.fixture(scope="module")
def batch():
    return run("batch_study")[0]


@pytest.mark.parametrize("notebook", NOTEBOOKS.values(), ids=NOTEBOOKS)
def test_a_notebook_keeps_no_results(notebook):
    assert (notebook["nbformat"], notebook["nbformat_minor"]) == (4, 5)
    assert len({cell["id"] for cell in notebook["cells"]}) == len(notebook["cells"])
    for cell in notebook["cells"]:
        assert cell["metadata"] == {}
        assert cell["cell_type"] == "markdown" or (cell["outputs"], cell["execution_count"]) == ([], None)


def test_fits_of_the_notebook(study):
    names, _ = study
    # ISO 286-2, over 18 to 30 mm, in micrometres: H7 0 to 21; n6 15 to 28, p6 22 to 35, r6 28 to 41, s6 35 to 48.
    lower = {"30 H7/n6": 15, "30 H7/p6": 22, "30 H7/r6": 28, "30 H7/s6": 35}
    assert names["names"] == list(lower)
    assert names["least"] == pytest.approx([(end - 21) / 1000 for end in lower.values()], abs=1e-12)
    assert names["greatest"] == pytest.approx([(end + 13) / 1000 for end in lower.values()], abs=1e-12)
    # Of one steel, p = δ · E · (D² - d²) / (2 · d · D²) after Lamé, with 0.8 · (6 + 4) µm lost to roughness. s6 at its
    # loosest: 0.006 · 205 000 · 2700 / 216 000 = 15.375 N/mm²; times 0.1 · π · 30² · 35 / 2, 76.08 N·m.
    assert names["joints"].torque[3] == pytest.approx(76.08, abs=0.005)
    assert list(names["joints"].torque[:3]) == [0, 0, 0]
    # At its tightest 0.04 mm are 102.5 N/mm², and with D² / d² = 4 von Mises at the bore is sqrt(5² + 5 · 3 + 3²) / 3
    # = 7 / 3 of it; the steel yields at 310.
    assert names["joints"].hub_yield_margin[3] == pytest.approx(310 / (102.5 * 7 / 3), rel=1e-9)


def test_joints_of_the_notebook_that_slip(study):
    names, shown = study
    pair = names["pairs"]["30 H7/s6"]
    # 150 N·m on a radius of 15 mm are 10 kN. The mean joint has 0.031 - 0.008 mm, 58.94 N/mm², and by the friction 0.13
    # on π · 30 · 35 mm² holds 25.27 kN.
    assert pair.nominal == pytest.approx(25_275 - 10_000, abs=5)
    # Force is k · δ · µ, k = 58.9375 · π · 1050 / 0.023; δ has σ of sqrt(21² + 13²) / 6 µm, µ of 0.03 / sqrt(3).
    squares = {
        "interference": (math.hypot(21, 13) / 6 / 23) ** 2,
        "holding_friction": (0.03 / math.sqrt(3) / 0.13) ** 2,
    }
    total = sum(squares.values())
    assert shown["sensitivity"] == {name: round(100 * square / total, 1) for name, square in squares.items()}
    assert shown["sensitivity"]["interference"] > 50
    # The share that slips, summed over 2000 strips of the friction: the interference is normal, and a joint slips
    # below 10 kN.
    k = 58.9375 * math.pi * 1050 / 0.023
    strips = [0.10 + 0.06 * (step + 0.5) / 2000 for step in range(2000)]
    sigma = math.hypot(0.021, 0.013) / 6
    share = sum(math.erfc((0.023 - 10_000 / (k * friction)) / sigma / math.sqrt(2)) / 2 for friction in strips) / 2000
    out = names["reserve"]["30 H7/s6"].fraction_out_at(1 - 1e-6)
    assert out.lower < share < out.upper and out.upper < 0.002


def test_the_gap_of_the_notebook(study):
    names, _ = study
    gap = names["gap"]
    # 60 - 2 · 15 - 29.75 and 60.1 - 2 · 14.88 - 29.65.
    assert (gap.worst_case().lower, gap.worst_case().upper) == ("0.25 mm", "0.69 mm")
    # Bearings as wide as 0.08 leave 0.47 ± (0.05 + 0.08 + 0.05), which ends at 0.65.
    assert gap.greatest_tolerance("bearing", names["wanted"]).to_float("mm") == pytest.approx(0.08, abs=1e-8)
    assert names["gaps"].fraction_out.value < 1e-3


def test_inspection_in_the_notebook(study):
    names, shown = study
    plug, ring = names["plug"], names["ring"]
    assert plug.part == tenths.Limits("30 H7") and ring.part == tenths.Limits("30 s6")
    for gauge in (plug, ring):
        assert gauge.part.contains(gauge.go.limits) and gauge.part.contains(gauge.no_go.limits)
    # A guard band moves risk from the customer to the shop.
    consumer, producer = list(names["consumer"]), list(names["producer"])
    assert consumer == sorted(consumer, reverse=True) and producer == sorted(producer)
    # ISO 14253-1 by the expanded uncertainty of 2 µm: 30.001 and 30.020 lie within it of a limit, 30.024 beyond one.
    assert list(shown["decision"].values()) == ["indeterminate", "conforming", "indeterminate", "not conforming"]


@pytest.mark.libraries
def test_the_notebook_agrees_with_other_libraries(study):
    import pandas as pd
    from scipy import integrate, stats

    names, shown = study
    assert isinstance(shown["fits"], pd.DataFrame) and list(shown["fits"].index) == names["names"]
    assert list(shown["fits"].columns[:2]) == ["hole", "shaft"]
    # σ = 0.7 · 21 / 4 µm about 2 µm above the middle; an error of 1 µm; JCGM 106 by quadrature.
    sizes = stats.norm(2, 3.675)

    def accepted(size):
        return stats.norm.cdf(10.5 - size) - stats.norm.cdf(-10.5 - size)

    ends = [(-30, -10.5), (10.5, 30)]
    bad = sum(integrate.quad(lambda x: sizes.pdf(x) * accepted(x), *end, limit=500)[0] for end in ends)
    good = integrate.quad(lambda x: sizes.pdf(x) * (1 - accepted(x)), -10.5, 10.5, limit=500)[0]
    assert (names["consumer"][0], names["producer"][0]) == pytest.approx((bad, good), rel=1e-7)


def test_the_first_article_of_the_batch(batch):
    article = batch["article"]
    assert article.accepted and article.verdicts[12].capability == 1.33
    # 15.934, 15.921 and 15.929: mean 15.928, s = sqrt((36 + 49 + 1) / 2) = 6.5574 thousandths; 28 / (3 · 6.5574).
    (finding,) = article.findings
    assert (finding.code, finding.severity) == ("capability_not_shown", "warning")
    assert "3 pieces have a Cpk of 1.423 " in finding.message
    assert batch["batch"].findings == ()


def test_the_gauge_of_the_batch(batch):
    # Analysis of variance with the interaction, in thousandths less 15.95.
    readings = numpy.array([[[-8, -7], [-7, -9]], [[-19, -20], [-19, -18]], [[18, 18], [20, 18]], [[5, 4], [4, 4]], [[-10, -9], [-10, -11]]])
    cells, parts, appraisers = readings.mean(2), readings.mean((1, 2)), readings.mean((0, 2))
    within = ((readings - cells[:, :, None]) ** 2).sum() / 10
    interaction = 2 * ((cells - parts[:, None] - appraisers + readings.mean()) ** 2).sum() / 4
    appraiser = 10 * ((appraisers - readings.mean()) ** 2).sum()
    variance = within + max(0, (interaction - within) / 2) + max(0, (appraiser - interaction) / 10)
    assert batch["study"].percent_of_tolerance == pytest.approx(6 * math.sqrt(variance), rel=1e-6)


def test_the_drift_and_the_capability_of_the_batch(batch):
    assert 1 in [broken.rule for broken in batch["chart"].location.broken]
    numbers, seats = numpy.arange(1, 150, 5), numpy.array(batch["seats"])
    slope, intercept = numpy.polyfit(numbers, seats, 1)
    spread = math.sqrt(((seats - intercept - slope * numbers) ** 2).sum() / 28)
    drift = batch["drift"]
    assert drift.drift_per_part == pytest.approx(slope, rel=1e-7)
    assert drift.parts_between_offsets == 1 + int((0.1 - 6 * 1.33 * spread) / slope)
    assert drift.offset == pytest.approx(15.95 - (0.1 - 6 * 1.33 * spread) / 2 - intercept - slope * 146, abs=1e-9)
    after = numpy.array(batch["after"])
    within = numpy.abs(numpy.diff(after)).mean() * math.sqrt(math.pi) / 2
    cpk = min(after.mean() - 15.9, 16 - after.mean()) / (3 * within)
    assert batch["made"].cpk == pytest.approx(cpk, rel=1e-9)
    assert batch["shown"] == pytest.approx(cpk - 1.6448536 * math.sqrt(1 / 450 + cpk**2 / 98), rel=1e-7)
    assert batch["shown"] > 1.33 and batch["made"].advice == ""
def test_lobes_show_the_speed_that_they_find(tmp_path):
    picture = tmp_path / "lobes.svg"
    for units in ("metric", "inch"):
        command = [sys.executable, FOLDER / "lobes.py", "--units", units, "--svg", picture]
        told = subprocess.run(command, capture_output=True, text=True, encoding="utf-8")
        assert told.returncode == 0, told.stderr
        assert "by estimated modes" in told.stdout and "8 segments in" in told.stdout
        assert picture.read_text(encoding="utf-8").startswith("<svg")
    lobes = runpy.run_path(str(FOLDER / "lobes.py"))
    cut = lobes["lobes"](metric)
    assert cut.depth(16500) < 2
    stable = cut.nearest_stable_speed(2, 16500, 6000, 24000)
    # Past the edge it stays stable, before it the cut chatters.
    away = 1 if stable.spindle_speed > 16500 else -1
    assert cut.depth(stable.spindle_speed * (1 + 0.002 * away)) > 2 > cut.depth(stable.spindle_speed * (1 - 0.002 * away))
