"""The figures of tests/published, which come from outside the project, through the Python interface."""

import json
import pathlib

import pytest

import tenths

FOLDER = pathlib.Path(__file__).parent.parent / "published"
LINES = [
    (f"{path.name}:{number}", json.loads(line))
    for path in sorted(FOLDER.glob("*.jsonl"))
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
]
SLACK = 1e-9  # what floating point may add, relative to the tolerance and to the figure


def figure(printed):
    """The figure and its tolerance: half a unit of the last digit, unless another one is stated."""
    if isinstance(printed, dict):
        return float(printed["value"]), float(printed["within"])
    mantissa, _, exponent = printed.lower().partition("e")
    places = len(mantissa.partition(".")[2])
    return float(printed), 0.5 * 10.0 ** (int(exponent or 0) - places)


def test_every_formula_has_a_figure():
    assert {line["formula"] for _, line in LINES} == set(tenths.formulas())


@pytest.mark.parametrize("line", [line for _, line in LINES], ids=[place for place, _ in LINES])
def test_figure(line):
    formula = getattr({"inch": tenths.inch, "metric": tenths.metric}[line["units"]], line["formula"])
    result = formula(**line["arguments"])
    given = result._asdict() if len(formula.outputs) > 1 else {line["formula"]: result}
    assert line["results"]
    for name, printed in line["results"].items():
        value, within = figure(printed)
        assert abs(given[name] - value) <= within * (1 + SLACK) + abs(value) * SLACK, name
