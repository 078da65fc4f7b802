"""Capability of many characteristics beside numpy and scipy on one thread, and a first article read from a long CSV.

Medians of interleaved repeats. Run with the wheel installed: python benches/capability.py [COLUMNS]
"""

import os
import statistics
import sys
import time

for library in ("OPENBLAS", "MKL", "OMP"):
    os.environ[f"{library}_NUM_THREADS"] = "1"

import numpy as np  # noqa: E402
from scipy import special, stats  # noqa: E402

import tenths  # noqa: E402
from tenths import metric  # noqa: E402

COLUMNS = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
READINGS, ROWS, REPEATS = 125, 1_000_000, 7
LIMITS = (9.95, 10.05)


def readings():
    return np.random.default_rng(1).normal(10.002, 0.011, (READINGS, COLUMNS))


def by_numpy(table):
    """The same figures column for column, batched where numpy and scipy have it."""
    lower, upper = LIMITS
    target, width = (lower + upper) / 2, upper - lower
    count = len(table)
    mean, overall = table.mean(0), table.std(0, ddof=1)
    within = np.abs(np.diff(table, axis=0)).mean(0) / (2 / np.sqrt(np.pi))
    cp, cpl, cpu = width / (6 * within), (mean - lower) / (3 * within), (upper - mean) / (3 * within)
    cpk = np.minimum(cpl, cpu)
    degrees = moving_range_degrees(count)
    chi = stats.chi2.ppf([0.025, 0.975], degrees)
    half = stats.norm.ppf(0.975) * np.sqrt(1 / (9 * count) + cpk**2 / (2 * degrees))
    below, above = stats.norm.cdf((lower - mean) / overall), stats.norm.sf((upper - mean) / overall)
    ordered = np.sort((table - mean) / overall, axis=0)
    weights = 2 * np.arange(1, count + 1)[:, None] - 1
    statistic = -count - (weights * (special.log_ndtr(ordered) + special.log_ndtr(-ordered[::-1]))).mean(0)
    return {
        "mean": mean,
        "sigma_within": within,
        "sigma_overall": overall,
        "cp": cp,
        "cpk": cpk,
        "pp": width / (6 * overall),
        "ppk": np.minimum(mean - lower, upper - mean) / (3 * overall),
        "cpm": width / (6 * np.sqrt(overall**2 + (mean - target) ** 2)),
        "cp_interval": cp * np.sqrt(chi / degrees)[:, None],
        "cpk_interval": np.array([cpk - half, cpk + half]),
        "ppm_expected": 1e6 * (below + above),
        "normality_statistic": statistic,
    }


def moving_range_degrees(count):
    """Degrees of freedom of a mean moving range, from the variance of one and the covariance with its neighbour."""
    pairs = count - 1
    variance = 4 / np.pi * (np.pi / 2 - 1)
    covariance = 4 / np.pi * (np.sqrt(3) / 2 + np.pi / 12 - 1)
    return 4 / np.pi / (2 * (variance + 2 * covariance * (pairs - 1) / pairs) / pairs)


def csv_of(rows):
    sizes = np.random.default_rng(2).normal(10, 0.01, rows)
    lines = (f"{1 + k % 50},{1 + k // 50},{size:.4f}" for k, size in enumerate(sizes))
    return "number,piece,measured\n" + "\n".join(lines) + "\n"


def seconds(function, *arguments):
    start = time.perf_counter()
    made = function(*arguments)
    return time.perf_counter() - start, made


def main():
    table = readings()
    ours, theirs = [], []
    for _ in range(REPEATS):
        took, rows = seconds(metric.capability, table, LIMITS)
        ours.append(took)
        took, figures = seconds(by_numpy, table)
        theirs.append(took)
    for name, expected in figures.items():
        if "interval" not in name:
            np.testing.assert_allclose([getattr(row, name) for row in rows], expected, rtol=1e-8)
    one, other = (1e6 * statistics.median(times) / COLUMNS for times in (ours, theirs))
    print(f"{COLUMNS} characteristics of {READINGS} readings, with intervals, expected ppm and a test of normality")
    print(f"capability        {one:8.2f} us each")
    print(f"numpy and scipy   {other:8.2f} us each, {other / one:.1f} times as long")
    text = csv_of(ROWS)
    took = statistics.median(seconds(lambda: tenths.readings_from_csv(text, units="mm"))[0] for _ in range(3))
    print(f"a CSV of {ROWS} readings, {len(text) / 1e6:.0f} MB: read in {took:.2f} s")


if __name__ == "__main__":
    main()
