"""Capability of processes in Python: published figures, what is taken for data and limits, and what is refused."""

import csv
import math
import pickle

import numpy
import pytest
import tenths
from tenths import inch, metric

X = [10.02, 9.98, 10.05, 9.97, 10.01, 10.03, 9.99, 10.0, 10.04, 9.96, 10.02, 10.01]


def _cases():
    with open("tests/published/capability.csv", encoding="utf-8") as file:
        case = None
        for fields in csv.reader(file, delimiter=";"):
            if fields[0] == "case":
                case = fields
            elif not fields[0].startswith("#"):
                yield case, fields


def _number(text):
    return float(text) if text else None


def _capability(case):
    _, _, readings, lower, upper, size, target, sigma, confidence, law = case
    data = [float(x) for x in readings.split()]
    subgroup = int(size) if size else None
    limits = (_number(lower), _number(upper))
    return metric.capability(
        data, limits, subgroup, _number(target), sigma=sigma or None, law=law, confidence=float(confidence)
    )


@pytest.mark.parametrize("case, figure", list(_cases()))
def test_capabilities_meet_their_sources(case, figure):
    _, quantity, value, within, _, source = figure
    got = getattr(_capability(case), quantity)
    got = numpy.atleast_1d(numpy.array(tuple(got) if quantity.endswith("interval") else got, dtype=float))
    expected = numpy.array(value.split(), dtype=float)
    assert got.shape == expected.shape and numpy.all(abs(got - expected) <= float(within) * (1 + 1e-9)), source


def test_limits_come_in_every_form():
    plain = metric.capability(X, (9.9, 10.1))
    for limits in ("10 ±0.1 mm", tenths.Limits("10 ±0.1 mm"), ["9.9 mm", "10.1 mm"], (tenths.Size("9.9 mm"), 10.1)):
        assert metric.capability(X, limits) == plain
    assert metric.capability(numpy.array(X), (9.9, 10.1), target="10 mm").cpm == plain.cpm
    one = metric.capability(X, (None, 10.1))
    assert one.cp is None and one.cp_interval is None and one.cpm is None and one.cpk == one.cpu == plain.cpu
    assert inch.capability([x / 25.4 for x in X], "10 ±0.1 mm").cpk == pytest.approx(plain.cpk, rel=1e-9)
    assert plain.units == "metric" and plain.name is None and plain.sigma_rule == "moving range"


# The 2.5 and 97.5 percent points of chi-square for 11 degrees of freedom, 3.816 and 21.920, are printed in the NIST/SEMATECH
# e-Handbook, 1.3.6.7.4 (from memory).
def test_an_interval_unpacks():
    made = metric.capability(X, (9.9, 10.1), sigma="overall")
    low, high = made.cp_interval
    assert low == pytest.approx(made.cp * (3.816 / 11) ** 0.5, rel=2e-4)
    assert high == pytest.approx(made.cp * (21.920 / 11) ** 0.5, rel=2e-4)


def test_columns_without_readings_are_refused():
    for table in ({"a": [], "b": []}, {"a": []}):
        with pytest.raises(tenths.DomainError, match="column a: a capability needs 2 or more readings, not 0"):
            metric.capability(table, (0, 1))
    with pytest.raises(tenths.DomainError, match="column 0: a capability needs 2 or more readings, not 0"):
        metric.capability(numpy.empty((0, 3)), (0, 1))
    assert len(metric.capability({}, (0, 1))) == 0


def test_subgroups_by_size_and_by_label():
    by_size = metric.capability(X, (9.9, 10.1), 4)
    assert by_size.subgroups == 3 and by_size.sigma_rule == "mean range"
    by_label = metric.capability(X, (9.9, 10.1), list("aaaabbbbcccc"))
    assert by_label == by_size
    mixed = numpy.arange(12) % 3
    order = numpy.argsort(mixed, kind="stable")
    assert metric.capability(X, (9.9, 10.1), mixed).sigma_within == metric.capability(
        numpy.array(X)[order], (9.9, 10.1), 4
    ).sigma_within
    assert metric.capability(X, (9.9, 10.1), [1, 1, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4]).subgroups == 4


