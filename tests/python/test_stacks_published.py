"""Stacks against the figures of `tests/published/stacks.json`, which the Rust and C suites read too."""

import json
import pathlib

import numpy as np
import pytest

from tenths import Distribution, Size, inch, metric

CASES = json.loads((pathlib.Path(__file__).parents[1] / "published/stacks.json").read_text(encoding="utf-8"))
FUNCTIONS = {
    "acos((a + c) / (e - c))": lambda a, c, e: np.degrees(np.arccos((a + c) / (e - c))),
    "w + d (1 + cot(angle / 2))": lambda w, d, angle: w + d * (1 + 1 / np.tan(np.radians(angle / 2))),
    "d sin(angle / 2)": lambda d, angle: d * np.sin(np.radians(angle / 2)),
    "c² / (8 h) + h / 2": lambda c, h: c * c / (8 * h) + h / 2,
}


def of(kind):
    cases = [case for case in CASES if kind in case]
    assert len(cases) >= 4
    return pytest.mark.parametrize("case", cases, ids=[case[kind] for case in cases])


def law(one, case):
    if "cp" in case:
        return Distribution.normal(cp=case["cp"], shift=case["shift"])
    given = one.get("distribution", "normal")
    if isinstance(given, str):
        return given
    ((name, numbers),) = given.items()
    make = {"triangular": Distribution.triangular, "process": Distribution.process}
    if name == "truncated_normal":
        return Distribution.truncated_normal(cp=numbers[0], shift=numbers[1])
    return make[name](*np.atleast_1d(numbers))


def stack(case):
    built = {"inch": inch, "metric": metric}[case["units"]].Stack()
    for one in case["contributors"]:
        built.add(
            one["name"], one["nominal"], one["plus"], one["minus"], one["sensitivity"], distribution=law(one, case)
        )
    return built


def near(expected, relative=1e-8):
    return pytest.approx(expected, rel=relative, abs=1e-12)


@of("stack")
def test_linear_stacks(case):
    built, unit = stack(case), {"inch": "in", "metric": "mm"}[case["units"]]
    worst, limit = built.worst_case(), case.get("lower_limit")
    spread = {name: built.spread(name) for name in ("centred", "dynamic", "static")}
    contributions = built.contributions()
    told = {
        "mean": lambda: built.rss().mean,
        "worst_case_tolerance": lambda: worst.tolerance.to_float(unit) / 2,
        "rss_tolerance": lambda: built.rss().tolerance,
        "inflated_tolerance": lambda: built.inflated_rss(1.5).tolerance,
        "spotts_tolerance": lambda: built.spotts().tolerance,
        "estimated_mean_shift": lambda: built.estimated_mean_shift(case["shares"]).tolerance,
        "static_shift": lambda: spread["static"].shift,
        "rss_percent": lambda: [one.rss for one in contributions],
        "worst_case_percent": lambda: [one.worst_case for one in contributions],
    }
    for name, one in spread.items():
        told[f"sigma_{name}"] = lambda one=one: one.sigma
        told[f"z_{name}"] = lambda one=one: one.z_lower(limit)
        told[f"ppm_{name}"] = lambda one=one: 1e6 * one.fraction_below(limit)
    for name, expected in case["results"].items():
        if isinstance(expected, str):
            assert getattr(worst, name) == Size(f"{expected} {unit}")
        else:
            assert told[name]() == near(expected, 1e-6 if name.startswith("ppm") else 1e-8), name


@of("law")
def test_laws(case):
    statistics = stack(case).statistics()
    for name, expected in case["results"].items():
        if name == "variance":
            assert statistics.sigma**2 == near(expected)
        elif name not in ("above", "below"):
            assert getattr(statistics, name) == near(expected), name


@of("function")
def test_functions(case):
    inputs = {one["name"]: (one["nominal"], one["plus"], one["minus"]) for one in case["inputs"]}
    around = metric.propagate(FUNCTIONS[case["function"]], inputs)
    moments, extremes = around.moments, around.extremes
    told = {
        "nominal": (around.nominal, 1e-8),
        "lower": (extremes.lower, 1e-8),
        "upper": (extremes.upper, 1e-8),
        "three_first_order_sigma": (3 * moments.first_order_sigma, 1e-7),
        "second_order_mean": (moments.mean, 1e-8),
        "mean": (moments.mean, 2e-7),
        "sigma": (moments.sigma, 2e-6),
        "derivatives": (list(moments.derivatives.values()), 1e-7),
        "contributions": (list(moments.contributions.values()), 1e-6),
    }
    for name, expected in case["results"].items():
        got, relative = told[name]
        assert got == near(expected, relative), name
