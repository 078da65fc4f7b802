"""Text, sizes and quantities of pint wherever a number is taken."""

import math

import numpy as np
import pytest
from test_arrays import HUB

import tenths
from tenths import Size, inch, metric

speed = inch.surface_speed
HALF, ONE = speed(0.5, 1500), speed(1, 1500)


def test_text_is_read_in_lists_and_beside_arrays():
    assert speed(["0.5 in", "25.4 mm", 1, Size("1/2 in")], "1500 rpm").tolist() == [HALF, ONE, ONE, HALF]
    assert speed(np.array(["0.5 in", "1 in"]), 1500).tolist() == [HALF, ONE]
    assert speed([["0.5 in"], [1]], ["1500 rpm"]).tolist() == [[HALF], [ONE]]
    assert speed("0.5 in", np.array([1500.0])).tolist() == [HALF]
    assert speed(["0.5 in"], [1500], on_error="raise").tolist() == [HALF]
    assert speed("7/16 in", 1500) == speed(0.4375, 1500) and speed("1 ft", 1500) == speed(12, 1500)
    (remark,) = speed.check(["0.5 in", "-1 in"], 1500)
    assert (remark.row, remark.value) == ((1,), -1)


@pytest.mark.parametrize(
    "values, row",
    [(["1 in", "2 kg"], "1"), ([["1 in"], ["2"]], "1, 0"), (np.array(["1 in", ""]), "1"), ([1.0, "?"], "1")],
)
def test_text_that_is_no_number_is_refused_with_its_row(values, row):
    for on_error in ({}, {"on_error": "nan"}, {"on_error": "raise"}):
        with pytest.raises(tenths.DomainError, match=f"^row {row}: surface_speed: diameter: ") as raised:
            speed(values, 1500, **on_error)
        assert (raised.value.formula, raised.value.argument) == ("surface_speed", "diameter")


def test_readings_are_text_too():
    good = "1.420 ±.005 in"
    assert inch.accepts(good, "1.425 in") is True and metric.accepts(good, "1.4251 in") is False
    assert inch.accepts(good, Size("1.425 in")) is True
    assert inch.accepts(good, ["1.415 in", "36.195 mm", 1.4251]).tolist() == [True, True, False]
    assert inch.accepts(good, 1.4250000004, resolution="0.001 in")
    with pytest.raises(tenths.DomainError, match="row 1: accepts: readings: `1.42` needs a unit"):
        inch.accepts(good, ["1.42 in", "1.42"])
    with pytest.raises(tenths.DomainError, match="a resolution must be greater than 0, not -0.001 in"):
        inch.accepts(good, 1.42, resolution=-0.001)
    with pytest.raises(TypeError, match="one number"):
        inch.accepts(good, 1.42, resolution=[0.001])


@pytest.fixture(scope="module")
def registry():
    import pint

    return pint.UnitRegistry()


@pytest.mark.libraries
def test_quantities_in_give_quantities_out(registry):
    made = speed(registry.Quantity(12.7, "mm"), registry.Quantity(1500, "rpm"))
    assert made.units == registry.Unit("ft/min") and made.magnitude == pytest.approx(HALF, rel=1e-14)
    made = speed(registry.Quantity([0.5, 1.0], "in"), "1500 rpm")
    assert made.magnitude.tolist() == [HALF, ONE]
    assert speed(registry.Quantity([0.5], "in"), 1500).magnitude.tolist() == [HALF]
    mixed = speed([registry.Quantity(1, "in"), 0.5], 1500)
    assert type(mixed) is np.ndarray and mixed.tolist() == [ONE, HALF]
    joint = metric.press_fit(registry.Quantity(20, "um"), 20, 40, 20, **HUB)
    bare = metric.press_fit(0.02, 20, 40, 20, **HUB)
    assert type(joint) is type(bare)
    assert joint.torque.units == registry.Unit("N*m")
    assert joint.torque.magnitude == pytest.approx(bare.torque, rel=1e-14)
    assert type(speed(0.5, 1500)) is float


@pytest.mark.libraries
def test_results_to_pint(registry):
    made = speed.to_pint(speed(0.5, 1500), registry)
    assert made == registry.Quantity(HALF, "ft/min")
    assert str(speed.to_pint(HALF).units) == "foot / minute"
    bare = metric.press_fit(0.02, 20, 40, 20, **HUB)
    assert metric.press_fit.to_pint(bare, registry).pressure.to("bar").magnitude == pytest.approx(bare.pressure * 10)
    assert Size("1/2 in").to_pint("mm", registry) == registry.Quantity(12.7, "mm")


@pytest.mark.libraries
def test_a_quantity_outside_its_domain(registry):
    with pytest.raises(tenths.DomainError, match="diameter must be greater than 0 in, not -0.5 in"):
        speed(registry.Quantity(-0.5, "in"), 1500)
    assert math.isnan(speed(registry.Quantity(-0.5, "in"), 1500, on_error="nan").magnitude)
    with pytest.raises(tenths.DomainError, match="row 1: "):
        speed(registry.Quantity([1, -1], "in"), 1500, on_error="raise")


