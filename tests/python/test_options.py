"""Options: the keyword arguments that a record of the core describes, the same for every function that has them."""

import decimal
import inspect
import pickle

import numpy
import pytest
import tenths

READINGS = [9.97, 10.02, 10.01, 9.99, 10.0]
# Each function with the name of its record, and a call that succeeds.
FUNCTIONS = [
    pytest.param(tenths.cutting_plan, "CuttingOptions", ([("1 m", 5)], ["6 m"]), id="cutting_plan"),
    pytest.param(tenths.metric.capability, "CapabilityOptions", (READINGS, (9.9, 10.1)), id="capability"),
    pytest.param(tenths.control_chart, "ChartOptions", ("i_mr", [3.0, 4.0, 6.0, 5.0, 4.0]), id="control_chart"),
    pytest.param(tenths.gauge_study, "StudyOptions", ([[[1.0, 1.1], [1.2, 1.1]], [[2.0, 2.1], [2.1, 2.3]]],), id="gauge_study"),
]
NO_CHOICE = "not one of them"


def options_of(record):
    """Name, default, meaning and choices of each option but the one that `capability` explains itself, since it takes labels too."""
    return [option for option in tenths._tenths._options(record) if option[0] != "subgroup"]


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_the_signature_and_the_documentation_come_from_the_record(function, record, sound):
    parameters = inspect.signature(function).parameters
    assert "options" not in parameters
    for name, default, meaning, choices in options_of(record):
        assert parameters[name].default == default, name
        assert not choices or f"One of {', '.join(map(repr, choices))}." in inspect.getdoc(function)
        assert f"    {name}: {' '.join(meaning.split())}" in inspect.getdoc(function)
    assert pickle.loads(pickle.dumps(function)) is function


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_the_defaults_may_be_given(function, record, sound):
    given = {name: default for name, default, *_ in options_of(record)}
    assert function(*sound, **given) == function(*sound)


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_names_that_are_no_option_are_refused(function, record, sound):
    name = options_of(record)[-1][0]
    misspelt = name[:-2] + name[-1] + name[-2]
    with pytest.raises(TypeError, match=f"has no argument '{misspelt}': is it '{name}'"):
        function(*sound, **{misspelt: 0})


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_values_of_other_kinds_are_refused(function, record, sound):
    for name, default, *_ in options_of(record):
        odd = [object(), [], {}]
        if not isinstance(default, bool):
            odd += [True, numpy.bool_(False)]
        if default is not None and name != "time_limit":
            odd.append(None)
        for value in odd:
            with pytest.raises(TypeError, match=name):
                function(*sound, **{name: value})
        if isinstance(default, str):
            with pytest.raises(ValueError, match=f"{name} must be .* or .*, not '{NO_CHOICE}'"):
                function(*sound, **{name: NO_CHOICE})


def test_numbers_come_in_many_types():
    plan = tenths.cutting_plan([(1000, 5)], [6000], 3, units="mm", work_limit=10**6)
    for kerf in (3.0, decimal.Decimal(3), numpy.float32(3), numpy.int16(3), "3 mm", tenths.Size("3 mm"), numpy.array(3)):
        assert tenths.cutting_plan([(1000, 5)], [6000], kerf=kerf, units="mm", work_limit=numpy.int64(10**6)) == plan


def test_arguments_by_position_end_where_the_signature_says():
    with pytest.raises(TypeError, match="cutting_plan takes 4 arguments by position, not 5"):
        tenths.cutting_plan([("1 m", 5)], ["6 m"], 0, 0, 0)
    with pytest.raises(TypeError, match="cutting_plan got 'kerf' twice"):
        tenths.cutting_plan([("1 m", 5)], ["6 m"], 0, kerf=0)


def test_lengths_need_a_unit_somewhere():
    with pytest.raises(TypeError, match="kerf: a length of 3 needs a unit: give text such as '3 mm', or units='mm' or 'in'"):
        tenths.cutting_plan([("1 m", 5)], ["6 m"], kerf=3)
    with pytest.raises(ValueError, match="kerf: .*three"):
        tenths.cutting_plan([("1 m", 5)], ["6 m"], kerf="three")


@pytest.mark.parametrize("limit", [-1, float("nan")])
def test_a_time_is_zero_or_more_seconds(limit):
    with pytest.raises(ValueError, match="time_limit must be a number of seconds, zero or more, not"):
        tenths.cutting_plan([("1 m", 5)], ["6 m"], time_limit=limit)
    assert tenths.cutting_plan([("1 m", 5)], ["6 m"], time_limit=float("inf")).proven


def test_counts_beyond_all_memory_are_refused():
    for count in (-1, 2**63, 2.5):
        with pytest.raises((TypeError, ValueError), match="work_limit must be a whole number, zero or more, not"):
            tenths.cutting_plan([("1 m", 5)], ["6 m"], work_limit=count)
