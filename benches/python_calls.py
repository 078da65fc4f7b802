"""Calls from Python, plans and the import, side by side in one run on one thread: medians of interleaved repeats, and their
ratio.

Run with the wheel installed: python benches/python_calls.py
"""

import json
import math
import statistics
import subprocess
import sys
import timeit
from pathlib import Path

import numpy as np
import pandas as pd

from tenths import Plan, Size, inch, metric

REPEATS = 41


def side_by_side(name, ours, theirs, number, scope):
    """Prints the time of both statements and the ratio of their medians."""
    times = [[], []]
    for _ in range(REPEATS):
        for into, statement in zip(times, (ours, theirs)):
            into.append(timeit.timeit(statement, globals=scope, number=number) / number)
    a, b = map(statistics.median, times)
    print(f"{name:44} {a * 1e9:12.0f} ns {b * 1e9:12.0f} ns   ratio {a / b:.2f}")


def scalars():
    scope = {"f": inch.surface_speed, "plain": lambda d, n: math.pi * d * n}
    side_by_side("scalar by place, against plain Python", "f(0.5, 1500.0)", "plain(0.5, 1500.0)", 50_000, scope)
    side_by_side("scalar with an int, against plain Python", "f(0.5, 1500)", "plain(0.5, 1500)", 50_000, scope)
    side_by_side(
        "scalar by name, against plain Python",
        "f(diameter=0.5, spindle_speed=1500.0)",
        "plain(d=0.5, n=1500.0)",
        50_000,
        scope,
    )


def written(text="12.7 mm"):
    scope = {"f": inch.surface_speed, "t": text, "s": Size(text), "plain": lambda t, n: math.pi * float(t[:4]) / 25.4 * n}
    side_by_side("scalar of text, against plain Python", "f(t, 1500.0)", "plain(t, 1500.0)", 20_000, scope)
    side_by_side("scalar of a Size, against plain Python", "f(s, 1500.0)", "plain(t, 1500.0)", 20_000, scope)


def plans():
    try:
        from orjson import loads
    except ImportError:
        loads = json.loads
    text = (Path(__file__).parent.parent / "examples/plans/jig_rest_pin.json").read_text(encoding="utf-8")
    plan = Plan.from_json(text)
    sheet = plan.evaluate()
    scope = {"Plan": Plan, "plan": plan, "text": text, "sheet": sheet, "printed": sheet.to_json(), "json": json, "loads": loads}
    for name, ours in (
        ("parse", "Plan.from_json(text)"),
        ("evaluate", "plan.evaluate()"),
        ("Markdown", "sheet.to_markdown()"),
        ("parse, evaluate and Markdown", "Plan.from_json(text).evaluate().to_markdown()"),
    ):
        side_by_side(f"plan of {len(text)} bytes: {name}, against json.loads", ours, "json.loads(text)", 50, scope)
    side_by_side(f"sheet: to_json, against {loads.__module__}.loads of it", "sheet.to_json()", "loads(printed)", 50, scope)
    side_by_side("sheet: to_dict, against json.loads of it", "sheet.to_dict()", "json.loads(printed)", 50, scope)


def imports():
    """Milliseconds of processor time, the least of some runs."""
    source = "import time, numpy; start = time.process_time(); import {}; print(1e3 * (time.process_time() - start))"
    for name in ("tenths", "json, html, dataclasses, difflib"):
        run = [sys.executable, "-c", source.format(name)]
        times = [float(subprocess.run(run, capture_output=True, check=True, text=True).stdout) for _ in range(15)]
        print(f"import {name}, beyond numpy: {min(times):.1f} ms")


def arrays(rows=1_000_000):
    rng = np.random.default_rng(1)
    for name in ("surface_speed", "cutting_time", "milling_removal_rate", "seat_margin"):
        formula = getattr(inch, name).ufunc
        columns = [1 + rng.random(rows) for _ in range(formula.nin)]
        # As many bytes in all: a copy reads half of them and writes half.
        words = rows * (formula.nin + 1) // 2
        scope = dict(f=formula, x=columns, y=np.empty(rows), np=np, source=rng.random(words), to=np.empty(words))
        scope["y"][:], scope["to"][:] = 0, 0
        side_by_side(f"{name}, 1e6 rows, against a copy", "f(*x, out=y)", "np.copyto(to, source)", 3, scope)


def checks(rows=1_000_000):
    diameters = 1 + np.random.default_rng(1).random(rows)
    diameters[::1000] = -1
    scope = {"f": inch.surface_speed, "x": diameters}
    side_by_side("check, 1e6 rows, against the call", "f.check(x, 1500.0)", "f.ufunc(x, 1500.0)", 3, scope)


def designations(rows=1_000_000):
    series = pd.Series(["25 H7", "30js6", "120 g6", "8.5 P7"] * (rows // 4))
    scope = {"f": metric.iso_limits, "x": series}
    side_by_side("limits of 1e6 designations, against str.upper", "f(x)", "x.str.upper()", 1, scope)


if __name__ == "__main__":
    scalars()
    written()
    plans()
    imports()
    arrays()
    checks()
    designations()
