"""Numbers in another unit are told; what is printed in books and planned in the examples is not."""

import json
import pathlib

import numpy
import pytest

import tenths
from tenths import inch, metric

ROOT = pathlib.Path(__file__).parent.parent.parent
SLIPS = [line.split(",") for line in (ROOT / "tests" / "unit_slips.csv").read_text(encoding="utf-8").splitlines()[1:]]
ROWS = [
    json.loads(line)
    for file in sorted((ROOT / "tests" / "published").glob("*.jsonl"))
    for line in file.read_text(encoding="utf-8").splitlines()
]


def test_published_values_draw_no_such_advice():
    told, rows = [], 0
    for file in sorted((ROOT / "tests" / "published").glob("*.jsonl")):
        for line in file.read_text(encoding="utf-8").splitlines():
            row = json.loads(line)
            formula = getattr(getattr(tenths, row.get("units", "")), row.get("formula", ""), None) if "formula" in row else None
            if formula is None or not isinstance(row.get("arguments"), dict):
                continue
            rows += 1
            told += [f"{file.name}: {remark.message}" for remark in formula.check(**row["arguments"]) if "usual" in remark.message]
    assert rows > 500 and not told, "\n".join(told)


@pytest.mark.parametrize("path", sorted((ROOT / "examples" / "plans").glob("*.json")), ids=lambda path: path.name)
def test_example_plans_draw_no_such_advice(path):
    sheet = tenths.Plan.from_json(path.read_text(encoding="utf-8")).evaluate()
    assert "unusual_value" not in [finding.code for finding in sheet.findings]


def test_a_slip_is_told_for_one_number_and_for_its_row():
    message = "hub_modulus is 210000 GPa, outside the usual 1 GPa to 750 GPa: did you mean 210000 MPa, which is 210 GPa?"
    rest = {"hub_poisson": 0.3, "shaft_modulus": 200, "shaft_poisson": 0.3, "friction": 0.12}
    [remark] = metric.press_fit.check(0.02, 25, 50, 30, 210000, **rest)
    assert (remark.kind, remark.concerns, remark.message) == ("advice", "hub_modulus", message)
    remarks = metric.press_fit.check(0.02, 25, 50, 30, numpy.array([210.0, 210000.0]), **rest)
    assert [(remark.row, remark.message) for remark in remarks] == [((1,), message)]
    about = metric.press_fit.arguments["hub_modulus"]
    assert about["usual_range"] == "1 GPa to 750 GPa" and about["stated_range"] is None
    assert "Usual is 1 GPa to 750 GPa." in metric.press_fit.__doc__
    assert "usual 145.04 psi" not in inch.press_fit.__doc__


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: "-".join(slip[:4]))
def test_each_slip_is_told_with_the_unit_meant(slip):
    name, system, argument, value, meant, reading = slip
    formula = getattr(getattr(tenths, system), name)
    # Within a published row of the formula, read from the other side where there is none on this one.
    told = 0
    for row in ROWS:
        if row.get("formula") != name:
            continue
        units = getattr(getattr(tenths, row["units"]), name).units
        given = {key: f"{number} {units[key]}" if units[key] else number for key, number in row["arguments"].items()}
        remarks = formula.check(**given | {argument: float(value)})
        if any(remark.kind == "error" for remark in remarks):
            continue  # The slip breaks a rule of this row.
        [message] = [remark.message for remark in remarks if remark.concerns == argument and "usual" in remark.message]
        assert message.startswith(f"{argument} is ") and message.endswith(f": did you mean {meant}, which is {reading}?")
        told += 1
    assert told


def test_zero_is_zero_in_any_unit():
    assert not metric.turning_removal_rate.check(depth=1.0, feed_per_revolution=0.0, surface_speed=0.0)
