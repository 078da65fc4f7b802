"""The stubs as a type checker reads them: the examples, a use of every public name, a call of every formula, and wrong calls."""

import json
import pathlib
import re
import runpy
import subprocess
import sys

import pytest
import tenths

ROOT = pathlib.Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples" / "python").glob("*.py"))
USES = ROOT / "tests" / "python" / "typed_uses.py"
IMPORT = "from tenths import metric as shop\n"
WRONG = """\
import tenths
from tenths import metric as shop

number: int = shop.surface_speed("50 mm", 700)
shop.surface_speed("50 mm")
shop.surface_speed(50, 700, diametre=3)
shop.surface_sped(50, 700)
shop.press_fit.on_error
shop.best_cut("turning_cut", {})
shop.best_cut(shop.turning_cut_for_target, {}, minimize="cost", rates=None, limits=3)
shop.limit_to_machine(len, shop.Machine(least_spindle_speed=1, greatest_spindle_speed=2))
tenths.Fit(25)
tenths.cutting_plan([("1 m", 5)], ["3 m"], kerf_width="3 mm")
tenths.control_chart("xbar", [1, 2])
size: tenths.Size = tenths.Fit("25 H7/g6").hole
"""


def published():
    """An ordinary call of each formula, on each side on which a figure was published; elsewhere an attribute of it."""
    rows = {}
    for file in sorted((ROOT / "tests" / "published").glob("*.jsonl")):
        for row in map(json.loads, file.read_text(encoding="utf-8").splitlines()):
            if isinstance(row.get("arguments"), dict) and "formula" in row:
                rows.setdefault((row["units"], row["formula"]), row["arguments"])
    yield "import tenths\n"
    for side in ("inch", "metric"):
        space = getattr(tenths, side)
        for place, name in enumerate(space.__all__):
            formula = getattr(space, name)
            if isinstance(formula, tenths.Formula):
                called = f"tenths.{side}.{name}"
                if arguments := rows.get((side, name)):
                    words = ", ".join(f"{argument}={value!r}" for argument, value in arguments.items())
                    result = f".{formula.outputs[0]}" if len(formula.outputs) > 1 else ""
                    yield f"{side}_{place}: float = {called}({words}){result}\n"
                else:
                    yield f"{side}_{place}: str = {called}.source\n"


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """What is checked beside the examples: the uses with either namespace, a call of every formula, and wrong calls."""
    folder = tmp_path_factory.mktemp("typed")
    uses = USES.read_text(encoding="utf-8")
    assert IMPORT in uses and "AXLE = pathlib.Path(__file__).parents[2]" in uses
    inches = uses.replace(IMPORT, IMPORT.replace("metric", "inch")).replace("pathlib.Path(__file__).parents[2]", f"pathlib.Path({str(ROOT)!r})")
    made = {"uses": USES}
    for name, text in {"inch_uses": inches, "formulas": "".join(published()), "wrong": WRONG}.items():
        made[name] = folder / f"typed_{name}.py"
        made[name].write_text(text, encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def errors(files, tmp_path_factory):
    """What the type checker says of each file. Whether the stubs hold in themselves is for `mypy.stubtest`, in `tests/run`."""
    command = [sys.executable, "-m", "mypy", "--strict", "--no-error-summary", "--config-file="]
    command += ["--cache-dir", tmp_path_factory.mktemp("cache"), *EXAMPLES, *files.values()]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT)
    assert done.returncode in (0, 1) and not done.stderr, done.stderr
    found = {path: [] for path in (*EXAMPLES, *files.values())}
    for line in done.stdout.splitlines():
        path = (ROOT / line.partition(":")[0]).resolve()
        if path in found:
            found[path].append(line)
    return found


@pytest.mark.libraries
def test_the_examples_and_the_uses_have_sound_types(errors, files):
    told = [line for path, lines in errors.items() if path != files["wrong"] for line in lines]
    assert len(EXAMPLES) >= 4 and not told, "\n".join(told)


@pytest.mark.libraries
def test_wrong_calls_are_errors(errors, files):
    wanted = {number for number, line in enumerate(WRONG.splitlines(), 1) if line and not line.startswith(("import", "from"))}
    found = {int(line.split(":")[1]) for line in errors[files["wrong"]] if ": error: " in line}
    assert found == wanted


@pytest.mark.parametrize("name", ["uses", "inch_uses", "formulas"])
def test_what_is_checked_runs(files, name):
    runpy.run_path(str(files[name]), run_name="__main__")


def test_every_public_name_is_used():
    uses = USES.read_text(encoding="utf-8")
    functions = [name for name in tenths.metric.__all__ if not isinstance(getattr(tenths.metric, name), tenths.Formula)]
    assert len(functions) > 20
    names = [f"tenths.{name}" for name in tenths.__all__] + [f"shop.{name}" for name in functions]
    unused = [name for name in names if not re.search(rf"\b{re.escape(name)}\b", uses)]
    assert not unused
