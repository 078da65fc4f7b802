"""Options: the keyword arguments that a record of the core describes, the same for every function that has them."""

import decimal
import inspect
import pickle

import numpy
import pytest
import tenths

# Each function with the name of its record, and a call that succeeds.
FUNCTIONS = [
    pytest.param(tenths.cutting_plan, "CuttingOptions", ([("1 m", 5)], ["6 m"]), id="cutting_plan"),
]
NO_CHOICE = "not one of them"


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_the_signature_and_the_documentation_come_from_the_record(function, record, sound):
    parameters = inspect.signature(function).parameters
    assert "options" not in parameters
    for name, default, meaning in tenths._tenths._options(record):
        assert parameters[name].default == default, name
        assert f"    {name}: {' '.join(meaning.split())}" in inspect.getdoc(function)
    assert pickle.loads(pickle.dumps(function)) is function


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_the_defaults_may_be_given(function, record, sound):
    given = {name: default for name, default, _ in tenths._tenths._options(record)}
    assert function(*sound, **given) == function(*sound)


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_names_that_are_no_option_are_refused(function, record, sound):
    name = tenths._tenths._options(record)[0][0]
    misspelt = name[:-2] + name[-1] + name[-2]
    with pytest.raises(TypeError, match=f"has no argument '{misspelt}': is it '{name}'"):
        function(*sound, **{misspelt: 0})


@pytest.mark.parametrize("function, record, sound", FUNCTIONS)
def test_values_of_other_kinds_are_refused(function, record, sound):
    for name, default, _ in tenths._tenths._options(record):
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
