"""The benches run, and their page is what the next run is compared with."""

import importlib.util
import pathlib
import re
import runpy
import sys

import pytest

BENCHES = pathlib.Path(__file__).parent.parent.parent / "benches"
LINES = """# Tables
first	tenths	2000
first	numpy	7000
first	copy	1000
# Calls
alone	tenths	12
a solver says something
# Tables
second	numpy	4e9
second	tenths	1.234e9
> A note.
""".splitlines()


@pytest.fixture
def report():
    spec = importlib.util.spec_from_file_location("report", BENCHES / "report.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    module.machine = lambda: iter(["Measured here"])
    return module


def test_lines_become_a_page(report):
    page = report.page(*report.read(LINES))
    tables, calls, pace = page.split("## ")[1:]
    assert [line for line in tables.splitlines() if line.startswith("| ")][2:] == [
        "| first | 2 µs | numpy | 7 µs | 3.5 |",
        "| first | 2 µs | copy | 1 µs | 0.5 |",
        "| second | 1.23 s | numpy | 4 s | 3.24 |",
    ]
    assert tables.rstrip().endswith("A note.") and "| alone | 12 ns |  |  |  |" in calls and pace.startswith("What sets the pace")


def test_a_ratio_that_falls_by_more_than_a_fifth_is_named(report):
    works, notes = report.read(LINES)
    known = report.recorded(report.page(works, notes))
    assert known == {("first", "numpy"): 3.5, ("first", "copy"): 0.5, ("second", "numpy"): 3.24}
    assert list(report.fallen(works, known)) == []
    works["Tables"]["first"]["tenths"] = 2600
    assert list(report.fallen(works, known)) == [
        "first, beside numpy: the ratio was 3.5 and is 2.69",
        "first, beside copy: the ratio was 0.5 and is 0.385",
    ]
    works["Tables"]["first"]["tenths"] = 2400
    assert list(report.fallen(works, known)) == []


def test_the_page_was_made_by_this_program(report):
    page = report.PAGE.read_text(encoding="utf-8")
    assert page.startswith(report.PREFACE)
    assert len(report.recorded(page)) > 50
    assert re.search(r"^- Measured on \d{4}-\d\d-\d\d$", page, re.MULTILINE)


@pytest.mark.libraries
@pytest.mark.parametrize("name", ["best_cut", "capability", "cutting_plans", "gauge_studies", "python_calls"])
def test_benches_run_at_a_tiny_size(name, monkeypatch, capsys, report):
    # The others want libraries that only the benches have.
    monkeypatch.setattr(sys, "argv", [name, "--quick"])
    monkeypatch.syspath_prepend(str(BENCHES))
    runpy.run_path(str(BENCHES / f"{name}.py"), run_name="__main__")
    works, _ = report.read(capsys.readouterr().out.splitlines())
    assert works and all("tenths" in ways for of in works.values() for ways in of.values())
