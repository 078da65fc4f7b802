"""What is taken for readings of statistics: lists, arrays, series and frames, and nothing that numpy only takes for them."""

import math

import numpy
import pytest
import tenths
from tenths import DomainError, Estimate, control_chart, metric

X = [10.0, 10.1, 9.9, 10.05]


def _calls(data):
    """Every call that takes a list of readings."""
    return (
        lambda: metric.capability(data, (9, 11)),
        lambda: metric.tool_drift(data, (9, 11)),
        lambda: control_chart("i_mr", data),
        lambda: tenths.gauge_bias(data, 10),
        lambda: tenths.gauge_stability(data),
        lambda: tenths.regression(data, X),
        lambda: Estimate.of_readings(data),
    )


@pytest.mark.parametrize("flag", [True, numpy.True_])
def test_true_is_not_a_reading(flag):
    for data in ([10.0, 10.1, flag, 9.9], (10, 11, flag, 12), numpy.array([10.0, 10.1, flag, 9.9], dtype=object)):
        for call in _calls(data):
            with pytest.raises(TypeError, match=": reading 3 must be a number, not .*True"):
                call()
    with pytest.raises(TypeError, match="data: reading 2, 1 must be a number"):
        control_chart("xbar_r", [[1.0, 2], [flag, 3]])
    with pytest.raises(TypeError, match="reading 1, 2, 1 must be a number"):
        tenths.gauge_study([[[1.0, 2], [flag, 3]], [[1, 2], [2, 3]]])
    with pytest.raises(TypeError, match="points: reading 2, 2 must be a number"):
        metric.fit_form("circle", [[1, 0], [0, flag], [-1, 0], [0, -1]])
    for call in _calls(numpy.array([True, False, True, False])):
        with pytest.raises(TypeError, match="true and false"):
            call()


@pytest.mark.parametrize(
    ("data", "why"),
    [
        ({10.0, 10.1, 9.9}, "not a set, which keeps no order"),
        ((reading for reading in X), r"must be a list or an array, not generator\. Fix: list\("),
        (dict.fromkeys(X).keys(), r"must be a list or an array, not dict_keys\. Fix: list\("),
        (dict(enumerate(X)).values(), r"not dict_values\. Fix: list\("),
        (None, "must be numbers, not None|must be .* not None"),
    ],
)
def test_what_has_no_places_is_not_a_list_of_readings(data, why):
    for call in _calls(data):
        with pytest.raises(TypeError, match=why):
            call()


def test_rows_of_one_reading_are_explained():
    for data in ([X], numpy.array([X])):
        with pytest.raises(DomainError, match="one reading in each of 4 columns. Fix: give one row as a plain list"):
            metric.capability(data, (9, 11))
    for call in (lambda: metric.fit_form("circle", [[1, 2], [3]]), lambda: metric.capability([[1, 2], [3]], (0, 9))):
        with pytest.raises(DomainError, match="rows of different lengths"):
            call()


@pytest.mark.libraries
def test_quantities_in_a_list_are_refused():
    pint = pytest.importorskip("pint")
    unit = pint.UnitRegistry().mm
    for call in _calls([x * unit for x in X]):
        with pytest.raises(TypeError, match="reading 1 must be a number, not .*Fix: give the magnitudes in one unit"):
            call()


