"""Exact sizes, limits and gauges."""

import pickle

import numpy as np
import pytest

import tenths
from tenths import Limits, Size, inch, metric


def test_sizes_add_up():
    assert Size("1.420 in") + Size(".005 in") == Size("1.425 in") == Size("36.195 mm")
    assert Size(1.42 + 0.005, "in") == "1.425 in"
    assert Size("1 in") - "25.4 mm" == Size.from_picometres(0)
    assert -Size("1 mm") < Size("0 mm") < "7/16 in"
    assert Size("12 ft") == "144 in"
    assert Size("7/16 in").to_float("in") == 0.4375
    assert Size("7/16 in").to_float("mm") == 11.1125
    assert hash(Size("1 in")) == hash(Size("25.4 mm"))
    assert pickle.loads(pickle.dumps(Size("1.425 in"))) == Size("1.425 in")
    assert Size("1 in") != 1 and Size("1 in") != "no size"


@pytest.mark.parametrize("text", ["", "1.425", "1/3 in", "1 yd", "1e99 in", "nan mm", "1.2.3 mm"])
def test_what_is_no_size_is_refused(text):
    with pytest.raises(tenths.DomainError):
        Size(text)


def test_no_silent_number():
    with pytest.raises(TypeError):
        float(Size("1 in"))
    with pytest.raises(TypeError):
        Size(1.0)
    with pytest.raises(tenths.DomainError):
        Size("1 in").to_float("yd")


def test_sizes_and_limits_stand_in_columns():
    assert f"{Size('1.42 in'):>9}|{Size('1.42 in')}" == "  1.42 in|1.42 in"
    limits = Limits("10 ±0.1 mm")
    assert f"{limits:12}|{limits}" == str(limits).ljust(12) + "|" + str(limits)
    with pytest.raises(ValueError, match="'f'"):
        f"{Size('1.42 in'):.3f}"


def test_limits_are_good_sizes():
    limits = Limits("1.420 ±.005 in")
    assert (limits.lower, limits.nominal, limits.upper) == ("1.415 in", "1.42 in", "1.425 in")
    assert limits.accepts("1.425 in") and limits.accepts(Size("1.415 in"))
    assert not limits.accepts("1.4251 in")
    assert inch.accepts(limits, 1.42 + 0.005)
    assert inch.accepts(limits, [1.415, 1.425, 1.4251, np.nan]).tolist() == [True, True, False, False]
    assert metric.accepts(limits, 36.195) and not metric.accepts(limits, 36.1951)
    # Within a millionth of a step of a step, and ten picometres over as it stands.
    assert inch.accepts(limits, 1.4250000004, resolution=0.001)
    assert not inch.accepts(limits, 1.4250000004)
    assert inch.accepts(limits, np.float64(1.42)) is True and inch.accepts(limits, np.int64(2)) is False
    for readings in (None, 1j, [1.42, None]):
        with pytest.raises(TypeError):
            inch.accepts(limits, readings)
    assert pickle.loads(pickle.dumps(limits)) == limits
    with pytest.raises(tenths.DomainError):
        Limits("1.425 in")
    with pytest.raises(tenths.DomainError):
        inch.accepts(limits, 1.42, resolution=0)


def test_every_reading_of_a_grid_is_judged_right():
    limits = Limits("1.420 ±.005 in")
    counts = np.arange(13000, 16000)
    expected = (counts >= 14150) & (counts <= 14250)
    assert np.array_equal(inch.accepts(limits, counts / 10000), expected)
    for count, good in zip(counts.tolist(), expected):
        assert limits.accepts(f"{count // 10000}.{count % 10000:04} in") == good


def test_gauges_never_pass_a_bad_part():
    # ASME B89.1.5: 12 mm is 0.472 in, where class X has 0.000040 in and class XX 0.000020 in; 5 percent of
    # 0.018 mm is 0.0009 mm = 0.0000354 in, so that XX is the coarsest that serves.
    gauge = tenths.plug_gauge("12 +0.018/0 mm")
    assert gauge.gagemaker_class == "XX" and gauge.basis == "published"
    assert (gauge.go.limits.lower, gauge.go.limits.upper) == ("12 mm", "12.000508 mm")
    assert (gauge.no_go.limits.lower, gauge.no_go.limits.upper) == ("12.017492 mm", "12.018 mm")
    ring = tenths.ring_gauge(Limits("12 +0/-0.018 mm"))
    assert ring.go.limits.upper == "12 mm" and ring.no_go.limits.lower == "11.982 mm"
    assert ring.basis == "common practice"
    assert "maximum material" in tenths.length_gauge("12 ±0.1 mm").go.proves
    for value in (gauge, gauge.go, gauge.no_go):
        copied = pickle.loads(pickle.dumps(value))
        assert copied == value and hash(copied) == hash(value) and copied.to_dict() == value.to_dict()
    assert gauge.go != gauge.no_go and gauge.to_dict()["go"]["limits"]["lower"] == "12 mm"
    with pytest.raises(tenths.DomainError, match="no class is fine enough"):
        tenths.plug_gauge("12 ±0.001 mm")


def test_a_size_is_written_in_every_unit_that_it_is_read_in():
    inch = tenths.Size("1 in")
    # By definition: an inch is 25.4 mm, a thou a thousandth of it, a foot twelve.
    told = {"mm": 25.4, "um": 25400.0, "cm": 2.54, "m": 0.0254, "in": 1.0, "thou": 1000.0, "uin": 1e6}
    for unit, number in told.items():
        assert inch.to_float(unit) == number
        assert tenths.Size(number, unit) == inch == tenths.Size(inch.to_text(unit)) == tenths.Size(str(number), unit)
    assert inch.to_text("ft") == "≈0.08333333 ft" and tenths.Size("1 ft").to_text("in") == "12 in"
    with pytest.raises(tenths.DomainError, match="`yd` is not a known unit of length; expected in, mm, ft"):
        inch.to_float("yd")


def test_a_system_of_units_may_be_named_by_its_unit_of_length():
    assert tenths.Stack("mm").units == "metric" and tenths.Stack("in").units == tenths.Stack("inch").units == "inch"
    with pytest.raises(ValueError, match="`cm` is not a system of units; expected `inch` or `in`, `metric` or `mm`"):
        tenths.Stack("cm")
