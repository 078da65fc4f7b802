"""Functions that a record of the core describes: arguments, defaults and refusals are the same for each of them."""

import inspect
import pickle

import numpy
import pytest
import tenths

# Each function with a call that succeeds.
FUNCTIONS = [
    pytest.param(tenths.sampling_plan, (1000, 1.0, "II"), id="sampling_plan"),
    pytest.param(tenths.two_point_plan, (1.0, 5.0, 0.05), id="two_point_plan"),
    pytest.param(tenths.variables_plan, (1.0, 5.0, 0.05, 0.1, "known"), id="variables_plan"),
    pytest.param(tenths.general_tolerance, ("120 mm", "mK", "length"), id="general_tolerance"),
    pytest.param(tenths.reamer_limits, ("10 D8",), id="reamer_limits"),
    pytest.param(tenths.fit_selection, ("25 mm", "0.007 mm", "0.041 mm", "shaft"), id="fit_selection"),
    pytest.param(tenths.check_master, ("1 in", "X"), id="check_master"),
    pytest.param(tenths.chart_constants, (5, "exact"), id="chart_constants"),
    pytest.param(tenths.attribute_zone, ([9.8, 9.9, 10.0], [0, 0.5, 1], 9.9), id="attribute_zone"),
    pytest.param(tenths.gauge_bias, ([5.8, 5.7, 5.9, 5.9], 6.0), id="gauge_bias"),
    pytest.param(tenths.regression, ([1.0, 2.0, 3.0], numpy.array([2.1, 3.9, 6.2])), id="regression"),
]
each = pytest.mark.parametrize("function, sound", FUNCTIONS)


def names(function):
    return list(inspect.signature(function).parameters)


@each
def test_arguments_go_by_position_or_by_name(function, sound):
    assert function(*sound) == function(**dict(zip(names(function), sound)))
    assert function(*sound) == function(sound[0], **dict(zip(names(function)[1:], sound[1:])))
    assert pickle.loads(pickle.dumps(function)) is function


@each
def test_the_defaults_of_the_signature_are_those_of_the_call(function, sound):
    parameters = inspect.signature(function).parameters.values()
    needed = [one for one in parameters if one.default is one.empty]
    given = sound[: len(needed)]
    defaults = {one.name: one.default for one in parameters if one.default is not one.empty}
    assert function(*given) == function(*given, **defaults)


@each
def test_the_documentation_says_what_each_argument_means(function, sound):
    for name in names(function):
        assert f"\n    {name}: " in inspect.getdoc(function)


@each
def test_calls_that_cannot_be_are_refused(function, sound):
    name, first = function.__name__, names(function)[0]
    with pytest.raises(TypeError, match=f"^{name} needs '{first}'$"):
        function()
    parameters = inspect.signature(function).parameters.values()
    count = sum(one.kind is not one.KEYWORD_ONLY for one in parameters)
    with pytest.raises(TypeError, match=f"^{name} takes {count} arguments by position, not {count + 1}$"):
        function(*sound, *[None] * (count + 1 - len(sound)))
    with pytest.raises(TypeError, match=f"^{name} got '{first}' twice$"):
        function(*sound, **{first: sound[0]})
    last = names(function)[-1]
    misspelt = last + last[-1]
    with pytest.raises(TypeError, match=f"^{name} has no argument '{misspelt}': is it '{last}'\\?$"):
        function(*sound, **{misspelt: 0})


@each
def test_values_of_other_kinds_are_refused(function, sound):
    for place, name in enumerate(names(function)[: len(sound)]):
        is_array = not isinstance(sound[place], (str, int, float))
        for odd in (object(), {}, True, numpy.bool_(False), b"1", "one" if is_array else []):
            given = [*sound]
            given[place] = odd
            with pytest.raises((TypeError, ValueError), match=name):
                function(*given)


def test_numbers_come_in_many_types():
    plan = tenths.sampling_plan(1000, 1.5)
    assert tenths.sampling_plan(numpy.int64(1000), numpy.float32(1.5)) == plan == tenths.sampling_plan(1000, "1.5")
    for lot in (-1, 2**64, 2.5, None, "1000"):
        with pytest.raises((TypeError, ValueError), match="^lot must be (a whole number, zero or more|at most 18446744073709551615), not"):
            tenths.sampling_plan(lot, 1.5)
