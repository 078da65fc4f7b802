"""Readings of every type of number: each is its own shortest decimal, whatever holds it."""

import decimal
import fractions

import numpy
import pytest

import tenths
from tenths import Size, inch, metric

try:
    import pandas
except ModuleNotFoundError:  # then these tests are not chosen
    pandas = None

pytestmark = pytest.mark.libraries

LIMITS = "1.420 ±.005 in"
TEXTS = ["1.415", "1.425", "1.4149", "1.4251"]
GOOD = [True, True, False, False]
NARROW = [numpy.float32, numpy.longdouble, numpy.float64]


@pytest.mark.parametrize("kind", NARROW)
def test_one_reading_of_a_number_whatever_holds_it(kind):
    numbers = [kind(text) for text in TEXTS]
    array = numpy.array(numbers, kind)
    frame = pandas.DataFrame({"a": array, "b": array.astype(float).round(6)})
    masked = numpy.ma.array(array, mask=[False, False, False, True])
    assert [inch.accepts(LIMITS, number) for number in numbers] == GOOD
    assert [inch.accepts(LIMITS, numpy.array(number)) for number in numbers] == GOOD
    for several in (array, array[::-1][::-1], numbers, pandas.Series(array), array.astype(object), numpy.array(numbers, object)):
        if isinstance(several, numpy.ndarray) and several.dtype == object and not isinstance(several[0], kind):
            continue  # numpy has made floats of Python's of them
        assert list(inch.accepts(LIMITS, several)) == GOOD
    assert list(inch.accepts(LIMITS, frame)["a"]) == GOOD and list(inch.accepts(LIMITS, frame)["b"]) == GOOD
    mixed = frame.assign(c=["1.415 in", "1.425 in", "1.4149 in", "1.4251 in"])
    assert [list(inch.accepts(LIMITS, mixed)[column]) for column in "abc"] == [GOOD] * 3
    assert list(inch.accepts(LIMITS, masked).filled(False)) == GOOD
    assert inch.accepts(LIMITS, array.reshape(2, 2)).tolist() == [GOOD[:2], GOOD[2:]]
    index = pandas.Series(array, index=[7, 3, 5, 1], name="d")
    assert list(inch.accepts(LIMITS, index).index) == [7, 3, 5, 1]
    for text in ("1.415", "25.4", "0.1"):
        assert Size(kind(text), "in") == Size(text + " in")


def test_half_precision_is_its_own_shortest_decimal():
    # 1.415 and 1.425 have no nearer neighbours in half precision.
    array = numpy.array([1.415, 1.425, 1.426, numpy.nan], numpy.float16)
    assert [str(number) for number in array[:3]] == ["1.415", "1.425", "1.426"]
    assert inch.accepts(LIMITS, array).tolist() == [True, True, False, False]
    assert [bool(inch.accepts(LIMITS, number)) for number in array] == [True, True, False, False]
    assert Size(numpy.float16(1.415), "in") == "1.415 in"


def test_nullable_and_lazy_and_labelled_arrays_are_read_alike():
    dask = pytest.importorskip("dask.array")
    xarray = pytest.importorskip("xarray")
    single = numpy.array(TEXTS, numpy.float32)
    nullable = pandas.Series([*single, None], dtype="Float32")
    assert list(inch.accepts(LIMITS, nullable).fillna(False)) == [*GOOD, False]
    assert inch.accepts(LIMITS, dask.from_array(single, chunks=2)).compute().tolist() == GOOD
    assert inch.accepts(LIMITS, xarray.DataArray(single, dims="part")).values.tolist() == GOOD


def test_whole_numbers_decimals_and_fractions():
    for kind in (int, numpy.int8, numpy.uint64, numpy.int64, decimal.Decimal, fractions.Fraction):
        assert inch.accepts("2 ±0 in", kind(2)) and not inch.accepts("2 ±0 in", kind(3))
        assert list(inch.accepts("2 ±0 in", numpy.array([kind(2), kind(3)]))) == [True, False]
    assert inch.accepts(LIMITS, decimal.Decimal("1.425"))


def test_a_step_finer_than_a_picometre_reads_what_is_printed():
    assert inch.accepts(LIMITS, 1.425, resolution=1e-12) and not inch.accepts(LIMITS, 1.4251, resolution=1e-12)
    assert list(inch.accepts(LIMITS, numpy.array([1.425, 1.4251]), resolution=1e-12)) == [True, False]
    with pytest.raises(tenths.DomainError, match="must be greater than 0"):
        inch.accepts(LIMITS, 1.425, resolution=0.0)
    with pytest.raises(tenths.DomainError, match="must be greater than 0"):
        inch.accepts(LIMITS, 1.425, resolution=-1e-12)


