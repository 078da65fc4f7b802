"""Capability of many characteristics beside numpy and scipy on one thread, and a first article read from a long CSV.

Both give the same figures, which is checked before the clock runs.
"""

import io

from timing import compare, heading, power, size

import numpy as np
import pandas
from scipy import special, stats

import tenths
from tenths import metric

COLUMNS, READINGS, ROWS = size(1000, 10), 125, size(1_000_000, 1000)
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
    root = np.sqrt(chi / degrees)[:, None]
    half = stats.norm.ppf(0.975) * np.sqrt(1 / (9 * count) + cpk**2 / (2 * degrees))
    down, up = (mean - lower) / overall, (upper - mean) / overall
    below, above = special.ndtr(-down), special.ndtr(-up)
    nearer = np.minimum(down, up)
    outside = [1 / np.where(nearer > 0, nearer, 1) ** 2, one_side(down) + one_side(up)]
    ordered = np.sort((table - mean) / overall, axis=0)
    weights = 2 * np.arange(1, count + 1)[:, None] - 1
    statistic = -count - (weights * (special.log_ndtr(ordered) + special.log_ndtr(-ordered[::-1]))).mean(0)
    return {
        "mean": mean,
        "sigma_within": within,
        "sigma_overall": overall,
        "cp": cp,
        "cpl": cpl,
        "cpu": cpu,
        "cpk": cpk,
        "pp": width / (6 * overall),
        "ppk": nearer / 3,
        "cpm": width / (6 * np.sqrt(overall**2 + (mean - target) ** 2)),
        "cp_interval": cp * root,
        "cpk_interval": np.array([cpk - half, cpk + half]),
        "ppm_below": 1e6 * below,
        "ppm_above": 1e6 * above,
        "ppm_expected": 1e6 * (below + above),
        "ppm_bound": 1e6 * np.minimum(np.minimum(*outside), 1),
        "ppm_observed": 1e6 * ((table < lower) | (table > upper)).mean(0),
        "normality_statistic": statistic,
        "normality_p": normality_p(statistic * (1 + 0.75 / count + 2.25 / count**2)),
    }


def one_side(deviations):
    """The largest share beyond a limit so many deviations away: Cantelli's inequality."""
    return np.where(deviations > 0, 1 / (1 + deviations**2), 1)


def normality_p(a):
    """The p value of Anderson and Darling's statistic, raised for the count: D'Agostino and Stephens, table 4.9."""
    pieces = [(0.2, -13.436, 101.14, -223.73), (0.34, -8.318, 42.796, -59.938)]
    pieces += [(0.6, 0.9177, -4.279, -1.38), (13, 1.2937, -5.709, 0.0186)]
    raised = [np.exp(constant + a * (linear + a * square)) for _, constant, linear, square in pieces]
    return np.select([a < end for end, *_ in pieces], [1 - raised[0], 1 - raised[1], *raised[2:]], 0)


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


def main():
    table = readings()
    rows, figures = metric.capability(table, LIMITS), by_numpy(table)
    for name, expected in figures.items():
        if "interval" not in name:
            np.testing.assert_allclose([getattr(row, name) for row in rows], expected, rtol=1e-8)
    ways = {"tenths": lambda: metric.capability(table, LIMITS), "numpy and scipy": lambda: by_numpy(table)}
    compare(f"capability of {READINGS} readings with intervals, ppm and normality, each of {power(COLUMNS)}", ways, each=COLUMNS, repeats=300)
    text = csv_of(ROWS)
    ways = {
        "tenths": lambda: tenths.readings_from_csv(text, units="mm"),
        "pandas, numbers alone": lambda: pandas.read_csv(io.StringIO(text)),
    }
    compare(f"measured sizes from a CSV of {power(ROWS)} lines", ways, repeats=3)


if __name__ == "__main__":
    heading("Inspection")
    main()
