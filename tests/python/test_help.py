"""The examples in Python's help give what they say."""

import doctest
import inspect

import pytest

import tenths

SHOWN = {name: inspect.getdoc(getattr(tenths, name)) or "" for name in tenths.__all__} | {"tenths": tenths.__doc__}
WITH_EXAMPLES = sorted(name for name, text in SHOWN.items() if ">>>" in text)


def test_what_most_programs_use_has_an_example():
    wanted = {"tenths", "Size", "Limits", "Fit", "Thread", "StandardTaper", "Knurl", "Decision", "Stack", "Plan"}
    assert wanted <= set(WITH_EXAMPLES)


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_example_gives_what_it_says(name):
    parser, runner = doctest.DocTestParser(), doctest.DocTestRunner()
    test = parser.get_doctest(SHOWN[name], {"tenths": tenths}, name, None, 0)
    assert test.examples
    runner.run(test)
    assert runner.failures == 0


def test_options_say_what_they_are_chosen_from():
    told = inspect.getdoc(tenths.control_chart)
    assert "rules: The rules that points are judged by. One of 'limits', 'western_electric', 'nelson'." in told
    assert "One of 'exact', 'printed'." in told
    for text in (tenths.metric.capability.__doc__, tenths.gauge_study.__doc__):
        assert text.count("One of '") >= 1


def test_signatures_show_the_defaults():
    assert str(inspect.signature(tenths.Estimate)) == "(value, standard_uncertainty, degrees_of_freedom=inf)"
    assert "With a shift of 0" in inspect.getdoc(tenths.average_run_length)


@pytest.mark.parametrize(
    ("function", "record", "names"),
    [
        (tenths.average_run_length, "ChartOptions", ("sigmas", "weight", "slack", "decision")),
        (tenths.gauge_studies, "StudyOptions", ("method", "pool_interaction")),
    ],
)
def test_defaults_of_a_few_options_are_those_of_their_record(function, record, names):
    defaults = {name: default for name, default, *_ in tenths._tenths._options(record)}
    shown = inspect.signature(function).parameters
    assert {name: shown[name].default for name in names} == {name: defaults[name] for name in names}


def test_help_says_which_input_goes_to_which_parameter():
    for text in (tenths.metric.propagate.__doc__, tenths.uncertainty_budget.__doc__):
        assert "parameter" in text and "position in the order of the dict" in " ".join(text.split())
