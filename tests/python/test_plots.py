"""Pictures with matplotlib: what is drawn is what the objects say."""

import sys

import numpy as np
import pytest
import tenths
from tenths import metric

pytestmark = pytest.mark.libraries


@pytest.fixture(autouse=True)
def pyplot():
    import matplotlib

    matplotlib.use("Agg")
    from matplotlib import pyplot

    yield pyplot
    pyplot.close("all")


def drawn(ax):
    ax.figure.canvas.draw()
    return [text.get_text() for text in ax.texts]


def test_a_sample_shows_its_counts_mean_and_limits(pyplot):
    stack = metric.Stack()
    stack.add("gap", 1, 0.1, -0.1)
    sample = stack.sample(10_000, 1, limits=(0.95, None))
    _, own = pyplot.subplots()
    ax = sample.plot(own, bins=20)
    assert ax is own and np.array_equal(ax.patches[0].get_data().values, sample.histogram(20)[0])
    assert sorted(line.get_xdata()[0] for line in ax.lines) == sorted([sample.mean, 0.95])
    drawn(ax)


def test_a_propagation_shows_what_contributes_the_most_first():
    inputs = {"diameter": (20, 0.1, -0.1), "spindle_speed": (1000, 5, -5)}
    found = metric.propagate(metric.surface_speed, inputs)
    ax = found.plot()
    shares = [bar.get_width() for bar in ax.patches]
    assert shares == sorted(found.moments.contributions.values()) and len(drawn(ax)) == 2


def test_a_fit_shows_both_zones_in_its_unit():
    fit = tenths.Fit("25 H7/g6")
    ax = fit.plot()
    ends = [(round(bar.get_y(), 6), round(bar.get_y() + bar.get_height(), 6)) for bar in ax.patches]
    assert ends == [(0, 21), (-20, -7)] and drawn(ax) == ["+21", "0", "-7", "-20"]
    assert fit.plot(unit="in").get_ylabel().endswith("in")


def test_a_capability_shows_its_law_between_the_limits():
    readings = np.random.default_rng(1).normal(10, 0.01, 125)
    found = metric.capability(readings, (9.95, None))
    ax = found.plot()
    curve = ax.lines[0]
    assert curve.get_xdata()[curve.get_ydata().argmax()] == pytest.approx(found.mean)
    assert [line.get_xdata()[0] for line in ax.lines[2:]] == [9.95]
    drawn(ax)


@pytest.mark.parametrize("kind", ["xbar_r", "xbar_s", "i_mr", "ewma", "cusum"])
def test_a_chart_marks_the_points_that_break_a_rule(kind, pyplot):
    readings = np.random.default_rng(1).normal(10, 0.01, (25, 5))
    readings[20] += 0.1
    chart = tenths.control_chart(kind, readings[:, 0] if kind == "i_mr" else readings)
    axes = np.atleast_1d(chart.plot())
    assert len(axes) == (2 if chart.dispersion else 1)
    broken = [point.number for point in chart.location.points if point.broken]
    assert broken and list(axes[0].lines[4].get_xdata()) == broken and len(drawn(axes[0])) == len(broken)
    if chart.dispersion:
        with pytest.raises(ValueError, match="needs 2 axes, not 1"):
            chart.plot(pyplot.subplots()[1])


def test_counts_have_a_chart_too():
    chart = tenths.control_chart("p", [3, 5, 2, 8], sizes=100)
    drawn(chart.plot())


def test_a_gauge_study_shows_shares_of_the_study_and_of_the_tolerance():
    readings = np.random.default_rng(1).normal(10, 0.01, (10, 3, 2)) + np.arange(10)[:, None, None] / 10
    study = tenths.gauge_study(readings)
    bars = [bar.get_height() for bar in study.plot().patches]
    parts = (study.gauge, study.repeatability, study.reproducibility, study.part)
    assert bars == [part.percent_of_study for part in parts]
    assert len(tenths.gauge_study(readings, tolerance=0.1).plot().patches) == 8


def test_without_matplotlib_a_plot_says_what_to_do(monkeypatch):
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    with pytest.raises(ImportError, match="a plot needs matplotlib"):
        tenths.Fit("25 H7/g6").plot()
