"""Decision rules judge numbers, text with a unit, and columns of them."""

import numpy
import pytest

import tenths
from tenths import Decision, Size, inch, metric

# By hand: a guard band of 0.0002 in at the limits 1.415 and 1.425 in. In floating point 1.425 - 0.0002 is not 1.4248.
RULE = Decision("1.420 ±.005 in", "0.0002 in", "ISO 14253-1:1998")
READINGS = [1.4147, 1.4148, 1.4151, 1.4152, 1.42, 1.4248, 1.4249, 1.4252, 1.4253]
GOOD, BAD, OPEN = "conforming", "not conforming", "indeterminate"
VERDICTS = [BAD, OPEN, OPEN, GOOD, GOOD, GOOD, OPEN, OPEN, BAD]


def test_numbers_are_judged_exactly_at_every_edge():
    assert [inch.judge(RULE, reading) for reading in READINGS] == VERDICTS
    assert inch.judge(RULE, READINGS).tolist() == VERDICTS
    assert inch.judge(RULE, numpy.array(READINGS, "f4")).tolist() == VERDICTS
    assert inch.judge(RULE, numpy.array(READINGS).reshape(3, 3)).ravel().tolist() == VERDICTS
    assert metric.judge(RULE, "1.4248 in") == metric.judge(RULE, 36.18992) == GOOD
    assert metric.judge(RULE, 36.18993) == OPEN
    # A tenth times a whole number, with 4e-11 in of noise.
    assert inch.judge(RULE, 1.42480000004) == OPEN
    assert inch.judge(RULE, 1.42480000004, resolution=0.0001) == inch.judge(RULE, 1.42480000004, "0.0001 in") == GOOD


def test_what_is_no_reading_gets_no_verdict():
    told = inch.judge(RULE, [numpy.nan, numpy.inf, -numpy.inf, 1.42, 1e300]).tolist()
    assert told == [None, None, None, GOOD, BAD]
    assert inch.judge(RULE, float("nan")) is None
    masked = inch.judge(RULE, numpy.ma.array([1.42, 1.42, 1.5], mask=[False, True, False]))
    assert masked.mask.tolist() == [False, True, False] and masked.compressed().tolist() == [GOOD, BAD]


def test_sizes_with_units_need_no_namespace():
    texts = [f"{reading} in" for reading in READINGS]
    assert [RULE.judge(text) for text in texts] == VERDICTS
    assert RULE.judge(texts).tolist() == RULE.judge([Size(text) for text in texts]).tolist() == VERDICTS
    assert RULE.judge(numpy.array(texts)).tolist() == inch.judge(RULE, texts).tolist() == VERDICTS
    assert RULE.judge(["1.42 in", None, float("nan")]).tolist() == [GOOD, None, None]
    assert RULE.judge([]).tolist() == [] and RULE.judge([Size("1.42 in"), "36.195 mm"]).tolist() == [GOOD, OPEN]


@pytest.mark.parametrize("given", [1.42, numpy.float32(1.42), [1.42], numpy.array([1.42]), {"a": 1}, object(), b"1.42 in"])
def test_a_number_without_a_unit_is_refused(given):
    with pytest.raises(TypeError, match="no unit: give text such as '10.05 mm', or numbers to tenths.metric.judge"):
        RULE.judge(given)


def test_a_refusal_names_its_row():
    with pytest.raises(tenths.DomainError, match="row 1: .*needs a unit"):
        RULE.judge(["1.42 in", "1.42"])
    with pytest.raises(tenths.DomainError, match="row 1: judge: readings: `1.42` needs a unit"):
        inch.judge(RULE, ["1.42 in", "1.42"])
    with pytest.raises(tenths.DomainError, match="must be greater than 0"):
        inch.judge(RULE, 1.42, resolution=0.0)
    with pytest.raises(TypeError, match="Decision"):
        inch.judge("1.420 ±.005 in", 1.42)


@pytest.mark.libraries
def test_a_column_keeps_its_index():
    import pandas

    index = [f"part {k}" for k in range(9)]
    column = pandas.Series(READINGS, index=index, name="diameter")
    for given in (column, column.astype("Float64"), column.astype(object), column.map(lambda reading: f"{reading} in")):
        told = inch.judge(RULE, given)
        assert told.tolist() == VERDICTS and told.index.equals(column.index) and told.name == "diameter"
    texts = column.map(lambda reading: f"{reading} in")
    assert RULE.judge(texts).equals(told) and RULE.judge(texts.astype("string")).equals(told)
    gaps = pandas.Series([1.42, None, 1.5], dtype="Float64")
    assert inch.judge(RULE, gaps).tolist() == [GOOD, None, BAD]
    frame = inch.judge(RULE, pandas.DataFrame({"a": column, "b": texts}))
    assert frame["a"].tolist() == frame["b"].tolist() == VERDICTS and list(frame.index) == index
    assert (inch.judge(RULE, column) == GOOD).sum() == 3


@pytest.mark.libraries
def test_other_libraries_keep_their_arrays():
    dask = pytest.importorskip("dask.array")
    frames = pytest.importorskip("dask.dataframe")
    pandas = pytest.importorskip("pandas")
    xarray = pytest.importorskip("xarray")
    pint = pytest.importorskip("pint")
    array = numpy.array(READINGS)
    assert inch.judge(RULE, dask.from_array(array, chunks=4)).compute().tolist() == VERDICTS
    lazy = inch.judge(RULE, frames.from_pandas(pandas.Series(array), npartitions=2))
    assert lazy.compute().tolist() == VERDICTS
    assert inch.judge(RULE, xarray.DataArray(array, dims="part")).values.tolist() == VERDICTS
    registry = pint.UnitRegistry()
    assert inch.judge(RULE, registry.Quantity(array, "inch")).tolist() == VERDICTS
    assert RULE.judge(registry.Quantity([36.195, 36.21], "mm")).tolist() == [OPEN, BAD]
