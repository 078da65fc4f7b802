"""A linear stack of eight and a function with an inverse cosine, sampled with percentiles, beside numpy on one thread.

Straightforward numpy draws each contributor as one would write it. Numpy in blocks is the best that could be written here:
columns stay in the cache, normal contributors are drawn as one, and a triangle is the sum of two uniform numbers, as in
the library. Medians of interleaved repeats; the function runs as the Rust program of `cargo bench --bench clutch`.

Run with the wheel installed: python benches/stacks.py [COUNT]
"""

import os
import pathlib
import statistics
import subprocess
import sys
import time

for library in ("OPENBLAS", "MKL", "OMP"):
    os.environ[f"{library}_NUM_THREADS"] = "1"

import numpy as np  # noqa: E402

from tenths import metric as shop  # noqa: E402

COUNT = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
REPEATS, BLOCK, MIDDLE = 7, 16384, -12.0
PERCENTS = [0.135, 50, 99.865]
LIMITS = (MIDDLE - 0.3, MIDDLE + 0.3)
PARTS = [
    (10, 0.1, "normal"), (20, 0.15, "normal"), (5, 0.05, "normal"), (8, 0.1, "uniform"),
    (9, 0.08, "uniform"), (7, 0.05, "uniform"), (3, 0.05, "triangular"), (4, 0.1, "triangular"),
]  # fmt: skip


def signs():
    return [1 if place % 2 == 0 else -1 for place in range(len(PARTS))]


def stack():
    built = shop.Stack()
    for place, ((nominal, half, law), sign) in enumerate(zip(PARTS, signs())):
        built.add(f"part {place}", nominal, half, -half, sensitivity=sign, distribution=law)
    return built


def told(values, out, mean, sigma):
    return mean, sigma, values.min(), values.max(), out / len(values), np.percentile(values, PERCENTS)


def straightforward(generator):
    gap = np.zeros(COUNT)
    for (nominal, half, law), sign in zip(PARTS, signs()):
        if law == "normal":
            drawn = generator.normal(nominal, half / 3, COUNT)
        elif law == "uniform":
            drawn = generator.uniform(nominal - half, nominal + half, COUNT)
        else:
            drawn = generator.triangular(nominal - half, nominal, nominal + half, COUNT)
        gap = gap + sign * drawn
    out = np.count_nonzero((gap < LIMITS[0]) | (gap > LIMITS[1]))
    return told(gap, out, gap.mean(), gap.std(ddof=1))


def in_blocks(generator):
    sigma = sum((half / 3) ** 2 for _, half, law in PARTS if law == "normal") ** 0.5
    widths = [2 * half for _, half, law in PARTS if law == "uniform"]
    widths += [half for _, half, law in PARTS if law == "triangular" for _ in range(2)]
    gap, buffer = np.empty(COUNT), np.empty(BLOCK)
    out = total = squares = 0.0
    for start in range(0, COUNT, BLOCK):
        part = gap[start : start + BLOCK]
        drawn = buffer[: len(part)]
        generator.standard_normal(out=part)
        part *= sigma
        for width in widths:
            generator.random(out=drawn)
            drawn *= width
            part += drawn
        part -= 0.5 * sum(widths)
        total += part.sum()
        squares += part @ part
        part += MIDDLE
        out += np.count_nonzero(part < LIMITS[0]) + np.count_nonzero(part > LIMITS[1])
    mean = total / COUNT
    spread = ((squares - COUNT * mean * mean) / (COUNT - 1)) ** 0.5
    extremes = gap.min(), gap.max()
    percentiles = np.percentile(gap, PERCENTS, overwrite_input=True)
    return MIDDLE + mean, spread, *extremes, out / COUNT, percentiles


def clutch_in_numpy(generator):
    hub = generator.normal(27.645, 0.0125 / 3, COUNT)
    roller = generator.normal(11.43, 0.01 / 3, COUNT)
    ring = generator.normal(50.8, 0.0125 / 3, COUNT)
    angle = np.degrees(np.arccos((hub + roller) / (ring - roller)))
    return told(angle, np.count_nonzero((angle < 6.75) | (angle > 7.3)), angle.mean(), angle.std(ddof=1))


def sampled(built):
    sample = built.sample(COUNT, seed=7, limits=LIMITS, threads=1)
    share = sample.fraction_out.value
    return sample.mean, sample.sigma, sample.minimum, sample.maximum, share, sample.percentile(PERCENTS)


def milliseconds(work):
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def clutch_in_rust():
    """The median that the Rust program tells."""
    root = pathlib.Path(__file__).parents[1]
    command = ["cargo", "bench", "--quiet", "--bench", "clutch", "--", str(COUNT)]
    ran = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True)
    return float(ran.stdout.split()[-1])


def compare(title, works):
    times = {name: [] for name in works}
    for _ in range(REPEATS):
        for name, work in works.items():
            times[name].append(milliseconds(work))
    ours = statistics.median(times["tenths"])
    print(f"{title}, {COUNT} samples:")
    for name, taken in times.items():
        median = statistics.median(taken)
        print(f"  {name:<22} {median:8.1f} ms  {median / ours:6.1f}")


def main():
    built, generator = stack(), np.random.default_rng(7)
    ours = sampled(built)
    for other in straightforward(generator), in_blocks(generator):
        # The same law: means and percentiles agree as far as samples do.
        assert np.allclose(ours[:2], other[:2], atol=20 * 0.11 / COUNT**0.5), (ours, other)
        assert np.allclose(ours[5], other[5], atol=60 * 0.11 / COUNT**0.5), (ours, other)
    compare(
        "Eight contributors",
        {
            "tenths": lambda: sampled(built),
            "numpy in blocks": lambda: in_blocks(generator),
            "straightforward numpy": lambda: straightforward(generator),
        },
    )
    clutch_in_rust()
    theirs, own = [], []
    for _ in range(3):
        own.append(clutch_in_rust())
        theirs += [milliseconds(lambda: clutch_in_numpy(generator)) for _ in range(3)]
    own, theirs = statistics.median(own), statistics.median(theirs)
    print(f"An inverse cosine of three, {COUNT} samples:")
    print(f"  {'tenths':<22} {own:8.1f} ms  {1:6.1f}")
    print(f"  {'straightforward numpy':<22} {theirs:8.1f} ms  {theirs / own:6.1f}")


if __name__ == "__main__":
    main()