def test_exact_arguments_of_formulas_are_read_alike():
    # 100 parts of 0.1 in the bar, to the last picometre.
    single, whole = numpy.float32(0.1), {"part_length": 0.1, "kerf": 0.0, "facing_allowance": 0.0}
    for bar in (numpy.float32(10.0), numpy.array([10.0], numpy.float32), pandas.Series([10.0], dtype="float32")):
        for part in (single, numpy.array([single]), pandas.Series([single])):
            given = {**whole, "part_length": part}
            assert float(numpy.max(inch.parts_per_bar(bar, given["part_length"], 0.0))) == 100.0


def test_stacks_read_single_precision_alike():
    single = [numpy.float32(number) for number in (1.42, 0.005, -0.005)]
    stacks = [inch.Stack().add("a", *numbers) for numbers in (single, (1.42, 0.005, -0.005))]
    assert stacks[0].worst_case() == stacks[1].worst_case()


def test_sizes_add_up():
    sizes = [Size("1 in"), Size("0.5 mm"), Size("7/16 in")]
    assert sum(sizes) == Size("37.0125 mm")
    assert sum([]) == 0 and sum(sizes, Size("1 mm")) == Size("38.0125 mm")
    for start in (1, 0.0, False + 2, None):
        with pytest.raises(TypeError):
            start + sizes[0]


@pytest.mark.parametrize(
    ("value", "kind"),
    [
        (None, "NoneType"),
        (tenths.Fit("25 H7/p6"), "Fit"),
        (tenths.Limits("1..2 mm"), "Limits"),
        ({"a": 1}, "dict"),
        (object(), "object"),
        (b"12 mm", "bytes"),
        (1j, "complex"),
        (numpy.array([1j]), "complex128"),
        (numpy.datetime64("2020-01-01"), "datetime64"),
    ],
)
def test_what_is_no_number_is_refused_by_its_argument(value, kind):
    for call in (metric.surface_speed, metric.surface_speed.check):
        with pytest.raises(TypeError, match=rf"surface_speed: 'diameter' must be a number, text such as '12 mm'.*{kind}"):
            call(value, 1000)
        with pytest.raises(TypeError, match="surface_speed: 'diameter' must be a number"):
            call(value, numpy.array([1000.0]))
    with pytest.raises(TypeError, match="accepts: 'readings' must be a number"):
        inch.accepts(LIMITS, value)


def test_a_fit_or_a_material_in_place_of_a_number_is_named():
    fit = tenths.Fit("25 H7/p6")
    rest = (25, 50, 30, 200, 0.3, 200, 0.3, 0.12)
    for value in (fit, (fit.hole, fit.shaft)):
        with pytest.raises(TypeError, match="press_fit: '?interference"):
            metric.press_fit(value, *rest)
    with pytest.raises(TypeError, match="specific_cutting_force: 'kc11' must be a number, text such as '12 MPa'"):
        metric.specific_cutting_force(metric.material("C45"), 0.1, 0.25)


def test_each_reading_may_have_limits_of_its_own():
    readings = [1.415, 1.425, 1.4149, 1.4251, 12.0, numpy.nan]
    texts = [LIMITS] * 4 + ["12 ±1 mm", LIMITS]
    good = [*GOOD, False, False]
    assert inch.accepts(texts, readings).tolist() == good
    assert inch.accepts([tenths.Limits(text) for text in texts], numpy.array(readings)).tolist() == good
    table = pandas.DataFrame({"limits": texts, "read": readings}, index=[9, 8, 7, 6, 5, 4])
    judged = inch.accepts(table["limits"], table["read"])
    assert judged.tolist() == good and judged.index.tolist() == [9, 8, 7, 6, 5, 4] and judged.name == "read"
    # By label, whatever the order.
    assert inch.accepts(table["limits"], table["read"].iloc[::-1])[[9, 8, 7, 6]].tolist() == GOOD
    assert metric.accepts(texts, 11.5).tolist() == [False] * 4 + [True, False]
    table.loc[8, "limits"] = None
    assert inch.accepts(table["limits"], table["read"]).tolist() == [True] + [False] * 5
    table.loc[7, "limits"] = "12 mm"
    with pytest.raises(tenths.DomainError, match="row 7: `12 mm` has no tolerance"):
        inch.accepts(table["limits"], table["read"])
    with pytest.raises(TypeError, match="row 1: expected Limits or text"):
        inch.accepts([LIMITS, 12.0], [1.42, 1.42])
    with pytest.raises(ValueError, match="broadcast"):
        inch.accepts([LIMITS] * 3, [1.42, 1.42])
    assert inch.accepts([], []).tolist() == []
    for wrong in (None, {}, 25.0):
        with pytest.raises(TypeError, match=r"accepts: 'limits' must be Limits, text such as"):
            inch.accepts(wrong, [1.42])


