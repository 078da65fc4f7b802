"""Gauge studies by analysis of variance with p values, many at once, beside batched numpy and scipy on one thread.

Both give the same figures, which is checked before the clock runs.
"""

from timing import compare, heading, power, size

import numpy as np
from scipy import special

import tenths

COUNT = size(20_000, 200)
PARTS, APPRAISERS, TRIALS = 10, 3, 3


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


def main():
    data = readings()
    table, (_, _, f, tail, variance) = tenths.gauge_studies(data), batched_numpy(data)
    for name in f:
        np.testing.assert_allclose(table[f"f_{name}"], f[name], rtol=1e-8)
        np.testing.assert_allclose(table[f"p_{name}"], tail[name], rtol=1e-7)
    np.testing.assert_allclose(table["variance_part"], variance["part"], rtol=1e-8)
    ways = {"tenths": lambda: tenths.gauge_studies(data), "batched numpy and scipy": lambda: batched_numpy(data)}
    study = f"{PARTS} parts, {APPRAISERS} appraisers, {TRIALS} trials"
    compare(f"gauge study of {study} with p values, each of {power(COUNT)}", ways, each=COUNT, repeats=25)


if __name__ == "__main__":
    heading("Inspection")
    main()