@pytest.mark.libraries
@pytest.mark.parametrize(
    "number, unit, message",
    [
        ("diameter", "kg", "'diameter' in kilogram cannot be converted to in"),
        ("diameter", "", "'diameter' in dimensionless cannot be converted to in"),
        ("diameter", "in*radian", "'diameter' in inch \\* radian has an angle in its unit"),
        ("spindle_speed", "Hz", "'spindle_speed' in hertz has no angle in its unit: convert it to rev/min"),
        ("spindle_speed", "1/min", "'spindle_speed' in 1 / minute has no angle in its unit"),
    ],
)
@pytest.mark.parametrize("shape", [1.0, [1.0, 2.0]])
def test_a_quantity_of_another_kind_is_refused(registry, number, unit, message, shape):
    given = {"diameter": 0.5, "spindle_speed": 1500, number: registry.Quantity(shape, unit)}
    with pytest.raises(TypeError, match=f"surface_speed: {message}"):
        speed(**given)


@pytest.mark.libraries
def test_readings_are_quantities_too(registry):
    assert inch.accepts("1.420 ±.005 in", registry.Quantity(36.195, "mm")) is True
    readings = registry.Quantity([36.195, 36.196], "mm")
    assert inch.accepts("1.420 ±.005 in", readings).tolist() == [True, False]
    assert inch.accepts("1.420 ±.005 in", 1.4250000004, resolution=registry.Quantity(0.0254, "mm"))
    with pytest.raises(TypeError, match="accepts: 'readings' in kilogram"):
        inch.accepts("1.420 ±.005 in", registry.Quantity(1, "kg"))


# pint's own definitions of the units stand against ours: text in the unit of the other side is read by ours.
@pytest.mark.libraries
@pytest.mark.parametrize("side", [inch, metric], ids=["inch", "metric"])
def test_every_unit_is_the_one_that_pint_knows(registry, side):
    from tenths import _numbers

    other = {inch: metric, metric: inch}[side]
    seen = set()
    for name in tenths.formulas():
        formula, twin = getattr(side, name), getattr(other, name)
        for argument in formula.arguments:
            wanted, beyond = formula._wanted(argument), twin._wanted(argument)
            seen.add(wanted.quantity)
            unit = _numbers._pint_unit(beyond.quantity, beyond.unit)
            quantity = registry.Quantity(3.0, unit)
            text = f"3 {beyond.unit}"
            assert wanted.number(quantity) == pytest.approx(wanted.number(text), rel=1e-12), (argument, unit)
    assert {"Length", "SurfaceSpeed", "SpindleSpeed", "FeedRate", "Angle", "Count", "Ratio"} <= seen


@pytest.mark.libraries
def test_angles_are_degrees_and_temperatures_have_a_zero_of_their_own(registry):
    from tenths import _numbers

    def read(number, unit, quantity, label):
        return _numbers.magnitude(registry.Quantity(number, unit), "formula", "argument", quantity, label)

    assert read(math.pi / 2, "radian", "Angle", "°") == pytest.approx(90)
    assert read(100.0, "degC", "Temperature", "°F") == pytest.approx(212)
    assert read(293.15, "kelvin", "Temperature", "°C") == pytest.approx(20)
    assert read(10.0, "delta_degC", "TemperatureDifference", "°F") == pytest.approx(18)
    assert read(10.0, "delta_degC", "TemperatureDifference", "K") == pytest.approx(10)
    assert read(18e-6, "1/delta_degC", "ExpansionCoefficient", "1/°F") == pytest.approx(10e-6)
    for unit, quantity in (("degC", "TemperatureDifference"), ("delta_degC", "Temperature")):
        with pytest.raises(TypeError, match="cannot be converted"):
            read(20.0, unit, quantity, "°F")


@pytest.mark.parametrize("flag", [True, False, np.True_, np.array(True)])
def test_true_and_false_are_not_numbers(flag):
    for call in (metric.surface_speed, metric.surface_speed.check):
        with pytest.raises(TypeError, match="surface_speed: 'diameter' must be a number"):
            call(flag, 1000)
    with pytest.raises(TypeError, match="capability: .* is not a number"):
        metric.capability([10.0, 10.1, 9.9], (flag, 11))
    with pytest.raises(TypeError, match="accepts: 'readings' must be a number|not a number"):
        metric.accepts("1 ±1 mm", flag)
    with pytest.raises(TypeError, match="row 1: surface_speed: '?diameter.*(must be a number|is not a number)"):
        metric.surface_speed([10.0, flag], 1000)
    with pytest.raises(TypeError, match="must be a number.*not bool"):
        metric.surface_speed(np.array([True, False]), 1000)
