"""Gauge studies by analysis of variance with p values, many at once, beside batched numpy and scipy on one thread.

Processor time, medians of interleaved repeats. Run with the wheel installed: python benches/gauge_studies.py [COUNT]
"""

import os
import statistics
import sys
import time

for library in ("OPENBLAS", "MKL", "OMP"):
    os.environ[f"{library}_NUM_THREADS"] = "1"

import numpy as np  # noqa: E402
from scipy import special  # noqa: E402

import tenths  # noqa: E402

COUNT = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
PARTS, APPRAISERS, TRIALS, REPEATS = 10, 3, 3, 7


def readings():
    draw = np.random.default_rng(1)
    parts = draw.normal(25, 0.05, (COUNT, PARTS, 1, 1))
    appraisers = draw.normal(0, 0.005, (COUNT, 1, APPRAISERS, 1))
    return parts + appraisers + draw.normal(0, 0.01, (COUNT, PARTS, APPRAISERS, TRIALS))


def batched_numpy(data):
    """The same table, with the tail of F by scipy's incomplete beta function, which is quicker than scipy.stats."""
    mean = data.mean((1, 2, 3))
    part, appraiser, cell = data.mean((2, 3)), data.mean((1, 3)), data.mean(3)
    centre = mean[:, None]
    squares = {
        "part": APPRAISERS * TRIALS * ((part - centre) ** 2).sum(1),
        "appraiser": PARTS * TRIALS * ((appraiser - centre) ** 2).sum(1),
        "interaction": TRIALS
        * ((cell - part[:, :, None] - appraiser[:, None, :] + mean[:, None, None]) ** 2).sum((1, 2)),
        "repeatability": ((data - cell[..., None]) ** 2).sum((1, 2, 3)),
    }
    df = {"part": PARTS - 1, "appraiser": APPRAISERS - 1, "interaction": (PARTS - 1) * (APPRAISERS - 1)}
    df["repeatability"] = PARTS * APPRAISERS * (TRIALS - 1)
    ms = {name: squares[name] / df[name] for name in squares}
    against = {"part": "interaction", "appraiser": "interaction", "interaction": "repeatability"}
    f = {name: ms[name] / ms[other] for name, other in against.items()}
    tail = {
        name: special.betainc(df[other] / 2, df[name] / 2, df[other] / (df[other] + df[name] * f[name]))
        for name, other in against.items()
    }
    variance = {
        "repeatability": ms["repeatability"],
        "interaction": np.maximum(0, ms["interaction"] - ms["repeatability"]) / TRIALS,
        "appraiser": np.maximum(0, ms["appraiser"] - ms["interaction"]) / (PARTS * TRIALS),
        "part": np.maximum(0, ms["part"] - ms["interaction"]) / (APPRAISERS * TRIALS),
    }
    return squares, ms, f, tail, variance


def seconds(function, data):
    start = time.process_time()
    made = function(data)
    return time.process_time() - start, made


def main():
    data = readings()
    ours, theirs = [], []
    for _ in range(REPEATS):
        took, table = seconds(tenths.gauge_studies, data)
        ours.append(took)
        took, (squares, _, f, tail, variance) = seconds(batched_numpy, data)
        theirs.append(took)
    for name in f:
        np.testing.assert_allclose(table[f"f_{name}"], f[name], rtol=1e-8)
        np.testing.assert_allclose(table[f"p_{name}"], tail[name], rtol=1e-7)
    np.testing.assert_allclose(table["variance_part"], variance["part"], rtol=1e-8)
    one, other = (1e9 * statistics.median(times) / COUNT for times in (ours, theirs))
    print(f"{COUNT} studies of {PARTS} parts by {APPRAISERS} appraisers in {TRIALS} trials, each with its p values")
    print(f"tenths.gauge_studies  {one:8.0f} ns a study")
    print(f"batched numpy         {other:8.0f} ns a study, {other / one:.1f} times as long")


if __name__ == "__main__":
    main()