def test_a_table_gives_a_row_for_each_column():
    table = numpy.array(X)[:, None] + numpy.array([0.0, 1.0])
    made = metric.capability({"bore": table[:, 0], "shaft": table[:, 1]}, {"bore": (9.9, 10.1), "shaft": "11 ±0.1 mm"})
    assert isinstance(made, tenths.Rows) and [one.name for one in made] == ["bore", "shaft"]
    assert made[0].cpk == metric.capability(X, (9.9, 10.1)).cpk
    by_place = metric.capability(table, [(9.9, 10.1), (10.9, 11.1)])
    assert [one.cpk for one in by_place] == [one.cpk for one in made]
    assert [one.upper_limit for one in metric.capability(table, (9.5, 11.5))] == [11.5, 11.5]


@pytest.mark.libraries
def test_frames_go_in_and_out():
    import pandas

    frame = pandas.DataFrame({"bore": X, "width": [x / 2 for x in X]})
    made = metric.capability(frame, {"width": (4.9, 5.1), "bore": (9.9, 10.1)})
    shown = made.to_frame()
    assert list(shown["name"]) == ["bore", "width"] and shown["cpk"][0] == made[0].cpk
    assert metric.capability(frame["bore"], (9.9, 10.1)).cpk == made[0].cpk
    for dtype in ("float32", "int64", "Int64"):
        series = pandas.Series([1, 2, 4, 3, 2]).astype(dtype)
        assert metric.capability(series, (0, 5)).cpk == metric.capability([1, 2, 4, 3, 2], (0, 5)).cpk
    with pytest.raises(TypeError, match="must be numbers"):
        metric.capability(pandas.DataFrame({"bore": ["1", "x"]}), (0, 5))
    frame.loc[3, "bore"] = math.nan
    with pytest.raises(tenths.DomainError, match="column bore: reading 4 must be a finite number, not NaN"):
        metric.capability(frame, (0, 20))


@pytest.mark.parametrize(
    "arguments, message",
    [
        (([], (0, 1)), "2 or more readings"),
        (([1.0], (0, 1)), "2 or more readings"),
        (([1.0, math.nan], (0, 1)), "reading 2 must be a finite number, not NaN"),
        (([1.0, 1.0], (0, 2)), "all 2 readings are 1"),
        ((X, (10.1, 9.9)), "must be below"),
        ((X, (None, None)), "a lower limit, an upper limit or both"),
        ((X, 10.1), "limits must be a pair"),
        ((X, (9.9, 10.1), 5), "do not fill subgroups of 5"),
        ((X, (9.9, 10.1), 1), "2 or more"),
        ((X, (9.9, 10.1), [1, 2]), "one for each"),
        ((X, (9.9, 10.1), [1, *range(2, len(X)), len(X) - 1]), "subgroup 1 has one reading"),
        (({"a": X}, {"b": (0, 1)}), "no limits for 'a'"),
        (({"a": X}, {"a": (0, 20), "b": (0, 1)}), "no column for 'b'"),
        (({"a": X, "b": X[1:]}, (0, 20)), "same length"),
        (({"a": [1.0, 1.0]}, (0, 20)), "column a: all 2 readings are 1"),
        ((["1", "2"], (0, 20)), "must be numbers"),
    ],
)
def test_what_has_no_capability_is_refused(arguments, message):
    with pytest.raises((tenths.DomainError, TypeError), match=message):
        metric.capability(*arguments)


def test_options_are_refused_by_name():
    for option, message in [({"sigma": "range"}, "sigma must be moving range, mean"), ({"law": "gauss"}, "law must be normal")]:
        with pytest.raises(tenths.DomainError, match=message):
            metric.capability(X, (9.9, 10.1), **option)
    with pytest.raises(tenths.DomainError, match="0.95"):
        metric.capability(X, (9.9, 10.1), confidence=95)


def test_rows_of_a_table_are_those_of_each_column_alone():
    table = numpy.random.default_rng(7).normal(10, 0.01, (60, 19))
    rows = metric.capability(table, (9.95, 10.05))
    for k, row in enumerate(rows):
        alone = metric.capability(table[:, k], (9.95, 10.05))
        assert row.name == str(k) and {**row.to_dict(), "name": None} == alone.to_dict()
    again = metric.capability(numpy.asfortranarray(table), (9.95, 10.05))
    assert again == rows == pickle.loads(pickle.dumps(rows)) and hash(rows[3]) == hash(again[3])
    assert rows[3] != rows[4] and "Cpk" in str(again[5])


def test_limits_in_another_unit_are_noticed():
    readings = numpy.random.default_rng(8).normal(10, 0.01, 60)
    assert "in the same unit" in metric.capability(readings, (0.390, 0.398)).advice
    assert metric.capability(readings, (9.95, 10.05)).advice == ""