def test_limits_may_be_two_numbers_or_two_columns():
    assert inch.accepts((1.415, 1.425), 1.425) is True and inch.accepts((1.415, "1.425 in"), "36.2 mm") is False
    assert inch.accepts((None, 1.425), [-5, 1.425, 1.4251]).tolist() == [True, True, False]
    assert inch.accepts((1.415, None), [-5, 1.415, 1e6]).tolist() == [False, True, True]
    lower, upper = numpy.float32([1.415, 1.415, 1.415, 1.415]), numpy.array([1.425, 1.425, numpy.inf, numpy.nan])
    assert inch.accepts((lower, upper), [1.415, 1.4251, 1.4251, 1.42]).tolist() == [True, False, True, False]
    # A reading of 1.4250004 is read as 1.425 by steps of half an inch thousandth, no more than a millionth off.
    assert inch.accepts((1.415, 1.425), [1.4250000004, 1.42500001], resolution=0.0005).tolist() == [True, False]
    table = pandas.DataFrame({"low": [1.0, 2.0, 3.0], "high": [1.5, 2.5, 3.5], "read": [1.5, 1.9, 3.2]}, index=list("abc"))
    judged = metric.accepts((table.low, table.high), table.read)
    assert judged.to_dict() == {"a": True, "b": False, "c": True}
    assert metric.accepts((table.low, table.high.iloc[::-1]), table.read).to_dict() == judged.to_dict()
    several = pandas.DataFrame({"first": table.read, "second": table.low})
    assert metric.accepts((table.low, table.high), several)["second"].tolist() == [True] * 3
    table.loc["b", "high"] = 1.0
    with pytest.raises(tenths.DomainError, match="row b: the lower limit, 2 mm, is above the upper limit, 1 mm"):
        metric.accepts((table.low, table.high), table.read)
    with pytest.raises(tenths.DomainError, match="the lower limit, 2 mm, is above the upper limit, 1 mm"):
        metric.accepts((2, 1), 1.5)
    with pytest.raises(TypeError, match="a tuple of limits is a lower and an upper one, not 3 values"):
        metric.accepts((1, 2, 3), 1.5)
    with pytest.raises(tenths.DomainError, match="a resolution must be greater than 0"):
        metric.accepts((1, 2), [1.5], resolution=-1)


@pytest.mark.parametrize("limits", [("1 kg", "2 kg"), (None, "1 kg"), (["1 kg"], ["2 mm"])])
def test_a_limit_in_a_wrong_unit_is_named(limits):
    with pytest.raises(tenths.DomainError, match="accepts: limits: `kg` is not a unit of this quantity"):
        metric.accepts(limits, [1.5])


def test_verdicts_row_by_row_are_those_of_limits():
    # Readings at the limits, a float beside them, on the grid of the instrument and anywhere.
    draw = numpy.random.default_rng(5)
    lower = draw.uniform(1, 40, 60).round(4)
    upper = (lower + draw.uniform(0, 0.02, 60)).round(4)
    beside = [limit for end in (lower, upper) for limit in (end, numpy.nextafter(end, 0), numpy.nextafter(end, 99))]
    for readings in (*beside, lower + draw.uniform(-0.01, 0.03, 60), (lower + 0.01).round(3)):
        for system, unit in ((inch, "in"), (metric, "mm")):
            for resolution in (None, 0.001):
                one_by_one = [
                    system.accepts(tenths.Limits.between(f"{low:.4f} {unit}", f"{high:.4f} {unit}"), reading, resolution)
                    for low, high, reading in zip(lower, upper, readings.tolist(), strict=True)
                ]
                assert system.accepts((lower, upper), readings, resolution).tolist() == one_by_one


def test_verdicts_row_by_row_stay_lazy_and_masked():
    dask = pytest.importorskip("dask.dataframe")
    table = pandas.DataFrame({"low": [1.0, 2.0], "high": [1.5, 2.5], "read": [1.5, 1.9]})
    lazy = dask.from_pandas(table, npartitions=2)
    assert metric.accepts((lazy.low, lazy.high), lazy.read).compute().tolist() == [True, False]
    assert metric.accepts("1.5 ±.5 mm", lazy.read).compute().tolist() == [True, True]
    masked = numpy.ma.array([1.5, 1.9], mask=[True, False])
    judged = metric.accepts((1, 2), masked)
    assert judged.mask.tolist() == [True, False] and judged[1]
    column = numpy.arange(20000.0)[::2]
    assert metric.accepts("5000 ±1000 mm", column).sum() == metric.accepts((4000, 6000), column).sum() == 1001