@pytest.mark.libraries
def test_series_of_another_order_are_refused():
    import pandas

    x = pandas.Series([1.0, 2, 3, 4, 5, 6], index=list("abcdef"))
    y = 2 * x + pandas.Series([0.0, 0.1, 0, -0.1, 0, 0.1], index=x.index)
    labels = pandas.Series(list("uuvvww"), index=x.index)
    straight = lambda s: s  # noqa: E731
    turned = lambda s: s[::-1]  # noqa: E731
    calls = {
        "regression": lambda order: tenths.regression(x, order(y)),
        "attribute_zone": lambda order: tenths.attribute_zone(x, order(x * 0 + [0, 0.5, 1, 1, 0.5, 0]), 2, 5),
        "capability": lambda order: metric.capability(x, (0, 9), order(labels)),
        "capability of a frame": lambda order: metric.capability(pandas.DataFrame({"subgroup": x}), (0, 9), order(labels)),
        "capability of a dict": lambda order: metric.capability({"subgroup": x}, (0, 9), order(labels)),
        "tool_drift": lambda order: metric.tool_drift(y, (0, 20), order(x)),
        "subgroup": lambda order: control_chart("xbar_r", x, subgroup=order(labels)),
        "phases": lambda order: control_chart("i_mr", x, phases=order(labels.replace("w", "v"))),
        "sizes": lambda order: control_chart("p", x, sizes=order(x + 9)),
        "linearity": lambda order: tenths.gauge_linearity((x + 1) // 2, order(y)),
    }
    for name, call in calls.items():
        assert call(straight), name
        with pytest.raises(DomainError, match=r"have different indexes\. Fix: bring them into one order"):
            call(turned)
            pytest.fail(name)
    assert tenths.regression(x, turned(y).to_numpy()).slope < 0 < tenths.regression(x, list(y)).slope
    with pytest.raises(DomainError, match="4 labels of subgroups were given"):
        metric.capability(x, (0, 9), labels[:4])


@pytest.mark.libraries
def test_columns_of_one_name_are_refused():
    import pandas

    twins = pandas.DataFrame([[1, 2.0], [2, 3], [4, 3]], columns=["a", "a"])
    study = pandas.DataFrame([[1, 1, 2.0, 2.1]], columns=["part", "appraiser", "value", "value"])
    for call in (
        lambda: metric.capability(twins, (0, 9)),
        lambda: control_chart("xbar_r", twins),
        lambda: tenths.gauge_study(study),
        lambda: tenths.attribute_agreement(twins),
    ):
        with pytest.raises(DomainError, match="two columns are called '(a|value)'"):
            call()


@pytest.mark.libraries
def test_readings_of_single_precision_are_their_own_decimals_in_a_frame():
    import pandas

    single = numpy.array(X, numpy.float32)
    expected = metric.capability(X, (9, 11))
    for data in (single, pandas.Series(single), pandas.Series(single, dtype="Float32")):
        assert metric.capability(data, (9, 11)) == expected
    assert metric.capability(pandas.DataFrame({"a": single}), (9, 11))[0].cpk == expected.cpk


def test_series_and_frames_of_polars_are_taken():
    polars = pytest.importorskip("polars")
    for made, expected in zip(_calls(polars.Series(X)), _calls(X), strict=True):
        assert made() == expected()
    single, whole = polars.Series(X, dtype=polars.Float32), polars.Series([10, 12, 9])
    assert metric.capability(single, (9, 11)) == metric.capability(X, (9, 11))
    assert metric.capability(whole, (8, 13)) == metric.capability([10, 12, 9], (8, 13))
    table = polars.DataFrame({"a": X, "b": X[::-1]})
    assert [row.name for row in metric.capability(table, (9, 11), polars.Series(["u", "u", "v", "v"]))] == ["a", "b"]
    assert control_chart("xbar_r", table) == control_chart("xbar_r", table.to_numpy())
    for call in _calls(polars.Series([10.0, None, 9.9, 10])):
        with pytest.raises(DomainError, match="reading 2 (is NaN|must be a finite number)"):
            call()
    for call in _calls(polars.Series(["a", "b"])):
        with pytest.raises(TypeError, match="must be numbers, not String"):
            call()
    with pytest.raises(DomainError, match="subgroup: label 2 is missing"):
        metric.capability(X, (9, 11), polars.Series(["u", None, "v", "v"]))
    pytest.importorskip("pandas")
    rows = [(p, a, 10 + p + 0.1 * a + 0.01 * t * (a + p)) for p in range(3) for a in range(2) for t in range(2)]
    study = polars.DataFrame(rows, schema=["part", "appraiser", "value"], orient="row")
    readings = numpy.array([row[2] for row in rows]).reshape(3, 2, 2)
    assert tenths.gauge_study(study) == tenths.gauge_study(readings)


def test_a_missing_reading_is_still_told_by_its_place():
    for call in _calls([10.0, math.nan, 9.9, 10]):
        with pytest.raises(DomainError, match="reading 2"):
            call()
