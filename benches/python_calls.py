"""Calls from Python, beside what the names of the rows say.

Each name ends with the other way: `check, 1e6 rows, against the call`.
"""

import math

from timing import compare, heading, size

import numpy as np
import pandas as pd

from tenths import Size, inch, metric


def side_by_side(name, ours, theirs, number, scope):
    """Both statements, in turn."""
    work, _, other = name.partition(", against ")
    compare(work, {"tenths": ours, other: theirs}, number=number, scope=scope)


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
    plain = lambda text, speed: math.pi * float(text[:4]) / 25.4 * speed  # noqa: E731
    scope = {"f": inch.surface_speed, "text": text, "made": Size(text), "plain": plain}
    for name, diameter in (("text", "text"), ("a Size", "made")):
        side_by_side(f"scalar of {name}, against plain Python", f"f({diameter}, 1500.0)", "plain(text, 1500.0)", 20_000, scope)


def arrays(rows=size(1_000_000, 1000)):
    rng = np.random.default_rng(1)
    for name in ("surface_speed", "cutting_time", "milling_removal_rate", "seat_margin"):
        formula = getattr(inch, name).ufunc
        columns = [1 + rng.random(rows) for _ in range(formula.nin)]
        # As many bytes in all: a copy reads half of them and writes half.
        words = rows * (formula.nin + 1) // 2
        scope = dict(f=formula, x=columns, y=np.empty(rows), np=np, source=rng.random(words), to=np.empty(words))
        scope["y"][:], scope["to"][:] = 0, 0
        side_by_side(f"{name}, 1e6 rows, against a copy", "f(*x, out=y)", "np.copyto(to, source)", 3, scope)


def checks(rows=size(1_000_000, 1000)):
    diameters = 1 + np.random.default_rng(1).random(rows)
    diameters[::1000] = -1
    scope = {"f": inch.surface_speed, "x": diameters}
    side_by_side("check, 1e6 rows, against the call", "f.check(x, 1500.0)", "f.ufunc(x, 1500.0)", 3, scope)


def designations(rows=size(1_000_000, 1000)):
    series = pd.Series(["25 H7", "30js6", "120 g6", "8.5 P7"] * (rows // 4))
    scope = {"f": metric.iso_limits, "x": series}
    side_by_side("limits of 1e6 designations, against str.upper", "f(x)", "x.str.upper()", 1, scope)


if __name__ == "__main__":
    heading("Calls")
    scalars()
    written()
    arrays()
    checks()
    designations()
